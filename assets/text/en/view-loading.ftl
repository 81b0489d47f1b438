### What the loading view says. It is read standing: short words.

## Opening

loading-title = Load the tray
loading-who-works = The sterile person sets and calls out. The circulating person operates this program: sterile hands never touch it.
loading-no-file = This case has no file yet. Save it first: what is recorded is kept beside its file.
loading-record-broken = The record of this case has a break. Nothing that is read now would count. Mend it first.
loading-file-gone = The file of this case is gone from the disk. Nothing is done here until it is there again: Save writes it anew.
loading-file-other = The file of this case cannot be read any more, or holds another plan. Nothing is done here until it is in order: Save asks what to do.
loading-unsaved = The plan has changes that are not saved. Save it first, so that every desk loads the same plan.
loading-stage-bench = On the bench, before sterilisation
loading-stage-sterile = In the sterile field
loading-stage-bench-short = bench
loading-stage-sterile-short = sterile field
loading-stage-after = after use
loading-pass-set = Set and read
loading-pass-set-what = One person, alone. The figures fill the screen: whoever reads again keeps away from it.
loading-pass-again = Read again
loading-pass-again-what = Another person, alone, in another order. No figure is shown. It catches a wrong stop, not a figure that is remembered.
loading-pass-sterile = Set what is opened
loading-pass-sterile-what = For drills that are opened or re-set here, figures in sight. A second sterile person then reads them aloud.
loading-pass-aloud = Read aloud
loading-pass-aloud-what = One reads the gauge aloud, another enters it; nobody sees what it should be. It does not catch a figure that both remember.
loading-cannot-read = Cannot read without figures (A) now, having seen them: { $who }. { $hours ->
        [one] Somebody else reads, or one of them an hour after the last figure.
       *[other] Somebody else reads, or one of them { $hours } hours after the last figure.
    }
loading-left-to-read = Of the team left to read: { $who }
loading-nobody-left-to-read = Nobody of the team is left to read: find the person before anything is set.
loading-ask-person = Who sets and reads? Initials
loading-ask-suggested = Enter alone: { $who }, who records in surgery
loading-not-approved = NOT APPROVED
loading-practice = DEMONSTRATION, practice only
loading-gauge-title = First the gauge
loading-gauge-piece = Insert the check piece of { $piece }. What does the gauge show?
loading-gauge-should = It should show { $shown }, its constant added.
loading-gauge-what = Nothing is set until the gauge reads its check piece correctly.
loading-gauge-no-piece = The kit names no check piece. Take a trusted length: what is marked on it?
loading-gauge-more = The gauge reads { $by } too high. Set nothing on it: clean it, check it again, or put another gauge into the plan.
loading-gauge-no-figure = { $value }: mistyped? The gauge shows no such figure. Read the gauge again and type what it shows.
loading-gauge-mistyped = { $value }: mistyped? Read the gauge again and type what it shows. Typed once more, it counts as shown by the gauge.
loading-gauge-doubted = { $value } is not what the gauge should show of its check piece. Read the gauge again and type what it shows. If that is wrong too, it counts, and what was read on the gauge is in doubt.
loading-gauge-open = The last check of the gauge was not finished: a figure that speaks against it was asked back.
loading-gauge-was-more = The gauge was found off at its last check: it reads { $by } too high. Set nothing on it before it is sound.
loading-gauge-was-less = The gauge was found off at its last check: it reads { $by } too low, so that every drill would be set too long. Set nothing on it before it is sound.
loading-gauge-contradicted = { $gauge }: what it showed of its check piece was asked back, or was not the same twice, and what it adds is not entered in the kit: nobody knows whether it is sound. Set nothing on it.
loading-gauge-in-doubt = In doubt, to be read again: { $drills }.
loading-gauge-less = The gauge reads { $by } too low: every drill would be set too long. Set nothing on it: clean it, check it again, or put another gauge into the plan.

## The line at the top

loading-head = Loading · { $jaw } · { $case } · { $fingerprint }
loading-progress = { $done } of { $all } in the tray
loading-progress-undone = { $done } of { $all } in the tray, { $undone } there to be done again

## The thing in hand

