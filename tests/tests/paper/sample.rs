//! Pages that use every part of the paper machinery, with invented content.

use traywright_core::drawing::{
    Across, Along, Dash, DimensionStack, Drawing, Ink, LineWeight, Mark, Paint, Rect, Side, Span,
    Stroke, TextStyle, at, qr, ruler,
};
use traywright_core::sheet::{
    Block, Cell, Column, Field, Flow, Frame, Lane, Page, Paper, Row, Table, Width, pdf,
    signature_line, stamp, title_block, title_block_height, write_box,
};

/// Names that need every script, sign and mark that the sheet promises.
pub(crate) const NAMES: [&str; 5] = [
    "Łukasz Żółć-Ściślewski",
    "Đặng Thị Ngọc Ánh",
    "Ελένη Παπαδοπούλου λ",
    "Жанна Ёлкина",
    "Adéṣọlá Ọ́ládélé",
];

/// The text of the QR code.
pub(crate) const FINGERPRINT: &str = "7KQD M3XT 91VB";

/// The beginning of the ruler on the first page, mm.
pub(crate) const RULER: (f64, f64) = (18.0, 158.0);

/// The margin within which the sample stays, mm.
pub(crate) const MARGIN: f64 = 10.0;

/// The sample's pages.
pub(crate) fn pages(paper: Paper) -> Vec<Page> {
    let frame = Frame::inset(paper, 18.0, 15.0, 50.0);
    let mut flow = Flow::new(frame);
    let mut add = |block: Block| flow.add(&block).unwrap();
    add(Block::Heading(
        "Lower left second premolar (35)".to_owned(),
        TextStyle::TITLE,
    ));
    add(Block::Paragraph(
        "⌀ 4.7 × 9.3 · flap · tooth-supported guide · density unknown".to_owned(),
        TextStyle::BODY.inked(Ink::Soft),
    ));
    add(Block::Space(1.5));
    add(Block::Rule(Ink::Strong));
    add(Block::Space(4.0));
    add(Block::Beside(
        vec![
            Lane {
                width: Width::Mm(92.0),
                blocks: vec![Block::Picture(section())],
            },
            Lane {
                width: Width::Share(1.0),
                blocks: vec![Block::Table(steps()), Block::Space(4.0), remarks()],
            },
        ],
        4.0,
    ));
    flow.new_page().unwrap();
    let mut add = |block: Block| flow.add(&block).unwrap();
    add(Block::Heading(
        "Loading list".to_owned(),
        TextStyle::HEADING,
    ));
    add(Block::Space(2.0));
    add(Block::Table(loading()));
    let mut pages = flow.finish().unwrap();
    first_page(&mut pages[0]);
    furnish(&mut pages, frame);
    pages
}

/// The parts of the first page only, where the test looks for them.
fn first_page(page: &mut Page) {
    page.over
        .add_at(at(RULER.0, RULER.1), ruler(50, "50 mm: measure before use"));
    let mut marks = Drawing::new();
    let words = [
        "clear", "note", "intended", "accepted", "tight", "unknown", "short",
    ];
    for ((index, mark), word) in (0_i32..).zip(Mark::ALL).zip(words) {
        let x = f64::from(index) * 25.0;
        marks.mark(at(x + 2.0, 2.0), 4.0, mark);
        marks.text(
            at(x + 5.5, 2.0),
            (Across::Start, Along::Middle),
            TextStyle::BODY,
            word,
        );
    }
    page.over.add_at(at(18.0, 171.0), marks);
    let code = qr(FINGERPRINT, 0.8).unwrap();
    page.over.add_at(at(166.0, 182.0), code);
    page.over
        .add_at(at(18.0, 184.0), write_box(60.0, 28.0, "patient label"));
}

/// The parts of every page.
fn furnish(pages: &mut [Page], frame: Frame) {
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        page.under.add(stamp(page.paper, "NOT APPROVED"));
        let field = |label: &str, value: &str, width| Field {
            label: label.to_owned(),
            value: value.to_owned(),
            width,
        };
        let fields = [
            field("CASE", "QF-0471", Width::Share(1.2)),
            field("JAW", "lower", Width::Share(1.0)),
            field("REVISION", "7", Width::Share(0.8)),
            field("PLAN CODE", FINGERPRINT, Width::Share(1.8)),
            field("STATE", "not approved", Width::Share(1.4)),
        ];
        let width = frame.area.width();
        let block = title_block(&fields, width);
        let top = page.paper.rect().bottom - 18.0 - title_block_height(&fields, width);
        page.over.add_at(at(18.0, top), block);
        for (column, name) in
            [0.0, 60.0, 120.0]
                .into_iter()
                .zip(["planned by", "loaded by", "second check"])
        {
            page.over
                .add_at(at(18.0 + column, top - 18.0), signature_line(50.0, name));
        }
        let foot = page.paper.rect().bottom - 13.0;
        page.over.text(
            at(frame.area.right, foot),
            (Across::End, Along::Baseline),
            TextStyle::CAPTION,
            format!("page {} of {count}", index + 1),
        );
    }
}

