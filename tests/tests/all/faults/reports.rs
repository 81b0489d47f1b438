//! How a report has to read, whatever it reports: sentences for people, each with a remedy.

/// Why the report would not help the person who reads it; nothing where it would.
pub(super) fn hard_to_read(report: &str) -> impl Iterator<Item = &'static str> {
    // Ids of texts and pieces of code, which say nothing to a nurse or a secretary.
    let code = [
        "fault-", "sign-", "store-", "{ $", "Some(", "Err(", "::", "serde",
    ];
    let shows_code = code.iter().any(|piece| report.contains(piece));
    let without_remedy = report.lines().any(|line| {
        let fault = line.starts_with("line ");
        let (_, remedy) = line.split_once(". ").unwrap_or_default();
        fault
            && !remedy.starts_with(|c: char| c.is_uppercase())
            && !line
                .rsplit(". ")
                .next()
                .is_some_and(|last| last.starts_with(|c: char| c.is_uppercase()))
    });
    let too_long = report.lines().any(|line| line.chars().count() > 600);
    [
        shows_code.then_some("shows the inside of the program"),
        without_remedy.then_some("a fault without a remedy"),
        too_long.then_some("a line that nobody reads to its end"),
        report.is_empty().then_some("nothing is said"),
    ]
    .into_iter()
    .flatten()
}
