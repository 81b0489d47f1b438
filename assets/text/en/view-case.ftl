### What the view case says.

case-about = The case
case-reference = Code
case-reference-code = A code, not a name: it stands on every page.
case-reference-signed = Approvals and readings name the case by this code, so it stays.
case-reference-set = code of the case
case-jaw = Jaw
case-other-jaw = Other jaw's case
case-other-jaw-what = Where both jaws are done in one sitting. Nothing of one case vouches for the other.
case-other-jaw-set = the other jaw's case

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
case-tray-by-hand = Things were laid by hand on this tray. With another one those places go.
case-head = Handpiece head
case-tray = Tray
case-order = Order of use
case-not-chosen = not chosen
case-setup-set = set-up

case-guide = Guide
case-support = Rests
case-access = Access
case-state = State
case-guide-planned = not made yet
case-guide-made = made
case-guide-planned-means = Once it is made say so here: distance, axis and sleeve of each site are then locked.
case-guide-made-means = Distance, axis, sleeves and pins are locked, since the guide does not change any more. Everything else can still be planned.
case-scan-date = Date of the scan
case-no-date = a date is written like 2026-10-02
case-guide-code = Code on the guide
case-guide-set = guide

case-receipt = The guide as it came
case-receipt-what = Measure it when it comes, before the tray is loaded.
case-receipt-no-sites = Nothing to measure: no site is planned yet.
case-receipt-distance = Platform to sleeve
case-receipt-height = Sleeve height
case-receipt-bore = Sleeve bore
case-receipt-of = { $what }, { $site }
case-receipt-planned = planned { $planned }
case-receipt-unplanned = planned: not entered

case-arch = Size of the arch
case-arch-landmark = Measured at
case-arch-width = Width there
case-arch-depth = Depth to there
case-arch-what = Width from one side to the other, depth from between the incisors straight back.
case-arch-none = Not entered: nothing is measured from the arch, and the chart is not to scale.
case-arch-part = All three are needed.
case-arch-forget = Clear the arch size
case-arch-set = size of the arch

case-teeth = Teeth
case-teeth-what = What was not entered is unknown, not missing.
case-tooth-kind = { $tooth }, kind of neighbour

case-limits = Limits
case-limits-what = Below the limit a margin is short. The floor is what must remain at the chosen confidence. Changed limits count for this case alone.
case-limit-of = for
case-limit-cell = { $limit }, { $column }
case-limit-limit = limit
case-limit-floor = floor
case-limit-source = source
case-limit-own = whose
case-limit-not-set = not set: unknown
case-limit-own-value = own value
case-own-source = own value, no source given
case-limit-back = Back to the default
case-limit-back-of = Back to the default: { $limit }
case-limit-set = limit: { $limit }
