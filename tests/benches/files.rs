//! Time of what people wait for with files: the list of a thousand cases, opening one of fourteen sites,
//! and saving it; beside that the same bytes written plainly and brought to the disk, as `dd conv=fsync` does.
//! The files lie where the tests put theirs (`CARGO_TARGET_TMPDIR`), on the disk of the checkout.

mod many_sites;

use criterion::{Criterion, criterion_group, criterion_main};
use many_sites::sites;
use std::fs::File;
use std::hint::black_box;
use std::io::Write as _;
use std::path::Path;
use traywright_core::case::read_case;
use traywright_core::plan::work_out;
use traywright_core::store::{Content, Private, Version, cases_in, read_file, replace};

/// The most bytes that are read.
const LIMIT: u64 = 1 << 24;

fn files(c: &mut Criterion) {
    let case = sites(14);
    assert_eq!(case.sites.len(), 14);
    let text = serde_json::to_vec_pretty(&*case).expect("a case is text");
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).expect("there is room");
    let file = |name: &str| folder.path().join(name);
    for number in 0..1000 {
        std::fs::write(file(&format!("{number}.json")), &text).expect("there is room");
    }
    c.bench_function("list of 1000 cases of 14 sites", |b| {
        b.iter(|| {
            let cases = cases_in(folder.path()).expect("the folder is there");
            assert!(cases.len() == 1000 && cases.iter().all(|case| case.head.is_ok()));
        });
    });
    c.bench_function("opening a case of 14 sites", |b| {
        b.iter(|| {
            let bytes = read_file(&file("0.json"), LIMIT).expect("it is there");
            work_out(&read_case(&bytes).expect("it is sound"))
        });
    });
    let mut version = Version::of(&text);
    c.bench_function("saving a case of 14 sites", |b| {
        b.iter(|| {
            let content = Content {
                bytes: &text,
                private: Private::like(&file("0.json")),
                over_protection: false,
            };
            let replaced = replace(&file("0.json"), version, LIMIT, content);
            version = replaced.expect("nobody else writes").version;
        });
    });
    c.bench_function("the same bytes plainly, to the disk", |b| {
        b.iter(|| plainly(&file("plain"), black_box(&text)));
    });
}

fn plainly(file: &Path, bytes: &[u8]) {
    let mut file = File::create(file).expect("there is room");
    file.write_all(bytes).expect("there is room");
    file.sync_all().expect("the disk answers");
}

criterion_group!(benches, files);
criterion_main!(benches);
