//! An edit withdraws a reading exactly when its drill, its stop or its setting changed: on the
//! worksheets of the demonstration, for many edits of each case.
//!
//! The expected result is worked out here from the steps' printed settings alone; the program goes
//! by way of the loading list, the plan's view and the standing of events.

use crate::demo;
use std::collections::BTreeSet;
use traywright_core::case::{
    Case, Edit, GuideState, GuidedExtent, Setting, UseOrder, ValidCase, apply,
};
use traywright_core::kit::{DepthRule, Drill, Marking};
use traywright_core::measure::Length;
use traywright_core::plan::{Worksheet, case_jaw, plan_view, work_out};
use traywright_core::sign::{
    EventKind, ItemKey, Log, Merged, PlanView, Policy, Purpose, Reading, Stage, Turn, Who,
    WriterId, withdrawn_by,
};

/// Drill with what the kit tells it by, stop and setting.
type Set = (String, String, Option<String>, Length);

/// A case of a patient, its guide still to be made, so that every edit may be tried.
fn open(name: &str) -> ValidCase {
    let mut case = demo::valid(name).into_case();
    case.demonstration = false;
    case.kit.demonstration = false;
    case.guide.state = GuideState::Planned;
    ValidCase::try_from(case).unwrap()
}

/// The marking of a drill, or the name of one that bears none.
fn told_by(drill: &Drill) -> String {
    if drill.marking == Marking::default() {
        drill.name.to_string()
    } else {
        format!("{:?}", drill.marking)
    }
}

/// The settings of a case, from its steps and pins.
fn settings(case: &ValidCase, sheet: &Worksheet) -> BTreeSet<Set> {
    let steps = sheet.sites.iter().flat_map(|site| &site.steps);
    let of_steps = steps.map(|step| (&step.drill, &step.stop, &step.set));
    let of_pins = sheet.pins.iter();
    of_steps
        .chain(of_pins.map(|pin| (&pin.drill, &pin.stop, &pin.set)))
        .filter_map(|(drill, stop, set)| {
            let stop = stop.as_ref().map(ToString::to_string);
            let told_by = told_by(case.kit.drill(drill)?);
            Some((drill.to_string(), told_by, stop, set.length()?))
        })
        .collect()
}

/// One reading of everything that is set in the case.
fn all_read(case: &ValidCase, sheet: &Worksheet) -> Merged {
    let jaw = case_jaw(case);
    let none = Merged::of(jaw.clone(), []).unwrap();
    let view = plan_view(case, sheet, &none);
    let mut log = Log::new(&jaw, WriterId::new("desk").unwrap());
    for (item, minute) in view.items.iter().zip(0..) {
        let reading = EventKind::Reading(Reading {
            item: item.key.clone(),
            gauge: item.gauge.clone(),
            value_mm: item.gauge_figure_mm.unwrap_or(item.key.setting_mm),
            stage: Stage::Bench,
            turn: Turn::First,
            purpose: Purpose::Patient,
            entered_by: None,
        });
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * minute).unwrap();
        log.append(at, Who::new("OW").unwrap(), reading).unwrap();
    }
    Merged::of(jaw, [log]).unwrap()
}

/// A case worked out and everything in it read.
struct Read {
    case: ValidCase,
    settings: BTreeSet<Set>,
    events: Merged,
    view: PlanView,
}

impl Read {
    fn of(case: &ValidCase) -> Self {
        let sheet = work_out(case);
        let events = all_read(case, &sheet);
        Self {
            settings: settings(case, &sheet),
            case: case.clone(),
            view: plan_view(case, &sheet, &events),
            events,
        }
    }

    /// The settings whose readings the program withdraws when the plan becomes another one.
    fn withdrawn(&self, after: &ValidCase, sheet: &Worksheet) -> BTreeSet<Set> {
        let view = plan_view(after, sheet, &self.events);
        let policy = Policy::strict(20);
        let change = withdrawn_by(&self.view, &view, &self.events, &policy).unwrap();
        let of = |key: ItemKey| {
            let drill = self.case.kit.drill(&key.drill.as_str().into());
            (key.drill, told_by(drill.unwrap()), key.stop, key.setting_mm)
        };
        let gone = change.readings.into_iter();
        gone.map(|standing| of(standing.reading.item)).collect()
    }
}

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// The edits that are tried on each site, by name; nothing where one does not apply.
fn edits(case: &ValidCase, n: usize) -> Vec<(String, Vec<Edit>)> {
    let mut edits = Vec::new();
    let id = &case.sites[n].id;
    let mut site = |name: &str, change: &dyn Fn(&mut traywright_core::case::Site)| {
        let mut changed = case.sites[n].clone();
        change(&mut changed);
        let edit = Edit::ChangeSite(Box::new(changed));
        edits.push((format!("{id}: {name}"), vec![edit]));
    };
    site("nothing", &|_| {});
    site("a note", &|site| site.note = Some("seen".to_owned()));
    for by in ["0.001", "0.05", "0.1", "-0.1", "0.15", "1", "2.4", "-1.3"] {
        site(&format!("{by} farther from its sleeve"), &|site| {
            if let Some(distance) = &mut site.platform_to_sleeve {
                distance.entered_mm += mm(by);
            }
        });
    }
    site("no distance", &|site| site.platform_to_sleeve = None);
    for implant in &case.kit.implants {
        site(&format!("implant {}", implant.id), &|site| {
            site.implant = implant.id.clone();
        });
    }
    site("without its last step", &|site| drop(site.steps.pop()));
    site("without its first step", &|site| drop(site.steps.remove(0)));
    site("steps the other way round", &|site| site.steps.reverse());
    site("first pass short", &|site| {
        site.steps[0].depth = DepthRule::ShortOfFull { by_mm: mm("2.3") };
    });
    site("first step without stop", &|site| site.steps[0].stop = None);
    site("first step without sleeve", &|site| {
        site.steps[0].sleeve = None;
    });
    site("one figure", &|site| site.setting = Setting::OneFigure);
    site("each its own figure", &|site| {
        site.setting = Setting::EachStep;
    });
    site("pilot only", &|site| {
        site.guided_extent = GuidedExtent::PilotOnly;
    });
    site("density unknown", &|site| site.density = None);
    site("crest higher", &|site| {
        if let Some(crest) = &mut site.heights.platform_below_crest {
            crest.highest_mm += mm("0.3");
        }
    });
    site("crest unknown", &|site| {
        site.heights.platform_below_crest = None;
    });
    site("canal nearer", &|site| site.structures.clear());
    edits.push((
        format!("{id}: taken out"),
        vec![Edit::RemoveSite(id.clone())],
    ));
    edits
}

