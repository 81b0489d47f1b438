//! Remedies for a shortage: each change tried whole before it is offered.

use crate::case::{Edit, GuideState, Setting, Site, ValidCase, supplied};
use crate::kit::{Kit, SiteId, StopId, StopKind};
use crate::measure::Length;
use crate::plan::{DrillSetup, ServedPlace, StockLine, Worksheet, try_edits};
use std::ops::ControlFlow;

/// A change that settles a shortage and opens nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockRemedy {
    /// List of the kit that the shortage is in.
    pub list: &'static str,
    /// The entry that is short.
    pub entry: String,
    /// The change.
    pub change: StockChange,
    /// The edits.
    pub edits: Vec<Edit>,
    /// Notes that it brings.
    pub notes: usize,
}

/// A change that settles a shortage, in the order in which equals are offered.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockChange {
    /// Another stop that is set.
    OtherStop {
        /// The stop.
        stop: StopId,
        /// At these sites.
        sites: Vec<SiteId>,
    },
    /// One figure for the sequence.
    OneFigure {
        /// At these sites.
        sites: Vec<SiteId>,
    },
    /// A distance at which the site's settings are those of another. Only while the guide is not made.
    Distance {
        /// The site.
        site: SiteId,
        /// The distance, to the face that it was given to.
        entered_mm: Length,
    },
    /// A fixed stop.
    FixedStop {
        /// The stop.
        stop: StopId,
        /// At these sites.
        sites: Vec<SiteId>,
    },
}

/// The changes that would settle each shortage of drills and stops without opening anything, the best
/// first: fewest notes, then fewest edits. `live` is the kit from which stops are offered beside those
/// of the case. `keep_on` is asked before each change that is tried; what it ends gives the changes
/// found until then.
#[must_use]
pub fn stock_remedies(
    case: &ValidCase,
    worksheet: &Worksheet,
    live: &Kit,
    keep_on: &mut dyn FnMut() -> ControlFlow<()>,
) -> Vec<StockRemedy> {
    let lines = worksheet.stock.iter();
    let short = lines.filter(|line| line.needed > line.have);
    let mut still = ControlFlow::Continue(());
    let mut keep_on = || {
        // Whoever ended it is not asked again.
        if still.is_continue() {
            still = keep_on();
        }
        still
    };
    short
        .flat_map(|line| for_line(case, worksheet, live, line, &mut keep_on))
        .collect()
}

/// A setting with everything that it serves, whether it is laid or set anew in surgery, and however
/// often it comes back.
struct ServedSetting<'a> {
    set: &'a DrillSetup,
    serves: Vec<&'a ServedPlace>,
}

/// Each setting of the drills and stops that a line is about, once.
fn served_settings<'a>(worksheet: &'a Worksheet, line: &StockLine) -> Vec<ServedSetting<'a>> {
    let of_line = |set: &DrillSetup| match line.list {
        "drills" => set.drill.as_str() == line.entry,
        "stops" => set.stop.as_ref().is_some_and(|s| s.as_str() == line.entry),
        _ => false,
    };
    let set_anew = worksheet.resets.iter().map(|reset| &reset.to);
    let mut all: Vec<ServedSetting<'_>> = Vec::new();
    for item in worksheet.loading.iter().chain(set_anew) {
        let Some(set) = item.set.as_ref().filter(|set| of_line(set)) else {
            continue;
        };
        // Two settings that nobody knows are never the same.
        let same = |one: &&mut ServedSetting<'_>| {
            let is = (&one.set.drill, &one.set.stop, one.set.set.get());
            is == (&set.drill, &set.stop, set.set.get()) && is.2.is_some()
        };
        match all.iter_mut().find(same) {
            Some(one) => one.serves.extend(&item.serves),
            None => all.push(ServedSetting {
                set,
                serves: item.serves.iter().collect(),
            }),
        }
    }
    all
}

fn for_line(
    case: &ValidCase,
    worksheet: &Worksheet,
    live: &Kit,
    line: &StockLine,
    keep_on: &mut dyn FnMut() -> ControlFlow<()>,
) -> Vec<StockRemedy> {
    let items = served_settings(worksheet, line);
    let key = format!("stock-short kit.{}[{}]", line.list, line.entry);
    let mut offers: Vec<StockRemedy> = Vec::new();
    let mut candidates: Vec<Candidate> = Vec::new();
    for one in all_candidates(case, live, line, &items) {
        // Two settings may ask for one and the same.
        if !candidates.contains(&one) {
            candidates.push(one);
        }
    }
    for (change, edits) in candidates {
        if keep_on().is_break() {
            break;
        }
        let edits = supplied(case, edits, live);
        let Ok(trial) = try_edits(case, worksheet, &edits) else {
            continue;
        };
        let settles = trial.settled.iter().any(|finding| finding.key() == key);
        if settles && trial.opened.is_empty() && trial.worsened.is_empty() {
            offers.push(StockRemedy {
                list: line.list,
                entry: line.entry.clone(),
                change,
                edits,
                notes: trial.noted.len(),
            });
        }
    }
    offers.sort_by(|a, b| {
        let rank = |one: &StockRemedy| (one.notes, one.edits.len());
        rank(a).cmp(&rank(b)).then_with(|| a.change.cmp(&b.change))
    });
    // What is told in the same words is offered once, as the best of it.
    let mut told: Vec<StockChange> = Vec::new();
    offers.retain(|offer| {
        let is_new = !told.contains(&offer.change);
        told.push(offer.change.clone());
        is_new
    });
    offers
}

