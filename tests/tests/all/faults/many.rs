//! Several faults in one file: all are reported at once, in the order of the file.

use super::edit::{Edit, before, edited, set};
use super::{Of, PREMOLAR, report, source};

/// A file with several faults, the changes from the bottom to the top, and the report of each.
struct Many {
    name: &'static str,
    of: Of,
    edits: Vec<Edit>,
    /// In the order of the file.
    wants: &'static [&'static str],
}

fn many() -> Vec<Many> {
    vec![
        Many {
            name: "five kinds of fault in one site",
            of: PREMOLAR,
            edits: vec![
                set("sites/0/steps/2/stop", "\"halt\""),
                set("sites/0/heights/tissue_thickness_mm", "2.12345"),
                set("sites/0/platform_to_sleeve/entered_mm", "-3.95"),
                before("sites/0/implant", "\"colour\": 1, "),
                set("sites/0/placement/at", "\"25\""),
            ],
            wants: &[
                "› placement › at: tooth 25 is in the other jaw",
                "› colour: the key \"colour\" is not known here",
                "› platform_to_sleeve › entered_mm: -3.95 mm must be at least 0.",
                "› heights › tissue_thickness_mm: 2.12345 mm has more than 3 decimals",
                "› steps[2] \"s3\" › stop: there is no stop with the id halt",
            ],
        },
        Many {
            name: "faults in every part of a case",
            of: PREMOLAR,
            edits: vec![
                set("kit/drills/0/quantity", "-4"),
                set("limits/sinus/limit_mm", "1e999"),
                set("setup/head", "7"),
                set("arch/landmark", "\"chin\""),
                set("guide/scan_date", "\"yesterday\""),
                set("demonstration", "\"no\""),
            ],
            wants: &[
                "demonstration: true or false is needed here",
                "guide › scan_date: \"yesterday\" is not a date",
                "arch › landmark: \"chin\" is not known here",
                "setup › head: a text is needed here, not the number 7",
                "limits › sinus › limit_mm: 1e999",
                "kit › drills[0] \"pilot-213\" › quantity: -4 must be at least 0",
            ],
        },
        Many {
            name: "faults all over the kit",
            of: Of::Kit,
            edits: vec![
                set("protocols/0/implants/0", "\"oak\""),
                set("gauges/0/to_mm", "8"),
                set("stops/1/id", "\"stop-213\""),
                set("drills/1/cutting_diameter_mm", "-2.57"),
                set("implants/0/diameter_mm", "\"3.63\""),
            ],
            wants: &[
                "implants[0] \"reed-363-74\" › diameter_mm: the number \"3.63\" is in quotes",
                "drills[1] \"tip-257\" › cutting_diameter_mm: -2.57 mm must be at least",
                "stops[1] \"stop-213\" › id: the id stop-213 is given twice",
                "gauges[0] \"bench-gauge\" › to_mm: 8 mm must be at least the 9 mm of from_mm",
                "protocols[0] \"reed-363-firm\" › implants[0]: there is no implant with the id oak",
            ],
        },
    ]
}

pub(super) fn names() -> Vec<String> {
    many().iter().map(|many| many.name.to_owned()).collect()
}

#[test]
fn all_faults_are_told_at_once_in_the_order_of_the_file() {
    for many in many() {
        let edited = edited(&source(many.of), &many.edits);
        let report = report(many.of, &edited.bytes);
        let name = many.name;
        let mut from = 0;
        for wanted in many.wants {
            let at = report[from..].find(wanted);
            from += at.unwrap_or_else(|| panic!("{name}: no “{wanted}” in order in\n{report}"));
        }
        let told = report
            .lines()
            .filter(|line| line.starts_with("line "))
            .count();
        assert_eq!(told, many.wants.len(), "{name}:\n{report}");
    }
}

/// Each of a thousand and more faults is counted, and those beyond a readable list are mentioned.
#[test]
fn a_file_of_faults_gives_a_report_that_ends() {
    let teeth = vec!["{\"position\": \"31\", \"state\": \"gone\"}"; 1500].join(",\n");
    let edited = edited(&source(PREMOLAR), &[set("teeth", format!("[{teeth}]"))]);
    let report = report(PREMOLAR, &edited.bytes);
    assert!(report.contains("\"gone\" is not known here"), "{report}");
    assert!(
        report.contains("more faults that are not listed"),
        "{report}"
    );
    assert!(report.lines().count() < 1010);
}
