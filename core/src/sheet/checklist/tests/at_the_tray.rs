//! Actions of nurse and surgeon by the pages: take, set, use, count.

use super::samples::{CASES, changed, forget};
use super::*;
use crate::drawing::{Item, TextStyle};
use crate::plan::{FindingLine, Operation, Severity, by_cause};
use serde_json::{Value, json};

/// The text under this title, line by line: of its pages down to the next title, where there is one.
pub(super) fn under_title(pages: &[Page], title: &str) -> Vec<String> {
    let all = texts_under(pages, title).into_iter();
    all.map(|(_, words)| words).collect()
}

/// The same with the size of each text, mm.
pub(super) fn texts_under(pages: &[Page], title: &str) -> Vec<(f64, String)> {
    let mut all = Vec::new();
    for page in pages {
        let Some((top, bottom)) = room_of(page, title) else {
            continue;
        };
        let texts = page.over.texts().into_iter();
        let texts = texts.filter(|text| text.place.y >= top && text.place.y < bottom);
        all.extend(texts.map(|text| (text.style.size_mm, text.content.clone())));
    }
    all
}

/// From this title on a page down to the next one, mm; the whole page where it bears no other.
fn room_of(page: &Page, title: &str) -> Option<(f64, f64)> {
    /// From a title's baseline up to what stands above it, mm.
    const ABOVE: f64 = 6.0;
    let texts = page.over.texts().into_iter();
    let mut titles: Vec<(f64, String)> = texts
        .filter(|text| text.style.size_mm > TextStyle::HEADING.size_mm * 1.3)
        .filter(|text| {
            text.content
                .chars()
                .filter(|one| one.is_alphabetic())
                .count()
                > 1
        })
        .map(|text| (text.place.y, text.content.clone()))
        .collect();
    titles.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    let at = titles.iter().position(|(_, words)| words == title)?;
    let top = if at == 0 { 0.0 } else { titles[at].0 - ABOVE };
    let next = titles.get(at + 1);
    Some((top, next.map_or(f64::INFINITY, |(place, _)| place - ABOVE)))
}

/// Number of upright boxes of this width and height on the pages that are headed so.
pub(super) fn boxes(pages: &[Page], title: &str, (width, height): (f64, f64)) -> usize {
    let mut count = 0;
    for page in pages {
        let Some((top, bottom)) = room_of(page, title) else {
            continue;
        };
        page.over.visit(&mut |item, _| {
            if let (Item::Polygon { .. }, Some(bounds)) = (item, item.bounds())
                && bounds.top >= top
                && bounds.top < bottom
            {
                let like = |side: f64, wanted: f64| (side - wanted).abs() < 1e-6;
                count += usize::from(like(bounds.width(), width) && like(bounds.height(), height));
            }
        });
    }
    count
}

pub(super) const TICK: (f64, f64) = (3.6, 3.6);

/// A drill of which nobody knows the depth has no box anywhere, and says why.
#[test]
fn a_drill_without_a_figure_has_no_box_and_says_so() {
    let whole = changed("two-molars", |_| {});
    let lost = changed("two-molars", |case| {
        for site in case["sites"].as_array_mut().unwrap() {
            site.as_object_mut().unwrap().remove("platform_to_sleeve");
        }
    });
    let banner = "Do not use this drill";
    let (before, after) = (pages(&whole, Paper::A4), pages(&lost, Paper::A4));
    assert!(!read(&before).contains(banner));
    let worksheet = work_out(&lost);
    let steps: usize = worksheet.sites.iter().map(|site| site.steps.len()).sum();
    let settable = worksheet.loading.iter().filter(|item| item.set.is_some());
    let said = |title: &str| under_title(&after, title).join(" ").matches(banner).count();
    assert_eq!(said("Order of use"), steps);
    assert_eq!(said("Loading the tray"), settable.count());
    let sites = [
        "Lower right first molar (46)",
        "Lower right second molar (47)",
    ];
    assert_eq!(sites.iter().map(|title| said(title)).sum::<usize>(), steps);
    // In the order of use only what is no drill can be ticked off.
    // An implant without any drill of its site cannot either.
    let none = |one: &&Operation| matches!(one, Operation::Drill { .. } | Operation::Insert { .. });
    let others = worksheet.order.len() - worksheet.order.iter().filter(none).count();
    assert_eq!(boxes(&after, "Order of use", TICK), others);
    assert!(boxes(&before, "Order of use", TICK) > others);
    // No box for a reading: neither on the tray's pages nor on those of the sites.
    for (title, size) in [
        ("Loading the tray", (14.0, 6.3)),
        (sites[0], (12.0, 8.4)),
        (sites[1], (12.0, 8.4)),
    ] {
        assert!(boxes(&before, title, size) > 0, "{title}");
        assert_eq!(boxes(&after, title, size), 0, "{title}");
    }
}

