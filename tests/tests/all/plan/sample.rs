//! A small invented case in which all is known and nothing is short, to be varied by each test.

use traywright_core::case::{
    Case, Distance, DistanceTo, MeasuredAt, NeighbourKind, Placement, PlatformToSleeve, Receipt,
    ReceiptOf, Site, SleeveFace, Step, Tooth, ToothState, ValidCase,
};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::{DepthRule, Drill};
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

/// [`traywright_samples::nothing_open`]: one site at 36 over the canal with three drills, each set
/// to 20.7.
pub(crate) fn case() -> Case {
    serde_json::from_value(traywright_samples::nothing_open()).unwrap()
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
    let mut site = case().sites.remove(0);
    site.id = id.into();
    site.tooth = tooth(at);
    if let Placement::OnArch { at, .. } = &mut site.placement {
        *at = site.tooth;
    }
    let here = |measured: &mut MeasuredAt| measured.placement = site.placement;
    site.heights.measured_at = Some(site.placement);
    site.walls.iter_mut().for_each(|w| here(&mut w.measured_at));
    site.structures
        .iter_mut()
        .for_each(|s| here(&mut s.measured_at));
    site.distances.truncate(1);
    let mut distance = site.distances.remove(0);
    here(&mut distance.measured_at);
    let beside = beside.iter().map(|iso| Distance {
        to: DistanceTo::Tooth {
            position: tooth(iso),
        },
        ..distance.clone()
    });
    site.distances = beside.collect();
    site
}

/// What was measured on the guide at the first site, as it is planned.
pub(crate) fn received(case: &Case, of: ReceiptOf, measured: &str) -> Receipt {
    case.receipt(&case.sites[0], of, mm(measured))
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
    work_out(&valid(case))
}

pub(crate) fn valid(case: Case) -> ValidCase {
    ValidCase::try_from(case).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Writes the site as it now is into every value measured at it, as after measuring anew.
pub(crate) fn measure_anew(case: &mut Case) {
    let mut json = serde_json::to_value(&*case).unwrap();
    traywright_samples::measure_anew(&mut json, Some(20.0));
    *case = serde_json::from_value(json).unwrap();
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
    let mistakes: Vec<_> = sheet.mix_ups.iter().map(|l| &l.mistake).collect();
    assert!(matches!(mistakes[..], [Mistake::WithoutGuide { .. }]));
}
