//! Desks that work on one case at once, each a process of its own: each saves its own site, reads a drill of its own,
//! approves and withdraws, in turn with the others as it comes. Then nothing is lost, nothing is there twice, all have the
//! same in the end, and no approval holds that was not given in the knowledge of every withdrawal.

use super::Done;
use super::child::{case_file, case_in, opened, prepare, save_number};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::{BufRead as _, BufReader, Write as _};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;
use traywright::desk::Document;
use traywright_core::case::ValidCase;
use traywright_core::document::print;
use traywright_core::plan::{case_jaw, plan_view, work_out};
use traywright_core::sign::{
    Approval, ApprovalLapse, Event, EventKind, HandStep, Merged, PlanView, Reading, Stage,
    Standing, Turn, WriterId,
};
use traywright_core::store::read_events;

/// The most saves of which a case keeps who made them.
const SAVES_KEPT: usize = 500;

/// What a desk records as its event of this number, of the plan that all begin with.
fn nth(view: &PlanView, site: usize, number: usize) -> EventKind {
    let item = &view.items[site];
    match number % 4 {
        1 => EventKind::Reading(Reading {
            item: item.key.clone(),
            gauge: item.gauge.clone(),
            value_mm: item.gauge_figure_mm.unwrap_or(item.key.setting_mm),
            stage: Stage::Bench,
            turn: Turn::First,
            purpose: view.purpose,
            entered_by: None,
        }),
        2 => EventKind::Approval(Approval {
            fingerprint: view.fingerprint,
            covers: view.covers,
            revision: 1,
            accepted: view.accepted.clone(),
            purpose: view.purpose,
        }),
        3 => EventKind::Handled {
            item: item.key.clone(),
            step: HandStep::Set,
            purpose: view.purpose,
        },
        _ => EventKind::ApprovalWithdrawn {
            fingerprint: view.fingerprint,
            reason: number.to_string(),
        },
    }
}

fn plan_of(case: &ValidCase) -> Done<PlanView> {
    let none = Merged::of(case_jaw(case), []).map_err(|fault| format!("{fault:?}"))?;
    Ok(plan_view(case, &work_out(case), &none))
}

fn name(site: usize) -> String {
    format!("desk-{site}")
}

/// The number of the last save of each desk, by the case.
fn numbers(case: &ValidCase) -> Vec<usize> {
    let number = |note: Option<&str>| note.and_then(|note| note.parse().ok()).unwrap_or(0);
    let sites = case.sites.iter();
    sites.map(|site| number(site.note.as_deref())).collect()
}

/// One of them: so many saves and as many events, by a clock that is so many hours ahead. Then it waits until all are
/// done, and tells what it has.
pub(super) fn desk(site: usize, folder: &Path, times: usize, hours: i64) -> Done<()> {
    let mut document = opened(folder)?;
    let view = plan_of(document.case())?;
    let name = name(site);
    let mut seen = numbers(document.case());
    for number in 1..=times {
        let told = |what: &str, error: &dyn std::fmt::Display| format!("{what} {number}: {error}");
        save_number(&mut document, site, number, &name).map_err(|error| told("save", &error))?;
        let now = numbers(document.case());
        if now.iter().zip(&seen).any(|(now, before)| now < before) || now[site] != number {
            return Err(format!("save {number}: {seen:?} became {now:?}").into());
        }
        seen = now;
        let at = jiff::Timestamp::now() + jiff::SignedDuration::from_hours(hours);
        document
            .sign(at, &name, "Ida Hale", nth(&view, site, number))
            .map_err(|error| told("event", &error))?;
    }
    println!("done");
    std::io::stdout().flush()?;
    std::io::stdin().lock().read_line(&mut String::new())?;
    document.read_anew();
    std::fs::write(folder.join(format!("{name}.end")), end(&document)?)?;
    Ok(())
}

/// All that a desk has in the end: the case, the events in order and what of them counts.
fn end(document: &Document) -> Done<String> {
    let mut text = print(&**document.case())?;
    let record = &document.record;
    for event in record.events.in_order() {
        writeln!(text, "{}", event.line())?;
    }
    write!(text, "{:#?}\n{:?}", record.standing, record.problems)?;
    Ok(text)
}

