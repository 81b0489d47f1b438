//! The tables of a ledger.

use super::CaseCounted;
use super::fault::WearFault;
use crate::dentition::Jaw;
use crate::kit::Kit;
use crate::sign::{CaseJaw, EventHash};
use crate::store::write::is_free;
use crate::store::{StoreError, StoreFault};
use crate::wear::{CaseWear, ClosedBy, Counted, Sitting, Tally, Worn, WornPiece, add_all};
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior, params};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// What marks a file of `SQLite` as a ledger of wear: `TWwr`.
const APPLICATION: i32 = 0x5457_7772;

/// The version of its tables.
const VERSION: i32 = 1;

/// How long another program is waited for that reads or writes it.
const PATIENCE: Duration = Duration::from_secs(10);

/// `digest` is of all else that stands of a closing: a database finds no byte of its own that changed within a value.
const TABLES: &str = "
    CREATE TABLE ledger (kit TEXT NOT NULL) STRICT;
    CREATE TABLE closing (
        id TEXT PRIMARY KEY NOT NULL,
        reference TEXT NOT NULL,
        jaw TEXT NOT NULL,
        begun TEXT NOT NULL,
        closed TEXT NOT NULL,
        partial INTEGER NOT NULL,
        events INTEGER NOT NULL,
        digest TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE worn (
        closing TEXT NOT NULL REFERENCES closing (id) ON DELETE CASCADE,
        drill TEXT NOT NULL,
        mark TEXT NOT NULL,
        uses INTEGER NOT NULL,
        sterilisations INTEGER NOT NULL,
        PRIMARY KEY (closing, drill, mark)
    ) STRICT, WITHOUT ROWID;
";

/// A ledger that is open.
pub(super) struct Ledger {
    file: PathBuf,
    database: Connection,
}

/// A closing as it is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Closing {
    id: String,
    case: CaseJaw,
    begun: String,
    closed: String,
    is_partial: bool,
    events: u64,
    worn: Tally,
}

impl Ledger {
    /// Opens the ledger of a kit. What a killed program left half done in it is undone by that.
    pub(super) fn open(file: &Path, kit: &Kit) -> Result<Self, WearFault> {
        if is_free(file).map_err(|error| StoreError::reading(file, &error))? {
            return Err(WearFault::NotThere(file.to_owned()));
        }
        if file.is_dir() {
            return Err(StoreError::new(file, StoreFault::IsFolder).into());
        }
        let failed = |error| WearFault::of_database(file, &error);
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let database = Connection::open_with_flags(file, flags).map_err(failed)?;
        database.busy_timeout(PATIENCE).map_err(failed)?;
        let number = |name| database.pragma_query_value(None, name, |row| row.get::<_, i32>(0));
        if number("application_id").map_err(failed)? != APPLICATION {
            return Err(WearFault::Damaged(file.to_owned()));
        }
        match number("user_version").map_err(failed)? {
            VERSION => {}
            newer if newer > VERSION => return Err(WearFault::Newer(file.to_owned())),
            _ => return Err(WearFault::Damaged(file.to_owned())),
        }
        database
            .execute_batch("PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA;")
            .map_err(failed)?;
        let found: String = database
            .query_row("SELECT kit FROM ledger", [], |row| row.get(0))
            .map_err(failed)?;
        if found != kit.id.as_str() {
            let file = file.to_owned();
            return Err(WearFault::OtherKit { file, found });
        }
        Ok(Self {
            file: file.to_owned(),
            database,
        })
    }

    fn failed(&self) -> impl Fn(rusqlite::Error) -> WearFault + use<> {
        let file = self.file.clone();
        move |error| WearFault::of_database(&file, &error)
    }

    /// Everything that was counted.
    pub(super) fn counted(&self) -> Result<Counted, WearFault> {
        let failed = self.failed();
        let sound: String = self
            .database
            .query_row("PRAGMA quick_check(1)", [], |row| row.get(0))
            .map_err(failed)?;
        if sound != "ok" {
            return Err(WearFault::Damaged(self.file.clone()));
        }
        let mut all = Counted::default();
        let mut partial = BTreeSet::new();
        for closing in self.kept()?.into_values() {
            all.closings += 1;
            add_all(&mut all.worn, &closing.worn);
            if closing.is_partial {
                partial.insert(closing.case);
            }
        }
        all.partial = partial.into_iter().collect();
        Ok(all)
    }

