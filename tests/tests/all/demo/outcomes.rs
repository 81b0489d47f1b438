//! The findings that each case is meant to show.

use super::{CASES, changed, finding, keys, mm, sheet, shown, site, site_mut, step, valid};
use std::collections::BTreeMap;
use traywright_core::case::StructureKind;
use traywright_core::case::{Access, GuideState, Placement, StructureExtent};
use traywright_core::kit::SlotKind;
use traywright_core::measure::Angle;
use traywright_core::plan::Place;
use traywright_core::plan::SitePlace;
use traywright_core::plan::{
    Known, Mistake, Operation, Quantity, Reason, Severity, StepPath, Subject, TermName, Verdict,
    Worksheet,
};

fn open(sheet: &Worksheet) -> Vec<String> {
    let mut open = keys(sheet, Severity::Short);
    open.extend(keys(sheet, Severity::Unknown));
    open
}

#[test]
fn only_the_two_molars_have_something_open() {
    for name in CASES {
        let open = open(&sheet(name));
        assert_eq!(open.is_empty(), *name != "two-molars", "{name}: {open:?}");
    }
}

#[test]
fn instruments_fit_and_are_enough_and_each_has_a_slot() {
    for name in CASES {
        let sheet = sheet(name);
        for finding in &sheet.findings {
            let about_instruments =
                matches!(finding.subject(), Subject::Instrument | Subject::Stock);
            assert!(!about_instruments || !finding.severity().is_open());
        }
        assert!(!sheet.loading.is_empty(), "{name}");
        assert!(sheet.loading.iter().all(|item| item.slot.is_some()));
        assert!(sheet.stock.iter().all(|line| line.needed <= line.have));
    }
}

#[test]
fn the_premolar_leaves_nothing_but_notes() {
    let sheet = sheet("one-premolar");
    assert_eq!(site(&sheet, "p35").worst, Severity::Note);
    assert_eq!(
        keys(&sheet, Severity::Note),
        [
            "full-diameter-above-apex sites[p35].steps[s3]",
            "guide-seats-lower guide.receipt[p35]"
        ]
    );
    assert_eq!(keys(&sheet, Severity::Accepted), [""; 0]);
}

/// Upright at 46: 12.65 to the canal − 10.75 = 1.90 against 2.
#[test]
fn at_one_molar_the_canal_is_near_and_at_the_other_unknown() {
    let sheet = sheet("two-molars");
    let near_key = "deep-structure sites[m46].structures[mandibular_canal]";
    let unknown = "deep-structure sites[m47].structures[mandibular_canal]";
    assert_eq!(keys(&sheet, Severity::Short), [near_key]);
    assert_eq!(keys(&sheet, Severity::Unknown), [unknown]);
    // 46 is upright, and 47 tilted by slopes of 4° and 3°: atan √(tan² 4° + tan² 3°) = 4.9942°.
    let angle = finding(&sheet, "convergence sites[m46].distances[m47]").unwrap();
    let most = Known::Is(Quantity::Angle(Angle::parse_deg("4.995").unwrap()));
    assert_eq!((&angle.value, angle.verdict), (&most, Verdict::Clear));
    let near = finding(&sheet, near_key).unwrap();
    assert_eq!(near.length_value(), Some(mm("1.9")));
    assert_eq!(near.limit, Some(Quantity::Length(mm("2"))));
    let reasons = finding(&sheet, unknown).unwrap().value.reasons();
    assert_eq!(
        reasons,
        [Reason::Missing(Place::Site(
            "m47".into(),
            SitePlace::Structure(StructureKind::MandibularCanal)
        ))]
    );
    let closer = changed("two-molars", |case| {
        site_mut(case, "m46").implant = "reed-437-74".into();
    });
    // The shorter implant: 12.65 − 9.05.
    assert_eq!(
        finding(&closer, near_key).unwrap().length_value(),
        Some(mm("3.6"))
    );
}

/// 46's setting at 47: 20.7 − 10.05 = 10.65, deeper by 1.6 than 9.05; the anatomy there is unknown.
#[test]
fn the_settings_of_one_molar_are_look_alikes_at_the_other() {
    let sheet = sheet("two-molars");
    let found = sheet.mix_ups.iter().find(|one| {
        let of_46 = matches!(&one.mistake,
            Mistake::OtherSetting { drill, of, .. } if drill.as_str() == "tip-368" && of.as_str() == "m46");
        one.site.as_str() == "m47" && of_46
    });
    let found = found.unwrap();
    assert_eq!((found.deeper, found.cut), (mm("1.6"), mm("10.65")));
    assert_eq!(found.breaks, []);
}

