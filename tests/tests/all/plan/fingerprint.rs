//! The fingerprint changes with all that determines a figure and with nothing else.

use super::generated_site::sites_of;
use super::kit::{drill, stop};
use super::sample::{case, mm, present, received, site, valid};
use serde_json::Value;
use traywright_core::case::{
    AngleLimit, Case, CasePin, Decision, DecisionKind, Obstacle, ReceiptOf, ValidCase,
};
use traywright_core::kit::{
    Accessory, AccessoryKind, Density, DepthRule, DrillKind, DrillMark, Driver, FixedLength, Pin,
    PinSleeve, ProfilePoint, Protocol, ProtocolStep, Recess, StopKind,
};
use traywright_core::measure::{Speed, Torque};
use traywright_core::plan::{SiteSheet, Worksheet, work_out};
use traywright_core::sign::Fingerprint;

/// A case in which nearly every key of the file has a value.
fn full() -> Case {
    let mut case = case();
    case.teeth.push(present("34"));
    let mut second = site("two", "35", &["34"]);
    second.steps[1].stop = Some("v".into());
    second.steps[2].stop = None;
    second.note = Some("note".into());
    let first = case.sites[0].clone();
    sites_of(&mut case, vec![first, second]);
    let site = &mut case.sites[0];
    site.protocol = Some("pr".into());
    site.steps[0].then = Some("radiograph".into());
    site.structures[0].source = Some("scan".into());
    site.walls[0].measured_at.down_to_mm = Some(mm("11"));
    site.obstacles = vec![Obstacle {
        name: "crown".into(),
        tooth: Some("35".parse().unwrap()),
        rim_above_platform_mm: Some(mm("10")),
        above_rim_mm: mm("2"),
        from_axis_mm: mm("6"),
        measured_at: site.walls[0].measured_at.clone(),
    }];
    case.guide.code = Some("code".into());
    case.guide.scan_date = Some("2026-03-04".parse().unwrap());
    case.guide.receipt = vec![received(&case, ReceiptOf::MasterSleeveHeight, "4.05")];
    case.guide.pins = vec![CasePin {
        name: "P".into(),
        pin: "pin".into(),
        at: "43".parse().unwrap(),
        along_mm: mm("1"),
        buccal_mm: mm("2"),
    }];
    case.team.surgeon = Some("S".into());
    case.team.nurse = Some("N".into());
    case.team.second_checker = Some("C".into());
    case.other_jaw_case = Some("T-2".into());
    case.note = Some("note".into());
    case.limits.convergence = Some(AngleLimit {
        limit_deg: super::sample::deg("40"),
        source: "test".into(),
    });
    case.judgements = vec![Decision {
        finding: "wall-not-measured sites[one].walls[buccal]".into(),
        judged: DecisionKind::Accepted,
        shown: "unknown none/none 000000000000".into(),
        reason: "reason".into(),
        by: "S".into(),
    }];
    full_kit(&mut case);
    // A few slots are enough to look at.
    case.kit.trays[0].slots.truncate(3);
    case
}

fn full_kit(case: &mut Case) {
    let kit = &mut case.kit;
    kit.demonstration = true;
    kit.master_sleeves[0].recess = Some(Recess {
        depth_mm: mm("0.5"),
        diameter_mm: mm("5.5"),
    });
    kit.drills[1].guided_from_mm = Some(mm("3"));
    let mut other = stop("v");
    other.depth = StopKind::Fixed {
        lengths: vec![FixedLength {
            drill: "b".into(),
            tip_to_landing_mm: mm("20"),
        }],
    };
    kit.stops.push(other);
    kit.implants[0].profile = vec![ProfilePoint {
        below_platform_mm: mm("1"),
        diameter_mm: mm("4.5"),
    }];
    kit.implants[0].torque_limit_ncm = Some(Torque::from_ncm(45));
    kit.implants[0].source = Some("book".into());
    kit.implants[0].code = Some("REF-1".into());
    let one = &mut kit.drills[2];
    one.marks = vec![DrillMark {
        name: "band".into(),
        lower_edge_mm: mm("17"),
        upper_edge_mm: Some(mm("18")),
    }];
    one.greatest_speed_rpm = Some(Speed::from_rpm(800));
    one.irrigation = Some("cooled".into());
    one.marking.colour = Some("grey".into());
    one.marking.letter = Some("C".into());
    kit.gauges[0].check_piece_mm = Some(mm("15"));
    kit.drills.push(drill("pd", DrillKind::Pin, "1.3"));
    kit.pins.push(Pin {
        id: "pin".into(),
        name: "Pin".into(),
        code: None,
        diameter_mm: mm("1.4"),
        length_mm: mm("17"),
        drill: "pd".into(),
        stop: None,
        sleeve: PinSleeve {
            bore_mm: mm("1.5"),
            height_mm: mm("5"),
        },
        quantity: 3,
    });
    kit.drivers.push(Driver {
        id: "dr".into(),
        name: "Driver".into(),
        code: None,
        families: vec!["F".into()],
        quantity: 1,
    });
    kit.accessories.push(Accessory {
        id: "key".into(),
        name: "Key".into(),
        code: None,
        kind: AccessoryKind::LockKey,
        wanted: 2,
        quantity: 1,
    });
    kit.protocols.push(Protocol {
        id: "pr".into(),
        name: "Protocol".into(),
        implants: vec!["long".into()],
        densities: vec![Density::D2],
        steps: vec![ProtocolStep {
            drill: "a".into(),
            sleeve: Some("sa".into()),
            depth: DepthRule::ShortOfFull { by_mm: mm("2") },
        }],
        insertion_sleeve: None,
        source: Some("maker".into()),
    });
    kit.note = Some("note".into());
}

