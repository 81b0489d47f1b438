//! Approving the plan: what it covers, what is still open, and the name under it.

use super::broken;
use crate::action::View;
use crate::action::{Action, Command};
use crate::canvas::mark_in;
use crate::desk::{Document, readers, session_hours};
use crate::field::kept_text;
use crate::look::{Font, aside, fault, part_heading, words};
use crate::platform::day_of;
use crate::view::sheet::Context;
use egui::{RichText, Ui, vec2};
use traywright_core::plan::{Finding, FindingLine, Severity, by_cause};
use traywright_core::sign::{Approval, EventKind, Who};
use traywright_core::wording::begin;

/// Key of the field for the name.
const BY: &str = "sheet.by";

/// Open findings that are listed one by one; the rest are counted.
const MOST: usize = 6;

/// Shows the plan's short name, what speaks against approving it, and the form.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let worksheet = document.worksheet();
    ui.heading(cx.word("sheet-view-approve"));
    let revision = worksheet.revision.to_string();
    let revision = if document.is_changed() {
        cx.text("title-changed", &[("revision", &revision)])
    } else {
        revision
    };
    let fingerprint = worksheet.fingerprint.to_string();
    let args = [
        ("revision", revision.as_str()),
        ("fingerprint", &fingerprint),
    ];
    ui.label(RichText::new(cx.text("sheet-view-plan", &args)).strong());
    broken::ui(ui, cx, document);
    let to_come = cx.formatter().days_to_come(document.case(), day_of(cx.now));
    let doubt = cx
        .formatter()
        .doubtful_scan(document.case(), day_of(cx.now));
    for told in to_come.iter().chain(&doubt) {
        fault(ui, told);
    }
    let open = of(document, Severity::is_open);
    let judged = of(document, |severity| {
        matches!(severity, Severity::Accepted | Severity::Intended)
    });
    if open.is_empty() {
        words(ui, cx.word("sheet-view-nothing-open"));
    } else {
        let count = &[("count", open.len())];
        fault(ui, cx.counted("sheet-view-still-open", count, &[]));
    }
    // The name and the button come before the lists, which may be long.
    form(ui, cx, document, open.is_empty() && to_come.is_empty());
    if !open.is_empty() {
        part_heading(ui, cx.word("sheet-view-open"));
        lines(ui, cx, &open);
    }
    if !judged.is_empty() {
        part_heading(ui, cx.word("sheet-view-accepted"));
        lines(ui, cx, &judged);
    }
}

/// The findings of some severities, worst first.
fn of(document: &Document, takes: impl Fn(Severity) -> bool) -> Vec<&Finding> {
    let findings = document.worksheet().findings.iter();
    findings
        .filter(|finding| takes(finding.severity()))
        .collect()
}

/// Findings in words, with the surgeon's word.
fn lines(ui: &mut Ui, cx: &mut Context<'_>, findings: &[&Finding]) {
    let formatter = cx.formatter();
    let told = by_cause(findings.to_vec(), |finding| finding);
    let mut left = findings.len();
    for told in told.into_iter().take(MOST) {
        let finding = match told {
            FindingLine::One(finding) => finding,
            FindingLine::Cause(cause, findings) => {
                left -= findings.len();
                let said = formatter.cause(&cause, findings);
                let word = formatter.severity(Severity::Unknown);
                ui.horizontal_top(|ui| {
                    mark_in(ui, vec2(15.0, 18.0), 13.0, Severity::Unknown);
                    words(ui, format!("{}: {}", begin(&word), said.headline));
                });
                continue;
            }
        };
        left -= 1;
        let said = formatter.finding(finding);
        let line = format!("{}: {}", begin(&said.word), formatter.line(&said));
        ui.horizontal_top(|ui| {
            mark_in(ui, vec2(15.0, 18.0), 13.0, finding.severity());
            ui.vertical(|ui| {
                words(ui, line);
                if let Some(decision) = &said.decision {
                    aside(ui, begin(decision));
                }
            });
        });
    }
    if left > 0 {
        aside(ui, cx.counted("sheet-view-more", &[("count", left)], &[]));
    }
    if ui.link(cx.word("sheet-view-to-findings")).clicked() {
        cx.act(Action::Do(Command::Show(View::Findings)));
    }
}

