//! Every id of this room has a text, and every text gets its arguments.

#[cfg(test)]
mod tests {
    use crate::dentition::Jaw;
    use crate::sign::samples::*;
    use crate::sign::*;
    use crate::text::Texts;
    use std::collections::BTreeSet;

    const TEXT: &str = include_str!("../../../assets/text/en/signing.ftl");

    fn problems() -> Vec<ProblemKind> {
        let detail = || "d".to_owned();
        vec![
            ProblemKind::Empty,
            ProblemKind::FileTooLarge { limit: 1 },
            ProblemKind::OtherEncoding { name: "UTF-16" },
            ProblemKind::ByteOrderMark,
            ProblemKind::CarriageReturns,
            ProblemKind::NotAnEventFile { detail: detail() },
            ProblemKind::NewerVersion { found: 2, known: 1 },
            ProblemKind::OtherCase {
                found: detail(),
                expected: detail(),
            },
            ProblemKind::OtherJaw {
                found: Jaw::Upper,
                expected: Jaw::Lower,
            },
            ProblemKind::BlankLine,
            ProblemKind::LineTooLong { found: 2, limit: 1 },
            ProblemKind::NotUtf8 { column: 1 },
            ProblemKind::NotJson {
                column: 1,
                detail: detail(),
            },
            ProblemKind::NotAnEvent { detail: detail() },
            ProblemKind::UnknownKind { name: detail() },
            ProblemKind::Impossible(KindFault::Empty { key: "slot" }),
            ProblemKind::Edited,
            ProblemKind::NotAsWritten,
            ProblemKind::OtherWriter {
                found: writer("a"),
                expected: writer("b"),
            },
            ProblemKind::Repeated {
                found: 1,
                expected: 2,
            },
            ProblemKind::Missing {
                found: 2,
                expected: 1,
            },
            ProblemKind::ChainBroken,
            ProblemKind::ClockWentBack {
                before: at(1),
                at: at(0),
            },
            ProblemKind::CutShort { bytes: 7 },
            ProblemKind::Within,
            ProblemKind::NoLineEnd,
            ProblemKind::Copy {
                writer: writer("a"),
            },
            ProblemKind::NotInPlace {
                writer: writer("a"),
            },
            ProblemKind::Unreadable,
            ProblemKind::NoFile,
            ProblemKind::Gone { seq: 3 },
            ProblemKind::PutAsideInSilence,
            ProblemKind::Forked {
                writer: writer("a"),
                seq: 3,
            },
            ProblemKind::Lost {
                seq: 3,
                read_by: EventId {
                    writer: writer("a"),
                    seq: 1,
                },
            },
        ]
    }

