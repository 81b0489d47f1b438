### What the surgery view says. It is read from two metres: few words.

## The line at the top

surgery-head = { $jaw } · { $case } · { $fingerprint }
surgery-progress = step { $at } of { $all } · { $elapsed }
surgery-progress-over = all steps over · { $elapsed }

## Opening, going on, the end

surgery-title = Begin surgery
surgery-nothing = No implant is planned: there is no step.
surgery-goes-on = It goes on at step { $at } of { $all }: { $step }
surgery-goes-on-over = All steps are over
surgery-ask-person = Who records? Initials
surgery-how = One key a step. What was done is written down at once: a closed window or a power cut loses no step. With the initials surgery begins, and its clock.
surgery-not-approved = No approval of this plan holds.
surgery-drills-open = { $count ->
        [one] 1 step has a drill or thing that is not ready: { $names }.
       *[other] { $count } steps have a drill or thing that is not ready: { $names }.
    }
surgery-nothing-laid = Nothing is on the tray by the record.
surgery-gauge-off = The gauge was found off by { $off } at its last check. What was read on it does not count.
surgery-over = All steps are over.
surgery-over-practice = All steps are over, for practice.
surgery-nothing-left = Every step was done as planned, in its turn.

## A step

surgery-whole-jaw = The whole jaw
surgery-looked-at = Only looked at. Due is: { $due }
surgery-looked-at-over = Only looked at. All steps are over.
surgery-pin = Pin “{ $name }”
surgery-sleeve-in = In: { $sleeve }
surgery-sleeve-out = Out: { $sleeve }
surgery-sleeve-from = Move from { $site }: { $sleeve }
surgery-sleeve-stays = { $sleeve } stays in
surgery-no-sleeve = No drill sleeve: straight into the master sleeve
surgery-freehand = Without the guide
surgery-tip-to-stop = { $set } from tip to stop
surgery-reading = { $who } { $value }
surgery-read = read: { $readings }
surgery-stop-not-ready = STOP. { $why }
surgery-worn = Wear: { $wear }
surgery-look-alike = Look-alike: { $what }
surgery-set-anew-how = It is re-set in a pass of its own, and read aloud by a second sterile person with no figure in sight.
surgery-guided-how = By the carrier: { $how } Stop turning when it touches.
surgery-carrier-out = Then take the carrier out.
surgery-begun-how = Or begun through its sleeve: once it holds, carrier and sleeve come out; it is turned to its depth by hand when the guide is off.
surgery-pins-in = Take the fixation pins out: { $pins }
surgery-finish-how = Turn it to its depth by hand.
surgery-by-hand = By hand: { $depth }
surgery-is-done = Done, { $who }, { $at } UTC
surgery-doubled = Recorded { $count } times: { $who }. N takes back all of them.
surgery-recorded-by = { $who }, { $at } UTC
surgery-not-yet = Not yet
surgery-not-yet-first = First: { $step }
surgery-is-left-out = Left out, { $who }, { $at } UTC: { $reason }
surgery-is-not-again = Not done again, { $who }, { $at } UTC: { $reason }
surgery-is-begun = Begun through its sleeve, { $who }, { $at } UTC. Its depth is still to come, by hand.
surgery-is-turned-in = Turned in, { $who }, { $at } UTC: { $torque }, { $depth }
surgery-done-otherwise = By another plan, { $who }: { $step }. In this plan it is open: leave it out where nothing is left to do.
surgery-done-before = By another plan, { $who }: { $step }

## Barriers

surgery-title-sound = Sound: { $site }
surgery-look-how = Nobody goes on before it was looked at.
surgery-sound-how = Probe through the seated guide, from the seat to the bone. Planned:
surgery-sound-limit = More than { $limit } off, to either side: stop.
surgery-probe-shows = What the probe shows
surgery-no-length = That is not a length. Type what the probe shows, in millimetres.
surgery-sound-off = The probe showed { $found }: { $by } off the plan ({ $who }).
surgery-sound-why = The guide may not be seated, or the crest is not where it was measured. Find out why before anything is cut.
surgery-sound-again = Seat the guide again and type what the probe shows then, or leave this site's sounding out with a reason.
surgery-carrier-in = Its carrier is still in and holds the guide: { $site }
surgery-sleeve-held = { $sleeve } is still in, { $site }
surgery-guide-off-why = A guided stop without the guide would let its drill go far too deep. Each of these, called out as it comes off:

## Counts

surgery-count-how = Count together, aloud. Type the number of each and press Enter. What does not agree is shown once all is counted.
surgery-count-found = { $what }: { $found } counted
surgery-count-typed = { $typed } counted
surgery-count-fell-since = Something was dropped since it was counted: count everything once more.
surgery-count-search = Search before going on. Count again, or say what became of it.
surgery-count-no-number = That is not a number of things. Type a whole number.
surgery-count-enter = Type the number that was counted and press Enter.

## Asked

surgery-ask-second = Who counted with you? Initials
surgery-same-person = { $who } may be the person who records. Another person counts too: enter other initials.
surgery-ask-skip = Left out, why?
surgery-ask-by-hand = By hand, why? Who decided?
surgery-ask-aimed = Depth that is aimed at
surgery-aimed-how = From the crest to the tip, by a mark of the drill. Enter without a figure: not recorded.
surgery-aimed-no-depth = That is no depth that a drill goes to. Type millimetres, above 0 and at most 40.
surgery-by-hand-holds = No guide and no stop holds it. Take its stop off first.
surgery-may-by-hand = Possible with its stop off (H): by its mark or by hand, for a reason. No guide and no stop holds it then.
surgery-ask-despite = Gone on with all the same, why? Who decided?
surgery-sitting-last = The last step was recorded at { $at } UTC, by { $who }.
surgery-sitting-how = Is this the same sitting? In another one everything is counted, seated and sounded again, and what was laid and read before that last step counts no more.
surgery-sitting-same = The same sitting goes on
surgery-sitting-another = Another sitting: no step from before counts, but that an implant is in
surgery-ask-go-on = Going on as it is now, why? Who decided?
surgery-reason-empty = Say why, in two words at least.
surgery-ask-fell = What was dropped?
surgery-scanned = A scanned code stands for nothing here, and nothing of it was taken. Labels are scanned in the record (Ctrl+E).
surgery-fell-by = { $what } was dropped (told by { $who })
surgery-sound-mistyped = That looks mistyped: look at the probe again and type what it shows.
surgery-fell-how = Press its number, then Enter. What was read of it then counts no more.
surgery-fell-not-here = { $number }: { $what }. Not in hand at this step.
surgery-in-hand-drill = Drill
surgery-in-hand-sleeve = Drill sleeve
surgery-in-hand-implant = Implant
surgery-in-hand-carrier = Carrier
surgery-in-hand-pin = Fixation pin
surgery-in-hand-guide = The guide
surgery-fell-guide-not-here = { $number }: { $what }. It is not in use, or was dropped before.
surgery-fell-guide = The guide was dropped: nothing more is done through it until it is seated and sounded anew.
surgery-fell-guide-sleeves = The guide was dropped: nothing more is done through it until it is seated and sounded anew. By the record this was in it; if it was dropped with it, say so too (F): { $sleeves }.
surgery-ask-which-guide = Which guide goes in now?
surgery-which-guide-how = Press its number. It is then seated, and each site sounded, anew. If none can be used: Cancel, then abandon the guide (T, 8).
surgery-which-guide-same = The same one: it is whole, and was made sterile anew as local rules have it
surgery-which-guide-another = Another one of the same code; the one that was dropped is counted too
surgery-which-guide-none = It was not dropped: that was recorded by mistake
surgery-ask-same-guide = How was it made sterile? Who decided?
surgery-ask-another-guide = Why another one? Who decided?
surgery-guide-again = Which guide goes in now
surgery-fell-choose = Press the number of what was dropped, then Enter.
surgery-fell-none-chosen = Nothing here has this number.
surgery-fell-record = It was dropped
surgery-fell-other = Something else on the tray
surgery-fell-of-all-how = Type its number, then Enter. What was read of it then counts no more.
surgery-fell-typed = { $number }: { $name }
surgery-fell-no-number = No thing on the tray has this number.
surgery-ask-change = What is to be done otherwise here?
surgery-change-how = Press its number. Nothing is done before it is said once more.
surgery-change-row = { $number }  { $name }. { $why }.
surgery-change-not-now = { $name }. { $why }.
surgery-not-now = Not now: { $why }
surgery-not-now-no-site = this step is of no single site
surgery-not-now-is-in = the implant is turned in
surgery-not-now-no-implant = the kit has none
surgery-not-now-no-profile = none is to come at this site
surgery-not-now-not-led = nothing that is open goes through the guide
surgery-not-now-nothing-open = nothing is open at this site
surgery-not-now-not-seated = the guide was not seated
surgery-not-now-is-off = the guide is off
surgery-not-now-is-abandoned = it is abandoned
surgery-not-now-not-abandoned = the guide is not abandoned
surgery-not-now-not-recorded = nobody recorded that
surgery-changed-how = It is worked out at once, and what it makes of the tray is shown before it is saved. Esc: nothing is changed.
surgery-ask-changed = Changed so, why? Who decided?
surgery-confirm-how = Enter: it is worked out at once, and what it makes of the tray is shown before it is saved. Esc: nothing is changed.
surgery-confirm = Change it so
surgery-after-none = Nothing more is drilled or turned in through it: no sleeve, no carrier and no guided stop holds a depth or a direction.
surgery-after-set = { $count ->
        [one] 1 drill has a setting without it. Its stop is re-set to that and read (R) before it is used: { $names }.
       *[other] { $count } drills have a setting without it. Each stop is re-set to that and read (R) before it is used: { $names }.
    }
