//! One cause is one line: after a small move of every site, and without a gauge.

use super::{CASES, mm, valid};
use std::collections::BTreeSet;
use traywright_core::case::{Case, GuideState, Placement, Receipt, ReceiptOf, ValidCase};
use traywright_core::dentition::Notation;
use traywright_core::figures::{Detail, figures};
use traywright_core::plan::{
    CommonCause, Finding, FindingLine, Place, Reason, Severity, Verdict, Worksheet, by_cause,
    work_out,
};
use traywright_core::wording::Formatter;

/// Every site is moved a little, and the guide, which then is another, measured anew.
fn moved(name: &str) -> ValidCase {
    let mut case = valid(name).into_case();
    for site in &mut case.sites {
        match &mut site.placement {
            Placement::OnArch { along_mm, .. } => *along_mm += mm("0.1"),
            Placement::Measured { platform, .. } => platform.x_mm += mm("0.1"),
        }
    }
    let anew = |this: &Receipt| {
        let site = case.site(this.site.as_str()).unwrap();
        case.receipt(site, this.of, this.measured_mm)
    };
    case.guide.receipt = case.guide.receipt.iter().map(anew).collect();
    if case.guide.made_by.is_some() {
        case.guide.made_by = Some(Box::new(case.made_by_now()));
    }
    ValidCase::try_from(case).unwrap()
}

fn lines(sheet: &Worksheet) -> Vec<FindingLine<&Finding>> {
    let unknown = sheet
        .findings
        .iter()
        .filter(|f| f.severity() == Severity::Unknown);
    by_cause(unknown.collect(), |finding| finding)
}

fn without_gauge(name: &str) -> ValidCase {
    let mut case: Case = valid(name).into_case();
    case.setup.gauge = None;
    ValidCase::try_from(case).unwrap()
}

fn without_offsets(name: &str) -> ValidCase {
    let mut case: Case = valid(name).into_case();
    for site in &mut case.sites {
        site.platform_to_sleeve = None;
    }
    case.guide.receipt.clear();
    ValidCase::try_from(case).unwrap()
}

/// For each site there is one unknown at most that was not there before.
#[test]
fn a_small_move_of_every_site_is_one_unknown_at_each() {
    for name in CASES {
        let (before, case) = (super::sheet(name), moved(name));
        let after = work_out(&case);
        let open = |sheet: &Worksheet| lines(sheet).len();
        // What had been accepted is asked anew after a move.
        let accepted = before
            .findings
            .iter()
            .filter(|f| f.verdict == Verdict::Unknown)
            .count();
        let most = accepted + case.sites.len();
        assert!(open(&after) <= most, "{name}: {} of {most}", open(&after));
        // Nothing that was told is gone, but where a full diameter ends whose depth is unknown now.
        let of_unknown_depth = |f: &&Finding| {
            let site = after.sites.iter().find(|site| f.is_of(&site.id));
            let steps = site.into_iter().flat_map(|site| &site.steps);
            let mut unknown = steps.filter(|step| step.cut.length().is_none());
            f.rule.key() == "full-diameter-above-apex"
                && unknown.any(|step| f.step.as_ref() == Some(&step.id))
        };
        let keys = |sheet: &Worksheet| -> BTreeSet<String> {
            let findings = sheet.findings.iter();
            findings
                .filter(|f| !of_unknown_depth(f))
                .map(Finding::key)
                .collect()
        };
        assert!(keys(&after).is_superset(&keys(&before)), "{name}");
    }
}

