//! Who cannot read stops without their figures in this session, since a figure was seen, and who is left.

use super::{Document, policy};
use jiff::Timestamp;
use traywright_core::sign::{Event, FiguresSeen, Names, Who, figures_seen_by};

/// Who may read without figures, as far as team and record know.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Readers {
    /// Everybody of team and record who saw figures in this session, each once, with the last occasion.
    pub saw: Vec<(Who, FiguresSeen)>,
    /// Everybody else of the team.
    pub left: Vec<Who>,
    /// True if the team names anybody.
    pub has_team: bool,
}

/// Length of a session, in hours: so long whoever saw a figure cannot read without.
#[must_use]
pub fn session_hours() -> usize {
    usize::try_from(policy().session_s / 3600).unwrap_or_default()
}

/// Who may read without figures now, and where `by` is given, once that person saw them as well.
#[must_use]
pub fn readers(document: &Document, now: Timestamp, by: Option<&Who>) -> Readers {
    let events = &document.record.events;
    let team = &document.case().team;
    let team = [&team.surgeon, &team.nurse, &team.second_checker];
    let team = team.into_iter().flatten();
    let team: Vec<Who> = team
        .filter_map(|name| Who::new(name.as_str()).ok())
        .collect();
    let all = events.in_order();
    let names = Names::of(&team, all.iter().copied().flat_map(Event::people));
    let mut readers = Readers {
        has_team: !team.is_empty(),
        ..Readers::default()
    };
    let recorded = all.iter().copied().flat_map(Event::people);
    let mut known: Vec<&Who> = Vec::new();
    for (who, is_of_team) in team
        .iter()
        .map(|who| (who, true))
        .chain(recorded.map(|who| (who, false)))
    {
        if known.iter().any(|one| names.may_be_same(one, who)) {
            continue;
        }
        known.push(who);
        let seen = figures_seen_by((who, &team), events, (now, None), &policy());
        match seen {
            Some((_, how)) => readers.saw.push((who.clone(), how)),
            None if by.is_some_and(|by| names.may_be_same(by, who)) => {}
            None if is_of_team => readers.left.push(who.clone()),
            None => {}
        }
    }
    readers
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};

    /// Whoever is to approve is none of those who are left, by the name of the team or its initials.
    #[test]
    fn whoever_approves_is_not_left_to_read() {
        let (_, bytes) = DEMOS[0];
        let mut case = (*demo_case(bytes)).clone();
        case.team.surgeon = Some("Robin Thorn".into());
        case.team.nurse = Some("Kim Ebert".into());
        let case = traywright_core::case::ValidCase::checked(&case).unwrap();
        let document = Document::unsaved(case);
        let left = |by: Option<&str>| {
            let by = by.map(|by| Who::new(by).unwrap());
            let readers = readers(&document, Timestamp::UNIX_EPOCH, by.as_ref());
            assert_eq!((readers.saw, readers.has_team), (Vec::new(), true));
            readers
                .left
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
        };
        assert_eq!(left(None), ["Robin Thorn", "Kim Ebert"]);
        assert_eq!(left(Some("RT")), ["Kim Ebert"]);
        assert_eq!(left(Some("Kim Ebert")), ["Robin Thorn"]);
    }
}