surgery-after-mark = { $count ->
        [one] 1 drill goes by its mark: { $names }.
       *[other] { $count } drills go by their marks: { $names }.
    }
surgery-after-by-hand = { $count ->
        [one] 1 drill has NO setting without it: { $names }. It goes by its mark or by hand alone (H).
       *[other] { $count } drills have NO setting without it: { $names }. They go by their marks or by hand alone (H).
    }
surgery-after-site = { $site }, { $count }
surgery-after-any = Any of them can be done by its mark or by hand (H), for a reason: then no guide and no stop holds it, and that is recorded so.
surgery-after-implants = { $count ->
        [one] 1 implant goes in by hand; its depth is then by the crest.
       *[other] { $count } implants go in by hand; their depth is then by the crest.
    }
surgery-after-back = That it was recorded by mistake can be said later (9); the plan stays without the guide until each site lets it lead again.
surgery-after-back-site = The plan stays so until the site lets the guide lead again.
surgery-change-shorter = Take the next shorter implant
surgery-change-narrower = Take the next narrower implant
surgery-change-implant = Take { $implant }
surgery-change-profile = Without the profile drill
surgery-change-freehand = Without the guide from here
surgery-change-lifted = The guide came off: seat it and sound each site again
surgery-change-not-lifted = The guide did not come off
surgery-change-not-that-guide-by = Another answer on which guide goes in: { $who } recorded it by mistake at { $at }
surgery-change-not-lifted-by = The guide did not come off: { $who } recorded that by mistake at { $at }
surgery-change-abandon = Abandon the guide: from here everything of all sites is without it
surgery-change-abandoned-plan = The guide is abandoned: plan all that is open without it
surgery-change-not-abandoned = The guide is not abandoned
surgery-change-not-abandoned-by = The guide is not abandoned: { $who } recorded that by mistake at { $at }. The plan stays without it until each site lets it lead again
surgery-abandoned-open = The guide is abandoned by the record, and the plan still leads through it: nothing is done so. Change (T), 0: plan all that is open without it. ({ $line })
surgery-abandoned-open-stop = The guide is abandoned by the record, and the plan still leads through it: nothing is done so. T: plan all that is open without it. ({ $line })
surgery-abandoned-open-who = The guide is abandoned by the record, and the plan still leads through it: nothing is done so. Give your initials; then T: plan all that is open without it. ({ $line })
surgery-abandoned-open-gate = The guide is abandoned by the record, and the plan still leads through it: nothing is done so. First what stops here, then plan all that is open without it. ({ $line })
surgery-stop-follow-first = Set nothing for the guide now. First have the plan follow (T): what is told here of the tray is by a plan that still leads through the guide, and is told anew then.
surgery-follow = Plan all that is open without the guide
surgery-wrong-by-hand = { $why } Not to be used as it is set. With its stop off it can be used by its mark or by hand: H at its step.
surgery-ask-lifted = The guide came off, why? Who says so?
surgery-ask-abandon = The guide is abandoned, why? Who decided?
surgery-ask-not-lifted = Recorded by mistake, why? Who says so?
surgery-since = Recorded since then; it stays as it is:
surgery-since-none = Nothing was recorded since then.
surgery-lifted-between = { $line }. Recorded in between: { $since }
surgery-change-stop-here = Stop here: leave out all that is open at this site
surgery-ask-stop-here = Stopped here, why? Who decided?
surgery-ask-torque = Torque reached
surgery-torque-how = Enter without a figure: not recorded.
surgery-torque-no-number = That is no torque that an implant is turned in with. Type whole N·cm, at most 200.
surgery-ncm = N·cm
surgery-ask-depth = How far from its planned depth did it stop?
surgery-depth-how = Space: at its planned depth. A figure and Enter: so much coronal of it. A figure and D: so much apical of it. Enter without a figure: not recorded.
surgery-at-depth = At its planned depth
surgery-apical = So much apical of it