loading-nothing = The plan has nothing for the tray.
loading-for = for { $site }
loading-for-many = for { $count } sites
loading-mm = mm
loading-piece-is = piece { $mark }
loading-piece = Which piece
loading-piece-drill = { $drill } no. { $copy }
loading-piece-ask = Which piece is it? Scan or type what stands on it
loading-piece-listed = The kit has:
loading-piece-none = Say what stands on it
loading-piece-not-listed = The kit has no piece { $mark } of { $drill }. It has: { $list }
loading-piece-elsewhere = { $mark } is recorded as { $drill } no. { $copy }. Look again; if it is this one, say first which piece that one is
loading-tip-to-face = tip to the stop's landing face
loading-step-take = take
loading-step-set = set
loading-step-lock = lock
loading-step-tug = tug
loading-step-read = read
loading-step-place = place
loading-step-due = { $step }: now
loading-step-done = { $step }: done
loading-step-ahead = { $step }: later
loading-do-take = Take it
loading-do-open = Open it: it is set and read now
loading-do-take-from = Take it from { $slot }
loading-do-set = Set the stop on the gauge
loading-do-grooves = Put the stop in groove { $place } of { $count }, counted from the tip
loading-do-groove = Put the stop in its groove
loading-lay-unset = It does not fit as it would be set first: place it and do not set it. In surgery it is set for a later step.
loading-do-lock = Lock the stop
loading-do-tug = Tug the stop: does it hold?
loading-do-read = Read the gauge
loading-all-take = Take it: { $length } long
loading-all-take-drop = Take it: { $length } long, falls freely through { $bores }
loading-do-all = { $set }, lock, tug, then type the reading
loading-all-set = Set
loading-all-grooves = Stop in groove { $place } of { $count } from the tip
loading-all-groove = Stop in its groove
loading-do-all-place = { $set }, lock, tug. Place it in { $slot }
loading-do-leave-sealed = Leave it sealed. Place it in { $slot }
loading-do-place = Place it in { $slot }
loading-still-set = It is still set to { $set }, as in the earlier plan.
loading-still-mark = It was placed for its mark at { $set }, as in the earlier plan.
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
loading-look-alike = Look-alikes: the same drill at { $others }
loading-look-alike-mark = its mark at { $mark }
loading-look-alike-gauge = { $gauge } on the gauge ({ $set } tip to stop)
loading-look-alike-in = { $set } in { $slot }
loading-lies = { $name } is in { $slot }
loading-read-unapproved = Read by { $first }, then blind by { $second }. The plan is not approved: nothing counts as verified until it is.
loading-verified = Verified: read by { $first }, then blind by { $second }.
loading-practised = Practised: read by { $first }, then blind by { $second }. It does not count.
loading-sealed = Sealed until called for: set and read when opened.
loading-read-once = Set and read by { $who }. It is not verified until another person has read it without sight of a figure.
loading-read-aloud = Verified: read twice on the bench, then read aloud by { $who }.
loading-aloud-unapproved = Read twice on the bench, then read aloud by { $who }. The plan is not approved: nothing counts as verified until it is.
loading-aloud-practised = Practised: read twice on the bench, then read aloud by { $who }. It does not count.
loading-laid-once = { $count } set and read once. Press T, and only then call the other person: alone, by A, without a figure in sight.
loading-laid-aloud = { $count } to be read aloud, with no figure in sight: press T, then C.
loading-all-done = The tray is loaded.
loading-all-done-bench = The tray is loaded on the bench.
loading-all-laid = The tray is laid, not approved.
loading-all-laid-bench = The tray is laid on the bench, not approved.
loading-all-laid-practice = The tray is laid, for practice.
loading-all-laid-practice-bench = The tray is laid on the bench, for practice.
loading-read-again = In the sterile field every stop is read again.
loading-plan-practice = For practice: this plan is not approved for a patient, and nothing that is read counts.
loading-plan-not-approved = No approval of this plan holds: nothing that is read counts as verified.
loading-all-done-unread = { $count } that no gauge can read: not verified.
loading-all-done-sealed = { $count } sealed: to be set and read when opened.
loading-rest-short = Everything that can be loaded is loaded. Something is missing: see the list.
loading-no-slot-remedy = Choose a tray with more slots in the case, or place it where the team agrees and write that down.
loading-do-not-set = Do not set
loading-do-not-use = Do not use
loading-no-mark = No mark of this drill is known to drill to.
loading-no-figure = The plan has no figure for this drill.
loading-no-figure-remedy = The site's page says which entry is missing. Do not drill with it.
loading-does-not-fit-remedy = Do not set it and do not drill with it. The surgeon changes the plan, or accepts this with a reason.
loading-no-gauge-figure = What the gauge would show is not known: its kit entry does not say which face of the stop it reads.
loading-no-gauge-constant = What the gauge would show is not known: its kit entry does not say what it adds to a length.
loading-no-gauge-constant-remedy = Find out what the gauge adds, and enter it in the kit: 0 if it adds nothing.
loading-no-gauge-remedy = Find out which face the gauge reads, and enter it in the kit.

