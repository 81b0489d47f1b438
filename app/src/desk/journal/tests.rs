use super::*;
use crate::desk::save::tests::here;
use crate::desk::{DEMOS, demo_case, read_case_file};
use traywright_core::document::print;
use traywright_core::measure::Length;

struct World {
    folder: tempfile::TempDir,
}

impl World {
    fn new() -> Self {
        let world = Self {
            folder: tempfile::tempdir().unwrap(),
        };
        let case = demo_case(DEMOS[2].1);
        std::fs::write(world.file(), print(&*case).unwrap()).unwrap();
        world
    }

    fn file(&self) -> PathBuf {
        self.folder.path().join("case.json")
    }

    fn unsaved(&self) -> PathBuf {
        self.folder.path().join("unsaved")
    }

    fn open(&self) -> Document {
        let mut document = Document::opened(read_case_file(&self.file()).unwrap(), self.file());
        document.keep_journal(Some(self.unsaved()));
        document
    }

    fn left(&self) -> Vec<Unsaved> {
        LeftBehind::of(&self.unsaved(), Some(&self.file())).unsaved
    }

    fn files(&self) -> usize {
        std::fs::read_dir(self.unsaved()).map_or(0, Iterator::count)
    }
}

fn deepen(document: &mut Document, site: usize, um: i64) {
    let mut site = document.case().sites[site].clone();
    site.platform_to_sleeve.as_mut().unwrap().entered_mm += Length::from_um(um);
    let edit = Edit::ChangeSite(Box::new(site));
    document.edit("deeper".to_owned(), &[edit], None).unwrap();
}

/// The process is gone: what it held open is let go, and nothing else happens.
fn dies(mut document: Document) {
    document.flush_journal();
}

#[test]
fn every_step_comes_back_also_what_was_taken_back_and_done_again() {
    let world = World::new();
    let mut document = world.open();
    for site in 0..4 {
        deepen(&mut document, site, 100);
    }
    document.undo();
    document.undo();
    document.redo();
    deepen(&mut document, 5, 200);
    let case = document.case().clone();
    assert!(world.left().is_empty(), "somebody still writes it");
    dies(document);
    let left = world.left();
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].case, case);
    assert_eq!(
        left[0].onto(&read_case_file(&world.file()).unwrap().0),
        Some(case)
    );
}

#[test]
fn what_is_saved_or_given_up_leaves_nothing() {
    let world = World::new();
    let mut document = world.open();
    deepen(&mut document, 0, 100);
    document.save(&world.file(), None, &here()).unwrap();
    assert_eq!(world.files(), 0);
    // A step of before the save is taken back after it.
    document.undo();
    deepen(&mut document, 1, 100);
    let case = document.case().clone();
    dies(document);
    assert_eq!(world.left()[0].case, case);
    let mut document = world.open();
    let left = world.left().remove(0);
    let case = left.onto(document.case()).unwrap();
    document.take_unsaved(case.clone(), Box::new(left));
    assert_eq!(*document.case(), case);
    document.undo();
    assert_ne!(*document.case(), case);
    document.redo();
    document.save(&world.file(), None, &here()).unwrap();
    assert_eq!(world.files(), 0, "it is saved");
    deepen(&mut document, 2, 100);
    document.drop_journal();
    assert_eq!(world.files(), 0, "it is given up");
}

/// Whatever is cut off or changed of the journal, what comes back was there once, or nothing does.
#[test]
fn a_journal_cut_off_at_any_byte_gives_a_state_that_was() {
    let world = World::new();
    let mut document = world.open();
    let mut states = vec![document.case().clone()];
    for site in 0..3 {
        deepen(&mut document, site, 100);
        states.push(document.case().clone());
    }
    dies(document);
    let path = world.left()[0].journal.path.clone();
    let whole = std::fs::read(&path).unwrap();
    let first = whole.iter().position(|byte| *byte == b'\n').unwrap();
    let below = whole.len() - first;
    let ends = (0..first)
        .step_by(first / 4)
        .chain((first..whole.len()).step_by(below / 40));
    for end in ends {
        std::fs::write(&path, &whole[..end]).unwrap();
        for left in world.left() {
            assert!(states.contains(&left.case), "{end}");
        }
    }
    for at in (first + 1..whole.len()).step_by(below / 40) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1;
        std::fs::write(&path, &bytes).unwrap();
        // A changed value is a change like any other; but it is always a valid case.
        for left in world.left() {
            assert!(ValidCase::checked(&left.case).is_ok(), "{at}");
        }
    }
}

/// The end of a line that was written whole is another byte: it was done all the same, and that a byte is damaged is told. What
/// a program that died wrote in part was never done.
#[test]
fn a_last_line_whose_end_is_damaged_is_no_line_that_was_never_finished() {
    let world = World::new();
    let mut document = world.open();
    for site in 0..2 {
        deepen(&mut document, site, 100);
    }
    let case = document.case().clone();
    dies(document);
    let path = world.left()[0].journal.path.clone();
    let whole = std::fs::read(&path).unwrap();
    let end = whole.len() - 1;
    let left_by = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        let left = world.left().remove(0);
        (left.case == case, left.is_cut)
    };
    let damaged = [&whole[..end], b"\x0b"].concat();
    assert_eq!(left_by(&damaged), (true, true));
    assert_eq!(left_by(&whole[..end]), (true, false), "only its end lacks");
    assert_eq!(left_by(&whole[..end - 1]), (false, false));
}

