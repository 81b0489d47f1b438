//! The lists of the site's form: things measured at a site are added, changed, confirmed and taken away.

use crate::hand::{DESK, Hand};
use traywright::action::View;
use traywright_core::case::{
    Direction, DistanceTo, Height, HeightDatum, Site, SiteState, Socket, StructureExtent,
    StructureKind,
};
use traywright_core::measure::Length;
use traywright_core::plan::{Reason, SiteHeight};
use traywright_core::text::Texts;

fn site(hand: &Hand) -> Site {
    let document = hand.program().document().expect("a case");
    document.case().sites[0].clone()
}

pub(crate) fn word(id: &str) -> String {
    Texts::english().get(id, &[])
}

/// What a field of one of several things is called.
fn of(what: &str, field: &str) -> String {
    let args = [("what", what), ("field", &word(field))];
    Texts::english().get("site-field-of", &args)
}

fn with(id: &str, what: &str) -> String {
    Texts::english().get(id, &[("what", what)])
}

/// The button that confirms something in the name of the demo cases' surgeon.
fn confirm(what: &str) -> String {
    Texts::english().get("site-stale-confirm-what", &[("what", what), ("by", "RT")])
}

fn mm(um: i64) -> Length {
    Length::from_um(um)
}

fn at_the_form() -> Hand {
    let mut hand = Hand::at(DESK, 1.0).with_demo("two-molars");
    hand.go(View::Site);
    hand
}

#[test]
fn a_structure_is_added_changed_and_taken_away() {
    let mut hand = at_the_form();
    let foramen = word("structure-mental_foramen");
    hand.choose(&word("site-structure-add"), &foramen);
    hand.choose(&word("site-structure-lies"), &word("site-lies-beside"));
    hand.enter(&word("site-structure-beside"), "6,4");
    let added = site(&hand).structures[1].clone();
    assert_eq!(added.kind, StructureKind::MentalForamen);
    hand.enter(&of(&foramen, "site-structure-beside"), "60.1");
    let refused = ["0.0 mm", "60.0 mm"].map(|limit| hand.sees(limit));
    assert_eq!((refused, site(&hand).structures.len()), ([true; 2], 2));
    hand.enter(&of(&foramen, "site-structure-beside"), "6.6");
    hand.enter(&of(&foramen, "site-structure-loop"), "3");
    hand.enter(&with("site-down-to", &foramen), "12");
    hand.enter(
        &of(&foramen, "site-structure-source"),
        "measured on a slice",
    );
    let changed = site(&hand).structures[1].clone();
    let extent = StructureExtent::Beside {
        from_axis_mm: mm(6_600),
        anterior_loop_mm: Some(mm(3_000)),
    };
    assert_eq!(changed.extent, extent);
    assert_eq!(changed.measured_at.down_to_mm, Some(mm(12_000)));
    assert_eq!(changed.source, Some("measured on a slice".into()));
    hand.click(&with("site-remove-what", &foramen));
    assert_eq!(site(&hand).structures.len(), 1);

    let canal = word("structure-incisive_canal");
    hand.choose(&word("site-structure-add"), &canal);
    hand.choose(&word("site-structure-lies"), &word("site-lies-below"));
    hand.choose(&word("site-structure-from"), &word("site-from-crest"));
    hand.choose(&word("site-structure-direction"), &word("site-along-axis"));
    hand.enter(&word("site-structure-height"), "-9,5");
    hand.choose(
        &of(&canal, "site-structure-direction"),
        &word("site-vertical"),
    );
    let below = StructureExtent::Below {
        height_mm: mm(-9_500),
        from: HeightDatum::Crest,
        direction: Direction::Vertical,
    };
    assert_eq!(site(&hand).structures[1].extent, below);
}

