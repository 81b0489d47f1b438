//! `traywright wear`: the wear of a kit's drills, counted from its closed cases.

use super::{Outcome, Ran};
use crate::desk::{listed_cases, read_kit_file, refused_wear};
use std::io::Write;
use std::path::{Path, PathBuf};
use traywright_core::store::{CaseCounted, Rebuilt, count_case, read_wear, rebuild_wear, shown};
use traywright_core::text::Texts;
use traywright_core::wording::KitFormatter;

/// Where the wear is counted from, before it is told.
pub(super) struct CountFrom<'a> {
    /// Cases, or folders of cases, that everything is counted from anew.
    pub(super) rebuild: &'a [PathBuf],
    /// Lets what is of none of them go.
    pub(super) forget: bool,
    /// One case that is brought up to date.
    pub(super) case: Option<&'a Path>,
}

pub(super) fn wear(kit_file: &Path, from: &CountFrom<'_>, out: &mut dyn Write) -> Ran {
    let texts = Texts::english();
    let kit = read_kit_file(kit_file)?;
    let refused = |fault| refused_wear(&fault, &kit);
    if !from.rebuild.is_empty() {
        let rebuilt = rebuild_wear(kit_file, &kit, from.rebuild, from.forget).map_err(refused)?;
        for line in said_rebuilt(&rebuilt) {
            writeln!(out, "{line}")?;
        }
    }
    let mut is_left = false;
    if let Some(case) = from.case {
        let became = count_case(kit_file, &kit, case).map_err(refused)?;
        // There are uses that are not in the count, or may be.
        is_left = matches!(became, CaseCounted::Behind | CaseCounted::Apart);
        let id = match became {
            CaseCounted::Counted => "wear-counted",
            CaseCounted::AsBefore => "wear-as-before",
            CaseCounted::NotClosed => "wear-not-closed",
            CaseCounted::Apart => "wear-apart",
            CaseCounted::Behind => "wear-behind",
            CaseCounted::OfAnother => "wear-of-another",
        };
        writeln!(out, "{}", texts.get(id, &[]))?;
    }
    let counted = read_wear(kit_file, &kit).map_err(refused)?;
    let say = KitFormatter { texts, kit: &kit };
    let told = say.wear(Some(&counted));
    for line in &told.top {
        writeln!(out, "{line}")?;
    }
    for drill in &told.drills {
        writeln!(out, "{}", drill.line)?;
        let pieces = drill.pieces.iter().map(|(line, _)| line);
        for line in pieces.chain(&drill.besides) {
            writeln!(out, "    {line}")?;
        }
    }
    Ok(if told.is_open || is_left {
        Outcome::Open
    } else {
        Outcome::Done
    })
}

fn said_rebuilt(rebuilt: &Rebuilt) -> Vec<String> {
    let texts = Texts::english();
    let mut told = vec![texts.counted("wear-rebuilt", &[("count", rebuilt.cases)], &[])];
    if rebuilt.others > 0 {
        told.push(texts.counted("wear-others", &[("count", rebuilt.others)], &[]));
    }
    if !rebuilt.gone.is_empty() {
        let list = listed_cases(&rebuilt.gone);
        told.push(texts.get("wear-forgotten", &[("list", &list)]));
    }
    if let Some(aside) = &rebuilt.aside {
        told.push(texts.get("wear-aside", &[("file", &shown(aside))]));
    }
    told
}
