//! Words that a hand acts on: until where, in what order, by whose reason.

use super::at_the_tray::under_title;
use super::samples::{CASES, changed};
use super::*;
use crate::plan::Operation;
use serde_json::{Value, json};

fn flat(case: &ValidCase, title: &str) -> String {
    under_title(&pages(case, Paper::A4), title).join(" ")
}

fn of_site(case: &ValidCase, index: usize) -> String {
    let formatter = Formatter::english(case, Notation::Iso);
    flat(
        case,
        &crate::wording::begin(&formatter.site(&case.sites[index].id)),
    )
}

/// A mark is drilled until its edge is level with a rim, and with nothing landed.
#[test]
fn a_step_without_a_stop_says_with_what_its_mark_has_to_be_level() {
    let case = changed("fixed-stops", |_| {});
    let sleeve = "Drill until the edge of the mark IV nearer the shank is level with the landing \
                  face of Narrow sleeve for 2.13, no farther";
    for text in [flat(&case, "Order of use"), of_site(&case, 0)] {
        let said = text.to_lowercase().contains(&sleeve.to_lowercase());
        assert!(said, "{text}");
    }
    let (marks, stops) = (of_site(&case, 0), of_site(&case, 1));
    assert!(
        marks.contains("with that mark or edge level with the rim")
            && !marks.contains("stop landed")
    );
    assert!(
        stops.contains("stop landed")
            && !stops.contains("with that mark or edge level with the rim")
    );
    // Without a drill sleeve it is the master sleeve's rim; without the guide the crest.
    let bare = changed("fixed-stops", |case| {
        for step in case["sites"][0]["steps"].as_array_mut().unwrap() {
            step.as_object_mut().unwrap().remove("sleeve");
        }
    });
    assert!(flat(&bare, "Order of use").contains("level with the master sleeve's coronal rim"));
    let freehand = changed("fresh-socket", |_| {});
    let crest = "is level with the most apical point of the socket's rim, no farther";
    assert_eq!(flat(&freehand, "Order of use").matches(crest).count(), 2);
    let socket = of_site(&freehand, 0);
    assert!(
        !socket.contains("with that mark or edge level"),
        "no bench check without the guide"
    );
}

/// Before the first guided cut the guide is seated and looked at, and each site sounded that has a
/// crest to sound against.
#[test]
fn the_guide_is_seated_looked_at_and_sounded_before_the_first_guided_cut() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let text = flat(&case, "Order of use");
        // The loading list may be on the same page.
        let text = &text[text.find("With the guide").unwrap()..];
        let worksheet = work_out(&case);
        let drill = worksheet.order.iter().find_map(|one| match one {
            Operation::Drill { site, step } => {
                let sites = worksheet.sites.iter().filter(|sheet| sheet.id == *site);
                let mut steps = sites.flat_map(|sheet| &sheet.steps);
                steps.find(|sheet| sheet.id == *step)
            }
            _ => None,
        });
        let formatter = Formatter::english(&case, Notation::Iso);
        let drill = format!("{} ", formatter.drill(&drill.unwrap().drill));
        let first = text.find(&drill).unwrap();
        let at = text.find("not rock.").unwrap_or_else(|| panic!("{name}"));
        assert!(at < first, "{name}");
        let sounds = *name != "fresh-socket";
        let sound = text.find("Bone sounding, more than 1.0 mm off: stop.");
        assert_eq!(sound.is_some_and(|at| at < first), sounds, "{name}: {text}");
        let sites = worksheet.order.iter().find_map(|one| match one {
            Operation::Sound { sites } => Some(sites.len()),
            _ => None,
        });
        let soundable = worksheet
            .sites
            .iter()
            .filter(|site| site.sounding.is_some());
        assert_eq!(sites, Some(soundable.count()), "{name}");
    }
    let socket = changed("fresh-socket", |_| {});
    let order = flat(&socket, "Order of use");
    assert!(
        order.contains("Seat the guide. Check through its windows, check that it does not rock.")
    );
    assert!(of_site(&socket, 0).contains("No bone sounding: fresh socket."));
    let pinned = flat(
        &changed("full-arch-upper", |case| {
            case["guide"]["access"] = json!("flap");
        }),
        "Order of use",
    );
    assert!(
        pinned.contains(
            "Check through the guide's windows, check that it does not rock. Bone sounding,"
        ),
        "{pinned}"
    );
    assert!(
        !pinned.contains("Seat the guide"),
        "the pins were set with it in place"
    );
}

/// A crest that was not measured is no figure to sound against, and the page says so.
#[test]
fn a_site_without_a_figure_to_sound_is_named() {
    let case = changed("two-molars", |case| {
        let heights = case["sites"][0]["heights"].as_object_mut().unwrap();
        heights.remove("platform_below_crest");
    });
    let order = flat(&case, "Order of use");
    let lacking = "No bone sounding figure: lower right first molar (46). Find it";
    assert!(order.contains(lacking), "{order}");
    assert!(order.contains("stop. The probe shows Lower right second molar (47): 9.35 mm"));
    let team = flat(&case, "Team check");
    let some = "shows it, within the limit: lower right second molar (47).";
    assert!(team.contains(some), "{team}");
}

