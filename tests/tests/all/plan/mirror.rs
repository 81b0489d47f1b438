//! The mirror image of a case: right for left, the same figures and findings.

use super::generated::any_case;
use super::sample::{case, work};
use proptest::prelude::*;
use std::collections::BTreeSet;
use traywright_core::case::{Case, DistanceTo, MeasuredAt, Placement};
use traywright_core::dentition::ToothPosition;
use traywright_core::plan::{Endangered, MixUp, Worksheet};

fn turn(placement: &mut Placement) {
    match placement {
        Placement::OnArch { at, .. } => *at = at.mirrored(),
        Placement::Measured {
            platform,
            direction,
        } => {
            platform.x_mm = -platform.x_mm;
            direction.x = -direction.x;
        }
    }
}

fn mirrored(case: &Case) -> Case {
    let mut case = case.clone();
    let then = |measured: &mut MeasuredAt| turn(&mut measured.placement);
    for tooth in &mut case.teeth {
        tooth.position = tooth.position.mirrored();
    }
    for pin in &mut case.guide.pins {
        pin.at = pin.at.mirrored();
    }
    for site in &mut case.sites {
        site.tooth = site.tooth.mirrored();
        turn(&mut site.placement);
        site.heights.measured_at.iter_mut().for_each(turn);
        site.walls.iter_mut().for_each(|w| then(&mut w.measured_at));
        site.structures
            .iter_mut()
            .for_each(|s| then(&mut s.measured_at));
        site.obstacles
            .iter_mut()
            .for_each(|o| then(&mut o.measured_at));
        for distance in &mut site.distances {
            then(&mut distance.measured_at);
            distance.other_measured_at.iter_mut().for_each(then);
            if let DistanceTo::Tooth { position } = &mut distance.to {
                *position = position.mirrored();
            }
        }
    }
    case
}

/// A text in which each tooth position, in a path or as an argument, is turned over.
fn turned(text: &str) -> String {
    let mut out = text.to_owned();
    for position in ToothPosition::all() {
        let other = position.mirrored();
        // By way of a mark, so that what was turned is not turned back.
        out = out.replace(&format!("[{position}]"), &format!("[~{other}]"));
        for at in ["Tooth(", "Crown(", "KindNotEntered { tooth: "] {
            out = out.replace(&format!("{at}{position:?}"), &format!("{at}~{other:?}"));
        }
    }
    out.replace('~', "")
}

/// The worksheet as lines without what names a side: the fingerprint and the tooth itself.
fn lines(sheet: &Worksheet, in_path: impl Fn(&str) -> String) -> Vec<String> {
    let mut lines: Vec<String> = sheet
        .findings
        .iter()
        .map(|finding| in_path(&without_bodies(&format!("{finding:?}"))))
        .collect();
    // Neighbours are looked for from right to left, so the order among equals may differ.
    lines.sort();
    for site in &sheet.sites {
        let mut site = site.clone();
        site.tooth = site.tooth.min(site.tooth.mirrored());
        lines.push(in_path(&format!("{site:?}")));
    }
    lines.push(format!("{:?}", sheet.order));
    lines.push(format!("{:?}", sheet.loading));
    lines.push(format!("{:?}", sheet.stock));
    for one in &sheet.mix_ups {
        // What it breaks may be a position, to be turned as in a path. Of two that it breaks by as
        // much either may come first.
        let broken = one.breaks.iter().map(Endangered::key);
        let broken: BTreeSet<String> = broken
            .map(|key| match key.strip_prefix("tooth ") {
                Some(position) => in_path(&format!("[{position}]")),
                None => key,
            })
            .collect();
        let one = MixUp {
            breaks: Vec::new(),
            ..one.clone()
        };
        lines.push(format!("{one:?} {broken:?}"));
    }
    lines
}

/// A finding without the bodies that it is of, which say where they are: coordinates have a sign.
fn without_bodies(finding: &str) -> String {
    let (before, rest) = finding.split_once("bodies: [").unwrap();
    let (_, after) = rest.split_once("], figure: ").unwrap();
    format!("{before}{after}")
}

fn check(case: &Case) -> Result<(), TestCaseError> {
    let right = work(case.clone());
    let left = work(mirrored(case));
    prop_assert_ne!(right.fingerprint, left.fingerprint);
    let (right, left) = (lines(&right, turned), lines(&left, str::to_owned));
    prop_assert_eq!(right.len(), left.len());
    for (right, left) in right.iter().zip(&left) {
        prop_assert_eq!(right, left);
    }
    Ok(())
}

#[test]
fn the_sample_and_its_mirror_image_agree() {
    let position = |text: &str| text.parse::<ToothPosition>().unwrap();
    let of = |a, b, c| {
        format!(
            "[{a}] Tooth({:?}) [one] tooth: {:?}",
            position(b),
            position(c)
        )
    };
    assert_eq!(turned(&of("36", "45", "45")), of("46", "35", "45"));
    check(&case()).unwrap();
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_case_and_its_mirror_image_agree(case in any_case()) {
        check(&case)?;
    }
}
