//! A value confirmed after a move is not one that was measured there, and is not told as one.

use super::sample::{all, case, mm, one, tooth, valid, work};
use traywright_core::case::{
    Access, BoneState, BoneThen, Case, Distance, DistanceTo, GapMeasuredAt, Height, MeasuredAt,
    Obstacle, Placement, PointMm, SiteState, Socket, ValidCase, Vector, read_case,
};
use traywright_core::dentition::{ArchModel, Jaw, Notation};
use traywright_core::measure::Length;
use traywright_core::plan::{
    Argument, Basis, Finding, Known, Reason, SiteHeight, Verdict, Worksheet, stale_values, work_out,
};
use traywright_core::sign::Purpose;
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
    let purpose = case.purpose();
    let site = &mut case.sites[0];
    let now = site.measured_now(mm("10"));
    let walls = site.walls.iter_mut().map(|one| &mut one.measured_at);
    let structures = site.structures.iter_mut().map(|one| &mut one.measured_at);
    let distances = site.distances.iter_mut().map(|one| &mut one.measured_at);
    for one in walls.chain(structures).chain(distances) {
        *one = one.confirmed(&now, by.into(), purpose);
    }
    site.confirm_heights(None, &by.into(), purpose);
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
        let say = Formatter::english(&case, Notation::Iso);
        let told = |sheet: &Worksheet| {
            let sounding = sheet.sites[0].sounding.as_ref().unwrap();
            let is_told = say.sounding(sounding).contains("confirmed by N. Quill");
            let terms = say.figure_terms(sounding);
            let wall = at(sheet, PLACES[0]).figure.as_ref().unwrap();
            let terms = terms.into_iter().chain(say.figure_terms(wall));
            (is_told, terms.filter(|term| term.is_confirmed).count())
        };
        assert_eq!((told(&sheet), told(&measured)), ((true, 2), (false, 0)));
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
        // One of the two measured anew ends it: the other one may be told by itself.
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

/// What was said to hold, by its place and the way in which it cannot.
fn cannot_hold(sheet: &Worksheet) -> Vec<(String, String, String)> {
    let rule = |f: &&Finding| f.rule.key() == "confirmed-disagree";
    let found = sheet.findings.iter().filter(rule);
    found
        .map(|f| {
            assert_eq!(f.verdict, Verdict::Unknown);
            let arg = |name| f.args[name].to_string();
            (f.place.key(), arg("how"), arg("by"))
        })
        .collect()
}

/// Measuring the one wall anew says nothing for the other: the axis went towards it, and its distance
/// is less now, whoever confirmed it. A wall that is 1 nearer where the site also went 1 along may lean
/// there by 45°, and one that the axis went away from is farther than it says.
#[test]
fn a_wall_measured_anew_does_not_hold_the_other() {
    let told = |along: &str, buccal: &str, anew: usize| {
        let mut case = case();
        put(&mut case, along, buccal);
        confirm(&mut case, "N. Quill");
        let now = case.sites[0].measured_now(mm("10"));
        case.sites[0].walls[anew].measured_at = now;
        cannot_hold(&work(case))
            .into_iter()
            .filter(|(place, ..)| place.contains("walls"))
            .collect::<Vec<_>>()
    };
    let wall = |side: &str, by: &str| {
        let place = format!("sites[one].walls[{side} least]");
        vec![(place, "nearer".to_owned(), by.to_owned())]
    };
    assert_eq!(told("0", "-1.2", 0), wall("oral", "1.2"));
    assert_eq!(told("0", "1.2", 1), wall("buccal", "1.2"));
    assert_eq!(told("0.5", "1.2", 1), wall("buccal", "0.7"));
    for (along, buccal, anew) in [
        ("0", "-1.2", 1),
        ("0", "1.2", 0),
        ("0", "0.2", 1),
        ("1", "1.2", 1),
    ] {
        assert_eq!(told(along, buccal, anew), [], "{along} {buccal} {anew}");
    }
}

