//! Properties that hold for every tray.

use super::apart::{Laying, laid_apart};
use super::*;
use crate::case::{Edit, Held, Rule, TrayPlace, UseOrder, ValidCase, apply, removal};
use crate::kit::{Label, TraySlot};
use crate::measure::Length;
use crate::plan::{Worksheet, work_out};
use crate::samples::{demo, demo_case};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Look-alikes side by side and pairs turned, of one arrangement; counted by the words of the rule.
fn blame(alike: &[Vec<bool>], beside: &[Vec<bool>], place: &[usize]) -> (usize, usize) {
    let pairs = || (0..place.len()).flat_map(|b| (0..b).map(move |a| (a, b)));
    let wrong = pairs().filter(|&(a, b)| alike[a][b] && beside[place[a]][place[b]]);
    let turned = pairs().filter(|&(a, b)| place[a] > place[b]);
    (wrong.count(), turned.count())
}

/// Every arrangement of so many things in so many slots.
fn all(things: usize, slots: usize) -> Vec<Vec<usize>> {
    let mut found = vec![Vec::new()];
    for _ in 0..things {
        found = found
            .into_iter()
            .flat_map(|place: Vec<usize>| {
                let free = (0..slots).filter(|slot| !place.contains(slot));
                free.map(|slot| [place.clone(), vec![slot]].concat())
                    .collect::<Vec<_>>()
            })
            .collect();
    }
    found
}

