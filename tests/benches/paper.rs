//! Time to lay out and write the checklist and the record of a case of eight sites: the six of the demonstration
//! and two more like them at other teeth.

#![expect(
    clippy::print_stdout,
    reason = "a benchmark tells its figures on the standard output"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::path::Path;
use traywright_core::case::{Case, DistanceTo, Placement, ValidCase, read_case};
use traywright_core::dentition::Notation;
use traywright_core::kit::SiteId;
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::record::record;
use traywright_core::sheet::Paper;
use traywright_core::sheet::checklist::{Printing, Signed, checklist, checklist_pdf, record_pdf};
use traywright_core::sign::{Merged, Policy, standing};

/// The demonstration of a full arch with copies of two sites in the places of its second molars.
fn eight_sites() -> ValidCase {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo/full-arch-upper.json");
    let bytes = std::fs::read(file).expect("the demonstration is there");
    let mut case: Case = read_case(&bytes).expect("it can be read").into_case();
    for (index, tooth) in [(0, "17"), (5, "27")] {
        let mut site = case.sites[index].clone();
        site.id = SiteId::from(format!("more-{tooth}").as_str());
        site.tooth = tooth.parse().expect("a tooth");
        if let Placement::OnArch { at, .. } = &mut site.placement {
            *at = site.tooth;
        }
        site.distances
            .retain(|distance| !matches!(distance.to, DistanceTo::Site { .. }));
        case.sites.push(site);
    }
    ValidCase::try_from(case).expect("the copies are sound")
}

fn paper(c: &mut Criterion) {
    let case = eight_sites();
    assert_eq!(case.sites.len(), 8);
    let worksheet = work_out(&case);
    let signed = Signed::nothing();
    let at = jiff::Timestamp::UNIX_EPOCH;
    let (a4, iso) = (Printing::all(Paper::A4), Notation::Iso);
    let bytes =
        checklist_pdf(&case, &worksheet, &signed, None, a4, iso, at).expect("it can be printed");
    println!("checklist of 8 sites: {} bytes", bytes.len());
    c.bench_function("checklist of 8 sites, laid out", |b| {
        b.iter(|| checklist(black_box(&case), &worksheet, &signed, None, a4, iso, at));
    });
    c.bench_function("checklist of 8 sites, as a PDF", |b| {
        b.iter(|| checklist_pdf(black_box(&case), &worksheet, &signed, None, a4, iso, at));
    });
    let nothing = Merged::of(case_jaw(&case), []).expect("no events");
    let view = plan_view(&case, &worksheet, &nothing);
    let standing = standing(&nothing, &view, &Policy::strict(20)).expect("it stands");
    let of = (&case, &worksheet);
    c.bench_function("record of 8 sites, as a PDF", |b| {
        b.iter(|| {
            let record = record(black_box(&case), &worksheet, (&view, &standing));
            record_pdf(of, &signed, &record, (Paper::A4, iso), at)
        });
    });
}

criterion_group!(benches, paper);
criterion_main!(benches);
