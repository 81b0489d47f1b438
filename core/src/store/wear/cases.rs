//! Case files as the ledger reads them: by their heads and records alone, whatever became of their plans.

use super::fault::{Uncounted, UncountedCase, WearFault};
use crate::case::CASE_VERSION;
use crate::dentition::Jaw;
use crate::document::MOST_BYTES;
use crate::kit::Kit;
use crate::sign::{CaseJaw, Merged, Purpose};
use crate::store::{StoreFault, behind_links, cases_in, read_events, read_file};
use crate::wear::{CaseWear, LogEnds, wear_of};
use serde::Deserialize;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// A case by its wear.
#[derive(Debug)]
pub enum WearCase {
    /// What was recorded of it.
    Of(Merged),
    /// It wears no drill of the kit: it is of another one, or was practised.
    OfAnother,
}

#[derive(Deserialize)]
struct Version {
    traywright_case: u32,
}

#[derive(Deserialize)]
struct Head {
    reference: String,
    #[serde(default)]
    demonstration: bool,
    jaw: Jaw,
    kit: KitHead,
}

#[derive(Deserialize)]
struct KitHead {
    id: String,
    #[serde(default)]
    demonstration: bool,
}

/// What was recorded of a case that wears the drills of a kit.
///
/// # Errors
///
/// It cannot be read.
pub fn wear_case(file: &Path, kit: &Kit) -> Result<WearCase, Uncounted> {
    let bytes = read_file(file, MOST_BYTES as u64).map_err(Uncounted::Unread)?;
    let version: Version = serde_json::from_slice(&bytes).map_err(|_| Uncounted::Damaged)?;
    if version.traywright_case > CASE_VERSION {
        return Err(Uncounted::Newer);
    }
    let head: Head = serde_json::from_slice(&bytes).map_err(|_| Uncounted::Damaged)?;
    // In practice nothing of a patient's kit is worn; with an invented kit everything is practice.
    let is_practice = head.demonstration || head.kit.demonstration;
    if head.kit.id != kit.id.as_str() || is_practice != kit.demonstration {
        return Ok(WearCase::OfAnother);
    }
    let case_jaw = CaseJaw {
        case: head.reference,
        jaw: head.jaw,
    };
    let file = behind_links(file).map_err(Uncounted::Unread)?;
    let beside = read_events(&file, &case_jaw).map_err(Uncounted::Events)?;
    Ok(WearCase::Of(beside.events))
}

/// The wear of a case of this kit; none where its record is broken.
pub(super) fn wear(events: &Merged, kit: &Kit) -> Option<CaseWear> {
    let purpose = if kit.demonstration {
        Purpose::Practice
    } else {
        Purpose::Patient
    };
    wear_of(events, purpose)
}

/// Cases that were read.
pub(super) struct ReadCases {
    /// The wear of each case of the kit once, however many copies of it there are.
    pub(super) wear: Vec<CaseWear>,
    /// Number of those that wear no drill of the kit.
    pub(super) others: usize,
}

/// A case of the kit, with all copies of it that were read.
struct Case {
    file: PathBuf,
    events: Merged,
    wear: CaseWear,
}

/// Reads cases: files, or all case files of folders.
pub(super) fn all(from: &[PathBuf], kit: &Kit) -> Result<ReadCases, WearFault> {
    let mut files: BTreeSet<PathBuf> = BTreeSet::new();
    for path in from {
        match cases_in(path) {
            Ok(cases) => files.extend(cases.into_iter().map(|case| case.file)),
            Err(error) if matches!(error.fault, StoreFault::NoFolder | StoreFault::NotFolder) => {
                files.insert(path.clone());
            }
            Err(error) => return Err(error.into()),
        }
    }
    let (mut cases, mut uncounted, mut others) = (Vec::<Case>::new(), Vec::new(), 0);
    for file in files {
        match read(&file, kit) {
            Ok(Some(case)) => {
                // Copies that share nothing may each share something with a third.
                let copies = cases
                    .extract_if(.., |other| is_copy(other, &case))
                    .collect();
                match joined(copies, case, kit) {
                    Ok(case) => cases.push(case),
                    Err(why) => uncounted.push(UncountedCase { file, why }),
                }
            }
            Ok(None) => others += 1,
            Err(why) => uncounted.push(UncountedCase { file, why }),
        }
    }
    if !uncounted.is_empty() {
        return Err(WearFault::Cases(uncounted));
    }
    Ok(ReadCases {
        wear: cases.into_iter().map(|case| case.wear).collect(),
        others,
    })
}

fn read(file: &Path, kit: &Kit) -> Result<Option<Case>, Uncounted> {
    let WearCase::Of(events) = wear_case(file, kit)? else {
        return Ok(None);
    };
    let wear = wear(&events, kit).ok_or(Uncounted::Broken)?;
    let file = file.to_owned();
    Ok(Some(Case { file, events, wear }))
}

/// True for copies of one case: they share a log from its first event. Another case may have the reference by chance.
fn is_copy(one: &Case, other: &Case) -> bool {
    let first = |log: &LogEnds| log.first;
    let own: BTreeSet<_> = one.wear.logs.iter().map(first).collect();
    one.wear.case == other.wear.case
        && other
            .wear
            .logs
            .iter()
            .map(first)
            .any(|log| own.contains(&log))
}

/// A case with what its other copies hold besides.
fn joined(copies: Vec<Case>, case: Case, kit: &Kit) -> Result<Case, Uncounted> {
    if copies.is_empty() {
        return Ok(case);
    }
    let mut events = case.events;
    for copy in copies {
        let apart = |_| Uncounted::Apart(copy.file);
        events = events.union(copy.events).map_err(apart)?;
    }
    let wear = wear(&events, kit).ok_or(Uncounted::Broken)?;
    let file = case.file;
    Ok(Case { file, events, wear })
}