/// The paths of all numbers, texts and truth values below a value.
fn leaves(value: &Value, path: &str, out: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                leaves(value, &format!("{path}/{key}"), out);
            }
        }
        Value::Array(list) => {
            for (n, value) in list.iter().enumerate() {
                leaves(value, &format!("{path}/{n}"), out);
            }
        }
        _ => out.push(path.to_owned()),
    }
}

/// True if neither a figure nor a hand depends on a leaf.
fn is_left_out(path: &str) -> bool {
    let key = path.rsplit('/').next().unwrap();
    let top = path.split('/').nth(1).unwrap();
    matches!(key, "note" | "source")
        || matches!(top, "team" | "judgements" | "run")
        || matches!(
            path,
            "/reference" | "/other_jaw_case" | "/revision" | "/kit/revision" | "/kit/name"
        )
}

/// True if a leaf is a text that a hand acts on and no figure depends on.
fn is_for_the_hand(path: &str) -> bool {
    let key = path.rsplit('/').next().unwrap();
    matches!(key, "name" | "irrigation" | "then" | "code" | "scan_date")
}

/// The keys that tell one form of an entry from another; they cannot change by themselves.
const TAGS: &[&str] = &[
    "given_by",
    "counted_to",
    "rule",
    "by",
    "measured",
    "neighbour",
    "bone",
];

/// Some other values that a leaf could have.
fn others(path: &str, value: &Value) -> Vec<Value> {
    let key = path.rsplit('/').next().unwrap();
    match value {
        Value::Bool(is) => vec![Value::from(!is)],
        Value::Number(number) => {
            // A micrometre more or less, and one more or less of what is only counted whole.
            let n = number.as_f64().unwrap();
            [n + 0.001, n - 0.001, n + 1.0, n - 1.0].map(exactly).into()
        }
        Value::String(_) if key == "id" || TAGS.contains(&key) => vec![],
        Value::String(_) if key == "scan_date" => vec![Value::from("2026-03-05")],
        Value::String(text) if is_left_out(path) || is_for_the_hand(path) => {
            vec![Value::from(format!("{text}x"))]
        }
        Value::String(text) => CHOICES
            .split_whitespace()
            .filter(|word| word != text)
            .map(Value::from)
            .collect(),
        _ => vec![],
    }
}

