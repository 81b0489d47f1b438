//! Origins of the terms of a figure.

use super::Formatter;
use super::place::parts;
use crate::kit::{SiteId, StepId};
use crate::plan::Origin;

impl Formatter<'_> {
    /// The origin of a term.
    #[must_use]
    pub fn origin(&self, origin: &Origin) -> String {
        match origin {
            Origin::Case(path) => match (parts(path).first(), self.meant(path).site) {
                (_, Some(site)) => self.text("origin-site", &[("site", &self.site(&site))]),
                (Some(first), None) if first.name == "limits" => self.limit_origin(path),
                _ => self.word("origin-case"),
            },
            Origin::Kit(path) => self.text("origin-kit", &[("entry", &self.kit_entry(path))]),
            Origin::Limit(key) => self.limit_origin(&format!("limits.{key}")),
            Origin::Figure(path) => self.figure_origin(path),
            Origin::Rule(_) => self.word("origin-worked-out"),
        }
    }

    fn limit_origin(&self, path: &str) -> String {
        let key = parts(path).get(1).map_or("", |part| part.name);
        self.text("origin-limit", &[("limit", &self.limit_name(key))])
    }

    fn figure_origin(&self, path: &str) -> String {
        let parts = parts(path);
        let item = |n: usize, name: &str| {
            let part = parts.get(n).filter(|part| part.name == name)?;
            part.item
        };
        let Some(site) = item(0, "sites").map(SiteId::from) else {
            return self.word("origin-worked-out");
        };
        let place = self.site(&site);
        match item(1, "steps") {
            None => self.text("origin-figure-site", &[("site", &place)]),
            Some(step) => {
                let step = self.step(&site, &StepId::from(step));
                self.text("origin-figure-step", &[("step", &step), ("site", &place)])
            }
        }
    }

    /// The name of an entry of the kit by a path such as `drills[t31].point`.
    fn kit_entry(&self, path: &str) -> String {
        let parts = parts(path);
        let (list, id) = parts
            .first()
            .map_or(("", ""), |part| (part.name, part.item.unwrap_or("")));
        match list {
            "implants" => self.implant(&id.into()),
            "drills" => self.drill(&id.into()),
            "drill_sleeves" => self.drill_sleeve(&id.into()),
            "master_sleeves" => self.master_sleeve(&id.into()),
            "stops" => self.name_or_id(self.case.kit.stop(&id.into()).map(|s| &s.name), id),
            "gauges" => self.gauge(&id.into()),
            "pins" => self.name_or_id(self.case.kit.pin(&id.into()).map(|p| &p.name), id),
            "carriers" => self.carrier(&id.into()),
            _ => self.name_or_id(None, path),
        }
    }
}
