//! What was entered and what it was corrected to, as the events name each other.

use crate::sign::{
    DayEvent, Entry, EntryKind, EventId, EventKind, RecordEvent, SiteKey, Standing, Who,
};
use jiff::Timestamp;

/// Something that was said, with who said it and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said<'a> {
    /// The event.
    pub id: EventId,
    /// The person who recorded it.
    pub who: &'a Who,
    /// The time.
    pub at: Timestamp,
    /// What was said; none: nothing is to stand there, or an insertion did not tell it.
    pub entry: Option<Entry>,
    /// What it corrects, and why; none where it corrects nothing.
    pub corrects: Option<(&'a EventId, &'a str)>,
}

/// One thing with all that was said of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line<'a> {
    /// What nothing corrects: of it what has an entry stands. More than one where desks did not know of each other.
    pub last: Vec<Said<'a>>,
    /// What was corrected since, in the order of the record.
    pub before: Vec<Said<'a>>,
    /// True if something was corrected to nothing at one desk and to something at another, neither knowing of the other.
    torn: bool,
}

/// What stands of one thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer<'l, 'a> {
    /// Nobody recorded it, or what was recorded was taken away.
    NotRecorded,
    /// This.
    Recorded(&'l Said<'a>),
    /// Desks that did not know of each other said otherwise; what each said.
    Differs(Vec<&'l Said<'a>>),
}

impl<'a> Line<'a> {
    /// What stands.
    #[must_use]
    pub fn answer(&self) -> Answer<'_, 'a> {
        let mut told = self.last.iter().filter(|said| said.entry.is_some());
        let Some(first) = told.next() else {
            return Answer::NotRecorded;
        };
        if self.torn || told.any(|other| other.entry != first.entry) {
            // What was taken away at one desk is told as that.
            let said = self.last.iter();
            let said = said.filter(|said| said.entry.is_some() || said.corrects.is_some());
            return Answer::Differs(said.collect());
        }
        Answer::Recorded(first)
    }

    /// True if desks differ on it.
    #[must_use]
    pub fn differs(&self) -> bool {
        matches!(self.answer(), Answer::Differs(_))
    }
}

/// Everything that was said, each with what it is of.
pub(super) struct Chains<'a> {
    said: Vec<(EntryKind, Option<&'a SiteKey>, Said<'a>)>,
    /// Corrections that found what they correct.
    taken: Vec<&'a EventId>,
}

impl<'a> Chains<'a> {
    pub(super) fn of(standing: &'a Standing) -> Self {
        let mut all = Self {
            said: Vec::new(),
            taken: Vec::new(),
        };
        for one in standing.day.iter().filter(|one| one.stands()) {
            for kind in [EntryKind::Torque, EntryKind::Depth] {
                all.said.extend(of_insertion(one, kind));
            }
        }
        for one in &standing.entries {
            if let EventKind::Recorded(recorded) = &one.kind {
                let entry = &recorded.entry;
                let said = said_of(one, Some(entry.clone()), None);
                all.said.push((entry.kind(), entry.site(), said));
            }
        }
        // A correction may stand before what it corrects where a log was made by hand: until nothing is found any more.
        let corrections: Vec<&RecordEvent> = (standing.entries.iter())
            .filter(|one| matches!(one.kind, EventKind::RecordCorrected(_)))
            .collect();
        loop {
            let found: Vec<_> = corrections
                .iter()
                .filter(|one| !all.taken.contains(&&one.id))
                .filter_map(|one| Some((*one, all.corrected(one)?)))
                .collect();
            if found.is_empty() {
                return all;
            }
            for (one, entry) in found {
                all.taken.push(&one.id);
                all.said.push(entry);
            }
        }
    }

