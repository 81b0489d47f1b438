//! The filter of findings.

use crate::desk::Document;
use crate::field;
use crate::look::{Font, aside};
use crate::view::findings::Context;
use egui::Ui;
use traywright_core::kit::SiteId;
use traywright_core::plan::{Finding, Severity, Subject};

/// The findings that are listed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Filter {
    pub(super) standing: Standing,
    pub(super) place: Place,
    pub(super) subject: Option<Subject>,
}

/// The standing of the listed findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Standing {
    /// Any.
    #[default]
    All,
    /// Only what must be settled or accepted before surgery.
    Open,
}

/// The place of the listed findings.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) enum Place {
    /// Anywhere.
    #[default]
    Anywhere,
    /// The case as a whole.
    Whole,
    /// A site.
    At(SiteId),
}

const SUBJECTS: [Subject; 5] = [
    Subject::Clearance,
    Subject::Instrument,
    Subject::Stock,
    Subject::Sequence,
    Subject::Guide,
];

impl Filter {
    /// True if a finding is listed.
    fn takes(&self, finding: &Finding) -> bool {
        let stands = self.standing == Standing::All || finding.severity().is_open();
        let belongs = match &self.place {
            Place::Anywhere => true,
            Place::Whole => finding.site.is_none(),
            Place::At(site) => finding.is_of(site),
        };
        stands && belongs && self.subject.is_none_or(|only| only == finding.subject())
    }
}

/// Places in the worksheet of the findings that are listed, worst first. A site that is no longer
/// there hides nothing.
pub(super) fn shown(document: &Document, mut filter: Filter) -> Vec<usize> {
    if let Place::At(site) = &filter.place
        && document.case().site(site.as_str()).is_none()
    {
        filter.place = Place::Anywhere;
    }
    let findings = document.worksheet().findings.iter().enumerate();
    findings
        .filter(|(_, finding)| filter.takes(finding))
        .map(|(n, _)| n)
        .collect()
}

/// Shows what is listed and lets it be chosen.
pub(super) fn ui(ui: &mut Ui, cx: &mut Context<'_>) {
    let (document, formatter) = (cx.document, cx.formatter());
    ui.heading(cx.word("findings-title"));
    ui.label(Font::Body.text(summary(cx, document)));
    if let Some(accuracy) = formatter.accuracy(&document.worksheet().findings) {
        aside(ui, traywright_core::wording::begin(&accuracy));
    }
    let mut filter = cx.own.filter.clone();
    if let Place::At(site) = &filter.place
        && document.case().site(site.as_str()).is_none()
    {
        filter.place = Place::Anywhere;
    }
    let places: Vec<(Place, String)> = [
        (Place::Anywhere, cx.word("findings-anywhere")),
        (Place::Whole, cx.word("findings-whole-case")),
    ]
    .into_iter()
    .chain(document.case().sites.iter().map(|site| {
        let name = formatter.site(&site.id);
        (Place::At(site.id.clone()), name)
    }))
    .collect();
    let subjects = SUBJECTS.map(|subject| {
        let name = cx.word(&format!("findings-subject-{}", subject.key()));
        (subject, name)
    });
    let labels = ["findings-where", "findings-about", "findings-any-subject"];
    let [place_label, subject_label, any] = labels.map(|id| cx.word(id));
    ui.horizontal_wrapped(|ui| {
        for (standing, id) in [
            (Standing::All, "findings-all"),
            (Standing::Open, "findings-open"),
        ] {
            ui.selectable_value(&mut filter.standing, standing, cx.word(id));
        }
        let drafts = &cx.state.drafts;
        ui.add_space(8.0);
        ui.label(&place_label);
        let key = "findings.place";
        let new = field::choice_known(ui, drafts, key, &place_label, &filter.place, &places);
        filter.place = new.unwrap_or(filter.place.clone());
        ui.label(&subject_label);
        let key = "findings.subject";
        let now = filter.subject.as_ref();
        let new = field::choice(ui, drafts, key, &subject_label, &any, now, &subjects);
        filter.subject = new.map_or(filter.subject, |new| new.0);
    });
    cx.own.filter = filter;
    ui.add_space(4.0);
}

/// Number of findings of each severity but the clear ones, in words.
fn summary(cx: &Context<'_>, document: &Document) -> String {
    let formatter = cx.formatter();
    let counts: Vec<String> = SEVERITIES
        .into_iter()
        .filter_map(|severity| {
            let all = document.worksheet().findings.iter();
            let count = all.filter(|f| f.severity() == severity).count();
            (count > 0).then(|| format!("{count} {}", formatter.severity(severity)))
        })
        .collect();
    counts.join(" · ")
}

/// All severities, worst first.
pub(super) const SEVERITIES: [Severity; 7] = [
    Severity::Short,
    Severity::Unknown,
    Severity::Tight,
    Severity::Accepted,
    Severity::Intended,
    Severity::Note,
    Severity::Clear,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};

    fn two_molars() -> Document {
        let (_, bytes) = DEMOS[1];
        Document::unsaved(demo_case(bytes))
    }

    fn findings(filter: Filter) -> Vec<Finding> {
        let document = two_molars();
        let all = &document.worksheet().findings;
        let shown = shown(&document, filter);
        shown.into_iter().map(|n| all[n].clone()).collect()
    }

    #[test]
    fn open_is_what_is_short_or_unknown_and_nothing_else() {
        let open = findings(Filter {
            standing: Standing::Open,
            ..Filter::default()
        });
        assert!(!open.is_empty());
        for finding in &open {
            let severity = finding.severity();
            assert!(matches!(severity, Severity::Short | Severity::Unknown));
        }
        let all = findings(Filter::default());
        let worse = all.iter().filter(|f| f.severity().is_open()).count();
        assert_eq!(worse, open.len());
    }

    #[test]
    fn a_site_and_a_subject_narrow_it_down() {
        let site = two_molars().case().sites[0].id.clone();
        let here = findings(Filter {
            place: Place::At(site.clone()),
            subject: Some(Subject::Clearance),
            ..Filter::default()
        });
        assert!(!here.is_empty());
        for finding in here {
            let found = (finding.site.as_ref(), finding.subject());
            assert_eq!(found, (Some(&site), Subject::Clearance));
        }
    }

    #[test]
    fn a_site_that_is_gone_hides_nothing() {
        let gone = Filter {
            place: Place::At(SiteId::from("gone")),
            ..Filter::default()
        };
        assert_eq!(findings(gone), findings(Filter::default()));
    }
}