    /// The ids of all closings, with their cases.
    pub(super) fn closings(&self) -> Result<Vec<(String, CaseJaw)>, WearFault> {
        let kept = self.kept()?.into_iter();
        Ok(kept.map(|(id, closing)| (id, closing.case)).collect())
    }

    /// Everything that is kept, by its id.
    fn kept(&self) -> Result<BTreeMap<String, Closing>, WearFault> {
        kept(&self.database, &self.file)
    }

    /// Puts a case as it stands in place of all that is kept of it.
    pub(super) fn put(&mut self, case: &CaseWear) -> Result<CaseCounted, WearFault> {
        let (failed, file) = (self.failed(), self.file.clone());
        let within = self
            .database
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&failed)?;
        let own: BTreeSet<String> = case.own.iter().map(EventHash::to_string).collect();
        let mut there = kept_of(&within, &file, &own)?;
        let new: Vec<Closing> = closings(case).collect();
        let is_partial = new.iter().any(|one| one.is_partial);
        let is_behind = |one: &Closing| one.events > case.events && !is_partial;
        if there.values().any(is_behind) {
            return Ok(CaseCounted::Behind);
        }
        let as_before = there.len() == new.len()
            && new
                .iter()
                .all(|one| there.remove(&one.id).as_ref() == Some(one));
        if as_before {
            return Ok(CaseCounted::AsBefore);
        }
        for id in &own {
            within
                .execute("DELETE FROM closing WHERE id = ?1", [id])
                .map_err(&failed)?;
        }
        for closing in &new {
            insert(&within, closing).map_err(&failed)?;
        }
        within.commit().map_err(&failed)?;
        Ok(CaseCounted::Counted)
    }

    /// Puts these cases in place of everything.
    pub(super) fn put_all(&mut self, cases: &[CaseWear]) -> Result<(), WearFault> {
        let failed = self.failed();
        let within = self
            .database
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&failed)?;
        within
            .execute_batch("DELETE FROM worn; DELETE FROM closing;")
            .map_err(&failed)?;
        for closing in cases.iter().flat_map(closings) {
            insert(&within, &closing).map_err(&failed)?;
        }
        within.commit().map_err(&failed)
    }
}

/// The bytes of a whole new ledger.
pub(super) fn whole(file: &Path, kit: &Kit, cases: &[CaseWear]) -> Result<Vec<u8>, WearFault> {
    let failed = |error: rusqlite::Error| WearFault::of_database(file, &error);
    let mut database = Connection::open_in_memory().map_err(failed)?;
    let begin = |database: &Connection| {
        database.execute_batch(TABLES)?;
        database.pragma_update(None, "application_id", APPLICATION)?;
        database.pragma_update(None, "user_version", VERSION)?;
        database.execute("INSERT INTO ledger (kit) VALUES (?1)", [kit.id.as_str()])
    };
    begin(&database).map_err(failed)?;
    let within = database.transaction().map_err(failed)?;
    for closing in cases.iter().flat_map(closings) {
        insert(&within, &closing).map_err(failed)?;
    }
    within.commit().map_err(failed)?;
    let bytes = database.serialize("main").map_err(failed)?;
    Ok(bytes.to_vec())
}

/// The closed sittings of a case as they are kept.
fn closings(case: &CaseWear) -> impl Iterator<Item = Closing> {
    case.sittings.iter().filter_map(|sitting: &Sitting| {
        Some(Closing {
            id: sitting.id.to_string(),
            case: case.case.clone(),
            begun: sitting.at.to_string(),
            closed: sitting.closed?.key().to_owned(),
            is_partial: sitting.is_partial,
            events: case.events,
            worn: sitting.worn.clone(),
        })
    })
}

impl Closing {
    /// Of all that stands in its rows.
    fn digest(&self) -> String {
        let worn: Vec<_> = self
            .worn
            .iter()
            .map(|(piece, worn)| (&piece.drill, &piece.mark, worn.uses, worn.sterilisations))
            .collect();
        let of = (&self.id, &self.case.case, self.case.jaw.key());
        let day = (&self.begun, &self.closed, self.is_partial, self.events);
        let text = serde_json::to_string(&(of, day, worn));
        let text = text.unwrap_or_else(|error| unreachable!("plain data becomes JSON: {error}"));
        EventHash::of_file(text.as_bytes()).to_string()
    }
}

