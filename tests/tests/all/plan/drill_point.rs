//! Drill points and surface speeds against closed forms and a worked example.

use super::sample::{deg, mm};
use traywright_core::measure::{Length, Speed, trig};

/// The point of a drill in mm.
fn point(diameter: &str, angle: &str) -> Length {
    trig::point_length(mm(diameter), deg(angle))
}

/// h/d = 1 / (2·tan(A/2)), closed form, to six decimals; on a diameter of 1000 mm.
#[test]
fn the_point_of_a_unit_diameter() {
    for (angle, ratio) in [
        ("60", "866.025"),
        ("90", "500"),
        ("118", "300.430"),
        ("120", "288.675"),
        ("135", "207.107"),
        ("140", "181.985"),
    ] {
        let off = point("1000", angle) - mm(ratio);
        // Six decimals of the ratio are micrometres here; what is cut may round the last one.
        assert!(off.abs() <= Length::from_um(1), "{angle}°: off by {off}");
    }
}

/// Closed form, to four decimals.
#[test]
fn points_of_some_drills() {
    for (angle, points) in [
        ("118", [6009_i64, 8412, 10515, 12618]),
        ("120", [5774, 8083, 10104, 12124]),
    ] {
        for (diameter, want) in ["2.0", "2.8", "3.5", "4.2"].into_iter().zip(points) {
            // In tenths of micrometres; the table's last digit is rounded, the point floored.
            let got = point(diameter, angle).um() * 10;
            assert!(
                (want - 10..=want).contains(&got),
                "{diameter} at {angle}°: {got}, table {want}"
            );
        }
    }
}

/// Published worked example: 118°, 0.104 in, a point of 0.031 in.
#[test]
fn the_published_worked_example() {
    let inches = point("2.642", "118").mm() / 25.4;
    assert!((inches - 0.031).abs() < 0.0005, "{inches}");
}

/// Never above the true point, and less than one micrometre below it.
#[test]
fn a_point_is_cut_to_the_micrometre_below() {
    for um in (300..9000).step_by(7) {
        for angle in [20_000, 60_000, 118_000, 120_000, 150_001, 179_000] {
            let angle = traywright_core::measure::Angle::from_millideg(angle);
            let diameter = Length::from_um(um);
            let exact = diameter.mm() / (2.0 * (angle.radians() / 2.0).tan());
            let over = exact - trig::point_length(diameter, angle).mm();
            assert!(
                (-1e-9..0.001 + 1e-9).contains(&over),
                "{um} {angle}: {over}"
            );
        }
    }
}

/// v = π·d·n / 1000 m/min, closed form, to four decimals.
#[test]
fn surface_speeds() {
    for (diameter, rpm, want) in [
        ("2.0", 800, 5.0265),
        ("2.0", 1500, 9.4248),
        ("4.2", 800, 10.5558),
        ("4.2", 1500, 19.7920),
    ] {
        let v = Speed::from_rpm(rpm).surface_m_per_min(mm(diameter));
        assert!((v - want).abs() < 0.000_05, "{diameter} at {rpm}: {v}");
    }
}