/// Of 1.2 along the arch 1.2 · cos 20° = 1.127 is certain.
#[test]
fn a_neighbour_measured_anew_does_not_hold_the_other() {
    for (along, anew, want) in [
        ("1.2", 0, Some("37")),
        ("1.2", 1, None),
        ("-1.2", 1, Some("35")),
        ("-1.2", 0, None),
        ("0.2", 0, None),
    ] {
        let mut case = case();
        put(&mut case, along, "0");
        confirm(&mut case, "N. Quill");
        let now = case.sites[0].measured_now(mm("10"));
        case.sites[0].distances[anew].measured_at = now;
        let found = cannot_hold(&work(case));
        let place = |to: &str| format!("sites[one].distances[{to}]");
        let want = want.map(|to| (place(to), "nearer".to_owned(), "1.12".to_owned()));
        assert_eq!(found, Vec::from_iter(want), "{along} {anew}");
    }
}

/// A gap is wider once the axis went from the buccal wall: with the wall measured anew it would leave
/// bone that is not there.
#[test]
fn a_wall_measured_anew_does_not_hold_the_gap() {
    for (buccal, want) in [("-1.2", Some("1.2")), ("1.2", None), ("-0.2", None)] {
        let mut case = case();
        let site = &mut case.sites[0];
        let now = site.measured_now(mm("10"));
        site.state = SiteState::FreshSocket(Socket {
            gap_mm: Some(mm("1.5")),
            gap_measured_at: Some(GapMeasuredAt {
                site: now.clone(),
                implant_diameter_mm: mm("4.6"),
            }),
            slope_deg: None,
        });
        put(&mut case, "0", buccal);
        let now = case.sites[0].measured_now(mm("10"));
        for wall in &mut case.sites[0].walls {
            wall.measured_at = now.clone();
        }
        if let SiteState::FreshSocket(Socket {
            gap_measured_at: Some(then),
            ..
        }) = &mut case.sites[0].state
        {
            then.site = then
                .site
                .confirmed(&now, "N. Quill".into(), Purpose::Practice);
        }
        let found = cannot_hold(&work(case));
        let place = "sites[one].state.gap_mm".to_owned();
        let want = want.map(|by| (place, "gap".to_owned(), by.to_owned()));
        assert_eq!(found, Vec::from_iter(want), "{buccal}");
    }
}

/// A neighbour that moved by 0.1 since took √2 · 0.1 of it at most: 0.5 · cos 20° − 0.142 = 0.327 is
/// left that both distances cannot have.
#[test]
fn a_neighbour_that_moved_a_little_takes_no_more_of_the_contradiction() {
    let told = |other_moved: &str| {
        let mut case = case();
        case.teeth.retain(|one| one.position != tooth("35"));
        case.sites.push(super::sample::site("two", "35", &[]));
        case.sites[0].distances.remove(0);
        let then = [0, 1].map(|n: usize| case.sites[n].measured_now(mm("10")));
        put(&mut case, "0.5", "0");
        put_site(&mut case, 1, other_moved, "0");
        confirm(&mut case, "N. Quill");
        let now = [0, 1].map(|n: usize| case.sites[n].measured_now(mm("10")));
        case.sites[0].distances.push(Distance {
            to: DistanceTo::Site { site: "two".into() },
            at: Height::Least,
            from_axis_mm: mm("8"),
            measured_at: then[0].confirmed(&now[0], "N. Quill".into(), Purpose::Practice),
            other_measured_at: Some(then[1].confirmed(
                &now[1],
                "N. Quill".into(),
                Purpose::Practice,
            )),
        });
        let sheet = work(case);
        let both = cannot_hold(&sheet).into_iter();
        both.filter(|(_, how, _)| how == "neighbours")
            .map(|(.., by)| by)
            .collect::<Vec<_>>()
    };
    assert_eq!(told("0"), ["0.46"]);
    assert_eq!(told("0.1"), ["0.32"]);
    assert!(told("0.3").is_empty());
}