/// A drill whose stop or landing does not fit is refused on the screen: on paper it has no box anywhere, no figure on the
/// strip, and is not among what there is enough of.
#[test]
fn a_drill_that_does_not_fit_has_no_box_and_says_so() {
    let whole = changed("two-molars", |_| {});
    let misfit = changed("two-molars", |case| {
        for stop in case["kit"]["stops"].as_array_mut().unwrap() {
            if stop["id"] == "stop-257" {
                stop["bore_mm"] = json!(2.5);
            }
        }
    });
    let banner = "Do not use this drill";
    let (before, after) = (pages(&whole, Paper::A4), pages(&misfit, Paper::A4));
    let worksheet = work_out(&misfit);
    let of = |step: &&crate::plan::StepSheet| {
        step.stop
            .as_ref()
            .is_some_and(|stop| stop.as_str() == "stop-257")
    };
    let steps = worksheet.sites.iter().flat_map(|site| &site.steps);
    let steps = steps.filter(of).count();
    let laid = worksheet
        .loading
        .iter()
        .filter_map(|item| item.set.as_ref());
    let laid = laid
        .filter(|on| {
            on.stop
                .as_ref()
                .is_some_and(|stop| stop.as_str() == "stop-257")
        })
        .count();
    assert!(steps > 0 && laid > 0);
    let said = |title: &str| under_title(&after, title).join(" ").matches(banner).count();
    assert_eq!(said("Order of use"), steps);
    assert_eq!(said("Loading the tray"), laid);
    let of_order = |pages: &[Page]| boxes(pages, "Order of use", TICK);
    assert_eq!(of_order(&before) - of_order(&after), steps);
    let to_read = |pages: &[Page]| boxes(pages, "Loading the tray", (14.0, 6.3));
    assert_eq!(to_read(&before) - to_read(&after), laid);
    let blind = |pages: &[Page]| boxes(pages, "Second reading", (30.0, 6.3));
    assert_eq!(blind(&before).saturating_sub(blind(&after)), laid);
    let enough = "There is enough of everything";
    assert!(read(&before).contains(enough));
    assert!(!read(&after).contains(enough));
}

