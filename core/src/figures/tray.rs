//! Use order, loading list, stock and mix-ups as plain data.

use super::{Unknown, take};
use crate::kit::SlotKind;
use crate::measure::Length;
use crate::plan::{
    Endangered, Fits, LoadItem, Mistake, MixUp, Operation, Reset, ServedPlace, StockLine,
};
use schemars::JsonSchema;
use serde::Serialize;

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "do", rename_all = "snake_case", deny_unknown_fields)]
pub enum UseFigures {
    /// Drill and set a fixation pin.
    Pin {
        /// Its name in the case.
        pin: String,
    },
    /// Punch the tissue through the guide.
    Punch {
        /// The sites with tissue to punch.
        sites: Vec<String>,
    },
    /// Guide off, plugs of tissue out, guide seated again with its pins.
    Reseat {},
    /// Seat the guide where nothing seated it before, look through its windows, rock it, sound.
    Sound {
        /// The sites with a crest to sound against.
        sites: Vec<String>,
    },
    /// Drill a step.
    Drill {
        /// The site.
        site: String,
        /// The step.
        step: String,
    },
    /// Turn in the implant.
    Insert {
        /// The site.
        site: String,
    },
    /// Take the guide off.
    GuideOff {},
}

/// One physical thing to be laid in the tray.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoadFigures {
    /// Its place in the list, from 1.
    pub n: usize,
    /// The kind of thing.
    pub kind: SlotKind,
    /// Its id in the kit.
    pub entry: String,
    /// Ordinal of the piece among those of that entry, from 1.
    pub copy: u32,
    /// Its name.
    pub name: String,
    /// Its slot; null where the tray has none left.
    pub slot: Option<String>,
    /// It lies elsewhere than the program would lay it, because a person moved it or something else.
    pub by_hand: bool,
    /// The stop on it.
    pub stop: Option<String>,
    /// From tip to landing face.
    pub set_mm: Option<Length>,
    /// The gauge's figure; also null where a mark is read.
    pub gauge_mm: Option<Length>,
    /// With the stop landed or the mark level with its rim, the tip beyond the master sleeve's
    /// apical face, for each step served.
    pub bench_mm: Vec<Option<Length>>,
    /// The steps or sites that it serves.
    pub serves: Vec<ServesFigures>,
    /// Stays unopened until it is called for.
    pub unopened: bool,
    /// True if it does not fit and nobody accepted that, so that it is not to be set or used; absent where not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub does_not_fit: bool,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
}

/// A stop that is set anew in surgery, because there are fewer drills or stops than settings.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ResetFigures {
    /// The drill: its place in `loading`, from 1.
    pub n: usize,
    /// Its id in the kit.
    pub entry: String,
    /// Its slot.
    pub slot: Option<String>,
    /// The last thing done with the former setting: its place in `order`, from 1.
    pub after: usize,
    /// The first thing done with the new one: its place in `order`, from 1.
    pub before: usize,
    /// The stop that was on it.
    pub from_stop: Option<String>,
    /// From tip to landing face until then.
    pub from_mm: Option<Length>,
    /// True if that does not fit and nobody accepted it, so that it is not set to it; absent where not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub from_does_not_fit: bool,
    /// The stop on it afterwards.
    pub stop: Option<String>,
    /// From tip to landing face afterwards.
    pub set_mm: Option<Length>,
    /// The gauge's figure then.
    pub gauge_mm: Option<Length>,
    /// As in `loading`, for each step served with the new setting.
    pub bench_mm: Vec<Option<Length>>,
    /// The steps that the new setting serves.
    pub serves: Vec<ServesFigures>,
    /// True if it does not fit and nobody accepted that, so that it is not to be set or used; absent where not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub does_not_fit: bool,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
}

/// A site or step that an item serves.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ServesFigures {
    /// The site; null for what serves the whole case.
    pub site: Option<String>,
    /// The step, where it is a drill's or a sleeve's.
    pub step: Option<String>,
}