fn steps() -> Table {
    let row = |step: &str, sleeve: &str, figure: &str| {
        Row::Cells(vec![
            Cell::Text(step.to_owned(), TextStyle::STRONG),
            Cell::body(sleeve),
            Cell::Text(figure.to_owned(), TextStyle::FIGURE),
            Cell::WriteBox(9.0),
            Cell::WriteBox(9.0),
        ])
    };
    let column = |head: &str, width, align| Column {
        head: head.to_owned(),
        width,
        align,
    };
    Table {
        columns: vec![
            column("step", Width::Share(1.0), Across::Start),
            column("sleeve", Width::Mm(10.0), Across::Start),
            column("set, mm", Width::Mm(17.0), Across::End),
            column("read 1", Width::Mm(11.0), Across::Start),
            column("read 2", Width::Mm(11.0), Across::Start),
        ],
        rows: vec![
            row("pilot 2.1", "K ▮", "20.6"),
            row("twist 2.9", "P ◖", "20.8"),
            row("twist 3.6", "S ▲", "21.0"),
            row("profile", "S ▲", "9.7"),
        ],
        padding_mm: 2.0,
        gap_mm: Table::GAP,
    }
}

fn remarks() -> Block {
    Block::Together(vec![
        Block::Paragraph(
            "Bench check, tip beyond the sleeve's apical face: 15.1 · 15.3 · 15.5 · 4.2".to_owned(),
            TextStyle::NOTE,
        ),
        Block::Space(2.0),
        Block::Paragraph(NAMES.join("\n"), TextStyle::BODY),
    ])
}

fn loading() -> Table {
    let column = |head: &str, width| Column {
        head: head.to_owned(),
        width,
        align: Across::Start,
    };
    let mut rows = Vec::new();
    for group in 1..=3 {
        rows.push(Row::Section(format!("Row {group} of the tray")));
        for item in 1..=14 {
            rows.push(Row::Cells(vec![
                Cell::body(format!("{group}-{item}")),
                Cell::Beside(vec![
                    Cell::Mark(Mark::ALL[item % Mark::ALL.len()]),
                    Cell::Stack(vec![
                        Cell::Text(format!("drill {group}.{item}"), TextStyle::STRONG),
                        Cell::Text(
                            "goes into the slot with the same letter, read its length first"
                                .to_owned(),
                            TextStyle::NOTE,
                        ),
                    ]),
                ]),
                Cell::TickBox,
            ]));
        }
    }
    Table {
        columns: vec![
            column("slot", Width::Mm(20.0)),
            column("what", Width::Share(1.0)),
            column("there", Width::Mm(15.0)),
        ],
        rows,
        padding_mm: 1.6,
        gap_mm: Table::GAP,
    }
}

/// A section through a site, four times as large as life.
fn section() -> Drawing {
    let scale = 4.0;
    let mut figure = Drawing::new();
    let bone = Rect::new(at(-9.0, 5.6), 18.0, 15.0);
    figure.rect(bone, Paint::fill(Ink::Bone));
    figure.rect(
        Rect::new(at(-9.0, 3.4), 18.0, 2.2),
        Paint::fill(Ink::Tissue),
    );
    figure.line(
        at(-9.0, 5.6),
        at(9.0, 5.6),
        Stroke::new(Ink::Bone, LineWeight::Medium),
    );
    let guide = Rect::new(at(-9.0, -2.8), 18.0, 3.0);
    figure.rect(
        guide,
        Paint::both(Ink::Guide, Stroke::new(Ink::Guide, LineWeight::Thin)),
    );
    for side in [-1.0, 1.0] {
        let wall = Rect::between(at(side * 1.9, -4.2), at(side * 2.6, 0.6));
        figure.rect(wall, Paint::both(Ink::Metal, Stroke::OUTLINE));
    }
    let drill = [
        at(-1.45, -8.0),
        at(1.45, -8.0),
        at(1.45, 15.0),
        at(0.0, 15.9),
        at(-1.45, 15.0),
    ];
    figure.polygon(drill, Paint::both(Ink::Cut, Stroke::OUTLINE));
    let implant = Rect::new(at(-1.7, 6.0), 3.4, 9.3);
    figure.rect(
        implant,
        Paint::outline(Stroke::new(Ink::Implant, LineWeight::Medium).dashed(Dash::Dashed)),
    );
    figure.hatch(
        &[Rect::new(at(-2.6, -5.6), 5.2, 1.4).corners().to_vec()],
        0.4,
        45.0,
        Stroke::THIN,
    );
    figure.circle(
        at(0.4, 18.6),
        1.1,
        Paint::both(Ink::Danger, Stroke::OUTLINE),
    );
    let mut drawing = Drawing::new();
    drawing.add_group("site-35", "Section through site 35", figure.scaled(scale));
    let y = |mm: f64| mm * scale;
    let mut left = DimensionStack::new(Side::Left, -9.0 * scale);
    for (from, to, label) in [
        (-4.2, -3.7, "0.5"),
        (-3.7, -3.1, "0.6"),
        (-3.1, 0.6, "3.7"),
        (0.6, 6.0, "5.4"),
        (6.0, 15.9, "9.9"),
    ] {
        left.add(Span::new(y(from), y(to), label, TextStyle::BODY));
    }
    drawing.add(left.draw());
    let mut right = DimensionStack::new(Side::Right, 9.0 * scale);
    right.add(Span::new(y(-4.2), y(15.9), "20.6", TextStyle::HEADING).noted("set"));
    drawing.add(right.draw());
    drawing.text(
        at(0.0, -4.9 * scale),
        (Across::Middle, Along::Middle),
        TextStyle::STRONG,
        "stop",
    );
    drawing
}

/// The metadata of the sample.
pub(crate) fn about() -> pdf::PdfMetadata {
    pdf::PdfMetadata {
        title: "QF-0471, lower jaw, revision 7".to_owned(),
        made: "2031-05-06T07:08:09Z".parse().unwrap(),
    }
}