/// Takes from every confirmation in a case what it says of its purpose, as in an older file.
fn without_purposes(case: &Case) -> Case {
    let text = serde_json::to_string(case).unwrap();
    let older = [r#""purpose":"patient","#, r#""purpose":"practice","#]
        .into_iter()
        .fold(text.clone(), |text, purpose| text.replace(purpose, ""));
    assert_ne!(text, older);
    serde_json::from_str(&older).unwrap()
}

/// What was confirmed in practice says nothing once the case is a patient's.
#[test]
fn a_confirmation_given_in_practice_does_not_count_for_a_patient() {
    let mut case = case();
    assert!(case.demonstration);
    put(&mut case, "0.5", "0");
    let moved = work(case.clone());
    confirm(&mut case, "N. Quill");
    let by = Some("N. Quill".to_owned());
    assert_eq!(told(at(&work(case.clone()), PLACES[0])).0, by);
    case.demonstration = false;
    let sheet = work(case.clone());
    for place in PLACES {
        let finding = at(&sheet, place);
        assert_eq!(told(finding), (None, None), "{place}");
        assert_eq!(finding.value, at(&moved, place).value, "{place}");
    }
    // What was read of it was confirmed already; for the patient it can be confirmed again.
    let site = &case.sites[0];
    assert!(site.may_confirm_heights(None, Purpose::Patient));
    assert!(!site.may_confirm_heights(None, Purpose::Practice));
    confirm(&mut case, "N. Quill");
    for demonstration in [false, true] {
        case.demonstration = demonstration;
        let sheet = work(case.clone());
        for place in PLACES {
            assert_eq!(told(at(&sheet, place)).0, by, "{place} {demonstration}");
        }
    }
    // An older file does not say: nobody knows.
    let mut case = without_purposes(&case);
    case.demonstration = false;
    assert_eq!(told(at(&work(case.clone()), PLACES[0])), (None, None));
    case.demonstration = true;
    assert_eq!(told(at(&work(case), PLACES[0])).0, by);
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
            Some(by) => measured[n].confirmed(&then(&case, n), by.into(), Purpose::Practice),
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
        case.sites[0].confirm_heights(None, &"N. Quill".into(), Purpose::Practice);
        let sheet = work(case);
        let want = want.map(|by| (Some("crest".to_owned()), by.to_owned()));
        assert_eq!(disagree(&sheet, "confirmed-disagree"), want, "{z}");
    }
}