/// Number of one thing that is needed, and that there is.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockFigures {
    /// List of the kit that it is in.
    pub list: String,
    /// Its id in the kit.
    pub entry: String,
    /// Number that the case needs at one time, so that nothing is set anew in surgery.
    pub needed: u32,
    /// Number that there is.
    pub have: u32,
    /// Number that is missing.
    pub short: u32,
    /// `enough`, `with_resets` where the pieces do with stops set anew in surgery, `unknown` where
    /// settings that are not known may be equal, or `short`.
    pub state: String,
    /// So many re-sets in surgery in the order that is followed, where they help.
    pub resets: Option<u32>,
    /// Changes that would settle it and open nothing, the best first.
    pub remedies: Vec<RemedyFigures>,
}

/// A change that would settle a shortage.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RemedyFigures {
    /// `other_stop`, `one_figure`, `distance` or `fixed_stop`.
    pub change: String,
    /// The sites where it is made.
    pub sites: Vec<String>,
    /// The stop to take instead.
    pub stop: Option<String>,
    /// The distance to enter, to the face that it was given to.
    pub entered_mm: Option<Length>,
    /// Number of notes that it brings.
    pub notes: usize,
}

/// A mix-up that would cut too deep or too wide.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookAlikeFigures {
    /// The site where it would happen.
    pub site: String,
    /// The step in which it would happen.
    pub step: String,
    /// `other_setting`, `pin_drill`, `other_set` (drill, sleeve and setting together),
    /// `without_sleeve`, `other_sleeve` or `without_guide`.
    pub mistake: String,
    /// The drill taken.
    pub drill: String,
    /// The site and step, sleeve or pin of what is taken by mistake.
    pub taken: Option<String>,
    /// Slot of the thing that is taken by mistake; null where it has none or is left out.
    pub slot: Option<String>,
    /// The measure that it exceeds: `site`, the deepest cut planned there, or `step`, only the
    /// planned depth of its step; `width` where it is no deeper but wider than the site's last
    /// drill.
    pub than: String,
    /// Excess in depth over that.
    pub deeper_mm: Length,
    /// Excess in width over the site's last drill; null where no wider.
    pub wider_mm: Option<Length>,
    /// Depth of its cut below the platform.
    pub cut_mm: Length,
    /// Everything that it would come too close to, closest first: a structure's key, `buccal_wall`,
    /// `oral_wall`, `tooth` or `site` with its name; empty where nobody knows, or where it is only
    /// wider, or deeper than its step only.
    pub breaks: Vec<String>,
    /// True if there is anatomy there, besides, that nobody knows.
    pub anatomy_unknown: bool,
    /// True if its depth counts from the crest as it was measured before the site was moved; absent where
    /// not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub before_move: bool,
}

pub(super) fn use_of(one: &Operation) -> UseFigures {
    match one {
        Operation::Pin { name } => UseFigures::Pin {
            pin: name.to_string(),
        },
        Operation::Punch { sites } => UseFigures::Punch {
            sites: sites.iter().map(ToString::to_string).collect(),
        },
        Operation::Reseat => UseFigures::Reseat {},
        Operation::Sound { sites } => UseFigures::Sound {
            sites: sites.iter().map(ToString::to_string).collect(),
        },
        Operation::Drill { site, step } => UseFigures::Drill {
            site: site.to_string(),
            step: step.to_string(),
        },
        Operation::Insert { site } => UseFigures::Insert {
            site: site.to_string(),
        },
        Operation::GuideOff => UseFigures::GuideOff {},
    }
}

pub(super) fn loading(items: &[LoadItem]) -> Vec<LoadFigures> {
    let items = items.iter().enumerate();
    items.map(|(n, item)| load(n + 1, item)).collect()
}

fn load(n: usize, item: &LoadItem) -> LoadFigures {
    let mut unknown = Unknown::new();
    let set = item.set.as_ref();
    LoadFigures {
        n,
        kind: item.kind,
        entry: item.entry.clone(),
        copy: item.copy,
        name: item.name.to_string(),
        slot: item.slot.as_ref().map(ToString::to_string),
        by_hand: item.is_by_hand(),
        stop: set.and_then(|set| set.stop.as_ref().map(ToString::to_string)),
        set_mm: set.and_then(|set| take(&set.set, "set_mm", &mut unknown)),
        gauge_mm: set
            .filter(|set| set.stop.is_some())
            .and_then(|set| take(&set.gauge, "gauge_mm", &mut unknown)),
        bench_mm: set.map_or_else(Vec::new, |set| {
            set.bench.iter().map(crate::plan::Known::get).collect()
        }),
        serves: item.serves.iter().map(serves).collect(),
        unopened: item.unopened,
        does_not_fit: set.is_some_and(|on| on.fits == Fits::No),
        unknown,
    }
}

