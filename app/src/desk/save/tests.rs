use super::*;
use crate::desk::{DEMOS, Followed, demo_case, read_case_file};
use traywright_core::case::Edit;
use traywright_core::kit::SiteId;
use traywright_core::measure::Length;
use traywright_core::sign::EventKind;

/// A folder with the six-site case.
fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("case.json");
    let case = demo_case(DEMOS[2].1);
    std::fs::write(&file, print(&*case).unwrap()).unwrap();
    (folder, file)
}

/// This desk, at no time in particular.
pub(in crate::desk) fn here() -> SavedAt {
    SavedAt {
        at: jiff::Timestamp::UNIX_EPOCH,
        desk: "desk".into(),
    }
}

fn open(file: &Path) -> Document {
    Document::opened(read_case_file(file).unwrap(), file.to_owned())
}

/// Plans a site deeper.
fn deepen(document: &mut Document, site: usize, um: i64) -> SiteId {
    let mut site = document.case().sites[site].clone();
    let distance = site.platform_to_sleeve.as_mut().unwrap();
    distance.entered_mm += Length::from_um(um);
    let id = site.id.clone();
    let edit = Edit::ChangeSite(Box::new(site));
    document.edit("deeper".to_owned(), &[edit], None).unwrap();
    id
}

fn on_disk(file: &Path) -> ValidCase {
    read_case_file(file).unwrap().0
}

fn asked(saved: Result<Saved, NotSaved>) -> Question {
    match saved {
        Err(NotSaved::Asks(question)) => *question,
        other => panic!("{other:?}"),
    }
}

#[test]
fn two_desks_that_move_two_sites_lose_neither() {
    let (_folder, file) = folder();
    let (mut one, mut other) = (open(&file), open(&file));
    let revision = one.case().revision;
    deepen(&mut one, 0, 100);
    let moved = deepen(&mut other, 1, 200);
    assert_eq!(one.save(&file, None, &here()), Ok(Saved::Plainly));
    let Ok(Saved::Together(taken)) = other.save(&file, None, &here()) else {
        panic!("nothing was said of the other desk")
    };
    assert_eq!(taken.len(), 1);
    let disk = on_disk(&file);
    assert_eq!(disk.sites[0], one.case().sites[0]);
    assert_eq!(disk.site(moved.as_str()), other.case().site(moved.as_str()));
    assert_eq!(disk.revision, revision + 2, "two plans, two revisions");
    assert!(!other.is_changed());
    assert!(matches!(one.follow_disk(), Followed::Taken(_)));
    assert_eq!(one.case(), other.case());
    // What came from the other desk is a step that can be undone.
    other.undo();
    assert_ne!(other.case().sites[0], one.case().sites[0]);
}

#[test]
fn where_both_moved_one_site_a_person_decides_and_only_of_what_was_shown() {
    for side in [Side::Here, Side::There] {
        let (_folder, file) = folder();
        let (mut one, mut other) = (open(&file), open(&file));
        deepen(&mut one, 0, 100);
        deepen(&mut other, 0, 300);
        let noted = Edit::SetNote(Some("mine".to_owned()));
        other.edit("note".to_owned(), &[noted], None).unwrap();
        one.save(&file, None, &here()).unwrap();
        let before = std::fs::read(&file).unwrap();
        let question = asked(other.save(&file, None, &here()));
        assert_eq!(std::fs::read(&file).unwrap(), before, "nothing is written");
        let About::Same { apart, unfit } = question.about else {
            panic!()
        };
        assert!(!unfit && apart.len() == 1, "{apart:?}");
        let answer = Answer {
            version: question.version,
            chosen: BTreeMap::from([(apart[0].part.clone(), side)]),
            over_protection: false,
        };
        // Meanwhile the file changes again: what was not seen was not answered.
        deepen(&mut one, 0, 50);
        one.save(&file, None, &here()).unwrap();
        let again = asked(other.save(&file, Some(&answer), &here()));
        assert!(matches!(again.about, About::Same { unfit: false, .. }));
        let answer = Answer {
            version: again.version,
            ..answer
        };
        other.save(&file, Some(&answer), &here()).unwrap();
        let disk = on_disk(&file);
        let mine = disk.sites[0] != one.case().sites[0];
        assert_eq!(mine, side == Side::Here);
        assert_eq!(disk.note.as_deref(), Some("mine"));
    }
}

