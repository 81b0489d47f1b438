//! The English texts, compiled in.

use super::texts::Texts;
use std::sync::LazyLock;

macro_rules! english {
    ($($subject:literal),+ $(,)?) => {
        &[$((
            concat!($subject, ".ftl"),
            include_str!(concat!("../../../assets/text/en/", $subject, ".ftl")),
        )),+]
    };
}

/// Each file's name and content, one file per subject.
const FILES: &[(&str, &str)] = english![
    "teeth",
    "plan",
    "findings",
    "figures",
    "tray",
    "cautions",
    "kit",
    "charts",
    "charts-arch",
    "sheet",
    "safety",
    "faults",
    "cli",
    "signing",
    "store",
    "history",
    "surgery",
    "record",
    "wear",
    "rules",
    "order",
    "run",
    "window",
    "parts",
    "view-arch",
    "view-case",
    "view-findings",
    "view-kit",
    "view-loading",
    "view-order",
    "view-record",
    "view-sheet",
    "view-site",
    "view-start",
    "view-surgery",
    "view-tray",
];

static ENGLISH: LazyLock<Texts> = LazyLock::new(|| {
    Texts::read("en", FILES).expect("a test reads the texts that are compiled in")
});

impl Texts {
    /// The English texts; read once, on first use.
    #[must_use]
    pub fn english() -> &'static Self {
        &ENGLISH
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_files_are_sound_and_no_id_stands_in_them_twice() {
        if let Err(fault) = Texts::read("en", FILES) {
            panic!("{fault}");
        }
    }

    #[test]
    fn every_file_of_the_folder_is_read() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../assets/text/en");
        let there: BTreeSet<_> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        let read: BTreeSet<_> = FILES.iter().map(|&(name, _)| name.to_owned()).collect();
        assert_eq!(read, there);
    }

    /// The unit of a length or an angle comes with the number ([`crate::number`]).
    #[test]
    fn no_text_writes_a_unit_beside_an_argument() {
        for (name, content) in FILES {
            let units = ["mm", "µm", "°"].map(|unit| [format!("}} {unit}"), format!("}}{unit}")]);
            let beside = content
                .lines()
                .filter(|line| units.iter().flatten().any(|unit| line.contains(unit)));
            assert_eq!(beside.collect::<Vec<_>>(), Vec::<&str>::new(), "{name}");
        }
    }

    #[test]
    fn every_text_formats_with_its_arguments_and_only_then() {
        let texts = Texts::english();
        for id in texts.ids() {
            let names = texts.arguments(id).unwrap();
            let args: Vec<_> = names.iter().map(|name| (name.as_str(), "7.5")).collect();
            let text = texts.try_get(id, &args).unwrap();
            assert!(
                !text.trim().is_empty() && !text.contains(['⟨', '⟩']),
                "{id}: {text}"
            );
            for missing in 0..args.len() {
                let mut fewer = args.clone();
                fewer.remove(missing);
                assert!(
                    texts.try_get(id, &fewer).is_err(),
                    "{id} without {}",
                    args[missing].0
                );
            }
        }
    }
}
