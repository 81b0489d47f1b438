//! The order of the pages: the second reading is on leaves without any setting.

use super::every_page::Heading;
use crate::sheet::Page;
use crate::sheet::error::SheetError;

/// A part with its pages.
pub(super) struct PartPages {
    pub(super) bears_no_setting: bool,
    pub(super) is_reading: bool,
    pub(super) heading: Heading,
    /// The heading of all pages but the first, where it is another.
    pub(super) further: Option<Heading>,
    /// True if its first page has the box for the patient's label.
    pub(super) labelled: bool,
    pub(super) pages: Vec<Page>,
}

/// True if a page is left free between so many pages without a setting and others that follow.
pub(super) const fn needs_free_page(blind: usize, others: usize) -> bool {
    !blind.is_multiple_of(2) && others > 0
}

/// The parts as they came, those that bear no setting first among them; where the second reading is on
/// the last leaf of these, and a page with settings would be on its back, a page is left free.
///
/// # Errors
///
/// Those of laying the free page.
pub(super) fn arranged(
    mut parts: Vec<PartPages>,
    left_free: impl Fn(&Heading) -> Result<Vec<Page>, SheetError>,
) -> Result<Vec<PartPages>, SheetError> {
    if !parts.iter().any(|one| one.is_reading) {
        return Ok(parts);
    }
    let blind = parts.iter().take_while(|one| one.bears_no_setting).count();
    let pages: usize = parts[..blind].iter().map(|one| one.pages.len()).sum();
    if needs_free_page(pages, parts.len() - blind)
        && let Some(last) = parts[..blind].last_mut()
    {
        let free = left_free(&last.heading)?;
        last.pages.extend(free);
    }
    Ok(parts)
}
