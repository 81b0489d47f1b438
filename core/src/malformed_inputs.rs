//! Whatever a file holds, its reader says so and nothing else happens; what is read is written and read the same.

#[cfg(test)]
mod tests {
    use crate::case::{read_case, read_kit};
    use crate::dentition::Jaw;
    use crate::document::print;
    use crate::order::read_problem;
    use crate::plan::work_out;
    use crate::sign::{CaseJaw, HeadCode, Merged, read_log};
    use crate::text::Texts;
    use crate::wording::{faults, message};
    use traywright_samples::inputs::read_all;

    #[test]
    fn a_case_is_refused_in_words_or_worked_out() {
        read_all("case", |bytes| match read_case(bytes) {
            Ok(case) => {
                let text = print(&*case).unwrap();
                assert_eq!(read_case(text.as_bytes()).as_ref(), Ok(&case));
                let worksheet = work_out(&case);
                assert_eq!(worksheet.fingerprint, case.fingerprint());
            }
            Err(found) => assert!(!faults(&found, Texts::english()).is_empty()),
        });
    }

    #[test]
    fn a_kit_is_refused_in_words_or_read() {
        read_all("kit", |bytes| match read_kit(bytes) {
            Ok(kit) => {
                let text = print(&kit).unwrap();
                assert_eq!(read_kit(text.as_bytes()), Ok(kit));
            }
            Err(found) => assert!(!faults(&found, Texts::english()).is_empty()),
        });
    }

    #[test]
    fn a_problem_of_the_order_is_refused_or_read() {
        read_all("order", |bytes| {
            // Whether it can be solved is another matter.
            drop(read_problem(bytes));
        });
    }

    #[test]
    fn events_are_told_line_by_line_and_what_is_sound_of_them_is_as_it_was_written() {
        let case_jaw = CaseJaw {
            case: "INV-7".to_owned(),
            jaw: Jaw::Lower,
        };
        read_all("events", |bytes| {
            let read = read_log("desk.events.jsonl", bytes, &case_jaw);
            for problem in &read.problems {
                assert!(!message(&problem.message(), Texts::english()).is_empty());
            }
            assert!(read.sound_bytes <= bytes.len());
            let Some(log) = read.log else { return };
            let again = read_log("desk.events.jsonl", log.text().as_bytes(), &case_jaw);
            assert_eq!(again.log.as_ref(), Some(&log));
            let merged = Merged::of(case_jaw.clone(), [log]).unwrap();
            for code in merged.head_codes() {
                assert_eq!(code.to_string().parse::<HeadCode>(), Ok(code));
            }
        });
    }
}
