//! On mucosa the first implants hold the guide (common practice, no source): the plain rule puts them
//! in first, and their carriers stay in.

use super::{changed, solved};
use traywright_core::case::{Support, UseOrder};
use traywright_core::kit::SlotKind;
use traywright_core::plan::{Operation, Worksheet, holding_by_default};
use traywright_core::run::Adherence;

/// Sites in the order in which their implants are turned in.
fn turned_in(sheet: &Worksheet) -> Vec<&str> {
    let inserts = sheet.order.iter().filter_map(|one| match one {
        Operation::Insert { site } => Some(site.as_str()),
        _ => None,
    });
    inserts.collect()
}

fn carriers(sheet: &Worksheet) -> Vec<Vec<&str>> {
    let items = sheet.loading.iter();
    let items = items.filter(|item| item.kind == SlotKind::Carrier);
    items
        .map(|item| {
            let serves = item.serves.iter();
            serves
                .filter_map(|one| Some(one.site.as_ref()?.as_str()))
                .collect()
        })
        .collect()
}

#[test]
fn what_holds_the_guide_is_finished_before_anything_else_is_drilled() {
    for rule in [UseOrder::SiteBySite, UseOrder::ByDiameter] {
        let (case, sheet) = changed("full-arch-upper", |case| case.setup.use_order = rule);
        let held: Vec<String> = holding_by_default(&case)
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(held, ["u12", "u25"]);
        assert_eq!(solved(&case, &sheet).unwrap().adherence, Adherence::Full);
        let first = turned_in(&sheet);
        assert_eq!(
            {
                let mut first = first[..2].to_vec();
                first.sort_unstable();
                first
            },
            ["u12", "u25"]
        );
    }
}

/// One carrier for each of them, and one that goes round among the others.
#[test]
fn a_carrier_that_stays_in_is_one_of_its_own() {
    let (_, sheet) = changed("full-arch-upper", |_| {});
    let mut each = carriers(&sheet);
    each.sort();
    assert_eq!(each.len(), 3);
    assert!(
        each.contains(&vec!["u12"]) && each.contains(&vec!["u25"]),
        "{each:?}"
    );
    // With fewer there is a finding.
    let (_, short) = changed("full-arch-upper", |case| {
        for carrier in &mut case.kit.carriers {
            carrier.quantity = 2;
        }
    });
    let key = "stock-short kit.carriers";
    assert!(
        short
            .findings
            .iter()
            .any(|finding| finding.key().starts_with(key))
    );
    // On teeth nothing has to be held.
    let (_, teeth) = changed("full-arch-upper", |case| {
        case.guide.support = Support::Teeth;
    });
    assert_eq!(carriers(&teeth).len(), 1);
}
