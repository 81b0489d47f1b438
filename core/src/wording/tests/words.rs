//! Words of the plan, reasons, judgements, faults and cautions.

use super::sample::{valid, with};
use crate::case::{DecisionKind, Height, LimitId, SiteState, Socket, StructureKind, WallSide};
use crate::dentition::Notation;
use crate::kit::Density;
use crate::plan::{
    AppliedDecision, Change, Finding, LapsedDecision, NoProposal, OrderBy, Place, Reason, Severity,
    Since, SiteHeight, SitePlace, WhyLapsed,
};
use crate::samples::mm;
use crate::text::Texts;
use crate::wording::{CAUTIONS, Formatter, begin, cautions, faults};

/// A place at the sample's site.
fn here(place: SitePlace) -> Place {
    Place::Site("a".into(), place)
}

fn since(site: &str, change: Change) -> Since {
    let site = site.into();
    Since { site, change }
}

#[test]
#[expect(clippy::too_many_lines, reason = "one table")]
fn every_reason_is_said_in_words_with_its_site() {
    let missing = Reason::Missing;
    let stale = |at| Reason::Stale(at, since("a", Change::Moved));
    let at = |said: &str| format!("{said}, lower right first molar (46)");
    with(&[], |say, _| {
        for (reason, want) in [
            (
                missing(here(SitePlace::Height(SiteHeight::PlatformBelowCrest))),
                at("depth of the platform below the crest not entered"),
            ),
            (
                missing(here(SitePlace::Height(SiteHeight::TissueThickness))),
                at("thickness of the soft tissue not entered"),
            ),
            (
                missing(here(SitePlace::Structure(StructureKind::MandibularCanal))),
                at("mandibular canal not entered"),
            ),
            (
                missing(here(SitePlace::WallSide(WallSide::Oral))),
                at("lingual wall not measured"),
            ),
            (
                missing(here(SitePlace::Steps)),
                at("no drill sequence chosen"),
            ),
            (missing(here(SitePlace::Carrier)), at("no carrier chosen")),
            (
                missing(here(SitePlace::ObstacleRim(0))),
                at("position of the sleeve when “crown of 47” was measured not entered"),
            ),
            (
                missing(Place::Tooth("45".parse().unwrap())),
                "tooth status at lower right second premolar (45) not entered".to_owned(),
            ),
            (
                missing(Place::Limit(LimitId::Sinus)),
                "no limit set (sinus)".to_owned(),
            ),
            (missing(Place::Head), "no handpiece head chosen".to_owned()),
            (missing(Place::Tray), "no tray chosen".to_owned()),
            (
                missing(Place::GaugeFace("g".into())),
                "not entered in the kit whether gauge G reads the stop's lower or upper face"
                    .to_owned(),
            ),
            (
                missing(Place::AcceptedOrder),
                "not entered: “accepted_order” in the case file".to_owned(),
            ),
            (
                stale(here(SitePlace::Structure(StructureKind::MandibularCanal))),
                at("mandibular canal: measured before the site was moved or tilted"),
            ),
            (
                stale(here(SitePlace::Wall(WallSide::Buccal, Height::Crest))),
                at(
                    "buccal wall at the crest: measured before the site was moved \
                    or tilted",
                ),
            ),
            (
                stale(here(SitePlace::ToTooth(
                    "45".parse().unwrap(),
                    Some(Height::Apex),
                ))),
                at(
                    "distance to lower right second premolar (45) at the apex: measured before \
                    the site was moved or tilted",
                ),
            ),
            (
                stale(here(SitePlace::Obstacle(0))),
                at(
                    "“crown of 47” beside the sleeve: measured before the site was moved \
                    or tilted",
                ),
            ),
            (
                Reason::ArchModelOnly(mm("2.79")),
                "from the arch model: 2.7 mm, measure it".to_owned(),
            ),
            (
                Reason::AlongTiltedAxis(mm("-0.2")),
                "along the axis overlap of 0.2 mm would be left, but the site is tilted and nothing is known of what is beside it"
                    .to_owned(),
            ),
            (
                Reason::CrestOfSocket(mm("2.2")),
                "2.2 mm at most, counted from the crest: within a socket or the bed of an implant there is none"
                    .to_owned(),
            ),
            (
                Reason::OutsideGauge(mm("27.3")),
                "outside the gauge (would show 27.3 mm; gauge G: 5.0 mm to 25.0 mm)".to_owned(),
            ),
            (
                Reason::BetweenGraduations(mm("20.35")),
                "between two graduations of the gauge (would show 20.35 mm)".to_owned(),
            ),
            (
                Reason::Pending("run-order"),
                "still being calculated".to_owned(),
            ),
            (Reason::NoAccuracy, "no accuracy figure applies".to_owned()),
        ] {
            assert_eq!(say.reasons(std::slice::from_ref(&reason)), Some(want));
            let remedy = say.supply(&reason);
            assert!(remedy.ends_with('.') && !remedy.contains('⟨'), "{remedy}");
        }
    });
}

