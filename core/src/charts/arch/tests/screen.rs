//! The chart as a screen has it: it stands still, and a hand finds what is drawn.

use super::*;

fn on_screen(case: &Case, arches: Arches, chosen: Option<ArchSelection<'_>>) -> ArchFrame {
    let case = valid(case.clone());
    let options = ArchOptions {
        height_mm: Some(128.0),
        arches,
        chosen,
        ..options(174.0)
    };
    arch_frame(&case, &work_out(&case), &options)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Else the arch would run away under the hand that moves a site.
    #[test]
    fn on_a_screen_the_arch_stands_still_whatever_is_planned(
        case in any_case(),
        both in any::<bool>(),
    ) {
        let arches = if both { Arches::Both } else { Arches::Own };
        let mut without = case.clone();
        without.sites.clear();
        without.guide.pins.clear();
        without.teeth.clear();
        let (with, without) = (on_screen(&case, arches, None), on_screen(&without, arches, None));
        prop_assert_eq!(&with.teeth, &without.teeth);
        prop_assert!((with.scale() - without.scale()).abs() < 1e-12);
        let room = Rect::new(at(0.0, 0.0), 174.0, 128.0);
        for tooth in &with.teeth {
            prop_assert!(tooth.ring.iter().all(|&point| room.holds(Rect::between(point, point))));
        }
    }
}

#[test]
fn a_hand_finds_what_is_drawn_where_it_is_drawn() {
    let mut case = all_present(Jaw::Upper);
    case.sites = vec![site("a", tooth("26"), on_arch(tooth("26"), -32, 0))];
    let id: SiteId = "a".into();
    let frame = on_screen(&case, Arches::Both, Some(ArchSelection::Site(&id)));
    let found = frame.site_at(platform(&frame.drawing, "a"), 0.0).unwrap();
    assert_eq!(found.id, id);
    assert!((found.platform - platform(&frame.drawing, "a")).length() < 1e-9);
    for position in ToothPosition::all_of(Jaw::Upper) {
        let centre = outline_of(&frame.drawing, position).0.centre();
        assert_eq!(frame.tooth_at(centre), Some(position));
        assert_eq!(frame.spot(position, centre).unwrap().at, position);
    }
    assert_eq!(frame.tooth_at(at(-5.0, -5.0)), None);
    assert!(frame.site_at(at(-5.0, -5.0), 0.0).is_none());
}

/// The ring that tilts is as far from the apex as before when both are moved alike, so a hand that
/// leaves it where it is leaves the tilts as they are.
#[test]
fn the_ring_of_the_chosen_site_stands_for_its_apex() {
    let mut case = all_present(Jaw::Lower);
    let placement = on_arch(tooth("46"), 4, -3);
    case.sites = vec![site("a", tooth("46"), placement)];
    let id: SiteId = "a".into();
    let plain = on_screen(&case, Arches::Own, None);
    assert_eq!(plain.sites[0].handle, None);
    let frame = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    let chosen = &frame.sites[0];
    assert!((chosen.handle.unwrap() - chosen.platform).length() > chosen.radius);
    assert_eq!(frame.tilted(&case.sites[0], chosen.apex), Some(placement));
    assert_eq!(frame.moved(placement, chosen.platform), Some(placement));
    case.guide.state = crate::case::GuideState::Made;
    let made = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    assert_eq!(made.sites[0].handle, None);
    case.guide.state = crate::case::GuideState::Planned;
    case.sites[0].placement = measured(Jaw::Lower, -14_000, 18_000, (0, 0));
    let measured = on_screen(&case, Arches::Own, Some(ArchSelection::Site(&id)));
    assert_eq!(measured.sites[0].handle, None);
    assert_eq!(measured.moved(case.sites[0].placement, at(0.0, 0.0)), None);
}