/// The settings of what does not fit stand nowhere: on no page, and in none of the words of screen and command line. The
/// figures say of each that it does not fit.
#[test]
fn a_setting_that_does_not_fit_is_shown_nowhere() {
    let case = changed("two-molars", |case| {
        for stop in case["kit"]["stops"].as_array_mut().unwrap() {
            stop["bore_mm"] = json!(1.0);
        }
    });
    let worksheet = work_out(&case);
    let say = Formatter::english(&case, Notation::Iso);
    let steps = worksheet.sites.iter().flat_map(|site| &site.steps);
    let (refused, others): (Vec<_>, Vec<_>) = steps.partition(|step| step.stop.is_some());
    let set = |step: &&crate::plan::StepSheet| step.set.length().unwrap();
    let shown = |step: &&crate::plan::StepSheet| {
        say.set_length_with_unit(&crate::plan::Known::Is(set(step)))
    };
    let elsewhere: Vec<String> = others.iter().map(shown).collect();
    let figures: Vec<String> = refused.iter().map(shown).collect();
    let figures: Vec<&String> = figures
        .iter()
        .filter(|figure| !elsewhere.contains(figure))
        .collect();
    assert!(!figures.is_empty());
    let mut words = Vec::new();
    for step in &refused {
        words.extend([say.setting(step), say.setting_in_full(step)]);
        words.extend(say.gauge_figure(step));
    }
    assert!(words.iter().all(|one| one == "does not fit"), "{words:?}");
    words.extend(worksheet.sites.iter().map(|site| say.site_settings(site)));
    words.extend(
        worksheet
            .order
            .iter()
            .map(|one| say.use_line(one, &worksheet)),
    );
    for item in &worksheet.loading {
        let said = say.load(item, &worksheet);
        words.extend(
            said.setting
                .into_iter()
                .chain(said.bench)
                .chain(said.set_anew),
        );
    }
    for reset in &worksheet.resets {
        words.push(say.reset_line(reset, &worksheet));
    }
    for one in &worksheet.mix_ups {
        words.push(say.mix_up(one).mistake);
    }
    let figures_of = crate::figures::figures(&say, &worksheet, crate::figures::Detail::Values);
    let given = serde_json::to_value(figures_of).unwrap();
    let marked = |of: &serde_json::Value| of["does_not_fit"] == json!(true);
    let sites = given["sites"].as_array().unwrap().iter();
    let given_steps = sites.flat_map(|site| site["steps"].as_array().unwrap());
    assert_eq!(given_steps.filter(|one| marked(one)).count(), refused.len());
    let loading = given["loading"].as_array().unwrap();
    for one in loading {
        assert_eq!(marked(one), !one["stop"].is_null(), "{one}");
    }
    for (n, page) in pages(&case, Paper::A4).iter().enumerate() {
        let page = read(std::slice::from_ref(page));
        words.push(format!("page {n}: {page}"));
    }
    for figure in figures {
        for one in &words {
            let at = one.find(figure.as_str());
            let at = at.filter(|at| !one[..*at].ends_with(|before: char| before.is_ascii_digit()));
            let near = at.map(|at| one[..at].chars().rev().take(80).collect::<String>());
            let near = near.map(|near| near.chars().rev().collect::<String>());
            assert_eq!(
                near,
                None,
                "{figure}: {}",
                one.chars().take(60).collect::<String>()
            );
        }
    }
}

/// One sleeve of one site does not fit: the drill is not set, so that none of the steps that it serves is ticked or has a
/// figure, and each says where it does not fit.
#[test]
fn a_drill_that_is_not_to_be_set_is_used_in_none_of_its_steps() {
    let case = changed("full-arch-upper", |_| {});
    let worksheet = work_out(&case);
    let several = worksheet.loading.iter().find(|item| {
        let sites: std::collections::BTreeSet<_> =
            item.serves.iter().map(|one| one.site.clone()).collect();
        let sleeved = |one: &crate::plan::ServedPlace| {
            let site = one.site.as_ref().and_then(|id| case.site(id.as_str()));
            let step = site.and_then(|site| {
                site.steps
                    .iter()
                    .find(|step| Some(&step.id) == one.step.as_ref())
            });
            step.is_some_and(|step| step.sleeve.is_some())
        };
        item.set.is_some() && sites.len() > 1 && item.serves.iter().all(sleeved)
    });
    let several = several.unwrap().clone();
    let place = several.serves[0].clone();
    let of =
        |one: &crate::plan::ServedPlace| (one.site.clone().unwrap(), one.step.clone().unwrap());
    let (site, step) = of(&place);
    let case = changed("full-arch-upper", |case| {
        let sites = case["sites"].as_array().unwrap();
        let found = sites
            .iter()
            .position(|one| one["id"] == site.as_str())
            .unwrap();
        let steps = case["sites"][found]["steps"].as_array().unwrap();
        let at = steps
            .iter()
            .position(|one| one["id"] == step.as_str())
            .unwrap();
        let id = case["sites"][found]["steps"][at]["sleeve"].clone();
        let sleeves = case["kit"]["drill_sleeves"].as_array_mut().unwrap();
        let mut wide = sleeves.iter().find(|one| one["id"] == id).unwrap().clone();
        wide["id"] = json!("wide");
        wide["name"] = json!("Wide sleeve");
        wide["bore_mm"] = json!(wide["bore_mm"].as_f64().unwrap() + 0.9);
        sleeves.push(wide);
        case["sites"][found]["steps"][at]["sleeve"] = json!("wide");
    });
    let worksheet = work_out(&case);
    let item = worksheet.drill_of(&site, &step).unwrap();
    let why = crate::plan::misfit(item, &worksheet).expect("the sleeve is too wide");
    assert_eq!((&why.site, &why.step), (&place.site, &place.step));
    let served: Vec<_> = item.serves.iter().map(of).collect();
    assert!(served.len() > 1);
    for (site, step) in &served {
        let sheet = worksheet.sites.iter().find(|one| one.id == *site).unwrap();
        let sheet = sheet.steps.iter().find(|one| one.id == *step).unwrap();
        assert_eq!(sheet.fits, crate::plan::Fits::No, "{site} {step}");
    }
    let pages = pages(&case, Paper::A4);
    let order = under_title(&pages, "Order of use").join(" ");
    assert_eq!(order.matches("Do not use this drill").count(), served.len());
    assert_eq!(
        order.matches("This drill, set so, does not fit at").count(),
        served.len() - 1
    );
}

