//! One string: a setting on the screen, in the figures and in the text of the PDF.

use crate::hand::Hand;
use crate::plan::{printed_lines, write_sheet};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use serde_json::Value;
use std::ffi::OsString;
use traywright::action::View;
use traywright::desk::DEMOS;

/// Settings that the site view shows beside the steps, in their order.
fn on_screen(hand: &Hand) -> Vec<String> {
    let buttons = hand.names(Role::Button).into_iter();
    let settings = buttons.filter(|name| name.starts_with("setting of "));
    settings
        .filter_map(|name| Some(name.rsplit_once(": ")?.1.to_owned()))
        .collect()
}

/// Settings that `traywright figures` prints of each site, in the order of its steps.
fn in_figures(file: &std::path::Path) -> Vec<(String, Vec<String>)> {
    let arguments = ["traywright", "figures"].map(OsString::from);
    let arguments = arguments.into_iter().chain([file.as_os_str().to_owned()]);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    traywright::run(arguments, &mut out, &mut err);
    let json: Value = serde_json::from_slice(&out).expect("figures");
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    list(&json["sites"])
        .iter()
        .map(|site| {
            let steps = list(&site["steps"]);
            let shown = steps.iter().map(|step| text(&step["set_shown"]));
            (text(&site["id"]), shown.collect())
        })
        .collect()
}

/// True if these are there, one after the other, with anything between.
fn in_order(lines: &[String], wanted: &[String]) -> bool {
    let mut lines = lines.iter();
    wanted.iter().all(|want| lines.any(|line| line == want))
}

#[test]
fn the_settings_of_every_demonstration_are_the_same_strings_on_screen_in_figures_and_on_paper() {
    let mut looked_at = 0;
    for (demo, _) in DEMOS {
        let mut hand = Hand::new().with_demo(demo);
        let file = hand.folder.path().join(format!("{demo}.json"));
        let figures = in_figures(&file);
        let printed = printed_lines(&write_sheet(&mut hand));
        hand.go(View::Site);
        for (site, settings) in &figures {
            assert!(!settings.is_empty(), "{demo} {site}");
            assert_eq!(&on_screen(&hand), settings, "{demo} {site}");
            assert!(in_order(&printed, settings), "{demo} {site}: {settings:?}");
            looked_at += settings.len();
            hand.press(Modifiers::COMMAND, Key::PageDown);
        }
    }
    assert!(looked_at > 40, "{looked_at}");
}