/// The reason why the plan cannot be approved as it is: the id of a text.
fn why_not(document: &Document, settled: bool, by: &str) -> Option<&'static str> {
    if document.record.standing.broken {
        Some("sheet-view-not-broken")
    } else if !settled {
        Some("sheet-view-not-open")
    } else if document.file().is_none() || document.is_changed() {
        Some("sheet-view-not-saved")
    } else if Who::signing(by).is_err() {
        Some("sheet-view-not-named")
    } else {
        None
    }
}

fn form(ui: &mut Ui, cx: &mut Context<'_>, document: &Document, settled: bool) {
    part_heading(ui, cx.word("sheet-view-sign"));
    let formatter = cx.formatter();
    let list = formatter.not_assessed().join("; ");
    aside(ui, cx.word("sheet-view-covers"));
    let not_assessed = cx.text("sheet-view-not-assessed", &[("list", &list)]);
    ui.label(Font::Caption.text(not_assessed));
    if document.case().demonstration {
        words(ui, cx.word("sheet-view-practice"));
    }
    let (label, first) = (cx.word("sheet-view-by"), surgeon(cx));
    let by = kept_text(ui, &mut cx.state.drafts, BY, label, &first, 240.0);
    let why_not = why_not(document, settled, &by).map(|id| cx.word(id));
    let id = if document.case().demonstration {
        "sheet-view-approve-practice"
    } else {
        "sheet-view-approve-now"
    };
    let fingerprint = document.worksheet().fingerprint.to_string();
    let text = cx.text(id, &[("fingerprint", &fingerprint)]);
    let button = ui.add_enabled(why_not.is_none(), egui::Button::new(text));
    if button.clicked() {
        cx.act(Action::Sign {
            who: by.trim().to_owned(),
            kind: EventKind::Approval(approval(document)),
        });
    }
    if document.case().setup.gauge.is_some() {
        reads_ui(ui, cx, document, &by);
    }
    if let Some(why_not) = why_not {
        aside(ui, why_not);
        let unsaved = document.file().is_none() || document.is_changed();
        if settled && unsaved && ui.button(cx.word("sheet-view-save")).clicked() {
            cx.act(Action::Do(Command::Save));
        }
    }
}

/// That whoever approves cannot read the stops without figures in this session, and who of the team is left.
fn reads_ui(ui: &mut Ui, cx: &mut Context<'_>, document: &Document, by: &str) {
    let hours = &[("hours", session_hours())];
    words(ui, cx.counted("sheet-view-approver-reads-not", hours, &[]));
    let readers = readers(document, cx.now, Who::new(by.trim()).ok().as_ref());
    let left: Vec<&str> = readers.left.iter().map(Who::as_str).collect();
    if !left.is_empty() {
        let who = left.join(", ");
        words(ui, cx.text("sheet-view-left-to-read", &[("who", &*who)]));
    } else if readers.has_team {
        fault(ui, cx.counted("sheet-view-nobody-left-to-read", hours, &[]));
    }
}

/// The approval of the plan as it is.
fn approval(document: &Document) -> Approval {
    let view = &document.record.view;
    Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: document.worksheet().revision,
        accepted: view.accepted.clone(),
        purpose: view.purpose,
    }
}

/// The person who signs, to begin with: the surgeon of the team.
fn surgeon(cx: &Context<'_>) -> String {
    let surgeon = cx.document.case().team.surgeon.as_ref();
    surgeon.map_or_else(String::new, ToString::to_string)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};
    use std::path::PathBuf;
    use traywright_core::store::Version;

    #[test]
    fn a_plan_with_anything_open_not_saved_or_without_a_name_is_not_approved() {
        let (_, bytes) = DEMOS[0];
        let unsaved = Document::unsaved(demo_case(bytes));
        assert_eq!(
            why_not(&unsaved, true, "R. Thorn"),
            Some("sheet-view-not-saved")
        );
        let nowhere = PathBuf::from("nowhere/one-premolar.json");
        let saved = Document::opened((demo_case(bytes), Version::NONE), nowhere);
        assert_eq!(
            why_not(&saved, false, "R. Thorn"),
            Some("sheet-view-not-open")
        );
        assert_eq!(why_not(&saved, true, "  "), Some("sheet-view-not-named"));
        assert_eq!(why_not(&saved, true, "R. Thorn"), None);
    }

    #[test]
    fn an_approval_names_every_finding_that_is_accepted() {
        let (_, bytes) = DEMOS[2];
        let document = Document::unsaved(demo_case(bytes));
        let judged = of(&document, |severity| {
            matches!(severity, Severity::Accepted | Severity::Intended)
        });
        assert_eq!(approval(&document).accepted.len(), judged.len());
    }
}
