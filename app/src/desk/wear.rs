//! The wear of drills: counted beside the window as a day is closed; why it was not counted, in words.

use super::job::{Job, Wake};
use super::ledger::LedgerWork;
use super::refusal::{Refusal, refused_by_disk, refused_events};
use super::{Desk, Document};
use std::path::PathBuf;
use std::task::Poll;
use traywright_core::kit::Kit;
use traywright_core::sign::CaseJaw;
use traywright_core::store::{CaseCounted, Uncounted, UncountedCase, WearFault, count_case, shown};
use traywright_core::text::Texts;

/// The count of the open case's wear, where its kit has a ledger.
#[derive(Debug, Default)]
pub struct WearWork {
    /// What is to be counted: a kit, its file and the case's.
    due: Option<(PathBuf, Box<Kit>, PathBuf)>,
    /// The count that goes on: it answers with why nothing was counted.
    job: Option<Job<Option<String>, ()>>,
    /// What was counted so far, of the kit at hand.
    pub ledger: LedgerWork,
    /// What was told last: it is not told again at each step of a day.
    told: Option<String>,
    /// The case of which that was told.
    of: PathBuf,
}

impl WearWork {
    /// Begins what is due and takes what has ended. Gives why nothing was counted, as a sentence.
    pub fn poll(&mut self, wake: &Wake) -> Option<String> {
        let ended = self.job.as_mut().map(Job::ended);
        let new = match ended {
            Some(Poll::Pending) => return None,
            Some(Poll::Ready(told)) => {
                self.ledger.look_again();
                let told = told.flatten();
                let is_new = told != self.told;
                self.told.clone_from(&told);
                told.filter(|_| is_new)
            }
            None => None,
        };
        self.job = None;
        if let Some((kit_file, kit, case)) = self.due.take() {
            if self.of != case {
                self.told = None;
                self.of.clone_from(&case);
            }
            self.job = Job::begin("count wear", wake.clone(), move |_| {
                match count_case(&kit_file, &kit, &case) {
                    Ok(CaseCounted::Behind) => Some(Texts::english().get("wear-behind", &[])),
                    Ok(CaseCounted::Apart) => Some(Texts::english().get("wear-apart", &[])),
                    Ok(CaseCounted::OfAnother) => {
                        Some(Texts::english().get("wear-of-another", &[]))
                    }
                    // Nobody counts with this kit.
                    Ok(_) | Err(WearFault::NotThere(_)) => None,
                    Err(fault) => Some(refused_wear(&fault, &kit).0),
                }
            });
        }
        new
    }

    /// True while something is counted, or is to be.
    #[must_use]
    pub const fn goes_on(&self) -> bool {
        self.job.is_some() || self.due.is_some() || self.ledger.goes_on()
    }
}

impl Desk {
    /// Has the wear of the open case counted, where a day of it was begun and the kit at hand is a file and the case's own. A
    /// case that was counted already stays as it is counted.
    pub(crate) fn count_wear(&mut self) {
        let (Some(kit), Some(kit_file)) = (&self.live_kit, &self.settings.kit) else {
            return;
        };
        let Some(document) = &self.document else {
            return;
        };
        let is_its_kit = document.case().kit.id == kit.id;
        if let Some(case) = document.file().filter(|_| is_its_kit && has_day(document)) {
            let kit = Box::new(kit.clone());
            self.wear.due = Some((kit_file.clone(), kit, case.to_owned()));
        }
    }
}

/// True if something of a day is recorded, whatever became of it: what was used is told before the day is closed as well.
fn has_day(document: &Document) -> bool {
    let standing = &document.record.standing;
    !standing.signatures.is_empty() || !standing.day.is_empty()
}

