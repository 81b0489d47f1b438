### The printed checklist: what stands on every page, and its parts except the team's questions.

## Every page

sheet-pdf-title = { $case }, { $jaw }, revision { $revision }
# A page without content, so that the second reading has a leaf of its own when both sides are printed
sheet-left-free = This page is left blank: the second reading has a sheet of its own.
sheet-continued = Continued. { $subtitle }
sheet-label-box = patient label
sheet-field-case = case
sheet-field-jaw = jaw
sheet-field-revision = revision
sheet-field-fingerprint = plan code
sheet-field-printed = printed
sheet-field-state = state
sheet-state-record-broken = the record has a break, nothing signed counts
sheet-state-not-approved = not approved
sheet-state-approved = approved by { $by } on { $on }
sheet-state-approved-for-any-decision = approved by { $by } on { $on } (older form: it names no decisions, so it holds for any taken on these findings since)
sheet-state-practice = practice only, never for a patient: approved by { $by } on { $on }
sheet-state-demonstration = invented, for practice only; not approved
sheet-stamp-not-approved = NOT APPROVED
sheet-stamp-demonstration = DEMONSTRATION
sheet-foot = A planning aid. Manufacturers' instructions, local rules and a licensed clinician's judgement come first.
sheet-page = page { $page } of { $count }

## Words for what is not there

sheet-not-entered = not entered
sheet-not-chosen = not chosen
sheet-none = none
sheet-not-in-kit = not in the kit
sheet-no-figure = no figure: { $reasons }
sheet-name-not-entered = name not entered

## The plan at a glance

sheet-overview-title = Implant checklist, { $jaw }
sheet-overview-subtitle = The plan at a glance. All lengths in millimetres, all settings from drill tip to the stop's landing face.
sheet-fact-jaw = jaw
sheet-fact-support = support
sheet-fact-access = access
sheet-fact-guide = guide
sheet-fact-code = guide code
sheet-fact-scan = scan date
sheet-fact-pins = pins
sheet-fact-order = order
sheet-fact-gauge = gauge
sheet-fact-head = head
sheet-fact-tray = tray
sheet-fact-kit = kit
sheet-fact-other-jaw = other jaw
sheet-kit-named = { $kit }, { $revision }
sheet-other-jaw = case { $case }, same session. Nothing on these pages applies to it.
sheet-pin-at = { $name } at { $place }
sheet-case-note = Note
sheet-sites-heading = Sites
sheet-no-sites = No implant is planned.
sheet-setting-range = { $least } to { $most }
sheet-setting-some-unknown = { $range }; { $missing } without a figure
sheet-open-heading = Open findings
sheet-open-note = Open means short or unknown and not accepted. The pages of each site list every clearance and all else that is not clear; further checks that are clear are counted there, not listed.
sheet-nothing-open = Of what was assessed, nothing is short or unknown that has not been accepted with a reason.
sheet-open-more = Not listed here: { $more } more of the sites, each on the pages of its site.
sheet-accepted-heading = Accepted, intended, and other notes on the whole case
sheet-limits-heading = Limits
sheet-open-line = Open: { $short } short, { $unknown } unknown. Resolve or accept each before surgery.
sheet-open-line-none = Nothing assessed is open. Not assessed: { $count } matters, listed under “{ $list }”.
sheet-open-line-accepted = { $accepted } Not assessed: { $count } matters, listed under “{ $list }”.
sheet-code-leaves-out-heading = Not in the plan code
sheet-code-leaves-out = notes, sources, the team, the order wished for, what the surgeon accepted (an approval names that by itself)
sheet-cautions-heading = Cautions
sheet-role-surgeon = planned by (surgeon)
sheet-role-nurse = tray loaded by (nurse)
sheet-role-second = second check
sheet-signature = signature, date
sheet-signer = { $role }: { $name }
sheet-record = The record of this case when this was printed, as the last event of each desk with a code: { $list }. As long as the record holds these, nothing that was recorded up to here was removed or changed; the view History and “traywright history --paper” say whether it does. They prove nothing of what was recorded later, nor who wrote it.