fn insert(within: &Transaction<'_>, closing: &Closing) -> rusqlite::Result<()> {
    within
        .prepare(
            "INSERT INTO closing (id, reference, jaw, begun, closed, partial, events, digest) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        )?
        .execute(params![
            closing.id,
            closing.case.case,
            closing.case.jaw.key(),
            closing.begun,
            closing.closed,
            closing.is_partial,
            closing.events,
            closing.digest(),
        ])?;
    let mut add = within.prepare(
        "INSERT INTO worn (closing, drill, mark, uses, sterilisations) VALUES (?1, ?2, ?3, ?4, ?5)",
    )?;
    for (piece, worn) in &closing.worn {
        // No mark is empty: it stands for none.
        let mark = piece.mark.as_deref().unwrap_or_default();
        add.execute(params![
            closing.id,
            piece.drill,
            mark,
            worn.uses,
            worn.sterilisations
        ])?;
    }
    Ok(())
}

/// Everything that is kept, by its id.
fn kept(database: &Connection, file: &Path) -> Result<BTreeMap<String, Closing>, WearFault> {
    select(database, file, None)
}

/// What is kept under these ids.
fn kept_of(
    database: &Connection,
    file: &Path,
    ids: &BTreeSet<String>,
) -> Result<BTreeMap<String, Closing>, WearFault> {
    let mut all = BTreeMap::new();
    for id in ids {
        all.extend(select(database, file, Some(id))?);
    }
    Ok(all)
}

/// What is kept under an id, or everything. Something that is not as it was written is damaged.
fn select(
    database: &Connection,
    file: &Path,
    id: Option<&str>,
) -> Result<BTreeMap<String, Closing>, WearFault> {
    let failed = |error: rusqlite::Error| WearFault::of_database(file, &error);
    let damaged = || WearFault::Damaged(file.to_owned());
    let mut found: BTreeMap<String, (Closing, String)> = BTreeMap::new();
    let mut rows = database
        .prepare(
            // By its key: what is kept may be long.
            match id {
                Some(_) => {
                    "SELECT id, reference, jaw, begun, closed, partial, events, digest FROM closing \
                     WHERE id = ?1"
                }
                None => {
                    "SELECT id, reference, jaw, begun, closed, partial, events, digest FROM closing \
                     WHERE ?1 IS NULL"
                }
            },
        )
        .map_err(failed)?;
    let mut rows = rows.query([id]).map_err(failed)?;
    while let Some(row) = rows.next().map_err(failed)? {
        let jaw: String = row.get(2).map_err(failed)?;
        let jaws = [Jaw::Upper, Jaw::Lower];
        let jaw = jaws.into_iter().find(|one| one.key() == jaw);
        let closed: String = row.get(4).map_err(failed)?;
        if !ClosedBy::ALL.iter().any(|one| one.key() == closed) {
            return Err(damaged());
        }
        let closing = Closing {
            id: row.get(0).map_err(failed)?,
            case: CaseJaw {
                case: row.get(1).map_err(failed)?,
                jaw: jaw.ok_or_else(damaged)?,
            },
            begun: row.get(3).map_err(failed)?,
            closed,
            is_partial: row.get(5).map_err(failed)?,
            events: row.get(6).map_err(failed)?,
            worn: Tally::new(),
        };
        let digest: String = row.get(7).map_err(failed)?;
        found.insert(closing.id.clone(), (closing, digest));
    }
    let mut rows = database
        .prepare(match id {
            Some(_) => {
                "SELECT closing, drill, mark, uses, sterilisations FROM worn WHERE closing = ?1"
            }
            None => "SELECT closing, drill, mark, uses, sterilisations FROM worn WHERE ?1 IS NULL",
        })
        .map_err(failed)?;
    let mut rows = rows.query([id]).map_err(failed)?;
    while let Some(row) = rows.next().map_err(failed)? {
        let of: String = row.get(0).map_err(failed)?;
        let mark: String = row.get(2).map_err(failed)?;
        let piece = WornPiece {
            drill: row.get(1).map_err(failed)?,
            mark: (!mark.is_empty()).then_some(mark),
        };
        let worn = Worn {
            uses: row.get(3).map_err(failed)?,
            sterilisations: row.get(4).map_err(failed)?,
        };
        let (closing, _) = found.get_mut(&of).ok_or_else(damaged)?;
        closing.worn.insert(piece, worn);
    }
    let mut kept = BTreeMap::new();
    for (id, (closing, digest)) in found {
        if closing.digest() != digest {
            return Err(damaged());
        }
        kept.insert(id, closing);
    }
    Ok(kept)
}
