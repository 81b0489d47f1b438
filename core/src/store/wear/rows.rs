//! The tables of a ledger.

use super::CaseCounted;
use super::fault::WearFault;
use crate::dentition::Jaw;
use crate::kit::Kit;
use crate::sign::{CaseJaw, EventHash};
use crate::store::write::is_free;
use crate::store::{StoreError, StoreFault};
use crate::wear::{CaseWear, ClosedBy, Counted, LogEnds, Tally, Worn, WornPiece, add_all};
use jiff::Timestamp;
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior, params};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// What marks a file of `SQLite` as a ledger of wear: `TWwr`.
const APPLICATION: i32 = 0x5457_7772;

/// The version of its tables.
const VERSION: i32 = 2;

/// How long another program is waited for that reads or writes it.
const PATIENCE: Duration = Duration::from_secs(10);

/// `closed` is what closed the day, or one of [`NO_CLOSING`]; `logs` the ends of the logs of the record that says so.
/// `digest` is of all else that stands of a closing: a database finds no byte of its own that changed within a value.
const TABLES: &str = "
    CREATE TABLE ledger (kit TEXT NOT NULL) STRICT;
    CREATE TABLE closing (
        id TEXT PRIMARY KEY NOT NULL,
        reference TEXT NOT NULL,
        jaw TEXT NOT NULL,
        begun TEXT NOT NULL,
        closed TEXT NOT NULL,
        logs TEXT NOT NULL,
        digest TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX of_case ON closing (reference, jaw);
    CREATE TABLE worn (
        closing TEXT NOT NULL REFERENCES closing (id) ON DELETE CASCADE,
        drill TEXT NOT NULL,
        mark TEXT NOT NULL,
        uses INTEGER NOT NULL,
        sterilisations INTEGER NOT NULL,
        PRIMARY KEY (closing, drill, mark)
    ) STRICT, WITHOUT ROWID;
";

/// In place of what closed a day: nobody did yet. Its uses are kept and do not count.
const OPEN: &str = "open";

/// In place of what closed a day: it is none, but says that a part of the record of the case was put aside.
const PUT_ASIDE: &str = "put_aside";

/// In place of what closed a day: the record of the case could not be counted, as a part of it is damaged or missing.
const BROKEN: &str = "broken";

/// All of these.
const NO_CLOSING: [&str; 3] = [OPEN, PUT_ASIDE, BROKEN];

/// A ledger that is open.
pub(super) struct Ledger {
    file: PathBuf,
    database: Connection,
}

/// A closing as it is kept, a day that is not closed, or that a part of a record was put aside.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Closing {
    id: String,
    case: CaseJaw,
    begun: String,
    closed: String,
    logs: Vec<LogEnds>,
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
        for (id, closing) in self.kept()? {
            match &*closing.closed {
                PUT_ASIDE | BROKEN => {
                    partial.insert(closing.case);
                }
                OPEN => add_all(all.open.entry(closing.case).or_default(), &closing.worn),
                _ => {
                    all.closings += 1;
                    all.sittings.insert(id);
                    add_all(&mut all.worn, &closing.worn);
                }
            }
        }
        all.partial = partial.into_iter().collect();
        Ok(all)
    }

    /// The cases of which something is kept that none of these records has.
    pub(super) fn unknown_to(&self, cases: &[CaseWear]) -> Result<BTreeSet<CaseJaw>, WearFault> {
        let mut by_case: BTreeMap<&CaseJaw, Vec<&CaseWear>> = BTreeMap::new();
        for case in cases {
            by_case.entry(&case.case).or_default().push(case);
        }
        let is_known = |closing: &Closing| {
            let mut of = by_case.get(&closing.case).into_iter().flatten();
            of.any(|case| closing.logs.iter().all(|log| has(case, log)))
        };
        let kept = self.kept()?.into_values();
        let unknown = kept.filter(|closing| !is_known(closing));
        Ok(unknown.map(|closing| closing.case).collect())
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
        let there = kept_of(&within, &file, case)?;
        let logs: BTreeSet<LogEnds> = there.values().flat_map(|one| one.logs.clone()).collect();
        let mut new: BTreeMap<String, Closing> = (closings(case))
            .map(|closing| (closing.id.clone(), closing))
            .collect();
        let has_closed = new.values().any(Closing::is_closed);
        if !logs.iter().all(|log| has(case, log)) {
            if case.put_aside.is_none() {
                let is_apart = case.logs.iter().any(|log| goes_further(log, &logs));
                return Ok(if is_apart {
                    CaseCounted::Apart
                } else {
                    CaseCounted::Behind
                });
            }
            // What was put aside took nothing back.
            keep(&mut new, &there, (case, &logs));
        }
        // It can be read again.
        within
            .execute("DELETE FROM closing WHERE id = ?1", [broken_id(&case.case)])
            .map_err(&failed)?;
        if new != there {
            for id in there.keys() {
                within
                    .execute("DELETE FROM closing WHERE id = ?1", [id])
                    .map_err(&failed)?;
            }
            for closing in new.values() {
                insert(&within, closing).map_err(&failed)?;
            }
        }
        let counted = match (has_closed, new == there) {
            (false, _) => CaseCounted::NotClosed,
            (true, true) => CaseCounted::AsBefore,
            (true, false) => CaseCounted::Counted,
        };
        within.commit().map_err(&failed)?;
        Ok(counted)
    }

    /// Keeps that the record of a case could not be counted: there may be more uses, until it can be read again.
    pub(super) fn put_broken(&mut self, case: &CaseJaw) -> Result<(), WearFault> {
        let failed = self.failed();
        let within = self
            .database
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(&failed)?;
        let broken = Closing {
            id: broken_id(case),
            case: case.clone(),
            begun: String::new(),
            closed: BROKEN.to_owned(),
            logs: Vec::new(),
            worn: Tally::new(),
        };
        within
            .execute("DELETE FROM closing WHERE id = ?1", [&broken.id])
            .map_err(&failed)?;
        insert(&within, &broken).map_err(&failed)?;
        within.commit().map_err(&failed)
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

/// The sittings of a case as they are kept: those that are closed and those in which something was used so far; and that a
/// part of its record was put aside.
fn closings(case: &CaseWear) -> impl Iterator<Item = Closing> {
    let new = |id: &EventHash, at: Timestamp, closed: &str, worn: &Tally| Closing {
        id: id.to_string(),
        case: case.case.clone(),
        begun: at.to_string(),
        closed: closed.to_owned(),
        logs: case.logs.clone(),
        worn: worn.clone(),
    };
    let closed = case.closed().map(move |one| {
        let closed = one.closed.map_or(OPEN, ClosedBy::key);
        new(&one.id, one.at, closed, &one.worn)
    });
    let open = (case.left_open()).map(move |one| new(&one.id, one.at, OPEN, &one.worn));
    let aside = case.put_aside.iter();
    let aside = aside.map(move |(id, at)| new(id, *at, PUT_ASIDE, &Tally::new()));
    closed.chain(open).chain(aside)
}

/// Under what it is kept that a record is broken: no event has this hash.
fn broken_id(case: &CaseJaw) -> String {
    let of = format!("{BROKEN} {} {}", case.jaw.key(), case.case);
    EventHash::of_file(of.as_bytes()).to_string()
}

/// True if a record has the whole of a log.
fn has(case: &CaseWear, log: &LogEnds) -> bool {
    case.events.contains(&log.last)
}

/// True if a log has something that these surely lack.
fn goes_further(log: &LogEnds, than: &BTreeSet<LogEnds>) -> bool {
    let mut of_it = than.iter().filter(|one| one.first == log.first);
    !of_it.any(|one| one.length > log.length || one.last == log.last)
}

/// Keeps what is known of sittings that a record lost: of each piece the most that was ever counted.
fn keep(
    new: &mut BTreeMap<String, Closing>,
    there: &BTreeMap<String, Closing>,
    (case, logs): (&CaseWear, &BTreeSet<LogEnds>),
) {
    for (id, old) in there {
        let closing = new.entry(id.clone()).or_insert_with(|| old.clone());
        if !closing.is_closed() {
            closing.closed.clone_from(&old.closed);
        }
        for (piece, worn) in &old.worn {
            let all = closing.worn.entry(piece.clone()).or_default();
            all.uses = all.uses.max(worn.uses);
            all.sterilisations = all.sterilisations.max(worn.sterilisations);
        }
    }
    let lost = logs.iter().filter(|log| !has(case, log));
    let all: BTreeSet<LogEnds> = case.logs.iter().chain(lost).cloned().collect();
    for closing in new.values_mut() {
        closing.logs = all.iter().cloned().collect();
    }
}

impl Closing {
    /// True for a sitting that counts.
    fn is_closed(&self) -> bool {
        !NO_CLOSING.contains(&&*self.closed)
    }

    /// The ends of the logs as they are kept.
    fn logs_text(&self) -> String {
        let text = serde_json::to_string(&self.logs);
        text.unwrap_or_else(|error| unreachable!("plain data becomes JSON: {error}"))
    }

    /// Of all that stands in its rows.
    fn digest(&self) -> String {
        let worn: Vec<_> = self
            .worn
            .iter()
            .map(|(piece, worn)| (&piece.drill, &piece.mark, worn.uses, worn.sterilisations))
            .collect();
        let of = (&self.id, &self.case.case, self.case.jaw.key());
        let day = (&self.begun, &self.closed, &self.logs);
        let text = serde_json::to_string(&(of, day, worn));
        let text = text.unwrap_or_else(|error| unreachable!("plain data becomes JSON: {error}"));
        EventHash::of_file(text.as_bytes()).to_string()
    }
}

fn insert(within: &Transaction<'_>, closing: &Closing) -> rusqlite::Result<()> {
    within
        .prepare(
            "INSERT INTO closing (id, reference, jaw, begun, closed, logs, digest) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        )?
        .execute(params![
            closing.id,
            closing.case.case,
            closing.case.jaw.key(),
            closing.begun,
            closing.closed,
            closing.logs_text(),
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

/// What is kept of a case: of its reference and jaw, and of a record that shares a log with its own. Another case may have its
/// reference by chance.
fn kept_of(
    database: &Connection,
    file: &Path,
    case: &CaseWear,
) -> Result<BTreeMap<String, Closing>, WearFault> {
    let mut kept = select(database, file, Some(&case.case))?;
    let first: BTreeSet<EventHash> = case.logs.iter().map(|log| log.first).collect();
    kept.retain(|_, closing| closing.logs.iter().any(|log| first.contains(&log.first)));
    Ok(kept)
}

/// What is kept of a reference and jaw, or everything. Something that is not as it was written is damaged.
fn select(
    database: &Connection,
    file: &Path,
    of: Option<&CaseJaw>,
) -> Result<BTreeMap<String, Closing>, WearFault> {
    let failed = |error: rusqlite::Error| WearFault::of_database(file, &error);
    let damaged = || WearFault::Damaged(file.to_owned());
    let mut found: BTreeMap<String, (Closing, String)> = BTreeMap::new();
    let of = of.map_or((None, None), |one| (Some(&one.case), Some(one.jaw.key())));
    let mut rows = database
        .prepare(
            // By its index: what is kept may be long.
            match of.0 {
                Some(_) => {
                    "SELECT id, reference, jaw, begun, closed, logs, digest FROM closing \
                     WHERE reference = ?1 AND jaw = ?2"
                }
                None => {
                    "SELECT id, reference, jaw, begun, closed, logs, digest FROM closing \
                     WHERE ?1 IS NULL AND ?2 IS NULL"
                }
            },
        )
        .map_err(failed)?;
    let mut rows = rows.query(params![of.0, of.1]).map_err(failed)?;
    while let Some(row) = rows.next().map_err(failed)? {
        let jaw: String = row.get(2).map_err(failed)?;
        let jaws = [Jaw::Upper, Jaw::Lower];
        let jaw = jaws.into_iter().find(|one| one.key() == jaw);
        let closed: String = row.get(4).map_err(failed)?;
        let mut keys = ClosedBy::ALL.iter().map(|one| one.key());
        if !keys.any(|key| key == closed) && !NO_CLOSING.contains(&&*closed) {
            return Err(damaged());
        }
        let logs: String = row.get(5).map_err(failed)?;
        let closing = Closing {
            id: row.get(0).map_err(failed)?,
            case: CaseJaw {
                case: row.get(1).map_err(failed)?,
                jaw: jaw.ok_or_else(damaged)?,
            },
            begun: row.get(3).map_err(failed)?,
            closed,
            logs: serde_json::from_str(&logs).map_err(|_| damaged())?,
            worn: Tally::new(),
        };
        let digest: String = row.get(6).map_err(failed)?;
        found.insert(closing.id.clone(), (closing, digest));
    }
    let mut rows = database
        .prepare(match of.0 {
            Some(_) => {
                "SELECT closing, drill, mark, uses, sterilisations FROM worn WHERE closing IN \
                 (SELECT id FROM closing WHERE reference = ?1 AND jaw = ?2)"
            }
            None => {
                "SELECT closing, drill, mark, uses, sterilisations FROM worn \
                 WHERE ?1 IS NULL AND ?2 IS NULL"
            }
        })
        .map_err(failed)?;
    let mut rows = rows.query(params![of.0, of.1]).map_err(failed)?;
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
