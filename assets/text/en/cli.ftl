### What the command line says.

## What was typed

cli-no-command = the first word is no command. Write figures, check, sheet, approve, take-kit or order, or a case file alone; traywright --help tells what each does

## Approvals

cli-approve-open = not approved: findings that are short or unknown: { $count }. Settle them, or accept each with a reason, then approve
cli-approved = approved by { $by }: { $fingerprint }
cli-approved-practice = approved for practice by { $by }: { $fingerprint }. The case is a demonstration, so this counts for no patient

cli-by = --by: { $reason }. Write the name or initials of the person who approves
cli-desk = --desk: { $reason }. Write up to 40 small letters, digits, hyphens and underscores, such as desk-2

cli-more-lines = { $file }: { $count } more lines are not sound

## Edits that are not carried out

edit-no-such-site = there is no site { $site }. Name one that is there
edit-guide-is-made = { $site }: the guide is made and does not change; its { $part ->
        [distance] distance
        [axis] axis
       *[sleeve] sleeve
    } stays. The case is unchanged. Where a new guide is to be made, mark the guide as planned first
edit-unsound = the case is unchanged, because with this it would have these faults:

## Kits

cli-kit-same = the entries of { $kit } are taken over; no figure changes (revision { $revision }, { $fingerprint })
cli-kit-taken = the entries of { $kit } are taken over; the plan changes (revision { $revision }, { $fingerprint }). Approvals of the earlier plan no longer hold

## Headings of the text that stands in for the window

cli-demonstration = DEMONSTRATION: invented, for practice; nothing signed on it counts
cli-case = { $reference }, { $jaw }, revision { $revision }, { $fingerprint }: { $state }
cli-settings = Settings, tip of the drill to the stop's landing face, mm
cli-findings = Findings, worst first
cli-not-assessed = This version does not look at: { $list }
cli-nothing-open = Nothing is short or unknown of what is looked at
cli-open = { $short } short, { $unknown } unknown
cli-state-approved = approved by { $by }
cli-state-practice = approved for practice by { $by }
cli-state-open = not approved
cli-sheet-written = { $pages } pages written to { $file }

## Where no window can be opened

cli-no-display = There is no display here, so no window opens. Without one these commands work: figures, check, sheet, approve, take-kit, order. With a case file alone, its settings and findings follow as text.
cli-no-window = No window opens here: { $reason }. Without one these commands work: figures, check, sheet, approve, take-kit, order. With a case file alone, its settings and findings follow as text.
