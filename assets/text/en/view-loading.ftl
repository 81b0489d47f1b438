### What the loading view says. It is read standing: short words.

## Opening

loading-title = Load the tray
loading-who-works = The sterile person sets and calls out. The circulating person operates this program: sterile hands never touch it.
loading-no-file = This case has no file yet. Save it first: what is recorded is kept beside its file.
loading-unsaved = The plan has changes that are not saved. Save it first, so that every desk loads the same plan.
loading-ask-stage = Where are the stops read in this session?
loading-stage-bench = On the bench, before sterilisation
loading-stage-sterile = In the sterile field
loading-stage-bench-short = bench
loading-stage-sterile-short = sterile field
loading-stage-after = after use
loading-ask-person = Who sets and reads? Initials
loading-not-approved = NOT APPROVED
loading-practice = DEMONSTRATION, practice only
loading-gauge-title = First the gauge
loading-gauge-piece = Insert the check piece of { $piece }. What does the gauge show?
loading-gauge-what = Nothing is set until the gauge reads its check piece correctly.
loading-gauge-no-piece = The kit names no check piece. Take a trusted length: what is marked on it?
loading-gauge-more = The gauge reads { $by } too high. Set nothing on it: clean it, check it again, or put another gauge into the plan.
loading-gauge-less = The gauge reads { $by } too low: every drill would be set too long. Set nothing on it: clean it, check it again, or put another gauge into the plan.

## The line at the top

loading-head = Loading · { $jaw } · { $case } · { $fingerprint }
loading-progress = { $done } of { $all } in the tray

## The thing in hand

loading-nothing = The plan has nothing for the tray.
loading-for = for { $site }
loading-for-many = for { $count } sites
loading-mm = mm
loading-tip-to-face = tip to the stop's landing face
loading-step-take = take
loading-step-set = set
loading-step-lock = lock
loading-step-tug = tug
loading-step-read = read
loading-step-read-again = second reading
loading-step-place = place
loading-step-due = { $step }: now
loading-step-done = { $step }: done
loading-step-ahead = { $step }: later
loading-do-take = Take it
loading-do-take-from = Take it from { $slot }
loading-do-set = Set the stop on the gauge
loading-do-groove = Put the stop in its groove
loading-do-lock = Lock the stop
loading-do-tug = Tug the stop: does it hold?
loading-do-read = Read the gauge
loading-do-read-again = Second reading
loading-do-place = Place it in { $slot }
loading-still-set = It is still set to { $set }, as in the earlier plan.
loading-take-length = Check its overall length: { $length }.
loading-take-drop = Drop it through { $bores }: it has to fall freely.
loading-set-stop = { $stop }: its bore is { $bore } and has to fit the drill without play.
loading-stop-beside = Its stop goes with it in the same slot, not set yet: { $stop }.
loading-to-slot = → { $slot }
loading-may-open = It stays sealed. Open it only when it is called for.
loading-not-readable = No gauge can read it: it is not verified.
loading-accepted = accepted { $least } to { $most }
loading-reads = { $who } reads on the gauge
loading-typed = What the gauge shows
loading-other-person = Other person
loading-ask-first = Who reads? Initials
loading-ask-second = Second reader, who has seen no figure. Initials
loading-look-alike = Look-alikes: the same drill at { $others }
loading-look-alike-in = { $set } in { $slot }
loading-lies = It is in { $slot }
loading-read-unapproved = Read by { $first }, then blind by { $second }. The plan is not approved: nothing counts as verified until it is.
loading-verified = Verified: read by { $first }, then blind by { $second }.
loading-practised = Practised: read by { $first }, then blind by { $second }. It does not count.
loading-sealed = Sealed until called for: set and read when opened.
loading-all-done = The tray is loaded.
loading-all-done-bench = The tray is loaded on the bench.
loading-all-laid = The tray is laid, not approved.
loading-all-laid-bench = The tray is laid on the bench, not approved.
loading-all-laid-practice = The tray is laid, for practice.
loading-all-laid-practice-bench = The tray is laid on the bench, for practice.
loading-read-again = In the sterile field every stop is read again.
loading-plan-not-approved = No approval of this plan holds: nothing that is read counts as verified.
loading-all-done-sealed = { $count } sealed: to be set and read when opened.
loading-rest-short = Everything that can be loaded is loaded. The rest is short: see the list.
loading-no-slot-remedy = Choose a tray with more slots in the case, or place it where the team agrees and write that down.
loading-do-not-set = Do not set
loading-no-figure = The plan has no figure for this drill.
loading-no-figure-remedy = The site's page says which entry is missing. Do not drill with it.
loading-does-not-fit-remedy = Do not set it and do not drill with it. The surgeon changes the plan, or accepts this with a reason.
loading-no-gauge-figure = What the gauge would show is not known: its kit entry does not say which face of the stop it reads.
loading-no-gauge-remedy = Find out which face the gauge reads, and enter it in the kit.

## Set anew in surgery

loading-later = Not now: in surgery
loading-later-bench = Nothing is done for it on the bench. It is re-set and read in the sterile field.
loading-later-first = Another setting of this drill comes before it: that one is set and read first.
loading-later-open = When the step before it is done: press O, then re-set it. It is read twice like any stop.
loading-passed = Its stop was re-set since
loading-stands-later = Not as planned for the first use: { $name }, { $slot }, is at { $now }, a later setting, not at { $first }.
loading-set-back = Is its first use not finished? Press L, choose no. { $number }, press R: set it back to { $first }.
loading-set-back-here = Is its first use not finished? Press R and set it back to { $first }.
loading-left-later = At a later setting: { $count }.
loading-anew-when = Re-set during surgery { $when }
loading-anew = Re-set for the next step
loading-again-anew = Is the step before it done? Press O again: what was read of this drill no longer counts. Any other key: no.
loading-all-done-anew = { $count } to be re-set in surgery: see the list.
loading-list-anew = Re-set during surgery: { $drill }, { $when }: { $state }
loading-state-later = not now
loading-state-passed = re-set since
loading-state-anew = to be re-set now
loading-stop-resets = The re-sets are not the same as before: see the list.

