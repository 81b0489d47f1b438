//! Things that are counted in and out.

use super::form::titled_in_line;
use super::pieces::{SMALL, column};
use super::{Source, places};
use crate::drawing::Across;
use crate::kit::{AccessoryKind, SlotKind};
use crate::sheet::{Block, Cell, Lane, Row, Table, Width, line_after};
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
    let mut rows: Vec<Row> = lines(source)
        .into_iter()
        .map(|(name, planned)| row(Cell::Text(name, SMALL), planned))
        .collect();
    rows.push(row(
        Cell::Text(formatter.word("count-swabs"), SMALL),
        formatter.word("count-local"),
    ));
    rows.extend((0..FREE_ROWS).map(|_| row(Cell::Empty, String::new())));
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
    let signed = |id: &str| Lane {
        width: Width::Share(1.0),
        blocks: vec![
            Block::Space(2.2),
            Block::Picture(line_after(88.0, &formatter.word(id))),
        ],
    };
    vec![
        Block::Beside(rows.chunks(each).map(lane).collect(), 5.0),
        Block::Space(0.6),
        Block::Beside(vec![signed("count-in-by"), signed("count-out-by")], 7.0),
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

/// The things that are counted, each with the number that the plan has on the tray.
fn lines(source: &Source<'_>) -> Vec<(String, String)> {
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
    let mut lines = vec![(formatter.word("count-guide"), "1".to_owned())];
    if source.case.setup.gauge.is_some() {
        lines.push((formatter.word("count-gauge"), "1".to_owned()));
    }
    lines.extend([
        (formatter.word("count-stops"), stops.to_string()),
        (
            formatter.word("count-drills"),
            drills(Sealed::No).to_string(),
        ),
        (
            formatter.word("count-sleeves"),
            of_kind(SlotKind::Sleeve).to_string(),
        ),
    ]);
    for (id, kind) in [
        ("count-pins", SlotKind::Pin),
        ("count-carriers", SlotKind::Carrier),
        ("count-drivers", SlotKind::Driver),
    ] {
        let count = of_kind(kind);
        if count > 0 {
            lines.push((formatter.word(id), count.to_string()));
        }
    }
    // What comes closed is counted closed and opened: what was opened is in the mouth or wasted.
    let closed = [
        ("count-sealed-drills", drills(Sealed::Yes)),
        (
            "count-sealed-spares",
            places::accessories(source, AccessoryKind::Spare).count(),
        ),
        ("count-sealed-implants", of_kind(SlotKind::Implant)),
        (
            "count-sealed-shorter",
            shorter_implants(source.worksheet).len(),
        ),
    ];
    for (id, count) in closed {
        if count > 0 {
            lines.push((formatter.word(id), count.to_string()));
        }
    }
    // These are lost most easily: they are asked for even where the kit has none.
    for (id, kind) in [
        ("count-key", AccessoryKind::LockKey),
        ("count-tethers", AccessoryKind::Tether),
        ("count-throat-pack", AccessoryKind::ThroatPack),
    ] {
        let wanted = wanted(source, kind);
        let planned = if wanted == 0 {
            formatter.word("sheet-not-in-kit")
        } else {
            wanted.to_string()
        };
        lines.push((formatter.word(id), planned));
    }
    let others = source.case.kit.accessories.iter().filter(|accessory| {
        let is_counted = matches!(
            accessory.kind,
            AccessoryKind::TorqueWrench | AccessoryKind::Punch | AccessoryKind::Other
        );
        let entry = accessory.id.as_str();
        is_counted && places::of_entry(source, SlotKind::Accessory, entry).is_some()
    });
    lines.extend(others.map(|one| (one.name.to_string(), one.wanted.to_string())));
    lines
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
