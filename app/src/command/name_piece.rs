//! `traywright name-piece`: records which piece of the stock a drill of a case is.

use super::Changed;
use super::approve::{refused_name, writer};
use super::open::{Opened, open};
use crate::desk::{Refusal, Settings, read_kit_file, refused_events};
use crate::platform::{Desktop, Platform as _};
use std::num::NonZeroU32;
use std::path::Path;
use traywright_core::kit::{Drill, Kit, Label, SlotKind};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{DrillKey, EventKind, Who};
use traywright_core::store::{append_event, is_torn_alone};
use traywright_core::text::Texts;
use traywright_core::wear::{MarkFault, NamedFor, check_mark, name_piece};
use traywright_core::wording::message;

/// Which drill, and which piece it is.
pub(super) struct Named<'a> {
    pub(super) drill: &'a str,
    pub(super) copy: NonZeroU32,
    /// None where nobody knows.
    pub(super) mark: Option<&'a str>,
    pub(super) unknown: bool,
    pub(super) next: bool,
    /// The kit that lists the pieces; without one, that of this user's settings, where the case is of it.
    pub(super) kit: Option<&'a Path>,
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
    let most = copies(&opened, drill);
    if named.copy.get() > most {
        let (copy, most) = (named.copy.to_string(), most.to_string());
        let args = [
            ("drill", drill.name.as_str()),
            ("copy", &copy),
            ("most", &most),
        ];
        return Err(Refusal(texts.get("wear-no-copy", &args)));
    }
    let kit = match named.kit {
        Some(file) => Some(read_kit_file(file)?),
        None => settings_kit(),
    };
    let is_own = |kit: &Kit| kit.id == opened.case.kit.id;
    if let Some(kit) = kit
        .as_ref()
        .filter(|kit| named.kit.is_some() && !is_own(kit))
    {
        let args = [("kit", kit.name.as_str())];
        return Err(Refusal(texts.get("wear-name-other-kit", &args)));
    }
    let kit = kit.filter(is_own);
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
    if let Some(mark) = named.mark {
        let events = (&signed.events, signed.view.purpose);
        check_mark(events, kit.as_ref(), (&key, mark), of)
            .map_err(|fault| refused_mark(&fault, drill.name.as_str()))?;
    }
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
    let unheld = (kit.is_none() && named.mark.is_some()).then(|| texts.get("wear-unheld", &[]));
    let told = std::iter::once(told).chain(unheld).chain(mended);
    Ok(told.collect::<Vec<_>>().join("\n"))
}

/// How many drills of an entry the case has: as many as lie on its tray, or as the kit had when it was taken over.
fn copies(opened: &Opened, drill: &Drill) -> u32 {
    let loading = opened.worksheet.loading.iter();
    let of_it =
        loading.filter(|item| item.kind == SlotKind::Drill && item.entry == drill.id.as_str());
    of_it.map(|item| item.copy).fold(drill.quantity, u32::max)
}

/// The kit that this user works with; none where there is none, or it cannot be read.
fn settings_kit() -> Option<Kit> {
    let file = Desktop::default().settings_file()?;
    let (settings, _) = Settings::read(&file, String::new());
    read_kit_file(&settings.kit?).ok()
}

/// Why a mark was not recorded.
fn refused_mark(fault: &MarkFault, drill: &str) -> Refusal {
    let texts = Texts::english();
    Refusal(match fault {
        MarkFault::Text(fault) => {
            let reason = message(&fault.message(), texts);
            texts.get("wear-mark-text", &[("reason", &reason)])
        }
        MarkFault::Alike { found } => {
            texts.get("wear-mark-alike", &[("found", &found.to_string())])
        }
        MarkFault::NotListed { listed } => {
            let listed: Vec<&str> = listed.iter().map(Label::as_str).collect();
            let args = [("drill", drill), ("list", &listed.join(", "))];
            texts.get("wear-mark-not-listed", &args)
        }
        MarkFault::Taken(other) => {
            let copy = other.copy.to_string();
            texts.get("wear-mark-taken", &[("drill", drill), ("copy", &copy)])
        }
    })
}
