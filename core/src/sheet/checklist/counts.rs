//! Things that are counted in and out.

use super::form::titled_in_line;
use super::pieces::{SMALL, column};
use super::{Source, done, places};
use crate::drawing::{Across, TextStyle};
use crate::kit::{Accessory, AccessoryKind, SlotKind};
use crate::sheet::{Block, Cell, Lane, Row, Table, Width, line_after};
use crate::sign::{CountKind, Counted, DayEvent};
use crate::wording::shorter_implants;

/// Height of a box for a number, mm.
const BOX: f64 = 4.5;
/// Number of columns.
const COLUMNS: usize = 3;
/// Rows left free for what the local list asks for.
const FREE_ROWS: usize = 2;

/// The counts under a title of their own, below something else.
pub(super) fn headed(source: &Source<'_>) -> Vec<Block> {
    let mut all = titled_in_line(source, "count-heading", "count-how");
    all.extend(blocks(source));
    vec![Block::Together(all)]
}

/// The table of counts, in three columns, and lines for both who counted.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let asked = lines(source);
    let most = asked.len() + FREE_ROWS;
    let counts = done::counted(source);
    let recorded = counted(source, &counts);
    let covered = |kind: &CountKind| recorded.iter().any(|line| line.is_of(source, kind));
    let mut rows: Vec<Row> = recorded.iter().map(CountedLine::row).collect();
    // What by the record was counted is not asked for once more.
    let open = asked
        .into_iter()
        .filter(|line| !line.kind.as_ref().is_some_and(covered));
    rows.extend(open.map(|line| row(Cell::Text(line.name, SMALL), line.planned)));
    let free = most.saturating_sub(rows.len()).min(FREE_ROWS);
    rows.push(row(
        Cell::Text(formatter.word("count-swabs"), SMALL),
        formatter.word("count-local"),
    ));
    rows.extend((0..free).map(|_| row(Cell::Empty, String::new())));
    let each = rows.len().div_ceil(COLUMNS).max(1);
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let lane = |rows: &[Row]| Lane {
        width: Width::Share(1.0),
        blocks: vec![Block::Table(Table {
            columns: vec![
                head("sheet-col-counted", Width::Share(1.0)),
                head("sheet-col-planned", Width::Mm(9.0)),
                head("sheet-col-in", Width::Mm(10.2)),
                head("sheet-col-out", Width::Mm(10.2)),
            ],
            rows: rows.to_vec(),
            padding_mm: 0.3,
            gap_mm: 1.6,
        })],
    };
    let signed = |id: &str, count: Option<(&Counted, &DayEvent)>| Lane {
        width: Width::Share(1.0),
        blocks: vec![
            Block::Space(2.2),
            match count {
                None => Block::Picture(line_after(88.0, &formatter.word(id))),
                Some(count) => {
                    let (name, by) = (formatter.word(id), done::counted_by(source, count));
                    let args = [("kind", name.as_str()), ("what", &by)];
                    let words = formatter.text("record-named", &args);
                    Block::Paragraph(words, SMALL.bold())
                }
            },
        ],
    };
    let [counted_in, counted_out] = counts;
    vec![
        Block::Beside(rows.chunks(each).map(lane).collect(), 5.0),
        Block::Space(0.6),
        Block::Beside(
            vec![
                signed("count-in-by", counted_in),
                signed("count-out-by", counted_out),
            ],
            7.0,
        ),
    ]
}

fn row(name: Cell, planned: String) -> Row {
    Row::Cells(vec![
        name,
        Cell::Text(planned, SMALL.bold()),
        Cell::WriteBox(BOX),
        Cell::WriteBox(BOX),
    ])
}

/// Something that was counted, in or out.
struct CountedLine {
    what: String,
    kind: Option<CountKind>,
    wanted: u32,
    found: [Option<u32>; 2],
}

impl CountedLine {
    /// True if this is what it counts.
    fn is_of(&self, source: &Source<'_>, kind: &CountKind) -> bool {
        match &self.kind {
            Some(own) => own == kind,
            // As an older program called it.
            None => self.what == source.formatter.counted_kind(kind),
        }
    }

    fn row(&self) -> Row {
        let found = self.found.map(|found| match found {
            None => Cell::WriteBox(BOX),
            Some(found) if found == self.wanted => Cell::Text(found.to_string(), SMALL),
            Some(found) => Cell::Text(found.to_string(), TextStyle::STRONG),
        });
        let [counted_in, counted_out] = found;
        Row::Cells(vec![
            Cell::Text(self.what.clone(), SMALL),
            Cell::Text(self.wanted.to_string(), SMALL.bold()),
            counted_in,
            counted_out,
        ])
    }
}

/// What was counted by the record, each thing once: the number that there should be is that of the last count.
fn counted(source: &Source<'_>, counts: &[Option<(&Counted, &DayEvent)>; 2]) -> Vec<CountedLine> {
    let mut all: Vec<CountedLine> = Vec::new();
    for (place, count) in counts.iter().enumerate() {
        for line in count.iter().flat_map(|(counted, _)| &counted.lines) {
            let what = match &line.kind {
                Some(kind) => source.formatter.counted_kind(kind),
                None => line.what.clone(),
            };
            let mut found = [None, None];
            found[place] = Some(line.found);
            match all.iter_mut().find(|one| one.what == what) {
                Some(one) => {
                    one.wanted = line.wanted;
                    one.found[place] = Some(line.found);
                }
                None => all.push(CountedLine {
                    what,
                    kind: line.kind.clone(),
                    wanted: line.wanted,
                    found,
                }),
            }
        }
    }
    all
}

