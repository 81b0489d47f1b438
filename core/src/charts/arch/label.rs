//! The words at sites and pins.

use super::ArchOptions;
use super::column::Block;
use super::place::{Scene, side_of};
use super::tilt::tilt;
use crate::case::{Case, Site};
use crate::charts::mark_of;
use crate::dentition::{self, Side};
use crate::drawing::fonts;
use crate::drawing::{Across, Along, Drawing, Ink, LineWeight, Mark, Point, Stroke, TextStyle, at};
use crate::plan::Worksheet;

/// Subject of a label.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LabelSubject {
    /// The site of this index.
    Site(usize),
    /// The pin of this index.
    Pin(usize),
}

/// Words in a column, with what they are about.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    pub(super) about: LabelSubject,
    pub(super) side: Side,
    pub(super) mark: Option<Mark>,
    lines: Vec<(String, TextStyle)>,
    /// Its description for those who cannot see it.
    pub(super) name: String,
}

const TITLE: TextStyle = TextStyle::NOTE.bold().inked(Ink::Strong);
const WORDS: TextStyle = TextStyle::NOTE.inked(Ink::Strong);
const MORE: TextStyle = TextStyle::NOTE;

/// Size of a verdict's mark, mm.
const MARK: f64 = 3.0;
/// Level foot of a line, mm.
const FOOT: f64 = 2.0;
/// Between foot, mark and words, mm.
const SPACE: f64 = 1.0;
/// Width that a label takes beside its words, mm.
pub(super) const BESIDE: f64 = FOOT + MARK + 2.0 * SPACE;

/// The labels of all sites, then of all pins.
pub(super) fn labels(
    case: &Case,
    worksheet: &Worksheet,
    scene: &Scene,
    options: &ArchOptions<'_>,
) -> Vec<Label> {
    let texts = options.texts;
    let sites = case.sites.iter().zip(&scene.sites).enumerate();
    let pins = case.guide.pins.iter().zip(&scene.pins).enumerate();
    sites
        .map(|(index, (site, place))| {
            let side = side_of(place.platform, site.tooth);
            site_label(site, index, side, worksheet, scene, options)
        })
        .chain(pins.map(|(index, (pin, place))| {
            let name = texts.get("chart-pin", &[("name", pin.name.as_str())]);
            Label {
                about: LabelSubject::Pin(index),
                side: side_of(place.centre, pin.at),
                mark: None,
                lines: vec![(name.clone(), MORE)],
                name,
            }
        }))
        .collect()
}

fn site_label(
    site: &Site,
    index: usize,
    side: Side,
    worksheet: &Worksheet,
    scene: &Scene,
    options: &ArchOptions<'_>,
) -> Label {
    let texts = options.texts;
    let title = texts.get(
        "chart-site-title",
        &[
            ("tooth", &texts.get(site.tooth.class().text_id(), &[])),
            ("number", &options.notation.show(site.tooth)),
        ],
    );
    let here: Vec<_> = worksheet.findings_of(&site.id).collect();
    // The least severity is the worst. A site of which nothing was looked at is unknown.
    let worst = here
        .iter()
        .min_by_key(|finding| (finding.severity(), finding.verdict));
    let (mark, verdict) = match worst {
        None => (
            Mark::Unknown,
            texts.get("chart-verdict-nothing-checked", &[]),
        ),
        Some(finding) => {
            let verdict = texts.get(finding.word_id(), &[]);
            let words = (options.headline)(finding);
            let line = if words.trim().is_empty() {
                texts.get("severity-of-site", &[("verdict", &verdict)])
            } else {
                texts.get(
                    "chart-site-worst",
                    &[("verdict", &verdict), ("words", &words)],
                )
            };
            (mark_of(finding.severity()), line)
        }
    };
    let open = here.iter().filter(|f| f.severity().is_open()).count();
    let more = (open > 1).then(|| texts.counted("chart-site-more", &[("count", open - 1)], &[]));
    let mut lines = vec![(title, TITLE), (verdict, WORDS)];
    lines.extend(more.map(|more| (more, MORE)));
    lines.extend(tilt(site, scene, texts).map(|tilt| (tilt, MORE)));
    let said: Vec<&str> = lines[1..].iter().map(|(line, _)| line.as_str()).collect();
    let name = texts.get(
        "chart-part",
        &[
            (
                "what",
                &dentition::label(site.tooth, options.notation, texts),
            ),
            ("words", &said.join("; ")),
        ],
    );
    Label {
        about: LabelSubject::Site(index),
        side,
        mark: Some(mark),
        lines,
        name,
    }
}

impl Label {
    /// Width of its words on lines as they are, mm.
    pub(super) fn natural_width(&self) -> f64 {
        let widths = self.lines.iter().map(|(line, style)| style.width(line));
        widths.fold(0.0, f64::max)
    }

    /// The same with less on it: 1 leaves out what is more than the worst, 2 all but its title.
    pub(super) fn saying_less(mut self, less: usize) -> Self {
        let keep = [usize::MAX, 2, 1][less.min(2)];
        self.lines.truncate(keep);
        self
    }

    /// The same with its words in lines that are no wider than `width` mm.
    pub(super) fn wrapped(mut self, width: f64) -> Self {
        self.lines = self
            .lines
            .iter()
            .flat_map(|(line, style)| {
                fonts::wrap(line, style.face, style.size_mm, width)
                    .into_iter()
                    .map(|line| (line, *style))
            })
            .collect();
        self
    }

    /// Its block, about a place on the page.
    pub(super) fn block(&self, target: Point) -> Block {
        let lines = self.lines.iter().map(|(_, style)| style.line_height());
        let first = self.lines.first().map_or(MORE, |(_, style)| *style);
        Block {
            target,
            // A lone line is no higher than the mark beside it.
            height: lines.sum::<f64>().max(MARK),
            port: first.ascent() - first.cap_height() / 2.0,
        }
    }

    /// Draws its words with the mark, the line's end at `port`.
    pub(super) fn draw(&self, drawing: &mut Drawing, port: Point) {
        // On the patient's right words end at the mark, on the left they begin there.
        let (out, across) = match self.side {
            Side::Right => (-1.0, Across::End),
            Side::Left => (1.0, Across::Start),
        };
        let thin = Stroke::new(Ink::Strong, LineWeight::Hair);
        match self.mark {
            Some(mark) => {
                drawing.line(port, port + at(out * FOOT, 0.0), thin);
                let centre = port + at(out * (FOOT + SPACE + MARK / 2.0), 0.0);
                drawing.mark(centre, MARK, mark);
            }
            None => drawing.line(port, port + at(out * (BESIDE - SPACE), 0.0), thin),
        }
        let mut place = port + at(out * BESIDE, 0.0);
        for (index, (line, style)) in self.lines.iter().enumerate() {
            let baseline = if index == 0 {
                place.y + style.cap_height() / 2.0
            } else {
                place.y + style.line_height()
            };
            place.y = baseline;
            drawing.text(place, (across, Along::Baseline), *style, line);
        }
    }
}