## Set anew in surgery

loading-later = Not now: in surgery
loading-later-bench = Nothing is done for it on the bench. It is re-set and read in the sterile field.
loading-later-first = Another setting of this drill comes before it: that one is set first, and read or told as passed over.
loading-later-open = When the step before it is done: press O, then re-set it. It is read twice like any stop.
loading-later-unread = At { $set }, before it, it was not read twice. Read that first, or press O: it is recorded as passed over.
loading-later-misfit = Before that it is not used: it does not fit there. Press O: it is recorded as passed over.
loading-later-two = It takes a second sterile person, who reads it aloud.
loading-passed = Its stop was re-set since
loading-passed-misfit = It does not fit for that step, and was not set for it.
loading-passed-over = Passed over by { $who }: it was not read twice at this setting.
loading-stands-later = Not as planned for the first use: { $name }, { $slot }, is at { $now }, a later setting, not at { $first }.
loading-set-back = Is its first use not finished? Press L, choose no. { $number }, press R: set it back to { $first }.
loading-set-back-here = Is its first use not finished? Press R and set it back to { $first }.
loading-left-later = At a later setting: { $count }.
loading-anew-when = Re-set during surgery { $when }
loading-anew = Re-set for the next step
loading-again-anew = Is the step before it done? Press O again: what was read of this drill no longer counts, and a second sterile person reads it aloud. Any other key: no.
loading-again-misfit = Is the step before it left out, since the drill does not fit there? Press O again: it is recorded as passed over, and a second sterile person reads it aloud. Any other key: no.
loading-again-passed-over = It was not read twice at the setting before. Is its step over or left out? Press O again: it is recorded as passed over, and a second sterile person reads it aloud. Any other key: no.
loading-all-done-anew = { $count } to be re-set in surgery: see the list.
loading-list-anew = Re-set during surgery: { $drill }, { $when }: { $state }
loading-state-later = not now
loading-state-passed = re-set since
loading-state-passed-over = passed over, not read twice
loading-state-anew = to be re-set now
loading-stop-resets = The re-sets are not the same as before: see the list.

## Beside the tray

loading-beside-first = Before the first drill: is it there? Drills are dropped through its sleeves.
loading-beside = Beside the tray: is it there?
loading-beside-of = { $number } of { $all } beside the tray

## What was set and read

loading-record = What was read
loading-record-title = What was set and read
loading-record-none = Nothing was read at this stage yet.
loading-record-row = { $number }. { $name }, { $slot }: set { $setting }, the gauge is to show { $figure }; { $first }; { $second }
loading-record-reading = read { $value } by { $who }
loading-record-open = not read
loading-record-refused = not accepted: { $value } by { $who }
loading-record-doubt = in doubt, the gauge was not sound: { $value } by { $who }
loading-record-practice = lapsed, read for practice: { $value } by { $who }
loading-record-misfit = { $number }. { $name }, { $slot }: { $setting }, not set, passed over by { $who }
loading-record-passed-over = { $number }. { $name }, { $slot }: set { $setting }, passed over by { $who }, not read twice
loading-record-fell = { $what }: dropped, reported by { $who }
loading-record-not-fell = { $what }: reported dropped by { $who }, not dropped after all by { $by }
loading-record-lapsed = no longer counts: { $value } by { $who }

## Readings that are not accepted

