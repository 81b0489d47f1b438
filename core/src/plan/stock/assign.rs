//! Distribution of uses over the pieces of a drill, for an order that is given.
//!
//! Worksheet and run order both ask here, so that they never name different drills.

/// The piece for each use, from 0 by their first use. `uses` are the settings that are asked for,
/// one after the other, of interchangeable pieces, of which there are `pieces`.
///
/// A use takes the piece that is at its setting, else one that was not used yet. Where there is
/// none the setting gives way that is needed again last (Belady's rule), which for a given order is
/// the fewest re-sets. Of settings that are needed equally late it is the one that was used longest
/// ago: there is the most time to set it anew.
pub(crate) fn assign_pieces<S: PartialEq>(uses: &[S], pieces: usize) -> Vec<usize> {
    /// A piece, by the last use that it had.
    type Last = usize;
    let mut last_uses: Vec<Last> = Vec::new();
    let mut assigned = Vec::with_capacity(uses.len());
    for (n, set) in uses.iter().enumerate() {
        let needed = |last: Last| {
            let next = uses[n..].iter().position(|ahead| *ahead == uses[last]);
            next.unwrap_or(usize::MAX)
        };
        let as_asked = last_uses.iter().position(|last| uses[*last] == *set);
        let gives_way = || {
            let all = last_uses.iter().enumerate();
            let last = all.max_by_key(|(_, last)| (needed(**last), std::cmp::Reverse(**last)));
            last.map(|(piece, _)| piece)
        };
        let piece = match as_asked {
            Some(piece) => Some(piece),
            None if last_uses.len() < pieces => None,
            None => gives_way(),
        };
        let piece = piece.unwrap_or(last_uses.len());
        if piece == last_uses.len() {
            last_uses.push(n);
        }
        last_uses[piece] = n;
        assigned.push(piece);
    }
    assigned
}

#[cfg(test)]
mod tests {
    use super::assign_pieces;

    #[test]
    fn what_is_needed_last_gives_way_and_of_equals_what_was_used_longest_ago() {
        assert_eq!(assign_pieces(&[1, 2, 1, 3], 9), [0, 1, 0, 2]);
        // 1 is needed again, 2 is not.
        assert_eq!(assign_pieces(&[1, 2, 3, 1], 2), [0, 1, 1, 0]);
        // 2 is needed before 1.
        assert_eq!(assign_pieces(&[1, 2, 3, 2, 1], 2), [0, 1, 0, 1, 0]);
        // Neither is needed again, and 1 was used last.
        assert_eq!(assign_pieces(&[1, 2, 1, 3], 2), [0, 1, 0, 1]);
        assert_eq!(assign_pieces(&[1, 2, 1], 1), [0, 0, 0]);
    }
}
