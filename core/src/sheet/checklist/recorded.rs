//! Readings as the record has them, for a sheet that is printed after loading.

use crate::kit::StopId;
use crate::measure::Length;
use crate::plan::LoadItem;
use crate::sign::{EventId, ItemStanding, Stage, Standing};
use jiff::Timestamp;

/// A reading that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedReading {
    /// The gauge's figure.
    pub value: Length,
    /// The person who took it.
    pub who: String,
    /// The time.
    pub at: Timestamp,
    /// The stage at which it was taken.
    pub stage: Stage,
}

/// The readings of a setting: of each turn the last one that counts, in the sterile field before on the bench.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedItem {
    /// The kit's drill.
    pub(super) drill: String,
    /// The kit's stop.
    pub(super) stop: Option<String>,
    /// Set length.
    pub(super) set: Length,
    /// The first reading.
    pub first: Option<RecordedReading>,
    /// The second reading.
    pub second: Option<RecordedReading>,
}

impl RecordedItem {
    /// What of a setting was read.
    pub(super) fn of(item: &ItemStanding, standing: &Standing) -> Self {
        let reading = |id: &EventId| {
            let mut all = standing.readings.iter();
            let found = all.find(|one| one.id == *id)?;
            Some(RecordedReading {
                value: found.reading.value_mm,
                who: found.who.as_str().to_owned(),
                at: found.at,
                stage: found.reading.stage,
            })
        };
        let mut own = Self {
            drill: item.item.drill.clone(),
            stop: item.item.stop.clone(),
            set: item.item.setting_mm,
            first: None,
            second: None,
        };
        for stage in [Stage::SterileField, Stage::Bench] {
            let Some(check) = item.checks.get(&stage) else {
                continue;
            };
            if own.first.is_none() {
                own.first = check.first.as_ref().and_then(reading);
            }
            if own.second.is_none() {
                own.second = check.second.as_ref().and_then(reading);
            }
        }
        own
    }

    fn is_of(&self, item: &LoadItem) -> bool {
        let Some(on) = &item.set else {
            return false;
        };
        let stop = on.stop.as_ref().map(StopId::as_str);
        item.entry == self.drill
            && stop == self.stop.as_deref()
            && on.set.get().is_some_and(|set| set == self.set)
    }
}

/// What was read of the items of a loading list, each beside its own; of equal ones in their order.
pub(super) fn beside<'a>(
    all: &'a [RecordedItem],
    loading: &[&LoadItem],
) -> Vec<Option<&'a RecordedItem>> {
    let mut left: Vec<&RecordedItem> = all.iter().collect();
    loading
        .iter()
        .map(|item| {
            let at = left.iter().position(|one| one.is_of(item))?;
            Some(left.remove(at))
        })
        .collect()
}