## Beside the tray

loading-beside = Beside the tray: is it there?
loading-beside-of = { $number } of { $all } beside the tray
loading-note-beside = Beside the tray: { $what }

## What was set and read

loading-record = What was read
loading-record-title = What was set and read
loading-record-none = Nothing was read at this stage yet.
loading-record-row = { $number }. { $name }, { $slot }: set { $setting }, the gauge is to show { $figure }; { $first }; { $second }
loading-record-reading = read { $value } by { $who }
loading-record-open = not read
loading-record-refused = not accepted: { $value } by { $who }
loading-record-lapsed = no longer counts: { $value } by { $who }

## Readings that are not accepted

loading-no-length = That is not a length. Type what the gauge shows, in millimetres.
loading-same-person = { $who } may be the person who read first. The second reading is by another person: enter other initials.
loading-set-it = { $who } may be the person who set the stop and saw its figure. The second reading is by another person: enter other initials.
loading-first-remedy = It is recorded. Re-set the stop, lock it, tug it; then it is read again.
loading-mistyped-remedy = It is recorded. Read the gauge again and re-enter the figure; if it is right, re-set the stop (R).
loading-second-refused = Not accepted
loading-second-remedy = It is recorded. Read the gauge again, or re-set the stop (R). Nobody says what it should show.
loading-second-set-anew = It is recorded. The stop is to be re-set; then both readings are taken again.
loading-gauge-remedy = Check the gauge with its check piece, then read again.

## Targets and keys

loading-done = Done
loading-placed = In place
loading-go-on = Continue
loading-enter = Enter
loading-previous = Previous
loading-next = Next
loading-reset = Re-set
loading-other-stage = Stage
loading-open = Open it
loading-fell = Dropped
loading-check-gauge = Check gauge
loading-gauge-fell = Gauge dropped
loading-list = List
loading-leave = Exit
loading-key-space = Space
loading-key-escape = Esc
loading-key-mark = Decimal mark
loading-key-back = Back
loading-tray = The tray

## What is left and what is short

loading-left = Left: { $set } to set, { $lay } to place.
loading-nothing-short = Nothing is missing from stock.
loading-plan-open = The plan itself: { $short } short, { $unknown } unknown. See its findings.
loading-short = Short: { $count }
loading-short-first = Short: { $count }. { $first }
loading-short-no-figure = { $name }: no figure, do not set
loading-short-does-not-fit = { $name }: does not fit, do not set
loading-short-no-gauge-figure = { $name }: no figure for this gauge, do not set
loading-short-no-slot = { $name }: no slot left

## The list

loading-list-title = Everything for the tray
loading-list-row = { $number }. { $name }, { $slot }: { $state }
loading-list-note = The list shows no setting, so it may be viewed during a second reading.
loading-state-verified = in its slot, read twice
loading-state-sealed = in its slot, sealed
loading-state-laid = in its slot
loading-state-blocked = do not set
loading-state-wrong = in the tray, set for the earlier plan: WRONG
loading-state-again = in the tray, to be set and read again
loading-state-open = to be taken
loading-state-begun = begun
loading-state-second = second reading missing
loading-state-to-lay = to be placed

## Keys that take readings away are pressed twice

loading-again-stage = Another stage? Press T again: stage, initials and gauge are asked for again. Any other key: no.
loading-again-reset = Press R again: both readings of this drill are taken again. Any other key: no.
loading-again-fell = Was it dropped? Press F again: its readings no longer count. Any other key: no.
loading-again-gauge = Was the gauge dropped? Press D again: it is checked before the next reading. Any other key: no.

## Falls

loading-fell-spare = { $name } dropped: set it aside. { $count } more in stock; start again with one.
loading-fell-spares = Its spare: { $spares }.
loading-fell-stop = Check its stop: if intact, it is re-set on the spare and read twice; otherwise take another.
loading-fell-no-spare = { $name } dropped: set it aside. There is no spare in stock.

## The plan changed

loading-stop = STOP
loading-stop-why = The plan has changed. This is wrong now:
loading-stop-nothing-wrong = Nothing that was set, read or placed is wrong.
loading-stop-approval = The approval no longer holds: the plan has to be approved again.
loading-stop-added = New in the plan: { $names }.
loading-stop-unsaved = The change is not saved yet.
loading-understood = Read. Continue with the plan as it is now
loading-wrong-for = { $name } for { $sites }
loading-wrong-in = { $name } in { $slot }
loading-wrong-setting = { $what }: set to { $was }, now planned at { $now }. Take it and re-set it.
loading-wrong-stop = { $what }: another stop is planned on it. Take it and re-set it.
loading-wrong-gauge = { $what }: the gauge is to show another figure. Read it again.
loading-wrong-again = { $what }: nothing read or placed so far counts for this case. Take it, and set and read it again.
loading-wrong-not-needed = { $what }: no longer needed. Take it off the tray.
loading-wrong-slot = { $what }: it belongs in { $slot }.
loading-wrong-no-slot = { $what }: it no longer has a slot.
loading-note-changed = The plan changed while the tray was loaded. Read and understood: { $wrong }