/// What was done behind a damaged line is not told to be there, and what cannot be read at all is named.
#[test]
fn what_is_damaged_of_a_journal_is_told() {
    let world = World::new();
    let mut document = world.open();
    for site in 0..3 {
        deepen(&mut document, site, 100);
    }
    dies(document);
    let left = world.left().remove(0);
    assert!(!left.is_cut);
    let path = left.journal.path;
    let whole = std::fs::read_to_string(&path).unwrap();
    let damaged: Vec<&str> = whole.lines().collect();
    let damaged = format!(
        "{}\n{}\n?{}\n{}\n",
        damaged[0], damaged[1], damaged[2], damaged[3]
    );
    std::fs::write(&path, damaged).unwrap();
    let left = world.left().remove(0);
    assert!(left.is_cut);
    let saved = read_case_file(&world.file()).unwrap().0;
    assert_ne!(left.case.sites[0], saved.sites[0]);
    assert_eq!(left.case.sites[2], saved.sites[2]);
    std::fs::write(&path, format!("?{whole}")).unwrap();
    let left = LeftBehind::of(&world.unsaved(), Some(&world.file()));
    assert_eq!((left.unsaved.len(), left.unread), (0, vec![path]));
}

/// A folder in which nothing can be made: it is told for as long as the case is open.
#[test]
fn where_the_disk_takes_no_journal_it_is_told() {
    let world = World::new();
    std::fs::write(world.unsaved(), "a file where the folder would be").unwrap();
    let mut document = world.open();
    assert_eq!(document.journal_fault(), None);
    deepen(&mut document, 0, 100);
    for _ in 0..200 {
        if document.journal_fault().is_some() {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("nothing was told");
}

#[test]
fn what_another_desk_saved_meanwhile_is_kept_and_what_both_changed_stays_apart() {
    let world = World::new();
    let mut document = world.open();
    deepen(&mut document, 0, 100);
    dies(document);
    let mut other = world.open();
    deepen(&mut other, 1, 300);
    other.save(&world.file(), None, &here()).unwrap();
    let left = world.left().remove(0);
    let both = left.onto(other.case()).unwrap();
    assert_eq!(both.sites[0], left.case.sites[0]);
    assert_eq!(both.sites[1], other.case().sites[1]);
    deepen(&mut other, 0, 300);
    assert_eq!(left.onto(other.case()), None);
}

/// A digit of a line changes and the line still reads: it is no step that anybody did, nor anything behind it.
#[test]
fn a_line_that_was_damaged_and_still_reads_is_not_taken_for_a_step() {
    let world = World::new();
    let mut document = world.open();
    let mut states = vec![document.case().clone()];
    for site in 0..3 {
        deepen(&mut document, site, 100);
        states.push(document.case().clone());
    }
    dies(document);
    let path = world.left()[0].journal.path.clone();
    let whole = std::fs::read(&path).unwrap();
    let first = whole.iter().position(|byte| *byte == b'\n').unwrap();
    let digits = (0..whole.len()).filter(|at| whole[*at].is_ascii_digit());
    let digits: Vec<usize> = digits.collect();
    for at in digits.iter().copied().step_by(digits.len() / 200) {
        let mut bytes = whole.clone();
        bytes[at] = if whole[at] == b'9' {
            b'1'
        } else {
            whole[at] + 1
        };
        std::fs::write(&path, &bytes).unwrap();
        let left = world.left();
        assert!(at > first || left.is_empty(), "the base, {at}");
        for left in left {
            assert!(states.contains(&left.case) && left.is_cut, "{at}");
        }
    }
    // Nor is one that is missing or comes twice.
    let text = String::from_utf8(whole).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    for order in [vec![0, 2, 3], vec![0, 1, 1, 2, 3], vec![0, 2, 1, 3]] {
        let lines: Vec<&str> = order.iter().map(|n| lines[*n]).collect();
        std::fs::write(&path, lines.join("\n") + "\n").unwrap();
        for left in world.left() {
            assert!(left.is_cut, "{order:?}");
        }
    }
}

/// Another patient's case was put at the path since: nothing of the one is brought into the other.
#[test]
fn what_was_left_of_one_case_is_not_brought_into_another_at_its_path() {
    let world = World::new();
    let mut document = world.open();
    deepen(&mut document, 0, 100);
    let reference = document.case().reference.to_string();
    dies(document);
    let text = std::fs::read_to_string(world.file()).unwrap();
    assert!(text.contains(&reference));
    std::fs::write(world.file(), text.replace(&reference, "INV-OTHER")).unwrap();
    let other = read_case_file(&world.file()).unwrap().0;
    let left = world.left().remove(0);
    assert_eq!(left.onto(&other), None);
}