## Heads of columns

sheet-col-verdict = verdict
sheet-col-found = what was found
sheet-col-rests-on = basis
sheet-col-rests-on-accuracy = basis ({ $accuracy })
sheet-col-site = site
sheet-col-implant = implant
sheet-col-extent = guided
sheet-col-settings = settings
sheet-col-worst = worst verdict
sheet-col-step = step
sheet-col-sleeve = guided by
sheet-col-set = set, mm
sheet-col-site-verdict = site
sheet-col-bench = bench check, mm
sheet-col-initials = initials
sheet-col-taken = taken by mistake
sheet-col-cuts = depth
sheet-col-harm = harm
sheet-col-came-about = depth and play
sheet-col-running = limits of the drill, from the kit
sheet-col-set-planned = planned: { $implant }
sheet-col-set-shorter = shorter: { $implant }
sheet-col-slot = slot
sheet-col-take = take
sheet-col-stop = stop
sheet-col-taken-tick = taken
sheet-col-set-tick = set
sheet-col-locked = locked, tugged
sheet-col-read = read
sheet-col-second = second reading
sheet-col-in-slot = in slot
sheet-col-laid = laid
sheet-col-take-for = take · for tooth
sheet-col-gauge-shows = the gauge shows, mm
sheet-col-number = no.
sheet-col-done = done
sheet-col-do = drill
sheet-col-running-short = up to
sheet-col-bench-short = bench
sheet-irrigation-all = Irrigation for every drill: { $value }.
sheet-irrigation-usual = Irrigation where a row says no other: { $value }.
sheet-irrigation-other = Irrigation: { $value }
sheet-torque-not-in-kit = Where no torque is beside a speed, the kit gives none.
sheet-bench-explained = Bench: with the stop landed on its sleeve in the guide, how many mm the tip is beyond the master sleeve's apical face.
sheet-mark-explained = Beside a setting, the site's worst verdict:
sheet-through-master = master sleeve
sheet-label-lot = label, or lot and expiry
sheet-label-torque = N·cm
sheet-label-stability = stability
sheet-label-depth = depth, mm
sheet-no-speed = speed: not in kit
sheet-no-direction = direction: not in kit
sheet-no-irrigation = irrigation: not in kit
sheet-depth-planned = as planned
sheet-depth-coronal = { $by } coronal
sheet-depth-apical = { $by } apical
sheet-box-in-record = in the record
sheet-done-at = { $number } { $at }
sheet-done-by = { $who }: { $list }
sheet-done-times = Done, by number and time (UTC): { $list }
sheet-counted-by = { $who } and { $second }, { $at } UTC
sheet-sounded-row = { $site }: { $size }
sheet-rpm-most = { $speed } rpm
sheet-ncm-most = { $torque } N·cm
sheet-insert-most = up to { $torque } N·cm
sheet-insert-no-torque = torque limit: not in kit
sheet-col-counted = what
sheet-col-planned = there
sheet-col-in = in
sheet-col-out = out
sheet-col-limit-of = for
sheet-col-limit = limit
sheet-col-floor = floor
sheet-col-source = source

## The pages of a site