#[test]
fn a_distance_and_an_obstacle_are_added_changed_and_taken_away() {
    let mut hand = at_the_form();
    let (distances, obstacles) = (site(&hand).distances.len(), site(&hand).obstacles.len());
    let (tooth, at) = ("lower right first premolar (44)", word("height-apex"));
    hand.choose(&word("site-neighbour-add"), tooth);
    hand.choose(&word("site-neighbour-height"), &at);
    hand.enter(&word("site-neighbour-distance"), "9.2");
    let document = hand.program().document().expect("a case");
    let notation = traywright_core::dentition::Notation::Iso;
    let added = site(&hand).distances[distances].clone();
    let what = document
        .formatter(notation)
        .distance_to(&added.to, added.at);
    assert!(matches!(added.to, DistanceTo::Tooth { .. }) && added.at == Height::Apex);
    hand.enter(&what, "9,4");
    hand.enter(&with("site-down-to", &what), "11.5");
    let changed = site(&hand).distances[distances].clone();
    assert_eq!(changed.from_axis_mm, mm(9_400));
    assert_eq!(changed.measured_at.down_to_mm, Some(mm(11_500)));
    hand.click(&with("site-remove-what", &what));
    assert_eq!(site(&hand).distances.len(), distances);

    hand.enter(&word("site-obstacle-add"), "edge of the guide");
    hand.enter(&word("site-obstacle-above"), "1.5");
    hand.enter(&word("site-obstacle-beside"), "5");
    let name = "edge of the guide";
    hand.enter(&of(name, "site-obstacle-above"), "1.7");
    hand.enter(&of(name, "site-obstacle-beside"), "5.2");
    let changed = site(&hand).obstacles[obstacles].clone();
    assert_eq!(changed.above_rim_mm, mm(1_700));
    assert_eq!(changed.from_axis_mm, mm(5_200));
    hand.click(&with("site-remove-what", name));
    assert_eq!(site(&hand).obstacles.len(), obstacles);
}

/// A new distance to an obstacle says nothing of its height, nor the other way round, once the site
/// was moved.
#[test]
fn one_measure_of_an_obstacle_does_not_vouch_for_the_other() {
    let name = "edge of the guide";
    for row in ["site-obstacle-above", "site-obstacle-beside"] {
        let mut hand = at_the_form();
        hand.enter(&word("site-obstacle-add"), name);
        hand.enter(&word("site-obstacle-above"), "1.5");
        hand.enter(&word("site-obstacle-beside"), "5");
        let stale = |hand: &Hand| {
            let document = hand.program().document().expect("a case");
            let stale = traywright_core::plan::stale_values(document.case(), &site(hand));
            *stale.obstacles.last().expect("the obstacle")
        };
        assert!(!stale(&hand));
        hand.go(View::Arch);
        hand.enter(&word("arch-along"), "0.4");
        hand.go(View::Site);
        assert!(stale(&hand));
        hand.enter(&of(name, row), "3.3");
        assert!(stale(&hand), "{row}");
        hand.click(&confirm(name));
        assert!(!stale(&hand));
    }
}

/// What was measured before the site was moved is confirmed as deep as it was measured.
#[test]
fn a_stale_value_is_confirmed_for_itself() {
    let mut hand = at_the_form();
    hand.go(View::Arch);
    let before = site(&hand);
    hand.enter(&word("arch-along"), "0.4");
    let moved = site(&hand);
    assert_ne!(moved.placement, before.placement);
    hand.go(View::Site);
    let notation = traywright_core::dentition::Notation::Iso;
    let document = hand.program().document().expect("a case");
    let one = &moved.distances[0];
    let what = document.formatter(notation).distance_to(&one.to, one.at);
    hand.click(&confirm(&what));
    let now = site(&hand).distances[0].clone();
    assert_eq!(now.measured_at.placement, moved.placement);
    assert_eq!(now.measured_at.down_to_mm, one.measured_at.down_to_mm);
    assert_eq!(site(&hand).distances[1..], moved.distances[1..]);
}