loading-moved-on = The record changed meanwhile: something else is asked for. What was typed is not recorded.
loading-no-length = That is not a length. Type what the gauge shows, in millimetres.
loading-code-unknown = { $code }: no instrument of the kit has this code. Nothing is recorded.
loading-code-not-asked = The code of { $name }: nothing is taken now. Nothing is recorded.
loading-code-other = { $scanned } was scanned. { $wanted } is to be taken. Put { $scanned } back; scan the right one, or press U and go on without a code.
loading-code-go-on = Read. Go on without a code
loading-code-right = The code is that of { $name }.
loading-mistyped = { $typed }: mistyped, and not recorded. Type what the gauge shows, with its decimal.
loading-read-as = { $value }: { $words }
loading-new-person = New here: { $who } (known: { $known }). If { $who } is right, press Enter again.
loading-same-person = { $who } may be the person who reads aloud. Another person enters: enter other initials.
loading-new-person-near = New here: { $who }, close to { $near }: only if { $who } is another person than { $near }, press Enter again.
loading-saw-approved = { $who } approved this plan today and saw its figures. Another person reads: enter other initials.
loading-saw-set = { $who } set stops of this case today and saw their figures. Another person reads: enter other initials.
loading-saw-read = { $who } read stops of this case today with their figures in sight. Another person reads: enter other initials.
loading-saw-worked = { $who } recorded steps of surgery of this case today and saw their figures. Another person reads: enter other initials.
loading-saw-left = { $who } went from a second reading to where figures stand, or it was broken off. Another person reads: enter other initials.
loading-first-remedy = It is recorded. Re-set the stop, lock it, tug it; then it is read again.
loading-mistyped-remedy = It is recorded. Read the gauge again and re-enter the figure; if it is right, re-set the stop (R).
loading-second-set-anew = The second reading does not agree. Re-set the stop; then it is read twice again.
loading-gauge-sound = The gauge was checked since and is sound. Read it again and enter what it shows.
loading-gauge-remedy = Check the gauge with its check piece, then read again.

## Targets and keys

loading-done = Done
loading-placed = In place
loading-is-there = It is there
loading-go-on = Continue
loading-enter = Enter
loading-previous = Previous
loading-next = Next
loading-reset = Re-set
loading-other-stage = Other pass
loading-open = Open it
loading-singly = Step by step
loading-together = All at once
loading-fell = Dropped
loading-check-gauge = Check gauge
loading-not-fell = Was not dropped
loading-gauge-fell = Gauge dropped
loading-list = List
loading-leave = Exit
loading-back = Back to the passes
loading-key-space = Space
loading-key-escape = Esc
loading-key-mark = Decimal mark
loading-key-back = Back
loading-tray = The tray

## What is left and what is missing

loading-left = Left: { $set } to set, { $lay } to place.
loading-left-second = { $count } to be read by another person.
loading-nothing-short = Nothing is missing from stock.
loading-plan-open = The plan itself: { $short } short, { $unknown } unknown. See its findings.
loading-short = Missing or not to be used: { $count }
loading-short-first = Missing or not to be used: { $count }. { $first }
loading-short-no-figure = { $name }: no figure, do not set
loading-short-no-mark = { $name }: no mark to drill to, do not use
loading-short-does-not-fit = { $name }: does not fit, do not set
loading-short-unset = { $name }: does not fit as it would be set first, place it and do not set it
loading-short-no-gauge-figure = { $name }: no figure for this gauge, do not set
loading-short-dropped = { $count ->
    [one] { $name }: dropped, none left
   *[other] { $name }: { $count } dropped, none left
}
loading-short-no-slot = { $name }: no slot left

## The list

loading-list-title = Everything for the tray
loading-list-row = { $number }. { $name }, { $slot }: { $state }
loading-state-verified = in its slot, read twice
loading-state-sealed = in its slot, sealed
loading-state-unset = not set, since it does not fit as it would be set first
loading-state-laid = in its slot
loading-state-blocked = do not set
loading-state-no-mark = do not use
loading-state-wrong-mark = in the tray, for a mark of the earlier plan: WRONG
loading-state-wrong = in the tray, set for the earlier plan: WRONG
loading-state-again = in the tray, to be set and read again
loading-state-open = to be taken
loading-state-begun = begun
loading-state-read-there = in the tray, to be read again
loading-state-second = in its slot, second reading missing
loading-state-refused-there = in the tray, second reading refused: to be re-set
loading-state-refused = second reading refused: to be re-set
loading-state-none-left = dropped, none left
loading-state-took-a-place = took the place of what fell
loading-state-over = all its steps are over
loading-state-over-otherwise = set otherwise; all its steps are over
loading-state-to-lay = to be placed