#[test]
fn a_damaged_file_is_not_replaced_unasked_and_kept_when_it_is() {
    let (folder, file) = folder();
    let mut document = open(&file);
    deepen(&mut document, 0, 100);
    std::fs::write(&file, "{ half of a").unwrap();
    let question = asked(document.save(&file, None, &here()));
    assert!(matches!(question.about, About::Damaged(_)));
    assert_eq!(std::fs::read(&file).unwrap(), b"{ half of a");
    let answer = Answer {
        version: question.version,
        chosen: BTreeMap::new(),
        over_protection: false,
    };
    let Ok(Saved::Aside(aside)) = document.save(&file, Some(&answer), &here()) else {
        panic!()
    };
    assert_eq!(std::fs::read(aside).unwrap(), b"{ half of a");
    assert_eq!(on_disk(&file), *document.case());
    drop(folder);
}

#[test]
fn a_case_whose_file_is_gone_is_changed_and_saved_anew() {
    let (_folder, file) = folder();
    let mut document = open(&file);
    std::fs::remove_file(&file).unwrap();
    assert_eq!(document.follow_disk(), Followed::Gone);
    assert!(document.is_changed());
    assert_eq!(document.save(&file, None, &here()), Ok(Saved::Anew));
    assert!(!document.is_changed());
    assert_eq!(on_disk(&file), *document.case());
}

#[test]
fn another_case_is_replaced_only_where_a_person_agreed_to_lose_that_one() {
    let (folder, file) = folder();
    let mut document = open(&file);
    let other = folder.path().join("other.json");
    let lying = demo_case(DEMOS[0].1);
    std::fs::write(&other, print(&*lying).unwrap()).unwrap();
    let question = asked(document.save(&other, None, &here()));
    assert_eq!(question.about, About::Other(lying.reference.to_string()));
    assert_eq!(on_disk(&other), lying);
    let answer = Answer {
        version: question.version,
        chosen: BTreeMap::new(),
        over_protection: false,
    };
    assert_eq!(
        document.save(&other, Some(&answer), &here()),
        Ok(Saved::Plainly)
    );
    assert_eq!(on_disk(&other), *document.case());
}

/// Another patient's case, or one of the other jaw, that came to lie at the path of the open one.
#[test]
fn another_case_at_the_path_of_the_open_one_is_never_merged_or_taken_over() {
    let renamed = |demo: usize, reference: &str| {
        let case = demo_case(DEMOS[demo].1);
        let mut json: serde_json::Value = serde_json::from_str(&print(&*case).unwrap()).unwrap();
        json["reference"] = reference.into();
        json.to_string()
    };
    let own = demo_case(DEMOS[2].1).reference.to_string();
    for edited in [true, false] {
        // The case of the other jaw is another one of the same reference.
        for (there, name) in [
            (renamed(2, "OTHER-7"), "OTHER-7"),
            (renamed(0, &own), "lower"),
        ] {
            let (_folder, file) = folder();
            let mut document = open(&file);
            document.follow_disk();
            if edited {
                deepen(&mut document, 0, 100);
            }
            let mine = document.case().clone();
            std::fs::write(&file, &there).unwrap();
            let followed = document.follow_disk();
            let told = matches!(&followed, Followed::OtherCase(told) if told.contains(name));
            assert!(told, "{followed:?}");
            assert_eq!(*document.case(), mine);
            assert!(document.is_changed());
            let question = asked(document.save(&file, None, &here()));
            assert!(matches!(&question.about, About::Other(told) if told.contains(name)));
            assert_eq!(std::fs::read_to_string(&file).unwrap(), there);
            let answer = Answer {
                version: question.version,
                chosen: BTreeMap::new(),
                over_protection: false,
            };
            assert_eq!(
                document.save(&file, Some(&answer), &here()),
                Ok(Saved::Plainly)
            );
            let disk = on_disk(&file);
            assert_eq!(
                (&disk.reference, &disk.sites),
                (&mine.reference, &mine.sites)
            );
        }
    }
}

