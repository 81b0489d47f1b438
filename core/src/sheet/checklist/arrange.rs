//! The order of the pages: the second reading has a leaf without any setting.

use super::every_page::Heading;
use super::parts::Part;
use crate::sheet::Page;
use crate::sheet::error::SheetError;

/// A part with its pages.
pub(super) struct PartPages<'a> {
    pub(super) part: Part<'a>,
    pub(super) heading: Heading,
    pub(super) pages: Vec<Page>,
}

/// The parts in the order of the work, but that those that bear no setting fill up to the second
/// reading and behind it: it begins on a front, and no setting is on its back. Where no such part
/// fits a page is left free.
///
/// # Errors
///
/// Those of laying the free page.
pub(super) fn arranged(
    parts: Vec<PartPages<'_>>,
    left_free: impl Fn() -> Result<Vec<Page>, SheetError>,
) -> Result<Vec<PartPages<'_>>, SheetError> {
    let is_reading = |one: &PartPages<'_>| matches!(one.part, Part::SecondReading);
    if !parts.iter().any(is_reading) {
        return Ok(parts);
    }
    let (mut blind, others): (Vec<_>, Vec<_>) = parts
        .into_iter()
        .partition(|one| one.part.bears_no_setting());
    let mut out: Vec<PartPages<'_>> = Vec::new();
    for one in others {
        if !is_reading(&one) {
            out.push(one);
            continue;
        }
        if is_odd(&out) {
            let fits = |one: &PartPages<'_>| !one.pages.len().is_multiple_of(2);
            match blind.iter().position(fits) {
                Some(index) => out.push(blind.remove(index)),
                None => end_with(&mut out, left_free()?),
            }
        }
        out.push(one);
        if is_odd(&out) && blind.is_empty() {
            end_with(&mut out, left_free()?);
        }
        out.append(&mut blind);
    }
    Ok(out)
}

fn is_odd(parts: &[PartPages<'_>]) -> bool {
    let pages: usize = parts.iter().map(|one| one.pages.len()).sum();
    !pages.is_multiple_of(2)
}

fn end_with(parts: &mut [PartPages<'_>], pages: Vec<Page>) {
    if let Some(last) = parts.last_mut() {
        last.pages.extend(pages);
    }
}