/// Something that is asked for, with the number that the plan has on the tray.
struct Asked {
    name: String,
    planned: String,
    /// The sort that it is counted in by the record; none for what the record does not count.
    kind: Option<CountKind>,
}

/// The things that are counted, each with the number that the plan has on the tray.
fn lines(source: &Source<'_>) -> Vec<Asked> {
    let formatter = &source.formatter;
    let loading = &source.worksheet.loading;
    let of_kind = |kind: SlotKind| loading.iter().filter(|item| item.kind == kind).count();
    let drills = |sealed: Sealed| {
        let drills = loading.iter().filter(|item| item.kind == SlotKind::Drill);
        drills
            .filter(|item| item.unopened == (sealed == Sealed::Yes))
            .count()
    };
    let on_drills = loading.iter().filter_map(|item| item.set.as_ref());
    let stops = on_drills.filter(|on| on.stop.is_some()).count();
    let asked = |id: &str, planned: String, kind: Option<CountKind>| Asked {
        name: formatter.word(id),
        planned,
        kind,
    };
    let one = || "1".to_owned();
    let mut lines = vec![asked("count-guide", one(), Some(CountKind::Guide))];
    if source.case.setup.gauge.is_some() {
        lines.push(asked("count-gauge", one(), Some(CountKind::Gauge)));
    }
    for (id, count, kind) in [
        ("count-stops", stops, CountKind::Stops),
        ("count-drills", drills(Sealed::No), CountKind::Drills),
        (
            "count-sleeves",
            of_kind(SlotKind::Sleeve),
            CountKind::Sleeves,
        ),
    ] {
        lines.push(asked(id, count.to_string(), Some(kind)));
    }
    for (id, kind, counted) in [
        ("count-pins", SlotKind::Pin, CountKind::Pins),
        ("count-carriers", SlotKind::Carrier, CountKind::Carriers),
        ("count-drivers", SlotKind::Driver, CountKind::Drivers),
    ] {
        let count = of_kind(kind);
        if count > 0 {
            lines.push(asked(id, count.to_string(), Some(counted)));
        }
    }
    // What comes closed is counted closed and opened: what was opened is in the mouth or wasted.
    let closed = [
        (
            "count-sealed-drills",
            drills(Sealed::Yes),
            Some(CountKind::Drills),
        ),
        (
            "count-sealed-spares",
            places::accessories(source, AccessoryKind::Spare).count(),
            spare(source).map(|one| CountKind::Other(one.name.clone())),
        ),
        (
            "count-sealed-implants",
            of_kind(SlotKind::Implant),
            Some(CountKind::Implants),
        ),
        (
            "count-sealed-shorter",
            shorter_implants(source.worksheet).len(),
            None,
        ),
    ];
    for (id, count, kind) in closed {
        if count > 0 {
            lines.push(asked(id, count.to_string(), kind));
        }
    }
    // These are lost most easily: they are asked for even where the kit has none.
    for (id, kind, counted) in [
        ("count-key", AccessoryKind::LockKey, CountKind::LockKeys),
        ("count-tethers", AccessoryKind::Tether, CountKind::Tethers),
        (
            "count-throat-pack",
            AccessoryKind::ThroatPack,
            CountKind::ThroatPacks,
        ),
    ] {
        let wanted = wanted(source, kind);
        let planned = if wanted == 0 {
            formatter.word("sheet-not-in-kit")
        } else {
            wanted.to_string()
        };
        lines.push(asked(id, planned, Some(counted)));
    }
    let others = source.case.kit.accessories.iter().filter(|accessory| {
        let is_counted = matches!(
            accessory.kind,
            AccessoryKind::TorqueWrench | AccessoryKind::Punch | AccessoryKind::Other
        );
        let entry = accessory.id.as_str();
        is_counted && places::of_entry(source, SlotKind::Accessory, entry).is_some()
    });
    lines.extend(others.map(|one| Asked {
        name: one.name.to_string(),
        planned: one.wanted.to_string(),
        kind: Some(CountKind::Other(one.name.clone())),
    }));
    lines
}

/// The first sort of spares of the kit that is on the tray: they are counted together here, and each by its name by the record.
fn spare<'a>(source: &Source<'a>) -> Option<&'a Accessory> {
    let mut spares = source.case.kit.accessories.iter();
    spares.find(|one| {
        let lies = places::of_entry(source, SlotKind::Accessory, one.id.as_str()).is_some();
        one.kind == AccessoryKind::Spare && lies
    })
}

/// True if it stays closed until it is called for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sealed {
    Yes,
    No,
}

fn wanted(source: &Source<'_>, kind: AccessoryKind) -> u32 {
    let accessories = source.case.kit.accessories.iter();
    accessories
        .filter(|accessory| accessory.kind == kind)
        .map(|accessory| accessory.wanted)
        .sum()
}
