### What the command line says.

## What was typed

cli-no-command = the first word is not a command. Use figures, check, history, list, sheet, approve, put-aside, pack, unpack, take-kit, take-rules or order, or a case file alone; traywright --help explains each

## Answers

cli-no-output = The answer could not be written to the output ({ $reason }), or not all of it. Nothing else was to be written. Give the output another place
cli-untold = What follows was done; only this answer could not be written to the output ({ $reason }): { $done }

## Approvals

cli-approve-open = not approved: findings that are short or unknown: { $count }. Resolve them, or accept with a reason those that can be accepted, then approve
cli-approved = approved by { $by }: { $fingerprint }
cli-approved-practice = approved for practice by { $by }: { $fingerprint }. The case is a demonstration, so this counts for no patient

cli-by = --by: { $reason }. Give the name or initials of the person who approves
cli-desk = --desk: { $reason }. Use up to 40 small letters, digits, hyphens and underscores, such as desk-2
cli-desk-unread = This desk's name cannot be read from its settings. { $why } Nothing was recorded; give the desk's name with --desk
cli-desk-unkept = This desk has no name yet, and none can be kept: { $why }. Nothing was recorded; give the desk's name with --desk
cli-desk-nowhere = This desk has no name yet, and this user has no folder for settings. Nothing was recorded; give the desk's name with --desk

cli-more-lines = { $file }: { $count ->
        [one] 1 more line is
       *[other] { $count } more lines are
    } faulty

## Edits that are not carried out

edit-was-cut = Something was drilled at { $site }: the site stays in the plan, so that its hole counts. If it was not drilled, take that back in the record, or say so in the form of the site
edit-no-such-site = there is no site { $site }. Name an existing site
edit-guide-is-made = { $site }: the guide is made and cannot change; its { $part ->
        [distance] sleeve offset
        [axis] axis
       *[sleeve] sleeve
    } is kept. The case is unchanged. If a new guide is to be made, mark the guide as planned first
edit-unsound = the case is unchanged, because the change would leave it with these faults:

## Kits

cli-kit-same = the case now uses the entries of { $kit }; no figure changes (revision { $revision }, { $fingerprint })
cli-changed-meanwhile = Another desk wrote { $file } meanwhile. Nothing was written; run the command again
cli-kit-taken = the case now uses the entries of { $kit }; the plan changes (revision { $revision }, { $fingerprint }). Approvals of the earlier plan no longer hold

## Headings of the text that stands in for the window

cli-demonstration = DEMONSTRATION: invented, for practice; nothing signed on it counts
cli-case = { $reference }, { $jaw }, revision { $revision }, { $fingerprint }: { $state }
cli-settings = Settings, drill tip to the stop's landing face, mm
cli-findings = Findings, worst first
cli-not-assessed = Not assessed by this version: { $list }
cli-nothing-open = Of what was assessed, nothing is short or unknown
cli-nothing-else-open = Of what was assessed, nothing is short or unknown but what was accepted. { $accepted }
cli-open = { $short } short, { $unknown } unknown
cli-open-causes = { $short } short, { $unknown } unknown: { $lines ->
        [one] one line
       *[other] { $lines } lines
    } above, as what hangs on one cause stands beneath it
cli-state-approved = approved by { $by }
cli-state-practice = approved for practice by { $by }
cli-state-open = not approved
cli-state-broken = the record has a break, nothing signed counts
cli-desk-command = a command
cli-record-broken = Nothing was recorded. Mend the record first; where that cannot be done, put the damaged part aside: traywright put-aside
cli-record-elsewhere = Nothing was recorded
cli-put-aside = Put aside: { $files }. Nothing that was signed on this case before counts any more
cli-nothing-aside = The record has no break; nothing was put aside
cli-sheet-written = { $pages ->
        [one] 1 page
       *[other] { $pages } pages
    } written to { $file }

## Where no window can be opened

cli-no-display = There is no display here, so no window opens. These commands work without one: figures, check, history, list, sheet, approve, put-aside, pack, unpack, take-kit, take-rules, order. With a case file alone, its settings and findings follow as text.
cli-no-window = No window opens here: { $reason }. These commands work without one: figures, check, history, list, sheet, approve, put-aside, pack, unpack, take-kit, take-rules, order. With a case file alone, its settings and findings follow as text.