/// A number to the thousandth, whole where it is whole.
fn exactly(n: f64) -> Value {
    let text = format!("{n:.3}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    serde_json::from_str(short).unwrap()
}

/// Every choice of the file's form, and ids of the case.
const CHOICES: &str = "x2 47 33 2026-03-05 short long a b sb sc v u m d3 two tip upper landing twist \
    profile made flap teeth apical coronal platform crest vertical along_axis buccal oral mid apex \
    natural pontic missing accepted intended master_sleeve_bore mental_foramen first_molars \
    each_step one_figure all_drilling by_diameter torque_wrench drill sleeve";

/// The parts that people act on: figures, verdicts, order and loads, without names.
fn figures(sheet: &Worksheet) -> String {
    let mut sites: Vec<SiteSheet> = sheet.sites.clone();
    for shorter in sites.iter_mut().filter_map(|site| site.shorter.as_mut()) {
        // Its settings are taken back already where something does not fit; this names it.
        shorter.findings.clear();
    }
    let findings: Vec<_> = sheet
        .findings
        .iter()
        .map(|f| (f.rule, &f.place, f.verdict, &f.value, f.limit, f.basis))
        .collect();
    let loading: Vec<_> = sheet
        .loading
        .iter()
        .map(|i| {
            (
                i.kind, &i.entry, i.copy, &i.set, &i.serves, i.unopened, &i.slot,
            )
        })
        .collect();
    let stock: Vec<_> = sheet
        .stock
        .iter()
        .map(|s| (&s.entry, s.needed, s.have))
        .collect();
    let order = sheet.order.iter().filter(|one| {
        // A pin is called by its name.
        !matches!(one, traywright_core::plan::Operation::Pin { .. })
    });
    let order: Vec<_> = order.collect();
    let alike = &sheet.mix_ups;
    format!("{sites:?}{findings:?}{loading:?}{stock:?}{order:?}{alike:?}")
}

/// Changes every value of a full case, one at a time, to another that keeps the case sound. What
/// determines a figure or what a hand acts on changes the fingerprint; what does not changes no figure either.
#[test]
fn every_value_that_determines_a_figure_is_in_the_fingerprint() {
    let before = valid(full());
    let (print, worked) = (before.fingerprint(), figures(&work_out(&before)));
    let document = serde_json::to_value(&*before).unwrap();
    let mut paths = Vec::new();
    leaves(&document, "", &mut paths);
    // A plan code is of the rules of this program, whatever a file names; older ones are told by a finding.
    paths.retain(|path| path != "/rules_version");
    let (mut figured, mut named) = (0, 0);
    for path in paths {
        let changed = others(&path, document.pointer(&path).unwrap())
            .into_iter()
            .find_map(|other| {
                let mut edited = document.clone();
                *edited.pointer_mut(&path).unwrap() = other;
                let case = serde_json::from_value::<Case>(edited).ok()?;
                ValidCase::try_from(case).ok()
            });
        let Some(case) = changed else { continue };
        let same = case.fingerprint() == print;
        assert_eq!(same, is_left_out(&path), "{path}");
        if same {
            assert_eq!(figures(&work_out(&case)), worked, "{path}");
            named += 1;
        } else {
            figured += 1;
        }
    }
    // All but ids, tags and references that have nowhere else to lead.
    assert!(figured > 440 && named > 30, "{figured} {named}");
}

/// A case as JSON without what no figure depends on, by a way of its own: what is left out is
/// looked for in the whole document, and names are kept by the keys beside them.
fn pruned(value: Value, top: bool) -> Value {
    const AT_THE_TOP: &[&str] = &[
        "reference",
        "other_jaw_case",
        "revision",
        "team",
        "judgements",
        "run",
    ];
    match value {
        Value::Object(mut map) => {
            if top {
                map.retain(|key, _| !AT_THE_TOP.contains(&key.as_str()));
                let kit = map["kit"].as_object_mut().unwrap();
                kit.retain(|key, _| key != "revision" && key != "name");
            }
            map.retain(|key, _| key != "note" && key != "source");
            let members = map.into_iter();
            Value::Object(members.map(|(key, v)| (key, pruned(v, false))).collect())
        }
        Value::Array(list) => list.into_iter().map(|v| pruned(v, false)).collect(),
        other => other,
    }
}

/// Written straight from the case it is the same as by way of its JSON, which serde makes.
#[test]
fn the_fingerprint_is_that_of_the_case_as_json() {
    let mut cases: Vec<ValidCase> = crate::demo::CASES
        .iter()
        .map(|name| crate::demo::valid(name))
        .collect();
    cases.push(valid(full()));
    for case in cases {
        let json = pruned(serde_json::to_value(&*case).unwrap(), true);
        assert_eq!(
            case.fingerprint(),
            Fingerprint::of(&json),
            "{}",
            case.reference
        );
    }
}

/// A value that was unknown and one that is there are not the same plan.
#[test]
fn a_value_that_goes_missing_is_in_the_fingerprint() {
    let print = valid(full()).fingerprint();
    let changes: [fn(&mut Case); 8] = [
        |case| case.sites[0].platform_to_sleeve = None,
        |case| case.sites[0].heights.platform_below_crest = None,
        |case| case.sites[0].density = None,
        |case| case.sites[0].steps[0].sleeve = None,
        |case| case.limits.sinus = None,
        |case| case.setup.gauge = None,
        |case| case.kit.gauges[0].reads = None,
        |case| case.sites[0].steps.swap(0, 1),
    ];
    for (n, change) in changes.into_iter().enumerate() {
        let mut case = full();
        change(&mut case);
        assert_ne!(valid(case).fingerprint(), print, "{n}");
    }
}

/// A sheet for practice and one for a patient never bear the same name.
#[test]
fn practice_is_in_the_fingerprint() {
    let mut live = full();
    live.demonstration = false;
    assert_ne!(valid(live).fingerprint(), valid(full()).fingerprint());
}
