//! A value confirmed after a move is not one that was measured there, and is not told as one.

use super::sample::{case, mm, one, tooth, valid, work};
use traywright_core::case::{
    Access, Case, Distance, DistanceTo, Height, Placement, PointMm, ValidCase, Vector, read_case,
};
use traywright_core::dentition::{ArchModel, Jaw, Notation};
use traywright_core::measure::Length;
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
    put_site(case, 0, along, buccal);
}

fn put_site(case: &mut Case, n: usize, along: &str, buccal: &str) {
    let Placement::OnArch {
        along_mm,
        buccal_mm,
        ..
    } = &mut case.sites[n].placement
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
    let of_place = |f: &&Finding| f.place.key() == place && f.rule.key() != "confirmed-disagree";
    let found = sheet.findings.iter().find(of_place);
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
    for (buccal, want) in [("0.2", None), ("0.21", Some("0.21")), ("-0.5", Some("0.5"))] {
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

fn disagree(sheet: &Worksheet, rule: &str) -> Option<(Option<String>, String)> {
    let found = sheet.findings.iter().find(|f| f.rule.key() == rule)?;
    assert_eq!(found.verdict, Verdict::Unknown);
    let arg = |name| found.args.get(name).map(Argument::to_string);
    Some((arg("how"), arg("by")?))
}

fn placed(change: impl FnOnce(&mut Case)) -> Worksheet {
    let mut case = case();
    change(&mut case);
    confirm(&mut case, "N. Quill");
    work(case)
}

/// An apex that went 10 · tan 12° = 2.125 to buccal left both walls there.
#[test]
fn both_walls_cannot_hold_at_the_apex_of_an_axis_that_leant_over() {
    for (height, want) in [
        (Height::Crest, None),
        (Height::Mid, Some((None, "1.06".to_owned()))),
        (Height::Apex, Some((None, "2.12".to_owned()))),
        (Height::Least, None),
    ] {
        let sheet = placed(|case| {
            for wall in &mut case.sites[0].walls {
                wall.at = height;
            }
            let Placement::OnArch {
                apex_to_buccal_deg, ..
            } = &mut case.sites[0].placement
            else {
                panic!()
            };
            *apex_to_buccal_deg = serde_json::from_str("12").unwrap();
        });
        assert_eq!(disagree(&sheet, "walls-disagree"), want, "{height:?}");
    }
}

/// Of a move by coordinates straight to buccal the arch model, taken to be turned by 20° at most, leaves
/// its cosine: 1 · 0.9397; of one along the arch nothing is certain.
#[test]
fn both_walls_cannot_hold_after_a_move_by_coordinates() {
    let by = |steps: [f64; 2]| {
        let arch = ArchModel::mean(Jaw::Lower);
        let centre = arch.tooth(tooth("36")).unwrap().centre;
        let [x, y] = [0, 1].map(|i| steps[0] * centre.distal[i] + steps[1] * centre.buccal[i]);
        let mut case = case();
        case.arch = None;
        let site = |x: f64, y: f64| Placement::Measured {
            platform: PointMm {
                x_mm: Length::floor_mm(centre.x_mm + x),
                y_mm: Length::floor_mm(centre.y_mm + y),
                z_mm: mm("-9"),
            },
            direction: Vector {
                x: Length::ZERO,
                y: Length::ZERO,
                z: mm("-1"),
            },
        };
        case.sites[0].placement = site(0.0, 0.0);
        super::sample::measure_anew(&mut case);
        case.sites[0].placement = site(x, y);
        confirm(&mut case, "N. Quill");
        let sheet = work(case);
        let tenths = |found: Option<(Option<String>, String)>| {
            found.map(|(_, by)| (by.parse::<f64>().unwrap() * 100.0).round() / 100.0)
        };
        [
            tenths(disagree(&sheet, "walls-disagree")),
            tenths(disagree(&sheet, "confirmed-disagree")),
        ]
    };
    assert_eq!(by([0.0, 1.0]), [Some(0.93), None]);
    assert_eq!(by([0.0, -1.0]), [Some(0.93), None]);
    assert_eq!(by([1.0, 0.0]), [None, Some(0.93)]);
    assert_eq!(by([0.0, 0.2]), [None, None]);
}

/// Along the arch to one neighbour is away from the other: 0.3 · cos 20° = 0.282, and 0.2 is within
/// reading.
#[test]
fn both_neighbours_cannot_hold_after_a_move_between_them() {
    for (along, want) in [
        ("0.21", None),
        ("0.3", Some("0.28")),
        ("-0.3", Some("0.28")),
    ] {
        let sheet = placed(|case| put(case, along, "0"));
        let want = want.map(|by| (Some("neighbours".to_owned()), by.to_owned()));
        assert_eq!(disagree(&sheet, "confirmed-disagree"), want, "{along}");
    }
}

/// A platform that went deeper by more than a reading left what lies below it; one that went higher did
/// so too, on the safe side.
#[test]
fn a_height_below_the_platform_cannot_hold_after_it_went_deeper() {
    for (deeper, want) in [("0.2", None), ("0.21", Some("0.21")), ("-0.5", None)] {
        let sheet = placed(|case| {
            let depth = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
            depth.highest_mm += mm(deeper);
            depth.lowest_mm += mm(deeper);
        });
        let want = want.map(|by| (Some("deeper".to_owned()), by.to_owned()));
        assert_eq!(disagree(&sheet, "confirmed-disagree"), want, "{deeper}");
    }
}

/// A distance between two sites holds as long as neither moved: who confirmed it at the one, at the other, and in
/// the distance that was entered from there are all told, the one after the farthest move first.
#[test]
fn everybody_who_confirmed_a_distance_between_two_sites_is_told() {
    // 9.0 between the axes: 9.0 − 2.3 − 2.3 = 4.4, of which 3.0 is the limit.
    let told = |words: [Option<&str>; 3]| {
        let mut case = case();
        case.sites[0].distances.clear();
        case.sites.push(super::sample::site("two", "35", &[]));
        let then = |case: &Case, n: usize| case.sites[n].measured_now(mm("10"));
        let measured = [then(&case, 0), then(&case, 1)];
        put(&mut case, "0.3", "0");
        put_site(&mut case, 1, "0.5", "0");
        let said = |n: usize, word: Option<&str>| match word {
            Some(by) => measured[n].confirmed(&then(&case, n), by.into()),
            None => then(&case, n),
        };
        let distance = |to: &str, own, theirs| Distance {
            to: DistanceTo::Site { site: to.into() },
            at: Height::Least,
            from_axis_mm: mm("9"),
            measured_at: own,
            other_measured_at: Some(theirs),
        };
        let one = distance("two", said(0, words[0]), said(1, words[1]));
        let two = distance("one", said(1, words[2]), said(0, None));
        case.sites[0].distances.push(one);
        case.sites[1].distances.push(two);
        let case = valid(case);
        let sheet = work(case.clone().into_case());
        let pair = sheet
            .findings
            .iter()
            .find(|f| f.rule.key() == "neighbour-implant");
        let said = Formatter::english(&case, Notation::Iso).finding(pair.unwrap());
        said.basis.unwrap()
    };
    let by = |who: &str, moved: &str| {
        format!("confirmed by {who} after a move of {moved} mm, not measured anew")
    };
    let (quill, wren, reed) = (
        by("N. Quill", "0.3"),
        by("R. Wren", "0.5"),
        by("A. Reed", "0.5"),
    );
    for (words, want) in [
        ([Some("N. Quill"), None, None], vec![&quill]),
        ([None, Some("R. Wren"), None], vec![&wren]),
        (
            [Some("N. Quill"), Some("R. Wren"), None],
            vec![&wren, &quill],
        ),
        (
            [Some("N. Quill"), Some("R. Wren"), Some("A. Reed")],
            vec![&wren, &reed, &quill],
        ),
        ([None, Some("R. Wren"), Some("R. Wren")], vec![&wren]),
    ] {
        let told = told(words);
        assert_eq!(told.matches("confirmed by").count(), want.len(), "{told}");
        for one in want {
            assert!(told.contains(one.as_str()), "{told}");
        }
    }
}

/// Walls told at different heights lie on both sides of one move all the same.
#[test]
fn walls_at_other_heights_cannot_both_hold_either() {
    let sheet = placed(|case| {
        let walls = &mut case.sites[0].walls;
        (walls[0].at, walls[1].at) = (Height::Crest, Height::Least);
        put(case, "0", "1.2");
    });
    let by = (None, "1.2".to_owned());
    assert_eq!(disagree(&sheet, "walls-disagree"), Some(by));
}

/// A platform that went 4.0 along its axis is not as deep below the crest as it was.
#[test]
fn a_depth_below_the_crest_cannot_hold_after_the_platform_went_deeper() {
    for (z, want) in [
        ("-9", None),
        ("-9.2", None),
        ("-13", Some("4")),
        ("-5", None),
    ] {
        let mut case = case();
        case.arch = None;
        let site = |z: &str| Placement::Measured {
            platform: PointMm {
                x_mm: mm("24"),
                y_mm: mm("25"),
                z_mm: mm(z),
            },
            direction: Vector {
                x: Length::ZERO,
                y: Length::ZERO,
                z: mm("-1"),
            },
        };
        case.sites[0].placement = site("-9");
        super::sample::measure_anew(&mut case);
        case.sites[0].placement = site(z);
        case.sites[0].heights.confirm(site(z), &"N. Quill".into());
        let sheet = work(case);
        let want = want.map(|by| (Some("crest".to_owned()), by.to_owned()));
        assert_eq!(disagree(&sheet, "confirmed-disagree"), want, "{z}");
    }
}

/// Between a tooth and a planned site that stands as it did, a move along the arch changes one of the two;
/// what is true of a site that was moved as well nobody can say.
#[test]
fn a_tooth_and_a_planned_site_cannot_both_hold_after_a_move_between_them() {
    let told = |other_moves: bool| {
        let mut case = case();
        // To 37, and to a site at 35 in place of the tooth.
        case.sites[0].distances.remove(0);
        case.teeth.retain(|one| one.position != tooth("35"));
        case.teeth.push(super::sample::present("34"));
        case.sites.push(super::sample::site("two", "35", &[]));
        let then = case.sites[0].measured_now(mm("10"));
        let theirs = case.sites[1].measured_now(mm("10"));
        case.sites[0].distances.push(Distance {
            to: DistanceTo::Site { site: "two".into() },
            at: Height::Least,
            from_axis_mm: mm("9"),
            measured_at: then,
            other_measured_at: Some(theirs),
        });
        put(&mut case, "-1", "0");
        if other_moves {
            put_site(&mut case, 1, "0.5", "0");
        }
        confirm(&mut case, "N. Quill");
        disagree(&work(case), "confirmed-disagree")
    };
    assert_eq!(
        told(false),
        Some((Some("neighbours".to_owned()), "0.93".to_owned()))
    );
    assert_eq!(told(true), None);
}