/// A case without a file, as one that comes back after a crash, is no older than what it replaces.
#[test]
fn a_revision_never_falls_below_that_of_what_is_replaced() {
    let (_folder, file) = folder();
    let mut one = open(&file);
    for _ in 0..3 {
        deepen(&mut one, 0, 100);
        one.save(&file, None, &here()).unwrap();
    }
    let there = on_disk(&file).revision;
    let mut apart = Document::unsaved(demo_case(DEMOS[2].1));
    deepen(&mut apart, 1, 100);
    let question = asked(apart.save(&file, None, &here()));
    let answer = Answer {
        version: question.version,
        chosen: BTreeMap::new(),
        over_protection: false,
    };
    apart.save(&file, Some(&answer), &here()).unwrap();
    assert!(
        on_disk(&file).revision > there,
        "{}",
        on_disk(&file).revision
    );
}

#[test]
fn nothing_but_a_case_without_a_record_is_ever_replaced() {
    let (folder, file) = folder();
    let mut document = open(&file);
    let refused = |saved| match saved {
        Err(NotSaved::Refused(why)) => why,
        other => panic!("{other:?}"),
    };
    let text = folder.path().join("letter.json");
    std::fs::write(&text, "Dear colleague").unwrap();
    refused(document.save(&text, None, &here()));
    assert_eq!(std::fs::read(&text).unwrap(), b"Dear colleague");
    let signed = folder.path().join("signed.json");
    let lying = demo_case(DEMOS[0].1);
    std::fs::write(&signed, print(&*lying).unwrap()).unwrap();
    let note = EventKind::Note {
        text: "seen".to_owned(),
    };
    let now = jiff::Timestamp::from_second(1_900_000_000).unwrap();
    open(&signed).sign(now, "theatre", "MK", note).unwrap();
    let why = refused(document.save(&signed, None, &here()));
    assert!(why.contains(lying.reference.as_str()), "{why}");
    assert_eq!(on_disk(&signed), lying);
}

/// Beside it lies what cannot be read: it may be a record.
#[cfg(unix)]
#[test]
fn a_case_whose_record_nobody_can_read_is_not_replaced() {
    use std::os::unix::fs::symlink;
    let (folder, file) = folder();
    let mut document = open(&file);
    let lying = demo_case(DEMOS[0].1);
    let other = folder.path().join("other.json");
    for there in [&other, &file] {
        std::fs::write(there, print(&*lying).unwrap()).unwrap();
        symlink("nowhere", there.with_extension("signed")).unwrap();
        let saved = document.save(there, None, &here());
        assert!(matches!(saved, Err(NotSaved::Refused(_))), "{saved:?}");
        assert_eq!(on_disk(there), lying);
    }
}

#[test]
fn a_guide_that_another_desk_made_is_never_saved_with_another_depth() {
    let (_folder, file) = folder();
    let (mut one, mut other) = (open(&file), open(&file));
    let mut guide = one.case().guide.clone();
    guide.state = traywright_core::case::GuideState::Made;
    let made = Edit::SetGuide(Box::new(guide));
    one.edit("made".to_owned(), &[made], None).unwrap();
    one.save(&file, None, &here()).unwrap();
    deepen(&mut other, 0, 100);
    let question = asked(other.save(&file, None, &here()));
    let About::Same { apart, .. } = &question.about else {
        panic!()
    };
    // The made guide with the moved site: not even where somebody chooses it.
    let chosen = apart.iter().map(|one| {
        let guide = one.part.keys() == ["guide"];
        (
            one.part.clone(),
            if guide { Side::There } else { Side::Here },
        )
    });
    let answer = Answer {
        version: question.version,
        chosen: chosen.collect(),
        over_protection: false,
    };
    let again = asked(other.save(&file, Some(&answer), &here()));
    assert!(matches!(again.about, About::Same { unfit: true, .. }));
}

#[test]
fn a_protected_file_is_replaced_once_a_person_said_so() {
    let (_folder, file) = folder();
    let mut document = open(&file);
    deepen(&mut document, 0, 100);
    let before = std::fs::read(&file).unwrap();
    let mut permissions = std::fs::metadata(&file).unwrap().permissions();
    permissions.set_readonly(true);
    std::fs::set_permissions(&file, permissions).unwrap();
    let question = asked(document.save(&file, None, &here()));
    assert_eq!(question.about, About::Protected);
    assert_eq!(std::fs::read(&file).unwrap(), before);
    assert!(document.is_changed());
    let answer = Answer {
        version: question.version,
        chosen: BTreeMap::new(),
        over_protection: true,
    };
    assert_eq!(
        document.save(&file, Some(&answer), &here()),
        Ok(Saved::Plainly)
    );
    assert_eq!(on_disk(&file), *document.case());
}

