//! Refusals of a change, in the words of the window: the site and the value, and nothing of lines,
//! columns or paths, since nobody looks at a file here.

use traywright_core::case::EditRefused;
use traywright_core::document::{Argument, Fault, Rule, Step};
use traywright_core::kit::SiteId;
use traywright_core::wording::Formatter;

/// The reason why a change was not carried out. The case stays as it was.
pub(crate) fn refused_change(formatter: &Formatter<'_>, refused: &EditRefused) -> String {
    let EditRefused::Invalid(found) = refused else {
        return super::refusal::refused_edit(formatter, refused);
    };
    let mut lines: Vec<String> = found.iter().map(|fault| told(formatter, fault)).collect();
    if found.left_out() > 0 {
        let count = &[("count", found.left_out())];
        lines.push(formatter.texts.counted("faults-left-out", count, &[]));
    }
    lines.join("\n")
}

fn told(formatter: &Formatter<'_>, fault: &Fault) -> String {
    let arg = |name| fault.args.get(name).map(said).unwrap_or_default();
    if fault.rule == Rule::BelowOther && is_rim(fault.path.steps()) {
        let (value, height) = (arg("value"), arg("limit"));
        let args = [("value", value.as_str()), ("height", &height)];
        return formatter.texts.get("refused-rim", &args);
    }
    let args = fault.args.iter().map(|(name, value)| (*name, said(value)));
    let args: Vec<(&str, String)> = args.collect();
    let args: Vec<(&str, &str)> = args.iter().map(|(k, v)| (*k, v.as_str())).collect();
    let what = formatter.texts.get(fault.rule.id(), &args);
    let place = place(formatter, fault);
    if place.is_empty() {
        return what;
    }
    let args = [("place", place.as_str()), ("what", what.as_str())];
    formatter.texts.get("fault-at-place", &args)
}

/// True if the steps lead to the distance from the platform to the sleeve.
fn is_rim(steps: &[Step]) -> bool {
    let is = |step: &Step, key: &str| matches!(step, Step::Key(here) if here == key);
    matches!(steps, [.., outer, inner] if is(outer, "platform_to_sleeve") && is(inner, "entered_mm"))
}

fn said(argument: &Argument) -> String {
    match argument {
        Argument::Key(key) => plain(key),
        other => other.to_string(),
    }
}

/// A place in plain words: `sites[0] "p36" › heights › highest_mm` is the tooth, heights, highest.
/// The number of an item says nothing here; its id does.
fn place(formatter: &Formatter<'_>, fault: &Fault) -> String {
    let mut said: Vec<String> = Vec::new();
    let mut list = "";
    for (step, id) in fault.steps() {
        match (step, id) {
            (Step::Key(key), _) => {
                list = key;
                said.push(plain(key));
            }
            (Step::Item(_), None) => {}
            (Step::Item(_), Some(id)) => {
                let known = list == "sites" && formatter.case.site(id).is_some();
                let named = if known {
                    formatter.site(&SiteId::from(id))
                } else {
                    format!("{} {id}", plain(list))
                };
                said.pop();
                said.push(named);
            }
        }
    }
    said.join(", ")
}

/// A key of the document in plain words: `highest_mm` is "highest".
fn plain(key: &str) -> String {
    let word = key.trim_end_matches("_mm").trim_end_matches("_deg");
    word.replace('_', " ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, Document, demo_case};
    use traywright_core::case::{CrestDepth, Edit, PlatformToSleeve, SleeveFace, apply};
    use traywright_core::dentition::Notation;
    use traywright_core::measure::Length;

    fn refused(change: impl FnOnce(&mut traywright_core::case::Site)) -> String {
        let document = Document::unsaved(demo_case(DEMOS[1].1));
        let mut site = document.case().sites[0].clone();
        change(&mut site);
        let refused = apply(document.case(), &[Edit::ChangeSite(Box::new(site))]).unwrap_err();
        refused_change(&document.formatter(Notation::Iso), &refused)
    }

    fn is_of_no_file(told: &str) {
        for word in ["line", "column", "[", "_", "›"] {
            assert!(!told.contains(word), "{told}");
        }
    }

    #[test]
    fn a_distance_too_short_for_the_rim_is_told_with_the_sleeves_height() {
        let told = refused(|site| {
            site.platform_to_sleeve = Some(PlatformToSleeve {
                entered_mm: Length::from_um(4_450),
                to: SleeveFace::Coronal,
            });
        });
        assert!(
            told.starts_with("4.45 mm cannot be to the coronal rim"),
            "{told}"
        );
        assert!(told.contains("4.65 mm high"), "{told}");
        is_of_no_file(&told);
    }

    #[test]
    fn any_other_refusal_names_site_and_value_but_no_place_in_a_file() {
        let told = refused(|site| {
            site.heights.platform_below_crest = Some(CrestDepth {
                highest_mm: Length::from_mm(1),
                lowest_mm: Length::from_mm(2),
            });
        });
        assert!(told.contains("(46)") && told.contains("highest"), "{told}");
        assert!(
            told.contains("1 mm must be at least the 2 mm of lowest"),
            "{told}"
        );
        is_of_no_file(&told);
    }
}