    /// A correction of something that was said: of the same thing at the same site.
    fn corrected(
        &self,
        one: &'a RecordEvent,
    ) -> Option<(EntryKind, Option<&'a SiteKey>, Said<'a>)> {
        let EventKind::RecordCorrected(corrected) = &one.kind else {
            return None;
        };
        let mut said = self.said.iter();
        let (kind, site, _) =
            said.find(|(kind, _, said)| *kind == corrected.field && said.id == corrected.event)?;
        let same = |entry: &Entry| entry.site().map(|of| &of.site) == site.map(|of| &of.site);
        if !corrected.to.as_ref().is_none_or(same) {
            return None;
        }
        let corrects = Some((&corrected.event, corrected.reason.as_str()));
        Some((*kind, *site, said_of(one, corrected.to.clone(), corrects)))
    }

    /// Corrections that correct nothing that stands.
    pub(super) fn astray(&self, standing: &'a Standing) -> Vec<&'a RecordEvent> {
        let corrections = standing.entries.iter().filter(|one| {
            matches!(one.kind, EventKind::RecordCorrected(_)) && !self.taken.contains(&&one.id)
        });
        corrections.collect()
    }

    /// The lines of one thing at a site, or of the case.
    pub(super) fn lines(&self, site: Option<&SiteKey>, kind: EntryKind) -> Vec<Line<'a>> {
        let is_here = |of: Option<&SiteKey>| of.map(|of| &of.site) == site.map(|of| &of.site);
        let here = self
            .said
            .iter()
            .filter(|(of, at, _)| *of == kind && is_here(*at));
        let here: Vec<&Said<'a>> = here.map(|(_, _, said)| said).collect();
        let groups = if kind.is_several() {
            let roots = here.iter().filter(|said| said.corrects.is_none());
            let of_root = |root: &&&Said<'a>| {
                let below = here.iter().copied();
                let below = below.filter(|said| said.id == root.id || is_below(&here, said, root));
                below.collect::<Vec<_>>()
            };
            roots.map(|root| of_root(&root)).collect()
        } else if here.is_empty() {
            Vec::new()
        } else {
            vec![here]
        };
        groups.into_iter().map(|group| line(&group)).collect()
    }
}

fn line<'a>(group: &[&Said<'a>]) -> Line<'a> {
    let is_corrected = |said: &Said<'a>| {
        let mut others = group.iter();
        others.any(|other| other.corrects.is_some_and(|(of, _)| *of == said.id))
    };
    let (before, last): (Vec<&Said<'a>>, Vec<&Said<'a>>) =
        group.iter().copied().partition(|said| is_corrected(said));
    let torn = last.iter().any(|taken| {
        let Some((of, _)) = taken.corrects.filter(|_| taken.entry.is_none()) else {
            return false;
        };
        let Some(root) = group.iter().find(|said| said.id == *of) else {
            return false;
        };
        let mut others = last.iter().filter(|said| said.entry.is_some());
        others.any(|other| is_below(group, other, root))
    });
    let owned = |all: Vec<&Said<'a>>| all.into_iter().cloned().collect::<Vec<_>>();
    let mut before = owned(before);
    before.retain(|said| said.entry.is_some() || said.corrects.is_some());
    Line {
        last: owned(last),
        before,
        torn,
    }
}

/// True if one corrects another, or something that does.
fn is_below(group: &[&Said<'_>], said: &Said<'_>, root: &Said<'_>) -> bool {
    let mut at = said;
    // No more steps than there are things: a circle, which hashes forbid, ends as well.
    for _ in group {
        let Some((of, _)) = at.corrects else {
            return false;
        };
        if *of == root.id {
            return true;
        }
        let Some(next) = group.iter().find(|one| one.id == *of) else {
            return false;
        };
        at = next;
    }
    false
}

fn said_of<'a>(
    one: &'a RecordEvent,
    entry: Option<Entry>,
    corrects: Option<(&'a EventId, &'a str)>,
) -> Said<'a> {
    Said {
        id: one.id.clone(),
        who: &one.who,
        at: one.at,
        entry,
        corrects,
    }
}

fn of_insertion(
    one: &DayEvent,
    kind: EntryKind,
) -> Option<(EntryKind, Option<&SiteKey>, Said<'_>)> {
    let (site, entry) = one.kind.of_insertion(kind)?;
    let said = Said {
        id: one.id.clone(),
        who: &one.who,
        at: one.at,
        entry,
        corrects: None,
    };
    Some((kind, Some(site), said))
}
