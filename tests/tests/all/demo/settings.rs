//! Settings of the demo cases, worked out by hand from the kit's and the cases' figures.
//!
//! seat = platform to sleeve + master sleeve height + seat above rim; exact = seat + preparation
//! + datum from tip; set = the largest graduation, groove or mark not above exact; cut = set − seat.

use super::{mm, sheet, shown, site, step};
use traywright_core::plan::{Edge, StepPath, Worksheet};

/// Seat, exact, set, gauge figure (`-` where marks are read) and cut of a step.
fn figures(sheet: &Worksheet, site: &str, id: &str) -> [String; 5] {
    let step = step(sheet, site, id);
    let gauge = step.gauge.as_ref().map_or_else(|| "-".into(), shown);
    let [seat, exact, set, cut] = [&step.seat, &step.exact, &step.set, &step.cut].map(shown);
    [seat, exact, set, gauge, cut]
}

fn check(sheet: &Worksheet, site: &str, wanted: &[(&str, [&str; 5])]) {
    for (id, wanted) in wanted {
        assert_eq!(figures(sheet, site, id), *wanted, "{site} {id}");
    }
}

/// Reed 3.63 × 9.1 with 1.3 of collar: 10.4; allowance 0.4; counted at the tip.
#[test]
fn one_premolar() {
    let sheet = sheet("one-premolar");
    // 3.95 + 3.85 + 0.65 = 8.45; + 10.4 + 0.4 = 19.25, to tenths 19.2; − 8.45 = 10.75; the guide as
    // measured seats 3.95 + 3.85 − 3.91 − 3.87 = 0.02 lower
    let all = ["8.45", "19.25", "19.2", "19.2", "10.77"];
    check(&sheet, "p35", &[("s1", all), ("s2", all), ("s3", all)]);
    let site = site(&sheet, "p35");
    // 19.2 − 3.87 as measured − 0.65
    assert_eq!(site.steps[0].bench.as_ref().map(shown).unwrap(), "14.68");
    // 8.45 − crest 0.6 − 0.02
    assert_eq!(site.sounding.as_ref().map(shown).unwrap(), "7.83");
    // 3.95 + 3.85 = 7.8, a line of the carrier
    let insertion = site.insertion.as_ref().unwrap();
    assert_eq!(insertion.line.as_ref().unwrap().as_str(), "middle");
    assert_eq!(shown(&insertion.shallow), "0");
    // The next shorter one is 7.4 + 1.3 = 8.7: 8.45 + 8.7 + 0.4 = 17.55, to tenths 17.5, where the
    // clamping length begins at 17.6: no setting.
    let shorter = site.shorter.as_ref().unwrap();
    assert_eq!(shorter.implant.as_str(), "reed-363-74");
    assert_eq!(shown(&shorter.steps[0].set), "?");
    let rules: Vec<_> = shorter.findings.iter().map(|f| f.rule.key()).collect();
    assert_eq!(rules, ["off-clamping-length"; 3]);
    assert_eq!(shorter.findings[0].length_value(), Some(mm("17.5")));
}

/// Reed 4.37 × 9.1: 10.4; the pilot's first pass, the profile drill and the tap have their own
/// depths.
#[test]
fn two_molars() {
    let sheet = sheet("two-molars");
    // 4.45 + 4.65 + 0.85 = 9.95; 10.4 + 0.4 = 10.8
    let full = ["9.95", "20.75", "20.7", "20.7", "10.75"];
    let wanted = [
        // 10.8 − 2.9 = 7.9; 9.95 + 7.9 = 17.85
        ("s1", ["9.95", "17.85", "17.8", "17.8", "7.85"]),
        ("s2", full),
        ("s5", full),
        // Through the master sleeve: 4.45 + 4.65 = 9.1. Line 3.6 from the tip to 0.5 below.
        ("s6", ["9.1", "13.2", "13.2", "13.2", "4.1"]),
        // Line 0.9 from the tip; 10.8 − 1.2 = 9.6; 9.1 + 9.6 + 0.9 = 19.6
        ("s7", ["9.1", "19.6", "19.6", "19.6", "10.5"]),
    ];
    check(&sheet, "m46", &wanted);
    // Reed 4.37 × 7.4: 8.7. 4.55 + 4.65 + 0.85 = 10.05; + 8.7 + 0.4 = 19.15
    let full = ["10.05", "19.15", "19.1", "19.1", "9.05"];
    check(&sheet, "m47", &[("s1", full), ("s4", full)]);
}

