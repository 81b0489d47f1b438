//! Damaged event files beside a case, opened and written on by the program.

use super::events::{EventRow, FILE, Then, morning, of_patient};
use super::reports::{hard_to_read, hold};
use crate::desk::Beside;
use std::fs;
use traywright::Outcome;
use traywright_core::dentition::Jaw;
use traywright_core::sign::CaseJaw;

const RESTORE: &str = "Nothing that was signed on this case counts until that is mended. Restore an intact copy of desk.events.jsonl; if there is none, put it aside in the view Sheet: then approve and read again.";
const REPLACE: &str = "Nothing that was signed on this case counts until that is mended. Restore an intact copy of desk.events.jsonl; if there is none, put it aside in the view Sheet: then approve and read again.";
const UPDATE: &str = "Open the case with the program version that wrote it, or a newer one.";
const CONVERTED: &str = "Save the file again as UTF-8";
const MOVE: &str = "Move desk.events.jsonl to the case that it belongs to.";

fn lines(text: &str) -> Vec<String> {
    text.lines().map(str::to_owned).collect()
}

fn joined(lines: &[String]) -> Vec<u8> {
    (lines.join("\n") + "\n").into_bytes()
}

/// The text with another one in a line, counted from 1.
fn replaced(text: &str, line: usize, from: &str, to: &str) -> Vec<u8> {
    let mut lines = lines(text);
    let old = lines[line - 1].clone();
    lines[line - 1] = old.replacen(from, to, 1);
    assert_ne!(old, lines[line - 1], "{from} is not in line {line}");
    joined(&lines)
}

fn with_lines(text: &str, change: impl FnOnce(&mut Vec<String>)) -> Vec<u8> {
    let mut lines = lines(text);
    change(&mut lines);
    joined(&lines)
}

fn of_other(case: &str, jaw: Jaw) -> Vec<u8> {
    let of = CaseJaw {
        case: case.to_owned(),
        jaw,
    };
    morning(&of, "desk").text().into_bytes()
}

fn stops(
    name: &'static str,
    change: fn(&str) -> Vec<u8>,
    wants: &'static [&'static str],
) -> EventRow {
    EventRow {
        name,
        change,
        wants,
        then: Then::Stops,
    }
}

fn moves(
    name: &'static str,
    change: fn(&str) -> Vec<u8>,
    wants: &'static [&'static str],
) -> EventRow {
    EventRow {
        then: Then::Moves,
        ..stops(name, change, wants)
    }
}

fn goes(
    name: &'static str,
    change: fn(&str) -> Vec<u8>,
    wants: &'static [&'static str],
) -> EventRow {
    EventRow {
        name,
        change,
        wants,
        then: Then::Goes,
    }
}