    #[expect(clippy::too_many_lines, reason = "a list")]
    fn reasons() -> Vec<Message> {
        let by = || EventId {
            writer: writer("a"),
            seq: 1,
        };
        let (g, one) = (|| "g".to_owned(), || drill("kestrel", 1));
        let judgements = [
            Deviation::InTolerance {
                shallower_mm: mm("0.1"),
            },
            Deviation::TooDeep { by_mm: mm("0.1") },
            Deviation::TooShallow { by_mm: mm("0.2") },
            Deviation::NoFigure,
        ];
        let mistyped = [
            Mistyped::OutsideGauge {
                least_mm: mm("8"),
                greatest_mm: mm("35"),
            },
            Mistyped::OffGraduation {
                graduation_mm: mm("0.1"),
            },
            Mistyped::FarOff { by_mm: mm("9") },
            Mistyped::DecimalMark {
                figure_mm: mm("24.3"),
            },
        ];
        let void = [Void::Broken, Void::SetAside { by: by() }];
        let lapses = [
            Lapse::Practice,
            Lapse::DrillNotInPlan { drill: g() },
            Lapse::CopyNotInPlan { drill: one() },
            Lapse::StopChanged { drill: one() },
            Lapse::InstrumentChanged { drill: one() },
            Lapse::SettingChanged {
                drill: one(),
                read_mm: mm("24.3"),
                planned_mm: mm("24"),
            },
            Lapse::GaugeChanged {
                read: g(),
                planned: g(),
            },
            Lapse::Reset { by: by() },
            Lapse::Told { by: by() },
            Lapse::Handled { by: by() },
            Lapse::ReadOtherwise { by: by() },
            Lapse::OtherGauge { by: by() },
            Lapse::Dropped { by: by() },
            Lapse::FallTakenBack { by: by() },
            Lapse::AnotherSitting { by: by() },
            Lapse::Landings { times: 5, limit: 5 },
            Lapse::Superseded { by: by() },
        ];
        let approvals = [
            ApprovalLapse::Practice,
            ApprovalLapse::OtherExtent { covered: 1 },
            ApprovalLapse::FingerprintDiffers {
                approved: Fingerprint::of_bytes(b"a"),
                current: Fingerprint::of_bytes(b"b"),
            },
            ApprovalLapse::Withdrawn {
                by: by(),
                who: who("AB"),
                reason: g(),
            },
            ApprovalLapse::AcceptancesNotCovered { keys: vec![g()] },
            ApprovalLapse::DecisionsChanged { keys: vec![g()] },
            ApprovalLapse::AcceptancesGone { keys: vec![g()] },
        ];
        let saw = |sight| Objection::Saw {
            who: who("AB"),
            sight,
        };
        let objections = [
            Objection::Practice,
            Objection::ReadingMissing { turn: Turn::First },
            Objection::ReadingMissing { turn: Turn::Second },
            Objection::BenchOnly,
            Objection::SamePerson { who: who("AB") },
            Objection::SetIt { who: who("AB") },
            saw(FiguresSeen::Approved),
            saw(FiguresSeen::Set),
            saw(FiguresSeen::Read),
            saw(FiguresSeen::Worked),
            saw(FiguresSeen::Left),
            Objection::OutOfTolerance {
                reading: by(),
                deviation: judgements[1],
            },
            Objection::Mistyped {
                reading: by(),
                why: mistyped[1],
            },
            Objection::Contradicted { reading: by() },
            Objection::GaugeNotChecked { gauge: g() },
            Objection::GaugeNoFigure {
                gauge: g(),
                value_mm: mm("20.05"),
            },
            Objection::GaugeCheckOld { gauge: g() },
            Objection::GaugeOff {
                gauge: g(),
                off_mm: mm("-0.1"),
            },
            Objection::GaugeFell {
                gauge: g(),
                by: by(),
            },
            Objection::GaugeFoundOff {
                gauge: g(),
                by: by(),
                off_mm: mm("-0.1"),
            },
        ];
        let merges = [
            MergeFault::OtherCase {
                found: g(),
                expected: g(),
            },
            MergeFault::OtherJaw {
                found: Jaw::Upper,
                expected: Jaw::Lower,
            },
            MergeFault::Forked {
                writer: writer("a"),
                seq: 1,
            },
        ];
        let (key, found, limit) = ("slot", 2, 1);
        let appends = [
            KindFault::Empty { key }.into(),
            KindFault::Long { key, found, limit }.into(),
            KindFault::Character {
                key,
                found: '\u{202e}',
            }
            .into(),
            KindFault::Torque {
                key,
                found: crate::measure::Torque::from_ncm(900),
            }
            .into(),
            KindFault::Length {
                key,
                found: mm("-24.3"),
            }
            .into(),
            KindFault::Day {
                key,
                found: jiff::civil::date(226, 5, 1),
            }
            .into(),
            KindFault::Scale {
                key,
                found: 101,
                least: 1,
                most: 100,
            }
            .into(),
            KindFault::OtherKind { key }.into(),
            AppendFault::Long { found, limit },
        ];
        let names = [
            NameFault::Empty,
            NameFault::NoLetter,
            NameFault::Several,
            NameFault::Calling,
            NameFault::Long { found, limit },
            NameFault::Character { found: '\n' },
            NameFault::Unprintable { found: '李' },
        ];
        let lost = LostLine {
            kind: LostKind::Approval,
            by: who("AB"),
        };
        let mended = [None, Some(lost)].map(|lost| Mended { file: g(), lost });
        let mut messages: Vec<Message> = Vec::new();
        messages.extend(mended.iter().map(Mended::message));
        messages.extend(appends.iter().map(AppendFault::message));
        messages.extend(names.iter().map(NameFault::message));
        messages.extend(judgements.iter().map(Deviation::message));
        messages.extend(mistyped.iter().map(Mistyped::message));
        let ahead = ClockAhead {
            writer: writer("a"),
            at: at(0),
        };
        messages.push(ahead.message());
        messages.extend(void.iter().map(Void::message));
        messages.extend(EventStanding::Unsaid.why_not());
        messages.extend(lapses.iter().map(Lapse::message));
        messages.extend(approvals.iter().map(ApprovalLapse::message));
        messages.extend(objections.iter().map(Objection::message));
        messages.extend(merges.iter().map(MergeFault::message));
        for kind in problems() {
            let (file, line) = ("f".to_owned(), 2);
            let problem = Problem { file, line, kind };
            messages.extend([problem.message(), problem.remedy()]);
        }
        messages
    }

    #[test]
    fn every_reason_has_a_text_that_takes_its_arguments() {
        let mut used = BTreeSet::new();
        for message in reasons() {
            used.insert(message.id);
            let shown = crate::wording::message(&message, Texts::english());
            assert!(!shown.contains('⟨'), "{message}: {shown}");
        }
        let written: BTreeSet<&str> = TEXT
            .lines()
            .filter(|line| line.starts_with("sign-"))
            .filter_map(|line| Some(line.split_once(" =")?.0))
            .collect();
        assert_eq!(written, used, "texts without a use, or the other way round");
    }
}
