### What the view sheet says.

## The pages

sheet-view-a4 = A4
sheet-view-letter = Letter
sheet-view-before = Page before
sheet-view-next = Next page
sheet-view-page = { $page } of { $count }
sheet-view-page-named = Page { $page }: { $title }
sheet-view-whole = Whole page
sheet-view-wide = Full width
sheet-view-smaller = Smaller
sheet-view-larger = Larger
sheet-view-write = Write PDF…
sheet-view-written-open = Written, NOT APPROVED: { $file }
sheet-view-written-practice = Written, approved for practice only: { $file }
sheet-view-no-viewer = No PDF viewer was found. Use Write PDF… and open the file yourself.
sheet-view-viewer = Open in the viewer
sheet-view-viewer-what = Writes a temporary copy among the temporary files and opens it in the system's viewer, from which it can be printed.

## Approving

sheet-view-approve = Approve and print
sheet-view-plan = Revision { $revision }, { $fingerprint }
sheet-view-nothing-open = Of what was assessed nothing is short or unknown that has not been accepted with a reason.
sheet-view-still-open = Still short or unknown: { $count }. Settle each, or accept it with a reason, before the plan is approved.
sheet-view-open = Short or unknown
sheet-view-accepted = Accepted or intended: the approval names them
sheet-view-more = and { $count } more
sheet-view-to-findings = To the findings
sheet-view-sign = Approve
sheet-view-covers = An approval names this fingerprint and the findings listed below. It lapses with any change of a figure, of a place on the tray or of an acceptance.
sheet-view-not-assessed = It says nothing of what this program does not look at: { $list }.
sheet-view-practice = A demonstration: the approval is for practice and never counts.
sheet-view-by = Name of the person who approves
sheet-view-approve-now = Approve { $fingerprint }
sheet-view-approve-practice = Approve { $fingerprint } for practice
sheet-view-not-open = Not possible while anything is short or unknown and not accepted.
sheet-view-not-saved = Not possible before the case is saved: the approval names the plan as it lies in the file.
sheet-view-not-named = A name or initials are needed.
sheet-view-save = Save the case

## Approvals that were given

sheet-view-approvals = Approvals
sheet-view-no-approvals = None was given.
sheet-view-holds = Holds
sheet-view-practised = Holds for practice only
sheet-view-lapsed = Does not hold
sheet-view-approval = { $by }, { $at } UTC: revision { $revision }, { $fingerprint }
sheet-view-since = Done since: { $list }
sheet-view-since-unknown = What was changed lies before this case was opened here and cannot be told.
sheet-view-withdraw = Take back…
sheet-view-withdraw-what = This takes back every approval of this fingerprint that was given so far.
sheet-view-withdraw-reason = Reason
sheet-view-withdraw-by = Name of the person who takes it back
sheet-view-withdraw-now = Take back
sheet-view-withdraw-fill = A reason and a name are needed

## Readings

sheet-view-readings = Readings
sheet-view-read-none = Nothing is to be set.
sheet-view-read-bench = Read twice on the bench and in tolerance: { $done } of { $all } settings
sheet-view-read-sterile = Read twice in the sterile field, or counted from the bench by a local rule: { $done } of { $all } settings
sheet-view-read-missing = { $drill }, { $set }: { $missing }
sheet-view-read-later = { $drill }, { $set }: set anew in surgery and read there.
sheet-view-read-no-more = { $drill }, { $set }: the stop was set anew since.
