//! The view that a finding leads to.

use crate::action::View;
use crate::action::{Action, Command};
use crate::view::findings::Context;
use traywright_core::plan::{Finding, Place};

/// The view in which what a finding is about was entered.
pub(super) fn view(finding: &Finding) -> View {
    match finding.place {
        Place::SideBySide(..) | Place::TrayPlace(_) => View::Tray,
        // Tray, gauge and receipt are entered there.
        Place::Limit(_)
        | Place::Convergence
        | Place::Gauge
        | Place::Head
        | Place::Tray
        | Place::Pins
        | Place::Pin(_)
        | Place::Receipts
        | Place::Receipt(_)
        | Place::ReceiptOf(..)
        | Place::Loading { .. } => View::Case,
        Place::Sites | Place::Tooth(_) | Place::Arch => View::Arch,
        Place::KitEntry { .. } | Place::GaugeFace(_) | Place::GuidedFrom(_) => View::Kit,
        Place::Site(..) | Place::AcceptedOrder | Place::Kit => View::Site,
    }
}

/// Goes there.
pub(super) fn go(cx: &mut Context<'_>, finding: &Finding) {
    if let Some(site) = &finding.site {
        cx.act(Action::Choose(Some(site.clone())));
        cx.act(Action::ChooseStep(finding.step.clone()));
    }
    cx.act(Action::Do(Command::Show(view(finding))));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use traywright_core::case::{Case, Support, ValidCase};
    use traywright_core::plan::work_out;

    /// A finding by a part of its key, after a change of the first invented case that brings it
    /// about, and the view in which a person finds what to enter.
    type Row = (&'static str, fn(&mut Case), View);

    const ROWS: &[Row] = &[
        ("wall", |_| (), View::Site),
        ("deep-structure", |_| (), View::Site),
        ("receipt", |_| (), View::Case),
        ("no-tray", |case| case.setup.tray = None, View::Case),
        ("guide-not-held", not_held, View::Case),
        ("no-sites", without_sites, View::Arch),
        (
            "stock-short",
            |case| {
                case.kit
                    .drills
                    .iter_mut()
                    .for_each(|drill| drill.quantity = 0);
            },
            View::Kit,
        ),
    ];

    fn not_held(case: &mut Case) {
        case.guide.support = Support::Mucosa;
        case.guide.pins.clear();
    }

    fn without_sites(case: &mut Case) {
        case.sites.clear();
        case.guide.receipt.clear();
        case.judgements.clear();
        case.accepted_order.clear();
    }

    #[test]
    fn a_finding_leads_to_where_it_is_entered() {
        for (key, change, expected) in ROWS {
            let mut case = (*demo_case(DEMOS[0].1)).clone();
            change(&mut case);
            let sheet = work_out(&ValidCase::checked(&case).unwrap());
            let mut found = sheet.findings.iter().filter(|f| f.key().contains(key));
            let first = found.next().unwrap_or_else(|| panic!("no finding {key}"));
            assert_eq!(view(first), *expected, "{}", first.key());
            assert!(found.all(|finding| view(finding) == *expected), "{key}");
        }
    }
}
