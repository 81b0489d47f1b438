//! Several logs in one JSON document and back.

use super::event::{Event, json};
use super::log::{CaseJaw, Header, Log};
use super::problem::Problem;
use super::read::read_log;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// One log within a document.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Part {
    header: Header,
    events: Vec<Event>,
}

/// A reason why a document gives no logs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JoinFault {
    /// It is no list of logs: an unknown, missing or repeated key, a value of a wrong type.
    NotLogs {
        /// The form that the reader expected, with the key's name.
        detail: String,
    },
    /// Logs of another case or jaw, or with an edited or missing event.
    Problems(Vec<Problem>),
}

/// The logs as one JSON document: a list of headers with their events.
#[must_use]
pub fn join(logs: &[Log]) -> Value {
    let part = |log: &Log| Part {
        header: log.header().clone(),
        events: log.events().to_vec(),
    };
    json(&logs.iter().map(part).collect::<Vec<_>>())
}

/// The logs of such a document, held to all that [`read_log`] asks of a file.
///
/// # Errors
///
/// Anything but sound logs of this case and jaw. A document is whole or refused: it was not
/// written line by line, so no power cut explains a damaged one.
pub fn split(document: &Value, expected: &CaseJaw) -> Result<Vec<Log>, JoinFault> {
    let parts = Vec::<Part>::deserialize(document).map_err(|e| JoinFault::NotLogs {
        detail: e.to_string(),
    })?;
    let mut logs = Vec::new();
    let mut problems = Vec::new();
    for part in parts {
        let file = part.header.writer.to_string();
        let mut log = Log::of_header(part.header);
        part.events.into_iter().for_each(|event| log.take(event));
        let reading = read_log(&file, log.text().as_bytes(), expected);
        problems.extend(reading.problems);
        logs.extend(reading.log);
    }
    // A clock that went back is told when the log is read from its file; it loses nothing here.
    problems.retain(|problem| problem.effect() == super::problem::Effect::Stops);
    if problems.is_empty() {
        Ok(logs)
    } else {
        Err(JoinFault::Problems(problems))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sign::samples::*;
    use serde_json::json;

    #[test]
    fn a_damaged_document_is_refused() {
        let logs = [log_of("desk", every_kind()), log_of("room", every_kind())];
        let sound = join(&logs);
        assert_eq!(split(&sound, &case_jaw()), Ok(logs.to_vec()));
        assert_eq!(split(&json!([]), &case_jaw()), Ok(vec![]));

        let with = |path: &str, value: Value| {
            let mut document = sound.clone();
            *document.pointer_mut(path).unwrap() = value;
            split(&document, &case_jaw())
        };
        for (path, value, id) in [
            ("/0/header/jaw", json!("upper"), "sign-file-other-jaw"),
            ("/0/header/case", json!("x"), "sign-file-other-case"),
            (
                "/1/header/traywright_events",
                json!(2),
                "sign-file-newer-version",
            ),
            ("/1/events/1/what/value_mm", json!(24.2), "sign-file-edited"),
            ("/1/events", json!([]), ""),
            (
                "/0/events/0",
                sound[1]["events"][0].clone(),
                "sign-file-other-writer",
            ),
        ] {
            match with(path, value) {
                Err(JoinFault::Problems(problems)) => {
                    assert_eq!(problems[0].message().id, id, "{path}");
                }
                other => assert!(other.is_ok() && id.is_empty(), "{path}: {other:?}"),
            }
        }
        for (path, value) in [
            ("/0", json!({})),
            ("/0/header/x", json!(1)),
            ("/0/events/3/what/kind", json!("x")),
            ("", json!("text")),
        ] {
            let mut document = sound.clone();
            match document.pointer_mut(path) {
                Some(place) => *place = value,
                None => document[0]["header"]["x"] = value,
            }
            let refused = split(&document, &case_jaw());
            assert!(matches!(refused, Err(JoinFault::NotLogs { .. })), "{path}");
        }
    }
}
