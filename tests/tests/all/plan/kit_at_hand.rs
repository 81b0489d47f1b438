//! What a case's copy of its kit cannot know of an implant that was chosen where no kit was at hand.

use crate::demo::{path, valid};
use traywright_core::case::{
    Edit, GuidedExtent, NewSite, SiteState, ValidCase, apply, kit_differences, read_kit, supplied,
    taking,
};
use traywright_core::dentition::Notation;
use traywright_core::kit::Kit;
use traywright_core::plan::{Verdict, may_be_accepted, work_out};
use traywright_core::wording::Formatter;

fn kit() -> Kit {
    read_kit(&std::fs::read(path("kit")).unwrap()).unwrap()
}

/// The implant of the first site, chosen.
fn with(case: &ValidCase, implant: &str) -> Edit {
    let mut site = case.sites[0].clone();
    site.implant = implant.into();
    Edit::ChangeSite(Box::new(site))
}

/// The sites at which it is told, all as unknown.
fn told(case: &ValidCase) -> Vec<String> {
    let sheet = work_out(case);
    let found = sheet.findings.iter();
    let found = found.filter(|found| found.rule.key() == "kit-not-at-hand");
    let place = |found: &traywright_core::plan::Finding| {
        assert_eq!(found.verdict, Verdict::Unknown);
        assert!(may_be_accepted(found));
        found.place.key()
    };
    found.map(place).collect()
}

fn after(case: &ValidCase, edits: &[Edit]) -> ValidCase {
    apply(case, edits).unwrap_or_else(|refused| panic!("{refused}"))
}

/// The copy of two molars has the whole family of its implants, but only the protocols of those that the sites had: of
/// another one nobody knows whether the kit has one, until the kit is there.
#[test]
fn an_implant_chosen_without_the_kit_is_told_until_the_kit_is_there() {
    let case = valid("two-molars");
    assert_eq!(told(&case), [] as [&str; 0]);
    let other = "reed-363-91";
    let has = |kit: &Kit| {
        kit.protocols
            .iter()
            .any(|p| p.implants.contains(&other.into()))
    };
    assert!(case.kit.implant(&other.into()).is_some() && !has(&case.kit) && has(&kit()));
    let first = format!("sites[{}]", case.sites[0].id);
    // A desk without a kit offers the case's own copy.
    let alone = supplied(&case, vec![with(&case, other)], &case.kit);
    let alone = after(&case, &alone);
    assert_eq!(told(&alone), [first.as_str()]);
    // It stays so through the file and other changes there, and goes with the implant.
    let again = ValidCase::checked(&alone).unwrap();
    assert_eq!(told(&again), [first.as_str()]);
    let noted = |case: &ValidCase| {
        let mut site = case.sites[0].clone();
        site.note = Some("seen".to_owned());
        vec![Edit::ChangeSite(Box::new(site))]
    };
    let elsewhere = after(&again, &supplied(&again, noted(&again), &again.kit));
    assert_eq!(told(&elsewhere), [first.as_str()]);
    let back = after(&alone, &[with(&alone, case.sites[0].implant.as_str())]);
    assert_eq!(told(&back), [] as [&str; 0]);
    assert_eq!(back.fingerprint(), case.fingerprint());
    // Where the kit is there, its protocols come along, by whatever is changed next.
    let there = after(&case, &supplied(&case, vec![with(&case, other)], &kit()));
    let later = after(&alone, &supplied(&alone, noted(&alone), &kit()));
    for case in [there, later] {
        assert_eq!(told(&case), [] as [&str; 0]);
        assert!(has(&case.kit));
    }
}

/// The kit view shows it as a difference, also where the kit has nothing to add.
#[test]
fn the_kit_view_offers_what_a_choice_without_the_kit_lacks() {
    let case = valid("two-molars");
    assert!(kit_differences(&case, &kit()).is_empty());
    let alone = after(&case, &[with(&case, "reed-363-91")]);
    let mut none = kit();
    none.protocols
        .retain(|p| !p.implants.contains(&"reed-363-91".into()));
    for live in [kit(), none] {
        let mut taken = alone.clone().into_case();
        taken.kit = alone.kit.with_missing_from(&live, &alone);
        assert_eq!(kit_differences(&taken, &live).len(), 1);
        let whole = [taking(&taken, taken.kit.clone(), &live)];
        let taken = apply(&ValidCase::checked(&taken).unwrap(), &whole).unwrap();
        assert!(kit_differences(&taken, &live).is_empty());
        assert_eq!(told(&taken), [] as [&str; 0]);
    }
    // Of a part of the kit that is there it stays told.
    let part = [taking(&alone, alone.kit.clone(), &kit())];
    assert_eq!(told(&apply(&alone, &part).unwrap()).len(), 1);
}

/// An implant that another site has came with all that the kit has for it, at a new site as well.
#[test]
fn what_another_site_has_is_there() {
    let case = valid("two-molars");
    let site = |implant: &str| NewSite {
        tooth: "36".parse().unwrap(),
        state: SiteState::Healed {},
        implant: implant.into(),
        master_sleeve: case.sites[0].master_sleeve.clone(),
        guided_extent: GuidedExtent::AllDrilling,
    };
    let told_of = |implant: &str| {
        let (_, edits) = site(implant).edits(&case);
        told(&after(&case, &edits))
    };
    assert_eq!(told_of(case.sites[1].implant.as_str()), [] as [&str; 0]);
    assert_eq!(told_of("reed-363-91").len(), 1);
    // Chosen so at both, the second has no more of the kit than the first.
    let alone = after(&case, &[with(&case, "reed-363-91")]);
    let mut second = alone.sites[1].clone();
    second.implant = "reed-363-91".into();
    let both = after(&alone, &[Edit::ChangeSite(Box::new(second))]);
    assert_eq!(told(&both).len(), 2);
}

#[test]
fn the_implant_is_named_and_the_way_to_the_kit() {
    let case = valid("two-molars");
    let alone = after(&case, &[with(&case, "reed-363-91")]);
    let sheet = work_out(&alone);
    let mut found = sheet.findings.iter();
    let found = found
        .find(|found| found.rule.key() == "kit-not-at-hand")
        .unwrap();
    let said = Formatter::english(&alone, Notation::Iso).finding(found);
    let implant = alone.kit.implant(&"reed-363-91".into()).unwrap();
    assert!(
        said.headline.contains(implant.name.as_str()),
        "{}",
        said.headline
    );
    assert!(said.remedy.unwrap().contains("kit view"));
}

/// A kit of another family, open beside the case, knows nothing of the implant that was chosen.
#[test]
fn another_kit_at_hand_settles_nothing_that_it_does_not_have() {
    let case = valid("two-molars");
    let other = "reed-363-91";
    let mut another = kit();
    another
        .implants
        .retain(|one| !one.id.as_str().starts_with("reed"));
    another.protocols.clear();
    let first = format!("sites[{}]", case.sites[0].id);
    let chosen = after(&case, &supplied(&case, vec![with(&case, other)], &another));
    assert_eq!(told(&chosen), [first.as_str()]);
    let mut site = chosen.sites[0].clone();
    site.note = Some("seen".to_owned());
    let noted = vec![Edit::ChangeSite(Box::new(site))];
    let later = after(&chosen, &supplied(&chosen, noted, &another));
    assert_eq!(told(&later), [first.as_str()]);
    let taken = after(&chosen, &[taking(&chosen, chosen.kit.clone(), &another)]);
    assert_eq!(told(&taken), [first.as_str()]);
}
