use super::*;
use crate::desk::save::tests::here;
use crate::desk::{DEMOS, Document, demo_case, read_case_file};
use std::sync::Arc;
use traywright_core::case::Edit;
use traywright_core::document::print;

/// A place on a share that never answers.
const SILENT: &str = "silent";

fn read(place: &Path) -> Content {
    while place.components().any(|part| part.as_os_str() == SILENT) {
        std::thread::park();
    }
    of_disk(place)
}

/// A case in this folder with a change that was never saved.
fn left(folder: &Path, within: &str, note: &str) -> PathBuf {
    let file = folder.join(within).join("case.json");
    std::fs::create_dir_all(folder.join(within)).unwrap();
    std::fs::copy(folder.join("case.json"), &file).unwrap();
    let mut document = Document::opened(read_case_file(&file).unwrap(), file.clone());
    document.keep_journal(Some(folder.join("unsaved")));
    let edit = Edit::SetNote(Some(note.to_owned()));
    document.edit("note".to_owned(), &[edit], None).unwrap();
    document.flush_journal();
    file
}

/// What was left of the case here, and where it was before, is offered although another place of it does not answer; that
/// one is told by name. Of a place that a case has nothing to do with nobody is asked.
#[test]
fn one_place_that_does_not_answer_hides_nothing_that_is_known() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let first = folder.join("case.json");
    std::fs::write(&first, print(&*demo_case(DEMOS[2].1)).unwrap()).unwrap();
    let mut document = Document::opened(read_case_file(&first).unwrap(), first.clone());
    document.save(&first, None, &here()).unwrap();
    let file = left(folder, "here", "own");
    let gone = left(folder, "before", "before");
    let silent = left(folder, SILENT, "silent");
    std::fs::remove_file(&gone).unwrap();
    let of = (file.clone(), Arc::new(read_case_file(&file).unwrap().0));
    let mut asked = 0;
    let once = |answers: &Receiver<Answer>| {
        asked += 1;
        // Of the two only one answers.
        (asked == 1).then(|| answers.recv().ok()).flatten()
    };
    let unsaved = folder.join("unsaved");
    let found = LeftBehind::of_case_asking(&unsaved, Some(&of), read, once);
    let notes = found.unsaved.iter().map(|one| one.case.note.as_deref());
    assert_eq!(notes.collect::<Vec<_>>(), [Some("own"), Some("before")]);
    assert_eq!(found.unanswered, [silent]);
    let other = Arc::new(demo_case(DEMOS[0].1));
    let of = (folder.join("other.json"), other);
    let none = |answers: &Receiver<Answer>| {
        assert!(answers.recv().is_err(), "somebody was asked");
        None
    };
    let found = LeftBehind::of_case_asking(&unsaved, Some(&of), read, none);
    assert!(found.unsaved.is_empty() && found.unanswered.is_empty());
}

/// However long it took to read the journals: nobody was asked before.
#[test]
fn the_patience_with_a_place_begins_when_it_is_asked() {
    let mut patience = Patience::default();
    let read = Instant::now() + 10 * PATIENCE;
    assert_eq!(patience.left(read), PATIENCE);
    let second = Duration::from_secs(1);
    assert_eq!(
        patience.left(read + second),
        PATIENCE.saturating_sub(second)
    );
    assert_eq!(patience.left(read + 2 * PATIENCE), Duration::ZERO);
}
