//! What is not to be used: a drill whose stop and sleeves do not fit each other, which nobody accepted.

use super::Worksheet;
use crate::case::{Place, Subject};
use crate::plan::depth::fits::Fits;
use crate::plan::finding::{Finding, Severity};
use crate::plan::stock::loading::{LoadItem, ServedPlace};

/// The finding of a misfit of a thing as it is used, where it is short and was not accepted; nothing where it fits as far
/// as is known.
#[must_use]
pub fn misfit<'a>(item: &LoadItem, worksheet: &'a Worksheet) -> Option<&'a Finding> {
    let set = item.set.as_ref()?;
    let serves = |place: &ServedPlace, finding: &Finding| match (&place.site, &place.step) {
        (Some(_), Some(_)) => (&finding.site, &finding.step) == (&place.site, &place.step),
        (None, _) => {
            let mut pins = worksheet.pins.iter().enumerate();
            pins.any(|(n, pin)| pin.drill == set.drill && finding.place == Place::Pin(n))
        }
        _ => false,
    };
    refusing(&worksheet.findings)
        .find(|finding| item.serves.iter().any(|place| serves(place, finding)))
}

/// Says of each step, pin and drill of the worksheet if it may be used, once all findings with their decisions are there.
pub(super) fn mark(sheet: &mut Worksheet) {
    let findings = &sheet.findings;
    for site in &mut sheet.sites {
        for step in &mut site.steps {
            let here = |one: &Finding| {
                (one.site.as_ref(), one.step.as_ref()) == (Some(&site.id), Some(&step.id))
            };
            step.fits = fits(refusing(findings).any(here));
        }
    }
    for (n, pin) in sheet.pins.iter_mut().enumerate() {
        pin.fits = fits(refusing(findings).any(|one| one.place == Place::Pin(n)));
    }
    let of = |item: &LoadItem| fits(misfit(item, sheet).is_some());
    let loaded: Vec<Fits> = sheet.loading.iter().map(of).collect();
    let set_anew: Vec<Fits> = sheet.resets.iter().map(|reset| of(&reset.to)).collect();
    let resets = sheet.resets.iter_mut().map(|reset| &mut reset.to);
    let loading = sheet.loading.iter_mut().zip(loaded);
    for (item, fits) in loading.chain(resets.zip(set_anew)) {
        if let Some(on) = &mut item.set {
            on.fits = fits;
        }
    }
}

const fn fits(refused: bool) -> Fits {
    if refused {
        Fits::No
    } else {
        Fits::AsFarAsKnown
    }
}

/// The findings about instruments that are short and were not accepted.
fn refusing(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    findings.iter().filter(|finding| {
        finding.subject() == Subject::Instrument && finding.severity() == Severity::Short
    })
}
