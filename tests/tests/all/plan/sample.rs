//! A small invented case in which all is known and nothing is short, to be varied by each test.

use super::kit::kit;
use traywright_core::case::{
    Access, ArchSize, CASE_VERSION, Case, CrestDepth, Direction, Distance, DistanceTo, Guide,
    GuideState, GuidedExtent, Height, HeightDatum, Heights, Insertion, MeasuredAt, NeighbourKind,
    Placement, PlatformToSleeve, RULES_VERSION, Setting, Setup, Site, SiteState, SleeveFace, Step,
    Structure, StructureExtent, StructureKind, Support, Team, Tooth, ToothState, UseOrder,
    ValidCase, Wall, WallSide, default_limits,
};
use traywright_core::dentition::{ArchLandmark, Jaw, ToothPosition};
use traywright_core::kit::{Density, DepthRule, Drill};
use traywright_core::measure::{Angle, Length};
use traywright_core::plan::{Figure, Finding, Mistake, StepSheet, Verdict, Worksheet, work_out};

pub(crate) fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

pub(crate) fn deg(text: &str) -> Angle {
    Angle::parse_deg(text).unwrap()
}

pub(crate) fn tooth(iso: &str) -> ToothPosition {
    iso.parse().unwrap()
}

/// One site at 36 between two teeth, over the canal: upright, three drills, the guide still to be
/// made. Every finding is clear or a note.
///
/// Its figures: 6.0 to the master sleeve, 4.0 master sleeve, 0.7 drill sleeve above the rim, so
/// seat 10.7; implant 10.0, so each setting 20.7.
pub(crate) fn case() -> Case {
    Case {
        traywright_case: CASE_VERSION,
        rules_version: RULES_VERSION,
        reference: "T-1".into(),
        demonstration: true,
        jaw: Jaw::Lower,
        other_jaw_case: None,
        revision: 0,
        guide: Guide {
            support: Support::Teeth,
            access: Access::Flap,
            state: GuideState::Planned,
            scan_date: None,
            code: None,
            pins: vec![],
            receipt: vec![],
        },
        team: Team::default(),
        arch: Some(ArchSize {
            landmark: ArchLandmark::SecondMolars,
            width_mm: mm("56"),
            depth_mm: mm("43"),
        }),
        teeth: vec![present("35"), present("37"), missing("36")],
        setup: Setup {
            gauge: Some("g".into()),
            head: Some("h".into()),
            tray: Some("t".into()),
            use_order: UseOrder::SiteBySite,
        },
        sites: vec![site("one", "36", &["35", "37"])],
        limits: default_limits(),
        judgements: vec![],
        run: traywright_core::case::RunWishes::default(),
        accepted_order: vec![],
        tray_places: vec![],
        note: None,
        kit: kit(),
    }
}

pub(crate) fn present(iso: &str) -> Tooth {
    Tooth {
        position: tooth(iso),
        state: ToothState::Present,
        kind: Some(NeighbourKind::Natural),
    }
}

pub(crate) fn missing(iso: &str) -> Tooth {
    Tooth {
        position: tooth(iso),
        state: ToothState::Missing,
        kind: None,
    }
}

/// A site with the sample's figures, measured against these neighbouring teeth.
pub(crate) fn site(id: &str, at: &str, beside: &[&str]) -> Site {
    let placement = Placement::OnArch {
        at: tooth(at),
        along_mm: Length::ZERO,
        buccal_mm: Length::ZERO,
        apex_to_distal_deg: Angle::ZERO,
        apex_to_buccal_deg: Angle::ZERO,
    };
    let crest = CrestDepth {
        highest_mm: mm("1.0"),
        lowest_mm: mm("0.6"),
    };
    let measured_at = MeasuredAt {
        placement,
        platform_below_crest: Some(crest),
        platform_to_apex_mm: mm("10"),
        // Deep enough for every drill that a test tries.
        down_to_mm: Some(mm("20")),
    };
    let wall = |side| Wall {
        side,
        at: Height::Least,
        from_axis_mm: mm("4.0"),
        measured_at,
    };
    let distance = |iso: &&str| Distance {
        to: DistanceTo::Tooth {
            position: tooth(iso),
        },
        at: Height::Least,
        from_axis_mm: mm("4.5"),
        measured_at,
        other_measured_at: None,
    };
    Site {
        id: id.into(),
        tooth: tooth(at),
        placement,
        state: SiteState::Healed {},
        implant: "long".into(),
        master_sleeve: "m".into(),
        guided_extent: GuidedExtent::DrillingAndImplant,
        platform_to_sleeve: Some(PlatformToSleeve {
            entered_mm: mm("6.0"),
            to: SleeveFace::Apical,
        }),
        density: Some(Density::D2),
        heights: Heights {
            platform_below_crest: Some(crest),
            tissue_thickness_mm: Some(mm("2.5")),
            crest_below_occlusal_mm: Some(mm("9")),
            measured_at: Some(placement),
        },
        walls: vec![wall(WallSide::Buccal), wall(WallSide::Oral)],
        distances: beside.iter().map(distance).collect(),
        structures: vec![Structure {
            kind: StructureKind::MandibularCanal,
            extent: StructureExtent::Below {
                height_mm: mm("13"),
                from: HeightDatum::Platform,
                direction: Direction::Vertical,
            },
            measured_at,
            source: None,
        }],
        obstacles: vec![],
        insertion: Insertion {
            carrier: Some("k".into()),
            sleeve: None,
        },
        setting: Setting::EachStep,
        protocol: None,
        steps: ["a", "b", "c"].map(step).into(),
        note: None,
    }
}

