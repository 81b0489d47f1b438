//! The implant itself: the carrier's depth, and whether it passes.

use super::sample::{all, distance, judged, mm, one, received, shown, worked};
use traywright_core::case::{GuideState, GuidedExtent, ReceiptOf};
use traywright_core::kit::Label;
use traywright_core::plan::Verdict;

/// Through the master sleeve the carrier meets 6.0 + 4.0 = 10.0: the line `far` at 10.0 fits, the
/// implant comes to its depth. At a distance of 6.3 the seat is 10.3 and it stays 0.3 shallow; at
/// 5.9 only `near`, 8.0, is not above 9.9: 1.9 shallow; at 3.9 no line is.
#[test]
fn the_longest_line_not_above_the_seat() {
    for (entered, line, shallow) in [
        ("6.0", Some("far"), "0"),
        ("6.3", Some("far"), "0.3"),
        ("5.9", Some("near"), "1.9"),
        ("4.0", Some("near"), "0"),
        ("3.9", None, "unknown"),
    ] {
        let sheet = worked(|case| distance(case, entered));
        let insertion = sheet.sites[0].insertion.as_ref().unwrap();
        let name = insertion.line.as_ref().map(Label::as_str);
        assert_eq!(name, line, "{entered}");
        assert_eq!(shown(&insertion.shallow), shallow, "{entered}");
        let (notes, long) = (
            all(&sheet, "carrier-line-short"),
            all(&sheet, "carrier-too-long"),
        );
        assert_eq!(notes.len(), usize::from(matches!(shallow, "0.3" | "1.9")));
        // Up to half a millimetre is worth knowing; more is short.
        let want = match shallow {
            "1.9" => Verdict::Short,
            _ => Verdict::Note,
        };
        assert!(notes.iter().all(|f| f.verdict == want), "{entered}");
        assert_eq!(long.len(), usize::from(line.is_none()));
        assert!(long.iter().all(|f| f.verdict == Verdict::Short));
    }
}

/// The line is at 10.0 and 0.5 is just allowed (common practice, no source): a seat at 6.5 + 4.0 =
/// 10.5 is worth knowing, one a micrometre higher is short.
#[test]
fn the_implant_may_stay_as_shallow_as_the_limit() {
    for (entered, verdict, shallow) in [
        ("6.5", Verdict::Note, "0.5"),
        ("6.501", Verdict::Short, "0.501"),
    ] {
        let sheet = worked(|case| distance(case, entered));
        let want = (verdict, shallow.to_owned());
        assert_eq!(judged(&sheet, "carrier-line-short"), want);
    }
}

/// Through a drill sleeve its seat counts too: 10.0 + 0.7 = 10.7.
#[test]
fn an_insertion_sleeve_raises_the_seat() {
    let sheet = worked(|case| {
        case.sites[0].insertion.sleeve = Some("sc".into());
        case.kit.drill_sleeves[2].bore_mm = mm("4.7");
        case.kit.carriers[0].guided_diameter_mm = mm("4.65");
    });
    let insertion = sheet.sites[0].insertion.as_ref().unwrap();
    assert_eq!(shown(&insertion.seat), "10.7");
    assert_eq!(shown(&insertion.shallow), "0.7");
}

/// Its largest diameter, not that in bone, must pass the bore of 4.95 with the 0.02 that the kit wants, also
/// where the bore of a sleeve is what it passes.
#[test]
fn the_whole_implant_must_pass_the_bore() {
    for (largest, passes) in [
        ("4.93", true),
        ("4.931", false),
        ("4.95", false),
        ("4.951", false),
    ] {
        let sheet = worked(|case| case.kit.implants[0].largest_diameter_mm = mm(largest));
        let found = all(&sheet, "implant-does-not-pass");
        assert_eq!(found.is_empty(), passes, "{largest}");
        if let [finding] = found[..] {
            assert_eq!(finding.verdict, Verdict::Short);
        }
    }
    for (largest, passes) in [("4.68", true), ("4.681", false), ("4.7", false)] {
        let sheet = worked(|case| {
            case.kit.implants[0].largest_diameter_mm = mm(largest);
            case.sites[0].insertion.sleeve = Some("sc".into());
            case.kit.drill_sleeves[2].bore_mm = mm("4.7");
        });
        let found = all(&sheet, "implant-does-not-pass");
        assert_eq!(found.is_empty(), passes, "{largest}");
    }
    // Drilling alone asks nothing of it.
    let drilling = worked(|case| {
        case.kit.implants[0].largest_diameter_mm = mm("6");
        case.sites[0].guided_extent = GuidedExtent::AllDrilling;
    });
    assert!(drilling.sites[0].insertion.is_none());
    assert!(all(&drilling, "implant-does-not-pass").is_empty());
}

#[test]
fn the_carrier_must_be_there_belong_and_run_in_the_bore() {
    let missing = worked(|case| case.sites[0].insertion.carrier = None);
    assert_eq!(one(&missing, "carrier-missing").verdict, Verdict::Unknown);
    let insertion = missing.sites[0].insertion.as_ref().unwrap();
    assert_eq!(shown(&insertion.shallow), "unknown");

    let other = worked(|case| case.kit.carriers[0].families = vec!["G".into()]);
    assert_eq!(
        one(&other, "carrier-not-for-implant").verdict,
        Verdict::Short
    );

    // Bore 4.95, allowed 0.02 to 0.2.
    for (guided, fits) in [
        ("4.93", true),
        ("4.931", false),
        ("4.75", true),
        ("4.749", false),
    ] {
        let sheet = worked(|case| case.kit.carriers[0].guided_diameter_mm = mm(guided));
        assert_eq!(
            all(&sheet, "carrier-clearance").is_empty(),
            fits,
            "{guided}"
        );
    }

    let no_distance = worked(|case| case.sites[0].platform_to_sleeve = None);
    assert_eq!(
        judged(&no_distance, "carrier-depth"),
        (Verdict::Unknown, "unknown".into())
    );
}

/// A guide that seats 0.09 higher, as measured, lifts the implant too: 0.45 + 0.09 = 0.54, and 0.5 is just
/// allowed.
#[test]
fn a_guide_that_seats_higher_lifts_the_implant_too() {
    let at = |measured: Option<&str>| {
        let sheet = worked(|case| {
            distance(case, "6.45");
            case.guide.state = GuideState::Made;
            let receipt = measured.map(|m| received(case, ReceiptOf::PlatformToSleeve, m));
            case.guide.receipt = receipt.into_iter().collect();
        });
        judged(&sheet, "carrier-line-short")
    };
    assert_eq!(at(None), (Verdict::Note, "0.45".to_owned()));
    assert_eq!(at(Some("6.45")), (Verdict::Note, "0.45".to_owned()));
    assert_eq!(at(Some("6.54")), (Verdict::Short, "0.54".to_owned()));
    // One that seats lower does not: its drills go deeper too.
    assert_eq!(at(Some("6.4")), (Verdict::Note, "0.45".to_owned()));
}
