//! Messages of the signing room as sentences.

use super::Formatter;
use crate::kit::{DrillId, GaugeId};
use crate::number::{shortest, shortest_mm};
use crate::sign::{Argument, Message};
use crate::text::Texts;

/// A message of the signing room as a sentence.
///
/// Needs no case: the record may be told of where no case can be opened.
#[must_use]
pub fn message(message: &Message, texts: &Texts) -> String {
    let mut counts = Vec::new();
    let mut words = Vec::new();
    for (&name, value) in &message.args {
        match value {
            Argument::Count(count) => counts.push((name, *count)),
            Argument::Text(text) => words.push((name, text.clone())),
            Argument::Given(number) => words.push((name, number.to_string())),
            Argument::Length(length) => words.push((name, shortest_mm(*length))),
            Argument::BareLength(length) => words.push((name, shortest(*length))),
            Argument::Message(inner) => words.push((name, self::message(inner, texts))),
        }
    }
    let words: Vec<(&str, &str)> = words.iter().map(|(name, text)| (*name, &**text)).collect();
    texts.counted(message.id, &counts, &words)
}

impl Formatter<'_> {
    /// A message of the signing room as a sentence, with the names of the gauges and drills that it tells of.
    #[must_use]
    pub fn message(&self, of: &Message) -> String {
        let mut named = of.clone();
        let gauges = of.id == "sign-reading-gauge-changed";
        for (name, value) in &mut named.args {
            let Argument::Text(id) = value else { continue };
            match *name {
                "drill" => *id = self.drill(&DrillId::from(id.as_str())),
                "gauge" => *id = self.gauge(&GaugeId::from(id.as_str())),
                _ if gauges => *id = self.gauge(&GaugeId::from(id.as_str())),
                _ => {}
            }
        }
        message(&named, self.texts)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dentition::Notation;
    use crate::measure::Length;
    use crate::sign::{AppendFault, KindFault, Piece, Problem, ProblemKind, Who};
    use crate::wording::tests::sample::valid;

    #[test]
    fn a_count_is_counted_with_and_a_length_bears_its_unit() {
        let text = "n = { $n ->\n    [one] once\n   *[other] { $n } times\n}, { $given }, \
                    { $least } to { $most }, { $words }\n";
        let texts = Texts::read("en", &[("a.ftl", text)]).unwrap();
        let mm = |text: &str| Length::parse_mm(text).unwrap();
        for (n, given, want) in [
            (1, 7, "once, 7, 8 to 35.5 mm, 1"),
            // Beyond what a number of the texts can hold.
            (
                2,
                u64::MAX,
                "2 times, 18446744073709551615, 8 to 35.5 mm, 1",
            ),
        ] {
            let args = [
                ("n", Argument::Count(n)),
                ("given", Argument::Given(given)),
                ("least", Argument::BareLength(mm("8"))),
                ("most", Argument::Length(mm("35.5"))),
                ("words", Argument::Text("1".to_owned())),
            ];
            let of = Message {
                id: "n",
                args: args.into(),
            };
            assert_eq!(message(&of, &texts), want);
        }
    }
    #[test]
    fn what_cannot_be_recorded_is_told_in_words() {
        let texts = Texts::english();
        let found = Length::parse_mm("-24.3").unwrap();
        let key = "value_mm";
        let kind = KindFault::Length { key, found };
        let length = "value_mm is \u{2212}24.3 mm: must be above 0 and at most 2000";
        assert_eq!(
            message(&AppendFault::from(kind.clone()).message(), texts),
            length
        );
        let problem = Problem {
            file: "desk.jsonl".to_owned(),
            line: 4,
            kind: ProblemKind::Impossible(kind),
        };
        let line = format!("desk.jsonl, line 4: {length}");
        assert_eq!(message(&problem.message(), texts), line);
        for (name, want) in [
            (" . ", "a name needs at least one letter or digit"),
            ("A\nB", "a name cannot hold '\\n'"),
        ] {
            let fault = Who::new(name).unwrap_err();
            assert_eq!(message(&fault.message(), texts), want);
        }
    }

    /// What a reader sees is a name, never the key of a kit's entry.
    #[test]
    fn gauges_drills_and_what_fell_are_told_by_their_names() {
        let case = valid(&[]);
        let say = Formatter::english(&case, Notation::Iso);
        let told = |id: &'static str, name, key: &str| {
            let args = [(name, Argument::Text(key.to_owned()))].into();
            say.message(&Message { id, args })
        };
        let gauge = case.kit.gauges.first().unwrap();
        assert_eq!(
            told("sign-check-gauge-fell", "gauge", gauge.id.as_str()),
            format!("Gauge {} was dropped after it was checked.", gauge.name)
        );
        let drill = case.kit.drills.first().unwrap();
        let said = told("sign-reading-drill-not-in-plan", "drill", drill.id.as_str());
        assert!(said.contains(drill.name.as_str()), "{said}");
        let fell = |id: &str| say.piece(&Piece::Other(id.to_owned()));
        assert_eq!(fell(drill.id.as_str()), drill.name.as_str());
        assert_eq!(fell("nothing"), "nothing");
    }
}
