//! The cases and the kit that ship with the program, as files.

/// The kit.
pub const KIT: &[u8] = include_bytes!("../../../demo/kit.json");

macro_rules! cases {
    ($($constant:ident = $name:literal;)+) => {
        $(
            #[doc = concat!("The case `", $name, "`.")]
            pub const $constant: &[u8] = include_bytes!(concat!("../../../demo/", $name, ".json"));
        )+
        /// The cases by name.
        pub const CASES: &[(&str, &[u8])] = &[$(($name, $constant)),+];
    };
}

cases! {
    FIXED_STOPS = "fixed-stops";
    FRESH_SOCKET = "fresh-socket";
    FULL_ARCH_UPPER = "full-arch-upper";
    ONE_FIGURE = "one-figure";
    ONE_PREMOLAR = "one-premolar";
    TWO_MOLARS = "two-molars";
    UPPER_FACE_GAUGE = "upper-face-gauge";
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use std::path::Path;

    #[test]
    fn every_file_that_ships_is_here() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo");
        let files = std::fs::read_dir(folder).unwrap();
        let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
        let shipped: BTreeSet<String> = names.filter(|name| name != "README.md").collect();
        let here = CASES.iter().map(|(name, _)| *name).chain(["kit"]);
        assert_eq!(shipped, here.map(|name| format!("{name}.json")).collect());
    }
}