/// Why the wear of a kit's drills could not be read or counted.
pub(crate) fn refused_wear(fault: &WearFault, kit: &Kit) -> Refusal {
    let texts = Texts::english();
    Refusal(match fault {
        WearFault::Store(error) => return refused_by_disk(error),
        WearFault::NotThere(file) => texts.get("wear-not-there", &[("file", &shown(file))]),
        WearFault::Damaged(file) => texts.get("wear-damaged", &[("file", &shown(file))]),
        WearFault::Newer(file) => texts.get("wear-newer", &[("file", &shown(file))]),
        WearFault::OtherKit { file, found } => {
            let args = [
                ("file", &*shown(file)),
                ("found", found),
                ("kit", kit.id.as_str()),
            ];
            texts.get("wear-other-kit", &args)
        }
        WearFault::Refused { file, reason } => {
            let args = [("file", &*shown(file)), ("reason", reason)];
            texts.get("wear-refused", &args)
        }
        WearFault::Cases(cases) => {
            let top = texts.get("wear-uncounted", &[]);
            let lines = cases.iter().map(said_uncounted);
            std::iter::once(top)
                .chain(lines)
                .collect::<Vec<_>>()
                .join("\n")
        }
        WearFault::Gone(cases) => texts.get("wear-gone", &[("list", &listed_cases(cases))]),
    })
}

fn said_uncounted(case: &UncountedCase) -> String {
    let texts = Texts::english();
    let file = shown(&case.file);
    match &case.why {
        Uncounted::Unread(error) => refused_by_disk(error).0,
        Uncounted::Newer => texts.get("wear-case-newer", &[("file", &file)]),
        Uncounted::Damaged => texts.get("wear-case-damaged", &[("file", &file)]),
        Uncounted::Events(error) => refused_events(error).0,
        Uncounted::Broken => texts.get("wear-case-broken", &[("file", &file)]),
        Uncounted::Apart(other) => {
            let args = [("file", &*file), ("other", &*shown(other))];
            texts.get("wear-case-apart", &args)
        }
    }
}

/// Cases by their references.
pub(crate) fn listed_cases(cases: &[CaseJaw]) -> String {
    let cases: Vec<&str> = cases.iter().map(|case| case.case.as_str()).collect();
    cases.join(", ")
}

#[cfg(test)]
mod tests {
    use super::super::{Settings, read_case_file, read_kit_file};
    use super::*;
    use std::path::Path;
    use std::sync::Arc;
    use traywright_core::sign::{
        Approved, Counted, DrillKey, DrillUse, EventKind, Led, Purpose, SiteKey, StepDone, StepKey,
        SurgeryBegun, Who,
    };
    use traywright_core::store::{read_wear, rebuild_wear, wear_file};

    fn desk_in(folder: &Path) -> (Desk, PathBuf) {
        let demo = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo"));
        let (kit, case) = (folder.join("kit.json"), folder.join("case.json"));
        std::fs::copy(demo.join("kit.json"), &kit).unwrap();
        std::fs::copy(demo.join("one-premolar.json"), &case).unwrap();
        let mut settings = Settings::new("desk-1".to_owned());
        settings.kit = Some(kit.clone());
        let mut desk = Desk::new(settings);
        desk.live_kit = Some(read_kit_file(&kit).unwrap());
        let read = read_case_file(&case).unwrap();
        desk.document = Some(Document::opened(read, case));
        (desk, kit)
    }

    fn sign(desk: &mut Desk, kind: EventKind) {
        let at = "2030-03-04T05:06:07Z".parse().unwrap();
        let document = desk.document.as_mut().unwrap();
        document.sign(at, "desk-1", "MK", kind).unwrap();
        desk.count_wear();
    }

    /// Waits for what is counted; why nothing was.
    fn counted(desk: &mut Desk) -> Vec<String> {
        let mut told = Vec::new();
        while desk.wear.goes_on() {
            told.extend(desk.wear.poll(&(Arc::new(|| {}) as Wake)));
            std::thread::yield_now();
        }
        told
    }

