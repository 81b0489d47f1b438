### What the view sheet says.

## The pages

sheet-view-a4 = A4
sheet-view-letter = Letter
sheet-view-readings-blank = Boxes for readings: empty
sheet-view-readings-filled = as recorded
sheet-view-part-form = Theatre form ({ $count ->
        [one] 1 page
       *[other] { $count } pages
    })
sheet-view-part-strip = True-scale strip ({ $count ->
        [one] 1 page
       *[other] { $count } pages
    })
sheet-view-part-annex = Annex ({ $count ->
        [one] 1 page
       *[other] { $count } pages
    })
sheet-view-before = Previous page
sheet-view-next = Next page
sheet-view-page = { $page } of { $count }
sheet-view-page-named = Page { $page }: { $title }
sheet-view-whole = Fit page
sheet-view-wide = Fit width
sheet-view-smaller = Zoom out
sheet-view-larger = Zoom in
sheet-view-write = Write PDF…
sheet-view-written-open = Written, NOT APPROVED: { $file }
sheet-view-written-practice = Written, approved for practice only: { $file }
sheet-view-no-viewer = No PDF viewer was found. Use Write PDF… and open the file yourself.
sheet-view-viewer = Open in the viewer
sheet-view-viewer-what = Writes a temporary copy and opens it in the system's viewer, from which it can be printed.

## Approving

sheet-view-approve = Approve and print
sheet-view-plan = Revision { $revision }, { $fingerprint }
sheet-view-nothing-open = Of what was assessed, nothing is short or unknown that has not been accepted with a reason.
sheet-view-still-open = Still short or unknown: { $count }. Resolve each, or accept it with a reason where that is possible, before the plan is approved.
sheet-view-open = Short or unknown
sheet-view-accepted = Accepted or intended: the approval names them
sheet-view-more = and { $count } more
sheet-view-to-findings = Go to the findings
sheet-view-sign = Approve
sheet-view-broken = Nothing that was signed on this case counts as long as its record has a break: what is missing may have withdrawn it. Restore the file. Where that cannot be done, put the damaged part aside; it is kept beside the rest, and all approvals and readings are then given anew. Of a last line of this desk that was never finished that line alone is put aside, and what it means is told.
sheet-view-broken-by = Name of the person who puts it aside
sheet-view-broken-now = Put the damaged part aside
sheet-view-not-broken = The record has a break.
sheet-view-covers = An approval names this plan code and the findings listed below. It lapses with any change of a figure, of a place on the tray, of an acceptance or of what a hand acts on: names and markings of instruments, what follows a step, speeds, irrigation, the code on the guide. Notes, sources, the team and the order wished for are not covered.
sheet-view-not-assessed = It does not cover what this program does not assess: { $list }.
sheet-view-practice = A demonstration: the approval is for practice and never counts.
sheet-view-by = Name of the person who approves
sheet-view-approver-reads-not = Whoever approves sees the figures, and for { $hours ->
        [one] an hour
       *[other] { $hours } hours
    } does not count as who reads the stops without them on the bench.
sheet-view-left-to-read = Of the team then left to read: { $who }
sheet-view-nobody-left-to-read = Nobody of the team is then left to read. Have somebody else read, or approve now and read { $hours ->
        [one] an hour
       *[other] { $hours } hours
    } later.
sheet-view-approve-now = Approve { $fingerprint }
sheet-view-approve-practice = Approve { $fingerprint } for practice
sheet-view-not-open = Not possible while anything is short or unknown and not accepted, or dated later than today.
sheet-view-not-saved = Not possible until the case is saved: the approval names the plan as it is in the file.
sheet-view-not-named = A name or initials are needed.
sheet-view-save = Save the case

## Approvals that were given

sheet-view-approvals = Approvals
sheet-view-no-approvals = None given.
sheet-view-holds = Holds
sheet-view-practised = Holds for practice only
sheet-view-lapsed = Does not hold
sheet-view-approval = { $by }, { $at } UTC: revision { $revision }, { $fingerprint }
sheet-view-since = Changed since: { $list }
sheet-view-since-unknown = What was changed is from before this case was opened here and is not known.
sheet-view-withdraw = Withdraw…
sheet-view-withdraw-what = This withdraws every approval given so far for this plan code.
sheet-view-withdraw-reason = Reason
sheet-view-withdraw-by = Name of the person who withdraws it
sheet-view-withdraw-now = Withdraw
sheet-view-withdraw-fill = A reason and a name are needed

## Readings

sheet-view-readings = Readings
sheet-view-read-none = There is nothing to set.
sheet-view-read-bench = Read twice on the bench and in tolerance: { $done } of { $all } stops with a setting
sheet-view-read-sterile = Read twice in the sterile field, or counted from the bench by a local rule: { $done } of { $all } stops with a setting
sheet-view-read-unknown = { $count } more have no figure: nothing is set or read of them.
sheet-view-read-missing = { $drill }, { $set }: { $missing }
sheet-view-read-later = { $drill }, { $set }: re-set and read during surgery.
sheet-view-read-no-more = { $drill }, { $set }: the stop was re-set since.
