//! Origins of the terms of a figure.

use super::Formatter;
use crate::plan::{Field, Origin, Place, SitePlace};

impl Formatter<'_> {
    /// The origin of a term.
    #[must_use]
    pub fn origin(&self, origin: &Origin) -> String {
        match origin {
            Origin::Case(field) => match &field.at {
                Place::Site(site, _) => self.text("origin-site", &[("site", &self.site(site))]),
                Place::Limit(limit) => self.limit_origin(limit.key()),
                _ => self.word("origin-case"),
            },
            Origin::Kit { list, entry, field } => {
                let entry = self.kit_entry(list, entry, field);
                self.text("origin-kit", &[("entry", &entry)])
            }
            Origin::Figure(figure) => self.figure_origin(figure),
            Origin::Rule(_) => self.word("origin-worked-out"),
        }
    }

    fn limit_origin(&self, key: &str) -> String {
        self.text("origin-limit", &[("limit", &self.limit_name(key))])
    }

    fn figure_origin(&self, figure: &Field) -> String {
        let Place::Site(site, place) = &figure.at else {
            return self.word("origin-worked-out");
        };
        let at = self.site(site);
        match place {
            SitePlace::Step(step) => {
                let step = self.step(site, step);
                self.text("origin-figure-step", &[("step", &step), ("site", &at)])
            }
            _ => self.text("origin-figure-site", &[("site", &at)]),
        }
    }

    /// The name of an entry of the kit.
    fn kit_entry(&self, list: &str, id: &str, field: &str) -> String {
        match list {
            // What it gives stands beside it.
            "implants" => self.name_or_id(self.case.kit.implant(&id.into()).map(|i| &i.name), id),
            "drills" => self.drill(&id.into()),
            "drill_sleeves" => self.drill_sleeve(&id.into()),
            "master_sleeves" => self.master_sleeve(&id.into()),
            "stops" => self.name_or_id(self.case.kit.stop(&id.into()).map(|s| &s.name), id),
            "gauges" => self.gauge(&id.into()),
            "pins" => self.name_or_id(self.case.kit.pin(&id.into()).map(|p| &p.name), id),
            "carriers" => self.carrier(&id.into()),
            _ => self.name_or_id(None, &format!("{list}[{id}].{field}")),
        }
    }
}
