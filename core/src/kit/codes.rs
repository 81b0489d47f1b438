//! The codes that stand on things, for a scanner.

use super::{Kit, Label, ScanCode, SlotKind};
use crate::document::{Checks, Path};

/// A thing of a kit with its code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Coded {
    /// The code.
    pub code: ScanCode,
    /// The kind of thing.
    pub kind: SlotKind,
    /// Its id in the kit.
    pub entry: String,
    /// Its name for people.
    pub name: Label,
}

/// Everything that lies on a tray, list by list.
macro_rules! coded {
    ($kit:expr, $of:ident) => {
        [
            $of!($kit, drills, Drill),
            $of!($kit, drill_sleeves, Sleeve),
            $of!($kit, implants, Implant),
            $of!($kit, carriers, Carrier),
            $of!($kit, drivers, Driver),
            $of!($kit, pins, Pin),
            $of!($kit, accessories, Accessory),
        ]
    };
}

impl Kit {
    /// Everything that has a code.
    #[must_use]
    pub fn coded(&self) -> Vec<Coded> {
        macro_rules! of_list {
            ($kit:expr, $list:ident, $kind:ident) => {{
                let coded = $kit.$list.iter().filter_map(|one| {
                    Some(Coded {
                        code: one.code.clone()?,
                        kind: SlotKind::$kind,
                        entry: one.id.to_string(),
                        name: one.name.clone(),
                    })
                });
                coded.collect::<Vec<Coded>>()
            }};
        }
        coded!(self, of_list).concat()
    }
}

/// A code names one thing.
pub(super) fn check(kit: &Kit, root: &Path, checks: &mut Checks) {
    macro_rules! of_list {
        ($kit:expr, $list:ident, $kind:ident) => {{
            let list = root.key(stringify!($list));
            let coded = $kit.$list.iter().enumerate();
            let coded = coded.filter_map(|(n, one)| Some((list.item(n), one.code.as_ref()?)));
            coded.collect::<Vec<(Path, &ScanCode)>>()
        }};
    }
    let all = coded!(kit, of_list).concat();
    for (n, (at, code)) in all.iter().enumerate() {
        let mut before = all[..n].iter();
        let same = before.find(|(_, other)| other.is_typed_as(code.as_str()));
        if let Some((first, _)) = same {
            checks.same(at.key("code"), first.clone(), ("code", code.as_str()));
        }
    }
}