/// The gap of a socket remembers where it was measured and beside which implant; after a move it is
/// confirmed, or measured anew.
#[test]
fn the_gap_of_a_socket_is_confirmed_after_a_move() {
    let mut hand = Hand::new().with_demo("fresh-socket");
    hand.go(View::Site);
    let gap = |hand: &Hand| match site(hand).state {
        SiteState::FreshSocket(Socket {
            gap_mm,
            gap_measured_at,
            ..
        }) => (gap_mm, gap_measured_at),
        other => panic!("{other:?}"),
    };
    let stale = |hand: &Hand| {
        let document = hand.program().document().expect("a case");
        traywright_core::plan::stale_values(document.case(), &site(hand)).gap
    };
    let label = word("site-gap");
    hand.enter(&label, "1.6");
    let (entered, at) = gap(&hand);
    let at = at.expect("where it was measured");
    assert_eq!(
        (entered, at.implant_diameter_mm),
        (Some(mm(1_600)), mm(3_880))
    );
    assert_eq!(at.site.placement, site(&hand).placement);
    for anew in [None, Some("1.5")] {
        hand.go(View::Arch);
        hand.enter(
            &word("arch-along"),
            if anew.is_none() { "0.4" } else { "0.5" },
        );
        hand.go(View::Site);
        assert!(stale(&hand));
        match anew {
            None => hand.click(&confirm(&label)),
            Some(new) => hand.enter(&label, new),
        }
        assert!(!stale(&hand));
        let word = gap(&hand).1.expect("where it was measured").site.confirmed;
        let by = word.map(|word| (word.by, word.placement));
        let told = anew.is_none().then(|| ("RT".into(), at.site.placement));
        assert_eq!(by, told);
        assert_eq!(
            gap(&hand).0,
            Some(mm(if anew.is_none() { 1_600 } else { 1_500 }))
        );
    }
}

/// Two heights of the crest that contradict each other are refused where they are entered, also the
/// first time; what was taken back does not stay in the fields.
#[test]
fn a_contradictory_pair_of_crest_heights_is_refused() {
    let mut hand = at_the_form();
    let (highest, lowest) = (word("site-crest-highest"), word("site-crest-lowest"));
    let crest = |hand: &Hand| site(hand).heights.platform_below_crest;
    hand.go(View::Arch);
    hand.enter(&word("arch-along"), "0.4");
    hand.go(View::Site);
    hand.click(&word("site-heights-anew"));
    assert_eq!(crest(&hand), None);
    hand.enter(&highest, "0.5");
    hand.enter(&lowest, "0.8");
    assert_eq!(crest(&hand), None);
    assert!(hand.sees("0.5 mm must be at least the 0.8 mm"));
    hand.enter(&lowest, "0.3");
    assert!(crest(&hand).is_some_and(|crest| crest.lowest_mm == mm(300)));
    hand.press(egui::Modifiers::COMMAND, egui::Key::Z);
    assert_eq!(crest(&hand), None);
}

/// What a move made unknown stands in the list of findings as one line, and beneath it what hangs on
/// it once that is asked for; by keys alone as well.
#[test]
fn one_cause_is_one_line_of_the_findings() {
    for by_keys in [false, true] {
        let mut hand = at_the_form();
        hand.go(View::Arch);
        hand.enter(&word("arch-along"), "1.9");
        if by_keys {
            hand = hand.by_keys();
        }
        hand.go(View::Findings);
        let stale = |hand: &Hand| {
            let document = hand.program().document().expect("a case");
            let findings = document.worksheet().findings.iter();
            let stale = |reason: &Reason| matches!(reason, Reason::Stale(..));
            let of_it = findings.filter(|f| f.value.reasons().iter().any(stale));
            let formatter = document.formatter(traywright_core::dentition::Notation::Iso);
            let lines = of_it.map(|f| formatter.line(&formatter.finding(f)));
            lines.collect::<Vec<String>>()
        };
        let all = stale(&hand);
        assert!(all.len() > 5, "{all:?}");
        let seen = |hand: &Hand| all.iter().filter(|line| hand.sees(line)).count();
        assert_eq!(seen(&hand), 0);
        let buttons = hand.names(egui::accesskit::Role::Button);
        let unfold = buttons
            .iter()
            .find(|name| name.ends_with(&word("findings-unfold")));
        hand.click(unfold.expect("a line that unfolds"));
        assert_eq!(seen(&hand), all.len());
    }
}

/// A figure that rests on what was confirmed says so where it stands, in the list of the site's findings.
#[test]
fn a_confirmed_value_is_told_beside_its_figure() {
    let mut hand = at_the_form();
    assert!(!hand.sees("confirmed by RT"));
    hand.go(View::Arch);
    hand.enter(&word("arch-along"), "0.4");
    hand.go(View::Site);
    hand.click(&confirm(&word("site-heights-title")));
    assert!(hand.sees("confirmed by RT after a move of"));
}

