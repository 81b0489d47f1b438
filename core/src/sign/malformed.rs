//! Damaged event files: each a clear problem, nothing sound lost, no panic.

use super::samples::*;
use super::*;

fn sample() -> Log {
    log_of("desk-1", every_kind())
}

fn read(bytes: &[u8]) -> LogReading {
    read_log("desk-1.jsonl", bytes, &case_jaw())
}

fn kept(reading: &LogReading) -> usize {
    reading.log.as_ref().map_or(0, |log| log.events().len())
}

/// The sample's lines, to be damaged and put together again.
fn lines() -> Vec<String> {
    sample().text().lines().map(str::to_owned).collect()
}

fn joined(lines: &[String]) -> Vec<u8> {
    let mut text = lines.join("\n");
    text.push('\n');
    text.into_bytes()
}

/// The event of a line (its number in the file) with changes, all hashes of its own made right
/// again: what somebody can do who knows the format.
fn forged(line: usize, change: impl FnOnce(&mut Event)) -> String {
    let mut event = sample().events()[line - 2].clone();
    change(&mut event);
    event.hash = event.computed_hash();
    event.line()
}

fn line_ends(bytes: &[u8]) -> usize {
    bytes.split(|byte| *byte == b'\n').count() - 1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sound_file_reads_back_whole() {
        let log = sample();
        let reading = read(log.text().as_bytes());
        assert_eq!(told(&reading), Vec::<String>::new());
        assert_eq!(reading.sound_bytes, log.text().len());
        assert_eq!(reading.log, Some(log));
    }

    #[test]
    fn a_file_may_end_at_every_byte() {
        let text = sample().text();
        let bytes = text.as_bytes();
        let header = text.find('\n').unwrap();
        for end in 0..bytes.len() {
            let reading = read(&bytes[..end]);
            let whole_lines = line_ends(&bytes[..end]);
            let last = whole_lines + 1;
            let (want, kept_want, sound) = if bytes.get(end) == Some(&b'\n') {
                // Only the line's end is missing: the line is taken.
                (format!("{last} no-line-end"), last - 1, end)
            } else if end == 0 {
                ("1 empty".to_owned(), 0, 0)
            } else if bytes[end - 1] == b'\n' {
                // A shorter file cannot be told from one that was never longer.
                (String::new(), whole_lines - 1, end)
            } else {
                let start = text.as_bytes()[..end].iter().rposition(|b| *b == b'\n');
                let sound = start.map_or(0, |i| i + 1);
                let kept = whole_lines.saturating_sub(1);
                (format!("{last} cut-short"), kept, sound)
            };
            let told = told(&reading).join(", ");
            assert_eq!(told, want, "cut at {end}");
            assert_eq!(kept(&reading), kept_want, "cut at {end}");
            assert_eq!(reading.sound_bytes, sound, "cut at {end}");
            assert_eq!(reading.log.is_some(), end >= header, "cut at {end}");
        }
    }

    #[test]
    fn every_byte_may_be_wrong() {
        let text = sample().text();
        let log = sample();
        for place in 0..text.len() {
            let mut bytes = text.clone().into_bytes();
            let byte = [b'1', b'"', b'\n'][place % 3];
            if bytes[place] == byte {
                continue;
            }
            bytes[place] = byte;
            let line = 1 + line_ends(&text.as_bytes()[..place]);
            let reading = read(&bytes);
            let Some(first) = reading.problems.first() else {
                panic!("byte {place} set to {byte:#x} goes unnoticed")
            };
            // A changed writer in the header shows in the first event.
            assert!(
                first.line == line || line == 1 && first.line == 2,
                "byte {place} of line {line}: {first}"
            );
            // Whatever is kept is a beginning of what was written.
            let kept = reading.log.map_or(Vec::new(), |log| log.events().to_vec());
            let (count, most) = (kept.len(), line.saturating_sub(2));
            assert!(count <= most, "byte {place}: {count} events kept");
            assert!(log.events().starts_with(&kept), "byte {place}");
        }
    }

    #[test]
    fn two_lines_may_change_places() {
        for a in 0..lines().len() {
            for b in a + 1..lines().len() {
                let mut lines = lines();
                lines.swap(a, b);
                let reading = read(&joined(&lines));
                assert_eq!(kept(&reading), a.saturating_sub(1), "{a} {b}");
                assert_eq!(reading.problems[0].line, a + 1, "{a} {b}");
            }
        }
    }

    #[test]
    fn a_line_may_be_missing_or_doubled() {
        let count = lines().len();
        for line in 1..count {
            let mut without = lines();
            without.remove(line);
            let want = format!("{} missing", line + 1);
            let told_without = told(&read(&joined(&without)));
            // The last line leaves no trace when it goes.
            let want = if line + 1 == count {
                vec![]
            } else {
                vec![want]
            };
            assert_eq!(told_without, want);

            let mut doubled = lines();
            doubled.insert(line, lines()[line].clone());
            let reading = read(&joined(&doubled));
            assert_eq!(told(&reading), [format!("{} repeated", line + 2)]);
            assert_eq!(kept(&reading), line);
        }
    }

    /// A damaged text's name and bytes, the problems that are told and the number of events kept of ten.
    type Row = (&'static str, Vec<u8>, &'static [&'static str], usize);

    fn replaced(line: usize, from: &str, to: &str) -> Vec<u8> {
        let mut lines = lines();
        let old = lines[line - 1].clone();
        lines[line - 1] = old.replacen(from, to, 1);
        assert_ne!(old, lines[line - 1], "{from} is not in line {line}");
        joined(&lines)
    }

    fn with_line(line: usize, text: impl Into<String>) -> Vec<u8> {
        let mut lines = lines();
        lines[line - 1] = text.into();
        joined(&lines)
    }

    fn utf16(little: bool) -> Vec<u8> {
        let units = sample().text();
        let units = std::iter::once(0xfeff_u16).chain(units.encode_utf16().collect::<Vec<_>>());
        units
            .flat_map(|u| {
                if little {
                    u.to_le_bytes()
                } else {
                    u.to_be_bytes()
                }
            })
            .collect()
    }

    #[expect(clippy::too_many_lines, reason = "a table")]
    #[rustfmt::skip] // One row a line, so that the table reads as one.
    fn rows() -> Vec<Row> {
        let text = sample().text();
        let foreign = log_of("desk-2", every_kind());
        let foreign_line = foreign.events()[1].line();
        let zeros = |n: usize| [text.as_bytes(), &vec![0; n]].concat();
        let deep = |n: usize| {
            let arrays = "[".repeat(n) + &"]".repeat(n);
            with_line(4, format!("{{\"what\":{arrays}}}"))
        };
        let mut pasted = lines();
        pasted.insert(4, foreign_line.clone());
        let mut blank = lines();
        blank.insert(3, "  \t".to_owned());
        let mut latin = text.clone().into_bytes();
        let note = text.find('Ж').unwrap();
        latin[note] = 0xe9;
        let old_hash = sample().events()[2].hash.to_string();
        vec![
            // Not an event file at all.
            ("nothing", vec![], &["1 empty"], 0),
            ("line end", b"\n".to_vec(), &["1 not-an-event-file"], 0),
            ("blank", b" \n".to_vec(), &["1 not-an-event-file"], 0),
            ("words", b"hello\n".to_vec(), &["1 not-an-event-file"], 0),
            ("words cut", b"hello".to_vec(), &["1 not-an-event-file"], 0),
            ("null", b"null\n".to_vec(), &["1 not-an-event-file"], 0),
            ("number", b"1e999\n".to_vec(), &["1 not-an-event-file"], 0),
            ("zero bytes", vec![0; 4096], &["1 cut-short"], 0),
            ("array", b"[]\n".to_vec(), &["1 not-an-event-file"], 0),
            ("bytes", vec![0x80, 0x81, b'\n'], &["1 not-utf8"], 0),
            // Encodings.
            ("UTF-16 LE", utf16(true), &["1 other-encoding"], 0),
            ("UTF-16 BE", utf16(false), &["1 other-encoding"], 0),
            ("UTF-16 bare", utf16(true)[2..].to_vec(), &["1 other-encoding"], 0),
            ("UTF-32", [&[0xff, 0xfe, 0, 0], text.as_bytes()].concat(), &["1 other-encoding"], 0),
            ("BOM alone", "\u{feff}".into(), &["1 byte-order-mark", "1 empty"], 0),
            ("BOM", format!("\u{feff}{text}").into(), &["1 byte-order-mark"], 10),
            ("two BOM", format!("\u{feff}\u{feff}{text}").into(), &["1 byte-order-mark", "1 not-an-event-file"], 0),
            ("CRLF", text.replace('\n', "\r\n").into(), &["1 carriage-returns"], 10),
            ("BOM and CRLF", format!("\u{feff}{}", text.replace('\n', "\r\n")).into(), &["1 byte-order-mark", "1 carriage-returns"], 10),
            ("CR alone", text.replace('\n', "\r").into(), &["1 not-an-event-file"], 0),
            ("one CRLF", text.replacen(":3,", ":3,\r\n", 1).into(), &["4 carriage-returns", "4 not-json", "5 not-json"], 2),
            ("Latin-1", latin, &["3 not-utf8"], 1),
            ("NUL in a line", replaced(3, "kestrel", "kes\0trel"), &["3 not-json"], 1),
            ("lone surrogate", replaced(3, "kestrel", "\\ud800"), &["3 not-json"], 1),
            // The header.
            ("no header", joined(&lines()[1..]), &["1 not-an-event-file"], 0),
            ("newer file", replaced(1, ":1,", ":2,"), &["1 newer-version"], 0),
            ("far newer file", replaced(1, ":1,", ":18446744073709551615,"), &["1 newer-version"], 0),
            ("newer and other keys", replaced(1, ":1,", ":2,\"site\":36,"), &["1 newer-version"], 0),
            ("version 0", replaced(1, ":1,", ":0,"), &["1 not-an-event-file"], 0),
            ("version −1", replaced(1, ":1,", ":-1,"), &["1 not-an-event-file"], 0),
            ("version 1.5", replaced(1, ":1,", ":1.5,"), &["1 not-an-event-file"], 0),
            ("version as text", replaced(1, ":1,", ":\"1\","), &["1 not-an-event-file"], 0),
            ("version 1.0", replaced(1, ":1,", ":1.0,"), &["1 not-an-event-file"], 0),
            ("unknown header key", replaced(1, ":1,", ":1,\"x\":1,"), &["1 not-an-event-file"], 0),
            ("missing header key", replaced(1, "\"jaw\":\"lower\",", ""), &["1 not-an-event-file"], 0),
            ("unknown jaw", replaced(1, "lower", "both"), &["1 not-an-event-file"], 0),
            ("other case", replaced(1, "INV-7", "INV-8"), &["1 other-case", "2 chain-broken"], 0),
            ("other jaw", replaced(1, "lower", "upper"), &["1 other-jaw", "2 chain-broken"], 0),
            ("spaced header", replaced(1, ",", ", "), &["1 not-as-written"], 0),
            ("other writer's header", replaced(1, "desk-1", "desk-2"), &["2 other-writer", "3 other-writer", "4 other-writer", "5 other-writer", "6 other-writer", "7 other-writer", "8 other-writer", "9 other-writer", "10 other-writer", "11 other-writer"], 0),
            ("header twice", with_line(2, lines()[0].clone()), &["2 not-an-event"], 0),
            // A line that is no event.
            ("blank line", joined(&blank), &["4 blank-line"], 10),
            ("blank last line", format!("{text}\n").into(), &["12 blank-line"], 10),
            ("words in line 4", with_line(4, "see paper file"), &["4 not-json"], 2),
            ("a line cut within", with_line(4, &lines()[3][..90]), &["4 not-json"], 2),
            ("two lines in one", text.replacen("\"}\n{", "\"}{", 2).into(), &["1 not-an-event-file"], 0),
            ("event array", with_line(4, "[]"), &["4 not-an-event"], 2),
            ("empty object", with_line(4, "{}"), &["4 not-an-event"], 2),
            ("nested 100 deep", deep(100), &["4 not-an-event"], 2),
            ("nested 10000 deep", deep(10_000), &["4 not-json"], 2),
            ("a long line", with_line(4, "x".repeat(70_000)), &["4 line-too-long"], 2),
            ("long note", with_line(11, forged(11, |e| { e.kind = EventKind::Note { text: "x".repeat(5_000)} })), &["11 impossible"], 9),
            ("unknown key", replaced(4, "\"seq\"", "\"colour\":1,\"seq\""), &["4 not-an-event"], 2),
            ("unknown key within", replaced(4, "\"slot\"", "\"row\":1,\"slot\""), &["4 not-an-event"], 2),
            ("repeated key", replaced(3, "\"value_mm\":24.3", "\"value_mm\":99,\"value_mm\":24.3"), &["3 not-an-event"], 1),
            ("missing key", replaced(3, "\"value_mm\":24.3,", ""), &["3 not-an-event"], 1),
            ("null value", replaced(3, "24.3", "null"), &["3 not-an-event"], 1),
            ("text for a number", replaced(3, "\"setting_mm\":24.3", "\"setting_mm\":\"24.3\""), &["3 not-an-event"], 1),
            ("four decimals", replaced(3, "24.3", "24.3001"), &["3 not-an-event"], 1),
            ("not a number", replaced(3, "24.3", "NaN"), &["3 not-json"], 1),
            ("endless number", replaced(3, "24.3", "1e400"), &["3 not-json"], 1),
            ("huge number", replaced(3, "24.3", "1e300"), &["3 not-an-event"], 1),
            ("copy 0", replaced(3, "\"copy\":1", "\"copy\":0"), &["3 not-an-event"], 1),
            ("unknown stage", replaced(3, "\"bench\"", "\"attic\""), &["3 not-an-event"], 1),
            ("newer kind", replaced(3, "\"reading\"", "\"laser_reading\""), &["3 unknown-kind"], 1),
            ("kind as number", replaced(3, "\"reading\"", "7"), &["3 not-an-event"], 1),
            ("no time", replaced(3, "2030-", "30-"), &["3 not-an-event"], 1),
            ("bad fingerprint", replaced(5, "\"fingerprint\":\"", "\"fingerprint\":\"U"), &["5 not-an-event"], 3),
            ("capital writer", replaced(3, "desk-1", "Desk-1"), &["3 not-an-event"], 1),
            ("nobody", replaced(2, "A.B.", "."), &["2 not-an-event"], 0),
            ("short hash", with_line(4, lines()[3].replace(&old_hash, "abc")), &["4 not-an-event"], 2),
            ("capital hash", with_line(4, lines()[3].replace(&old_hash, &old_hash.to_uppercase())), &["4 not-an-event"], 2),
            ("negative number", replaced(3, "\"seq\":2", "\"seq\":-2"), &["3 not-an-event"], 1),
            // An edit by hand.
            ("edited reading", replaced(3, "\"value_mm\":24.3", "\"value_mm\":24.2"), &["3 edited"], 1),
            ("edited setting", replaced(3, "\"setting_mm\":24.3", "\"setting_mm\":23.3"), &["3 edited"], 1),
            ("edited initials", replaced(2, "A.B.", "A.C."), &["2 edited"], 0),
            ("edited time", replaced(5, "2030-", "2031-"), &["5 edited"], 3),
            ("edited number", replaced(5, "\"seq\":4", "\"seq\":5"), &["5 edited"], 3),
            ("edited last line", replaced(11, "done", "gone"), &["11 edited"], 9),
            ("edited prev_hash", with_line(4, lines()[3].replace(&sample().events()[1].hash.to_string(), &old_hash)), &["4 edited"], 2),
            ("edited hash", with_line(4, lines()[3].replace(&old_hash, &sample().events()[1].hash.to_string())), &["4 edited", "5 chain-broken"], 2),
            ("blank within", replaced(8, "\"drill\":{\"drill\"", "\"drill\":{ \"drill\""), &["8 not-as-written"], 6),
            ("trailing blank", with_line(4, lines()[3].clone() + " "), &["4 not-as-written"], 2),
            ("24.30", replaced(3, "24.3,", "24.30,"), &["3 not-as-written"], 1),
            ("escaped letter", replaced(3, "kestrel", "\\u006bestrel"), &["3 not-as-written"], 1),
            ("keys in another order", with_line(4, serde_json::from_str::<serde_json::Value>(&lines()[3]).unwrap().to_string()), &["4 not-as-written"], 2),
            // Lines that are sound by themselves.
            ("other writer's line pasted", joined(&pasted), &["5 other-writer"], 3),
            ("other writer's line instead", with_line(3, foreign_line), &["3 other-writer", "4 missing"], 1),
            ("forged content", with_line(3, forged(3, |e| e.who = who("X"))), &["4 chain-broken"], 2),
            ("forged last line", with_line(11, forged(11, |e| e.prev_hash = e.hash)), &["11 chain-broken"], 9),
            ("forged gap", with_line(11, forged(11, |e| e.seq = 12)), &["11 missing"], 9),
            ("forged number 0", with_line(2, forged(2, |e| e.seq = 0)), &["2 repeated", "3 missing"], 0),
            ("greatest number", with_line(11, forged(11, |e| e.seq = u64::MAX)), &["11 missing"], 9),
            ("reading of nothing", with_line(3, forged(3, |e| { e.kind = EventKind::Reading(reading(item("kestrel", 1, None, "24.3"), "0")) })), &["3 impossible", "4 chain-broken"], 1),
            ("negative reading", with_line(3, forged(3, |e| { e.kind = EventKind::Reading(reading(item("kestrel", 1, None, "24.3"), "-24.3")) })), &["3 impossible", "4 chain-broken"], 1),
            ("reading of 3 m", with_line(3, forged(3, |e| { e.kind = EventKind::Reading(reading(item("kestrel", 1, None, "24.3"), "3000")) })), &["3 impossible", "4 chain-broken"], 1),
            ("reading of no drill", with_line(3, forged(3, |e| { e.kind = EventKind::Reading(reading(item(" ", 1, None, "24.3"), "24.3")) })), &["3 impossible", "4 chain-broken"], 1),
            ("clock went back", with_line(11, forged(11, |e| e.at = at(-5))), &["11 clock-went-back"], 10),
            // A power cut.
            ("zeros behind", zeros(512), &["12 cut-short"], 10),
            ("zeros in the last line", [&text.as_bytes()[..text.len() - 40], &[0; 40]].concat(), &["11 cut-short"], 9),
            ("zero for the line end", [&text.as_bytes()[..text.len() - 1], &[0]].concat(), &["11 no-line-end"], 10),
            ("half a letter", text.as_bytes()[..=text.rfind('Ж').unwrap()].to_vec(), &["11 cut-short"], 9),
            // Several faults at once: all are told.
            ("three faults", { let mut lines = lines(); lines[2] = lines[2].replace("24.3", "24.2"); lines[4] = "?".to_owned(); lines[8] = lines[8].replace("desk-1", "desk-9"); joined(&lines) }, &["3 edited", "5 not-json", "9 other-writer", "10 missing"], 1),
        ]
    }

    #[test]
    fn every_damage_is_told_by_line_and_kind() {
        let rows = rows();
        assert!(rows.len() >= 50);
        for (name, bytes, want, want_kept) in rows {
            let reading = read(&bytes);
            assert_eq!(told(&reading), want, "{name}: {:#?}", reading.problems);
            assert_eq!(kept(&reading), want_kept, "{name}");
            assert!(reading.sound_bytes <= bytes.len(), "{name}");
            for problem in &reading.problems {
                assert_eq!(problem.file, "desk-1.jsonl", "{name}");
            }
        }
    }

    #[test]
    fn a_file_beyond_all_measure_is_not_read() {
        let reading = read(&vec![b'\n'; 64 * 1024 * 1024 + 1]);
        assert_eq!(told(&reading), ["1 too-large"]);
    }

    #[test]
    fn what_is_told_names_the_thing() {
        for (bytes, arg, want) in [
            (
                replaced(4, "\"seq\"", "\"colour\":1,\"seq\""),
                "detail",
                "unknown field `colour`",
            ),
            (
                replaced(3, "\"value_mm\":24.3,", ""),
                "detail",
                "missing field `value_mm`",
            ),
            (
                replaced(3, "24.3", "24.3001"),
                "detail",
                "more than three decimals",
            ),
            (
                replaced(3, "\"reading\"", "\"laser_reading\""),
                "name",
                "laser_reading",
            ),
            (replaced(1, ":1,", ":2,"), "found", "2"),
            (replaced(1, "INV-7", "INV-8"), "found", "INV-8"),
        ] {
            let message = read(&bytes).problems[0].message();
            let told = message.args[arg].to_string();
            assert!(told.contains(want), "{message}");
            assert!(!told.contains("at line"), "{message}");
        }
    }

    #[test]
    fn after_a_cut_the_sound_part_can_be_written_on() {
        let text = sample().text();
        let cut = &text.as_bytes()[..text.len() - 30];
        let reading = read(cut);
        let mut log = reading.log.unwrap();
        let mut file = cut[..reading.sound_bytes].to_vec();
        let kind = EventKind::Note {
            text: "again".to_owned(),
        };
        let (event, line) = log.append(at(9999), who("AB"), kind).unwrap();
        assert_eq!(event.seq, 10);
        file.extend(line.as_bytes());
        let again = read(&file);
        assert_eq!(told(&again), Vec::<String>::new());
        assert_eq!(again.log, Some(log));
    }
}
