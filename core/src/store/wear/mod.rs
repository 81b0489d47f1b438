//! The ledger of wear beside a kit: what the closed sittings of its cases took out of its drills.
//!
//! It is a cache in one file of `SQLite`, `KIT.wear` beside `KIT.json`: each closed sitting stands in it once, under the hash of
//! the event that began it, and can be counted again from the cases whenever it is doubted. What a case says is put in place
//! of all that was kept of that case, in one transaction; so a case that is counted twice, or again after its record was
//! corrected, or after the program was killed in the middle, counts as it stands. Where there is no ledger nothing is
//! known: an empty one would say that all drills are new.

mod cases;
mod fault;
mod rows;

#[cfg(test)]
mod tests;

pub use cases::{WearCase, wear_case};
pub use fault::{Uncounted, UncountedCase, WearFault};

use super::events::free_name;
use super::write::{is_free, sync_folder};
use super::{Held, Private, StoreError, write_safely};
use crate::kit::Kit;
use crate::sign::CaseJaw;
use crate::wear::{CaseWear, Counted};
use rows::Ledger;
use std::fs;
use std::path::{Path, PathBuf};

/// What became of a case that was to be counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaseCounted {
    /// The ledger has it now as it stands.
    Counted,
    /// The ledger had it so.
    AsBefore,
    /// No day of it is closed: nothing of it counts yet. What was used so far is kept with the days that are open.
    NotClosed,
    /// The ledger has it with events that this copy lacks: it lags behind, and nothing of it was taken.
    Behind,
    /// The same, and this copy has events that the ledger had not: both went on, and nothing of it was taken.
    Apart,
    /// It is of another kit, or practised with this one: it wears no drill of it.
    OfAnother,
}

/// A ledger that was counted anew.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rebuilt {
    /// Number of cases of the kit that were read.
    pub cases: usize,
    /// Number of cases that wear no drill of the kit: of another one, or practised.
    pub others: usize,
    /// Cases with a sitting that was begun, in which something was used, and whose day nobody closed: it does not count yet.
    pub open: Vec<CaseJaw>,
    /// Cases of which the ledger had something that was not among what was read: it counts no more.
    pub gone: Vec<CaseJaw>,
    /// True if a file that was no sound ledger was put aside.
    pub aside: Option<PathBuf>,
}

/// The ledger beside a kit file: its name with `.wear` in place of `.json`.
#[must_use]
pub fn wear_file(kit_file: &Path) -> PathBuf {
    kit_file.with_extension("wear")
}

/// Everything that was counted for a kit.
///
/// # Errors
///
/// There is no ledger, it is of another kit, damaged, or cannot be read.
pub fn read_wear(kit_file: &Path, kit: &Kit) -> Result<Counted, WearFault> {
    Ledger::open(&wear_file(kit_file), kit)?.counted()
}

/// Has the ledger say of a case what its record says now.
///
/// # Errors
///
/// There is no sound ledger of this kit; the case or its record cannot be read, or its record is broken; the disk refuses. No
/// use in the ledger is then another; that a record is broken is kept, so that no count is taken for the whole.
pub fn count_case(kit_file: &Path, kit: &Kit, case_file: &Path) -> Result<CaseCounted, WearFault> {
    let file = wear_file(kit_file);
    // Before the lock: where nobody counts, nothing is left beside the kit.
    Ledger::open(&file, kit)?;
    // Read under the lock: what another desk counts meanwhile is never taken back by what this one had read before.
    let _held = Held::hold(&file, Private::like(kit_file))?;
    let uncounted = |why| {
        let file = case_file.to_owned();
        WearFault::Cases(vec![UncountedCase { file, why }])
    };
    let WearCase::Of(events) = wear_case(case_file, kit).map_err(uncounted)? else {
        return Ok(CaseCounted::OfAnother);
    };
    let mut ledger = Ledger::open(&file, kit)?;
    let Some(wear) = cases::wear(&events, kit) else {
        ledger.put_broken(events.case_jaw())?;
        return Err(uncounted(Uncounted::Broken));
    };
    ledger.put(&wear)
}

/// Counts everything anew from cases: files, or folders of which every case file is read.
///
/// Nothing is changed where a case cannot be counted, nor, unless `forget`, where the ledger has cases that are not among
/// these: their uses would be lost.
///
/// # Errors
///
/// A case cannot be read or its record is broken, two copies of a case went on apart, cases of the ledger are not there, or
/// the disk refuses.
pub fn rebuild_wear(
    kit_file: &Path,
    kit: &Kit,
    from: &[PathBuf],
    forget: bool,
) -> Result<Rebuilt, WearFault> {
    let file = wear_file(kit_file);
    let private = Private::like(kit_file);
    let _held = Held::hold(&file, private)?;
    let read = cases::all(from, kit)?;
    let open = read
        .wear
        .iter()
        .filter(|one| one.left_open().next().is_some());
    let mut rebuilt = Rebuilt {
        cases: read.wear.len(),
        others: read.others,
        open: open.map(|one| one.case.clone()).collect(),
        gone: Vec::new(),
        aside: None,
    };
    match replaced(&file, kit, &read.wear, forget) {
        Ok(gone) => rebuilt.gone = gone,
        Err(WearFault::NotThere(_)) => begin(&file, kit, &read.wear, private)?,
        Err(WearFault::Damaged(_)) => {
            let aside = free_name(&file, "damaged");
            fs::rename(&file, &aside).map_err(|error| StoreError::writing(&file, &error))?;
            begin(&file, kit, &read.wear, private)?;
            rebuilt.aside = Some(aside);
        }
        Err(fault) => return Err(fault),
    }
    Ok(rebuilt)
}

/// Puts these cases in place of all that a sound ledger has; gives the cases of which something is lost by that.
fn replaced(
    file: &Path,
    kit: &Kit,
    cases: &[CaseWear],
    forget: bool,
) -> Result<Vec<CaseJaw>, WearFault> {
    let mut ledger = Ledger::open(file, kit)?;
    ledger.counted()?;
    let gone: Vec<CaseJaw> = ledger.unknown_to(cases)?.into_iter().collect();
    if !forget && !gone.is_empty() {
        return Err(WearFault::Gone(gone));
    }
    ledger.put_all(cases)?;
    Ok(gone)
}

/// A new ledger, there whole or not at all.
fn begin(file: &Path, kit: &Kit, cases: &[CaseWear], private: Private) -> Result<(), WearFault> {
    let mut name = file.as_os_str().to_owned();
    name.push("-journal");
    let journal = PathBuf::from(name);
    // What an older ledger of this name left half done would be done in the new one.
    if !is_free(&journal).map_err(|error| StoreError::reading(&journal, &error))? {
        fs::remove_file(&journal).map_err(|error| StoreError::writing(&journal, &error))?;
        let folder = file
            .parent()
            .filter(|folder| !folder.as_os_str().is_empty());
        let folder = folder.unwrap_or(Path::new("."));
        sync_folder(folder).map_err(|error| StoreError::writing(&journal, &error))?;
    }
    let bytes = rows::whole(file, kit, cases)?;
    Ok(write_safely(file, &bytes, private)?)
}