/// Nobody can say what of a place on the arch holds at coordinates, or at another tooth's place: a word for
/// it is none.
#[test]
fn what_was_measured_at_a_place_of_another_kind_is_not_confirmed() {
    let with = |placement: Placement| {
        let mut case = case();
        case.sites[0].placement = placement;
        confirm(&mut case, "N. Quill");
        let sheet = work(case);
        let is_stale = |place| {
            let reasons = at(&sheet, place).value.reasons().to_vec();
            reasons.iter().any(|r| matches!(r, Reason::Stale(..)))
        };
        PLACES[..2].iter().all(|place| is_stale(place))
    };
    let Placement::OnArch {
        along_mm,
        buccal_mm,
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = case().sites[0].placement
    else {
        panic!()
    };
    let on = |at: &str| Placement::OnArch {
        at: tooth(at),
        along_mm: along_mm + mm("0.1"),
        buccal_mm,
        apex_to_distal_deg,
        apex_to_buccal_deg,
    };
    assert!(!with(on("36")));
    assert!(with(on("35")));
    assert!(with(Placement::Measured {
        platform: PointMm {
            x_mm: mm("24"),
            y_mm: mm("25"),
            z_mm: mm("-9"),
        },
        direction: Vector {
            x: Length::ZERO,
            y: Length::ZERO,
            z: mm("-1"),
        },
    }));
}

/// Between a tooth and a planned site that stands as it did, a move along the arch changes one of the two; of a
/// site that was moved as well that is taken off: 1 · cos 20° − √2 · 0.5 = 0.23, and 0.6 leaves less than is read.
#[test]
fn a_tooth_and_a_planned_site_cannot_both_hold_after_a_move_between_them() {
    let told = |other_moves: &str| {
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
        put_site(&mut case, 1, other_moves, "0");
        confirm(&mut case, "N. Quill");
        disagree(&work(case), "confirmed-disagree")
    };
    let by = |by: &str| Some((Some("neighbours".to_owned()), by.to_owned()));
    assert_eq!(told("0"), by("0.93"));
    assert_eq!(told("0.5"), by("0.23"));
    // Both rules: the two came 1.6 · cos 20° nearer to each other.
    assert_eq!(
        told("0.6"),
        Some((Some("together".to_owned()), "1.5".to_owned()))
    );
}

/// A planned neighbour that came 1.0 nearer is 1 · cos 20° = 0.93 nearer for certain, whoever of the two sites the
/// word stands at; where both went the same way the distance may hold.
#[test]
fn a_planned_neighbour_that_came_nearer_is_not_where_its_distance_was_confirmed() {
    for (own, theirs, want) in [
        ("0", "1", Some("0.93")),
        ("-1", "1", Some("1.87")),
        ("1", "1", None),
        ("0", "-1", None),
    ] {
        let mut case = case();
        case.sites[0].distances.clear();
        case.teeth.retain(|one| one.position != tooth("35"));
        case.sites.push(super::sample::site("two", "35", &[]));
        let [then, other] = [0, 1].map(|n| case.sites[n].measured_now(mm("10")));
        put(&mut case, own, "0");
        put_site(&mut case, 1, theirs, "0");
        let [now, other_now] = [0, 1].map(|n| case.sites[n].measured_now(mm("10")));
        let word = |then: &MeasuredAt, now| then.confirmed(now, "N. Quill".into(), case.purpose());
        let distance = Distance {
            to: DistanceTo::Site { site: "two".into() },
            at: Height::Least,
            from_axis_mm: mm("9"),
            measured_at: word(&then, &now),
            other_measured_at: Some(word(&other, &other_now)),
        };
        case.sites[0].distances.push(distance);
        let want = want.map(|by| (Some("together".to_owned()), by.to_owned()));
        assert_eq!(
            disagree(&work(case), "confirmed-disagree"),
            want,
            "{own} {theirs}"
        );
    }
}

/// A crown beside the sleeve that the axis went towards is nearer than before; one on the other side is not.
#[test]
fn a_crown_that_the_axis_went_towards_is_not_confirmed() {
    for (crown, along, want) in [
        ("37", "1.2", Some("1.12")),
        ("37", "-1.2", None),
        ("35", "-1.2", Some("1.12")),
        ("35", "0.2", None),
    ] {
        let mut case = case();
        case.sites[0].distances.clear();
        let then = case.sites[0].measured_now(mm("10"));
        put(&mut case, along, "0");
        let now = case.sites[0].measured_now(mm("10"));
        let obstacle = Obstacle {
            name: "crown".into(),
            tooth: Some(tooth(crown)),
            above_rim_mm: mm("2"),
            rim_above_platform_mm: Some(mm("10")),
            from_axis_mm: mm("6"),
            measured_at: then.confirmed(&now, "N. Quill".into(), case.purpose()),
        };
        case.sites[0].obstacles.push(obstacle);
        let want = want.map(|by| (Some("nearer".to_owned()), by.to_owned()));
        assert_eq!(
            disagree(&work(case), "confirmed-disagree"),
            want,
            "{crown} {along}"
        );
    }
}

/// Nobody knows on which side a structure beside the axis lies, save where anatomy says so: after a move a word counts
/// for what that cannot have taken, and for nothing that certainly came nearer.
#[test]
fn a_structure_beside_the_axis_is_not_confirmed_after_a_move_that_may_have_led_nearer() {
    use traywright_core::case::{StructureExtent::Beside, StructureKind as Kind};
    let told = |kind: Kind, away: &'static str, along: &'static str, buccal: &'static str| {
        let sheet = placed(|case| {
            let structure = &mut case.sites[0].structures[0];
            structure.kind = kind;
            structure.extent = Beside {
                from_axis_mm: mm(away),
                anterior_loop_mm: (kind == Kind::MentalForamen).then_some(Length::ZERO),
            };
            put(case, along, buccal);
        });
        let place = format!("sites[one].structures[{}]", kind.key());
        let found = sheet.findings.iter().find(|finding| {
            finding.rule.key() == "confirmed-disagree" && finding.place.key() == place
        });
        found.map(|finding| {
            assert_eq!(finding.verdict, Verdict::Unknown);
            finding.args["how"].to_string()
        })
    };
    // The body is 2.2 wide to each side and the limit 2: 4.7 leaves 0.5 above it, 5.2 leaves 1.0. On the arch a move
    // of 0.6 takes no more than 0.9.
    for buccal in ["0.6", "-0.6"] {
        assert_eq!(
            told(Kind::MandibularCanal, "4.7", "0", buccal),
            Some("beside".to_owned())
        );
        assert_eq!(told(Kind::MandibularCanal, "5.2", "0", buccal), None);
    }
    assert_eq!(
        told(Kind::MandibularCanal, "4.2", "0", "0.1"),
        None,
        "by reading"
    );
    // At the first molar the foramen lies to mesial.
    assert_eq!(
        told(Kind::MentalForamen, "9", "-0.6", "0"),
        Some("nearer".to_owned())
    );
    assert_eq!(told(Kind::MentalForamen, "4.3", "0.6", "0"), None);
    assert_eq!(
        told(Kind::MentalForamen, "4.3", "0", "0.6"),
        Some("beside".to_owned())
    );
    assert_eq!(told(Kind::MentalForamen, "9", "0", "0.6"), None);
    // So far that the way may be twice as long.
    assert_eq!(
        told(Kind::MandibularCanal, "20", "0", "9"),
        Some("beside".to_owned())
    );
}