/// Sloe is counted at the full diameter and has no allowance. Cones of 120°: the length is
/// d · 0.288675 (exact identity d / (2·tan 60°)), down to the micrometre: 2.74 → 0.790,
/// 3.24 → 0.935, 3.72 → 1.073.
#[test]
fn full_arch_upper() {
    let sheet = sheet("full-arch-upper");
    // 13.6 + 0.9 = 14.5; 5.65 + 4.65 = 10.3 to the rim
    for hindmost in ["u15", "u25"] {
        let wanted = [
            // 10.3 + 0.85; pilot at its tip: + 14.5
            ("s1", ["11.15", "25.65", "25.6", "25.6", "14.45"]),
            // 10.3 + 1.1; + 14.5 + 0.790
            ("s2", ["11.4", "26.69", "26.6", "26.6", "15.2"]),
            // 10.3 + 0.85; + 14.5 + 0.935
            ("s3", ["11.15", "26.585", "26.5", "26.5", "15.35"]),
            // flush with the rim: 10.3; + 14.5 + 1.073
            ("s4", ["10.3", "25.873", "25.8", "25.8", "15.5"]),
        ];
        check(&sheet, hindmost, &wanted);
        assert_eq!(shown(&site(&sheet, hindmost).deepest_cut), "15.5");
    }
    // 12.3 + 0.9 = 13.2; 4.55 + 4.65 = 9.2 to the rim
    for front in ["u13", "u12", "u22", "u23"] {
        let wanted = [
            ("s1", ["10.05", "23.25", "23.2", "23.2", "13.15"]),
            ("s2", ["10.3", "24.29", "24.2", "24.2", "13.9"]),
            ("s3", ["10.05", "24.185", "24.1", "24.1", "14.05"]),
        ];
        check(&sheet, front, &wanted);
    }
}

/// Given to the rim: 9.35 − 4.65 = 4.7 and 8.3 − 3.85 = 4.45. Both Reeds are 7.4 + 1.3 = 8.7 long.
#[test]
fn fixed_stops() {
    let sheet = sheet("fixed-stops");
    // 9.35 + 0.85 = 10.2; + 8.7 + 0.4 = 19.3. Grooves below: 18.6 (next 20.4), 18.4 (20.4),
    // 18.4 (20.2), 18.7 (20.3)
    let wanted = [
        ("s1", ["10.2", "19.3", "18.6", "18.6", "8.4"]),
        ("s2", ["10.2", "19.3", "18.4", "18.4", "8.2"]),
        ("s3", ["10.2", "19.3", "18.4", "18.4", "8.2"]),
        ("s4", ["10.2", "19.3", "18.7", "18.7", "8.5"]),
    ];
    check(&sheet, "g36", &wanted);
    assert_eq!(shown(&site(&sheet, "g36").distance), "4.7");
    // 8.3 + 0.65 = 8.95; + 8.7 + 0.4 = 18.05. Band IV runs from 17.2 to 17.9, line V is at 19.7.
    let marks = ["8.95", "18.05", "17.9", "-", "8.95"];
    check(
        &sheet,
        "k34",
        &[("s1", marks), ("s2", marks), ("s3", marks)],
    );
    let mark = step(&sheet, "k34", "s2").mark.as_ref().unwrap();
    assert_eq!((mark.name.as_str(), mark.edge), ("IV", Edge::Upper));
}

/// The gauge shows set + 1.5 constant + 4.2 stop body, on graduations of 0.2.
#[test]
fn upper_face_gauge() {
    let sheet = sheet("upper-face-gauge");
    // 5.25 + 4.65 + 0.85 = 10.75; + 10.4 + 0.4 = 21.55; + 5.7 = 27.25, to fifths 27.2; − 5.7 = 21.5
    let all = ["10.75", "21.55", "21.5", "27.2", "10.75"];
    check(&sheet, "r16", &[("s1", all), ("s4", all)]);
}

/// The pilot through the guide; then by marks from the socket's rim, 0.4 above the platform.
#[test]
fn fresh_socket() {
    let sheet = sheet("fresh-socket");
    let wanted = [
        // 5.2 + 4.65 + 0.85 = 10.7; + 13.2
        ("s1", ["10.7", "23.9", "23.9", "23.9", "13.2"]),
        // From the rim: 0.4 + 13.2 + 0.790; band II ends at 14.2
        ("s2", ["0.4", "14.39", "14.2", "-", "13.8"]),
        // 0.4 + 13.2 + 0.935
        ("s3", ["0.4", "14.535", "14.2", "-", "13.8"]),
    ];
    check(&sheet, "s21", &wanted);
    let mark = step(&sheet, "s21", "s3").mark.as_ref().unwrap();
    assert_eq!((mark.name.as_str(), mark.edge), ("II", Edge::Upper));
    assert_eq!(step(&sheet, "s21", "s3").path, StepPath::Freehand);
}

/// Given to the rim: 9.25. Sloe 4.44 × 9.4 with 0.9 of collar: 10.3. By themselves the settings
/// were 20.4, 21.4, 21.3 and 20.6: one figure, the least of them.
#[test]
fn one_figure() {
    let sheet = sheet("one-figure");
    let wanted = [
        // 9.25 + 0.85 = 10.1; + 10.3; the guide as measured seats 0.03 lower, so each cut is deeper
        ("s1", ["10.1", "20.4", "20.4", "20.4", "10.33"]),
        // 9.25 + 1.1; + 10.3 + 0.790
        ("s2", ["10.35", "21.44", "20.4", "20.4", "10.08"]),
        // 10.1 + 10.3 + 0.935
        ("s3", ["10.1", "21.335", "20.4", "20.4", "10.33"]),
        // 9.25 + 10.3 + 1.073
        ("s4", ["9.25", "20.623", "20.4", "20.4", "11.18"]),
    ];
    check(&sheet, "o24", &wanted);
    assert_eq!(shown(&site(&sheet, "o24").distance), "4.6");
    let short = ["s1", "s2", "s3", "s4"].map(|id| shown(&step(&sheet, "o24", id).shortfall));
    assert_eq!(short, ["0", "1.04", "0.935", "0.223"]);
}
