//! A value confirmed after a move is not one that was measured there, and is not told as one.

use super::sample::{case, mm, one, valid, work};
use traywright_core::case::{Access, Case, Placement, ValidCase, read_case};
use traywright_core::dentition::Notation;
use traywright_core::plan::{
    Argument, Basis, Finding, Known, Reason, SiteHeight, Verdict, Worksheet, stale_values,
};
use traywright_core::wording::Formatter;

/// The place of each kind of measured value that the sample has.
const PLACES: [&str; 4] = [
    "sites[one].walls[buccal least]",
    "sites[one].structures[mandibular_canal]",
    "sites[one].distances[35]",
    "sites[one].heights",
];

fn put(case: &mut Case, along: &str, buccal: &str) {
    let Placement::OnArch {
        along_mm,
        buccal_mm,
        ..
    } = &mut case.sites[0].placement
    else {
        panic!()
    };
    (*along_mm, *buccal_mm) = (mm(along), mm(buccal));
}

/// Confirms all that was measured at the site, as it stands.
fn confirm(case: &mut Case, by: &str) {
    let site = &mut case.sites[0];
    let now = site.measured_now(mm("10"));
    let walls = site.walls.iter_mut().map(|one| &mut one.measured_at);
    let structures = site.structures.iter_mut().map(|one| &mut one.measured_at);
    let distances = site.distances.iter_mut().map(|one| &mut one.measured_at);
    for one in walls.chain(structures).chain(distances) {
        *one = one.confirmed(&now, by.into());
    }
    site.heights.confirm(site.placement, &by.into());
}

fn at<'a>(sheet: &'a Worksheet, place: &str) -> &'a Finding {
    let found = sheet.findings.iter().find(|f| f.place.key() == place);
    found.unwrap_or_else(|| panic!("{place}: {:?}", sheet.findings))
}

fn told(finding: &Finding) -> (Option<String>, Option<String>) {
    let arg = |name| finding.args.get(name).map(Argument::to_string);
    (arg("confirmed_by"), arg("moved_by"))
}

/// What `plan` works out is that of the entered value, and who confirmed it and after how much of a move
/// from where it was measured stands beside it, as often as it is confirmed.
#[test]
fn who_confirmed_and_after_what_move_is_told() {
    let measured = work(case());
    for times in 1..=2 {
        let mut case = case();
        for n in 1..=times {
            put(&mut case, if n == times { "0.5" } else { "0.3" }, "0");
            confirm(&mut case, "N. Quill");
        }
        let sheet = work(case.clone());
        for place in PLACES {
            let (then, now) = (at(&measured, place), at(&sheet, place));
            assert_eq!((now.verdict, &now.value), (then.verdict, &then.value));
            let by = Some("N. Quill".to_owned());
            assert_eq!(told(now), (by, Some("0.5".to_owned())), "{place}");
            assert_eq!(told(then), (None, None), "{place}");
            assert_ne!(now.digest(), then.digest(), "{place}");
        }
        assert_eq!(at(&sheet, PLACES[0]).basis, Basis::Confirmed);
        let case = valid(case);
        let said = Formatter::english(&case, Notation::Iso).finding(at(&sheet, PLACES[0]));
        assert_eq!(
            said.basis.as_deref(),
            Some("basis: confirmed by N. Quill after a move of 0.5 mm, not measured anew")
        );
    }
}

/// A word by nobody who could sign is none, as with decisions.
#[test]
fn a_confirmation_without_a_name_does_not_count() {
    for by in ["-", " ", "…", "\u{3164}"] {
        let mut case = case();
        put(&mut case, "0.5", "0");
        let moved = work(case.clone());
        confirm(&mut case, by);
        let sheet = work(case.clone());
        for place in PLACES {
            assert_eq!(at(&sheet, place).verdict, at(&moved, place).verdict);
            assert_eq!(at(&sheet, place).value, at(&moved, place).value, "{by}");
            assert_eq!(told(at(&sheet, place)), (None, None), "{place}");
        }
        // Confirmed by somebody it counts, from where it was measured.
        confirm(&mut case, "N. Quill");
        let by = Some("N. Quill".to_owned());
        for place in PLACES {
            let told = told(at(&work(case.clone()), place));
            assert_eq!(told, (by.clone(), Some("0.5".to_owned())), "{place}");
        }
    }
}

