//! Figures, settings and steps in words.

use super::sample::with;
use crate::plan::{Edge, Figure, FigureRule, Fits, Known, MarkEdge, Reason, TermName, Worksheet};
use crate::samples::mm;
use crate::text::Texts;
use crate::wording::Formatter;
use std::collections::BTreeSet;

/// Words on the last step of the first site after these edits, as if it fitted: they do not depend on that.
fn last_step(
    edits: &[&str],
    said: impl FnOnce(Formatter<'_>, &crate::plan::StepSheet) -> String,
) -> String {
    with(edits, |say, sheet| {
        let mut step = sheet.sites[0].steps.last().unwrap().clone();
        step.fits = Fits::AsFarAsKnown;
        said(say, &step)
    })
}

#[test]
fn every_rule_and_term_has_its_text_and_no_text_is_left_over() {
    let texts = Texts::english();
    let rules = FigureRule::ALL.iter().map(|rule| rule.key());
    let terms = TermName::ALL.iter().map(|name| name.key());
    for (family, named) in [
        ("rule-", rules.collect::<BTreeSet<_>>()),
        ("term-", terms.collect()),
    ] {
        let written = texts.ids().filter(|id| id.starts_with(family));
        let written: BTreeSet<_> = written.collect();
        assert_eq!(named, written);
        for id in &written {
            assert_eq!(texts.arguments(id).map(BTreeSet::len), Some(0), "{id}");
        }
    }
}

#[test]
fn a_setting_has_at_least_one_decimal_and_those_of_the_gauge_and_is_never_a_number_if_unknown() {
    for (edits, want) in [
        (&[][..], "22.1"),
        (&["set /kit/gauges/0/graduation_mm 0.25"], "22.00"),
        (&["set /kit/gauges/0/graduation_mm 0.125"], "22.125"),
        (&["set /kit/gauges/0/graduation_mm 1"], "22.0"),
        (&["remove /setup/gauge"], "no figure"),
        (&["remove /sites/0/platform_to_sleeve"], "no figure"),
        (&["set /kit/gauges/0/to_mm 20"], "no figure"),
    ] {
        assert_eq!(last_step(edits, |say, step| say.setting(step)), want);
        let in_full = last_step(edits, |say, step| say.setting_in_full(step));
        assert!(in_full.starts_with(want), "{in_full}");
        if want != "no figure" {
            assert_eq!(in_full, format!("{want} mm"));
        }
    }
}

#[test]
fn the_gauge_figure_is_told_apart_from_the_setting() {
    let upper = [
        "set /kit/gauges/0/reads \"upper\"",
        "set /kit/gauges/0/to_mm 30",
    ];
    let both = last_step(&upper, |say, step| {
        format!("{} {:?}", say.setting(step), say.gauge_figure(step))
    });
    assert_eq!(both, "22.1 Some(\"25.3\")");
    let unknown = last_step(&["remove /kit/gauges/0/reads"], |say, step| {
        say.gauge_figure(step).unwrap()
    });
    assert_eq!(unknown, "no figure");
}

#[test]
fn why_there_is_no_setting_is_said_in_words() {
    for (edits, want) in [
        (
            &["set /kit/gauges/0/to_mm 20"][..],
            "outside the gauge (would show 22.1 mm; gauge G: 5.0 mm to 20.0 mm)",
        ),
        (&["remove /setup/gauge"], "no gauge chosen"),
        (
            &["remove /sites/0/platform_to_sleeve"],
            "sleeve offset not entered, lower right first molar (46)",
        ),
        (
            &["remove /sites/0/steps/2/stop"],
            "no stop length, mark or line gives a depth small enough",
        ),
        (
            &[
                "set /sites/0/guided_extent \"pilot_only\"",
                "remove /sites/0/heights/platform_below_crest",
            ],
            "depth of the platform below the crest not entered, lower right first molar (46)",
        ),
    ] {
        let why = last_step(edits, |say, step| say.setting_reasons(step).unwrap());
        assert_eq!(why, want);
    }
    assert_eq!(
        last_step(&[], |say, step| format!("{:?}", say.setting_reasons(step))),
        "None"
    );
}

#[test]
fn a_setting_is_explained_in_one_line_whose_sum_is_right() {
    for (edits, want) in [
        (
            &[][..],
            "22.1 mm, rounded down from 22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35",
        ),
        (
            &["set /kit/gauges/0/graduation_mm 0.05"],
            "22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35",
        ),
        (
            &["set /sites/0/platform_to_sleeve {\"entered_mm\": 10.2, \"to\": \"coronal\"}"],
            "22.1 mm, rounded down from 22.15 mm = 10.2 \u{2212} 4.4 + 4.4 + 1.1 + 9.5 + 1.35",
        ),
        (
            &["set /kit/drill_sleeves/2/seat_above_rim_mm -0.2"],
            "20.8 mm, rounded down from 20.85 mm = 5.8 + 4.4 \u{2212} 0.2 + 9.5 + 1.35",
        ),
        (
            &["set /sites/0/steps/2/stop \"f\""],
            "21.3 mm, the longest fixed length not above 22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35",
        ),
        (
            &[
                "set /sites/0/steps/2/drill \"p17\"",
                "remove /sites/0/steps/2/stop",
            ],
            "20.2 mm, the deepest mark not above 20.8 mm = 5.8 + 4.4 + 1.1 + 9.5",
        ),
        (
            &["set /sites/0/setting \"one_figure\""],
            "20.8 mm, the smallest of the sequence; on its own 22.1 mm, from 22.15 mm = 5.8 + 4.4 + 1.1 + 9.5 + 1.35",
        ),
        (&["remove /setup/gauge"], "no figure: no gauge chosen"),
    ] {
        assert_eq!(last_step(edits, |say, step| say.setting_line(step)), want);
    }
}

#[test]
fn terms_say_what_they_are_how_much_and_where_from() {
    let said = last_step(&[], |say, step| {
        let terms = say.setting_terms(step).into_iter();
        let lines = terms.map(|t| format!("{}|{}|{}|{}", t.name, t.value, t.origin, t.basis));
        lines.collect::<Vec<_>>().join("\n")
    });
    let want = "\
sleeve offset|5.8 mm|entered for lower right first molar (46)|from the plan
height of the master sleeve|4.4 mm|from the kit: master sleeve M|measured
drill sleeve above the master sleeve's rim|1.1 mm|from the kit: sleeve 3.1|measured
implant from platform to apex|9.5 mm|from the kit: Wren 3.6 × 9.5|measured
apical allowance|0.0 mm|from the kit: Wren 3.6 × 9.5|measured
length of the drill's point|1.35 mm|from the kit: twist 3.1|measured";
    assert_eq!(said, want);
    let exact = last_step(&[], |say, step| {
        let terms = say.figure_terms(&step.exact).into_iter();
        terms.map(|term| term.origin).collect::<Vec<_>>().join("; ")
    });
    assert_eq!(
        exact,
        "calculated for twist 3.1, lower right first molar (46); \
         calculated for twist 3.1, lower right first molar (46); from the kit: twist 3.1"
    );
}

/// All figures of a worksheet.
fn figures(sheet: &Worksheet) -> Vec<Figure> {
    let mut all: Vec<Figure> = Vec::new();
    for site in &sheet.sites {
        for step in &site.steps {
            let own = [
                &step.seat,
                &step.prep,
                &step.exact,
                &step.set,
                &step.cut,
                &step.shortfall,
            ];
            all.extend(
                own.into_iter()
                    .chain(&step.gauge)
                    .chain(&step.bench)
                    .cloned(),
            );
        }
        for play in site.play.iter().flatten() {
            all.extend([play.tilt.clone(), play.at_tip.clone()]);
        }
        all.extend([site.deepest_cut.clone(), site.distance.clone()]);
        all.extend(site.sounding.clone());
        let depth = site.final_depth.iter();
        all.extend(depth.flat_map(|one| {
            let coronal = one.below_coronal.iter();
            coronal.cloned().chain([one.below_apical.clone()])
        }));
        let insertion = site.insertion.iter();
        all.extend(insertion.flat_map(|one| [one.seat.clone(), one.shallow.clone()]));
    }
    all.extend(
        sheet
            .findings
            .iter()
            .filter_map(|f| f.figure.as_deref().cloned()),
    );
    all
}

#[test]
fn every_figure_has_a_line_and_terms_without_a_gap() {
    for edits in [
        &[][..],
        &["remove /sites/0/platform_to_sleeve"],
        &["two-sites", "set /guide/access \"punch\""],
        &[
            "set /sites/0/guided_extent \"pilot_only\"",
            "set /sites/0/setting \"one_figure\"",
        ],
        &[
            "set /sites/0/placement/apex_to_distal_deg -12",
            "measured-now",
        ],
        &["remove /setup/gauge", "set /sites/0/obstacles []"],
    ] {
        with(edits, |say, sheet| {
            for figure in figures(sheet) {
                let mut said = vec![say.figure_line(&figure), say.rule(&figure)];
                for term in say.figure_terms(&figure) {
                    said.extend([term.name, term.value, term.origin, term.basis]);
                }
                let known = figure.value.value().is_some();
                assert_eq!(said[0].starts_with("no figure"), !known, "{}", said[0]);
                for text in said {
                    assert!(!text.contains(['⟨', '⟩', '[']), "{}: {text}", figure.id);
                    assert!(!text.is_empty() && !text.ends_with([' ', ':']), "{text}");
                }
            }
        });
    }
}

#[test]
fn lines_of_other_figures_read_well() {
    with(&[], |say, sheet| {
        let site = &sheet.sites[0];
        let step = &site.steps[2];
        for (figure, want) in [
            (&step.cut, "10.8 mm = 22.1 \u{2212} 11.3"),
            (&step.set, "22.1 mm, rounded down from 22.15 mm"),
            (&site.steps[1].set, "20.8 mm, exactly as calculated"),
            (&step.shortfall, "0.05 mm = 22.15 \u{2212} 22.1"),
            (
                &site.deepest_cut,
                "10.8 mm, the deepest of 6.5 mm, 9.5 mm, 10.8 mm",
            ),
            (&site.distance, "5.8 mm, from sleeve offset 5.8 mm"),
        ] {
            assert_eq!(say.figure_line(figure), want);
        }
    });
}

/// Planned at 5.8, so 0.05 lower takes just what rounding gave away at the last step, and is not
/// hidden at the first, which gave nothing away.
#[test]
fn a_guide_that_seats_lower_is_told_with_each_step() {
    for (measured, first, last) in [
        (
            "5.75",
            "0.05 mm deeper than planned: the guide seats nearer the bone, as measured",
            "as deep as planned: the guide seats nearer the bone, as measured",
        ),
        (
            "5.79",
            "0.01 mm deeper than planned: the guide seats nearer the bone, as measured",
            "0.05 mm shallower than exact, 0.04 mm than planned: the guide seats nearer the bone, as measured",
        ),
        ("5.85", "no loss of depth", "0.05 mm shallower than exact"),
    ] {
        let receipt = format!(
            r#"set /guide/receipt [{{"site": "a", "of": "platform_to_sleeve", "measured_mm": {measured}}}]"#
        );
        with(&[&receipt, "received-now"], |say, sheet| {
            let steps = &sheet.sites[0].steps;
            assert_eq!(say.shortfall(&steps[0]), first);
            assert_eq!(say.shortfall(&steps[2]), last);
        });
    }
}

/// A looser limit is told wherever it is, in the line of the probe too.
#[test]
fn a_loosened_limit_of_sounding_is_told_beside_it() {
    let said = |edits: &[&str]| {
        with(edits, |say, sheet| {
            say.sounding(sheet.sites[0].sounding.as_ref().unwrap())
        })
    };
    let own = said(&[]);
    assert!(!own.contains("less strict"), "{own}");
    let loosened = said(&["set /limits/sounding/limit_mm 4"]);
    assert!(
        loosened.ends_with("(the limit is less strict than the program's own, 1.0 mm)"),
        "{loosened}"
    );
}

#[test]
fn steps_are_told_by_depth_path_bench_and_play() {
    with(&[], |say, sheet| {
        let site = &sheet.sites[0];
        let (first, last) = (&site.steps[0], &site.steps[2]);
        for (said, want) in [
            (
                say.depth(&site.id, first),
                "partial depth, full less 3.0 mm, then check radiograph",
            ),
            (say.depth(&site.id, last), "full depth"),
            (
                say.guidance(last),
                "through sleeve 3.1 (letter B, triangle)",
            ),
            (say.cut(last), "cuts 10.8 mm below the platform"),
            (say.shortfall(last), "0.05 mm shallower than exact"),
            (say.shortfall(first), "no loss of depth"),
            (
                say.bench(&last.bench.as_ref().unwrap().known_length(), None),
                "with the stop landed, the tip projects 16.6 mm beyond the master sleeve's apical face",
            ),
            (
                say.sounding(site.sounding.as_ref().unwrap()),
                "with the guide seated, the probe shows 10.8 mm from the seat to the crest; off by more than 1.0 mm: stop and find out why",
            ),
            (
                say.play(site.play[2].as_ref().unwrap()),
                "tilts up to 1.2°, off by up to 0.4 mm at the tip",
            ),
        ] {
            assert_eq!(said, want);
        }
        assert_eq!(
            say.bench(&Known::Is(mm("-0.4")), None),
            "with the stop landed, the tip is 0.4 mm coronal of the master sleeve's apical face"
        );
        let mark = MarkEdge {
            name: "II".into(),
            edge: Edge::Upper,
        };
        assert_eq!(
            say.bench(&Known::Is(mm("3.2")), Some(&mark)),
            "with the mark level with the rim, the tip projects 3.2 mm beyond the master sleeve's apical face"
        );
        assert_eq!(
            say.bench(&Known::Unknown(vec![Reason::NothingFits]), None),
            "bench check: no figure"
        );
    });
}

#[test]
fn marks_freehand_steps_and_other_paths_are_told() {
    let marks = [
        "set /sites/0/steps/2/drill \"p17\"",
        "remove /sites/0/steps/2/stop",
    ];
    let mark = |edits: &[&str]| last_step(edits, |say, step| say.mark(step).unwrap());
    assert_eq!(mark(&marks), "no stop: to the mark L");
    let [drill, stop] = marks;
    assert_eq!(
        mark(&[drill, stop, "set /kit/drills/0/marks/1/lower_edge_mm 22"]),
        "no stop: to the edge of the mark K nearer the shank"
    );
    let freehand = ["set /sites/0/guided_extent \"pilot_only\""];
    assert_eq!(
        last_step(&freehand, |say, step| say.guidance(step)),
        "freehand"
    );
    let without = ["remove /sites/0/steps/2/sleeve"];
    assert_eq!(
        last_step(&without, |say, step| say.guidance(step)),
        "directly through the master sleeve"
    );
    let unknown = with(&["remove /setup/gauge"], |say, sheet| {
        say.play(sheet.sites[0].play[2].as_ref().unwrap())
    });
    assert_eq!(unknown, "play unknown: no gauge chosen");
}
