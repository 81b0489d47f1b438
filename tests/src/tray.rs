//! What two people record of an invented tray: the gauge checked, each drill set, read twice in the sterile field and laid.

use std::num::NonZeroU32;
use traywright_core::case::ValidCase;
use traywright_core::plan::{case_jaw, plan_view, with_planned, work_out};
use traywright_core::sign::{EventKind, HandStep, Merged, Reading, Stage, ThingKey, Turn};

/// Everything that is recorded of the loaded tray of a case, in order, each with who records it.
///
/// # Panics
///
/// The case has no gauge or no slots: an invented one has.
#[must_use]
pub fn loaded(case: &ValidCase) -> Vec<(&'static str, EventKind)> {
    let purpose = case.purpose();
    let worksheet = work_out(case);
    let none = Merged::of(case_jaw(case), []).expect("no logs");
    let view = plan_view(case, &worksheet, &none);
    let gauge = case.gauge().expect("a gauge");
    let piece_mm = gauge.check_piece_mm.expect("a check piece");
    let mut kinds = vec![(
        "MK",
        EventKind::GaugeChecked {
            gauge: gauge.id.to_string(),
            piece_mm,
            value_mm: gauge.shows_of(piece_mm).expect("a figure"),
            asked_back_mm: Vec::new(),
            purpose: Some(purpose),
        },
    )];
    for (item, planned) in with_planned(&worksheet, &view) {
        let slot = item.slot.as_ref().map(ToString::to_string);
        let Some(planned) = planned else {
            let thing = ThingKey {
                of: item.kind,
                entry: item.entry.clone(),
                copy: NonZeroU32::new(item.copy).expect("from 1"),
            };
            let purpose = Some(purpose);
            kinds.push((
                "MK",
                EventKind::ThingPlaced {
                    thing,
                    slot,
                    purpose,
                },
            ));
            continue;
        };
        let key = || planned.key.clone();
        for step in [HandStep::Set, HandStep::Locked, HandStep::Tugged] {
            let item = key();
            kinds.push((
                "MK",
                EventKind::Handled {
                    item,
                    step,
                    purpose,
                },
            ));
        }
        if let Some(value_mm) = planned.gauge_figure_mm {
            for (turn, who) in [(Turn::First, "MK"), (Turn::Second, "JH")] {
                let reading = Reading {
                    item: key(),
                    gauge: planned.gauge.clone(),
                    value_mm,
                    stage: Stage::SterileField,
                    turn,
                    purpose,
                    entered_by: None,
                };
                kinds.push((who, EventKind::Reading(reading)));
            }
        }
        kinds.push((
            "MK",
            EventKind::Placed {
                item: key(),
                slot: slot.expect("a slot"),
                purpose: Some(purpose),
            },
        ));
    }
    kinds
}
