//! Sleeve play: closed forms and a published pair of figures.
//!
//! With the diametral clearance c over the guided length g, the greatest tilt is atan(c / g) and
//! the greatest lateral error at z below the lower end c/2 + z·c/g.

use super::sample::{all, judged, mm, one, worked};
use traywright_core::case::Limit;
use traywright_core::measure::{Angle, Length};
use traywright_core::plan::{Quantity, Verdict, Worksheet};

/// A drill of 1.9 straight through a master sleeve of this height with this clearance, its tip
/// this far below the sleeve. Tilt in degrees, lateral error in mm.
fn straight(height: &str, clearance: &str, tip_below: &str) -> (f64, f64) {
    let sheet = worked(|case| {
        case.sites[0].steps.truncate(1);
        case.sites[0].steps[0].sleeve = None;
        case.kit.master_sleeves[0].height_mm = mm(height);
        case.kit.master_sleeves[0].bore_mm = mm("1.9") + mm(clearance);
        // Below the sleeve lie the distance and the implant's 10.0.
        super::sample::distance(case, "0");
        let distance = mm(tip_below) - mm("10");
        case.sites[0]
            .platform_to_sleeve
            .as_mut()
            .unwrap()
            .entered_mm = distance;
    });
    first(&sheet)
}

fn first(sheet: &Worksheet) -> (f64, f64) {
    let play = sheet.sites[0].play[0].as_ref().unwrap();
    let Some(Quantity::Angle(tilt)) = play.tilt.value.get() else {
        panic!("{play:?}")
    };
    (degrees(tilt), play.at_tip.length().unwrap().mm())
}

fn degrees(angle: Angle) -> f64 {
    f64::from(angle.millideg()) / 1000.0
}

/// A value is rounded up to the thousandth: not below what it should be, and by less than one.
fn is_rounded_up(value: f64, exact: f64, half_digit: f64) -> bool {
    exact - half_digit <= value && value < exact + half_digit + 0.001
}

/// Closed form atan(c / h), to four decimals.
#[test]
fn the_greatest_tilt_is_that_of_the_closed_form() {
    let heights = ["4", "5", "6"];
    for (clearance, tilts) in [
        ("0.1", [1.4321, 1.1458, 0.9548]),
        ("0.2", [2.8624, 2.2906, 1.9092]),
        ("0.3", [4.2892, 3.4336, 2.8624]),
    ] {
        for (height, want) in heights.into_iter().zip(tilts) {
            let (tilt, _) = straight(height, clearance, "16");
            assert!(
                is_rounded_up(tilt, want, 0.000_05),
                "{clearance} over {height}: {tilt}, not {want}"
            );
        }
    }
}

/// Apostolakis & Kourakis, Int J Implant Dent 2018, 10.1186/s40729-018-0146-2: sleeves of 4 to
/// 7 mm, clearances of 0.05 to 0.41 mm, offsets of 6 to 17 mm; largest axis deviation 5.9°, at
/// the neck 1.5 mm.
///
/// atan(0.41 / 4) = 5.852°. Their 17 mm appears to be counted from the coronal rim, so that
/// z = 17 − 4 = 13 and c/2 + z·c/g = 0.205 + 1.3325 = 1.5375. That reading is inferred, not seen
/// in the full text.
#[test]
fn the_greatest_published_play() {
    let (tilt, lateral) = straight("4", "0.41", "13");
    assert!(is_rounded_up(tilt, 5.852, 0.000_5), "{tilt}");
    assert!((tilt - 5.9).abs() <= 0.05, "published 5.9°: {tilt}");
    // 1.5375 rounded up to the micrometre.
    assert!((lateral - 1.538).abs() < 1e-9, "{lateral}");
    assert!((lateral - 1.5).abs() <= 0.05, "published 1.5 mm: {lateral}");
}

/// A cylinder of diameter d that touches a bore D of height h at two points leans by θ with
/// h·tan θ + d / cos θ = D (closed form): d 4.2, h 4. atan(c / h) bounds it from above.
#[test]
fn two_point_contact_leans_less() {
    let (d, h) = (4.2, 4.0);
    for (clearance, want) in [("0.1", 1.4138), ("0.2", 2.7911), ("0.41", 5.5698)] {
        let c = mm(clearance).mm();
        let gap = |theta: f64| h * theta.tan() + d / theta.cos() - (d + c);
        let (mut low, mut high) = (0.0_f64, 0.3_f64);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if gap(middle) < 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let contact = low.to_degrees();
        assert!((contact - want).abs() < 0.000_05, "{clearance}: {contact}");
        let (tilt, _) = straight("4", clearance, "16");
        assert!(tilt > contact, "{clearance}: {tilt} is not above {contact}");
        // It bounds closely: within 6 % here.
        assert!(
            tilt < contact * 1.06,
            "{clearance}: {tilt} is far above {contact}"
        );
    }
}

/// Sample step `a`: bore 1.95 over 1.9 along 6.0, the tip 20.7 − 6.0 = 14.7 below; the sleeve's
/// barrel 4.9 in 4.95, engaged from the rim down 4.0 (it is 5.3 long there), the tip
/// 20.7 − 0.7 − 4.0 = 16.0 below.
///
/// tilt atan(0.05 / 6) + atan(0.05 / 4) = 0.47746° + 0.71616° = 1.19362°
/// lateral 0.025 + 14.7 · 0.05 / 6 + 0.025 + 16.0 · 0.05 / 4 = 0.1475 + 0.225 = 0.3725
#[test]
fn the_sleeves_own_play_adds() {
    let (tilt, lateral) = first(&worked(|_| {}));
    assert!(is_rounded_up(tilt, 1.19362, 0.000_005), "{tilt}");
    assert!((lateral - 0.373).abs() < 1e-9, "{lateral}");
}