type Candidate = (StockChange, Vec<Edit>);

fn all_candidates(
    case: &ValidCase,
    live: &Kit,
    line: &StockLine,
    items: &[ServedSetting<'_>],
) -> Vec<Candidate> {
    let mut all = one_figures(case, items);
    all.extend(distances(case, items));
    if line.list == "stops" {
        for item in items {
            all.extend(other_stops(case, live, item));
        }
    }
    all
}

/// The sites that some item serves, in the order of the case.
fn sites<'a>(case: &'a ValidCase, items: &[ServedSetting<'_>]) -> Vec<&'a Site> {
    let serves = |site: &&Site| {
        let mut all = items.iter().flat_map(|item| &item.serves);
        all.any(|one| one.site.as_ref() == Some(&site.id))
    };
    case.sites.iter().filter(serves).collect()
}

fn change(site: Site) -> Edit {
    Edit::ChangeSite(Box::new(site))
}

/// One figure at each site alone, and at all of them.
fn one_figures(case: &ValidCase, items: &[ServedSetting<'_>]) -> Vec<Candidate> {
    let each: Vec<&Site> = sites(case, items)
        .into_iter()
        .filter(|site| site.setting == Setting::EachStep)
        .collect();
    let mut groups: Vec<Vec<&Site>> = each.iter().map(|site| vec![*site]).collect();
    if each.len() > 1 {
        groups.push(each);
    }
    let groups = groups.into_iter().map(|group| {
        let ids = group.iter().map(|site| site.id.clone()).collect();
        let edits = group.into_iter().map(|site| {
            change(Site {
                setting: Setting::OneFigure,
                ..site.clone()
            })
        });
        (StockChange::OneFigure { sites: ids }, edits.collect())
    });
    groups.collect()
}

/// Distances at which what serves one site alone would be set as another item is.
fn distances(case: &ValidCase, items: &[ServedSetting<'_>]) -> Vec<Candidate> {
    if case.guide.state == GuideState::Made {
        return Vec::new();
    }
    let mut all: Vec<Candidate> = Vec::new();
    for own in items {
        let [site] = sites(case, std::slice::from_ref(own))[..] else {
            continue;
        };
        let (Some(entry), Some(set)) = (site.platform_to_sleeve, set_of(own)) else {
            continue;
        };
        for other in items {
            let Some(apart) = set_of(other).map(|other| other - set) else {
                continue;
            };
            if apart == Length::ZERO {
                continue;
            }
            let mut moved = site.clone();
            let entered_mm = entry.entered_mm + apart;
            moved.platform_to_sleeve = Some(crate::case::PlatformToSleeve {
                entered_mm,
                ..entry
            });
            let offer = StockChange::Distance {
                site: site.id.clone(),
                entered_mm,
            };
            all.push((offer, vec![change(moved)]));
        }
    }
    all
}

fn set_of(item: &ServedSetting<'_>) -> Option<Length> {
    item.set.set.get()
}

/// Other stops with the same bore, for the steps that an item serves.
fn other_stops(case: &ValidCase, live: &Kit, item: &ServedSetting<'_>) -> Vec<Candidate> {
    let set = item.set;
    let kit = case.kit.together_with(live);
    let now = set.stop.as_ref().and_then(|id| kit.stop(id));
    let Some(bore) = now.map(|stop| stop.bore_mm) else {
        return Vec::new();
    };
    let fits = kit
        .stops
        .iter()
        .filter(|stop| stop.bore_mm == bore && Some(&stop.id) != set.stop.as_ref());
    let offers = fits.map(|stop| {
        let mut edits = Vec::new();
        let mut ids = Vec::new();
        for site in sites(case, std::slice::from_ref(item)) {
            let mut site = site.clone();
            for step in &mut site.steps {
                let served = |one: &crate::plan::ServedPlace| {
                    one.site.as_ref() == Some(&site.id) && one.step.as_ref() == Some(&step.id)
                };
                if item.serves.iter().copied().any(served) {
                    step.stop = Some(stop.id.clone());
                }
            }
            ids.push(site.id.clone());
            edits.push(change(site));
        }
        let (stop_id, sites) = (stop.id.clone(), ids);
        let offer = match stop.depth {
            StopKind::Adjustable {} => StockChange::OtherStop {
                stop: stop_id,
                sites,
            },
            StopKind::Fixed { .. } => StockChange::FixedStop {
                stop: stop_id,
                sites,
            },
        };
        (offer, edits)
    });
    offers.collect()
}
