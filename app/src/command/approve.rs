//! `traywright approve`: records an approval beside the case.

use super::Changed;
use super::open::open;
use crate::desk::{Refusal, own_desk, refused_events};
use crate::platform::Desktop;
use std::collections::BTreeSet;
use std::path::Path;
use traywright_core::plan::{Severity, case_jaw, plan_view};
use traywright_core::sign::{Approval, EventKind, NameFault, Who, WriterId};
use traywright_core::store::{append_event, is_torn_alone};
use traywright_core::text::Texts;
use traywright_core::wording::message;

pub(super) fn approve(file: &Path, by: &str, desk: Option<&str>) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let still_open = opened
        .worksheet
        .findings
        .iter()
        .filter(|finding| matches!(finding.severity(), Severity::Short | Severity::Unknown))
        .count();
    if still_open > 0 {
        let count = &[("count", still_open)];
        return Err(Refusal(texts.counted("cli-approve-open", count, &[])));
    }
    let to_come = opened.days_to_come(crate::platform::now());
    if !to_come.is_empty() {
        return Err(Refusal(to_come.join("\n")));
    }
    let writer = writer(desk)?;
    let who = Who::signing(by).map_err(|fault| refused_name("cli-by", &fault))?;
    let signed = opened.signed()?;
    // A torn last line of one's own is mended as this is recorded, and told.
    if signed.standing.broken && !is_torn_alone(&signed.faults, &writer) {
        let mut lines = signed.problems;
        // What belongs to another case is not put aside.
        let elsewhere = signed.faults.iter().any(|one| one.kind.is_elsewhere());
        let remedy = if elsewhere {
            "cli-record-elsewhere"
        } else {
            "cli-record-broken"
        };
        lines.push(texts.get(remedy, &[]));
        return Err(Refusal(lines.join("\n")));
    }
    let view = plan_view(&opened.case, &opened.worksheet, &signed.events);
    let accepted: BTreeSet<String> = view.accepted.clone();
    let kind = EventKind::Approval(Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: opened.worksheet.revision,
        accepted,
        purpose: view.purpose,
    });
    let by = who.to_string();
    let mended = append_event(
        &opened.file,
        &case_jaw(&opened.case),
        &writer,
        crate::platform::now(),
        who,
        kind,
    )
    .map_err(|error| refused_events(&error))?;
    let fingerprint = view.fingerprint.to_string();
    let id = if opened.case.demonstration {
        "cli-approved-practice"
    } else {
        "cli-approved"
    };
    let mut told = vec![texts.get(id, &[("fingerprint", &fingerprint), ("by", &by)])];
    match mended {
        None => told.extend(signed.problems),
        Some(mended) => {
            told.push(message(&mended.message(), texts));
            // It is recorded: what is wrong with the rest is told if it can be read.
            told.extend(
                opened
                    .signed()
                    .map_or_else(|_| Vec::new(), |now| now.problems),
            );
        }
    }
    Ok(told.join("\n"))
}

/// The writer of this name; without one, this user's desk, which then has a name of its own.
pub(super) fn writer(desk: Option<&str>) -> Result<WriterId, Refusal> {
    let named = match desk {
        Some(desk) => desk.to_owned(),
        None => own_desk(&Desktop::default())?,
    };
    WriterId::new(&named).map_err(|fault| refused_name("cli-desk", &fault))
}

/// The refusal of a name that cannot be recorded, with the reason and which of the two it is.
pub(super) fn refused_name(id: &str, fault: &NameFault) -> Refusal {
    let texts = Texts::english();
    let reason = message(&fault.message(), texts);
    Refusal(texts.get(id, &[("reason", &reason)]))
}
