//! The places in which surgeon, nurse and second checker sign.

use super::Source;
use super::pieces::SMALL;
use crate::drawing::TextStyle;
use crate::kit::Label;
use crate::sheet::{Block, Lane, Width, short_line};

/// Lines to sign on, with the names of the team.
pub(super) fn signatures(source: &Source<'_>) -> Block {
    let formatter = &source.formatter;
    let team = &source.case.team;
    let lane = |id: &str, name: &Option<Label>| {
        let name = name.as_ref().map_or_else(
            || formatter.word("sheet-name-not-entered"),
            ToString::to_string,
        );
        let role = formatter.word(id);
        let args = [("role", role.as_str()), ("name", &name)];
        Lane {
            width: Width::Share(1.0),
            blocks: vec![
                Block::Paragraph(formatter.text("sheet-signer", &args), SMALL.bold()),
                Block::Space(0.4),
                Block::Picture(short_line(52.0, &formatter.word("sheet-signature"))),
            ],
        }
    };
    let lines = Block::Beside(
        vec![
            lane("sheet-role-surgeon", &team.surgeon),
            lane("sheet-role-nurse", &team.nurse),
            lane("sheet-role-second", &team.second_checker),
        ],
        8.0,
    );
    let mut blocks = vec![Block::Space(1.6), lines];
    blocks.extend(ends(source));
    Block::Together(blocks)
}

/// The end of each desk's log, with room above; nothing where there is none.
pub(super) fn ends(source: &Source<'_>) -> Vec<Block> {
    if source.signed.heads.is_empty() {
        return Vec::new();
    }
    let heads = source.signed.heads.iter().map(ToString::to_string);
    let list = heads.collect::<Vec<_>>().join("; ");
    let record = source.formatter.text("sheet-record", &[("list", &list)]);
    vec![Block::Space(2.0), Block::Paragraph(record, TextStyle::NOTE)]
}