sheet-site-subtitle = { $implant } · { $extent } · { $tilt } · { $density } · guide on { $support }
sheet-no-steps = No drill sequence is chosen for this site: there is nothing to set and nothing to drill.
sheet-step-numbered = { $number }. { $drill }
sheet-gauge-shows = the gauge shows
sheet-no-gauge-figure = no gauge figure
sheet-tip-to-stop = tip to stop
sheet-from-crest = from the most apical point of the crest
sheet-bench-above = { $size } coronal
sheet-steps-note-stop = Set: drill tip to the stop's landing face. Bench check: with the stop landed on its sleeve in the guide, how far the tip projects beyond the master sleeve's apical face.
sheet-steps-note-mark = Set without a stop: drill tip to the mark, or to the named edge of it.
sheet-steps-note-mark-bench = Bench check without a stop: with that mark or edge level with the rim in the guide, how far the tip projects beyond the master sleeve's apical face.
sheet-steps-note-verdict = The mark beside each setting is the worst verdict of this site.
sheet-section-none = No section can be drawn: { $reason }.
sheet-fact-bone = bone
sheet-fact-master = master sleeve
sheet-fact-distance = sleeve offset
sheet-offset-to-rim = { $entered }; { $apical } to the apical face
sheet-sounding = Bone sounding
sheet-sounding-fresh = No bone sounding: fresh socket.
sheet-sounding-bed = No bone sounding: bed of an implant that is removed.
sheet-probe = Probe { $led }.
sheet-sounded = measured, mm, and initials
sheet-insertion = Implant
sheet-implant-torque = Maximum insertion torque: { $value }
sheet-fitting = Other sleeve offsets at which the fixed stops fit
sheet-fitting-more = Not listed: { $more } more.
sheet-site-note = Note
sheet-clearances = Clearances
sheet-no-clearances = No clearance was calculated for this site. That is not the same as clear.
sheet-instruments = Instruments, sequence and guide
sheet-instruments-clear = Nothing stands out.
sheet-told-at = In full at { $site }.
sheet-clear-count = Further checks of instruments, sequence and guide that are clear: { $count }.
sheet-look-alikes = Look-alikes: what would cut too deep or too wide here
sheet-look-alikes-none = None of the mix-ups that were tried, with the settings and sleeves of this case, would break a limit here.
sheet-look-alikes-more = The deepest of each kind. Not listed: { $more } more of the same kinds, none of them deeper.
sheet-more = Each step in detail
sheet-set-from = set { $line }
sheet-speed = speed up to: { $value }
sheet-torque = torque up to: { $value }
sheet-direction = direction: { $value }
sheet-irrigation = irrigation: { $value }
sheet-rpm = { $speed } rpm
sheet-ncm = { $torque } N·cm
sheet-forward = clockwise
sheet-reverse = anticlockwise
sheet-no-shorter = The kit has no shorter implant of this line and diameter.
sheet-shorter-note = Only if the surgeon calls for it. Every stop is then re-set and read again; the clearances above apply to the planned implant.
sheet-set-and-mark = { $set }, { $mark }
sheet-set-and-gauge = { $set }, gauge { $gauge }

## The tray

