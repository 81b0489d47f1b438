//! Each kind of remedy where it is the one that helps, in a small case worked by hand.

use super::go_on;
use crate::plan::kit::stop;
use crate::plan::sample::{case, distance, each_drill, mm, present, site, valid};
use traywright_core::case::{Case, GuideState, Setting, apply};
use traywright_core::kit::{Datum, FixedLength, StopKind};
use traywright_core::plan::{Worksheet, work_out};
use traywright_core::run::{StockChange, StockRemedy, stock_remedies};

fn offered(case: Case) -> (Worksheet, Vec<StockRemedy>) {
    let case = valid(case);
    let sheet = work_out(&case);
    let remedies = stock_remedies(&case, &sheet, &case.kit, &mut go_on);
    for remedy in &remedies {
        let after = work_out(&apply(&case, &remedy.edits).unwrap());
        let line = after.stock.iter().find(|line| line.entry == remedy.entry);
        assert!(line.is_none_or(|line| line.needed <= line.have));
    }
    (sheet, remedies)
}

fn needed(sheet: &Worksheet, entry: &str) -> (u32, u32) {
    let line = sheet.stock.iter().find(|line| line.entry == entry).unwrap();
    (line.needed, line.have)
}

/// Counted at the full diameter, a point of 118° puts 0.570, 0.811 and 0.991 ahead: settings 21.2,
/// 21.5 and 21.6 at the first site, and with 0.4 less to the sleeve 20.8, 21.1 and 21.2 at the
/// second. With one figure at the first, both take the last drill at 21.2, and one is enough.
#[test]
fn one_figure_is_offered_where_it_makes_one_drill_do() {
    let mut two = case();
    each_drill(&mut two, |drill| drill.datum = Datum::FullDiameter {});
    two.sites.push(site("two", "46", &["45", "47"]));
    two.teeth.extend([present("45"), present("47")]);
    two.teeth.push(crate::plan::sample::missing("46"));
    two.sites.swap(0, 1);
    distance(&mut two, "5.6");
    two.sites.swap(0, 1);
    // The guide is made: no distance can be changed any more.
    two.guide.state = GuideState::Made;
    let last = two
        .kit
        .drills
        .iter_mut()
        .find(|drill| drill.id.as_str() == "c");
    last.unwrap().quantity = 1;
    let (sheet, remedies) = offered(two);
    assert_eq!(needed(&sheet, "c"), (2, 1));
    let wanted = StockChange::OneFigure {
        sites: vec!["one".into()],
    };
    let found: Vec<_> = remedies.iter().map(|remedy| &remedy.change).collect();
    assert_eq!(found, [&wanted]);
}

/// Three drills at 20.7 take three stops and there are two. A fixed stop that gives the last drill
/// 20.7 settles it; one that gives 20.8, beyond what is planned, does not.
#[test]
fn a_fixed_stop_is_offered_where_its_length_is_the_one_planned() {
    let with = |length: &str| {
        let mut one = case();
        let mut fixed = stop("f");
        fixed.quantity = 1;
        fixed.depth = StopKind::Fixed {
            lengths: vec![FixedLength {
                drill: "c".into(),
                tip_to_landing_mm: mm(length),
            }],
        };
        one.kit.stops[0].quantity = 2;
        one.kit.stops.push(fixed);
        let (sheet, remedies) = offered(one);
        assert_eq!(needed(&sheet, "u"), (3, 2));
        remedies
    };
    let wanted = StockChange::FixedStop {
        stop: "f".into(),
        sites: vec!["one".into()],
    };
    let found: Vec<_> = with("20.7").into_iter().map(|one| one.change).collect();
    assert_eq!(found, [wanted]);
    assert_eq!(with("20.8"), []);
}

/// One last drill for three sites, of which the second is 0.4 closer to its sleeve: set for the first,
/// set anew for the second and back for the third. The second moved to where the others are needs no
/// re-set, and is offered once however often that setting comes back.
#[test]
fn a_setting_that_comes_back_is_asked_for_once() {
    let mut three = case();
    three.sites.push(site("two", "46", &["45", "47"]));
    three.sites.push(site("three", "44", &["43", "45"]));
    three.teeth.extend(["43", "45", "47"].map(present));
    three
        .teeth
        .extend(["44", "46"].map(crate::plan::sample::missing));
    three.sites.swap(0, 1);
    distance(&mut three, "5.6");
    three.sites.swap(0, 1);
    let last = three.kit.drills.iter_mut();
    for drill in last {
        drill.quantity = if drill.id.as_str() == "c" { 1 } else { 9 };
    }
    three.kit.stops[0].quantity = 9;
    let (sheet, remedies) = offered(three);
    assert_eq!((needed(&sheet, "c"), sheet.resets.len()), ((2, 1), 2));
    let wanted = StockChange::Distance {
        site: "two".into(),
        entered_mm: mm("6"),
    };
    let found = remedies.iter().filter(|remedy| remedy.change == wanted);
    assert_eq!(found.count(), 1, "{remedies:?}");
}

/// A site that already has one figure is not offered it.
#[test]
fn one_figure_is_not_offered_twice() {
    let mut one = case();
    one.sites[0].setting = Setting::OneFigure;
    one.kit.stops[0].quantity = 2;
    assert_eq!(offered(one).1, []);
}
