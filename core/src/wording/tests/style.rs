//! Properties of every sentence: no gap, a unit beside every number, nothing that soothes.

use super::sample::with;
use crate::plan::Severity;
use crate::text::Texts;

const FILES: &[&str] = &[
    include_str!("../../../../assets/text/en/findings.ftl"),
    include_str!("../../../../assets/text/en/figures.ftl"),
    include_str!("../../../../assets/text/en/plan.ftl"),
    include_str!("../../../../assets/text/en/tray.ftl"),
    include_str!("../../../../assets/text/en/cautions.ftl"),
];

/// The sample in many states, one change at a time and with much of it missing.
const STATES: &[&[&str]] = &[
    &[],
    &["two-sites"],
    &[
        "two-sites",
        "remove /arch",
        "set /teeth []",
        "set /sites/0/distances []",
        "set /sites/1/distances []",
    ],
    &[
        "remove /sites/0/platform_to_sleeve",
        "remove /setup/head",
        "set /sites/0/walls []",
    ],
    &[
        "set /limits {}",
        "set /sites/0/structures []",
        "remove /setup/tray",
    ],
    &[
        "set /sites/0/placement/along_mm 0.3",
        "remove /sites/0/density",
    ],
    &[
        "remove /sites/0/heights/platform_below_crest",
        "set /sites/0/obstacles []",
    ],
    &["set /kit/gauges/0/to_mm 18", "set /kit/stops/0/quantity 0"],
    &[
        "set /sites/0/structures/0/extent/height_mm 10",
        "set /sites/0/walls/0/from_axis_mm 1",
    ],
    &[
        "set /sites/0/guided_extent \"pilot_only\"",
        "remove /setup/gauge",
    ],
];

/// Every sentence on the worksheet in all those states.
fn sentences() -> Vec<String> {
    let mut all = Vec::new();
    for edits in STATES {
        with(edits, |say, sheet| {
            for finding in &sheet.findings {
                let said = say.finding(finding);
                all.push(say.line(&said));
                let rest = [said.detail, said.remedy, said.basis, said.source];
                all.extend(rest.into_iter().flatten());
            }
            all.extend(sheet.order.iter().map(|one| say.use_line(one, sheet)));
            all.extend(sheet.stock.iter().map(|one| say.stock(one)));
            for item in &sheet.loading {
                let said = say.load(item, sheet);
                all.extend([said.take, said.slot, said.serves]);
                all.extend(said.setting.into_iter().chain(said.bench));
                all.extend(said.set_anew);
            }
            all.extend(sheet.resets.iter().map(|one| say.reset_line(one, sheet)));
            for one in &sheet.mix_ups {
                let said = say.mix_up(one);
                all.extend([said.site, said.mistake, said.cut, said.harm]);
            }
            for site in &sheet.sites {
                all.push(say.insertion(site.insertion.as_ref()));
                all.extend(site.play.iter().flatten().map(|play| say.play(play)));
                all.extend(site.steps.iter().map(|step| say.setting_line(step)));
                all.extend(site.steps.iter().map(|step| say.setting_in_full(step)));
            }
        });
    }
    all
}

#[test]
fn no_sentence_has_a_gap_or_a_piece_of_the_file_format() {
    for text in sentences() {
        for bad in [
            "⟨",
            "⟩",
            "{",
            "sites[",
            "_mm",
            "  ",
            " ,",
            ": :",
            "unknown unknown",
        ] {
            assert!(!text.contains(bad), "{bad:?} in {text}");
        }
    }
}

/// Names of the sample that hold a number.
const NAMES: &[&str] = &[
    "pilot 1.7",
    "twist 2.4",
    "twist 3.1",
    "sleeve 1.7",
    "sleeve 2.4",
    "sleeve 3.1",
    "Wren 3.6 × 9.5",
    "Wren 3.6 × 7.9",
    "crown of 47",
];

#[test]
fn a_decimal_number_has_its_unit_except_inside_a_sum() {
    for text in sentences() {
        let mut text = text;
        // The source of a limit is the words of whoever entered it.
        if text.starts_with("source of the limit") {
            continue;
        }
        for name in NAMES {
            text = text.replace(name, "");
        }
        let text = text.split(" = ").next().unwrap();
        let mut rest = text;
        while let Some(at) = rest.find('.') {
            let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
            let after = &rest[at + 1..];
            if digit(rest[..at].chars().last()) && digit(after.chars().next()) {
                let unit = after.trim_start_matches(|c: char| c.is_ascii_digit());
                assert!(unit.starts_with(" mm") || unit.starts_with('°'), "{text}");
            }
            rest = after;
        }
    }
}

#[test]
fn nothing_unknown_reads_as_fine() {
    for edits in STATES {
        with(edits, |say, sheet| {
            for finding in &sheet.findings {
                let said = say.finding(finding);
                let unknown = finding.severity() == Severity::Unknown;
                let tells = ["unknown", "not entered", "no ", "measure it", "too little"];
                if unknown {
                    assert!(
                        tells.iter().any(|word| said.headline.contains(word)),
                        "{said:?}"
                    );
                    assert!(said.remedy.is_some(), "{said:?}");
                }
                assert_eq!(said.remedy.is_none(), finding.severity() == Severity::Clear);
            }
        });
    }
}

/// In the upper jaw a drawing is upside down: what is upper there is the apical face. And the kit
/// does not distinguish a carrier's line from a face that touches.
#[test]
fn words_for_sleeves_marks_and_crest_hold_in_both_jaws() {
    let texts = Texts::english();
    for id in texts.ids() {
        // A gauge stands on the bench, and so does the stop on it.
        if id.contains("gauge") || id.starts_with("kit-word-") {
            continue;
        }
        let names = texts.arguments(id).unwrap().iter();
        let args: Vec<_> = names.map(|name| (name.as_str(), "Word")).collect();
        let text = texts.get(id, &args).to_lowercase();
        for side in ["upper", "lower", "highest", "lowest"] {
            for part in ["face", "rim", "edge", "crest", "point", "bone"] {
                assert!(!text.contains(&format!("{side} {part}")), "{id}: {text}");
            }
        }
        assert!(!text.contains("carrier touches"), "{id}: {text}");
    }
}

#[test]
fn the_texts_are_calm_and_remedies_are_sentences() {
    let texts = Texts::english();
    for file in FILES {
        for line in file.lines().filter(|line| !line.starts_with('#')) {
            let (id, text) = line.split_once(" = ").unwrap_or(("", line));
            assert!(!text.contains('!'), "{line}");
            for word in text.split(|c: char| !c.is_alphabetic()) {
                let soothing = ["ok", "okay", "fine", "safe", "good"];
                let lower = word.to_lowercase();
                let density = id.starts_with("density-");
                assert!(density || !soothing.contains(&lower.as_str()), "{line}");
            }
        }
    }
    for id in texts.ids() {
        let sentence = ["remedy-", "supply-", "caution-", "severity-meaning-"];
        if sentence.iter().any(|family| id.starts_with(family)) {
            let names = texts.arguments(id).unwrap().iter();
            let args: Vec<_> = names.map(|name| (name.as_str(), "Word")).collect();
            let text = texts.get(id, &args);
            assert!(
                text.ends_with('.') && text.starts_with(char::is_uppercase),
                "{id}: {text}"
            );
        }
    }
}