    /// One drill is used at one site.
    fn day(desk: &Desk) -> [EventKind; 3] {
        let purpose = Purpose::Practice;
        let drill = "tip-257".to_owned();
        let fingerprint = desk.document.as_ref().unwrap().worksheet().fingerprint;
        let copy = std::num::NonZeroU32::MIN;
        [
            EventKind::SurgeryBegun(SurgeryBegun {
                fingerprint,
                approval: Approved::Open,
                lies_wrong: Vec::new(),
                despite: None,
                wrong_as: Vec::new(),
                anew: false,
                purpose,
            }),
            EventKind::StepDone(StepDone {
                step: StepKey::Drill {
                    site: SiteKey {
                        site: "a".to_owned(),
                        tooth: "36".parse().unwrap(),
                    },
                    id: "full".to_owned(),
                    with: DrillUse {
                        drill: drill.clone(),
                        stop: None,
                        set_mm: None,
                    },
                    sleeve: None,
                    led: Led::Guide,
                },
                piece: Some(DrillKey { drill, copy }),
                due: None,
                despite: None,
                by_hand: None,
                purpose,
            }),
            EventKind::Counted(Counted {
                step: StepKey::CountOut { list: None },
                second: Who::new("RB").unwrap(),
                lines: Vec::new(),
                due: None,
                despite: None,
                purpose,
            }),
        ]
    }

    #[test]
    fn a_day_is_counted_as_it_is_closed() {
        let folder = tempfile::tempdir().unwrap();
        let (mut desk, kit_file) = desk_in(folder.path());
        let kit = desk.live_kit.clone().unwrap();
        rebuild_wear(&kit_file, &kit, &[folder.path().to_owned()], false).unwrap();
        let [begun, drilled, count] = day(&desk);
        for kind in [begun, drilled] {
            sign(&mut desk, kind);
            assert_eq!(counted(&mut desk), Vec::<String>::new());
        }
        let open = read_wear(&kit_file, &kit).unwrap();
        assert_eq!((open.closings, open.open.len()), (0, 1), "its day is open");
        sign(&mut desk, count);
        assert_eq!(counted(&mut desk), Vec::<String>::new());
        let closed = read_wear(&kit_file, &kit).unwrap();
        assert_eq!((closed.closings, closed.open.len()), (1, 0));
        // Opened again it is counted again, and counts once.
        desk.count_wear();
        counted(&mut desk);
        assert_eq!(read_wear(&kit_file, &kit).unwrap().closings, 1);
    }

    #[test]
    fn a_copy_that_lags_behind_is_told_once() {
        let folder = tempfile::tempdir().unwrap();
        let (mut desk, kit_file) = desk_in(folder.path());
        let kit = desk.live_kit.clone().unwrap();
        let days = day(&desk);
        for kind in days.clone() {
            sign(&mut desk, kind);
        }
        rebuild_wear(&kit_file, &kit, &[folder.path().to_owned()], false).unwrap();
        let signed = folder
            .path()
            .join("case.signed")
            .join("desk-1.events.jsonl");
        let text = std::fs::read_to_string(&signed).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        std::fs::write(&signed, lines[..lines.len() - 1].join("\n") + "\n").unwrap();
        desk.count_wear();
        let told = counted(&mut desk);
        assert!(
            told.len() == 1 && told[0].contains("lags behind"),
            "{told:?}"
        );
        desk.count_wear();
        assert_eq!(counted(&mut desk), Vec::<String>::new());
        assert_eq!(read_wear(&kit_file, &kit).unwrap().closings, 1);
    }

    #[test]
    fn where_nobody_counts_nothing_is_told_and_what_cannot_be_counted_is() {
        let folder = tempfile::tempdir().unwrap();
        let (mut desk, kit_file) = desk_in(folder.path());
        for kind in day(&desk) {
            sign(&mut desk, kind);
        }
        assert_eq!(counted(&mut desk), Vec::<String>::new());
        assert!(!wear_file(&kit_file).exists());
        std::fs::write(wear_file(&kit_file), "no ledger").unwrap();
        desk.count_wear();
        let told = counted(&mut desk);
        assert!(
            told.len() == 1 && told[0].contains("is damaged, or no ledger"),
            "{told:?}"
        );
        // The kit of another case.
        desk.live_kit.as_mut().unwrap().id = "other".into();
        desk.count_wear();
        assert!(!desk.wear.goes_on());
    }
}
