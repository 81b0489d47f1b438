//! Differences of the live kit from the case's copy, and the effect of taking each over. Each is
//! tried on the whole case beforehand, so that nobody takes over what they did not see.

use crate::desk::Document;
use crate::desk::refused_change;
use traywright_core::case::{
    Difference, DifferenceKind, Edit, ValidCase, apply, kit_differences, taking,
};
use traywright_core::dentition::Notation;
use traywright_core::kit::{Kit, LISTS};
use traywright_core::plan::{Severity, Worksheet, changed_settings, work_out};
use traywright_core::text::Texts;
use traywright_core::wording::{Formatter, KitFormatter};

/// All differences, kept until the case or the live kit changes.
#[derive(Debug)]
pub(super) struct Compared {
    of: (u64, Notation),
    live: Kit,
    /// Entry by entry.
    pub(super) rows: Vec<Row>,
    /// All at once; nothing where there are none.
    pub(super) all: Option<Replacement>,
}

/// One difference.
#[derive(Debug)]
pub(super) struct Row {
    /// The kind of difference.
    pub(super) kind: DifferenceKind,
    /// The list, in words; nothing for what has no entries.
    pub(super) list: Option<String>,
    /// The entry, in words.
    pub(super) name: String,
    /// Field by field: its name, what the copy has and what the live kit has.
    pub(super) fields: Vec<(String, Option<String>, Option<String>)>,
    /// The effect of taking it over.
    pub(super) taking: Replacement,
}

/// The effect of taking something over.
#[derive(Debug)]
pub(super) struct Replacement {
    /// The edit that takes it over.
    pub(super) edit: Edit,
    pub(super) outcome: Outcome,
}

/// The outcome of it.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// The case would not be sound, and why.
    Refused(String),
    /// Nothing that anyone approved.
    NoFigure,
    /// Figures change.
    Figures {
        /// The steps whose setting, gauge figure or cut changes, a line each.
        settings: Vec<String>,
        /// Numbers of findings that are short or unknown, before and after.
        open: (usize, usize),
    },
}

impl Compared {
    /// The differences of a case from a live kit, found anew only where `kept` is old.
    pub(super) fn of(
        kept: Option<Self>,
        document: &Document,
        live: &Kit,
        notation: Notation,
    ) -> Self {
        let of = (document.generation(), notation);
        match kept {
            Some(kept) if kept.of == of && kept.live == *live => kept,
            _ => {
                let case = document.case();
                let differences = kit_differences(case, live);
                let tried = |kit| try_on(document, taking(case, kit, live), notation);
                let all = (!differences.is_empty()).then(|| tried(live.for_case(case)));
                let row = |difference: &Difference| {
                    let taking = tried(case.kit.with_taken(difference, live));
                    Row::of(&case.kit, live, difference, taking)
                };
                Self {
                    of,
                    rows: differences.iter().map(row).collect(),
                    live: live.clone(),
                    all,
                }
            }
        }
    }
}

impl Row {
    fn of(copy: &Kit, live: &Kit, difference: &Difference, taking: Replacement) -> Self {
        let texts = Texts::english();
        let (old, new) = (
            KitFormatter { texts, kit: copy },
            KitFormatter { texts, kit: live },
        );
        let there = match difference.kind {
            DifferenceKind::Gone => old,
            DifferenceKind::Added | DifferenceKind::Changed => new,
        };
        let fields = copy.field_changes(difference.list, &difference.id, live);
        let fields = fields.into_iter().map(|change| {
            let value = |say: KitFormatter<'_>, value: Option<String>| {
                value.map(|value| say.value(&change.keys, &value))
            };
            let both = (
                value(old, change.old.clone()),
                value(new, change.new.clone()),
            );
            (old.field(&change.keys), both.0, both.1)
        });
        // Of an entry that is there only once nothing is to be compared.
        let compared = difference.kind == DifferenceKind::Changed;
        Self {
            kind: difference.kind,
            list: LISTS
                .contains(&difference.list)
                .then(|| there.list(difference.list)),
            name: there.entry(difference.list, &difference.id),
            fields: if compared {
                fields.collect()
            } else {
                Vec::new()
            },
            taking,
        }
    }
}

/// Tries an edit that takes a copy on the whole case; the case itself stays as it is.
fn try_on(document: &Document, edit: Edit, notation: Notation) -> Replacement {
    let formatter = document.formatter(notation);
    let outcome = match apply(document.case(), std::slice::from_ref(&edit)) {
        Err(refused) => Outcome::Refused(refused_change(&formatter, &refused)),
        Ok(changed) if changed.fingerprint() == document.case().fingerprint() => Outcome::NoFigure,
        Ok(changed) => figures(document, &changed, notation),
    };
    Replacement { edit, outcome }
}