## Keys that take readings away are pressed twice

loading-again-open = Open its wrapping? Press O again: it is set and read then, and the record says that it was opened. Any other key: no.
loading-again-stage = Another pass or person? Press T again: pass, initials and gauge are asked for again. Any other key: no.
loading-again-reset = Press R again: both readings of this drill are taken again. Any other key: no.
loading-again-fell = Was it dropped? Press F again: its readings no longer count. Any other key: no.
loading-again-not-fell = Not dropped after all? Press N again: that is recorded with your initials, and it is set and read anew. Any other key: no.
loading-blind-held = The readings without figures go on: Esc, pressed twice, leaves them.
loading-again-leave-aloud = Leave to where figures stand? Press Esc again: this pass ends, and that is recorded.
loading-again-leave = Leave to where figures stand? Press Esc again: this pass ends, and its reader cannot begin another today.
loading-again-gauge = Was the gauge dropped? Press D again: it is checked before the next reading. Any other key: no.

## Falls

loading-fell-spare = { $name } dropped: set it aside. { $count } more in stock; start again with one.
loading-fell-spares = Its spare: { $spares }. Take it: it counts as taken.
loading-fell-stop = Check its stop: if intact, it is re-set on the spare and read twice; otherwise take another.
loading-fell-no-spare = { $name } dropped: set it aside. There is no spare in stock.
loading-took-a-place = { $name } took the place of what fell. Nothing more to place.
loading-over = { $name }: every step that it is set for is done or left out. Nothing to set.
loading-none-left = None left
loading-none-left-what = { $name } was dropped, and there is no other. It is missing from the tray.
loading-none-left-remedy = Where another one is found, it is entered in the kit's stock and the kit taken into the case anew; then it goes on here.

## The plan changed

loading-stop = STOP
loading-stop-why = The tray is not as the plan has it:
loading-stop-changed = The plan has changed.
loading-stop-nothing-wrong = Nothing that was set, read or placed is wrong.
loading-stop-approval = The approval no longer holds: the plan has to be approved again.
loading-stop-added = New in the plan: { $names }.
loading-stop-unsaved = The change is not saved yet. Save it, or exit and undo it there.
loading-stop-more = Sentences: { $count }. More below: Page Down. Read to the end first.
loading-stop-asks = { $what }: taken off the tray?
loading-stop-asks-stop = { $what }: in a hand, and its stop loosened?
loading-stop-taken = Yes, done
loading-stop-stays = No, it stands as it was
loading-stop-all-taken = All of it was taken.
loading-stop-some-stay = What stands below was not taken: it counts as set as it was, and is not used so.
loading-understood = Read. Continue with the plan as it is now
loading-wrong-for = { $name } for { $sites }
loading-wrong-in = { $name } in { $slot }
loading-wrong-setting = { $what }: set to { $was }, now planned at { $now }. Take it and re-set it.
loading-wrong-otherwise = { $what }: set otherwise than planned now. Who sets takes it and sets it anew.
loading-wrong-who-sets = { $what }: not as the plan has it now. Who sets puts it right.
loading-wrong-mark = { $what }: placed for its mark at { $was }, now planned to its mark at { $now }. Take it and place it anew.
loading-wrong-either = { $what }: its fall was taken back after another was laid or set in its place. There are two, and nobody knows which this is. Take both; put one out of reach, and set and read the other again.
loading-wrong-instrument = { $what }: the kit now has another drill or stop under this name, or the record does not say which lies here. Take it, hold it against the kit, and re-set it.
loading-wrong-stop = { $what }: another stop is planned on it. Take it and re-set it.
loading-wrong-gauge = { $what }: the gauge is to show another figure. Take it, and set and read it again.
loading-wrong-again = { $what }: nothing read or placed so far counts for this case. Take it, and set and read it again.
loading-wrong-off = { $why } Take it off the tray.
loading-wrong-stop-does-not-fit = { $what }: its stop no longer fits.
loading-wrong-does-not-fit = { $what }: it no longer fits as it is to be used.
loading-wrong-no-figure = { $what }: its setting is no longer known.
loading-wrong-no-mark = { $what }: the mark to drill to is no longer known.
loading-wrong-no-gauge-figure = { $what }: what the gauge should show of it is no longer known.
loading-wrong-not-needed = { $what }: no longer needed. Take it off the tray.
loading-wrong-slot = { $what }: it belongs in { $slot }.
loading-wrong-slot-alike = { $what }: it belongs in { $slot }, and another drill looks the same. Take it, and set and read it again.
loading-wrong-no-slot-alike = { $what }: it no longer has a slot, and another drill looks the same. Take it, and set and read it again.
loading-wrong-told = { $what }: it was told to be taken, and is wanted as before again. Take it, and set, read and lay it again.
loading-wrong-told-off = { $what }: it was told to be taken off its slot, and is wanted there again. Take it and lay it again; it stays as it is set.
loading-wrong-no-slot = { $what }: it no longer has a slot.
loading-note-changed = STOP while the tray was loaded. Read and understood: { $wrong }
loading-note-left = STOP while the tray was loaded. Read and understood, and not said to be done: { $wrong }

