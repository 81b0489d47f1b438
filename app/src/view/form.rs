//! Forms: rows of fields that each change something of one thing, told at the field that asked.

use crate::context::CaseContext;
use crate::field::{self, Drafts, InCase, Named, New, Quantity};
use crate::look::reserved_rows;
use egui::Ui;
use traywright_core::kit::Label;

/// The thing that a form changes.
pub trait FormSubject {
    /// What it is.
    type Value;

    /// The state of the view that has the form.
    type State;

    /// It as it stands.
    fn value(&self) -> &Self::Value;

    /// The key of a field of it.
    fn key(&self, field: &str) -> String;

    /// Changes it. `what` is the id of what changes in words, `field` the field that asks.
    fn change(
        &self,
        cx: &mut CaseContext<'_, Self::State>,
        what: &str,
        field: &str,
        change: impl FnOnce(&mut Self::Value),
    );

    /// It in words, where it is one of several that have such fields: their names begin with it.
    fn one_of_several(&self) -> Option<&str> {
        None
    }
}

/// A field of a form.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'k> {
    /// The id of its label.
    pub label: &'k str,
    /// Its key.
    pub key: &'k str,
    /// The id of what it changes.
    pub what: &'k str,
}

/// A field of this label and key that changes this.
#[must_use]
pub const fn entry<'k>(label: &'k str, key: &'k str, what: &'k str) -> Entry<'k> {
    Entry { label, key, what }
}

/// A field for a number: where it stands in the case, how it is read and put there.
pub struct Number<T, V> {
    /// Its label and key, and what it changes.
    pub entry: Entry<'static>,
    /// Its place, of which the schema says the range.
    pub place: InCase,
    /// The number that stands there.
    pub get: fn(&T) -> Option<V>,
    /// Puts another one there.
    pub set: fn(&mut T, Option<V>),
}

/// A form for a thing.
pub struct Form<'f, 'c, S: FormSubject> {
    /// Where it is shown.
    pub ui: &'f mut Ui,
    /// What the view has.
    pub cx: &'f mut CaseContext<'c, S::State>,
    /// The thing.
    pub on: &'f S,
}

