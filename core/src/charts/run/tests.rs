use super::*;
use crate::charts::arch_samples::{bare, on_arch, site, tooth, with_arch};
use crate::dentition::{Jaw, Notation};
use crate::drawing::{Group, Item};
use crate::plan::work_out;
use crate::run::{Priced, run_problem};
use crate::samples::valid;
use crate::wording::Formatter;

fn drawn(look: impl FnOnce(&Priced, &[RunStepText], RunStrip)) {
    let mut case = with_arch(bare(Jaw::Lower));
    case.sites = ["36", "46"]
        .map(|iso| site(iso, tooth(iso), on_arch(tooth(iso), 0, 0)))
        .into();
    let case = valid(case);
    let sheet = work_out(&case);
    let run = run_problem(&case, &sheet).unwrap();
    let priced = run.price(&sheet.order).unwrap();
    let formatter = Formatter::english(&case, Notation::Iso);
    let steps = priced.steps.iter();
    let said: Vec<RunStepText> = steps.map(|step| formatter.run_step(step, &sheet)).collect();
    let options = RunStripOptions {
        case: &case,
        said: &said,
        first: 1,
        word: &|change| formatter.run_change(change),
        sum: &|_| "9 s".to_owned(),
        step: "step",
        names_mm: 40.0,
    };
    look(&priced, &said, run_strip(&priced.steps, &options));
}

fn parts(strip: &RunStrip) -> Vec<&Group> {
    let items = strip.steps.items().iter();
    let parts = items.filter_map(|item| match item {
        Item::Group(group) => Some(group),
        _ => None,
    });
    parts.collect()
}

#[test]
fn each_step_has_a_column_with_its_number_and_its_setting() {
    drawn(|priced, said, strip| {
        assert!(said.len() > 6);
        let parts = parts(&strip);
        assert_eq!(parts.len(), said.len());
        assert_eq!(priced.steps.len(), strip.columns.len());
        for (n, (part, said)) in parts.iter().zip(said).enumerate() {
            assert_eq!(part.id, format!("step:{n}"));
            let mut group = Drawing::new();
            group.push(Item::Group((*part).clone()));
            let texts: Vec<&str> = group.texts().iter().map(|t| t.content.as_str()).collect();
            assert!(texts.contains(&(n + 1).to_string().as_str()), "{texts:?}");
            if let Some(set) = &said.set {
                assert!(texts.contains(&set.as_str()), "{set}: {texts:?}");
            }
            let (from, to) = strip.columns[n];
            assert!(to > from && (n == 0 || strip.columns[n - 1].1 <= from));
        }
    });
}

/// A box is in the lane of its site: the boxes of one site are at one height.
#[test]
fn the_steps_of_a_site_lie_in_its_lane_and_the_word_of_its_name_beside_it() {
    drawn(|_, said, strip| {
        let named = strip.names.texts();
        let mut heights: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
        for (part, said) in parts(&strip).iter().zip(said) {
            let (Some(place), Some(set)) = (&said.place, &said.set) else {
                continue;
            };
            let mut group = Drawing::new();
            group.push(Item::Group((*part).clone()));
            let texts = group.texts();
            let text = texts.iter().find(|text| text.content == *set).unwrap();
            heights.entry(place).or_default().push(text.place.y);
        }
        assert_eq!(heights.len(), 2);
        for (place, heights) in heights {
            assert!(heights.iter().all(|y| (y - heights[0]).abs() < 1e-9));
            let first = place.split(' ').next().unwrap();
            let beside = |text: &&&crate::drawing::Text| {
                text.content.contains(first) && (text.place.y - heights[0]).abs() < LANE / 2.0
            };
            assert!(named.iter().any(|text| beside(&text)), "{place}");
        }
    });
}

#[test]
fn nothing_is_drawn_outside_its_height_and_all_of_it_can_be_written() {
    drawn(|_, _, strip| {
        for drawing in [&strip.names, &strip.steps] {
            let bounds = drawing.bounds().unwrap();
            assert!(
                bounds.top >= -0.01 && bounds.bottom <= strip.height_mm + 0.01,
                "{bounds:?}"
            );
            drawing.coverage().unwrap();
        }
        let names = strip.names.bounds().unwrap();
        assert!(names.left >= -0.41 && names.right <= 40.01, "{names:?}");
        let steps = strip.steps.bounds().unwrap();
        assert!(
            steps.right <= strip.columns.last().unwrap().1 + 0.01,
            "{steps:?}"
        );
    });
}

/// Marks are told apart without colour and without a word.
#[test]
fn no_two_changes_have_a_mark_of_one_shape() {
    let mark = |change| {
        let mut drawing = Drawing::new();
        change_mark(&mut drawing, at(0.0, 0.0), change);
        format!("{:?}", drawing.items())
    };
    let marks: std::collections::BTreeSet<String> = Change::ALL.into_iter().map(mark).collect();
    assert_eq!(marks.len(), Change::ALL.len());
}