/// A site is moved a little under a guide that was made: that the guide is of another plan there is one unknown, with all beneath it
/// that the guide was made or measured for. What was measured in the mouth hangs on the move itself.
#[test]
fn a_made_guide_of_another_plan_is_one_unknown() {
    let mut seen = 0;
    for name in CASES {
        let mut case: Case = valid(name).into_case();
        let is_made = case.guide.state == GuideState::Made && case.guide.made_by.is_some();
        let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
            continue;
        };
        if !is_made {
            continue;
        }
        seen += 1;
        *along_mm += mm("0.1");
        let site = case.sites[0].id.clone();
        let of_guide = |sheet: &Worksheet| {
            let is_of_guide = |finding: &&Finding| {
                let rules = ["receipt", "guide-made-by-other"];
                finding.site.as_ref() == Some(&site) && rules.contains(&finding.rule.key())
            };
            let told: Vec<(usize, String)> = lines(sheet)
                .into_iter()
                .map(|line| match line {
                    FindingLine::One(finding) => (vec![finding], String::new()),
                    FindingLine::Cause(cause, findings) => {
                        (findings, format!("{cause:?}").chars().take(15).collect())
                    }
                })
                .map(|(findings, cause)| {
                    (findings.iter().filter(|f| is_of_guide(f)).count(), cause)
                })
                .filter(|(count, _)| *count > 0)
                .collect();
            told
        };
        // Its place, and what was measured of offset, height and bore.
        let cause = "GuideOfOtherPla".to_owned();
        let told = of_guide(&work_out(&ValidCase::try_from(case.clone()).unwrap()));
        assert_eq!(told, [(5, cause.clone())], "{name}");
        // With no offset measured at all nobody knows that of the guide as it was planned, either.
        case.guide
            .receipt
            .retain(|one| one.of != ReceiptOf::PlatformToSleeve);
        let told = of_guide(&work_out(&ValidCase::try_from(case).unwrap()));
        let alone = (1, String::new());
        assert!(
            told.contains(&alone) && told.contains(&(3, cause)),
            "{name} {told:?}"
        );
    }
    assert!(seen > 1, "{seen}");
}

/// Without a gauge there is one unknown, with all that lacks nothing else beneath it.
#[test]
fn no_gauge_is_one_unknown() {
    let no_gauge = Reason::Missing(Place::Gauge);
    for name in CASES {
        let sheet = work_out(&without_gauge(name));
        let lacks_it = |finding: &&Finding| finding.value.reasons() == [no_gauge.clone()];
        let lacking = sheet.findings.iter().filter(lacks_it).count();
        let mut on_it = 0;
        for told in lines(&sheet) {
            match told {
                FindingLine::Cause(CommonCause::Missing(Place::Gauge), findings) => {
                    assert_eq!(on_it, 0, "{name}: told twice");
                    on_it = findings.iter().filter(|finding| lacks_it(finding)).count();
                }
                FindingLine::Cause(_, findings) => assert!(!findings.iter().any(&lacks_it)),
                FindingLine::One(finding) => assert!(!lacks_it(&finding) || lacking == 1, "{name}"),
            }
        }
        assert!(
            on_it == lacking || lacking == 1,
            "{name}: {on_it} of {lacking}"
        );
    }
}

/// A drill that goes deeper than all was measured is one cause at its site, and a gauge that does not reach
/// is one of the case.
#[test]
fn a_deeper_drill_and_a_gauge_that_does_not_reach_are_one_unknown_each() {
    let told = |change: &dyn Fn(&mut Case)| {
        let mut case: Case = valid("two-molars").into_case();
        change(&mut case);
        let sheet = work_out(&ValidCase::try_from(case).unwrap());
        let found: Vec<(CommonCause, usize)> = lines(&sheet)
            .into_iter()
            .filter_map(|told| match told {
                FindingLine::Cause(cause, findings) => Some((cause, findings.len())),
                FindingLine::One(_) => None,
            })
            .collect();
        let all = sheet
            .findings
            .iter()
            .filter(|f| f.severity() == Severity::Unknown);
        let with = |is: fn(&Reason) -> bool| {
            let has = |f: &&Finding| f.value.reasons().iter().any(is);
            all.clone().filter(has).count()
        };
        let deeper = with(|r| matches!(r, Reason::MeasuredLessDeep(..)));
        let outside = with(|r| matches!(r, Reason::OutsideGauge(_)));
        (found, deeper, outside)
    };
    // Measured down to 5 mm only, where implant and drills end beyond 9.
    let (found, deeper, _) = told(&|case| {
        for site in &mut case.sites {
            let walls = site.walls.iter_mut().map(|one| &mut one.measured_at);
            let all = walls.chain(site.distances.iter_mut().map(|one| &mut one.measured_at));
            all.for_each(|then| then.down_to_mm = None);
        }
    });
    assert!(deeper > 2, "{deeper}");
    let on_it = |(cause, n): &(CommonCause, usize)| {
        matches!(cause, CommonCause::GoesDeeper(_)).then_some(*n)
    };
    assert_eq!(found.iter().filter_map(on_it).sum::<usize>(), deeper);
    assert_eq!(found.iter().filter_map(on_it).count(), 2);
    let (found, _, outside) = told(&|case| {
        for gauge in &mut case.kit.gauges {
            gauge.to_mm = gauge.from_mm + mm("0.1");
        }
    });
    assert!(outside > 2, "{outside}");
    let on_it = |(cause, n): &(CommonCause, usize)| {
        matches!(cause, CommonCause::OutsideGauge).then_some(*n)
    };
    assert_eq!(
        found.iter().filter_map(on_it).collect::<Vec<_>>(),
        [outside]
    );
}

