//! The entries of one list as a table: a row an entry, a column a field.

use super::{RULES, entry, formatter};
use crate::look::{Font, Theme, aside, part_heading};
use crate::view::kit::Context;
use egui::{Align, Label, Layout, RichText, ScrollArea, Ui};
use egui_extras::{Column, TableBuilder};
use traywright_core::drawing::Ink;
use traywright_core::kit::{Field, Kit, LISTS};
use traywright_core::wording::{KitFormatter, begin};

/// The table of a list, kept until the case or the list changes.
#[derive(Debug)]
pub(super) struct CachedTable {
    of: (u64, usize),
    table: Table,
}

/// A table in words.
#[derive(Debug, Default)]
struct Table {
    columns: Vec<String>,
    rows: Vec<Row>,
}

/// A row: an entry.
#[derive(Debug)]
struct Row {
    id: String,
    name: String,
    /// A cell for each column; nothing where the entry has no such field.
    cells: Vec<Option<String>>,
}

/// Fields that are elsewhere: in the first column, or only among all fields of an entry.
const ELSEWHERE: &[&str] = &["id", "name", "source", "note"];

/// Widths of the first column and of all others, heights of head and rows, points: of the implants, the labelled
/// length is whole in the smallest window.
const NAME: f32 = 168.0;
const CELL: f32 = 96.0;
const HEAD: f32 = 36.0;
const ROW: f32 = 27.0;

/// The greatest share of the room for the table where all fields of an entry are below it.
const SHARE: f32 = 0.52;

impl Table {
    fn of(say: &KitFormatter<'_>, list: &str) -> Self {
        let kit: &Kit = say.kit;
        let entries: Vec<(String, Vec<Field>)> = kit
            .ids(list)
            .into_iter()
            .map(|id| {
                let fields = kit.fields(list, &id);
                (id, fields)
            })
            .collect();
        let mut columns: Vec<Vec<String>> = Vec::new();
        for (_, fields) in &entries {
            let mut after = 0;
            for field in fields.iter().filter(|field| is_cell(field)) {
                // A field that only later entries have goes where it stands in them.
                let at = columns.iter().position(|keys| *keys == field.keys);
                if at.is_none() {
                    columns.insert(after, field.keys.clone());
                }
                after = at.unwrap_or(after) + 1;
            }
        }
        // The true length stands before the one that is only printed on a label.
        columns.sort_by_key(|keys| !keys.iter().any(|key| key == "platform_to_apex_mm"));
        let rows = entries.iter().map(|(id, fields)| {
            let cell = |keys: &Vec<String>| {
                let field = fields.iter().find(|field| field.keys == *keys)?;
                Some(say.value(keys, &field.value))
            };
            Row {
                id: id.clone(),
                name: say.entry(list, id),
                cells: columns.iter().map(cell).collect(),
            }
        });
        Self {
            rows: rows.collect(),
            columns: columns.iter().map(|keys| begin(&say.field(keys))).collect(),
        }
    }
}

/// True if a field has a column: not what is shown elsewhere, nor anything of a list in the entry.
fn is_cell(field: &Field) -> bool {
    let numbered = |key: &String| key.parse::<u32>().is_ok();
    let first = field.keys.first().map_or("", String::as_str);
    !ELSEWHERE.contains(&first) && !field.keys.iter().any(numbered)
}

/// Shows the table, and all fields of the entry that is looked at.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let document = cx.document;
    let kit = &document.case().kit;
    let say = formatter(cx, kit);
    let at = cx.own.list;
    let list = LISTS.get(at).copied().unwrap_or(RULES);
    part_heading(ui, begin(&say.list(list)));
    if list == RULES {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            entry::ui(ui, &say, list, kit.id.as_str());
        });
        return;
    }
    let of = (document.generation(), at);
    let kept = match cx.own.table.take() {
        Some(kept) if kept.of == of => kept,
        _ => CachedTable {
            of,
            table: Table::of(&say, list),
        },
    };
    if kept.table.rows.is_empty() {
        aside(ui, cx.word("kit-view-none"));
    } else {
        let chosen = chosen(cx, &kept.table);
        table_ui(ui, cx, &kept.table, &chosen);
        ui.add_space(8.0);
        part_heading(ui, say.entry(list, &chosen));
        ScrollArea::vertical()
            .id_salt(("kit-entry", list))
            .auto_shrink(false)
            .show(ui, |ui| entry::ui(ui, &say, list, &chosen));
    }
    cx.own.table = Some(kept);
}

