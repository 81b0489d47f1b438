//! Without a stop: the drill's marks. Never a place between two of them.

use super::sample::{all, mm, shown, step_of, worked};
use traywright_core::case::Case;
use traywright_core::kit::DrillMark;
use traywright_core::plan::{Edge, Reason, Verdict, Worksheet};

/// A thin line at 16.0, a band from 18.0 to 19.5, a line at 22.0.
fn marked(case: &mut Case) {
    let mark = |name: &str, lower: &str, upper: Option<&str>| DrillMark {
        name: name.into(),
        lower_edge_mm: mm(lower),
        upper_edge_mm: upper.map(mm),
    };
    case.kit.drills[0].marks = vec![
        mark("line", "16", None),
        mark("band", "18", Some("19.5")),
        mark("far", "22", None),
    ];
    case.sites[0].steps[0].stop = None;
}

fn at_exact(distance: &str) -> Worksheet {
    worked(|case| {
        marked(case);
        super::sample::distance(case, distance);
    })
}

/// The seat is distance + 4.7, exact is that + 10.0. The deepest edge not beyond exact is read.
#[test]
fn the_deepest_edge_not_beyond_exact() {
    for (distance, exact, set, name, edge, shortfall) in [
        ("1.3", "16", "16", "line", Edge::Line, "0"),
        ("3.2", "17.9", "16", "line", Edge::Line, "1.9"),
        ("3.3", "18", "18", "band", Edge::Lower, "0"),
        ("4.799", "19.499", "18", "band", Edge::Lower, "1.499"),
        ("4.8", "19.5", "19.5", "band", Edge::Upper, "0"),
        ("6.0", "20.7", "19.5", "band", Edge::Upper, "1.2"),
        ("7.3", "22", "22", "far", Edge::Line, "0"),
    ] {
        let sheet = at_exact(distance);
        let step = step_of(&sheet, 0);
        let mark = step.mark.as_ref().unwrap();
        assert_eq!(shown(&step.exact), exact);
        assert_eq!(shown(&step.set), set, "exact {exact}");
        assert_eq!(
            (mark.name.as_str(), mark.edge),
            (name, edge),
            "exact {exact}"
        );
        assert_eq!(shown(&step.shortfall), shortfall);
        assert!(step.gauge.is_none());
    }
}

#[test]
fn no_mark_short_enough_is_no_setting() {
    let sheet = at_exact("1.299");
    let step = step_of(&sheet, 0);
    assert_eq!(step.set.value.reasons(), [Reason::NothingFits]);
    assert!(step.mark.is_none());
    let found = all(&sheet, "no-mark-fits");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].verdict, Verdict::Short);
    // A drill without any mark has none either.
    let bare = worked(|case| case.sites[0].steps[0].stop = None);
    assert_eq!(all(&bare, "no-mark-fits").len(), 1);
}