/// u25 leans by 28° to mesial and 2° to oral: tan² sums to 0.28271 + 0.00122, so the cosine is
/// 0.88253; 14.2 − 15.5 · 0.88253 = 0.5208, down to the micrometre 0.520.
#[test]
fn the_surgeons_words_on_the_full_arch_hold_as_long_as_the_values_stand() {
    let sheet = sheet("full-arch-upper");
    let sinus = "deep-structure sites[u25].structures[sinus_floor]";
    assert_eq!(keys(&sheet, Severity::Intended), [sinus]);
    assert_eq!(
        keys(&sheet, Severity::Accepted),
        ["neighbour-implant-body sites[u23].distances[u25]",]
    );
    let found = finding(&sheet, sinus).unwrap();
    assert_eq!(found.length_value(), Some(mm("0.52")));
    assert!(keys(&sheet, Severity::Unknown).is_empty());

    let nearer = changed("full-arch-upper", |case| {
        for structure in &mut site_mut(case, "u25").structures {
            if let StructureExtent::Below { height_mm, .. } = &mut structure.extent {
                *height_mm = mm("14");
            }
        }
    });
    assert_eq!(keys(&nearer, Severity::Short), [sinus]);
    assert!(finding(&nearer, sinus).unwrap().lapsed.is_some());
}

#[test]
fn the_full_arch_is_held_by_three_pins_and_its_hindmost_apices_lean_to_mesial() {
    let case = valid("full-arch-upper");
    assert_eq!(case.sites.len(), 6);
    for id in ["u15", "u25"] {
        let Placement::OnArch {
            apex_to_distal_deg, ..
        } = case.site(id).unwrap().placement
        else {
            panic!("{id}")
        };
        assert!(apex_to_distal_deg <= Angle::parse_deg("-28").unwrap());
    }
    let sheet = sheet("full-arch-upper");
    // The guide is pinned, all tissue punched through it, and it comes off once for the plugs.
    let at = |wanted: fn(&Operation) -> bool| -> Vec<usize> {
        let order = sheet.order.iter().enumerate();
        let found = order.filter(|(_, one)| wanted(one));
        found.map(|(index, _)| index).collect()
    };
    assert_eq!(at(|one| matches!(one, Operation::Pin { .. })), [0, 1, 2]);
    let sites = case.sites.iter().map(|site| site.id.clone()).collect();
    assert_eq!(sheet.order[3], Operation::Punch { sites });
    assert_eq!(at(|one| *one == Operation::Reseat), [4]);
    assert_eq!(at(|one| matches!(one, Operation::Sound { .. })), [5]);
    assert_eq!(at(|one| matches!(one, Operation::Drill { .. }))[0], 6);
    assert_eq!(sheet.order.last(), Some(&Operation::GuideOff));
    // Six sites, two settings for each of three drills, one more drill, the pin drill.
    let drills = sheet.loading.iter().filter(|i| i.kind == SlotKind::Drill);
    assert_eq!(drills.count(), 2 * 3 + 1 + 1);
}

/// All four exact lengths rise with the distance, 19.3 now. At 5.8 they are 20.4: the grooves 20.4
/// of the first two fit, 20.2 and 20.3 of the others fall 0.2 and 0.1 short. To the rim: 10.45.
#[test]
fn while_the_guide_is_not_made_distances_are_offered_at_which_grooves_fit() {
    let sheet = sheet("fixed-stops");
    let best = &site(&sheet, "g36").fitting_distances[0];
    assert_eq!(
        (best.apical_mm, best.as_entered_mm),
        (mm("5.8"), mm("10.45"))
    );
    assert_eq!((best.exact_steps, best.shortfall), (2, mm("0.3")));
    assert!(site(&sheet, "k34").fitting_distances.is_empty());
    let moved = changed("fixed-stops", |case| {
        let entry = site_mut(case, "g36").platform_to_sleeve.as_mut().unwrap();
        entry.entered_mm = best.as_entered_mm;
    });
    let short = ["s1", "s2", "s3", "s4"].map(|id| shown(&step(&moved, "g36", id).shortfall));
    assert_eq!(short, ["0", "0", "0.2", "0.1"]);
    let made = changed("fixed-stops", |case| case.guide.state = GuideState::Made);
    assert!(site(&made, "g36").fitting_distances.is_empty());
}