sheet-loading-title = Loading the tray
sheet-loading-subtitle = In the order of use. The sterile person sets and calls out, another person writes.
sheet-gauge-none = No gauge is chosen: no stop can be set.
sheet-gauge-no-piece = { $gauge }: the kit names no check piece. Check the gauge with a trusted length before the first setting.
sheet-gauge-no-constant = { $gauge }: what it adds to a length is not entered in the kit, so that nobody knows what it should show. Set nothing on it.
sheet-gauge-piece-shows = { $gauge }: it shows { $shown } of its check piece of { $piece }, its constant added, to the nearest graduation. If not, set nothing.
sheet-gauge-piece = { $gauge }: it reads its check piece of { $piece } correctly, to the nearest graduation. If not, set nothing.
sheet-set-how = For each drill: take it and read its length, drop it through its sleeve, set the stop, lock it, tug it, read it on the gauge. When all are read, another person, who has seen no figure, reads again for the page “Second reading”.
sheet-read-how = The readings as the record had them when this was printed. What is not recorded is still to be set, laid and read; what was dropped or lies otherwise than planned has that in its line. What is sealed is set, locked, tugged and read when it is opened: another person, who has seen no figure, reads it again for the page “Second reading”.
sheet-bench-rule-none = No local rule is named by which a reading on the bench counts after sterilisation: read again in the sterile field.
sheet-bench-rule = A reading on the bench counts after sterilisation by the local rule “{ $rule }”.
sheet-stop-and-length = { $stop } · { $length } long
sheet-by-mark = no stop: drilled to a mark
sheet-beside-tray = Beside the tray
sheet-take-guide = Guide, code { $code }
sheet-take-guide-no-code = Guide (no code entered)
sheet-take-gauge = { $gauge }, with its check piece of { $piece }
sheet-take-gauge-no-piece = { $gauge } (no check piece in the kit)
sheet-take-head-none = Handpiece head: none chosen
sheet-shorter-at-hand = Next shorter implant { $implant }, unopened: { $sites }
sheet-shorter-lacking = Next shorter implant { $implant }, none in the kit: { $sites }
sheet-open-now = To take now, and to set where there is a stop
sheet-open-read = To be on the tray, with what is recorded of each
sheet-sealed-set = Sealed until called for, its stop in the same slot, not yet set: set, locked, tugged and read when opened
sheet-set-nothing = There is nothing to set.
sheet-rest-heading = Everything else
sheet-tray-title = The tray
sheet-tray-elsewhere = The tray's map: on a page before.
sheet-unopened = Unopened until called for
sheet-for-all = all { $count }
sheet-for-teeth = { $item } · { $list }
sheet-slots = { $first }, { $rest }
sheet-several = { $count } × { $item }
sheet-named-colour = { $name }, { $colour }
sheet-col-first-read = first reading
sheet-col-second-read = second reading
sheet-not-recorded = not recorded
sheet-read-on-bench = { $who }, { $at } UTC
sheet-read-in-field = { $who }, { $at } UTC, in the sterile field
sheet-read-after-use = { $who }, { $at } UTC, after use
sheet-recorded-refused = Not accepted: { $why } To be read again.
sheet-recorded-doubt = In doubt: { $why } To be read again.
sheet-recorded-not-verified = The two do not belong together: to be read again.
sheet-recorded-elsewhere = Lies in { $lies } by the record, not in { $slot }: to be laid there.
sheet-recorded-elsewhere-read = Lies in { $lies } by the record, not in { $slot }: to be laid there and read again.
sheet-recorded-in = Lies in { $lies } by the record, and has no slot by the plan.
sheet-recorded-nowhere = In no slot by the record: to be laid.
sheet-recorded-nowhere-read = In no slot by the record: to be set, laid and read again.
sheet-recorded-not-laid = Not laid, by the record: to be set, laid and read.
sheet-recorded-fell = Dropped, by the record: another is to be set, laid and read.
sheet-recorded-fell-none = Dropped, none left by the record.
sheet-recorded-off = Lies in { $lies } by the record: to be taken off the tray.
sheet-recorded-off-nowhere = Set by the record: not to be laid, to be taken off the tray.
sheet-recorded-told-unset = A STOP told to take it, and nobody confirmed that: to be taken and laid again, unset.
sheet-recorded-aloud = Read aloud again: { $value }
sheet-recorded-otherwise = Set otherwise by the record: to be set and read again.
sheet-recorded-instrument = By the record another drill or stop under its name, or nobody knows which: to be set and read again.
sheet-recorded-anew = Re-set since, by the record: see the order of use.
sheet-recorded-fall-taken-back = Its fall was taken back, so that nobody knows how it is set, nor whether it is the one that fell: to be set and read again.
sheet-recorded-told = A STOP told to take it, and nobody confirmed that: to be set and read again.
sheet-recorded-not-planned = By the record there, and in no line above: { $drills }. Find out why, and take it off.
sheet-lay-unset = Take it and lay it: not set before surgery, since it does not fit as it would be set first.
sheet-closed-by = record closed by: name, signature, date
sheet-col-for-tooth = for tooth
sheet-stock-heading = Too few
sheet-stock-enough = There is enough of everything that the plan needs.
sheet-tray-none = No tray is chosen, so there is no picture of it and nothing has a slot.

## The second reading

sheet-second-title = Second reading
sheet-second-subtitle = By a person other than the one who set the stops, without looking at the pages with the settings.
sheet-sealed-read = Sealed until called for: read when opened
sheet-reset-read-then = Re-set during surgery: read when it is re-set, not before
sheet-second-how = From the first line on, the last one set first: take each drill from its slot, read it on the gauge, write down what the gauge shows. Then compare the two pages: one graduation too short is the most that may differ, anything too long is not accepted.

## The true-scale strip

sheet-strip-none = There is no drill with a setting to lay on it.
sheet-strip-title = True-scale strip
sheet-strip-subtitle = For placing each drill on its drawing before sterilisation, or under a clear sterile drape.

