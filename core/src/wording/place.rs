//! Paths of the worksheet turned into words: what is meant, and at which site.

use super::Formatter;
use crate::dentition::Jaw;
use crate::kit::{GaugeId, SiteId};

/// One part of a path: `structures[sinus_floor]` has the name `structures` and one item.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Part<'a> {
    pub(super) name: &'a str,
    pub(super) item: Option<&'a str>,
}

/// The parts of a path such as `sites[a.1].walls[oral].from_axis_mm`; items may hold points.
pub(super) fn parts(path: &str) -> Vec<Part<'_>> {
    let mut parts = Vec::new();
    let mut rest = path;
    while !rest.is_empty() {
        let end = rest.find(['.', '[']).unwrap_or(rest.len());
        let name = &rest[..end];
        rest = &rest[end..];
        let mut item = None;
        while let Some(inside) = rest.strip_prefix('[') {
            let close = inside.find(']').unwrap_or(inside.len());
            // Of several items the first says what is meant, as in `distances[45][apex]`.
            item = item.or(Some(&inside[..close]));
            rest = inside.get(close + 1..).unwrap_or("");
        }
        rest = rest.strip_prefix('.').unwrap_or(rest);
        parts.push(Part { name, item });
    }
    parts
}

/// Meaning of a path: the key of its texts with their arguments.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Meant {
    pub(super) key: &'static str,
    pub(super) args: Vec<(&'static str, String)>,
    /// The site that it belongs to.
    pub(super) site: Option<SiteId>,
}

impl Formatter<'_> {
    /// Meaning of a path.
    pub(super) fn meant(&self, path: &str) -> Meant {
        let parts = parts(path);
        let at = |n: usize| parts.get(n).map_or("", |part| part.name);
        let item = |n: usize| parts.get(n).and_then(|part| part.item).unwrap_or("");
        let site = (at(0) == "sites").then(|| SiteId::from(item(0)));
        let (key, args) = match (at(0), at(1), at(2)) {
            ("sites", "platform_to_sleeve", _) => ("platform_to_sleeve", vec![]),
            ("sites", "heights", "platform_below_crest") => ("platform_below_crest", vec![]),
            ("sites", "heights", "tissue_thickness_mm") => ("tissue_thickness_mm", vec![]),
            ("sites", "heights", "crest_below_occlusal_mm") => ("crest_below_occlusal_mm", vec![]),
            ("sites", "heights", "measured_at") => ("heights-measured_at", vec![]),
            ("sites", "insertion", "carrier") => ("carrier", vec![]),
            ("sites", "steps", "") if parts[1].item.is_none() => ("steps", vec![]),
            ("sites", "structures", "anterior_loop_mm") => ("anterior_loop_mm", vec![]),
            ("sites", "structures", _) => {
                ("structure", vec![("structure", self.structure(item(1)))])
            }
            ("sites", "walls", _) => {
                let (side, height) = item(1).split_once(' ').unwrap_or((item(1), ""));
                let args = vec![
                    ("side", self.wall_side(side)),
                    ("height", self.height(height)),
                ];
                ("wall", args)
            }
            ("sites", "distances", _) => {
                let height = path.rsplit_once("][").map_or("", |(_, rest)| rest);
                let args = vec![
                    ("to", self.tooth_or_site(item(1))),
                    ("height", self.height(height.trim_end_matches(']'))),
                ];
                ("distance", args)
            }
            ("sites", "obstacles", _) if parts[1].item.is_some() => {
                let name = self.obstacle(item(0), item(1));
                ("obstacle", vec![("obstacle", name)])
            }
            ("teeth", _, _) => ("tooth", vec![("tooth", self.tooth_or_site(item(0)))]),
            ("limits", limit, _) => ("limit", vec![("limit", self.limit_name(limit))]),
            ("setup", "gauge", _) => ("gauge", vec![]),
            ("setup", "head", _) => ("head", vec![]),
            ("setup", "tray", _) => ("tray", vec![]),
            ("kit", "gauges", "reads") => {
                let gauge = self.gauge(&GaugeId::from(item(1)));
                ("gauge-face", vec![("gauge", gauge)])
            }
            ("arch", _, _) => ("arch", vec![]),
            _ => ("other", vec![("path", path.to_owned())]),
        };
        Meant { key, args, site }
    }

    /// A structure by its key: "mandibular canal".
    pub(super) fn structure(&self, key: &str) -> String {
        self.word_or_key("structure", key)
    }

    /// A limit by its key: "implant to implant at the platform".
    pub(super) fn limit_name(&self, key: &str) -> String {
        self.word_or_key("limit", key)
    }

    /// A height along the implant by its key; nothing for an empty one.
    pub(super) fn height(&self, key: &str) -> String {
        if key.is_empty() {
            String::new()
        } else {
            self.word_or_key("height", key)
        }
    }

    /// A wall by its key, in the words of the case's jaw.
    pub(super) fn wall_side(&self, key: &str) -> String {
        match (key, self.case.jaw) {
            ("oral", Jaw::Upper) => self.word("wall-side-oral-upper"),
            ("oral", Jaw::Lower) => self.word("wall-side-oral-lower"),
            _ => self.word_or_key("wall-side", key),
        }
    }

    /// A tooth position or a site as written in a path.
    ///
    /// A listed tooth comes first: a site may have any id, also one that looks like a position.
    pub(super) fn tooth_or_site(&self, written: &str) -> String {
        let position = written.parse().ok();
        let listed = position.filter(|position| {
            let mut teeth = self.case.teeth.iter();
            teeth.any(|tooth| tooth.position == *position)
        });
        match (listed, self.case.site(written), position) {
            (Some(position), _, _) | (None, None, Some(position)) => self.tooth(position),
            _ => self.site(&SiteId::from(written)),
        }
    }

    fn obstacle(&self, site: &str, index: &str) -> String {
        let site = self.case.site(site);
        let obstacle = index
            .parse()
            .ok()
            .and_then(|index: usize| site?.obstacles.get(index));
        self.name_or_id(obstacle.map(|obstacle| &obstacle.name), index)
    }

    /// The word of a key, or the key itself where it has none.
    fn word_or_key(&self, family: &str, key: &str) -> String {
        let id = format!("{family}-{key}");
        if self.texts.has(&id) {
            self.word(&id)
        } else {
            self.text("name-no-entry", &[("id", key)])
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_taken_apart_at_its_points_but_not_inside_an_item() {
        let part = |name, item| Part { name, item };
        assert_eq!(
            parts("sites[a.1].walls[oral crest].x"),
            [
                part("sites", Some("a.1")),
                part("walls", Some("oral crest")),
                part("x", None)
            ]
        );
        assert_eq!(
            parts("sites[a].distances[45][apex]"),
            [part("sites", Some("a")), part("distances", Some("45"))]
        );
        assert_eq!(parts("arch"), [part("arch", None)]);
        assert_eq!(parts("sites[a"), [part("sites", Some("a"))]);
        assert_eq!(parts(""), []);
    }
}
