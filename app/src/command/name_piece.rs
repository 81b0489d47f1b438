//! `traywright name-piece`: records which piece of the stock a drill of a case is.

use super::Changed;
use super::approve::{refused_name, writer};
use super::open::open;
use crate::desk::{Refusal, refused_events};
use std::num::NonZeroU32;
use std::path::Path;
use traywright_core::plan::case_jaw;
use traywright_core::sign::{DrillKey, EventKind, Who};
use traywright_core::store::{append_event, is_torn_alone};
use traywright_core::text::Texts;
use traywright_core::wear::{NamedFor, name_piece};
use traywright_core::wording::message;

/// Which drill, and which piece it is.
pub(super) struct Named<'a> {
    pub(super) drill: &'a str,
    pub(super) copy: NonZeroU32,
    /// None where nobody knows.
    pub(super) mark: Option<&'a str>,
    pub(super) unknown: bool,
    pub(super) next: bool,
}

pub(super) fn name(file: &Path, named: &Named<'_>, by: &str, desk: Option<&str>) -> Changed {
    let texts = Texts::english();
    if named.mark.is_none() != named.unknown {
        return Err(Refusal(texts.get("wear-no-mark", &[])));
    }
    let opened = open(file)?;
    let drills = &opened.case.kit.drills;
    let Some(drill) = drills.iter().find(|one| one.id.as_str() == named.drill) else {
        let list: Vec<&str> = drills.iter().map(|one| one.id.as_str()).collect();
        let args = [("drill", named.drill), ("list", &list.join(", "))];
        return Err(Refusal(texts.get("wear-no-drill", &args)));
    };
    let writer = writer(desk)?;
    let who = Who::signing(by).map_err(|fault| refused_name("cli-by", &fault))?;
    let signed = opened.signed()?;
    if signed.standing.broken && !is_torn_alone(&signed.faults, &writer) {
        let mut lines = signed.problems;
        lines.push(texts.get("cli-record-broken", &[]));
        return Err(Refusal(lines.join("\n")));
    }
    let key = DrillKey {
        drill: named.drill.to_owned(),
        copy: named.copy,
    };
    let of = if named.next {
        NamedFor::Next
    } else {
        NamedFor::Last
    };
    let mark = named.mark.map(str::to_owned);
    let event = name_piece(&signed.events, signed.view.purpose, (key, mark), of);
    let of = if event.sitting.is_some() {
        "last"
    } else {
        "next"
    };
    let at = crate::platform::now();
    let jaw = case_jaw(&opened.case);
    let kind = EventKind::PieceNamed(event);
    let mended = append_event(&opened.file, &jaw, &writer, at, who, kind)
        .map_err(|error| refused_events(&error))?;
    let copy = named.copy.to_string();
    let told = if let Some(mark) = named.mark {
        let args = [
            ("drill", drill.name.as_str()),
            ("copy", &copy),
            ("mark", mark),
            ("for", of),
        ];
        texts.get("wear-named", &args)
    } else {
        let args = [("drill", drill.name.as_str()), ("copy", &copy), ("for", of)];
        texts.get("wear-named-unknown", &args)
    };
    let mended = mended.map(|mended| message(&mended.message(), texts));
    let told = std::iter::once(told).chain(mended);
    Ok(told.collect::<Vec<_>>().join("\n"))
}