impl<'c, S: FormSubject> Form<'_, 'c, S> {
    /// A text without arguments.
    #[must_use]
    pub fn word(&self, id: &str) -> String {
        self.cx.word(id)
    }

    /// The same form, where it can be changed and where not.
    pub fn enabled<R>(&mut self, enabled: bool, add: impl FnOnce(&mut Form<'_, 'c, S>) -> R) -> R {
        let (cx, on) = (&mut *self.cx, self.on);
        let asked = self
            .ui
            .add_enabled_ui(enabled, |ui| add(&mut Form { ui, cx, on }));
        asked.inner
    }

    /// The same form in room for so many rows, which is taken whether they are there or not.
    pub fn reserved(&mut self, rows: u8, add: impl FnOnce(&mut Form<'_, 'c, S>)) {
        let (cx, on) = (&mut *self.cx, self.on);
        reserved_rows(self.ui, rows, |ui| add(&mut Form { ui, cx, on }));
    }

    /// Changes the thing.
    pub fn change(&mut self, what: &str, field: &str, change: impl FnOnce(&mut S::Value)) {
        self.on.change(self.cx, what, field, change);
    }

    /// What a field is called where its label is not enough: with the thing, one of several.
    #[must_use]
    pub fn name(&self, label: &str) -> Option<String> {
        let what = self.on.one_of_several()?;
        Some(
            self.cx
                .text("site-field-of", &[("what", what), ("field", label)]),
        )
    }

    /// A row with a field that is typed into.
    fn typed<R>(
        &mut self,
        label: &str,
        field: &str,
        add: impl FnOnce(&mut Ui, &mut Drafts, &str, &Named) -> R,
    ) -> R {
        let (key, name) = (self.on.key(field), self.name(label));
        let drafts = &mut self.cx.state.drafts;
        field::row(self.ui, label, |ui, named| {
            let named = name.map_or(named, |name| field::unseen_name(ui, &key, &name));
            add(ui, drafts, &key, &named)
        })
    }

    /// A row with a number that may be unknown; the new one when one was taken.
    pub fn number<V: Quantity>(
        &mut self,
        label: &str,
        field: &str,
        value: Option<V>,
        place: InCase,
    ) -> Option<New<Option<V>>> {
        self.typed(label, field, |ui, drafts, key, named| {
            field::number(ui, drafts, key, named, value, place)
        })
    }

    /// A row with a number that has to be there; the new one when one was taken.
    pub fn needed<V: Quantity>(
        &mut self,
        label: &str,
        field: &str,
        value: Option<V>,
        place: InCase,
    ) -> Option<V> {
        self.typed(label, field, |ui, drafts, key, named| {
            field::needed(ui, drafts, key, named, value, place)
        })
    }

    /// A row with a number that may be unknown, as it is declared.
    pub fn declared<V: Quantity>(&mut self, number: &Number<S::Value, V>) {
        let Entry { label, key, what } = number.entry;
        let (label, value) = (self.word(label), (number.get)(self.on.value()));
        if let Some(New(new)) = self.number(&label, key, value, number.place) {
            self.change(what, key, |thing| (number.set)(thing, new));
        }
    }

    /// A row with a name or code that may be left out.
    pub fn label(
        &mut self,
        Entry { label, key, what }: Entry<'_>,
        value: Option<&Label>,
        set: impl FnOnce(&mut S::Value, Option<Label>),
    ) {
        let label = self.word(label);
        let new = self.typed(&label, key, |ui, drafts, key, named| {
            field::label(ui, drafts, key, named, value)
        });
        if let Some(New(new)) = new {
            self.change(what, key, |thing| set(thing, new));
        }
    }

    /// A row with a name or code that has to be there; the new one when one was taken.
    pub fn needed_label(&mut self, label: &str, field: &str, value: &Label) -> Option<Label> {
        let label = self.word(label);
        let New(new) = self.typed(&label, field, |ui, drafts, key, named| {
            field::label(ui, drafts, key, named, Some(value))
        })?;
        if new.is_none() {
            let needed = self.word("field-empty");
            self.cx.state.drafts.refuse(&self.on.key(field), needed);
        }
        new
    }

    /// A row with words on one line; the new ones when they were taken.
    pub fn text(&mut self, label: &str, field: &str, value: &str) -> Option<String> {
        let label = self.word(label);
        self.typed(&label, field, |ui, drafts, key, named| {
            field::text(ui, drafts, key, named, value)
        })
    }

    /// A row with a choice that is always made; the new one when one was made.
    pub fn choice<V: PartialEq + Clone>(
        &mut self,
        label: &str,
        field: &str,
        value: &V,
        offered: &[(V, String)],
    ) -> Option<V> {
        let label = self.word(label);
        let (key, name) = (self.on.key(field), self.name(&label));
        let (drafts, name) = (&self.cx.state.drafts, name.as_ref().unwrap_or(&label));
        field::row(self.ui, &label, |ui, _| {
            field::choice_known(ui, drafts, &key, name, value, offered)
        })
    }

    /// A row with a choice that is always made and changes the thing.
    pub fn pick<V: PartialEq + Clone>(
        &mut self,
        Entry { label, key, what }: Entry<'_>,
        value: &V,
        offered: &[(V, String)],
        set: impl FnOnce(&mut S::Value, V),
    ) {
        if let Some(new) = self.choice(label, key, value, offered) {
            self.change(what, key, |thing| set(thing, new));
        }
    }

    /// A row with a choice that may be `open`; the new one when one was made.
    pub fn open_choice<V: PartialEq + Clone>(
        &mut self,
        (label, field, open): (&str, &str, &str),
        value: Option<&V>,
        offered: &[(V, String)],
    ) -> Option<New<Option<V>>> {
        let (label, open) = (self.word(label), self.word(open));
        let (key, drafts) = (self.on.key(field), &self.cx.state.drafts);
        field::row(self.ui, &label, |ui, _| {
            field::choice(ui, drafts, &key, &label, &open, value, offered)
        })
    }

    /// A row with a choice that may be `open` and changes the thing.
    pub fn pick_open<V: PartialEq + Clone>(
        &mut self,
        Entry { label, key, what }: Entry<'_>,
        open: &str,
        value: Option<&V>,
        offered: &[(V, String)],
        set: impl FnOnce(&mut S::Value, Option<V>),
    ) {
        if let Some(New(new)) = self.open_choice((label, key, open), value, offered) {
            self.change(what, key, |thing| set(thing, new));
        }
    }
}
