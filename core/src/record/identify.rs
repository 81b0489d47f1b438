//! Which implant of the kit a code on a label is of.

use crate::kit::{Implant, ImplantId, Kit};

/// What a code on a label says of the implant beside the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Identified<'k> {
    /// It is the planned one.
    Planned(&'k Implant),
    /// It is another one of the kit.
    Other(&'k Implant),
    /// The kit has none, or several, by this code: nobody can say.
    Unknown,
}

impl<'k> Identified<'k> {
    /// The kit's implant; none where nobody can say.
    #[must_use]
    pub const fn implant(self) -> Option<&'k Implant> {
        match self {
            Self::Planned(implant) | Self::Other(implant) => Some(implant),
            Self::Unknown => None,
        }
    }
}

/// The implant that a code is of: by the code that the kit has for it, by its id or by its name, whatever the letters' case
/// and whatever stands between the signs.
#[must_use]
pub fn identify<'k>(kit: &'k Kit, planned: Option<&ImplantId>, code: &str) -> Identified<'k> {
    let code = plain(code);
    if code.is_empty() {
        return Identified::Unknown;
    }
    let is = |implant: &&Implant| {
        let codes = implant.code.iter().map(|code| plain(code.as_str()));
        let names = [plain(implant.id.as_str()), plain(implant.name.as_str())];
        codes.chain(names).any(|one| one == code)
    };
    let mut found = kit.implants.iter().filter(is);
    match (found.next(), found.next()) {
        (Some(one), None) if planned == Some(&one.id) => Identified::Planned(one),
        (Some(one), None) => Identified::Other(one),
        _ => Identified::Unknown,
    }
}

/// The planned implant, where the kit has no code for it and its label tells it from every other one of the kit by name, diameter
/// and length; none where a code would say it, or nothing does.
#[must_use]
pub fn by_its_label<'k>(kit: &'k Kit, planned: Option<&ImplantId>) -> Option<&'k Implant> {
    let planned = kit.implant(planned?).filter(|one| one.code.is_none())?;
    let label = |one: &Implant| {
        let name = plain(one.name.as_str());
        (name, one.diameter_mm, one.nominal_length_mm)
    };
    let mut others = kit.implants.iter().filter(|one| one.id != planned.id);
    (!others.any(|one| label(one) == label(planned))).then_some(planned)
}

/// Letters and digits alone, small: a label has a code with hyphens, or without.
fn plain(code: &str) -> String {
    let kept = code.chars().filter(|c| c.is_alphanumeric() || *c == '.');
    kept.flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::demo_kit;

    #[test]
    fn a_code_is_of_one_implant_or_of_none() {
        let mut kit = demo_kit();
        kit.implants[0].code = Some("R-363-074".into());
        kit.implants[2].code = Some("04012345678901".into());
        let id = kit.implants[0].id.clone();
        let said = |kit: &Kit, code: &str| match identify(kit, Some(&id), code) {
            Identified::Planned(one) => format!("planned {}", one.id),
            Identified::Other(one) => format!("other {}", one.id),
            Identified::Unknown => "unknown".to_owned(),
        };
        let (first, second) = (kit.implants[0].id.clone(), kit.implants[1].clone());
        for code in ["r363074", "R-363 074", first.as_str()] {
            assert_eq!(said(&kit, code), format!("planned {first}"), "{code}");
        }
        for code in [second.id.as_str(), second.name.as_str()] {
            assert_eq!(said(&kit, code), format!("other {}", second.id), "{code}");
        }
        for code in ["", " - ", "R-363", "04012345678902"] {
            assert_eq!(said(&kit, code), "unknown", "{code}");
        }
        // Of two implants by one code nobody can say which it is.
        kit.implants[1].code = Some("04012345678901".into());
        assert_eq!(said(&kit, "04012345678901"), "unknown");
    }

    /// Where the kit has a code that says it; where another one has the same label nothing tells them apart.
    #[test]
    fn a_label_tells_an_implant_where_no_code_does() {
        let mut kit = demo_kit();
        let id = kit.implants[0].id.clone();
        let told = |kit: &Kit| by_its_label(kit, Some(&id)).map(|one| one.id.clone());
        assert_eq!(by_its_label(&kit, None), None);
        assert_eq!(told(&kit), Some(id.clone()));
        let mut twin = kit.implants[0].clone();
        twin.id = "twin".into();
        kit.implants.push(twin);
        assert_eq!(told(&kit), None);
        kit.implants.pop();
        kit.implants[0].code = Some("R-363-074".into());
        assert_eq!(told(&kit), None);
    }
}