/// Each line of the order of use names the slot of its drill and its sleeve, and each implant the
/// carrier's line and the greatest torque.
#[test]
fn the_order_of_use_names_slots_lines_and_torque() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let pages = pages(&case, Paper::A4);
        let shown = under_title(&pages, "Order of use");
        let flat = shown.join(" ");
        for one in &worksheet.order {
            match one {
                Operation::Drill { site, step } => {
                    let item = worksheet.loading.iter().find(|item| {
                        let mut serves = item.serves.iter();
                        let is_step = serves.any(|one| {
                            one.site.as_ref() == Some(site) && one.step.as_ref() == Some(step)
                        });
                        item.set.is_some() && is_step
                    });
                    let item = item.unwrap();
                    let line = format!("{} {}", item.name, item.slot.as_ref().unwrap());
                    assert!(flat.contains(&line), "{name}: {line}");
                }
                Operation::Insert { site } => {
                    let sheet = worksheet.sites.iter().find(|one| one.id == *site).unwrap();
                    let implant = case.kit.implant(&sheet.implant).unwrap();
                    let torque = format!("{} N·cm", implant.torque_limit_ncm.unwrap());
                    assert!(flat.contains(&torque), "{name}: {torque}");
                    if let Some(insertion) = &sheet.insertion {
                        // Its carrier stands before it with its slot.
                        let said = formatter.insertion_by(insertion, Some(String::new()));
                        assert!(flat.contains(&said), "{name}: {said}");
                        let line = insertion.line.as_ref().unwrap();
                        assert!(said.starts_with(&format!(": until line {line} is level with ")));
                    }
                }
                _ => {}
            }
        }
        let sleeves = worksheet.loading.iter();
        let sleeves = sleeves.filter(|item| item.kind == crate::kit::SlotKind::Sleeve);
        for item in sleeves {
            let slot = item.slot.as_ref().unwrap().to_string();
            assert!(shown.contains(&slot), "{name}: {slot}");
        }
    }
}

/// A radiograph after a first pass is a thing to do: it has a line and a box of its own, also on
/// the page of its site.
#[test]
fn a_check_between_two_passes_has_its_own_line_and_box() {
    let with = changed("two-molars", |_| {});
    let without = changed("two-molars", |case| {
        for step in case["sites"][0]["steps"].as_array_mut().unwrap() {
            step.as_object_mut().unwrap().remove("then");
        }
    });
    let (with, without) = (pages(&with, Paper::A4), pages(&without, Paper::A4));
    for title in ["Order of use", "Lower right first molar (46)"] {
        assert!(under_title(&with, title).contains(&"Check radiograph".to_owned()));
        let more = boxes(&with, title, TICK) - boxes(&without, title, TICK);
        assert_eq!(more, 1, "{title}");
    }
}

/// A groove says which of the drill's lengths it is; a mark its name, and that there is no stop.
/// The demonstration's pilot drill has grooves at 16.9, 18.6, 20.4 and 22.3.
#[test]
fn what_limits_the_depth_is_named_beside_the_figure() {
    let case = changed("fixed-stops", |_| {});
    let pages = pages(&case, Paper::A4);
    let tray = under_title(&pages, "Loading the tray").join(" ");
    for wanted in [
        "length 2 of 4, counted from the tip 36 18.6",
        "mark IV, its edge nearer the shank, no stop · 43.6 mm long 34 17.9",
    ] {
        assert!(tray.contains(wanted), "{wanted}: {tray}");
    }
    let order = under_title(&pages, "Order of use").join(" ");
    for (figure, wanted) in [
        ("18.6", "Length 2 of 4, counted from the tip"),
        ("17.9", "Mark IV, its edge nearer the shank, no stop"),
    ] {
        let at = order
            .find(wanted)
            .unwrap_or_else(|| panic!("{wanted}: {order}"));
        // It stands under the row of its figure: no other figure is between.
        let before = &order[..at];
        let row = &before[before.rfind("drill ").unwrap()..];
        assert!(row.contains(figure), "{row}");
    }
}