## The pass without figures

loading-blind-title-bench = Read again · bench
loading-blind-title-sterile = Read aloud · sterile field
loading-blind-case = { $jaw } · { $case }
loading-blind-ask-reader = Who reads? Nobody who has seen a figure of this case. Initials
loading-blind-cut-off = The pass of { $who } was cut off, and no figure was shown here since. With the same initials it goes on. Esc: to where figures stand, which ends it.
loading-blind-ask-aloud = Who reads the gauge aloud? Initials
loading-blind-ask-enters = Who enters what is read aloud? Initials
loading-blind-reads = { $who } reads alone
loading-blind-reads-aloud = { $who } reads aloud
loading-blind-enters = { $who } enters
loading-blind-progress = { $read } of { $all } found as planned
loading-blind-progress-aside = { $aside } set aside, to be re-set
loading-blind-row = { $name }, { $slot }: { $state }
loading-blind-now = now
loading-blind-open = to be read
loading-blind-agreed = agrees
loading-blind-set-anew = to be re-set
loading-blind-gone = no longer to be read here
loading-blind-take-from = Take it from { $slot } and read it
loading-blind-take = Take it and read it
loading-blind-back = { $name } agrees. Put it back in { $slot }.
loading-blind-agrees = { $name } agrees.
loading-blind-refused = { $name }: { $value } is not accepted. It is recorded. Read the gauge again.
loading-blind-mistyped = { $name }: { $value } is not accepted. It is recorded. Read the gauge and type it again.
loading-blind-disagree = { $name }: two people do not read the same. Set it aside: it is to be re-set.
loading-blind-aside = { $name }: { $value } is not accepted. Set it aside, not back on the tray: it is to be re-set. Then take the next.
loading-blind-gauge = The gauge was not sound: check it with its check piece, then read again.
loading-blind-gauge-sound = The gauge was not sound then. It was checked since and is: read again.
loading-blind-left-out = { $count } to be read by somebody else, who neither set nor read them.
loading-blind-nothing = Nothing is to be read again. First the stops are set and read.
loading-blind-all-twice = All are read twice. Nothing is left to be read here.
loading-blind-readable-twice = All that can be read here are read twice.
loading-blind-sealed = { $count } sealed: set and read when opened.
loading-blind-unset = { $count } not set and read yet.
loading-blind-unlaid = { $count } read and in no slot: who sets places them.
loading-blind-all-read = { $count } read again and found as planned.
loading-blind-open-again = { $count } to be read again: end this pass and begin another.
loading-blind-to-set = { $count } to be set and read anew.
loading-blind-no-longer = { $count } no longer to be read here: dropped, handled or not in the plan any more.
loading-blind-changed = The plan has changed. This pass ends here: fetch the person who sets.
loading-blind-lies = The tray does not lie as the plan has it. Nothing is read here: fetch the person who sets.
loading-blind-file-gone = The file of this case is gone from the disk. Nothing is read here: fetch the person who sets.
loading-blind-file-other = The file of this case cannot be read any more, or holds another plan. Nothing is read here: fetch the person who sets.
loading-blind-why = No setting and no reading of another person is shown. It protects against a slip, not against a figure that is remembered.
loading-blind-end = End this pass
