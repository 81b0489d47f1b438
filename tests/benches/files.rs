//! Time of what people wait for with files: the list of a thousand cases, opening one of fourteen sites, saving it, alone and
//! with an event in its record; beside that the same bytes written plainly and brought to the disk, by this program and by
//! `dd conv=fsync`. The files lie where the tests put theirs (`CARGO_TARGET_TMPDIR`), on the disk of the checkout.
//!
//! Told are the best and the middle of several runs by the wall's clock, since what else the machine does only adds, and the
//! work of all threads for one run.

#![expect(
    clippy::print_stdout,
    reason = "a harness tells its figures on the standard output"
)]

mod many_sites;

use many_sites::sites;
use std::fs::File;
use std::hint::black_box;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use traywright_core::case::read_case;
use traywright_core::plan::{case_jaw, work_out};
use traywright_core::sign::{EventKind, Who, WriterId};
use traywright_core::store::{
    Content, Private, Version, append_event, cases_in, read_file, replace,
};

/// The most bytes that are read.
const LIMIT: u64 = 1 << 24;
/// Events in the record before anything is measured.
const EVENTS: usize = 200;
/// A tick of the system's count of work, on Linux (`USER_HZ`).
const TICK: Duration = Duration::from_millis(10);

fn main() {
    let case = sites(14);
    assert_eq!(case.sites.len(), 14);
    let text = serde_json::to_vec_pretty(&*case).expect("a case is text");
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).expect("there is room");
    let file = |name: &str| folder.path().join(name);
    for number in 0..1000 {
        std::fs::write(file(&format!("{number}.json")), &text).expect("there is room");
    }
    measured("list of 1000 cases of 14 sites", 20, || {
        let cases = cases_in(folder.path()).expect("the folder is there");
        assert!(cases.len() == 1000 && cases.iter().all(|case| case.head.is_ok()));
    });
    measured("opening a case of 14 sites", 100, || {
        let bytes = read_file(&file("0.json"), LIMIT).expect("it is there");
        black_box(work_out(&read_case(&bytes).expect("it is sound")));
    });
    let mut version = Version::of(&text);
    let mut save = || {
        let content = Content {
            bytes: &text,
            private: Private::like(&file("0.json")),
            over_protection: false,
        };
        let replaced = replace(&file("0.json"), version, LIMIT, content);
        version = replaced.expect("nobody else writes").version;
    };
    measured("saving a case of 14 sites", 100, &mut save);
    let (desk, jaw) = (WriterId::new("desk").expect("a name"), case_jaw(&case));
    let event = || {
        let who = Who::new("Ida Hale").expect("a name");
        let text = "measured".to_owned();
        let now = jiff::Timestamp::now();
        append_event(
            &file("0.json"),
            &jaw,
            &desk,
            now,
            who,
            EventKind::Note { text },
        )
        .expect("there is room");
    };
    for _ in 0..EVENTS {
        event();
    }
    let name = format!("saving it with an event behind {EVENTS} others");
    measured(&name, 100, || {
        save();
        event();
    });
    measured("the same bytes plainly, to the disk", 100, || {
        plainly(&file("plain"), black_box(&text));
    });
    measured("the same bytes by dd conv=fsync", 100, || {
        dd(&file("plain"), &file("by dd"));
    });
}

/// Tells the best and the middle of so many runs, and the work for one.
fn measured(name: &str, runs: u32, mut run: impl FnMut()) {
    run();
    let before = work();
    let mut took: Vec<Duration> = (0..runs)
        .map(|_| {
            let begun = Instant::now();
            run();
            begun.elapsed()
        })
        .collect();
    let work = work().saturating_sub(before) / runs;
    took.sort();
    let (best, middle) = (took[0], took[took.len() / 2]);
    println!("{name}: best {best:.2?}, middle {middle:.2?} of {runs}; work {work:.1?} each");
}

/// The work of all threads of this process and of those that it waited for, by the system; nothing where it does not tell.
fn work() -> Duration {
    let told = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // What stands behind the name of the program, which may hold anything: proc(5), fields 14 to 17.
    let behind = told.rsplit_once(')').map_or("", |(_, behind)| behind);
    let ticks = behind.split_whitespace().skip(11).take(4);
    let ticks: u32 = ticks.filter_map(|ticks| ticks.parse::<u32>().ok()).sum();
    TICK * ticks
}

fn plainly(file: &Path, bytes: &[u8]) {
    let mut file = File::create(file).expect("there is room");
    file.write_all(bytes).expect("there is room");
    file.sync_all().expect("the disk answers");
}

fn dd(from: &Path, to: &Path) {
    let mut command = Command::new("dd");
    command.arg(format!("if={}", from.display()));
    command.arg(format!("of={}", to.display()));
    command.args(["bs=1M", "conv=fsync"]).stderr(Stdio::null());
    assert!(command.status().expect("dd is there").success());
}