/// A height that is entered anew says nothing of the others: what was only confirmed after a move stays
/// that, also once it is confirmed again or taken away.
#[test]
fn one_height_measured_anew_leaves_the_others_as_confirmed() {
    let mut hand = at_the_form();
    let heights = |hand: &Hand| site(hand).heights;
    let confirm = confirm(&word("site-heights-title"));
    let move_to = |hand: &mut Hand, along: &str| {
        hand.go(View::Arch);
        hand.enter(&word("arch-along"), along);
        hand.go(View::Site);
    };
    let measured = site(&hand).placement;
    move_to(&mut hand, "0.4");
    hand.click(&confirm);
    let (word_on_all, first) = (heights(&hand).confirmed, site(&hand).placement);
    assert_eq!(
        word_on_all.as_ref().map(|word| word.placement),
        Some(measured)
    );
    hand.enter(&word("site-tissue"), "2.6");
    let now = heights(&hand);
    assert_eq!(now.tissue_thickness_mm, Some(mm(2_600)));
    let tissue = SiteHeight::TissueThickness;
    assert_eq!(
        (now.measured_at(tissue), now.word_on(tissue)),
        (Some(first), None)
    );
    for others in [
        SiteHeight::PlatformBelowCrest,
        SiteHeight::CrestBelowOcclusal,
    ] {
        assert_eq!(now.word_on(others), word_on_all.as_ref(), "{others:?}");
    }
    // Confirmed again, each keeps where it was measured itself.
    move_to(&mut hand, "0.6");
    hand.click(&confirm);
    let now = heights(&hand);
    let from = |height| now.word_on(height).map(|word| word.placement);
    assert_eq!(from(tissue), Some(first));
    assert_eq!(from(SiteHeight::PlatformBelowCrest), Some(measured));
}

/// Confirming and accepting are in one name, that of the case's surgeon before whoever approved here last,
/// and the button says it; what was typed for the one holds for the other. Without a name it is asked for.
#[test]
fn who_confirms_is_who_accepts_and_is_told() {
    let mut hand = at_the_form();
    let heights = word("site-heights-title");
    hand.go(View::Arch);
    hand.enter(&word("arch-along"), "0.4");
    hand.go(View::Site);
    let button = |by: &str| {
        Texts::english().get("site-stale-confirm-what", &[("what", &heights), ("by", by)])
    };
    assert!(hand.sees(&button("RT")));
    hand.go(View::Case);
    hand.enter(&word("case-surgeon"), "-");
    hand.go(View::Site);
    assert!(hand.sees(&word("site-stale-nobody")) && !hand.sees(&button("-")));
    hand.go(View::Case);
    hand.enter(&word("case-surgeon"), "N. Quill");
    hand.go(View::Site);
    hand.click(&button("N. Quill"));
    let by = site(&hand).heights.confirmed.map(|word| word.by);
    assert_eq!(by, Some("N. Quill".into()));

    let mut hand = at_the_form();
    hand.go(View::Findings);
    hand.enter(&word("findings-by"), "A. Berg");
    hand.go(View::Arch);
    hand.enter(&word("arch-along"), "0.4");
    hand.go(View::Site);
    assert!(hand.sees(&button("A. Berg")));
}

/// A depth that is too far off to be a reading of the crest by itself: who says so is named on the button, and after it there
/// is nothing more to say.
#[test]
fn a_crest_that_was_read_far_off_is_said_to_be_so_by_name() {
    let mut hand = at_the_form();
    hand.go(View::Case);
    hand.choose(&word("case-state"), &word("case-guide-made"));
    hand.go(View::Site);
    let button = Texts::english().get("site-crest-read", &[("by", "RT")]);
    assert!(!hand.sees(&button));
    hand.enter(&word("site-crest-highest"), "3.9");
    hand.enter(&word("site-crest-lowest"), "3.5");
    assert!(site(&hand).heights.is_off_guide());
    // In a demonstration nobody says it.
    assert!(!hand.sees(&button) && hand.sees(&word("site-crest-practice")));
    hand.go(View::Case);
    hand.choose("The case is for", "surgery");
    hand.go(View::Site);
    hand.click(&button);
    let heights = site(&hand).heights;
    assert!(!heights.is_off_guide());
    assert_eq!(heights.crest_read.unwrap().by, "RT".into());
    assert!(!hand.sees(&button));
}
