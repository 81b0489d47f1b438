//! The reasons why something could not be done, in words.

use super::policy;
use std::fmt::Write as _;
use std::path::Path;
use traywright_core::case::EditRefused;
use traywright_core::document::Faults;
use traywright_core::sign::{Merged, Problem, clocks_ahead};
use traywright_core::store::{EventsError, PackFault, RecordAside, StoreError, shown};
use traywright_core::text::Texts;
use traywright_core::wording::{Formatter, faults as said_faults, message};

/// The reason why something could not be done, as a text for people.
#[derive(Debug)]
pub(crate) struct Refusal(pub(crate) String);

/// The answer of a command that changes nothing could not be written.
impl From<std::io::Error> for Refusal {
    fn from(error: std::io::Error) -> Self {
        let reason = error.to_string();
        Self(Texts::english().get("cli-no-output", &[("reason", &reason)]))
    }
}

/// Problems of one event file that are reported one by one; the rest are counted.
const MOST_TOLD: usize = 12;

/// Faults of the event files, with their places and remedies: the remedy once for all lines that it
/// mends, at the first of them.
pub(crate) fn said_problems(texts: &Texts, problems: &[Problem]) -> Vec<String> {
    let mut told = Vec::new();
    for of_file in problems.chunk_by(|a, b| a.file == b.file) {
        let mut remedies = Vec::new();
        for problem in of_file.iter().take(MOST_TOLD) {
            let mut line = message(&problem.message(), texts) + ".";
            let remedy = message(&problem.remedy(), texts);
            if !remedies.contains(&remedy) {
                line = format!("{line} {remedy}");
                remedies.push(remedy);
            }
            told.push(line);
        }
        let more = of_file.len().saturating_sub(MOST_TOLD);
        if let Some(first) = of_file.first().filter(|_| more > 0) {
            let (count, file) = (&[("count", more)], &[("file", first.file.as_str())]);
            told.push(texts.counted("cli-more-lines", count, file) + ".");
        }
    }
    told
}

/// The desks whose clocks are ahead, as sentences.
pub(crate) fn said_ahead(events: &Merged, now: jiff::Timestamp) -> Vec<String> {
    let ahead = clocks_ahead(events, now, &policy()).into_iter();
    let texts = Texts::english();
    ahead.map(|one| message(&one.message(), texts)).collect()
}

pub(crate) fn refused_by_disk(error: &StoreError) -> Refusal {
    let texts = Texts::english();
    Refusal(error.sentence(|id, args| texts.get(id, args)))
}

/// A pack that was not written or could not be taken out of its file.
pub(crate) fn refused_pack(fault: &PackFault, file: &Path) -> Refusal {
    let texts = Texts::english();
    match (fault, fault.text()) {
        (PackFault::Store(error), _) => refused_by_disk(error),
        (_, Some((id, what))) => {
            let file = shown(file);
            Refusal(texts.get(id, &[("file", &file), ("what", &what)]))
        }
        (_, None) => Refusal(fault.to_string()),
    }
}

/// What was put aside of a record, in words; nothing where it had no break.
pub(crate) fn said_aside(aside: &RecordAside) -> Option<String> {
    let texts = Texts::english();
    let torn = aside.torn.iter();
    let mut told: Vec<String> = torn.map(|one| message(&one.message(), texts)).collect();
    if !aside.files.is_empty() {
        let files = aside.files.join(", ");
        told.push(texts.get("cli-put-aside", &[("files", &files)]));
    }
    (!told.is_empty()).then(|| told.join("\n"))
}

pub(crate) fn refused_events(error: &EventsError) -> Refusal {
    let texts = Texts::english();
    Refusal(match error {
        EventsError::Store(error) => return refused_by_disk(error),
        EventsError::Damaged { problems, .. } => said_problems(texts, problems).join("\n"),
        EventsError::OfAnotherCase(problem) => {
            said_problems(texts, std::slice::from_ref(problem)).join("\n")
        }
        EventsError::Append(fault) => message(&fault.message(), texts),
    })
}

/// All faults of a document, a line each, and how far it was looked at.
pub(crate) fn refused_document(file: &Path, faults: &Faults) -> Refusal {
    let lines = said_faults(faults, Texts::english());
    let mut text = shown(file);
    for line in lines {
        let _ = write!(text, "\n{line}");
    }
    Refusal(text)
}

/// The reason why an edit was not carried out, in words. The case stays as it was.
pub(crate) fn refused_edit(formatter: &Formatter<'_>, refused: &EditRefused) -> String {
    let texts = formatter.texts;
    match refused {
        EditRefused::NoSuchSite(site) => texts.get("edit-no-such-site", &[("site", site.as_str())]),
        EditRefused::WasCut(site) => texts.get("edit-was-cut", &[("site", &formatter.site(site))]),
        EditRefused::GuideIsMade { site, part } => {
            let site = formatter.site(site);
            texts.get("edit-guide-is-made", &[("site", &site), ("part", part)])
        }
        EditRefused::Invalid(found) => {
            let heading = texts.get("edit-unsound", &[]);
            let lines = said_faults(found, texts).into_iter();
            std::iter::once(heading)
                .chain(lines)
                .collect::<Vec<_>>()
                .join("\n")
        }
    }
}