/// The edits of the whole case.
fn edits_of_case(case: &ValidCase) -> Vec<(String, Vec<Edit>)> {
    let mut edits = vec![
        (
            "no limits".to_owned(),
            vec![Edit::SetLimits(Box::default())],
        ),
        ("no arch".to_owned(), vec![Edit::SetArch(None)]),
        (
            "nobody".to_owned(),
            vec![Edit::SetTeam(traywright_core::case::Team::default())],
        ),
    ];
    for order in [UseOrder::SiteBySite, UseOrder::ByDiameter] {
        let mut setup = case.setup.clone();
        setup.use_order = order;
        edits.push((format!("{order:?}"), vec![Edit::SetSetup(setup)]));
    }
    let mut kit = |name: &str, change: &dyn Fn(&mut traywright_core::kit::Kit)| {
        let mut changed = case.kit.clone();
        change(&mut changed);
        edits.push((name.to_owned(), vec![Edit::TakeKit(Box::new(changed))]));
    };
    for by in ["0.02", "0.1", "0.25"] {
        kit(&format!("master sleeves {by} higher"), &|kit| {
            for sleeve in &mut kit.master_sleeves {
                sleeve.height_mm += mm(by);
            }
        });
        kit(&format!("one seat {by} higher"), &|kit| {
            let sleeve = &mut kit.drill_sleeves[0];
            sleeve.seat_above_rim_mm += mm(by);
        });
    }
    kit("graduations of 0.5", &|kit| {
        for gauge in &mut kit.gauges {
            gauge.graduation_mm = mm("0.5");
        }
    });
    kit("a drill renamed", &|kit| {
        kit.drills[0].name = "Another name".into();
    });
    kit("a drill marked otherwise", &|kit| {
        kit.drills[0].marking.letter = Some("Z".to_owned());
    });
    kit("more drills", &|kit| kit.drills[0].quantity += 3);
    kit("no allowance", &|kit| {
        for implant in &mut kit.implants {
            implant.apical_allowance_mm = Length::ZERO;
        }
    });
    edits
}

#[test]
fn an_edit_withdraws_a_reading_exactly_when_its_drill_stop_or_setting_changed() {
    let (mut tried, mut taken, mut left) = (0, 0, 0);
    for name in demo::CASES {
        let before = open(name);
        let read = Read::of(&before);
        let was = &read.settings;
        assert!(!was.is_empty(), "{name}");
        // Undone, everything that was read counts again.
        let undone = read.withdrawn(&before, &work_out(&before));
        assert_eq!(undone, BTreeSet::new(), "{name}");
        let of_sites = (0..before.sites.len()).flat_map(|n| edits(&before, n));
        for (edit, edits) in of_sites.chain(edits_of_case(&before)) {
            // What would leave the case unsound is no edit.
            let Ok(after) = apply(&before, &edits) else {
                continue;
            };
            let sheet = work_out(&after);
            let is = settings(&after, &sheet);
            let wanted: BTreeSet<Set> = was.difference(&is).cloned().collect();
            assert_eq!(read.withdrawn(&after, &sheet), wanted, "{name}, {edit}");
            tried += 1;
            taken += usize::from(!wanted.is_empty());
            left += usize::from(wanted.len() < was.len());
        }
    }
    assert!(
        tried > 300 && taken > 100 && left > 150,
        "{tried} {taken} {left}"
    );
}

/// Another gauge reads every setting anew, even where no setting changed.
#[test]
fn another_gauge_withdraws_every_reading() {
    for name in demo::CASES {
        let before = open(name);
        let mut case: Case = before.clone().into_case();
        let mut other = case.kit.gauges[0].clone();
        other.id = "other-gauge".into();
        case.setup.gauge = Some(other.id.clone());
        case.kit.gauges.push(other);
        let after = ValidCase::try_from(case).unwrap();
        let (read, sheet) = (Read::of(&before), work_out(&after));
        assert_eq!(read.settings, settings(&after, &sheet), "{name}");
        assert_eq!(read.withdrawn(&after, &sheet), read.settings, "{name}");
    }
}