/// A private case that was deleted while it was open, and one that is saved under another name.
#[cfg(unix)]
#[test]
fn a_private_case_stays_private_wherever_it_is_saved() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, file) = folder();
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o600)).unwrap();
    let mut document = open(&file);
    std::fs::remove_file(&file).unwrap();
    document.follow_disk();
    document.save(&file, None, &here()).unwrap();
    let other = folder.path().join("other.json");
    document.save(&other, None, &here()).unwrap();
    for saved in [file, other] {
        let mode = std::fs::metadata(&saved).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600, "{}", saved.display());
    }
}

#[cfg(unix)]
#[test]
fn two_names_of_one_file_part_with_the_first_save_and_that_is_told() {
    let (folder, file) = folder();
    let mut document = open(&file);
    std::fs::hard_link(&file, folder.path().join("other.json")).unwrap();
    deepen(&mut document, 0, 100);
    document.save(&file, None, &here()).unwrap();
    assert!(document.has_parted());
    deepen(&mut document, 0, 100);
    document.save(&file, None, &here()).unwrap();
    assert!(!document.has_parted());
}

/// Who saved which plan, and when, stays in the file, also of two desks that saved in turn; the plan code does not know.
#[test]
fn a_case_tells_where_and_when_it_was_saved() {
    let (_folder, file) = folder();
    let (mut one, mut other) = (open(&file), open(&file));
    let by = |second, desk: &str| SavedAt {
        at: jiff::Timestamp::from_second(second).unwrap(),
        desk: desk.into(),
    };
    deepen(&mut one, 0, 100);
    let code = one.case().fingerprint();
    one.save(&file, None, &by(10, "office")).unwrap();
    assert_eq!(one.case().fingerprint(), code);
    assert!(!open(&file).is_changed() && !one.is_changed());
    deepen(&mut other, 1, 200);
    other.save(&file, None, &by(20, "theatre")).unwrap();
    let told = |case: &ValidCase| -> Vec<_> {
        let saves = case.saves.iter();
        saves
            .map(|one| (one.desk.to_string(), one.revision))
            .collect()
    };
    let first = one.case().revision;
    let both = [
        ("office".to_owned(), first),
        ("theatre".to_owned(), first + 1),
    ];
    assert_eq!(told(&on_disk(&file)), both);
    assert_eq!(on_disk(&file).saves[0].plan_code, code);
    // What is undone does not take it away.
    other.undo();
    other.save(&file, None, &by(30, "theatre")).unwrap();
    let saves = told(&on_disk(&file));
    assert_eq!(saves[..2], both);
    assert_eq!(saves.len(), 3);
}

/// A desk that saves again and again, faster than two changes can be brought together here.
#[test]
fn a_desk_that_saves_all_the_time_puts_no_other_off() {
    use std::sync::atomic::{AtomicBool, Ordering};
    let (_folder, file) = folder();
    let mut noted = on_disk(&file).into_case();
    noted.note = Some("turn 0".to_owned());
    std::fs::write(&file, print(&noted).unwrap()).unwrap();
    let mut own = open(&file);
    deepen(&mut own, 0, 100);
    let over = AtomicBool::new(false);
    let saved = std::thread::scope(|scope| {
        scope.spawn(|| {
            let mut turn = 0;
            while !over.load(Ordering::Relaxed) {
                let there = std::fs::read_to_string(&file).unwrap();
                let next = format!("turn {}", turn + 1);
                let bytes = there.replace(&format!("turn {turn}"), &next).into_bytes();
                let content = Content {
                    bytes: &bytes,
                    private: Private::USUAL,
                    over_protection: false,
                };
                let known = Version::of(there.as_bytes());
                turn += i32::from(replace(&file, known, 1 << 24, content).is_ok());
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
        });
        let saved = own.save(&file, None, &here());
        over.store(true, Ordering::Relaxed);
        saved
    });
    assert!(matches!(saved, Ok(Saved::Together(_))), "{saved:?}");
    assert_eq!(on_disk(&file).sites[0], own.case().sites[0]);
}