#[rustfmt::skip] // One row a line, so that the table reads as one.
pub(super) fn rows() -> Vec<EventRow> {
    vec![
        // Cut off.
        stops("no events at all", |_| Vec::new(), &["desk.events.jsonl: the file contains no line at all", REPLACE]),
        goes("last line cut", |text| text.as_bytes()[..text.len() - 40].to_vec(), &["desk.events.jsonl, line 7: the file ends within the line", "the rest of the line is put aside at that desk: in the view Sheet, by traywright put-aside, or with the next approval by traywright approve. What was lost is then told; record it again."]),
        goes("last letter cut", |text| text.as_bytes()[..=text.rfind('Ж').unwrap()].to_vec(), &["desk.events.jsonl, line 7: the file ends within the line", "record it again"]),
        goes("last line end missing", |text| text.trim_end().into(), &["desk.events.jsonl, line 7: the last line is whole, only its end is missing", "Nothing is lost and nothing needs to be done."]),
        goes("zeros after a power cut", |text| [text.as_bytes(), &[0; 512]].concat(), &["desk.events.jsonl, line 8: the file ends within the line (512 bytes of it), as after a power cut", "record it again"]),
        stops("a line cut in the middle", |text| with_lines(text, |lines| lines[3].truncate(60)), &["desk.events.jsonl, line 4, byte", "the line cannot be read", RESTORE]),
        // Other encodings.
        stops("events in UTF-16", |text| [0xFEFF].into_iter().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect(), &["desk.events.jsonl: the file is written in UTF-16", CONVERTED]),
        stops("events in Latin-1", |text| text.chars().map(|c| u8::try_from(c).unwrap_or(0xE9)).collect(), &["desk.events.jsonl, line 3, byte", "not written in UTF-8", RESTORE]),
        goes("events with a byte order mark", |text| format!("\u{FEFF}{text}").into(), &["desk.events.jsonl: another program put a byte order mark before the first line", CONVERTED]),
        goes("events with other line ends", |text| text.replace('\n', "\r\n").into(), &["another program changed the line ends to CR LF", CONVERTED]),
        stops("events with a NUL", |text| replaced(text, 4, "pilot", "pi\0ot"), &["desk.events.jsonl, line 4, byte", "the line cannot be read", RESTORE]),
        // Not an event file.
        stops("a case as events", |_| crate::demo::bytes("one-premolar"), &["desk.events.jsonl, line 1: this is not how an event file begins", REPLACE]),
        stops("words as events", |_| b"see paper file\n".to_vec(), &["desk.events.jsonl, line 1: this is not how an event file begins", REPLACE]),
        stops("events without their first line", |text| with_lines(text, |lines| drop(lines.remove(0))), &["desk.events.jsonl, line 1: this is not how an event file begins", REPLACE]),
        stops("newer events", |text| replaced(text, 1, ":1,", ":2,"), &["desk.events.jsonl: written in version 2 of the format; this program reads version 1", UPDATE]),
        stops("an event of a newer kind", |text| replaced(text, 4, "\"reading\"", "\"laser_reading\""), &["desk.events.jsonl, line 4: this program does not know events of the kind “laser_reading”", UPDATE]),
        moves("events of another case", |_| of_other("KX-18", Jaw::Lower), &["desk.events.jsonl: these events belong to case KX-18, not to case KX-17", MOVE]),
        moves("events of the other jaw", |_| of_other("KX-17", Jaw::Upper), &["these events belong to the upper jaw, not to the lower jaw; nothing of one jaw verifies the other", MOVE]),
        stops("first line given to another case", |text| replaced(text, 1, "KX-17", "KX-18"), &["these events belong to case KX-18, not to case KX-17", MOVE]),
        // Edited by hand.
        stops("a reading's digit changed", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":19.3"), &["desk.events.jsonl, line 3: the line was changed after it was written", RESTORE]),
        stops("a setting's digit changed", |text| replaced(text, 4, "\"setting_mm\":19.2", "\"setting_mm\":18.2"), &["desk.events.jsonl, line 4: the line was changed after it was written", RESTORE]),
        stops("another name signed", |text| replaced(text, 3, "Жанна К", "Жанна Л"), &["desk.events.jsonl, line 3: the line was changed after it was written", RESTORE]),
        stops("a time changed", |text| replaced(text, 5, "2023-", "2022-"), &["desk.events.jsonl, line 5: the line was changed after it was written", RESTORE]),
        stops("the last line changed", |text| replaced(text, 7, "done", "well"), &["desk.events.jsonl, line 7: the line was changed after it was written", RESTORE]),
        stops("practice made into a patient's", |text| replaced(text, 3, "\"purpose\":\"patient\"", "\"purpose\":\"practice\""), &["desk.events.jsonl, line 3: the line was changed after it was written", RESTORE]),
        stops("a line removed", |text| with_lines(text, |lines| drop(lines.remove(3))), &["desk.events.jsonl, line 4: event 4 follows where event 3 is due; lines are missing", RESTORE]),
        stops("a line doubled", |text| with_lines(text, |lines| lines.insert(3, lines[3].clone())), &["desk.events.jsonl, line 5: event 3 appears again where event 4 is due", RESTORE]),
        stops("two lines changed about", |text| with_lines(text, |lines| lines.swap(3, 4)), &["desk.events.jsonl, line 4: event 4 follows where event 3 is due", RESTORE]),
        stops("a line of another desk pasted", |text| with_lines(text, |lines| { let other = morning(&of_patient(), "other-desk").text(); lines.push(other.lines().nth(3).unwrap().to_owned()); }), &["desk.events.jsonl, line 8: a line by other-desk in the file of desk", RESTORE]),
        stops("a line of another case pasted", |text| with_lines(text, |lines| { let other = String::from_utf8(of_other("KX-18", Jaw::Lower)).unwrap(); lines[6] = other.lines().nth(6).unwrap().to_owned(); }), &["desk.events.jsonl, line 7: the line before is not the one that this line was written after", RESTORE]),
        stops("a line spelled anew", |text| replaced(text, 3, ",", ", "), &["desk.events.jsonl, line 3: the line was rewritten by another program", RESTORE]),
        goes("a blank line", |text| with_lines(text, |lines| lines.insert(3, String::new())), &["desk.events.jsonl, line 4: a blank line", "Nothing is lost and nothing needs to be done."]),
        stops("a comment between events", |text| with_lines(text, |lines| lines.insert(3, "// checked".to_owned())), &["desk.events.jsonl, line 4, byte 1: the line cannot be read", RESTORE]),
        // Wrong types and absurd values.
        stops("an unknown key in an event", |text| replaced(text, 3, "\"seq\"", "\"colour\":1,\"seq\""), &["desk.events.jsonl, line 3: the line is no event of this program (unknown field `colour`", RESTORE]),
        stops("a duplicate key in an event", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":99,\"value_mm\":19.2"), &["desk.events.jsonl, line 3: the line is no event of this program (duplicate field `value_mm`", RESTORE]),
        stops("an event without a name", |text| replaced(text, 3, "\"who\":\"Жанна К\",", ""), &["desk.events.jsonl, line 3: the line is no event of this program (missing field `who`", RESTORE]),
        stops("a reading in words", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":\"fine\""), &["desk.events.jsonl, line 3: the line is no event of this program", RESTORE]),
        stops("a reading of NaN", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":NaN"), &["desk.events.jsonl, line 3, byte", "the line cannot be read", RESTORE]),
        stops("a reading of 1e300", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":1e300"), &["desk.events.jsonl, line 3: the line is no event of this program", RESTORE]),
        stops("a reading of four decimals", |text| replaced(text, 3, "\"value_mm\":19.2", "\"value_mm\":19.2001"), &["desk.events.jsonl, line 3: the line is no event of this program", "more than three decimals", RESTORE]),
        stops("drill number 0", |text| replaced(text, 3, "\"copy\":1", "\"copy\":0"), &["desk.events.jsonl, line 3: the line is no event of this program", RESTORE]),
        stops("an event nested deep", |text| with_lines(text, |lines| lines[3] = "[".repeat(10_000)), &["desk.events.jsonl, line 4, byte", "the line cannot be read", RESTORE]),
        stops("an event of a book's length", |text| with_lines(text, |lines| lines[3] = "x".repeat(70_000)), &["desk.events.jsonl, line 4: the line has 70000 bytes, more than the 65536 that one can have", RESTORE]),
    ]
}