/// The entry that is looked at: the first where none was chosen.
fn chosen(cx: &Context<'_>, table: &Table) -> String {
    let there = |id: &&String| table.rows.iter().any(|row| row.id == **id);
    let chosen = cx.own.entry.as_ref().filter(there);
    let first = || table.rows.first().map(|row| row.id.clone());
    chosen.cloned().or_else(first).unwrap_or_default()
}

fn table_ui(ui: &mut Ui, cx: &mut Context<'_>, table: &Table, chosen: &str) {
    let soft = Theme::of(ui).fill(Ink::Soft);
    let none = cx.word("kit-view-blank");
    let most = ui.available_height() * SHARE;
    let head = cx.word("kit-view-name");
    ScrollArea::horizontal()
        .id_salt("kit-table")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            TableBuilder::new(ui)
                .id_salt("kit-table-rows")
                .max_scroll_height(most)
                .min_scrolled_height(0.0)
                .cell_layout(Layout::left_to_right(Align::Center))
                .column(Column::exact(NAME))
                .columns(Column::exact(CELL).clip(true), table.columns.len())
                .header(HEAD, |mut row| {
                    for name in std::iter::once(&head).chain(&table.columns) {
                        row.col(|ui| {
                            let name = Font::Caption.text(name).color(soft);
                            ui.add(Label::new(name).wrap());
                        });
                    }
                })
                .body(|body| {
                    body.rows(ROW, table.rows.len(), |mut row| {
                        let one = &table.rows[row.index()];
                        row.col(|ui| {
                            let here = one.id == chosen;
                            let name = ui.selectable_label(here, one.name.as_str());
                            if name.clicked() {
                                cx.own.entry = Some(one.id.clone());
                            }
                        });
                        for cell in &one.cells {
                            row.col(|ui| {
                                let text = match cell {
                                    Some(text) => RichText::new(text),
                                    None => RichText::new(&none).color(soft),
                                };
                                ui.add(Label::new(text).truncate());
                            });
                        }
                    });
                });
        });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo_kit;
    use traywright_core::text::Texts;

    #[test]
    fn every_single_value_of_an_entry_has_its_cell_in_its_own_column() {
        let kit = demo_kit();
        let say = KitFormatter {
            texts: Texts::english(),
            kit: &kit,
        };
        for list in LISTS {
            let table = Table::of(&say, list);
            assert_eq!(table.rows.len(), kit.ids(list).len(), "{list}");
            for row in &table.rows {
                let fields = kit.fields(list, &row.id);
                let wanted: Vec<&Field> = fields.iter().filter(|field| is_cell(field)).collect();
                let filled = row.cells.iter().flatten().count();
                assert_eq!(filled, wanted.len(), "{list} {}", row.id);
                for field in wanted {
                    let name = begin(&say.field(&field.keys));
                    let at = table.columns.iter().position(|column| *column == name);
                    let cell = row.cells[at.unwrap()].clone();
                    assert_eq!(cell, Some(say.value(&field.keys, &field.value)), "{name}");
                }
            }
        }
    }

    #[test]
    fn a_drill_shows_its_figures_with_their_units() {
        let kit = demo_kit();
        let say = KitFormatter {
            texts: Texts::english(),
            kit: &kit,
        };
        let table = Table::of(&say, "drills");
        let row = table.rows.iter().find(|row| row.id == "tip-257").unwrap();
        assert!(row.cells.contains(&Some("2.57 mm".to_owned())), "{row:?}");
        assert_eq!(table.columns[0], "Kind");
    }
}