/// 9.3° and 2.8 mm at the tip, c 0.655 over 4 and the tip 15.1 below: 0.3275 + 15.1 · 0.16375 = 2.8001.
/// The limit is 1 (common practice, no source): c 0.4 over 4, the tip 8 below, is 0.2 + 8 · 0.1 = 1 and
/// just allowed.
#[test]
fn play_at_the_tip_is_held_against_its_limit() {
    let at = |clearance: &'static str, tip_below: &'static str, limit: Option<&str>| {
        worked(|case| {
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].sleeve = None;
            case.kit.implants[0].platform_to_apex_mm = mm("5");
            case.kit.implants[0].profile.clear();
            case.kit.master_sleeves[0].bore_mm = mm("1.9") + mm(clearance);
            super::sample::distance(case, "0");
            let entered = mm(tip_below) - mm("5");
            case.sites[0]
                .platform_to_sleeve
                .as_mut()
                .unwrap()
                .entered_mm = entered;
            let play = case.limits.play.take();
            case.limits.play = limit.zip(play).map(|(limit_mm, play)| Limit {
                limit_mm: mm(limit_mm),
                ..play
            });
        })
    };
    let wide = at("0.655", "15.1", Some("1"));
    let (tilt, lateral) = first(&wide);
    assert!((tilt - 9.3).abs() <= 0.05, "{tilt}");
    assert!((lateral - 2.801).abs() < 1e-9, "{lateral}");
    let short = one(&wide, "play-at-tip");
    assert_eq!(
        (short.verdict, short.limit),
        (Verdict::Short, Some(Quantity::Length(mm("1"))))
    );
    assert!(all(&at("0.4", "8", Some("1")), "play-at-tip").is_empty());
    assert_eq!(
        judged(&at("0.4", "8.1", Some("1")), "play-at-tip").0,
        Verdict::Short
    );
    // What only a looser limit allows is told, with the program's own.
    let loosened = at("0.4", "8.1", Some("5"));
    let noted = one(&loosened, "play-at-tip");
    let own = noted.loosened.map(|loosened| loosened.own);
    assert_eq!(
        (noted.verdict, own),
        (Verdict::Note, Some(Quantity::Length(mm("1"))))
    );
    assert!(all(&at("0.4", "8", Some("5")), "play-at-tip").is_empty());
    // Without a limit nobody knows.
    let none = at("0.4", "8", None);
    assert_eq!(one(&none, "play-at-tip").verdict, Verdict::Unknown);
}

/// Of the steps of a site the worst is told.
#[test]
fn the_worst_play_of_a_site_is_told() {
    let sheet = worked(|case| {
        case.limits.play.as_mut().unwrap().limit_mm = mm("0.3");
        case.kit.drill_sleeves[1].length_mm = mm("3.7");
    });
    let told = one(&sheet, "play-at-tip");
    assert_eq!(told.place.key(), "sites[one].steps[b]");
}

/// A sleeve that ends above the master sleeve's lower face engages only so far: length 3.7, seat
/// 0.7 above the rim, so 3.0 engaged. A clearance of 0.05 over 3.0 after one over 3.7:
/// atan(0.05 / 3.7) + atan(0.05 / 3.0) = 0.77422° + 0.95484° = 1.72906°
/// lateral 0.025 + 17.0 · 0.05 / 3.7 + 0.025 + 17.0 · 0.05 / 3.0 = 0.56306
#[test]
fn a_short_sleeve_is_held_over_its_own_length() {
    let sheet = worked(|case| case.kit.drill_sleeves[0].length_mm = mm("3.7"));
    let (tilt, lateral) = first(&sheet);
    assert!(is_rounded_up(tilt, 1.72906, 0.000_005), "{tilt}");
    assert!(is_rounded_up(lateral, 0.563_063, 0.000_001), "{lateral}");
}

/// A sleeve seated in a counterbore 1.0 below the rim is engaged over its own length at most:
/// 2.5 long, from 1.0 to 3.5 below the rim. Setting 6.0 + 4.0 − 1.0 + 10.0 = 19.0, the tip
/// 16.5 below both: 2 · (0.025 + 16.5 · 0.05 / 2.5) = 0.71.
/// 8.0 long it is engaged from 1.0 to the master sleeve's lower face at 4.0: over 3.0, the tip
/// 16.0 below; and 11.0 below its own end: 0.025 + 11.0 · 0.05 / 8.0 + 0.025 + 16.0 · 0.05 / 3.0
/// = 0.38542.
#[test]
fn a_sleeve_in_a_counterbore_is_not_held_by_air() {
    for (length, want) in [("2.5", 0.71), ("8", 0.385_417)] {
        let sheet = worked(|case| {
            case.kit.drill_sleeves[0].length_mm = mm(length);
            case.kit.drill_sleeves[0].seat_above_rim_mm = mm("-1");
            case.kit.drill_sleeves[0].flange_height_mm = Length::ZERO;
        });
        let (_, lateral) = first(&sheet);
        assert!(
            is_rounded_up(lateral, want, 0.000_001),
            "{length}: {lateral}"
        );
    }
}

/// Freehand has no play to be named, one that does not pass neither; without a setting it is
/// unknown.
#[test]
fn no_play_without_guidance_or_setting() {
    let tight = worked(|case| case.kit.drill_sleeves[0].bore_mm = mm("1.899"));
    assert!(tight.sites[0].play[0].is_none());
    let unknown = worked(|case| case.sites[0].platform_to_sleeve = None);
    let play = unknown.sites[0].play[0].as_ref().unwrap();
    assert_eq!(
        (play.tilt.value.get(), play.at_tip.value.get()),
        (None, None)
    );
}
