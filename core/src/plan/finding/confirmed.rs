//! What was confirmed and not measured anew, told beside each finding that counts on it.

use super::{Argument, Finding};
use crate::case::{Case, Confirmed, DistanceTo, MeasuredAt, Place, Site, SitePlace};
use crate::kit::{Label, SiteId};
use crate::measure::Length;
use crate::plan::figure::{Basis, Figure, Origin};
use std::collections::BTreeSet;

/// A person's word on a value, and how far its site had moved by then; nothing where that cannot be told.
type Word<'a> = (&'a Label, Option<Length>);

/// Says of each finding who confirmed what it was worked out from (`confirmed_by`), and how far the
/// site had moved by then (`moved_by`): of several the farthest, nothing where that cannot be told; and the
/// others besides (`confirmed_also`).
pub(in crate::plan) fn attach_confirmations(findings: &mut [Finding], case: &Case) {
    for finding in findings {
        let figure = finding.figure.as_ref();
        let words = figure.into_iter().flat_map(|figure| words_of(figure, case));
        let mut words: Vec<Word<'_>> = words.collect();
        let far = |(_, moved): &Word<'_>| moved.unwrap_or(Length::from_mm(1_000));
        words.sort_by_key(|word| std::cmp::Reverse(far(word)));
        let mut told: Vec<Word<'_>> = Vec::new();
        words.retain(|word| {
            let new = !told.contains(word);
            told.push(*word);
            new
        });
        let Some(((by, moved), others)) = words.split_first() else {
            continue;
        };
        finding.args.insert("confirmed_by", (*by).into());
        if let Some(moved) = *moved {
            finding.args.insert("moved_by", moved.into());
        }
        if !others.is_empty() {
            let others = others.iter().map(|(by, moved)| ((*by).clone(), *moved));
            let others = Argument::Confirmed(others.collect());
            finding.args.insert("confirmed_also", others);
        }
    }
}

fn words_of<'a>(figure: &Figure, case: &'a Case) -> impl Iterator<Item = Word<'a>> {
    let confirmed = figure.terms.iter();
    let confirmed = confirmed.filter(|term| term.basis == Basis::Confirmed);
    confirmed.flat_map(|term| match &term.from {
        Origin::Case(field) => words_on(case, &field.at),
        _ => Vec::new(),
    })
}

/// The people who confirmed what figures were worked out from, each once.
pub(crate) fn confirmed_by<'a, 'f>(
    figures: impl IntoIterator<Item = &'f Figure>,
    case: &'a Case,
) -> Vec<&'a str> {
    let words = figures
        .into_iter()
        .flat_map(|figure| words_of(figure, case));
    let names: BTreeSet<&str> = words.map(|(by, _)| by.as_str()).collect();
    names.into_iter().collect()
}

impl Finding {
    /// The people who confirmed what it was worked out from, each once.
    pub(crate) fn confirmed_by(&self) -> Vec<&str> {
        let first = match self.args.get("confirmed_by") {
            Some(Argument::Text(by)) => Some(by.as_str()),
            _ => None,
        };
        let others = match self.args.get("confirmed_also") {
            Some(Argument::Confirmed(words)) => words.as_slice(),
            _ => &[],
        };
        let others = others.iter().map(|(by, _)| by.as_str());
        let names: BTreeSet<&str> = first.into_iter().chain(others).collect();
        names.into_iter().collect()
    }
}

/// The words on the value at a place, each with how far its site had moved: of a distance between two sites
/// those given at either.
fn words_on<'a>(case: &'a Case, place: &Place) -> Vec<Word<'a>> {
    let Place::Site(id, part) = place else {
        return Vec::new();
    };
    let word = |word: Option<&'a Confirmed>, site: &Site| {
        word.map(|word| (&word.by, word.moved(&site.placement)))
    };
    if let SitePlace::ToSite(other, Some(at)) = part {
        let site = |id: &SiteId| case.sites.iter().find(|site| site.id == *id);
        let (Some(one), Some(two)) = (site(id), site(other)) else {
            return Vec::new();
        };
        // Entered from either of the two.
        let both = [(one, two), (two, one)]
            .into_iter()
            .flat_map(|(own, theirs)| {
                let to = DistanceTo::Site {
                    site: theirs.id.clone(),
                };
                let all = own.distances.iter();
                let all = all.filter(move |one| (&one.to, one.at) == (&to, *at));
                all.flat_map(move |distance| {
                    let other = distance.other_measured_at.as_ref();
                    [
                        word(distance.measured_at.confirmed.as_ref(), own),
                        word(other.and_then(|other| other.confirmed.as_ref()), theirs),
                    ]
                })
            });
        return both.flatten().collect();
    }
    let site = case.sites.iter().find(|site| site.id == *id);
    let word = site.and_then(|site| word(word_on(site, part), site));
    word.into_iter().collect()
}

/// The word on the value at a place of a site itself.
fn word_on<'a>(site: &'a Site, part: &SitePlace) -> Option<&'a Confirmed> {
    let of = |one: &'a MeasuredAt| one.confirmed.as_ref();
    match part {
        SitePlace::Height(height) => site.heights.word_on(*height),
        SitePlace::Wall(side, at) => {
            let wall = site.walls.iter().find(|w| (w.side, w.at) == (*side, *at));
            wall.and_then(|wall| of(&wall.measured_at))
        }
        SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind) => {
            let structure = site.structures.iter().find(|s| s.kind == *kind);
            structure.and_then(|structure| of(&structure.measured_at))
        }
        SitePlace::SocketGap => site.state.gap_confirmed(),
        SitePlace::Obstacle(n) => site.obstacles.get(*n).and_then(|o| of(&o.measured_at)),
        SitePlace::ToTooth(position, Some(at)) => {
            let to = DistanceTo::Tooth {
                position: *position,
            };
            let distance = site.distances.iter().find(|d| (&d.to, d.at) == (&to, *at));
            distance.and_then(|distance| of(&distance.measured_at))
        }
        _ => None,
    }
}