/// A word on what was measured in other bone counts only where it was given of that too: one that was given of a move
/// alone, as older programs took it, says nothing of a graft.
#[test]
fn a_word_given_of_a_move_alone_does_not_count_across_a_graft() {
    let healed = BoneThen {
        scan_date: None,
        state: Some(BoneState::Healed),
    };
    let grafted = |of_bone: bool| {
        let mut case = case();
        put(&mut case, "0.3", "0");
        confirm(&mut case, "N. Quill");
        let site = &mut case.sites[0];
        site.state = SiteState::Grafted {
            on: "2026-03-02".parse().unwrap(),
        };
        case.guide.scan_date = Some("2026-03-05".parse().unwrap());
        let site = &mut case.sites[0];
        let walls = site.walls.iter_mut().map(|one| &mut one.measured_at);
        let words = walls.map(|one| one.confirmed.as_mut().unwrap());
        for word in words.chain(site.heights.confirmed.as_mut()) {
            (word.bone_then, word.of_bone) = (healed, of_bone);
        }
        work(case)
    };
    let (told_of_it, not_told) = (grafted(true), grafted(false));
    for place in [PLACES[0], PLACES[3]] {
        assert_ne!(at(&told_of_it, place).verdict, Verdict::Unknown, "{place}");
        let lapsed = at(&not_told, place);
        assert_eq!(lapsed.verdict, Verdict::Unknown, "{place}");
        let why = format!("{:?}", lapsed.value.reasons());
        assert!(why.contains("change: Bone"), "{place}: {why}");
    }
}

/// Moved and grafted since it was measured: the graft is told, so that nobody confirms it by a word on the move.
#[test]
fn of_a_move_and_a_graft_the_graft_is_told_and_confirmed() {
    let mut case = case();
    put(&mut case, "0.3", "0");
    let site = &mut case.sites[0];
    site.heights.bone_then.state = Some(BoneState::Healed);
    for wall in &mut site.walls {
        wall.measured_at.bone_then.state = Some(BoneState::Healed);
    }
    site.state = SiteState::Grafted {
        on: "2026-03-02".parse().unwrap(),
    };
    case.guide.scan_date = Some("2026-03-05".parse().unwrap());
    let sheet = work(case.clone());
    for place in [PLACES[0], PLACES[3]] {
        let why = format!("{:?}", at(&sheet, place).value.reasons());
        assert!(why.contains("change: Bone"), "{place}: {why}");
    }
    confirm(&mut case, "N. Quill");
    assert!(case.sites[0].heights.confirmed.as_ref().unwrap().of_bone);
    let sheet = work(case);
    for place in [PLACES[0], PLACES[3]] {
        assert_ne!(at(&sheet, place).verdict, Verdict::Unknown, "{place}");
    }
}

