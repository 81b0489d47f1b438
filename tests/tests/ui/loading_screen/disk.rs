//! The case's file is lost or damaged while a pass goes on.

use super::screen::{STANDING, Screen, text_of};
use egui::Key;

/// Its words in large letters: capitals of 1/300 of the 2 m that it is read from are 6.7 mm, some 25 points
/// (common practice, as for the words on a refused reading).
const LARGE: f64 = 25.0;

fn set_one() -> Screen {
    let mut screen = Screen::new(STANDING, "two-molars");
    screen.begin();
    screen.set();
    screen.type_in("19.0");
    screen.key(Key::Space);
    screen
}

/// What is wrong with the file, and the words on it.
fn damages() -> [(Option<String>, &'static str); 3] {
    let text = text_of("two-molars");
    let at = text.find("\"entered_mm\": ").unwrap() + "\"entered_mm\": ".len();
    let until = at + text[at..].find([',', '\n', '}']).unwrap();
    let beyond = format!("{}19.0e9{}", &text[..at], &text[until..]);
    [
        (None, "is gone from the disk"),
        (Some(text[..5000].to_owned()), "cannot be read any more"),
        (Some(beyond), "cannot be read any more"),
    ]
}

fn damage(screen: &Screen, content: Option<&String>) {
    match content {
        Some(content) => std::fs::write(screen.file(), content).unwrap(),
        None => std::fs::remove_file(screen.file()).unwrap(),
    }
}

/// Nothing is set or read on a case whose file is gone or damaged, in neither pass; once it is there again, what
/// goes on goes on.
#[test]
fn a_pass_stops_while_the_file_of_the_case_is_gone_or_damaged() {
    for (content, words) in damages() {
        for blind in [false, true] {
            let mut screen = set_one();
            if blind {
                screen.begin_again("KE");
            }
            let before = screen.recorded().len();
            damage(&screen, content.as_ref());
            screen.disk_is_looked_at();
            assert!(
                screen.says("STOP") && screen.says(words),
                "{:?}",
                screen.said()
            );
            assert!(
                screen.capitals(words) >= LARGE,
                "{}",
                screen.capitals(words)
            );
            screen.type_in("19.1");
            for _ in 0..4 {
                screen.key(Key::Space);
            }
            assert_eq!(screen.recorded().len(), before);
            // In neither is a figure shown, not that of the fault either.
            assert!(
                screen.settings_shown().is_empty(),
                "{:?}",
                screen.settings_shown()
            );
            assert!(!screen.says("19000000000") && !screen.says("19.0e9"));
            std::fs::write(screen.file(), text_of("two-molars")).unwrap();
            assert!(screen.looks_until(|screen| !screen.says("STOP")));
            if blind {
                screen.type_in("19.1");
            } else {
                screen.key(Key::Space);
                screen.key(Key::Space);
            }
            assert!(screen.recorded().len() > before, "{:?}", screen.said());
        }
    }
}

#[test]
fn no_pass_begins_on_a_case_whose_file_is_gone_or_damaged() {
    for (content, words) in damages() {
        for key in [Key::B, Key::A] {
            let mut screen = Screen::new(STANDING, "two-molars");
            damage(&screen, content.as_ref());
            assert!(
                screen.looks_until(|screen| screen.says(words)),
                "{:?}",
                screen.said()
            );
            screen.key(key);
            screen.name("KE");
            assert!(screen.recorded().is_empty(), "{words}");
        }
        // Asked who reads as it goes.
        for key in [Key::B, Key::A] {
            let mut screen = Screen::new(STANDING, "two-molars");
            screen.key(key);
            damage(&screen, content.as_ref());
            screen.disk_is_looked_at();
            screen.name("KE");
            assert!(screen.recorded().is_empty(), "{words}");
        }
    }
}