#[test]
fn in_the_fresh_socket_the_guide_comes_off_after_the_pilot() {
    let sheet = sheet("fresh-socket");
    let told: Vec<String> = sheet
        .order
        .iter()
        .map(|one| match one {
            Operation::Drill { step, .. } => step.to_string(),
            Operation::GuideOff => "off".into(),
            Operation::Insert { .. } => "implant".into(),
            Operation::Punch { .. } => "punch".into(),
            Operation::Reseat => "reseat".into(),
            Operation::Pin { .. } => "pin".into(),
            Operation::Sound { sites } => format!("seat, {} to sound", sites.len()),
        })
        .collect();
    // A socket is open: there is nothing to punch, so no punch is asked for either.
    assert_eq!(
        told,
        ["seat, 0 to sound", "s1", "off", "s2", "s3", "implant"]
    );
    let punches = |sheet: &Worksheet| {
        let names = sheet.loading.iter().map(|item| item.entry.clone());
        names.filter(|entry| entry == "punch-44").count()
    };
    assert_eq!(punches(&sheet), 0);
    let flap = changed("full-arch-upper", |case| case.guide.access = Access::Flap);
    assert_eq!(
        (punches(&flap), punches(&self::sheet("full-arch-upper"))),
        (0, 1)
    );
    assert!(
        !flap
            .order
            .iter()
            .any(|one| matches!(one, Operation::Punch { .. } | Operation::Reseat))
    );
    let site = site(&sheet, "s21");
    assert_eq!(site.sounding, None);
    assert_eq!(site.insertion, None);
    assert_eq!(step(&sheet, "s21", "s1").path, StepPath::DrillSleeve);
}

/// With an unknown face the gauge gives no figure, however well the length is known.
#[test]
fn on_the_gauge_of_unknown_face_nothing_is_shown() {
    let kit = traywright_core::case::read_kit(&super::bytes("kit")).unwrap();
    let sheet = changed("upper-face-gauge", |case| {
        case.setup.gauge = Some("found-gauge".into());
        case.kit = kit.for_case(case);
    });
    let step = step(&sheet, "r16", "s1");
    assert_eq!(shown(&step.set), "21.5");
    assert_eq!(shown(step.gauge.as_ref().unwrap()), "?");
    let unknown = keys(&sheet, Severity::Unknown);
    assert!(unknown.contains(&"gauge-face-unknown sites[r16].steps[s1]".into()));
}

/// Every kind of term that a depth is made of is other than zero somewhere here, so that leaving
/// it out of the arithmetic would change a figure.
#[test]
fn no_term_of_the_arithmetic_is_zero_throughout() {
    let mut counts: BTreeMap<TermName, bool> = BTreeMap::new();
    for name in CASES {
        for site in sheet(name).sites {
            let figures = site.steps.iter().flat_map(|step| {
                let own = [&step.seat, &step.prep, &step.exact, &step.set, &step.cut];
                own.into_iter().chain(&step.gauge).chain(&step.bench)
            });
            for term in figures.flat_map(|figure| &figure.terms) {
                let Known::Is(Quantity::Length(length)) = term.value else {
                    continue;
                };
                *counts.entry(term.name).or_default() |= length != mm("0");
            }
        }
    }
    let zero: Vec<_> = counts.iter().filter(|(_, counts)| !**counts).collect();
    assert_eq!(zero, []);
    for wanted in [
        TermName::PlatformToSleeve,
        TermName::MasterSleeveHeight,
        TermName::SeatAboveRim,
        TermName::PlatformToApex,
        TermName::ApicalAllowance,
        TermName::ShortOfFull,
        TermName::Depth,
        TermName::PointLength,
        TermName::LineFromTip,
        TermName::SocketRimAbovePlatform,
        TermName::GaugeConstant,
        TermName::StopBody,
        TermName::FixedStop,
        TermName::Mark,
        TermName::LeastOfSequence,
    ] {
        assert!(counts.contains_key(&wanted), "{wanted}");
    }
}

/// A judgement in a file by hand quotes what its finding shows, to the letter.
#[test]
fn the_judgements_of_the_demo_cases_quote_what_their_findings_show() {
    let mut other = Vec::new();
    for name in super::CASES {
        let (case, sheet) = (super::valid(name), super::sheet(name));
        for judgement in &case.judgements {
            let found = super::finding(&sheet, &judgement.finding);
            let shown = found.map(traywright_core::plan::Finding::digest);
            if shown.as_ref() != Some(&judgement.shown) {
                other.push((*name, judgement.finding.clone(), shown));
            }
        }
    }
    assert_eq!(other, []);
}