/// The case opens all the same, says what is wrong with the file beside it, and a desk whose file
/// is damaged does not write into it.
#[test]
fn every_damaged_event_file_is_told_and_never_written_on() {
    let sound = morning(&of_patient(), "desk").text();
    let (mut wrong, mut all) = (Vec::new(), Vec::new());
    for row in rows() {
        let beside = Beside::new();
        let bytes = (row.change)(&sound);
        fs::write(beside.file(FILE), &bytes).unwrap();
        let opened = beside.opened();
        let name = row.name;
        assert_eq!(opened.outcome, Outcome::Done, "{name}: {}", opened.err);
        let report = opened.out.split("\n\n").next().unwrap();
        wrong.extend(
            row.wants
                .iter()
                .filter(|wanted| !report.contains(**wanted))
                .map(|wanted| format!("{name}: no “{wanted}” in\n{report}")),
        );
        wrong.extend(hard_to_read(report).map(|why| format!("{name}: {why}:\n{report}")));
        all.push((name, report.to_owned()));
        let approved = beside.approve("desk");
        let after = fs::read(beside.file(FILE)).unwrap();
        match row.then {
            Then::Stops | Then::Moves => {
                assert_eq!(approved.outcome, Outcome::Failed, "{name}");
                assert_eq!(after, bytes, "{name}: a damaged file was written on");
                wrong.extend(
                    row.wants
                        .iter()
                        .filter(|wanted| !approved.err.contains(**wanted))
                        .map(|wanted| {
                            format!("{name}: no “{wanted}” in the refusal\n{}", approved.err)
                        }),
                );
                // Nor does anything count at another desk, until it is put aside.
                assert_eq!(beside.approve("other").outcome, Outcome::Failed, "{name}");
                assert!(!opened.out.contains("approved by Ines Roth"), "{name}");
                let aside = beside.put_aside("other");
                if row.then == Then::Moves {
                    assert_eq!(aside.outcome, Outcome::Failed, "{name}: {}", aside.out);
                    assert_eq!(fs::read(beside.file(FILE)).unwrap(), bytes, "{name}");
                    fs::remove_file(beside.file(FILE)).unwrap();
                } else {
                    assert_eq!(aside.outcome, Outcome::Done, "{name}: {}", aside.err);
                }
                assert!(beside.opened().out.contains("not approved"), "{name}");
                assert_eq!(beside.approve("other").outcome, Outcome::Done, "{name}");
                assert!(
                    beside.opened().out.contains("approved by Ines Roth"),
                    "{name}"
                );
            }
            Then::Goes => {
                assert_eq!(approved.outcome, Outcome::Done, "{name}: {}", approved.err);
                assert_ne!(after, bytes, "{name}");
                assert!(
                    beside.opened().out.contains("approved by Ines Roth"),
                    "{name}"
                );
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    hold("events.txt", &all);
}

/// One cause, one remedy; a file full of damage does not flood the screen.
#[test]
fn many_damaged_lines_are_counted_and_their_remedy_is_told_once() {
    let beside = Beside::new();
    let text = morning(&of_patient(), "desk").text();
    let all_bad = text.clone() + &"?\n".repeat(500);
    fs::write(beside.file(FILE), all_bad).unwrap();
    let opened = beside.opened().out;
    assert_eq!(
        opened.matches("Restore an intact copy").count(),
        1,
        "{opened}"
    );
    assert_eq!(opened.matches("the line cannot be read").count(), 12);
    assert!(
        opened.contains("desk.events.jsonl: 488 more lines are faulty."),
        "{opened}"
    );
    // Of a file that is none of this program's only that is told.
    fs::write(beside.file(FILE), crate::demo::bytes("one-premolar")).unwrap();
    let opened = beside.opened().out;
    assert_eq!(
        opened.matches("desk.events.jsonl, line").count(),
        1,
        "{opened}"
    );
}

#[test]
fn a_sound_event_file_is_not_complained_of() {
    let beside = Beside::new();
    fs::write(beside.file(FILE), morning(&of_patient(), "desk").text()).unwrap();
    let opened = beside.opened();
    assert!(opened.out.contains(": approved by "), "{}", opened.out);
    assert!(!opened.out.contains("events.jsonl"), "{}", opened.out);
}

/// Written on under the other name it would give its desk two histories.
#[test]
fn a_desks_file_under_another_desks_name_is_not_written_on() {
    let beside = Beside::new();
    let text = morning(&of_patient(), "desk").text();
    fs::write(beside.file("other.events.jsonl"), &text).unwrap();
    let refused = beside.approve("other");
    assert_eq!(refused.outcome, Outcome::Failed);
    let wanted = "other.events.jsonl: events of desk that its own file has not, under another name";
    assert!(refused.err.contains(wanted), "{}", refused.err);
    assert_eq!(
        fs::read_to_string(beside.file("other.events.jsonl")).unwrap(),
        text
    );
}

/// A desk's folder was copied and both copies were continued.
#[test]
fn a_forked_desk_is_refused_with_the_place_where_its_histories_part() {
    let beside = Beside::new();
    let common = morning(&of_patient(), "desk").text();
    fs::write(beside.file(FILE), &common).unwrap();
    assert_eq!(beside.approve("desk").outcome, Outcome::Done);
    let first = fs::read(beside.file(FILE)).unwrap();
    // The same moment twice cannot differ, so the other copy goes another way.
    fs::write(beside.file("desk copy.events.jsonl"), {
        let mut lines: Vec<&str> = common.lines().collect();
        lines.pop();
        lines.join("\n") + "\n"
    })
    .unwrap();
    assert_eq!(
        beside.opened().outcome,
        Outcome::Done,
        "a beginning is no fork"
    );
    let mut other = morning(&of_patient(), "desk");
    let note = traywright_core::sign::EventKind::Note {
        text: "elsewhere".to_owned(),
    };
    other
        .append(
            jiff_now(),
            traywright_core::sign::Who::new("AB").unwrap(),
            note,
        )
        .unwrap();
    fs::write(beside.file("desk copy.events.jsonl"), other.text()).unwrap();
    let opened = beside.opened();
    for wanted in [
        "desk has two histories that part at event 7",
        "its file was copied and both were continued",
        "nothing signed counts",
    ] {
        assert!(opened.out.contains(wanted), "{}", opened.out);
    }
    let copy = "a copy of the events of desk";
    assert!(!opened.out.contains(copy), "{}", opened.out);
    assert_eq!(beside.approve("desk").outcome, Outcome::Failed);
    assert_eq!(fs::read(beside.file(FILE)).unwrap(), first);
}

fn jiff_now() -> jiff::Timestamp {
    jiff::Timestamp::from_second(1_700_009_999).unwrap()
}

/// A line cut off by a power failure is kept beside the file, and nothing before it is lost.
#[test]
fn a_torn_last_line_is_put_aside_and_the_desk_goes_on() {
    let beside = Beside::new();
    let sound = morning(&of_patient(), "desk").text();
    let torn = &sound.as_bytes()[..sound.len() - 40];
    fs::write(beside.file(FILE), torn).unwrap();
    assert_eq!(beside.approve("desk").outcome, Outcome::Done);
    let kept: Vec<String> = lines(&sound)[..6].to_vec();
    let after = fs::read_to_string(beside.file(FILE)).unwrap();
    assert!(after.starts_with(&(kept.join("\n") + "\n")), "{after}");
    // What tells of the loss, and the approval.
    assert_eq!(after.lines().count(), 8);
    assert!(after.lines().nth(6).unwrap().contains("\"line_lost\""));
    let aside = fs::read(beside.file("desk.events.jsonl.torn-1")).unwrap();
    let last = torn.iter().rposition(|byte| *byte == b'\n').unwrap() + 1;
    assert_eq!(aside, torn[last..]);
    assert!(!beside.opened().out.contains("events.jsonl"));
}