## Order of use

sheet-order-title = Order of use
sheet-order-subtitle = One line per action, from the top. Nothing below a shaded line before everything above it.
sheet-run-title = Changes between the steps
sheet-run-subtitle = Hand movements between the steps of the order of use, with the same numbers: dark where it changes, grey where it stays.
sheet-run-cost = Order { $by }: { $cost } for the changes.
sheet-run-resets = A re-set is a stop set again in the sterile field: two people read it before the drill is used.
sheet-run-reckoned = Time allowed for each change
sheet-run-weight = { $what } { $time }
sheet-run-only-changes = These times do not predict the length of the operation: only the changes are counted, not drilling or anything else.
sheet-col-changes = changed before it
sheet-col-with = in the handpiece
sheet-guide-on = With the guide
sheet-guide-off = Without the guide: every guided stop is off its drill
sheet-whole-jaw = whole jaw
sheet-do-not-use = Do not use this drill.
# What follows a step that is not to be done
sheet-then-undrilled = { $what }: the drill before it is not to be used. The surgeon decides on it before the next drill of this site.
sheet-then-not-possible = { $what }: not possible, neither the drill before it nor any after it at this site is to be used.
sheet-misfit-elsewhere = This drill, set so, does not fit at { $site }: { $what }
# A stop that is set anew in surgery
sheet-reset-set = re-set
sheet-reset-locked = locked, tugged
sheet-reset-second = read blind by a second person, on the page “Second reading”
sheet-reset-read = first reading, mm
sheet-read-when-set-anew = read when it is re-set
# A thing and the name of its slot
sheet-lies-in = { $name } · { $slot }
# A pin in the order of use: the drill and the pin with their slots; what limits the drill stands beside its figure
sheet-pin-row = With the guide held in occlusion, pin “{ $name }”: { $drill }, { $until }; then { $pin }.
sheet-pin-until-mark = until its mark is level with the rim of the pin's sleeve
sheet-pin-until-stop = until the stop lands on the rim of the pin's sleeve
# Which line or edge of which mark limits the depth
sheet-mark-line = mark { $mark }, no stop
sheet-mark-lower = mark { $mark }, its edge nearer the tip, no stop
sheet-mark-upper = mark { $mark }, its edge nearer the shank, no stop
sheet-insert = { $site }: { $implant }
sheet-insert-how = { $first }. { $rest }
sheet-insert-no-drill = No drill of this site can be used: do not place this implant.
sheet-insert-some-drills = Not every drill of this site can be used: the surgeon decides before this implant is placed.
sheet-insert-freehand = without the guide

## Why there is no sheet. No capital at the start, no full stop at the end.

sheet-refused-too-tall = "{ $what }" is { $height } high and must stay together: a page has { $room }
sheet-refused-glyph = no bundled font can show { $code } in “{ $text }”
sheet-refused-code = { $length ->
        [one] 1 byte is
       *[other] { $length } bytes are
    } too many for a QR code
sheet-refused-font = font { $font }: { $problem }
sheet-refused-writer = writing the PDF: { $problems }
sheet-refused-time = the time of making is outside what a PDF can say

## Limits

sheet-limit-not-set = Not set: what needs it is unknown.
sheet-limits-note = The verdicts of this case are based on these limits; each can be changed in the case. Below the limit a margin is short. The floor is what must remain once accuracy is taken into account; this version does not assess accuracy. For guide, carrier and bone sounding the figure is the largest difference allowed, for the angle between implants the largest angle.
sheet-legend-heading = What the marks mean

## The record of the day

sheet-day-title = Record, { $jaw }
sheet-day-subtitle = What was placed and what became of it, as it was recorded. Times are UTC.
sheet-day-pdf-title = { $case }, { $jaw }: record
sheet-day-site = { $site }: planned { $planned }
sheet-day-site-on = { $site }, { $day }: planned { $planned }
sheet-day-case = The case
sheet-day-run = Events of the day
sheet-day-events = { $day }, { $who }: { $events }
sheet-day-since = Added since the record was signed
