//! Each kind of remedy where it is the one that helps, in a small case worked by hand.

use crate::plan::kit::stop;
use crate::plan::sample::{case, distance, each_drill, mm, present, site, sound};
use traywright_core::case::{Case, GuideState, Setting, apply};
use traywright_core::kit::{Datum, FixedLength, StopKind};
use traywright_core::plan::{Worksheet, work_out};
use traywright_core::run::{StockChange, StockRemedy, stock_remedies};

fn offered(case: Case) -> (Worksheet, Vec<StockRemedy>) {
    let case = sound(case);
    let sheet = work_out(&case);
    let remedies = stock_remedies(&case, &sheet, &case.kit);
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

/// A site that already has one figure is not offered it.
#[test]
fn one_figure_is_not_offered_twice() {
    let mut one = case();
    one.sites[0].setting = Setting::OneFigure;
    one.kit.stops[0].quantity = 2;
    assert_eq!(offered(one).1, []);
}