pub(super) fn reset(reset: &Reset) -> ResetFigures {
    let to = load(reset.item + 1, &reset.to);
    ResetFigures {
        n: to.n,
        entry: to.entry,
        slot: to.slot,
        after: reset.after + 1,
        before: reset.before + 1,
        from_stop: reset.from.stop.as_ref().map(ToString::to_string),
        from_mm: reset.from.set.get(),
        from_does_not_fit: reset.from.fits == Fits::No,
        stop: to.stop,
        set_mm: to.set_mm,
        gauge_mm: to.gauge_mm,
        bench_mm: to.bench_mm,
        serves: to.serves,
        does_not_fit: to.does_not_fit,
        unknown: to.unknown,
    }
}

fn serves(serves: &ServedPlace) -> ServesFigures {
    ServesFigures {
        site: serves.site.as_ref().map(ToString::to_string),
        step: serves.step.as_ref().map(ToString::to_string),
    }
}

pub(super) fn stock(line: &StockLine) -> StockFigures {
    StockFigures {
        list: line.list.to_owned(),
        entry: line.entry.clone(),
        needed: line.needed,
        have: line.have,
        short: line.needed.saturating_sub(line.have),
        state: match line.with_resets {
            _ if line.needed <= line.have => "enough",
            _ if line.is_unknown() => "unknown",
            Some(_) => "with_resets",
            None => "short",
        }
        .to_owned(),
        resets: line.with_resets,
        remedies: Vec::new(),
    }
}

pub(super) fn look_alike(one: &MixUp) -> LookAlikeFigures {
    let (mistake, drill, taken) = match &one.mistake {
        Mistake::OtherSetting {
            drill, of, step, ..
        } => ("other_setting", drill, Some(format!("{of} {step}"))),
        Mistake::OtherSet {
            drill, of, step, ..
        } => ("other_set", drill, Some(format!("{of} {step}"))),
        Mistake::PinDrill { drill, pin, .. } => ("pin_drill", drill, Some(pin.to_string())),
        Mistake::WithoutSleeve { drill } => ("without_sleeve", drill, None),
        Mistake::OtherSleeve { drill, sleeve } => ("other_sleeve", drill, Some(sleeve.to_string())),
        Mistake::WithoutGuide { drill, .. } => ("without_guide", drill, None),
    };
    LookAlikeFigures {
        site: one.site.to_string(),
        step: one.step.to_string(),
        mistake: mistake.to_owned(),
        drill: drill.to_string(),
        taken,
        slot: one.slot.as_ref().map(ToString::to_string),
        than: one.exceeded.key().to_owned(),
        deeper_mm: one.deeper,
        wider_mm: one.wider,
        cut_mm: one.cut,
        breaks: one.breaks.iter().map(Endangered::key).collect(),
        anatomy_unknown: one.unknown,
        before_move: matches!(
            one.mistake,
            Mistake::WithoutGuide {
                before_move: true,
                ..
            }
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::samples::{checked, demo};

    /// One tip drill for two settings, the first of which does not fit: what it is set from is marked as what it is set to
    /// is.
    #[test]
    fn the_setting_before_is_marked_where_it_does_not_fit() {
        for (to_mm, marked) in [(31.2, false), (24.0, true)] {
            let mut case: serde_json::Value = serde_json::from_slice(demo::TWO_MOLARS).unwrap();
            for drill in case["kit"]["drills"].as_array_mut().unwrap() {
                if drill["id"] == "tip-257" {
                    drill["quantity"] = 1.into();
                    drill["clamp"]["to_mm"] = to_mm.into();
                }
            }
            let worksheet = crate::plan::work_out(&checked(case).unwrap());
            let [reset] = &worksheet.resets[..] else {
                panic!("{:?}", worksheet.resets)
            };
            let told = serde_json::to_value(super::reset(reset)).unwrap();
            assert_eq!(told["from_mm"], 20.7);
            let is_marked = told.get("from_does_not_fit") == Some(&true.into());
            assert_eq!(is_marked, marked, "{told}");
            assert_eq!(told.get("does_not_fit"), None);
        }
    }
}