/// The first page says what the surgeon took on, with figure, reason and name.
#[test]
fn the_first_part_lists_what_is_accepted_and_intended() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let title = format!("Implant checklist, {}", formatter.jaw());
        let flat = under_title(&pages(&case, Paper::A4), &title).join(" ");
        let mut seen = 0;
        for finding in &worksheet.findings {
            if matches!(finding.severity(), Severity::Accepted | Severity::Intended) {
                let said = formatter.finding(finding);
                let line = crate::wording::begin(&formatter.line(&said));
                assert!(flat.contains(&line), "{name}: {line}");
                let judged = said.decision.unwrap();
                assert!(flat.contains(&judged), "{name}: {judged}");
                seen += 1;
            }
        }
        assert!(name != &"full-arch-upper" || seen > 1);
    }
}

/// With very much open the first page names the worst and says how much more there is; what
/// concerns the whole case is never left out.
#[test]
fn what_is_open_of_the_whole_case_is_never_left_out() {
    let case = changed("full-arch-upper", forget);
    let worksheet = work_out(&case);
    let formatter = Formatter::english(&case, Notation::Iso);
    let title = format!("Implant checklist, {}", formatter.jaw());
    let flat = under_title(&pages(&case, Paper::A4), &title).join(" ");
    let open = worksheet
        .findings
        .iter()
        .filter(|one| one.severity().is_open());
    // What hangs on one cause is one line, and none of it left out.
    let told = by_cause(open.collect(), |finding| finding).into_iter();
    let told = told.map(|told| match told {
        FindingLine::One(finding) => vec![finding],
        FindingLine::Cause(_, findings) => findings,
    });
    let (of_case, of_sites): (Vec<_>, Vec<_>) =
        told.partition(|all| all.iter().any(|one| one.site.is_none()));
    assert!(!of_case.is_empty() && of_sites.len() > 8);
    assert!(of_sites[..8].iter().any(|all| all.len() > 1));
    for finding in of_case.into_iter().chain(of_sites[..8].to_vec()).flatten() {
        let line = crate::wording::begin(&formatter.line(&formatter.finding(finding)));
        assert!(flat.contains(&line), "{line}");
    }
    let left = of_sites[8..].iter().flatten().count();
    let more = format!("Not listed here: {left} more of the sites");
    assert!(flat.contains(&more), "no {more:?}");
}

/// Guide with its code, gauge with its check piece, head and next shorter implants are taken too,
/// and what comes closed is counted closed.
#[test]
fn what_has_no_slot_is_taken_and_what_is_sealed_is_counted() {
    let case = changed("one-premolar", |_| {});
    let all = pages(&case, Paper::A4);
    let flat = read(&all);
    for wanted in [
        "Guide, code Q7-MOSS",
        "Bench gauge, reads the landing face, with its check piece of 21.7 mm",
        "Angled handpiece head",
        "Next shorter implant Reed 3.63 × 7.4, 8.7 mm measured, unopened: lower left second premolar (35)",
        "Torque wrench",
    ] {
        assert!(flat.contains(wanted), "no {wanted:?}: {flat}");
    }
    let none = changed("one-premolar", |case| {
        for implant in case["kit"]["implants"].as_array_mut().unwrap() {
            if implant["id"] == "reed-363-74" {
                implant["quantity"] = json!(0);
            }
        }
    });
    let flat = read(&pages(&none, Paper::A4));
    assert!(
        flat.contains("Next shorter implant Reed 3.63 × 7.4, 8.7 mm measured, none in the kit")
    );
    let counted = under_title(&all, "Counts").join(" ");
    for (what, count) in [
        ("drills, opened", "2"),
        ("drills, sealed", "1"),
        ("implants as planned, sealed", "1"),
        ("next shorter implants, sealed", "1"),
    ] {
        let line = format!("{what} {count} ");
        assert!(counted.contains(&line), "no {line:?}: {counted}");
    }
}

