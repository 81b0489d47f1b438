//! What is left in stock of things of which some fell by the record.

use super::stock::lines::StockLine;
use super::stock::loading::LoadItem;
use super::worksheet::Worksheet;
use crate::sign::Fall;

/// Number of pieces of a thing that fell and are missing.
#[must_use]
pub fn fallen(item: &LoadItem, falls: &[Fall]) -> u32 {
    let fallen = falls.iter().filter(|fall| fall.counts());
    let fallen = fallen.filter(|fall| fall.is_of(item.kind, &item.entry));
    u32::try_from(fallen.count()).unwrap_or(u32::MAX)
}

/// Number of pieces of a thing that are left where some fell; nothing where none did.
#[must_use]
pub fn left_of(item: &LoadItem, worksheet: &Worksheet, falls: &[Fall]) -> Option<u32> {
    let fallen = fallen(item, falls);
    let have = stock_of(item, worksheet).map_or(0, |line| line.have);
    (fallen > 0).then(|| have.saturating_sub(fallen))
}

/// Things of which fewer are left than the tray wants, because some fell; each kind once, with how many are lacking.
#[must_use]
pub fn none_left<'a>(worksheet: &'a Worksheet, falls: &[Fall]) -> Vec<(&'a LoadItem, u32)> {
    let mut found: Vec<(&LoadItem, u32)> = Vec::new();
    for item in &worksheet.loading {
        let wanted = worksheet.loading.iter().filter(|one| is_same(one, item));
        let wanted = u32::try_from(wanted.count()).unwrap_or(u32::MAX);
        let left = left_of(item, worksheet, falls);
        let lacking = left.map_or(0, |left| wanted.saturating_sub(left));
        if lacking > 0 && !found.iter().any(|(one, _)| is_same(one, item)) {
            found.push((item, lacking));
        }
    }
    found
}

/// The stock of a thing; nothing where the plan counts none.
#[must_use]
pub fn stock_of<'a>(item: &LoadItem, worksheet: &'a Worksheet) -> Option<&'a StockLine> {
    let list = item.kind.list();
    let mut stock = worksheet.stock.iter();
    stock.find(|line| line.entry == item.entry && line.list == list)
}

/// True if two things are alike, so that one does for the other.
#[must_use]
pub fn is_same(one: &LoadItem, other: &LoadItem) -> bool {
    (one.kind, &one.entry) == (other.kind, &other.entry)
}
