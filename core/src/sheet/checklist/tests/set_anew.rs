//! Fewer drills than settings, on paper.

use super::at_the_tray::under_title;
use super::samples::changed;
use super::*;

/// The two molars with one pilot and one tip drill 2.57: three settings of the one, two of the other.
fn short() -> ValidCase {
    changed("two-molars", |case| {
        for drill in case["kit"]["drills"].as_array_mut().unwrap() {
            if ["pilot-213", "tip-257"].contains(&drill["id"].as_str().unwrap()) {
                drill["quantity"] = 1.into();
            }
        }
    })
}

/// Worked by hand: the pilot goes 17.8, 20.7, 19.1, the tip drill 20.7, 19.1. Every line to set
/// anew is right before its step, and the tray's pages and counts have one piece of each.
#[test]
fn a_stop_that_is_set_anew_has_a_line_of_its_own_before_its_step() {
    let case = short();
    let pages = pages(&case, Paper::A4);
    holds_together(&pages, "re-set");
    let order = under_title(&pages, "Order of use").join(" ");
    let mut rest = order.as_str();
    for line in [
        "Pilot drill 2.13 Crane 1",
        "Re-set Pilot drill 2.13, slot Crane 1, from 17.8 mm to 20.7 mm.",
        "Pilot drill 2.13 Crane 1",
        "Re-set Pilot drill 2.13, slot Crane 1, from 20.7 mm to 19.1 mm.",
        "Pilot drill 2.13 Crane 1",
        "Tip drill 2.57 Crane 2",
        "Re-set Tip drill 2.57, slot Crane 2, from 20.7 mm to 19.1 mm.",
        "Tip drill 2.57 Crane 2",
    ] {
        let at = rest
            .find(line)
            .unwrap_or_else(|| panic!("{line} in {rest}"));
        rest = &rest[at + line.len()..];
    }
    assert_eq!(order.matches("first reading, mm").count(), 3);
    let tray = under_title(&pages, "Loading the tray").join(" ");
    assert_eq!(tray.matches("To be re-set during surgery").count(), 3);
    assert!(tray.contains("enough only with re-sets during surgery: 2 in this order"));
    let worksheet = work_out(&case);
    let counted = |entry: &str| {
        let of = worksheet.loading.iter().filter(|item| item.entry == entry);
        of.count()
    };
    assert_eq!((counted("pilot-213"), counted("tip-257")), (1, 1));
    let counts = under_title(&pages, "Counts").join(" ");
    // Tip drill 2.57, two each of 3.16 and 3.68, profile drill, tap; their stops and the pilot's.
    assert!(
        counts.contains("depth stops 8") && counts.contains("drills, opened 7"),
        "{counts}"
    );
    let team = under_title(&pages, "Team check").join(" ");
    assert!(team.contains("as named in the order of use: 3."));
}

#[test]
fn the_second_readings_leaf_names_what_is_set_anew_and_bears_no_setting() {
    let pages = pages(&short(), Paper::A4);
    let leaf = under_title(&pages, "Second reading").join(" ");
    assert!(leaf.contains("Re-set during surgery: read when it is re-set, not before"));
    assert_eq!(leaf.matches("before Pilot drill 2.13").count(), 2);
    assert_eq!(leaf.matches("before Tip drill 2.57").count(), 1);
    for setting in ["17.8", "20.7", "19.1", "13.2", "19.6"] {
        assert!(!leaf.contains(setting), "{setting}");
    }
}

/// At the site the boxes for its readings are where it is set anew, not at the step.
#[test]
fn a_site_has_the_boxes_where_its_stop_is_set_anew() {
    let pages = pages(&short(), Paper::A4);
    let site = |title: &str| under_title(&pages, title).join(" ");
    let first = site("Lower right first molar (46)");
    assert_eq!(first.matches("Re-set Pilot drill 2.13").count(), 1);
    assert_eq!(first.matches("read when it is re-set").count(), 1);
    let second = site("Lower right second molar (47)");
    assert_eq!(second.matches("Re-set ").count(), 2);
    assert_eq!(second.matches("read when it is re-set").count(), 2);
}

/// The first setting of the one tip drill does not fit, the later one does: it is taken and laid and not set, and the
/// order of use takes it before the later step, after nothing that is not done.
#[test]
fn what_fits_only_later_is_laid_unset_and_taken_from_where_it_lies() {
    let case = changed("two-molars", |case| {
        for drill in case["kit"]["drills"].as_array_mut().unwrap() {
            if drill["id"] == "tip-257" {
                drill["quantity"] = 1.into();
                drill["clamp"]["to_mm"] = 24.0.into();
            }
        }
    });
    let pages = pages(&case, Paper::A4);
    holds_together(&pages, "laid unset");
    let tray = under_title(&pages, "Loading the tray").join(" ");
    assert!(!tray.contains("Do not use this drill."), "{tray}");
    assert!(
        tray.contains("Take it and lay it: not set before surgery"),
        "{tray}"
    );
    assert!(!tray.contains("20.7 mm to"), "{tray}");
    let before = "before Tip drill 2.57, lower right second molar (47)";
    assert!(tray.contains(before), "{tray}");
    let order = under_title(&pages, "Order of use").join(" ");
    assert!(
        order.contains("Re-set Tip drill 2.57, slot Crane 6, to 19.1 mm."),
        "{order}"
    );
    for text in [&tray, &order] {
        assert!(
            !text.contains("fter Tip drill 2.57, lower right first molar"),
            "{text}"
        );
    }
}