/// The same as plain data: each unknown finding hangs on one cause at most, and is there itself.
#[test]
fn the_figures_name_each_cause_with_what_hangs_on_it() {
    for case in CASES
        .iter()
        .flat_map(|name| [moved(name), without_gauge(name), without_offsets(name)])
    {
        let sheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let printed = figures(&formatter, &sheet, Detail::Values);
        let on_it: Vec<&String> = printed.causes.iter().flat_map(|c| &c.findings).collect();
        let once: BTreeSet<&String> = on_it.iter().copied().collect();
        assert_eq!(once.len(), on_it.len());
        for key in once {
            let finding = printed.findings.iter().find(|f| f.key == *key).unwrap();
            assert_eq!(finding.severity, "unknown");
        }
        for cause in &printed.causes {
            // None is named twice.
            for site in &case.sites {
                let name = formatter.site(&site.id);
                assert!(cause.says.matches(&name).count() < 2, "{}", cause.says);
            }
            // Each site on which it bears is named, by its tooth.
            for key in &cause.findings {
                let finding = sheet.findings.iter().find(|f| f.key() == *key).unwrap();
                let named = |site| cause.says.contains(&formatter.site(site));
                assert!(finding.site.as_ref().is_none_or(named), "{cause:?} {key}");
            }
            assert!(cause.findings.len() > 1, "{cause:?}");
            assert!(
                cause.missing.is_some() != cause.changed.is_some(),
                "{cause:?}"
            );
        }
    }
}

/// What only the arch model says stays unknown however much it is, and is one line of the case.
#[test]
fn what_the_arch_model_alone_says_is_one_line() {
    let mut case = valid("two-molars").into_case();
    for site in &mut case.sites {
        site.distances.clear();
    }
    let sheet = work_out(&ValidCase::try_from(case).unwrap());
    let is_of_model =
        |finding: &&Finding| matches!(finding.value.reasons(), [Reason::ArchModelOnly(_)]);
    let all = sheet.findings.iter().filter(is_of_model).count();
    assert!(all > 2, "{all}");
    let lines = lines(&sheet).into_iter();
    let told: Vec<usize> = lines
        .map(|line| match line {
            FindingLine::One(finding) => usize::from(is_of_model(&finding)),
            FindingLine::Cause(_, findings) => findings.into_iter().filter(is_of_model).count(),
        })
        .filter(|count| *count > 0)
        .collect();
    assert_eq!(told, [all]);
}

/// A full arch between teeth to be extracted: bone towards their sockets is one cause, with what hangs on it beneath.
#[test]
fn sockets_on_all_sides_are_one_unknown() {
    use traywright_core::case::{NeighbourKind, Tooth, ToothState};
    let mut case: Case = valid("full-arch-upper").into_case();
    let positions: Vec<_> = case.sites.iter().map(|site| site.tooth).collect();
    for tooth in positions {
        for position in [tooth.mesial_neighbour()]
            .into_iter()
            .chain(tooth.distal_neighbour())
        {
            case.teeth.retain(|one| one.position != position);
            case.teeth.push(Tooth {
                position,
                state: ToothState::ToExtract,
                kind: Some(NeighbourKind::Natural),
            });
        }
    }
    let sheet = work_out(&ValidCase::try_from(case).unwrap());
    let is_socket = |finding: &Finding| finding.rule.key() == "bone-towards-socket";
    let all = sheet.findings.iter().filter(|f| is_socket(f)).count();
    assert!(all > 4, "{all}");
    let mut on_it = Vec::new();
    for told in lines(&sheet) {
        match told {
            FindingLine::One(finding) => assert!(!is_socket(finding), "{:?}", finding.key()),
            FindingLine::Cause(_, findings) => {
                on_it.push(findings.iter().filter(|f| is_socket(f)).count());
            }
        }
    }
    on_it.retain(|n| *n > 0);
    assert_eq!(on_it, [all]);
}
