### What the view case says.

case-about = The case
case-reference = Case reference
case-reference-code = A code, not a name: it is printed on every page.
case-reference-signed = Approvals and readings refer to the case by this reference, so it cannot change.
case-reference-set = case reference
case-jaw = Jaw
case-purpose = The case is for
case-for-surgery = surgery
case-for-practice = practice
case-purpose-what = Nothing that is signed in it counts, and every page says so.
case-purpose-set = purpose of the case
case-other-jaw = Case of the other jaw
case-other-jaw-what = If both jaws are treated in one session. Nothing in one case verifies the other.
case-other-jaw-set = case of the other jaw

case-team = Team
case-surgeon = Surgeon
case-nurse = Loads the tray
case-second = Second checker
case-team-set = team

case-note = Note
case-note-what = No figure depends on it.
case-note-set = note

case-setup = Set-up
case-gauge = Gauge
case-no-gauge = Without a gauge no stop can be set.
case-tray-by-hand = Some things were placed by hand on this tray. With another tray those places are lost.
case-head = Handpiece head
case-tray = Tray
case-order = Order of use
case-not-chosen = not chosen
case-setup-set = set-up

case-guide = Guide
case-support = Support
case-access = Access
case-state = State
case-guide-planned = not made yet
case-guide-made = made
case-guide-planned-means = Once it is made, say so here: sleeve offset, axis and sleeve of each site are then locked.
case-guide-there-means = A guide was made by an earlier plan. Said to be made, it is that one again, and what was changed since is told; if it is not used any more, say below that another is made.
case-guide-another = Another guide is made
case-guide-made-means = Sleeve offset, axis, sleeves and pins are locked, because the guide can no longer change; the platform stays where it leads. Another depth below the crest is another reading of it, beyond 2 mm by somebody's word. Everything else can still be planned.
case-scan-date = Date of the scan
case-no-date = a date is written like 2026-10-02
case-guide-receipts-gone = The guide is to be made anew: what was measured on the old one was removed. Undo brings it back.
case-guide-code = Code on the guide
case-guide-set = guide

case-receipt = Delivered guide
case-receipt-what = Measure it when it arrives, before the tray is loaded.
case-receipt-no-sites = Nothing to measure: no site is planned yet.
case-receipt-distance = Sleeve offset
case-receipt-height = Sleeve height
case-receipt-bore = Sleeve bore
case-receipt-of = { $what }, { $site }
case-receipt-planned = planned { $planned }
case-receipt-mistyped = { $measured }: mistyped? { $planned } is planned, and the decimal mark stands elsewhere. Measure again and type it with its mark.
case-receipt-unplanned = planned: not entered

case-arch = Size of the arch
case-arch-landmark = Measured at
case-arch-width = Arch width there
case-arch-depth = Arch depth to there
case-arch-what = Width from one side to the other, depth from between the incisors straight back.
case-arch-none = Not entered: nothing is measured from the arch, and the chart is not to scale.
case-arch-part = All three are needed.
case-arch-forget = Clear the arch size
case-arch-set = size of the arch

case-teeth = Teeth
case-teeth-what = What was not entered is unknown, not missing.
case-tooth-kind = { $tooth }, kind of neighbour

case-limits = Limits
case-limits-what = Below the limit a margin is short. The floor is what must remain at the chosen confidence. Changed limits apply to this case alone.
case-limit-of = for
case-limit-cell = { $limit }, { $column }
case-limit-limit = limit
case-limit-floor = floor
case-limit-source = source
case-limit-own = set by
case-limit-floor-above = { $floor } is above the limit of { $limit }: what must remain is at most the limit
case-limit-not-set = not set: unknown
case-limit-own-value = own value
case-own-source = own value, no source given
case-limit-back = Back to the default
case-limit-back-of = Back to the default: { $limit }
case-limit-set = limit: { $limit }