/// So many desks at once, each by a clock that is so many hours ahead, with as many writes together as asked for.
pub(super) fn at_once(hours: &[i64], writes: usize) -> Done<()> {
    let each = writes.div_ceil(2 * hours.len());
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let folder = folder.path();
    prepare(folder)?;
    let begun = Instant::now();
    let mut at_work = Vec::new();
    for (site, hours) in hours.iter().enumerate() {
        let process = Command::new(std::env::current_exe()?)
            .args(["desk", &site.to_string()])
            .arg(folder)
            .args([each.to_string(), hours.to_string()])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()?;
        at_work.push((site, process));
    }
    // Each has written before any looks at the end.
    for (_, process) in &mut at_work {
        let output = process.stdout.as_mut().ok_or("no output")?;
        BufReader::new(output).read_line(&mut String::new())?;
    }
    // All are waited for before any is judged, so that what each says is told.
    let mut stopped = Vec::new();
    for (site, mut process) in at_work {
        drop(process.stdin.take());
        let ended = process.wait_with_output()?;
        if !ended.status.success() {
            let said = String::from_utf8_lossy(&ended.stderr).into_owned();
            stopped.push(format!("desk {site} stopped, {}: {said}", ended.status));
        }
    }
    if !stopped.is_empty() {
        return Err(stopped.join("\n").into());
    }
    let took = begun.elapsed().as_secs();
    let case = all_is_there(folder, hours.len(), each)?;
    let mut document = opened(folder)?;
    document.read_anew();
    let here = end(&document)?;
    for site in 0..hours.len() {
        let there = std::fs::read_to_string(folder.join(format!("{}.end", name(site))))?;
        assert!(there == here, "desk {site} has another end");
    }
    let standing = &document.record.standing;
    let (held, withdrawn) = withdrawals_hold(&document.record.events, standing);
    println!(
        "{} desks, clocks at {hours:?} h: {} saves and as many events in {took} s, revision {}; none lost, none twice, equal \
         ends; {held} approvals stand by the order in which desks knew of each other, {withdrawn} are withdrawn, none else",
        hours.len(),
        hours.len() * each,
        case.revision
    );
    Ok(())
}

/// Gives the case, once all that was saved and recorded is in it and beside it.
fn all_is_there(folder: &Path, desks: usize, each: usize) -> Done<ValidCase> {
    let (case, _) = case_in(folder)?;
    for site in 0..desks {
        assert_eq!(numbers(&case)[site], each, "a save is lost");
        let saves = case
            .saves
            .iter()
            .filter(|save| save.desk.as_str() == name(site));
        assert!(
            saves.count() == each || desks * each > SAVES_KEPT,
            "a save of desk {site} is lost or there twice"
        );
    }
    let view = plan_of(&case)?;
    let beside = read_events(&case_file(folder), &case_jaw(&case))?;
    assert_eq!(beside.problems, [], "a break");
    let mut counted = vec![0; desks];
    for event in beside.events.in_order() {
        let site: usize = event.writer.as_str().trim_start_matches("desk-").parse()?;
        counted[site] += 1;
        let expected = nth(&view, site, counted[site]);
        assert!(event.kind == expected, "one is lost or there twice");
    }
    assert_eq!(counted, vec![each; desks]);
    Ok(case)
}

/// Holds which approvals are withdrawn against the order in which desks knew of each other, worked out here from the heads
/// that each event names. Gives the numbers of those that are not withdrawn and of those that are.
fn withdrawals_hold(events: &Merged, standing: &Standing) -> (usize, usize) {
    // Of each event what its writer knew of each desk, itself included.
    let mut known: BTreeMap<(WriterId, u64), BTreeMap<WriterId, u64>> = BTreeMap::new();
    let mut withdrawals: Vec<&Event> = Vec::new();
    let ordered = events.in_order();
    for event in &ordered {
        let own = (event.seq > 1).then(|| (event.writer.clone(), event.seq - 1));
        let others = event
            .seen
            .iter()
            .map(|(writer, head)| (writer.clone(), head.seq));
        let mut knows: BTreeMap<WriterId, u64> = BTreeMap::new();
        for before in own.into_iter().chain(others) {
            for (writer, seq) in &known[&before] {
                let most = knows.entry(writer.clone()).or_default();
                *most = *seq.max(most);
            }
        }
        knows.insert(event.writer.clone(), event.seq);
        known.insert((event.writer.clone(), event.seq), knows);
        if matches!(event.kind, EventKind::ApprovalWithdrawn { .. }) {
            withdrawals.push(event);
        }
    }
    let (mut held, mut withdrawn) = (0, 0);
    for approval in &standing.approvals {
        let knows = &known[&(approval.id.writer.clone(), approval.id.seq)];
        let knew = |event: &&Event| {
            knows
                .get(&event.writer)
                .is_some_and(|seq| *seq >= event.seq)
        };
        let expected = !withdrawals.iter().all(knew);
        let is_withdrawn = |lapse: &ApprovalLapse| matches!(lapse, ApprovalLapse::Withdrawn { .. });
        let is = approval.lapses.iter().any(is_withdrawn);
        assert_eq!(is, expected, "{:?}", approval.id);
        *(if is { &mut withdrawn } else { &mut held }) += 1;
    }
    (held, withdrawn)
}