/// With the next move it is as old as it was measured: 0.6 and then 0.6 more are 1.2, of which nobody
/// can say what they take, though each alone could be said.
#[test]
fn a_confirmation_lapses_with_the_next_move() {
    let mut case = case();
    put(&mut case, "0.6", "0");
    confirm(&mut case, "N. Quill");
    put(&mut case, "1.2", "0");
    let sheet = work(case.clone());
    for place in PLACES {
        let finding = at(&sheet, place);
        assert_eq!(finding.verdict, Verdict::Unknown, "{place}");
        assert!(
            finding
                .value
                .reasons()
                .iter()
                .any(|r| matches!(r, Reason::Stale(..)))
        );
        assert_eq!(told(finding), (None, None));
    }
    let case = valid(case);
    let stale = stale_values(&case, &case.sites[0]);
    assert!(stale.heights && stale.walls.iter().all(|stale| *stale));
    // Back where it was measured it holds by itself.
    let mut back = case.into_case();
    put(&mut back, "0", "0");
    let finding = work(back);
    assert_eq!(at(&finding, PLACES[0]).basis, Basis::Measured);
}

/// A height entered after the others were confirmed is measured; they are not, nor when a file says so
/// and another move took the word back.
#[test]
fn one_height_measured_after_a_confirmation_confirms_no_other() {
    let mut case = case();
    case.guide.access = Access::Punch;
    put(&mut case, "0.5", "0");
    confirm(&mut case, "N. Quill");
    let enter = |case: &mut Case, tissue| {
        let site = &mut case.sites[0];
        site.heights.tissue_thickness_mm = tissue;
        let now = site.placement;
        site.heights.enter(SiteHeight::TissueThickness, now);
    };
    enter(&mut case, Some(mm("2.5")));
    // The room over the crest rests on both.
    let sheet = work(case.clone());
    let by = Some("N. Quill".to_owned());
    assert_eq!(
        told(one(&sheet, "tissue-room")),
        (by, Some("0.5".to_owned()))
    );
    let bases = |sheet: &Worksheet| {
        let figure = one(sheet, "tissue-room").figure.clone().unwrap();
        let of = |name: &str| {
            figure
                .terms
                .iter()
                .find(|term| term.name.key() == name)
                .unwrap()
                .basis
        };
        [of("term-crest-above-platform"), of("term-tissue-thickness")]
    };
    assert_eq!(bases(&sheet), [Basis::Confirmed, Basis::Measured]);
    // As a file of its own it is read back the same.
    let text = traywright_core::document::print(&case).unwrap();
    assert_eq!(*read_case(text.as_bytes()).unwrap(), case);
    // Back where the crest was measured that counts, and the tissue does not.
    put(&mut case, "0", "0");
    let sheet = valid(case.clone());
    let site = &sheet.sites[0];
    assert!(stale_values(&sheet, site).heights);
    let now = &traywright_core::plan::work_out(&sheet);
    let Known::Unknown(reasons) = &one(now, "tissue-room").value else {
        panic!()
    };
    assert!(
        matches!(&reasons[..], [Reason::Stale(place, _)] if place.key() == "sites[one].heights.tissue_thickness_mm"),
        "{reasons:?}"
    );
    // Taken away it leaves no trace.
    put(&mut case, "0.5", "0");
    enter(&mut case, None);
    assert!(case.sites[0].heights.apart.is_empty());
    let mut twice = case.clone();
    enter(&mut twice, Some(mm("2.5")));
    let one = twice.sites[0].heights.apart[0].clone();
    twice.sites[0].heights.apart.push(one);
    assert!(ValidCase::try_from(twice).is_err());
}

/// 0.2 to buccal is within what each is read to; more of it leaves less on one side, whoever confirms
/// that it did not.
#[test]
fn both_walls_cannot_hold_after_a_move_between_them() {
    for (buccal, want) in [
        ("0.2", None),
        ("0.201", Some("0.201")),
        ("-0.5", Some("0.5")),
    ] {
        let mut case = case();
        put(&mut case, "0", buccal);
        confirm(&mut case, "N. Quill");
        let sheet = work(case.clone());
        let found = sheet
            .findings
            .iter()
            .find(|f| f.rule.key() == "walls-disagree");
        let by = found.map(|f| (f.verdict, f.args["by"].to_string()));
        assert_eq!(
            by,
            want.map(|by| (Verdict::Unknown, by.to_owned())),
            "{buccal}"
        );
        // One of the two measured anew ends it.
        case.sites[0].walls[0].measured_at = case.sites[0].measured_now(mm("10"));
        let sheet = work(case);
        assert!(
            !sheet
                .findings
                .iter()
                .any(|f| f.rule.key() == "walls-disagree")
        );
    }
}