/// At a molar the anterior wall of the sinus may lie to mesial: nobody knows that the implant went away from it.
#[test]
fn at_a_molar_nobody_knows_on_which_side_the_anterior_wall_lies() {
    use traywright_core::case::{StructureExtent::Beside, StructureKind as Kind};
    let told = |iso: &'static str, along: &'static str, away: &'static str| {
        let mut case = case();
        case.jaw = Jaw::Upper;
        case.teeth.clear();
        case.guide.pins.clear();
        let site = &mut case.sites[0];
        site.tooth = tooth(iso);
        site.distances.clear();
        let structure = &mut site.structures[0];
        structure.kind = Kind::SinusAnteriorWall;
        structure.extent = Beside {
            from_axis_mm: mm(away),
            anterior_loop_mm: None,
        };
        let Placement::OnArch { at, .. } = &mut site.placement else {
            panic!()
        };
        *at = tooth(iso);
        super::sample::measure_anew(&mut case);
        put(&mut case, along, "0");
        confirm(&mut case, "N. Quill");
        let sheet = work(case);
        let found = all(&sheet, "confirmed-disagree");
        let found = found
            .iter()
            .find(|f| f.place.key() == "sites[one].structures[sinus_anterior_wall]");
        found.map(|f| f.args["how"].to_string())
    };
    assert_eq!(told("15", "0.6", "9"), Some("nearer".to_owned()));
    assert_eq!(told("15", "-0.6", "9"), None);
    assert_eq!(told("16", "-0.6", "3.7"), Some("beside".to_owned()));
    assert_eq!(told("16", "0.6", "3.7"), Some("beside".to_owned()));
}

/// A word is of the bone only where the bone was another when it was given, as the edit that gives it takes it; across a
/// graft one that was given of a move does not count.
#[test]
fn an_edit_gives_a_word_of_bone_only_where_the_bone_is_another() {
    use traywright_core::case::{Edit, apply};
    let edited = |case: &ValidCase, change: fn(&mut Case)| {
        let mut next: Case = (**case).clone();
        change(&mut next);
        apply(case, &[Edit::ChangeSite(Box::new(next.sites.remove(0)))]).unwrap()
    };
    let graft = |case: &mut Case| {
        case.sites[0].state = SiteState::Grafted {
            on: "2026-03-02".parse().unwrap(),
        };
    };
    // Each value entered by an edit says its bone.
    let mut first = case();
    first.guide.scan_date = Some("2026-01-05".parse().unwrap());
    let entered = edited(&valid(first), |case| {
        case.sites[0].walls[0].from_axis_mm += mm("0.1");
        let site = &mut case.sites[0];
        site.heights.tissue_thickness_mm = Some(mm("2.9"));
        site.heights
            .enter(SiteHeight::TissueThickness, site.placement);
    });
    assert!(!entered.sites[0].walls[0].measured_at.bone_then.is_unsaid());
    let moved = edited(&entered, |case| put(case, "0.3", "0"));
    let of_move = edited(&moved, |case| confirm(case, "N. Quill"));
    let words = |case: &ValidCase| {
        let site = &case.sites[0];
        let wall = site.walls[0].measured_at.confirmed.as_ref();
        let height = site.heights.word_on(SiteHeight::TissueThickness);
        [wall, height].map(|word| word.unwrap().of_bone)
    };
    assert_eq!(words(&of_move), [false, false]);
    // Of a graft it is.
    let grafted = edited(&moved, graft);
    let of_graft = edited(&grafted, |case| confirm(case, "N. Quill"));
    assert_eq!(words(&of_graft), [true, true]);
    // Given of a move alone, it counts for nothing once the bone is another.
    let later = edited(&of_move, graft);
    let wall = at(&work_out(&later), PLACES[0]).clone();
    assert_eq!(wall.verdict, Verdict::Unknown);
}
