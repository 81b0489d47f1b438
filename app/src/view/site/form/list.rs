//! A list of things that were measured at a site: each with its fields, how deep it was measured,
//! whether that still holds, and a button that takes it away.

use super::SiteForm;
use super::common::{small_button, stale, title};
use crate::field::{InCase, New};
use crate::look::caption;
use crate::view::form::{Form, FormSubject};
use crate::view::site::Context;
use crate::view::site::here::Here;
use egui::RichText;
use traywright_core::case::{MeasuredAt, Site};
use traywright_core::kit::Label;
use traywright_core::measure::Length;

/// A thing that was measured at a site, as the form lists it.
pub(super) trait Listed: Sized + 'static {
    /// The id of the list's title.
    const TITLE: &'static str;
    /// The id of what is said of the list.
    const ABOUT: Option<&'static str>;
    /// What the keys of its fields begin with.
    const KEY: &'static str;
    /// Where it has a head of its own: the key that is refused at when the thing as a whole changes.
    const HEAD: Option<&'static str>;
    /// The id of a change of one.
    const CHANGED: &'static str;
    /// The id of one taken away.
    const REMOVED: &'static str;

    /// The list.
    fn list(site: &Site) -> &[Self];
    /// The list, to be changed.
    fn list_mut(site: &mut Site) -> &mut Vec<Self>;
    /// It in words.
    fn name(&self, here: &Here<'_>) -> String;
    /// What stands beside its name.
    fn aside(&self, _: &Here<'_>) -> Option<String> {
        None
    }
    /// What the site was like when it was measured.
    fn measured_at(&mut self) -> &mut MeasuredAt;
    /// It was measured at the site as it stands.
    fn measure(&mut self, here: &Here<'_>) {
        *self.measured_at() = here.now();
    }
    /// By that person's word it is still true at the site as it stands.
    fn confirm(&mut self, here: &Here<'_>, by: &Label) {
        let then = self.measured_at();
        *then = then.confirmed(&here.now(), by.clone(), here.purpose());
    }
    /// It was measured so far below the platform.
    fn set_down_to(&mut self, down_to_mm: Option<Length>) {
        self.measured_at().down_to_mm = down_to_mm;
    }
    /// Shows its fields.
    fn fields(form: &mut ItemForm<'_, '_, '_, '_, Self>);
}

/// One of the list.
pub(super) struct Item<'i, 'h, T> {
    here: &'i Here<'h>,
    index: usize,
    thing: &'i T,
    /// The key of its first field, which those of the others begin with.
    key: String,
    /// It in words.
    what: String,
}

impl<'i, 'h, T: Listed> Item<'i, 'h, T> {
    /// The thing at this place in the list.
    pub(super) fn new(here: &'i Here<'h>, index: usize, key: String) -> Self {
        let thing = &T::list(here.site)[index];
        Self {
            here,
            index,
            thing,
            key,
            what: thing.name(here),
        }
    }
}

impl<T: Listed> FormSubject for Item<'_, '_, T> {
    type Value = T;
    type State = crate::view::site::State;

    fn value(&self) -> &T {
        self.thing
    }

    fn key(&self, field: &str) -> String {
        self.here.key(&self.field(field))
    }

    fn change(&self, cx: &mut Context<'_>, what: &str, field: &str, change: impl FnOnce(&mut T)) {
        self.here.change(cx, what, &self.field(field), |site| {
            change(&mut T::list_mut(site)[self.index]);
        });
    }

    fn one_of_several(&self) -> Option<&str> {
        Some(&self.what)
    }
}

impl<T> Item<'_, '_, T> {
    fn field(&self, field: &str) -> String {
        match field {
            "" => self.key.clone(),
            field => format!("{}.{field}", self.key),
        }
    }
}

/// A form for one of the list.
pub(super) type ItemForm<'f, 'c, 'i, 'h, T> = Form<'f, 'c, Item<'i, 'h, T>>;

impl<'f, 'c, 'i, 'h, T: Listed> ItemForm<'f, 'c, 'i, 'h, T> {
    /// The thing.
    pub(super) fn thing(&self) -> &'f T
    where
        'i: 'f,
    {
        self.on.thing
    }

    /// The site.
    pub(super) fn site(&self) -> &'i Here<'h> {
        self.on.here
    }

