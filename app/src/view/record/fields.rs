//! What is typed for each kind of entry, and what it is read as.

use super::Context;
use traywright_core::measure::{Length, Torque, parse_thousandths};
use traywright_core::record::{Label, read_day};
use traywright_core::sign::{
    Departure, Entry, EntryKind, Given, HealingPart, Material, PlacedImplant, SiteKey,
    StabilityMethod,
};

/// A part of an entry: the id of its label.
pub(super) type Part = &'static str;

/// What is typed for a kind, in this order.
pub(super) const fn parts(kind: EntryKind) -> &'static [Part] {
    match kind {
        EntryKind::Implant => &["view-record-code", "view-record-lot", "view-record-expiry"],
        EntryKind::Torque => &["view-record-torque"],
        EntryKind::Depth => &["view-record-by", "view-record-way"],
        EntryKind::Stability => &["view-record-value", "view-record-method"],
        EntryKind::Graft => &[
            "view-record-material",
            "view-record-lot",
            "view-record-expiry",
        ],
        EntryKind::Closure => &["view-record-how"],
        EntryKind::Healing => &[
            "view-record-part",
            "view-record-lot",
            "view-record-part-torque",
        ],
        EntryKind::Deviation => &["view-record-what", "view-record-why"],
        EntryKind::Discarded => &["view-record-instrument", "view-record-why"],
    }
}

/// True if what was typed first leaves nothing more to be asked: nothing was put in, or it is as planned.
pub(super) fn is_whole(kind: EntryKind, first: &str) -> bool {
    match kind {
        EntryKind::Depth => Length::parse_mm(first.trim()) == Ok(Length::ZERO),
        EntryKind::Graft | EntryKind::Healing | EntryKind::Deviation => is_none(first),
        _ => false,
    }
}

fn is_none(typed: &str) -> bool {
    typed.trim().eq_ignore_ascii_case("none")
}

/// A fault of a part, as a sentence.
pub(super) type PartFault = (usize, String);

/// What was typed as an entry.
///
/// # Errors
///
/// The first part that cannot be read, and why.
pub(super) fn read(
    cx: &Context<'_>,
    (site, kind): (Option<&SiteKey>, EntryKind),
    typed: &[String],
) -> Result<Entry, PartFault> {
    let at = |index: usize| typed.get(index).map_or("", |text| text.trim());
    let said = |index: usize| {
        let text = at(index);
        if text.is_empty() {
            Err((index, cx.word("view-record-needed")))
        } else {
            Ok(text.to_owned())
        }
    };
    let maybe = |index: usize| (!at(index).is_empty()).then(|| at(index).to_owned());
    let day = |index: usize| match at(index) {
        "" => Ok(None),
        text => match read_day(text) {
            Some(day) => Ok(Some(day)),
            None => Err((index, cx.word("view-record-no-day"))),
        },
    };
    let torque = |index: usize| {
        read_torque(at(index)).ok_or_else(|| (index, cx.word("view-record-no-torque")))
    };
    if kind == EntryKind::Discarded {
        return Ok(Entry::Discarded {
            what: said(0)?,
            reason: said(1)?,
        });
    }
    let Some(site) = site.cloned() else {
        return Err((0, cx.word("view-record-needed")));
    };
    Ok(match kind {
        EntryKind::Implant => Entry::Implant(PlacedImplant {
            site,
            code: said(0)?,
            lot: maybe(1),
            expiry: day(2)?,
            given: Given::Typed,
            implant: None,
            planned: None,
            because: None,
            compared: None,
        }),
        EntryKind::Torque => Entry::Torque {
            site,
            torque_ncm: torque(0)?,
        },
        EntryKind::Depth => Entry::Depth {
            site,
            coronal_of_plan_mm: depth(cx, at(0), at(1))?,
        },
        EntryKind::Stability => {
            let (method, value) = stability(cx, at(0), at(1))?;
            Entry::Stability {
                site,
                method,
                value,
            }
        }
        EntryKind::Graft if is_none(at(0)) => Entry::Graft {
            site,
            material: None,
        },
        EntryKind::Graft => Entry::Graft {
            site,
            material: Some(Material {
                what: said(0)?,
                lot: maybe(1),
                expiry: day(2)?,
            }),
        },
        EntryKind::Closure => Entry::Closure {
            site,
            how: said(0)?,
        },
        EntryKind::Healing if is_none(at(0)) => Entry::Healing { site, part: None },
        EntryKind::Healing => {
            let torque_ncm = if at(2).is_empty() {
                None
            } else {
                Some(torque(2)?)
            };
            let (what, lot) = (said(0)?, maybe(1));
            let part = Some(HealingPart {
                what,
                lot,
                torque_ncm,
            });
            Entry::Healing { site, part }
        }
        EntryKind::Deviation if is_none(at(0)) => Entry::Deviation {
            site,
            departure: None,
        },
        EntryKind::Deviation | EntryKind::Discarded => Entry::Deviation {
            site,
            departure: Some(Departure {
                what: said(0)?,
                reason: said(1)?,
            }),
        },
    })
}

/// A torque as it is typed, whole N·cm within 1 to 200.
fn read_torque(text: &str) -> Option<Torque> {
    let thousandths = parse_thousandths(text).ok()?;
    let whole = (thousandths % 1000 == 0).then_some(thousandths / 1000)?;
    let ncm = i32::try_from(whole).ok()?;
    (1..=200).contains(&ncm).then(|| Torque::from_ncm(ncm))
}

/// How far coronal of its planned depth an implant stopped.
fn depth(cx: &Context<'_>, by: &str, way: &str) -> Result<Length, PartFault> {
    let by = Length::parse_mm(by).ok();
    let by = by.filter(|by| *by >= Length::ZERO && *by <= Length::from_mm(20));
    let by = by.ok_or_else(|| (0, cx.word("view-record-no-length")))?;
    match way.to_lowercase().as_str() {
        _ if by == Length::ZERO => Ok(by),
        "c" | "coronal" => Ok(by),
        "a" | "apical" => Ok(Length::ZERO - by),
        _ => Err((1, cx.word("view-record-no-way"))),
    }
}

/// A value of stability, and how it was measured.
fn stability(
    cx: &Context<'_>,
    value: &str,
    method: &str,
) -> Result<(StabilityMethod, i32), PartFault> {
    let method = match method.to_lowercase().as_str() {
        "r" | "resonance" => StabilityMethod::Resonance,
        "d" | "damping" => StabilityMethod::Damping,
        _ => return Err((1, cx.word("view-record-no-method"))),
    };
    let value = value.replace('−', "-").parse::<i32>().ok();
    let (least, most) = StabilityMethod::FIGURES;
    let value = value.filter(|value| (least..=most).contains(value));
    let fault = || {
        let (least, most) = (least.to_string(), most.to_string());
        let args = [("least", least.as_str()), ("most", &most)];
        (0, cx.text("view-record-no-value", &args))
    };
    Ok((method, value.ok_or_else(fault)?))
}

/// Where what was typed is the scanned label to the letter.
pub(super) fn given(label: Option<&Label>, placed: &PlacedImplant) -> Given {
    let same = label.is_some_and(|label| {
        (&label.code, &label.lot, label.expiry) == (&placed.code, &placed.lot, placed.expiry)
    });
    if same { Given::Scanned } else { Given::Typed }
}
