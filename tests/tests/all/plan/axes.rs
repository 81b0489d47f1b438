//! Two measured axes against `SciPy`: bodies, platforms, convergence.

use super::sample::{case, mm, one, site, work};
use serde_json::Value;
use traywright_core::case::{Placement, PointMm, Vector};
use traywright_core::measure::Length;
use traywright_core::plan::{Quantity, Worksheet};

fn length(value: &Value) -> Length {
    serde_json::from_value(value.clone()).unwrap()
}

/// Two sites with the placements and lengths of a pair; every radius is half of 4.6.
fn pair(data: &Value) -> Worksheet {
    let mut case = case();
    case.kit.gauges[0].graduation_mm = mm("0.001");
    case.kit.gauges[0].to_mm = mm("60");
    case.sites.push(site("two", "35", &[]));
    case.sites[0].distances.clear();
    case.sites[1].implant = "short".into();
    for n in 0..2 {
        let axis = &data["axes"][n];
        let [p, d] =
            ["platform_mm", "direction"].map(|key| [0, 1, 2].map(|i| length(&axis[key][i])));
        case.kit.implants[n].platform_to_apex_mm = length(&axis["length_mm"]);
        case.sites[n].placement = Placement::Measured {
            platform: PointMm {
                x_mm: p[0],
                y_mm: p[1],
                z_mm: p[2],
            },
            direction: Vector {
                x: d[0],
                y: d[1],
                z: d[2],
            },
        };
    }
    work(case)
}

/// Distance aside between two platforms: seen from above and along either axis, the least. By the
/// cross product, |d × b| / |d| (exact identity), where the program takes the projection off.
fn aside(pair: &Value) -> f64 {
    let read = |n: usize, key: &str| [0, 1, 2].map(|i| length(&pair["axes"][n][key][i]).mm());
    let (a, b) = (read(0, "platform_mm"), read(1, "platform_mm"));
    let between = [0, 1, 2].map(|i| b[i] - a[i]);
    let norm = |v: [f64; 3]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
    let across = |d: [f64; 3]| {
        let cross = [0, 1, 2].map(|i| {
            let (j, k) = ((i + 1) % 3, (i + 2) % 3);
            d[j] * between[k] - d[k] * between[j]
        });
        norm(cross) / norm(d)
    };
    [[0.0, 0.0, 1.0], read(0, "direction"), read(1, "direction")]
        .map(across)
        .into_iter()
        .fold(f64::INFINITY, f64::min)
}

/// `oracles-data/axis_distance.py` made the data.
#[test]
fn bodies_platforms_and_angles_as_solved_by_scipy() {
    let data: Value =
        serde_json::from_str(include_str!("../../../oracles-data/axis_distance.json")).unwrap();
    assert_eq!(data["library"], "SciPy");
    let pairs = data["pairs"].as_array().unwrap();
    assert_eq!(pairs.len(), 40);
    for (n, one_pair) in pairs.iter().enumerate() {
        let sheet = pair(one_pair);
        let apart = aside(one_pair);
        // To the side they are never farther apart than in space.
        assert!(apart <= one_pair["platforms_mm"].as_f64().unwrap() + 1e-9);
        for (rule, want) in [
            (
                "neighbour-implant-body",
                one_pair["bodies_mm"].as_f64().unwrap(),
            ),
            ("neighbour-implant", apart),
        ] {
            let got = one(&sheet, rule).length_value().unwrap().mm();
            let want = want - 4.6;
            // Floored: not above what is left, and less than a micrometre below.
            let given_away = want - got;
            assert!(
                (-1e-9..0.001 + 1e-6).contains(&given_away),
                "pair {n} {rule}: {got}, not {want}"
            );
        }
        let Some(Quantity::Angle(angle)) = one(&sheet, "convergence").value.get() else {
            panic!("pair {n}")
        };
        let over = f64::from(angle.millideg()) / 1000.0 - one_pair["angle_deg"].as_f64().unwrap();
        assert!(
            (-1e-6..0.001 + 1e-5).contains(&over),
            "pair {n}: off by {over}"
        );
    }
}