/// Every reason for which a measured value no longer holds, or not as far as it would have to.
#[test]
fn every_reason_of_what_was_measured_is_said_in_words() {
    let missing = Reason::Missing;
    let stale = |at| Reason::Stale(at, since("a", Change::Moved));
    let at = |said: &str| format!("{said}, lower right first molar (46)");
    with(&[], |say, _| {
        for (reason, want) in [
            (
                stale(here(SitePlace::Height(SiteHeight::TissueThickness))),
                at("thickness of the soft tissue: measured before the site was moved or tilted"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::Sleeve)),
                at("“crown of 47” beside the sleeve: measured before the sleeve was set to another distance"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::Bone)),
                at("“crown of 47” beside the sleeve: measured in another state of the bone, or on a scan from before the graft"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::Implant)),
                at("“crown of 47” beside the sleeve: measured before the implant was replaced by a longer or shorter one"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::Depth)),
                at("“crown of 47” beside the sleeve: measured before the platform was set to another depth"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::DepthMissing)),
                at("“crown of 47” beside the sleeve: measured where the platform was at a depth below the crest that is not entered now"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("a", Change::OffGuide)),
                at("“crown of 47” beside the sleeve: the platform is planned at another depth than the guide leads it to"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("b", Change::Unrecorded)),
                at("“crown of 47” beside the sleeve: measured without a record of how site “b” was placed then"),
            ),
            (
                Reason::Stale(here(SitePlace::Obstacle(0)), since("b", Change::Moved)),
                at("“crown of 47” beside the sleeve: measured before site “b” was moved or tilted"),
            ),
            (
                missing(here(SitePlace::Height(SiteHeight::MeasuredAt))),
                at("position of the site when its heights were measured not entered"),
            ),
            (
                Reason::AgainstModel {
                    measured: mm("6.78"),
                    model: mm("-3.41"),
                },
                "6.78 mm by the measured distance, but overlap of 3.5 mm from the arch model: one of distance and position is wrong"
                    .to_owned(),
            ),
            (
                Reason::MeasuredLessDeep(mm("1.4"), "a".into()),
                "1.4 mm where it was measured, but a drill goes deeper than that".to_owned(),
            ),
            (
                Reason::AtMost(mm("1.4")),
                "what is known leaves 1.4 mm at most".to_owned(),
            ),
            (
                Reason::KindNotEntered {
                    tooth: "34".parse().unwrap(),
                    left: None,
                },
                "lower left first premolar (34) entered without its kind".to_owned(),
            ),
            (
                Reason::KindNotEntered {
                    tooth: "34".parse().unwrap(),
                    left: Some((mm("2.129"), mm("3"))),
                },
                "2.12 mm beside it, but what kind it is was not entered: an implant would need 3.0 mm"
                    .to_owned(),
            ),
            (Reason::Unfit, "the instruments do not fit there".to_owned()),
        ] {
            assert_eq!(say.reasons(std::slice::from_ref(&reason)), Some(want));
            let remedy = say.supply(&reason);
            assert!(remedy.ends_with('.') && !remedy.contains('⟨'), "{remedy}");
        }
        // What is left at most is said alone only: beside what is missing it would pass for the margin.
        let unknown = [missing(Place::Gauge), Reason::AtMost(mm("1.4"))];
        assert_eq!(say.reasons(&unknown).unwrap(), "no gauge chosen");
    });
}

