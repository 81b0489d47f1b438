//! What a mix-up breaks: the limits that its deeper or wider cut comes to.

use super::look_alikes::{canal, narrow_beside_wide};
use super::neighbours::implants::{beside_a_second, upright_at};
use super::sample::{mm, worked};
use traywright_core::case::{Case, Direction, HeightDatum, Placement, StructureExtent};
use traywright_core::plan::{Endangered, Mistake};

/// What the setting of the second site, 1.5 deeper, breaks at the first: two measured axes, the
/// first leaning towards the second by so much in 1; the second upright at this x.
fn beside_measured_axes(
    lean: &str,
    x: &str,
    change: impl FnOnce(&mut Case),
) -> (Vec<String>, bool) {
    let sheet = worked(|case| {
        beside_a_second(case);
        upright_at(case, 0, "20");
        upright_at(case, 1, x);
        let Placement::Measured { direction, .. } = &mut case.sites[0].placement else {
            panic!()
        };
        direction.x = mm(lean);
        case.sites[1]
            .platform_to_sleeve
            .as_mut()
            .unwrap()
            .entered_mm = mm("7.5");
        canal(case, "60");
        change(case);
        super::sample::measure_anew(case);
    });
    let mut found = sheet.mix_ups.iter().filter(|one| {
        let last =
            matches!(&one.mistake, Mistake::OtherSetting { drill, .. } if drill.as_str() == "c");
        one.site.as_str() == "one" && last
    });
    let found = found
        .next()
        .unwrap_or_else(|| panic!("{:#?}", sheet.mix_ups));
    assert_eq!(found.deeper, mm("1.5"));
    let breaks = found.breaks.iter().map(Endangered::key).collect();
    (breaks, found.unknown)
}

/// A deeper cut comes no nearer to an axis that runs beside its own: 8.0 − 4.6 = 3.4 stay. The canal,
/// which had 1.45 above its limit, is what it breaks; where nobody knows of a canal, it is that.
#[test]
fn along_parallel_axes_the_other_implant_is_not_what_a_deeper_cut_breaks() {
    let (breaks, _) = beside_measured_axes("0", "28", |case| canal(case, "13.45"));
    assert_eq!(breaks, ["mandibular_canal"]);
    let (breaks, unknown) =
        beside_measured_axes("0", "28", |case| case.sites[0].structures.clear());
    assert_eq!((breaks.as_slice(), unknown), (&[][..], true));
}

/// Leaning by 45° the tip of an 11.5 deep cut, 3.3 wide, lies 8.1317 aside: 14.0817 − 8.1317 − 1.65 −
/// 2.3 = 2.0, the limit.
#[test]
fn along_leaning_axes_the_other_implant_counts_by_what_a_deeper_cut_takes() {
    for (x, wanted) in [("34.081", &["site two"][..]), ("34.082", &[])] {
        let (breaks, _) = beside_measured_axes("1", x, |_| {});
        assert_eq!(breaks, wanted, "{x}");
    }
}

/// All that a mistake breaks is named, and what it breaks by most first: the other implant by 0.05,
/// the canal by what 1.5 deeper takes from 13.4 or 13.499 less 12.
#[test]
fn all_that_is_broken_is_named() {
    for (canal_at, wanted) in [
        ("13.40", ["mandibular_canal", "site two"]),
        ("13.499", ["site two", "mandibular_canal"]),
    ] {
        let (breaks, _) = beside_measured_axes("1", "34.032", |case| {
            case.sites[0].structures[0].extent = StructureExtent::Below {
                height_mm: mm(canal_at),
                from: HeightDatum::Platform,
                direction: Direction::AlongAxis,
            };
        });
        assert_eq!(breaks, wanted, "{canal_at}");
    }
}

/// 0.3 of the radius taken from a root that has 4.099 − 2.3 − 1.5 = 0.299 to give.
#[test]
fn a_wider_drill_breaks_the_limit_of_a_root() {
    for (from_axis, wanted) in [("4.099", Some("tooth 35")), ("4.1", None)] {
        let sheet = worked(|case| {
            narrow_beside_wide(case);
            case.sites[0].distances[0].from_axis_mm = mm(from_axis);
            case.sites[0].walls[0].from_axis_mm = mm("9");
        });
        let found = sheet.mix_ups.iter().find(|one| {
            matches!(&one.mistake, Mistake::OtherSetting { drill, .. } if drill.as_str() == "c")
                && one.site.as_str() == "one"
        });
        let breaks = &found.expect("a wider drill").breaks;
        let breaks: Vec<String> = breaks.iter().map(Endangered::key).collect();
        assert_eq!(breaks.first().map(String::as_str), wanted, "{from_axis}");
    }
}