/// The surgeon's reason for a step is over its line, that for the whole site over its deepest
/// cut, and each appears once.
#[test]
fn the_surgeons_reason_stands_at_the_line_of_its_step() {
    let between = |name: &str, reason: &str, from: &str, to: &str| {
        let text = flat(&changed(name, |_| {}), "Order of use");
        assert_eq!(text.matches(reason).count(), 1, "{text}");
        let at = text.find(reason).unwrap();
        // Between it and the line of this drill neither another of them nor an implant comes, and none of them was before.
        let line = at + text[at..].find(from).unwrap();
        let after = at + text[at..].find(to).unwrap();
        assert!(line < after, "{text}");
        assert!(
            !text[..at].contains(from) || name == "fixed-stops",
            "{text}"
        );
    };
    let kept = "Accepted by RT: No fixed stop fits better.";
    between("fixed-stops", kept, "Tip drill 3.68 ", "Heron");
    let lifted = "Intended by RT: The floor is to be lifted";
    between(
        "full-arch-upper",
        lifted,
        "Full-diameter drill 3.72 ",
        "Heron",
    );
}

/// The crest says when to stop where neither carrier nor sleeve does.
#[test]
fn an_implant_without_the_guide_says_how_deep_it_ends() {
    let depth = |change: fn(&mut Value)| {
        let case = changed("fresh-socket", change);
        let (order, site) = (flat(&case, "Order of use"), of_site(&case, 0));
        // On the page of the site the torque comes after it; in the order of use it ends its row.
        let at = site.find("Final depth: ").unwrap();
        let words = site[at..].split(" Maximum insertion torque");
        let words = words.into_iter().next().unwrap().to_owned();
        assert!(order.contains(&words), "{words}: {order}");
        words
    };
    assert_eq!(
        depth(|_| {}),
        "Final depth: the platform 0.4 mm apical to the most apical point of the socket's rim"
    );
    let healed = |case: &mut Value| case["sites"][0]["state"] = json!({"bone": "healed"});
    assert_eq!(
        depth(healed),
        "Final depth: the platform 2.05 mm apical to the most coronal point of the crest, \
         0.4 mm apical to the most apical one"
    );
    assert_eq!(
        depth(|case| {
            case["sites"][0]["state"] = json!({"bone": "healed"});
            let heights = &mut case["sites"][0]["heights"];
            heights["platform_below_crest"] = json!({"highest_mm": 0, "lowest_mm": -0.35});
            heights["platform_below_socket_rim_mm"] = json!(-0.35);
        }),
        "Final depth: the platform level with the most coronal point of the crest, \
         0.35 mm coronal to the most apical one"
    );
    let unknown = depth(|case| {
        let heights = case["sites"][0]["heights"].as_object_mut().unwrap();
        heights.remove("platform_below_socket_rim_mm");
    });
    assert!(unknown.starts_with("Final depth: no figure, "), "{unknown}");
    let guided = flat(&changed("one-premolar", |_| {}), "Order of use");
    assert!(!guided.contains("Final depth"), "the carrier says it");
}

/// The questions to the team hold for the case: no stops, soundings or shorter implants that are
/// not there.
#[test]
fn the_team_is_asked_only_what_can_be_answered() {
    let team = |name: &str, change: fn(&mut Value)| flat(&changed(name, change), "Team check");
    let socket = team("fresh-socket", |_| {});
    assert!(!socket.contains("probe through the guide"));
    // Its one stop is on a sealed drill.
    assert!(socket.contains("The stops on sealed drills are set, locked and read"));
    assert!(!socket.contains("Every stop was set"));
    let molars = team("two-molars", |_| {});
    assert!(molars.contains("at each site the probe through the guide shows the figure"));
    assert!(molars.contains("those on sealed drills are when they are opened"));
    assert!(molars.contains("and the next shorter ones that the kit has, unopened"));
    assert!(socket.contains("The planned implants and the next shorter ones are here"));
    let open = team("two-molars", |case| {
        for drill in case["kit"]["drills"].as_array_mut().unwrap() {
            drill["single_use"] = json!(false);
        }
    });
    assert!(open.contains("Every stop was set, locked and read by two people."));
    assert!(!open.contains("sealed"));
    let bare = team("fixed-stops", |case| {
        let sites = case["sites"].as_array_mut().unwrap();
        for step in sites
            .iter_mut()
            .flat_map(|site| site["steps"].as_array_mut().unwrap())
        {
            step.as_object_mut().unwrap().remove("stop");
        }
    });
    assert!(!bare.contains("Every stop") && !bare.contains("setting was measured"));
    let none = team("one-premolar", |case| {
        for implant in case["kit"]["implants"].as_array_mut().unwrap() {
            if implant["id"] == "reed-363-74" {
                implant["quantity"] = json!(0);
            }
        }
    });
    assert!(none.contains("The planned implants are here, unopened") && !none.contains("shorter"));
}

/// That nothing is open says nothing of what was not looked at.
#[test]
fn nothing_open_is_said_with_what_was_not_assessed() {
    let case = changed("fresh-socket", |_| {});
    let count = crate::plan::not_assessed(&case).len();
    let first = read(&pages(&case, Paper::A4)[..1]);
    let want = format!("Nothing assessed is open. Not assessed: {count} matters");
    assert!(first.contains(&want), "{first}");
}

/// The slots of the three pins are the narrowest of the demonstration's tray.
#[test]
fn the_slot_of_a_pin_bears_its_name() {
    let case = changed("full-arch-upper", |_| {});
    let pages = pages(&case, Paper::A4);
    let texts = pages.iter().flat_map(|page| page.over.texts());
    let large = texts.filter(|text| text.style.size_mm > crate::drawing::pt(8.9));
    let named = large.filter(|text| text.content == "Lark").count();
    assert_eq!(named, 1);
}