fn judged(rule: &str, edit: impl FnOnce(&mut Finding)) -> crate::wording::FindingText {
    with(
        &["set /sites/0/structures/0/extent/height_mm 13.2"],
        |say, sheet| {
            let mut finding = sheet
                .findings
                .iter()
                .find(|f| f.rule.key() == rule)
                .unwrap()
                .clone();
            edit(&mut finding);
            say.finding(&finding)
        },
    )
}

#[test]
fn a_clearance_says_all_that_it_rests_on() {
    let said = judged("deep-structure", |_| {});
    assert_eq!(
        (said.severity, said.word.as_str()),
        (Severity::Short, "short")
    );
    assert_eq!(said.place.as_deref(), Some("lower right first molar (46)"));
    assert_eq!(said.headline, "mandibular canal: 1.9 mm, limit 2.0 mm");
    let detail = "1.9 mm = 13.2 \u{2212} 0.5 \u{2212} 10.8";
    assert_eq!(said.detail.as_deref(), Some(detail));
    assert_eq!(said.basis.as_deref(), Some("basis: measured"));
    let source = said.source.unwrap();
    assert!(source.starts_with("source of the limit: ") && source.contains("PubMed 34328468"));
    assert_eq!((said.decision, said.lapsed), (None, None));
}

#[test]
fn that_accuracy_is_not_assessed_is_said_where_there_is_a_clearance() {
    with(&["two-sites"], |say, sheet| {
        assert_eq!(
            say.accuracy(&sheet.findings).as_deref(),
            Some("accuracy not assessed")
        );
        let clearance = |f: &&Finding| f.subject() == crate::plan::Subject::Clearance;
        let others = sheet.findings.iter().filter(|finding| !clearance(finding));
        assert_eq!(say.accuracy(others), None);
    });
}

#[test]
fn the_surgeons_word_is_said_with_reason_and_name_and_where_it_no_longer_holds() {
    let word = |judged| AppliedDecision {
        judged,
        reason: "short implant refused".to_owned(),
        by: "A. B.".to_owned(),
    };
    let accepted = judged("deep-structure", |f| {
        f.decision = Some(word(DecisionKind::Accepted));
    });
    assert_eq!(accepted.word, "accepted, short");
    let want = "accepted by A. B.: short implant refused";
    assert_eq!(accepted.decision.as_deref(), Some(want));
    let intended = judged("deep-structure", |f| {
        f.decision = Some(word(DecisionKind::Intended));
    });
    assert_eq!(intended.word, "intended");
    let want = "intended by A. B.: short implant refused";
    assert_eq!(intended.decision.as_deref(), Some(want));
    let lapsed = |judged_as, why| {
        let decision = word(judged_as);
        let told = judged("deep-structure", |f| {
            f.lapsed = Some(LapsedDecision { decision, why });
        });
        assert_eq!(told.word, "short");
        told.lapsed.unwrap()
    };
    for (decision, want) in [
        (
            DecisionKind::Accepted,
            "previously accepted by A. B. (short implant refused), which no longer holds",
        ),
        (
            DecisionKind::Intended,
            "previously marked as intended by A. B. (short implant refused), which does not hold",
        ),
    ] {
        assert!(lapsed(decision, WhyLapsed::Changed).starts_with(want));
    }
    for (why, want) in [
        (WhyLapsed::NotAcceptable, "nobody can accept this"),
        (
            WhyLapsed::NoReason,
            "a reason has two words and ten letters at least",
        ),
        (WhyLapsed::NoName, "nobody is named who could sign it"),
    ] {
        let said = lapsed(DecisionKind::Accepted, why);
        assert!(
            said.contains(want) && said.contains("does not count"),
            "{said}"
        );
    }
}