## Told

surgery-not-ready = It is not ready. Read or re-set it (R), leave it out (S), or do it all the same with a reason (A).
surgery-forbidden-by-hand = Not as it is set: there is no figure to do it by, or it does not fit. Re-set it (R), do it by its mark or by hand (H), or leave it out (S), with a reason.
surgery-forbidden = It cannot be done: there is no figure to do it by, or it does not fit. Leave it out with a reason (S), or change the plan.
surgery-again-not-done = Was it recorded by mistake? Press N again: that is recorded too, for each time that it was recorded. Any other key: no.
surgery-again-off = STOP. { $off }. Press again to record it as such. Any other key: no.
surgery-again-leave = What was counted so far is lost when the view is left: nothing of it is recorded. Press Esc again to leave. Any other key: no.
surgery-gone = The step changed meanwhile, or a STOP came. What was asked or typed is gone, and nothing was recorded of it.
surgery-again-out-of-turn = OUT OF TURN: { $count ->
        [one] 1 step before it is open
       *[other] { $count } steps before it are open
    }: { $first }. Press again to record it all the same. Any other key: no.

## What follows

surgery-then = Then: { $step }
surgery-then-drill = { $step }, { $slot }, { $set }
surgery-then-nothing = This is the last step.
surgery-ahead = In { $steps } steps: { $step }
surgery-arch = The arch with its sites
surgery-as-you-face = as you face the patient

## STOP

surgery-stop-plan = The plan is another one: { $now }. Surgery was begun or gone on with by { $then }.
surgery-stop-no-step = { $then }. The plan has no such step now.
surgery-stop-otherwise = { $then }. Now planned: { $now }.
surgery-stop-by-hand = Without the guide a drill whose stop or setting no longer fits can be used by its mark or by hand, its stop taken off: H at its step.
surgery-stop-withdrawn = The approval no longer holds.
surgery-stop-stay = { $count ->
        [0] No drill of an open step is ready by what was read.
        [one] 1 drill of an open step stays ready by what was read.
       *[other] { $count } drills of open steps stay ready by what was read.
    }
surgery-to-tray = To the tray
surgery-to-findings = To what is open
surgery-stop-open = Open in the plan, each to be settled or accepted there (O), and back with { $key }:
surgery-stop-open-line = { $what }. { $remedy }
surgery-stop-open-more = and { $count } more
surgery-go-on = Read. Continue with the plan as it is now

## All steps

surgery-list-title = All steps
surgery-list-row = { $number }. { $step }: { $state }
surgery-state-done = done, { $who }, { $at } UTC
surgery-state-done-before = done by another plan, { $who }, { $at } UTC
surgery-state-left-out = LEFT OUT, { $who }, { $at } UTC
surgery-state-set = re-set and read
surgery-state-off = STOP, off its plan
surgery-state-amiss = STOP, does not agree
surgery-state-due = now
surgery-state-not-ready = to come, not ready
surgery-state-told = to come, ready, with something to know
surgery-state-open = to come

## Targets

surgery-done = Done
surgery-enter = Enter
surgery-back = Back
surgery-forward = Forward
surgery-due = To what is due
surgery-skip = Leave out
surgery-despite = All the same, why
surgery-by-hand-alone = By mark or by hand
surgery-despite-count = What became of it
surgery-fell = Dropped
surgery-set-anew = Re-set
surgery-to-passes = Re-set it
surgery-not-done = Was not done
surgery-list = List
surgery-list-back = Back to the step
surgery-change = Change
surgery-person = Person
surgery-leave = Exit
surgery-cancel = Cancel
surgery-count-again = Count again
surgery-way-guided = By its carrier, to its line
surgery-way-begun = Begun through its sleeve
surgery-way-ended = Ended by hand
surgery-way-freehand = By hand