/// The step of this name and drill, through the drill's sleeve with stop `u` to full depth.
pub(crate) fn step(drill: &str) -> Step {
    Step {
        id: drill.into(),
        drill: drill.into(),
        sleeve: Some(format!("s{drill}").as_str().into()),
        stop: Some("u".into()),
        depth: DepthRule::Full {},
        then: None,
    }
}

/// The sample with a change, checked and worked out.
pub(crate) fn worked(change: impl FnOnce(&mut Case)) -> Worksheet {
    let mut case = case();
    change(&mut case);
    work(case)
}

pub(crate) fn work(case: Case) -> Worksheet {
    work_out(&sound(case))
}

pub(crate) fn sound(case: Case) -> ValidCase {
    ValidCase::try_from(case).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Writes the site as it now is into every value measured at it, as after measuring anew.
pub(crate) fn measure_anew(case: &mut Case) {
    let kit = &case.kit;
    let now: Vec<(String, MeasuredAt)> = case
        .sites
        .iter()
        .map(|site| {
            let length = kit.implant(&site.implant).unwrap().platform_to_apex_mm;
            let mut at = site.measured_now(length);
            at.down_to_mm = Some(mm("20"));
            (site.id.to_string(), at)
        })
        .collect();
    for (n, site) in case.sites.iter_mut().enumerate() {
        let here = now[n].1;
        site.heights.measured_at = Some(site.placement);
        site.walls.iter_mut().for_each(|w| w.measured_at = here);
        site.structures
            .iter_mut()
            .for_each(|s| s.measured_at = here);
        site.obstacles.iter_mut().for_each(|o| o.measured_at = here);
        for distance in &mut site.distances {
            distance.measured_at = here;
            if let DistanceTo::Site { site } = &distance.to {
                let other = now.iter().find(|(id, _)| id == site.as_str());
                distance.other_measured_at = other.map(|(_, at)| *at);
            }
        }
    }
}

pub(crate) fn each_drill(case: &mut Case, change: impl Fn(&mut Drill)) {
    case.kit.drills.iter_mut().for_each(change);
}

pub(crate) fn distance(case: &mut Case, entered: &str) {
    case.sites[0].platform_to_sleeve = Some(PlatformToSleeve {
        entered_mm: mm(entered),
        to: SleeveFace::Apical,
    });
}

/// Step `n`, from 0, of the first site.
pub(crate) fn step_of(sheet: &Worksheet, n: usize) -> &StepSheet {
    &sheet.sites[0].steps[n]
}

/// A known length as text.
pub(crate) fn shown(figure: &Figure) -> String {
    figure
        .length()
        .map_or_else(|| "unknown".to_owned(), |length| length.to_string())
}

/// The settings of the first site's steps.
pub(crate) fn settings(sheet: &Worksheet) -> Vec<String> {
    sheet.sites[0].steps.iter().map(|s| shown(&s.set)).collect()
}

/// All findings of a rule.
pub(crate) fn all<'a>(sheet: &'a Worksheet, rule: &str) -> Vec<&'a Finding> {
    sheet
        .findings
        .iter()
        .filter(|f| f.rule.key() == rule)
        .collect()
}

/// The one finding of a rule.
pub(crate) fn one<'a>(sheet: &'a Worksheet, rule: &str) -> &'a Finding {
    let found = all(sheet, rule);
    let [finding] = found[..] else {
        panic!("{} findings {rule}: {:#?}", found.len(), sheet.findings);
    };
    finding
}

/// Rule and path of every finding that is short or unknown.
pub(crate) fn open(sheet: &Worksheet) -> Vec<String> {
    let open = sheet.findings.iter().filter(|f| f.severity().is_open());
    open.map(Finding::key).collect()
}

/// The verdict and the value of the one finding of a rule.
pub(crate) fn judged(sheet: &Worksheet, rule: &str) -> (Verdict, String) {
    let finding = one(sheet, rule);
    let value = finding.length_value();
    (
        finding.verdict,
        value.map_or_else(|| "unknown".to_owned(), |length| length.to_string()),
    )
}

#[test]
fn the_sample_is_sound_and_nothing_in_it_is_open() {
    let sheet = worked(|_| {});
    assert_eq!(open(&sheet), Vec::<String>::new());
    assert_eq!(settings(&sheet), ["20.7", "20.7", "20.7"]);
    // Only the stop used without the guide would go beyond the canal's limit.
    let mistakes: Vec<_> = sheet.look_alikes.iter().map(|l| &l.mistake).collect();
    assert!(matches!(mistakes[..], [Mistake::WithoutGuide { .. }]));
}