#[test]
fn every_severity_has_a_word_of_its_own_and_a_meaning() {
    use Severity::{Accepted, Clear, Intended, Note, Short, Tight, Unknown};
    with(&[], |say, _| {
        let all = [Short, Unknown, Tight, Accepted, Intended, Note, Clear];
        let words: Vec<_> = all.iter().map(|one| say.severity(*one)).collect();
        assert_eq!(
            words,
            [
                "short", "unknown", "tight", "accepted", "intended", "note", "clear"
            ]
        );
        for one in all {
            assert!(say.severity_meaning(one).ends_with('.'));
        }
    });
}

#[test]
fn tilts_are_told_by_where_the_apex_points_and_never_by_a_sign() {
    let tilt = |md: &str, bl: &str| {
        let md = format!("set /sites/0/placement/apex_to_distal_deg {md}");
        let bl = format!("set /sites/0/placement/apex_to_buccal_deg {bl}");
        with(&[&md, &bl], |say, _| say.tilt(&say.case.sites[0]))
    };
    for (md, bl, want) in [
        ("0", "0", "upright"),
        ("-32", "0", "apex 32° to mesial"),
        ("5.5", "0", "apex 5.5° to distal"),
        ("0", "-4", "apex 4° to lingual"),
        ("-3", "2", "apex 3° to mesial, apex 2° to buccal"),
    ] {
        let said = tilt(md, bl);
        assert_eq!(said, want);
        assert!(!said.contains(['-', '+', '\u{2212}']));
    }
    let measured = |z: &str| {
        let edit = format!(
            "set /sites/0/placement {{\"by\": \"measured\", \"platform\": {{\"x_mm\": 0, \
             \"y_mm\": 20, \"z_mm\": 0}}, \"direction\": {z}}}"
        );
        with(&[&edit], |say, _| say.tilt(&say.case.sites[0]))
    };
    assert_eq!(measured("{\"x\": 0, \"y\": 0, \"z\": -1}"), "upright");
    assert_eq!(
        measured("{\"x\": 0.1, \"y\": 0, \"z\": -1}"),
        "axis measured in the scan"
    );
}

#[test]
fn guide_bone_and_density_have_their_words() {
    with(&[], |say, _| {
        let guide = &say.case.guide;
        let fresh = SiteState::FreshSocket(Socket {
            gap_mm: Some(mm("1.2")),
            gap_measured_at: None,
            slope_deg: None,
        });
        for (said, want) in [
            (say.support(guide.support), "teeth"),
            (say.access(guide.access), "full-thickness flap"),
            (say.guide_state(guide.state), "guide not made yet"),
            (
                say.extent(say.case.sites[0].guided_extent),
                "drilling and implant guided",
            ),
            (say.use_order(say.case.setup.use_order), "site by site"),
            (say.order_by(OrderBy::Rule), "site by site"),
            (say.order_by(OrderBy::Accepted), "as accepted"),
            (
                say.order_by(OrderBy::Fallback),
                "site by site, because the accepted order does not fit",
            ),
            (say.jaw(), "lower jaw"),
            (say.bone(&fresh), "fresh socket, gap 1.2 mm"),
            (say.density(None), "bone density not entered"),
            (say.density(Some(Density::D1)), "D1, dense cortical bone"),
            (
                say.no_proposal(&NoProposal::Gap { after: mm("2.4") }),
                "no sequence can be proposed: after 2.4 mm the kit has no drill within its largest step. Add one, or choose the steps by hand.",
            ),
        ] {
            assert_eq!(said, want);
        }
    });
}

