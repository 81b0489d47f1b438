//! Who gives initials.

use super::world::{World, case};
use crate::view::loading::blind::{BlindPass, BlindPhase};
use crate::view::loading::entry::Entry;
use crate::view::loading::session::{Input, Now, Phase, Refused, Step};
use traywright_core::case::{Case, Team};
use traywright_core::sign::{EventKind, Pass, Stage, Who};

/// A stray letter makes other initials: those that nobody of the case used before are asked back once.
#[test]
fn initials_that_are_new_to_the_case_are_asked_back_and_known_ones_are_not() {
    // The team of the case is RT, OW and KE.
    let begins = |who: &str| {
        let mut world = World::new(case("two-molars", |_| {}));
        world.take(Input::Begin(Stage::Bench, Pass::Setting));
        world.take(Input::Initials(who.to_owned()));
        world.session.phase == Phase::Gauge
    };
    for known in ["OW", "o. w."] {
        assert!(begins(known), "{known}");
    }
    // With a Cyrillic letter, with a nought: who may be somebody known is asked back by that name.
    for new in ["КЕ", "0W", "WO", "Dr O. W.", "KE2", "eOW", "OWW", "MK"] {
        assert!(!begins(new), "{new}");
    }
    let mut world = World::new(case("two-molars", |_| {}));
    world.take(Input::Begin(Stage::Bench, Pass::Setting));
    let mut give = |who: &str| {
        world.take(Input::Initials(who.to_owned()));
        (world.session.entry.refused.clone(), world.session.phase)
    };
    let who = |who: &str| Who::new(who).unwrap();
    let asked = |name: &str, near: Option<&str>| {
        let (who, near) = (who(name), near.map(who));
        Some(Refused::New { who, near })
    };
    assert_eq!(give("0W"), (asked("0W", Some("OW")), Phase::Person));
    assert_eq!(give("eMK"), (asked("eMK", None), Phase::Person));
    assert_eq!(give("MK"), (asked("MK", None), Phase::Person));
    assert_eq!(give("MK"), (None, Phase::Gauge));
    // By the record they are known from now on.
    world.type_in("21.7");
    let people = world.board().people;
    let names: Vec<&str> = people.iter().map(Who::as_str).collect();
    assert_eq!(names, ["RT", "OW", "KE", "MK"]);
    // The reader of the other pass is asked back as well.
    let mut other = World::new(case("two-molars", |_| {}));
    other.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    assert_eq!(other.take(Input::Initials("eCD".to_owned())), []);
    let pass = other.blind.unwrap();
    assert_eq!(pass.entry.refused, asked("eCD", None));
    assert_eq!(pass.phase, BlindPhase::Reader);
    // Where the case has no team and no record, nobody is new.
    let no_team = |case: &mut Case| case.team = Team::default();
    let mut first = World::new(case("two-molars", no_team));
    first.take(Input::Begin(Stage::Bench, Pass::Setting));
    first.take(Input::Initials("MK".to_owned()));
    assert_eq!(first.session.phase, Phase::Gauge);
}

/// Somebody takes over before the stop is set: it is that person's hand, and nothing is done before the initials are
/// given.
#[test]
fn who_takes_over_before_the_stop_is_set_has_it_in_hand() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.go_to_first_set();
    world.take(Input::Done);
    assert_eq!(world.now(), Now::Do(Step::Set));
    world.take(Input::OtherPerson);
    assert_eq!(world.take(Input::Done), []);
    world.name("OW");
    let set = world.take(Input::Done);
    assert!(matches!(set[..], [EventKind::Handled { .. }]), "{set:?}");
    assert_eq!(world.log.events().last().unwrap().who.as_str(), "OW");
}

/// Who is refused as somebody of the record is told as whom.
#[test]
fn who_may_be_a_person_of_the_record_is_told_by_that_name() {
    let mut world = World::loading(case("two-molars", |_| {}), Stage::Bench);
    world.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    world.name("KM");
    let refused = &world.blind.as_ref().unwrap().entry.refused;
    let Some(Refused::Saw(who, _)) = refused else {
        panic!("{refused:?}")
    };
    assert_ne!(who.as_str(), "KM");
    assert!(who.may_be_same(&Who::new("MK").unwrap()));
}

/// Two signatures that may both be short for a name of the case are one person's, wherever two people are asked for.
#[test]
fn who_may_be_the_same_by_a_known_name_is_no_second_person() {
    let team = |name: &'static str| {
        move |case: &mut Case| {
            case.team.second_checker = Some(name.into());
        }
    };
    // The one reads aloud, the other enters.
    let enters = |name| {
        let mut world = World::new(case("two-molars", team(name)));
        world.blind = Some(BlindPass::new(Stage::SterileField, &Entry::default()));
        world.name("Berg");
        world.name("AB");
        let pass = world.blind.unwrap();
        (
            pass.phase,
            matches!(pass.entry.refused, Some(Refused::SamePerson(_))),
        )
    };
    assert_eq!(enters("Anna Berg"), (BlindPhase::Enterer, true));
    assert_ne!(enters("Berta Lund"), (BlindPhase::Enterer, true));
    // The one sets and reads, the other reads without a figure: nothing is left to the second name.
    let read = |name| {
        let mut world = World::new(case("two-molars", team(name)));
        world.take(Input::Begin(Stage::Bench, Pass::Setting));
        world.name("Berg");
        let piece = world.piece();
        world.type_in(&piece);
        world.take(Input::Singly);
        world.take(Input::Go(world.session.at));
        world.load_all();
        let mut pass = BlindPass::new(Stage::Bench, &Entry::default());
        pass.reader = Some(Who::new("AB").unwrap());
        let board = world.board();
        (
            pass.left_to_others(&board),
            world.session.waiting_for_second(&board),
        )
    };
    let (left, waiting) = read("Anna Berg");
    assert!(waiting > 2);
    assert_eq!(left, waiting);
    assert_eq!(read("Berta Lund").0, 0);
}

/// Who saw figures is told by the name under which the record has it, whoever else the typed one may be of.
#[test]
fn who_saw_figures_is_told_by_the_name_that_is_recorded_with_it() {
    let mut world = World::new(case("two-molars", |_| {}));
    let began = EventKind::PassBegun {
        stage: Stage::Bench,
        pass: Pass::Setting,
    };
    let katrin = Who::new("Katrin Ebert").unwrap();
    let at = jiff::Timestamp::from_second(1_900_000_000).unwrap();
    world.log.append(at, katrin.clone(), began).unwrap();
    // The team has KE, who may be meant too.
    world.blind = Some(BlindPass::new(Stage::Bench, &Entry::default()));
    world.name("Katrin E.");
    let refused = &world.blind.as_ref().unwrap().entry.refused;
    let Some(Refused::Saw(who, _)) = refused else {
        panic!("{refused:?}")
    };
    assert_eq!(*who, katrin);
}
