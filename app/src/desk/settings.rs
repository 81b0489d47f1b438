//! This user's preferences and recent files. Nothing of a case is in it but where files are.

use super::refusal::{Refusal, refused_by_disk};
use crate::look::Mode;
use crate::platform::Platform;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};
use std::path::{Path, PathBuf};
use traywright_core::dentition::Notation;
use traywright_core::sign::WriterId;
use traywright_core::store::{Private, StoreError, StoreFault, read_file, shown, write_safely};
use traywright_core::text::Texts;

/// Number of files that the start page remembers.
pub const MOST_RECENT: usize = 8;

/// The most bytes of a settings file that are read.
const MOST_BYTES: u64 = 1024 * 1024;

/// The name that every desk had before each had its own: two desks of one name write one file.
const NAME_OF_ALL: &str = "desk";

/// The settings of one user.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Settings {
    /// Light or dark.
    pub mode: Mode,
    /// The numbering of teeth.
    pub notation: Notation,
    /// Name of this desk, of its own; each desk signs in a file of its own.
    pub desk: String,
    /// Name of the person at the desk.
    pub person: String,
    /// Case files opened lately, the last first.
    pub recent: Vec<PathBuf>,
    /// The kit file that new entries are taken from.
    pub kit: Option<PathBuf>,
    /// What could not be read, or is of another version, and stays as it stands in the file.
    #[serde(skip)]
    left: Left,
}

/// What is left in the settings file as it stands there.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
enum Left {
    /// Nothing.
    #[default]
    Nothing,
    /// The whole file: it cannot be read.
    All,
    /// These entries, each beside what counts here in its place; an entry that is unknown here has nothing.
    Entries(Vec<(String, Value, Option<Value>)>),
}

impl Settings {
    /// The settings of a user who has none yet.
    #[must_use]
    pub fn new(desk: String) -> Self {
        Self {
            mode: Mode::Light,
            notation: Notation::Iso,
            desk,
            person: String::new(),
            recent: Vec::new(),
            kit: None,
            left: Left::Nothing,
        }
    }

    /// Reads a settings file; `desk` is the name of a desk that has none of its own yet. An entry that cannot be
    /// read falls back alone and stays in the file as it is. Gives back what could not be read, in words.
    #[must_use]
    pub fn read(file: &Path, desk: String) -> (Self, Option<String>) {
        let texts = Texts::english();
        let mut settings = Self::new(desk);
        let unread = |mut settings: Self, why: &str| {
            settings.left = Left::All;
            let path = shown(file);
            let args = [("file", path.as_str()), ("why", why)];
            (settings, Some(texts.get("settings-unread", &args)))
        };
        let bytes = match read_file(file, MOST_BYTES) {
            Ok(bytes) => bytes,
            Err(error) if error.fault == StoreFault::NotFound => return (settings, None),
            Err(error) if error.fault == StoreFault::NoFolder => return (settings, None),
            Err(error) => return unread(settings, &refused_by_disk(&error).0),
        };
        let entries: Map<String, Value> = match serde_json::from_slice(&bytes) {
            Ok(entries) => entries,
            Err(error) => return unread(settings, &error.to_string()),
        };
        let mut faulty = Vec::new();
        let mut left = Vec::new();
        for (key, value) in entries {
            match settings.take(&key, &value) {
                Some(true) => {}
                Some(false) => {
                    let here = serde_json::to_value(&settings).ok();
                    let here = here.and_then(|here| here.get(&key).cloned());
                    faulty.push(key.clone());
                    left.push((key, value, here));
                }
                None => left.push((key, value, None)),
            }
        }
        settings.left = Left::Entries(left);
        let path = shown(file);
        let list = faulty.join(", ");
        let args = [("file", path.as_str()), ("entries", &list)];
        let told = (!faulty.is_empty()).then(|| texts.get("settings-faulty", &args));
        (settings, told)
    }

    /// Takes one entry; says whether it could be read, and nothing of one that is unknown here.
    fn take(&mut self, key: &str, value: &Value) -> Option<bool> {
        fn taken<T: DeserializeOwned>(to: &mut T, value: &Value) -> bool {
            let read = serde_json::from_value(value.clone()).ok();
            read.map(|read| *to = read).is_some()
        }
        Some(match key {
            "mode" => taken(&mut self.mode, value),
            "notation" => taken(&mut self.notation, value),
            "desk" => match value.as_str() {
                // A name of its own was given meanwhile.
                Some(NAME_OF_ALL) => true,
                Some(name) if WriterId::new(name).is_ok() => {
                    name.clone_into(&mut self.desk);
                    true
                }
                _ => false,
            },
            "person" => taken(&mut self.person, value),
            "recent" => taken(&mut self.recent, value),
            "kit" => taken(&mut self.kit, value),
            _ => return None,
        })
    }

    /// True if they cannot be written, since what lies there cannot be read.
    #[must_use]
    pub fn are_unread(&self) -> bool {
        self.left == Left::All
    }