/// Symmetric, nothing with itself.
fn relation(size: usize, share: u32) -> impl Strategy<Value = Vec<Vec<bool>>> {
    let each = prop::collection::vec(0..100_u32, size * size);
    each.prop_map(move |numbers| {
        let holds = |a: usize, b: usize| a != b && numbers[a.min(b) * size + a.max(b)] < share;
        (0..size)
            .map(|a| (0..size).map(|b| holds(a, b)).collect())
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// On small trays the answer is the best of all arrangements, each tried: none beside a look-alike
    /// where there is one without, and of those the one that turns least.
    #[test]
    fn on_a_small_tray_no_arrangement_is_better(
        (alike, beside, things, slots) in (1..=5_usize, 0..=2_usize, 20..80_u32, 10..70_u32)
            .prop_flat_map(|(things, more, like, near)| {
                let slots = things + more;
                (relation(things, like), relation(slots, near), Just(things), Just(slots))
            }),
    ) {
        let laying = Laying::new(things, slots, |a, b| alike[a][b], |a, b| beside[a][b]);
        let laid = laid_apart(&laying);
        prop_assert_eq!(laid.iter().collect::<BTreeSet<_>>().len(), things);
        prop_assert!(laid.iter().all(|slot| *slot < slots));
        let all = all(things, slots);
        let best = all.iter().map(|place| blame(&alike, &beside, place)).min();
        prop_assert_eq!(Some(blame(&alike, &beside, &laid)), best);
        prop_assert_eq!(laid_apart(&laying), laid);
    }
}

#[test]
fn a_row_of_slots_parts_look_alikes_and_keeps_the_order_where_it_has_room() {
    let row = |a: usize, b: usize| a.abs_diff(b) == 1;
    let laid = |things: &str, slots: usize| {
        let kinds: Vec<char> = things.chars().collect();
        let alike = |a: usize, b: usize| kinds[a] == kinds[b];
        laid_apart(&Laying::new(kinds.len(), slots, alike, row))
    };
    assert_eq!(
        laid("ABC", 3),
        [0, 1, 2],
        "nothing alike: one after the other"
    );
    assert_eq!(laid("AAB", 4), [0, 2, 3], "room: a slot stays empty");
    assert_eq!(
        laid("AAB", 3),
        [0, 2, 1],
        "no room: something else goes between"
    );
    assert_eq!(laid("AABB", 4), [0, 2, 1, 3]);
    assert_eq!(laid("AA", 2), [0, 1], "it cannot be helped");
    assert_eq!(laid("AAABBB", 6).len(), 6);
}

/// Trays too large to look through, with groups of look-alikes one after the other, as an order by
/// diameter uses them. Each has an arrangement without look-alikes side by side: in every one as
/// many groups are in turn as the tray is wide and more. It is found, the same each time.
#[test]
fn a_large_tray_parts_look_alikes_as_well() {
    for (things, group, slots, across) in [
        (96, 12, 120, 12),
        (60, 6, 60, 10),
        (30, 10, 48, 9),
        (40, 10, 60, 9),
        (400, 10, 500, 20),
    ] {
        let beside = |a: usize, b: usize| {
            let (row, column) = (a / across, a % across);
            let (other_row, other_column) = (b / across, b % across);
            row.abs_diff(other_row) + column.abs_diff(other_column) == 1
        };
        let alike = |a: usize, b: usize| a / group == b / group;
        let laying = Laying::new(things, slots, alike, beside);
        let laid = laid_apart(&laying);
        assert_eq!(laid, laid_apart(&laying));
        let distinct: BTreeSet<&usize> = laid.iter().collect();
        assert_eq!(distinct.len(), things);
        assert!(laid.iter().all(|slot| *slot < slots));
        let pairs = (0..things).flat_map(|b| (0..b).map(move |a| (a, b)));
        let wrong = pairs.filter(|&(a, b)| alike(a, b) && beside(laid[a], laid[b]));
        assert_eq!(wrong.count(), 0, "{things} in groups of {group} on {slots}");
    }
}

fn demo() -> ValidCase {
    demo_case(demo::FULL_ARCH_UPPER)
}

prop_compose! {
    /// A case with many settings on a tray of any size.
    fn any_case()(
        distances in prop::collection::vec(0..4_i64, 6),
        by_diameter in any::<bool>(),
        counts in prop::collection::vec(0..18_usize, 7),
        gap in 0..16_i64,
        across in 4..12_i64,
    ) -> ValidCase {
        let mut case = demo().into_case();
        case.setup.use_order = if by_diameter { UseOrder::ByDiameter } else { UseOrder::SiteBySite };
        for (site, higher) in case.sites.iter_mut().zip(distances) {
            if let Some(distance) = &mut site.platform_to_sleeve {
                distance.entered_mm += Length::from_um(higher * 500);
            }
        }
        let kinds = [
            SlotKind::Drill, SlotKind::Sleeve, SlotKind::Implant, SlotKind::Carrier,
            SlotKind::Driver, SlotKind::Pin, SlotKind::Accessory,
        ];
        let all = kinds.iter().zip(counts).flat_map(|(kind, n)| std::iter::repeat_n(*kind, n));
        let (size, pitch) = (Length::from_mm(12), 12 + gap);
        let slots: Vec<TraySlot> = (0_i64..)
            .zip(all)
            .map(|(n, kind)| TraySlot {
                name: Label::from(format!("Slot {n}").as_str()),
                kind,
                left_mm: Length::from_mm(n % across * pitch),
                far_mm: Length::from_mm(n / across * pitch),
                width_mm: size,
                depth_mm: size,
            })
            .collect();
        let tray = &mut case.kit.trays[0];
        tray.width_mm = Length::from_mm(1000);
        tray.depth_mm = Length::from_mm(1000);
        if !slots.is_empty() {
            tray.slots = slots;
        }
        ValidCase::try_from(case).unwrap()
    }
}

/// Slot by place in the list.
fn slots(sheet: &Worksheet) -> Vec<Option<Label>> {
    sheet.loading.iter().map(|item| item.slot.clone()).collect()
}

fn with_places(case: &ValidCase, places: Vec<TrayPlace>) -> ValidCase {
    apply(case, &[Edit::SetTrayPlaces(places)]).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn each_thing_has_a_slot_of_its_kind_where_there_are_enough(case in any_case()) {
        let sheet = work_out(&case);
        let mut seen = BTreeSet::new();
        let mut laid: BTreeMap<SlotKind, usize> = BTreeMap::new();
        for item in &sheet.loading {
            prop_assert_eq!(&item.slot, &item.own_slot);
            let Some(name) = &item.slot else { continue };
            prop_assert!(seen.insert(name), "two in {}", name);
            let slot = case.tray_slots().iter().find(|slot| slot.name == *name).unwrap();
            prop_assert_eq!(slot.kind, item.kind);
            *laid.entry(item.kind).or_default() += 1;
        }
        let kinds: BTreeSet<SlotKind> = sheet.loading.iter().map(|item| item.kind).collect();
        for kind in kinds {
            let things = sheet.loading.iter().filter(|item| item.kind == kind).count();
            let there = case.tray_slots().iter().filter(|slot| slot.kind == kind).count();
            prop_assert_eq!(laid.get(&kind).copied().unwrap_or(0), things.min(there));
        }
        prop_assert_eq!(slots(&work_out(&case)), slots(&sheet));
        // Each pair is told, with both slots.
        let told = sheet.findings.iter().filter(|f| f.rule == Rule::LookAlikesSideBySide);
        prop_assert_eq!(told.count(), side_by_side(&case, &sheet.loading).len());
    }

    /// Laying one thing elsewhere moves that and what lay there, nothing else; back again leaves no
    /// trace.
    #[test]
    fn a_thing_moved_by_hand_changes_places_with_what_lay_there(
        case in any_case(),
        moves in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..5),
    ) {
        let mut case = case;
        for (thing, to) in moves {
            let sheet = work_out(&case);
            let thing = thing.index(sheet.loading.len());
            let slot = to.get(case.tray_slots()).clone();
            let item = &sheet.loading[thing];
            let places = match moved(&case, &sheet.loading, thing, &slot.name) {
                Ok(places) => places,
                Err(CannotLay::OtherKind { .. }) => {
                    prop_assert_ne!(slot.kind, item.kind);
                    continue;
                }
                Err(CannotLay::LiesThere) => {
                    prop_assert_eq!(item.slot.as_ref(), Some(&slot.name));
                    continue;
                }
                Err(CannotLay::NotThere) => panic!("both are there"),
            };
            let after = with_places(&case, places);
            let is = slots(&work_out(&after));
            let mut want = slots(&sheet);
            let there = want.iter().position(|one| one.as_ref() == Some(&slot.name));
            if let Some(there) = there {
                want[there].clone_from(&item.slot);
            }
            want[thing] = Some(slot.name.clone());
            prop_assert_eq!(&is, &want);
            prop_assert_ne!(after.fingerprint(), case.fingerprint());
            if let Some(from) = &item.slot {
                let sheet = work_out(&after);
                let back = moved(&after, &sheet.loading, thing, from).unwrap();
                let back = with_places(&after, back);
                prop_assert_eq!(slots(&work_out(&back)), slots(&work_out(&case)));
                if case.tray_places.is_empty() {
                    prop_assert_eq!(back.fingerprint(), case.fingerprint());
                }
            }
            case = after;
        }
        let taken_back = with_places(&case, Vec::new());
        let sheet = work_out(&taken_back);
        prop_assert!(sheet.loading.iter().all(|item| !item.is_by_hand()));
    }
}

#[test]
fn a_place_stays_with_its_thing_when_the_setting_changes() {
    let case = demo();
    let sheet = work_out(&case);
    let drill = |sheet: &Worksheet, held: &Held| {
        let item = sheet
            .loading
            .iter()
            .find(|item| item.is_held(held))
            .unwrap();
        (
            item.slot.clone().unwrap(),
            item.set.as_ref().unwrap().set.clone(),
        )
    };
    let step = |site: &str, step: &str| Held::Step {
        site: site.into(),
        step: step.into(),
    };
    let thing = |held: &Held| sheet.loading.iter().position(|i| i.is_held(held)).unwrap();
    let u12 = step("u12", "s2");
    let last = case
        .tray_slots()
        .iter()
        .rfind(|slot| slot.kind == SlotKind::Drill);
    let last = last.unwrap().name.clone();
    let places = moved(&case, &sheet.loading, thing(&u12), &last).unwrap();
    let by_hand = with_places(&case, places);
    let mut other = by_hand.clone().into_case();
    let site = other
        .sites
        .iter_mut()
        .find(|site| site.id.as_str() == "u12");
    site.unwrap()
        .platform_to_sleeve
        .as_mut()
        .unwrap()
        .entered_mm += Length::from_mm(1);
    let other = ValidCase::try_from(other).unwrap();
    let (before, after) = (work_out(&by_hand), work_out(&other));
    assert_eq!(drill(&before, &u12).0, last);
    assert_eq!(drill(&after, &u12).0, last);
    assert_ne!(drill(&after, &u12).1, drill(&before, &u12).1);
    // What shared the drill and does not any more is laid by the program.
    assert_ne!(drill(&after, &step("u13", "s2")).0, last);
    // The pins' drill is known by its pins, not by being the first of its name.
    let pin = Held::Pin {
        pin: case.guide.pins[1].name.clone(),
    };
    assert_eq!(sheet.loading[thing(&pin)].entry, "pin-157");
    assert_eq!(
        sheet.loading[thing(&pin)].held(),
        Held::Pin {
            pin: case.guide.pins[0].name.clone()
        }
    );
}

#[test]
fn a_place_for_what_is_not_laid_any_more_is_told_and_goes_with_its_site() {
    let case = demo();
    let sheet = work_out(&case);
    let implant = sheet
        .loading
        .iter()
        .position(|item| item.kind == SlotKind::Implant);
    let implant = implant.unwrap();
    let site = sheet.loading[implant].serves[0].site.clone().unwrap();
    let free = case
        .tray_slots()
        .iter()
        .rfind(|slot| slot.kind == SlotKind::Implant);
    let places = moved(&case, &sheet.loading, implant, &free.unwrap().name).unwrap();
    let by_hand = with_places(&case, places);
    let told = |case: &ValidCase| {
        let sheet = work_out(case);
        sheet
            .findings
            .iter()
            .filter(|f| f.rule == Rule::TrayPlaceDoesNotFit)
            .count()
    };
    assert_eq!(told(&by_hand), 0);
    assert_eq!(
        told(&apply(&by_hand, &[Edit::RemoveSite(site.clone())]).unwrap()),
        1
    );
    let without = apply(&by_hand, &removal(&by_hand, &site)).unwrap();
    assert_eq!((told(&without), without.tray_places.len()), (0, 0));
}

#[test]
fn with_another_tray_the_places_of_the_old_one_go() {
    let case = demo();
    let sheet = work_out(&case);
    let last = case
        .tray_slots()
        .iter()
        .rfind(|slot| slot.kind == SlotKind::Drill)
        .unwrap();
    let by_hand = with_places(&case, moved(&case, &sheet.loading, 0, &last.name).unwrap());
    let mut setup = by_hand.setup.clone();
    setup.gauge = None;
    let kept = apply(&by_hand, &[Edit::SetSetup(setup.clone())]).unwrap();
    assert_eq!(kept.tray_places, by_hand.tray_places);
    setup.tray = None;
    let gone = apply(&by_hand, &[Edit::SetSetup(setup)]).unwrap();
    assert!(gone.tray_places.is_empty());
}
