//! Things that go on the tray and things in stock.

use super::Formatter;
use crate::kit::SlotKind;
use crate::plan::{
    Actionable, DrillSetup, Fits, Known, LoadItem, ServedPlace, StockLine, Worksheet,
};

/// One thing for the tray, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadItemText {
    /// The kind of thing: "drill".
    pub kind: String,
    /// The thing to take: "twist 3.1, slot A2".
    pub take: String,
    /// Its marking.
    pub marking: Option<String>,
    /// The stop with its setting, or the mark to drill to; nothing for what has neither.
    pub setting: Option<String>,
    /// The bench check of each step served, each once.
    pub bench: Vec<String>,
    /// Its slot, or that there is none.
    pub slot: String,
    /// The steps and sites that it serves.
    pub serves: String,
    /// That it stays unopened until called for.
    pub unopened: Option<String>,
    /// Re-sets of its stop in surgery.
    pub set_anew: Vec<String>,
}

impl Formatter<'_> {
    /// One thing for the tray.
    #[must_use]
    pub fn load(&self, item: &LoadItem, worksheet: &Worksheet) -> LoadItemText {
        let slot = self.slot(item);
        let same = |other: &&LoadItem| (other.kind, &other.entry) == (item.kind, &item.entry);
        let take = if worksheet.loading.iter().filter(same).count() > 1 {
            // Equal pieces are told apart by where they lie. A number here would not be the one
            // that a reading names: which piece carries which setting is what happened.
            self.text(
                "load-one-of",
                &[("name", &self.item(item)), ("slot", &slot)],
            )
        } else {
            self.item(item)
        };
        let mut bench: Vec<String> = Vec::new();
        let to_use = item.set.as_ref();
        if let Some(set) = to_use.filter(|on| on.fits == Fits::AsFarAsKnown) {
            for beyond in &set.bench {
                let said = self.bench(beyond, set.mark.as_ref());
                if !bench.contains(&said) {
                    bench.push(said);
                }
            }
        }
        let set = item.set.as_ref();
        LoadItemText {
            kind: self.kind(item.kind),
            take,
            marking: self.marking(&item.marking),
            setting: set.and_then(|set| self.set_on(set)),
            bench,
            slot,
            serves: self
                .joined("load-list", item.serves.iter().map(|one| self.serves(one)))
                .unwrap_or_default(),
            unopened: item.unopened.then(|| self.word("load-unopened")),
            set_anew: self.set_anew(item, worksheet),
        }
    }

    /// The kind of thing: "drill".
    #[must_use]
    pub fn kind(&self, kind: SlotKind) -> String {
        self.word(&format!("kind-{}", kind.key()))
    }

    /// The figure to act on, with its unit: "21.7 mm"; nothing where there is none or it is not set.
    #[must_use]
    pub fn actionable_figure(&self, item: &LoadItem) -> Option<String> {
        let actionable = Actionable::of_item(item);
        let figure = actionable?.figure(&self.case.kit).large()?;
        Some(self.set_length_with_unit(&Known::Is(figure)))
    }

    fn set_anew(&self, item: &LoadItem, worksheet: &Worksheet) -> Vec<String> {
        let mut loading = worksheet.loading.iter();
        let place = loading.position(|other| std::ptr::eq(other, item));
        let resets = place.into_iter().flat_map(|n| worksheet.resets_of(n));
        resets.map(|one| self.reset_ahead(one, worksheet)).collect()
    }

    fn set_on(&self, set: &DrillSetup) -> Option<String> {
        let refused = set.fits == Fits::No && set.set.value().is_some();
        let Some(stop) = &set.stop else {
            if refused {
                return Some(self.word("setting-does-not-fit"));
            }
            let mark = set.mark.as_ref().map(|mark| self.mark_edge(mark));
            return mark.or_else(|| Some(self.set_length(&set.set)));
        };
        let stop = self.stop(stop);
        if set.set.value().is_none() {
            return Some(self.text("load-stop-none", &[("stop", &stop)]));
        }
        if refused {
            return Some(self.text("load-stop-does-not-fit", &[("stop", &stop)]));
        }
        let shown = self.set_length_with_unit(&set.set);
        let args = [("stop", stop.as_str()), ("set", shown.as_str())];
        Some(match &set.gauge {
            Known::Is(_) => {
                let gauge = self.set_length_with_unit(&set.gauge);
                let [stop, set] = args;
                self.text("load-stop-gauge", &[stop, set, ("gauge", &gauge)])
            }
            Known::Unknown(_) => self.text("load-stop", &args),
        })
    }

    fn serves(&self, serves: &ServedPlace) -> String {
        let Some(site) = &serves.site else {
            return self.word("load-whole-case");
        };
        let place = self.site(site);
        match &serves.step {
            None => self.text("load-serves-site", &[("site", &place)]),
            Some(step) => {
                let step = self.step(site, step);
                self.text("load-serves-step", &[("step", &step), ("site", &place)])
            }
        }
    }

    /// Numbers of something that are needed and there: "twist 3.1: 3 needed, 2 available, 1 missing".
    #[must_use]
    pub fn stock(&self, line: &StockLine) -> String {
        let short = line.needed.saturating_sub(line.have);
        let id = match line.with_resets {
            _ if short == 0 => "stock-enough",
            _ if line.is_unknown() => "stock-unknown",
            Some(_) => "stock-with-resets",
            None => "stock-too-few",
        };
        self.counted(
            id,
            &[
                ("needed", line.needed),
                ("have", line.have),
                ("short", short),
                ("resets", line.with_resets.unwrap_or_default()),
            ],
            &[("name", line.name.as_str())],
        )
    }
}
