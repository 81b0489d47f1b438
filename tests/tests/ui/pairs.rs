//! A finding between two sites stands at both, wherever a site is looked at.

use crate::hand::Hand;
use egui::accesskit::Role;
use egui::vec2;
use serde_json::{Value, json};
use std::borrow::Cow;
use traywright::action::View;
use traywright_core::charts::{Room, Section};
use traywright_core::kit::SiteId;
use traywright_core::plan::{Finding, Severity};
use traywright_core::text::Texts;

/// Two molars that are 5.0 apart by what was entered at the first of them: short at both.
fn near() -> Hand {
    let demo = include_str!("../../../demo/two-molars.json");
    let mut case: Value = serde_json::from_str(demo).expect("a case");
    let distances = case["sites"][0]["distances"].as_array_mut().expect("some");
    for distance in distances
        .iter_mut()
        .filter(|one| one["to"]["neighbour"] == "site")
    {
        distance["from_axis_mm"] = json!(5);
    }
    let mut hand = Hand::at(vec2(1280.0, 1400.0), 1.0);
    let file = hand.folder.path().join("near.json");
    std::fs::write(&file, case.to_string()).expect("a file");
    hand.harness.state_mut().open(&file);
    hand.wait();
    hand
}

fn sites(hand: &Hand) -> Vec<SiteId> {
    let case = hand.program().document().expect("a case").case();
    case.sites.iter().map(|site| site.id.clone()).collect()
}

/// The tooth of a site in words, and what is told there of the other, short by what was entered.
fn told(hand: &Hand, site: &SiteId, seen_from: bool) -> (String, String) {
    let document = hand.program().document().expect("a case");
    let formatter = document.formatter(hand.program().desk().settings.notation);
    let is_pair = |finding: &&Finding| finding.rule.key() == "neighbour-implant";
    let mut pairs = document.worksheet().findings.iter().filter(is_pair);
    let finding = pairs.next().expect("one between the two");
    assert_eq!(finding.severity(), Severity::Short);
    let seen = if seen_from {
        finding.seen_from(site)
    } else {
        Cow::Borrowed(finding)
    };
    // Its first letter is a capital in some lists.
    let headline = formatter.finding(&seen).headline;
    (formatter.site(site), headline[1..].to_owned())
}

/// Chooses a site in the strip at the foot.
fn choose(hand: &mut Hand, name: &str) {
    let begins = format!("{name}, ");
    let all = hand.names(Role::Button);
    let card = all.into_iter().find(|one| one.starts_with(&begins));
    hand.click(&card.expect("the site in the strip"));
}

#[test]
fn the_card_of_either_site_tells_it() {
    let mut hand = near();
    hand.go(View::Arch);
    for site in sites(&hand) {
        let (name, headline) = told(&hand, &site, true);
        choose(&mut hand, &name);
        assert!(hand.sees(&headline), "{name}: {headline}");
    }
}

#[test]
fn the_list_of_either_site_tells_it() {
    let mut hand = near();
    hand.go(View::Site);
    for site in sites(&hand) {
        let (name, headline) = told(&hand, &site, true);
        choose(&mut hand, &name);
        assert!(hand.sees(&headline), "{name}: {headline}");
    }
}

#[test]
fn the_section_of_either_site_says_its_worst() {
    let hand = near();
    let document = hand.program().document().expect("a case");
    for site in &document.worksheet().sites {
        let name = told(&hand, &site.id, true).0;
        let section = Section {
            case: document.case(),
            worksheet: document.worksheet(),
            site,
            step: site.steps.first().map(|step| &step.id),
            site_name: &name,
            texts: Texts::english(),
        };
        let room = Room {
            width: 180.0,
            height: 200.0,
        };
        let drawing = section.draw(room).expect("a drawing");
        let words = drawing.texts();
        let words: Vec<&str> = words.iter().map(|text| text.content.as_str()).collect();
        assert!(words.contains(&"site: short"), "{name}: {words:?}");
    }
}

#[test]
fn it_is_listed_where_either_site_is_picked() {
    let mut hand = near();
    hand.go(View::Findings);
    let anywhere = told(&hand, &sites(&hand)[0], false).1;
    assert!(hand.sees(&anywhere));
    hand.choose("Where", "the case as a whole");
    assert!(!hand.sees(&anywhere));
    for site in sites(&hand) {
        let (name, headline) = told(&hand, &site, false);
        hand.choose("Where", &name);
        assert!(hand.sees(&headline), "{name}: {headline}");
    }
}
