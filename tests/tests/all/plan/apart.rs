//! Two versions of a case beside each other are told in the words of the forms, with the minus of people.

use super::sample::{case, mm, valid};
use traywright_core::case::{Case, GuidedExtent, Placement, differing};
use traywright_core::dentition::Notation;
use traywright_core::wording::Formatter;

/// Each value that differs, as `name: here | there`.
fn told(change: impl FnOnce(&mut Case)) -> Vec<String> {
    let here = case();
    let mut there = here.clone();
    change(&mut there);
    let apart = differing(&here, &there);
    let here = valid(here);
    let say = Formatter::english(&here, Notation::Iso);
    let values = apart.iter().flat_map(|one| say.values_apart(one));
    values
        .map(|one| format!("{}: {} | {}", one.name, one.here, one.there))
        .collect()
}

#[test]
fn both_versions_are_told_in_the_words_of_the_forms() {
    let site = told(|case| {
        let site = &mut case.sites[0];
        if let Placement::OnArch { buccal_mm, .. } = &mut site.placement {
            *buccal_mm = mm("-1.2");
        }
        let crest = site.heights.platform_below_crest.as_mut().unwrap();
        crest.lowest_mm = mm("-0.3");
        site.guided_extent = GuidedExtent::PilotOnly;
        site.walls[0].from_axis_mm = mm("4.25");
        site.note = Some("on-lay".to_owned());
    });
    let want = [
        "Guided: drilling and implant guided | pilot drill guided, the rest freehand",
        "Platform below the most apical crest: 0.6 mm | \u{2212}0.3 mm",
        "Placement › Buccal: 0.0 mm | \u{2212}1.2 mm",
        "Walls 1 › From axis: 4.0 mm | 4.25 mm",
        "Note: — | on-lay",
    ];
    assert_eq!(site, want);
    let kit = told(|case| case.kit.drills[0].cutting_diameter_mm = mm("3"));
    assert_eq!(kit.len(), 1, "{kit:?}");
    assert!(
        kit[0].ends_with("| 3.0 mm") && !kit[0].contains('_'),
        "{kit:?}"
    );
}