    /// Writes them, for this user alone to read. What could not be read stays as it stood; where that is the
    /// whole file, nothing is written.
    ///
    /// # Errors
    ///
    /// The error of the disk.
    pub fn write(&self, file: &Path) -> Result<(), StoreError> {
        let left = match &self.left {
            Left::All => return Ok(()),
            Left::Nothing => &[][..],
            Left::Entries(left) => left,
        };
        if let Some(folder) = file.parent() {
            // Where this fails, so does the writing, and that says why.
            let _ = Private::OWN.folder_and_above(folder);
        }
        let mut entries = match serde_json::to_value(self) {
            Ok(Value::Object(entries)) => entries,
            _ => Map::new(),
        };
        for (key, value, here) in left {
            // What a person chose since takes its place.
            if entries.get(key) == here.as_ref() {
                entries.insert(key.clone(), value.clone());
            }
        }
        let text = serde_json::to_string_pretty(&entries).unwrap_or_default();
        write_safely(file, text.as_bytes(), Private::OWN)
    }

    /// Remembers a file as the last one opened.
    pub fn remember(&mut self, file: &Path) {
        self.recent.retain(|other| other != file);
        self.recent.insert(0, file.to_owned());
        self.recent.truncate(MOST_RECENT);
    }
}

/// The name of this user's desk. One that has none gets one that is kept before anything is written under it.
///
/// # Errors
///
/// Settings cannot be read, or none can be kept.
pub(crate) fn own_desk(platform: &dyn Platform) -> Result<String, Refusal> {
    let texts = Texts::english();
    let refused = |id, why: &str| Refusal(texts.get(id, &[("why", why)]));
    let Some(file) = platform.settings_file() else {
        return Err(Refusal(texts.get("cli-desk-nowhere", &[])));
    };
    let (settings, told) = Settings::read(&file, platform.new_desk());
    let is_kept = |settings: &Settings| {
        let (kept, _) = Settings::read(&file, String::new());
        kept.desk == settings.desk
    };
    if !is_kept(&settings) {
        let written = settings.write(&file);
        written.map_err(|error| refused("cli-desk-unkept", &refused_by_disk(&error).0))?;
        if let Some(told) = told.filter(|_| !is_kept(&settings)) {
            return Err(refused("cli-desk-unread", &told));
        }
    }
    Ok(settings.desk)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn kept(entries: &Value) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("settings.json");
        std::fs::write(&file, entries.to_string()).unwrap();
        (folder, file)
    }

    fn in_file(file: &Path) -> Value {
        serde_json::from_slice(&std::fs::read(file).unwrap()).unwrap()
    }

    #[test]
    fn an_entry_that_cannot_be_read_falls_back_alone_and_stays_in_the_file() {
        let entries = json!({
            "mode": "sepia", "notation": "roman", "desk": "Left desk!", "person": "RT",
            "recent": ["/a.json"], "kit": 7, "of a newer version": [1],
        });
        let (_folder, file) = kept(&entries);
        let (mut settings, told) = Settings::read(&file, "desk-new".to_owned());
        let told = told.unwrap();
        for entry in ["mode", "notation", "desk", "kit"] {
            assert!(told.contains(entry), "{told}");
        }
        assert!(
            !told.contains("person") && !told.contains("newer"),
            "{told}"
        );
        assert_eq!(settings.person, "RT");
        assert_eq!(settings.recent, [PathBuf::from("/a.json")]);
        assert_eq!(
            (settings.mode, settings.notation),
            (Mode::Light, Notation::Iso)
        );
        assert_eq!(settings.desk, "desk-new");
        settings.person = "MK".to_owned();
        settings.write(&file).unwrap();
        let mut want = entries;
        want["person"] = json!("MK");
        assert_eq!(in_file(&file), want);
        // What a person chooses takes the place of what could not be read.
        settings.mode = Mode::Dark;
        settings.write(&file).unwrap();
        want["mode"] = json!("dark");
        assert_eq!(in_file(&file), want);
    }

    #[test]
    fn a_settings_file_that_cannot_be_read_is_never_written_over() {
        let (_folder, file) = kept(&json!(null));
        for there in ["{ half of", "[]", "\u{0}"] {
            std::fs::write(&file, there).unwrap();
            let (settings, told) = Settings::read(&file, "desk-new".to_owned());
            assert!(told.is_some() && settings.are_unread());
            settings.write(&file).unwrap();
            assert_eq!(std::fs::read_to_string(&file).unwrap(), there);
        }
    }

    #[test]
    fn every_numbering_is_read_as_it_is_written() {
        for notation in Notation::ALL {
            let (_folder, file) = kept(&json!({ "notation": notation, "desk": "left" }));
            let (read, told) = Settings::read(&file, String::new());
            assert_eq!((read.notation, told), (notation, None));
            assert_eq!(read.desk, "left");
        }
    }

    /// `desk` was the name of every desk.
    #[test]
    fn a_desk_without_a_name_of_its_own_gets_one() {
        let (_folder, file) = kept(&json!({ "desk": "desk" }));
        let (read, told) = Settings::read(&file, "desk-new".to_owned());
        assert_eq!((read.desk.as_str(), told), ("desk-new", None));
        read.write(&file).unwrap();
        assert_eq!(in_file(&file)["desk"], "desk-new");
    }

    #[cfg(unix)]
    #[test]
    fn nobody_else_can_read_them() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("of this user").join("settings.json");
        Settings::new("left".to_owned()).write(&file).unwrap();
        let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!((mode(file.parent().unwrap()), mode(&file)), (0o700, 0o600));
    }
}