/// One punch for all sites, the plugs out once, the pins set again before anything is drilled. The
/// three pins of the demonstration are in three slots.
#[test]
fn the_guide_is_seated_again_once_before_the_first_drill() {
    let case = changed("full-arch-upper", |_| {});
    let pages = pages(&case, Paper::A4);
    let flat = under_title(&pages, "Order of use").join(" ");
    let at = |words: &str| {
        let found = flat.find(words);
        found.unwrap_or_else(|| panic!("no {words:?}: {flat}"))
    };
    assert_eq!(flat.matches("Punch the tissue").count(), 1);
    assert_eq!(flat.matches("tissue plug").count(), 1);
    let first_drill = at("Pilot drill 2.13 Crane");
    assert!(at("pin “front”") < at("Punch the tissue"));
    assert!(at("Punch the tissue") < at("tissue plug") && at("tissue plug") < first_drill);
    assert!(at("replace its pins: front, ") < first_drill);
    for slot in ["Lark 1", "Lark 2", "Lark 3"] {
        assert!(
            flat.contains(&format!("Fixation pin 1.62 · {slot}")),
            "{slot}"
        );
    }
}

/// How a pin's drill is run stands in its row, as in that of a step: the greatest speed, and the irrigation where that is not
/// the same for every drill, those of pins among them.
#[test]
fn the_row_of_a_pin_says_how_its_drill_is_run() {
    let order = |change: fn(&mut Value)| {
        let case = changed("full-arch-upper", |case| {
            let drills = case["kit"]["drills"].as_array_mut().unwrap();
            let pins = drills.iter_mut().find(|drill| drill["id"] == "pin-157");
            change(pins.unwrap());
        });
        under_title(&pages(&case, Paper::A4), "Order of use")
    };
    let count = |order: &[String], words: &str| {
        let flat = order.join(" ");
        flat.matches(words).count()
    };
    let own_speed = order(|drill| drill["greatest_speed_rpm"] = json!(777));
    assert_eq!(count(&own_speed, "777 rpm"), 3);
    assert_eq!(count(&own_speed, "Irrigation for every drill:"), 1);
    let own_irrigation = order(|drill| drill["irrigation"] = json!("syringe"));
    assert_eq!(count(&own_irrigation, "syringe"), 3);
    assert_eq!(count(&own_irrigation, "Irrigation for every drill:"), 0);
    assert_eq!(
        count(
            &own_irrigation,
            "Irrigation where a row says no other: steady"
        ),
        1
    );
    let unsaid = order(|drill| {
        let drill = drill.as_object_mut().unwrap();
        drill.remove("greatest_speed_rpm");
        drill.remove("irrigation");
    });
    assert_eq!(count(&unsaid, "speed: not in kit"), 3);
    assert_eq!(count(&unsaid, "Irrigation: not in the kit"), 3);
}

/// A box beside a setting is for one reading; the second one's stands on the leaf without settings.
#[test]
fn beside_a_steps_setting_stands_one_box_for_a_reading() {
    for name in ["two-molars", "full-arch-upper"] {
        let pages = pages(&changed(name, |_| {}), Paper::A4);
        let has = |page: &Page, word: &str| lines(page).contains(&word);
        let is_order = |page: &Page| page.title == "Order of use";
        let of_steps =
            |page: &&Page| !is_order(page) && has(page, "guided by") && has(page, "bench");
        let mut found = 0;
        for page in pages.iter().filter(of_steps) {
            let lines = lines(page);
            let heads = lines.iter().filter(|line| **line == "read").count();
            let tables = lines.iter().filter(|line| **line == "guided by").count();
            assert_eq!(heads, tables, "{lines:?}");
            found += tables;
        }
        assert!(found > 1, "{name}");
    }
}

/// Where carriers stay in, each site has its own: its insertion names the slot of that one, as the tray's page does.
#[test]
fn an_insertion_takes_its_own_carrier() {
    let case = changed("full-arch-upper", |_| {});
    let worksheet = work_out(&case);
    let carriers = worksheet.loading.iter();
    let carriers = carriers.filter(|item| item.kind == crate::kit::SlotKind::Carrier);
    let slots: Vec<String> = carriers
        .map(|item| item.slot.as_ref().unwrap().to_string())
        .collect();
    assert!(slots.len() > 1, "{slots:?}");
    let order = under_title(&pages(&case, Paper::A4), "Order of use").join(" ");
    for slot in slots {
        assert!(order.contains(&format!("· {slot}")), "{slot}: {order}");
    }
}
