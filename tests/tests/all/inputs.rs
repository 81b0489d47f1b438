//! Each reader with a few inputs that nobody meant; `traywright-inputs` says what holds of each and gives many.

use traywright_inputs::Reader;
use traywright_samples::inputs::read_all;

fn gives(name: &str) {
    let mut readers = Reader::all().into_iter();
    let reader = readers.find(|one| one.name == name).expect("a reader");
    read_all(name, |bytes| reader.read(bytes));
}

#[test]
fn a_case_is_refused_in_words_or_worked_out() {
    gives("case");
}

#[test]
fn a_kit_is_refused_in_words_or_read() {
    gives("kit");
}

#[test]
fn a_problem_of_the_order_is_refused_or_read() {
    gives("order");
}

#[test]
fn events_are_told_line_by_line_and_what_is_sound_of_them_is_as_it_was_written() {
    gives("events");
}

#[test]
fn whatever_a_journal_holds_what_comes_back_is_a_sound_case() {
    gives("journal");
}

#[test]
fn whatever_the_file_holds_settings_are_read_and_written_the_same_or_stay_as_they_are() {
    gives("settings");
}

#[test]
fn a_pack_comes_out_whole_or_leaves_nothing() {
    gives("pack");
}