fn figures(document: &Document, changed: &ValidCase, notation: Notation) -> Outcome {
    let (before, after) = (document.worksheet(), work_out(changed));
    let old = document.formatter(notation);
    let new = Formatter::english(changed, notation);
    let texts = old.texts;
    let said = |formatter: &Formatter<'_>, step| {
        let set = formatter.setting_in_full(step);
        let cut = formatter.cut(step);
        match formatter.gauge_figure(step) {
            Some(gauge) => texts.get(
                "kit-view-setting",
                &[("set", &set), ("gauge", &gauge), ("cut", &cut)],
            ),
            None => texts.get("kit-view-setting-bare", &[("set", &set), ("cut", &cut)]),
        }
    };
    let settings = changed_settings(before, &after)
        .into_iter()
        .filter_map(|one| {
            let step = one.before.or(one.after)?;
            let none = || texts.get("kit-view-no-step", &[]);
            let old_set = one.before.map_or_else(none, |step| said(&old, step));
            let new_set = one.after.map_or_else(none, |step| said(&new, step));
            let args = [
                ("site", old.site(one.site)),
                ("step", old.step(one.site, &step.id)),
                ("old", old_set),
                ("new", new_set),
            ];
            let args = args.each_ref().map(|(name, value)| (*name, value.as_str()));
            Some(texts.get("kit-view-setting-changes", &args))
        })
        .collect();
    Outcome::Figures {
        settings,
        open: (open(before), open(&after)),
    }
}

/// Number of findings that are short or unknown.
fn open(worksheet: &Worksheet) -> usize {
    let findings = worksheet.findings.iter();
    findings
        .map(traywright_core::plan::Finding::severity)
        .filter(|severity| Severity::is_open(*severity))
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case, demo_kit};
    use traywright_core::measure::Length;

    fn two_molars() -> Document {
        let (_, bytes) = DEMOS[1];
        Document::unsaved(demo_case(bytes))
    }

    fn compared(live: &Kit) -> Compared {
        Compared::of(None, &two_molars(), live, Notation::Iso)
    }

    #[test]
    fn the_same_kit_differs_in_nothing() {
        let same = compared(&demo_kit());
        assert!(same.rows.is_empty() && same.all.is_none());
    }

    #[test]
    fn a_higher_sleeve_tells_each_setting_that_it_changes() {
        let mut live = demo_kit();
        for sleeve in &mut live.master_sleeves {
            sleeve.height_mm += Length::from_um(200);
        }
        let compared = compared(&live);
        let row = &compared.rows[0];
        assert_eq!(row.kind, DifferenceKind::Changed);
        let (name, old, new) = &row.fields[0];
        assert_eq!((row.fields.len(), name.as_str()), (1, "height"));
        assert_ne!(old, new);
        let document = two_molars();
        match &row.taking.outcome {
            Outcome::Figures { settings, .. } => {
                let worksheet = document.worksheet();
                let say = document.formatter(Notation::Iso);
                let step = &worksheet.sites[0].steps[0];
                let line = &settings[0];
                assert!(line.contains(&say.setting(step)), "{line}");
                assert!(line.contains(&say.site(&worksheet.sites[0].id)), "{line}");
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn another_source_changes_no_figure_and_a_drill_that_is_gone_is_refused() {
        let mut live = demo_kit();
        let used = two_molars().case().sites[0].steps[0].drill.clone();
        live.drills.retain(|drill| drill.id != used);
        for stop in &mut live.stops {
            stop.source = Some("measured anew".to_owned());
        }
        let compared = compared(&live);
        for row in &compared.rows {
            match row.kind {
                DifferenceKind::Gone => {
                    assert!(matches!(row.taking.outcome, Outcome::Refused(_)), "{row:?}");
                }
                _ if row.list.as_deref() == Some("stops") => {
                    assert_eq!(row.taking.outcome, Outcome::NoFigure);
                }
                _ => {}
            }
        }
        let gone = |row: &&Row| row.kind == DifferenceKind::Gone;
        assert_eq!(compared.rows.iter().filter(gone).count(), 1);
        let all = compared.all.unwrap();
        assert!(matches!(all.outcome, Outcome::Refused(_)));
    }
}
