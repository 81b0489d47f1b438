//! Where a finding leads.

use crate::action::{Action, Command};
use crate::window::{View, ViewContext};
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
pub(super) fn go(cx: &mut ViewContext<'_>, finding: &Finding) {
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
    use traywright_core::plan::{Rule, Subject, work_out};

    #[test]
    fn every_finding_of_the_invented_cases_leads_to_where_it_is_entered() {
        for (name, bytes) in DEMOS {
            for finding in work_out(&demo_case(bytes)).findings {
                let expected = match (finding.subject(), finding.rule) {
                    (Subject::Stock, Rule::StockShort) => View::Kit,
                    (Subject::Stock | Subject::Guide, _) => View::Case,
                    _ if matches!(finding.place, Place::Tooth(_)) => View::Arch,
                    _ => View::Site,
                };
                assert_eq!(view(&finding), expected, "{name}: {}", finding.key());
                let at_site = finding.site.is_some();
                assert!(at_site || expected != View::Site, "{}", finding.key());
            }
        }
    }
}