#[test]
fn insertion_and_neighbouring_choices_are_told() {
    let insertion = |edits: &[&str]| {
        with(edits, |say, sheet| {
            say.insertion(sheet.sites[0].insertion.as_ref())
        })
    };
    assert_eq!(
        insertion(&["set /kit/carriers/0/lines/0/above_platform_mm 9.9"]),
        "carrier C: turn until line 2 is level with the master sleeve's coronal rim, no farther. The implant is then 0.3 mm shallower than planned."
    );
    // In a drill sleeve it is that sleeve's landing face, 1.1 mm out of the rim.
    // 10.2 is the one to use; the nearest beyond it, 11.3, would let the implant 1.1 deeper.
    let lines = r#"set /kit/carriers/0/lines [{"name": "far", "above_platform_mm": 12}, {"name": "2", "above_platform_mm": 10.2}, {"name": "1", "above_platform_mm": 9}, {"name": "3", "above_platform_mm": 11.3}]"#;
    let said = insertion(&[lines]);
    assert!(
        said.ends_with("Not to line 3: that is 1.1 mm deeper."),
        "{said}"
    );
    let through = insertion(&["set /sites/0/insertion/sleeve \"d31\""]);
    let face = "is level with the landing face of sleeve 3.1, no farther.";
    assert!(through.contains(face), "{through}");
    assert_eq!(
        insertion(&["remove /sites/0/insertion/carrier"]),
        "depth of the carrier unknown: no carrier chosen, lower right first molar (46)"
    );
    assert_eq!(
        insertion(&["set /sites/0/guided_extent \"all_drilling\""]),
        "the implant is inserted without the guide"
    );
    let fixed = ["set /sites/0/steps/2/stop \"f\""];
    with(&fixed, |say, sheet| {
        let site = &sheet.sites[0];
        assert_eq!(
            say.fitting_distance(&site.id, &site.fitting_distances[0]),
            "at a sleeve offset of 4.95 mm to the master sleeve's apical face every fixed stop fits exactly"
        );
        assert_eq!(
            say.shorter(site.shorter.as_ref().unwrap()),
            "settings for the next shorter implant, Wren 3.6 × 7.9, 7.9 mm measured"
        );
    });
}

#[test]
fn a_site_is_named_in_the_notation_of_the_speaker() {
    let case = valid(&[]);
    for (notation, want) in [
        (Notation::Iso, "lower right first molar (46)"),
        (Notation::Universal, "lower right first molar (30)"),
        (Notation::Quadrant, "lower right first molar (LR6)"),
    ] {
        assert_eq!(Formatter::english(&case, notation).site(&"a".into()), want);
    }
    let say = Formatter::english(&case, Notation::Iso);
    assert_eq!(say.site(&"gone".into()), "site “gone”");
    assert_eq!(say.stop(&"s".into()), "stop S (letter S)");
}

#[test]
fn what_is_not_looked_at_and_the_cautions_are_all_there() {
    with(&[], |say, _| {
        let said = say.not_assessed();
        // There is no fresh socket.
        assert_eq!(said.len(), crate::plan::NOT_ASSESSED.len() - 1);
        assert!(said.iter().all(|text| !text.contains('⟨')));
        assert_eq!(say.not_assessed_heading(), "Not assessed by this program");
    });
    let said = cautions(Texts::english());
    let written = Texts::english()
        .ids()
        .filter(|id| id.starts_with("caution-"));
    assert_eq!(written.count(), CAUTIONS.len());
    assert!(
        said.iter()
            .all(|text| text.ends_with('.') && !text.contains('⟨'))
    );
}

#[test]
fn faults_of_a_document_are_told_with_place_limit_and_remedy() {
    let mut case = serde_json::to_value(&*valid(&[])).unwrap();
    case["sites"][0]["heights"]["tissue_thickness_mm"] = serde_json::json!(-2);
    let bytes = serde_json::to_vec_pretty(&case).unwrap();
    let found = crate::case::read_case(&bytes).unwrap_err();
    let said = faults(&found, Texts::english());
    assert!(said.iter().all(|line| !line.contains('⟨')), "{said:?}");
    assert!(
        said[0].contains("tissue_thickness_mm") && said[0].contains("at least 0"),
        "{}",
        said[0]
    );
}

#[test]
fn a_fragment_can_begin_a_sentence() {
    assert_eq!(
        begin("mandibular canal: 1.9 mm"),
        "Mandibular canal: 1.9 mm"
    );
    assert_eq!(begin(""), "");
}