    /// A row with a length that was measured, now where a new one is taken.
    pub(super) fn measured(
        &mut self,
        label: &str,
        field: &str,
        value: (Length, InCase),
        set: impl FnOnce(&mut T, Length),
    ) {
        let here = self.on.here;
        self.one_of(label, field, value, |thing, new| {
            set(thing, new);
            thing.measure(here);
        });
    }

    /// A row with one of several lengths that were measured: a new one says nothing of the others.
    pub(super) fn one_of(
        &mut self,
        label: &str,
        field: &str,
        (value, place): (Length, InCase),
        set: impl FnOnce(&mut T, Length),
    ) {
        let label = self.word(label);
        if let Some(new) = self.needed(&label, field, Some(value), place) {
            self.change(T::CHANGED, field, |thing| set(thing, new));
        }
    }

    /// The same for the only length of a thing, which its row is called by.
    pub(super) fn measured_itself(
        &mut self,
        (value, place): (Length, InCase),
        set: impl FnOnce(&mut T, Length),
    ) {
        let on = self.on;
        let new = self.here().needed(&on.what, &on.key, Some(value), place);
        if let Some(new) = new {
            self.take("", new, set);
        }
    }

    fn take(&mut self, field: &str, new: Length, set: impl FnOnce(&mut T, Length)) {
        let here = self.on.here;
        self.change(T::CHANGED, field, |thing| {
            set(thing, new);
            thing.measure(here);
        });
    }

    /// A row with how far below the platform it was measured.
    pub(super) fn down_to(&mut self, measured_at: &MeasuredAt) {
        const PLACE: InCase = InCase("sites[].walls[].measured_at.down_to_mm");
        let label = self.cx.text("site-down-to", &[("what", &self.on.what)]);
        let key = self.on.field("down_to");
        let new = self
            .here()
            .number(&label, &key, measured_at.down_to_mm, PLACE);
        if let Some(New(new)) = new {
            self.change(T::CHANGED, "down_to", |thing| thing.set_down_to(new));
        }
    }

    /// Says that it was measured before the site was moved, where it was.
    pub(super) fn stale(&mut self, is_stale: bool) {
        let here = self.on.here;
        if let Some(by) = is_stale
            .then(|| stale(self.ui, self.cx, &self.on.what, true))
            .flatten()
        {
            self.whole("site-what-confirmed", |site, n| {
                T::list_mut(site)[n].confirm(here, &by);
            });
        }
    }

    /// A change that is no field's.
    fn whole(&mut self, what: &str, change: impl FnOnce(&mut Site, usize)) {
        let Item {
            here, index, key, ..
        } = self.on;
        let field = T::HEAD.unwrap_or(key);
        here.change(self.cx, what, field, |site| change(site, *index));
    }

    fn remove(&mut self) {
        let name = self.cx.text("site-remove-what", &[("what", &self.on.what)]);
        if small_button(self.ui, self.cx.word("site-remove"), &name) {
            // The keys of those behind it name other things now.
            let list = self.on.here.key(&format!("{}.", T::KEY));
            self.cx.state.drafts.forget_under(&list);
            self.whole(T::REMOVED, |site, n| {
                T::list_mut(site).remove(n);
            });
        }
    }

    /// The same form for the site.
    fn here(&mut self) -> SiteForm<'_, 'c, 'h> {
        let on = self.on.here;
        Form {
            ui: self.ui,
            cx: self.cx,
            on,
        }
    }
}

/// Shows the list. `stale` tells of each thing whether it is.
pub(super) fn ui<T: Listed>(form: &mut SiteForm<'_, '_, '_>, stale: &[bool]) {
    let Form { ui, cx, on: here } = form;
    title(ui, &cx.word(T::TITLE));
    if let Some(about) = T::ABOUT {
        caption(ui, cx.word(about));
    }
    let here: &Here<'_> = here;
    for (n, thing) in T::list(here.site).iter().enumerate() {
        let item = Item::new(here, n, format!("{}.{n}", T::KEY));
        if T::HEAD.is_some() {
            ui.horizontal(|ui| {
                ui.label(RichText::new(&item.what).strong());
                if let Some(aside) = thing.aside(here) {
                    ui.label(RichText::new(aside).weak());
                }
                Form { ui, cx, on: &item }.remove();
            });
        }
        let mut form = Form { ui, cx, on: &item };
        T::fields(&mut form);
        form.stale(stale.get(n) == Some(&true));
        if T::HEAD.is_none() {
            form.remove();
        }
    }
}
