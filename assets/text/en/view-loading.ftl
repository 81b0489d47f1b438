### What the loading view says. It is read standing: short words.

## Opening

loading-title = Load the tray
loading-who-works = The sterile person sets and calls out. The circulating person works this program: sterile hands never touch it.
loading-no-file = This case lies in no file yet. Save it first: what is recorded is kept beside its file.
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
loading-gauge-piece = Put in the check piece of { $piece }. What does the gauge show?
loading-gauge-what = Nothing is set before the gauge shows its check piece right.
loading-gauge-no-piece = The kit names no check piece. Take a length that you trust: what is marked on it?
loading-gauge-more = The gauge shows { $by } too much. Set nothing on it: clean it, check it again, or take another gauge into the plan.
loading-gauge-less = The gauge shows { $by } too little: every drill would be set too long. Set nothing on it: clean it, check it again, or take another gauge into the plan.

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
loading-do-take-from = Take it out of { $slot }
loading-do-set = Set the stop on the gauge
loading-do-groove = Put the stop in its groove
loading-do-lock = Lock the stop
loading-do-tug = Tug at the stop: does it hold?
loading-do-read = Read the gauge
loading-do-read-again = Second reading
loading-do-place = Place it in { $slot }
loading-still-set = It is still set to { $set }, as the plan was before.
loading-take-length = Read its length from tip to end: { $length }.
loading-take-drop = Let it fall through { $bores }: it has to fall freely.
loading-set-stop = { $stop }: its bore is { $bore } and has to sit on the drill without play.
loading-stop-beside = With it goes its stop, not set yet, in the same slot: { $stop }.
loading-to-slot = → { $slot }
loading-may-open = It stays sealed. Open it only when it is called for.
loading-not-readable = No gauge can read it: it is not verified.
loading-accepted = accepted { $least } to { $most }
loading-reads = { $who } reads on the gauge
loading-typed = What the gauge shows
loading-other-person = Other person
loading-ask-first = Who reads? Initials
loading-ask-second = Another person reads, who saw no figure. Initials
loading-look-alike = Look-alikes: the same drill at { $others }
loading-look-alike-in = { $set } in { $slot }
loading-lies = It lies in { $slot }
loading-read-unapproved = Read by { $first }, then blind by { $second }. The plan is not approved: nothing counts as verified before it is.
loading-verified = Verified: read by { $first }, then blind by { $second }.
loading-practised = Practised: read by { $first }, then blind by { $second }. It does not count.
loading-sealed = Sealed until called for: set and read when it is opened.
loading-all-done = The tray is loaded.
loading-all-done-bench = The tray is loaded on the bench. In the sterile field every stop is read again.
loading-all-done-sealed = { $count } sealed: to be set and read when opened.
loading-rest-short = All that can be loaded is loaded. The rest is short: see the list.
loading-no-slot-remedy = Choose a tray with more slots in the case, or lay it where the team agrees and write that down.
loading-do-not-set = Do not set
loading-no-figure = The plan has no figure for this drill.
loading-no-figure-remedy = The site's page says which entry is missing. Do not drill with it.
loading-does-not-fit-remedy = Do not set it and do not drill with it. The surgeon changes the plan, or accepts this with a reason.
loading-no-gauge-figure = Nobody knows what the gauge would show: its kit entry does not say which face of the stop it reads.
loading-no-gauge-remedy = Find out which face the gauge reads, and enter it in the kit.

## Set anew in surgery

loading-later = Not now: in surgery
loading-later-bench = On the bench nothing is done for it. It is set anew and read in the sterile field.
loading-later-first = Before it another setting of this drill comes: that one is set and read first.
loading-later-open = When the step before it is done: press O, then set it anew. It is read twice as any stop is.
loading-passed = Its stop was set anew since
loading-stands-later = Not as planned for the first use: { $name }, { $slot }, stands at { $now }, a later setting, not at { $first }.
loading-set-back = Is its first use not over? Press L, choose no. { $number }, press R: set it back to { $first }.
loading-set-back-here = Is its first use not over? Press R and set it back to { $first }.
loading-left-later = At a later setting: { $count }.
loading-anew-when = Set anew in surgery { $when }
loading-anew = Set anew for the next step
loading-again-anew = Is the step before it done? Press O again: what was read of this drill no longer counts. Any other key: no.
loading-all-done-anew = { $count } to be set anew in surgery: see the list.
loading-list-anew = Set anew in surgery: { $drill }, { $when }: { $state }
loading-state-later = not now
loading-state-passed = set anew since
loading-state-anew = to be set anew now
loading-stop-resets = What is set anew in surgery is not the same as before: see the list.

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
loading-record-lapsed = counts no more: { $value } by { $who }

## Readings that are not accepted

loading-no-length = That is no length. Type what the gauge shows, in millimetres.
loading-same-person = { $who } may be the person who read first. The second reading is by another person: give other initials.
loading-set-it = { $who } may be the person who set the stop and saw its figure. The second reading is by another person: give other initials.
loading-first-remedy = It is recorded. Set the stop anew, lock it, tug at it; then it is read again.
loading-mistyped-remedy = It is recorded. Read the gauge once more and type it again; if it is right, set the stop anew (R).
loading-second-refused = Not accepted
loading-second-remedy = It is recorded. Read the gauge once more, or set the stop anew (R). Nobody says what it should show.
loading-second-set-anew = It is recorded. The stop is to be set anew; then both readings are taken again.
loading-gauge-remedy = Check the gauge on its check piece, then read again.

## Targets and keys

loading-done = Done
loading-placed = It lies there
loading-go-on = Go on
loading-enter = Enter
loading-previous = Before
loading-next = Next
loading-reset = Set anew
loading-other-stage = Stage
loading-open = Open it
loading-fell = It fell
loading-check-gauge = Check gauge
loading-gauge-fell = Gauge fell
loading-list = List
loading-leave = To the desk
loading-key-space = Space
loading-key-escape = Esc
loading-key-mark = Decimal mark
loading-key-back = Back
loading-tray = The tray

## What is left and what is short

loading-left = Left: { $set } to set, { $lay } to lay.
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
loading-list-note = The list shows no setting, so that it may be looked at during a second reading.
loading-state-verified = in its slot, read twice
loading-state-sealed = in its slot, sealed
loading-state-laid = in its slot
loading-state-no-slot = no slot left
loading-state-blocked = do not set
loading-state-wrong = lies on the tray, set as the plan was before: WRONG
loading-state-again = lies on the tray, to be set and read again
loading-state-open = to be taken
loading-state-begun = begun
loading-state-second = second reading missing
loading-state-to-lay = to be laid

## Keys that take readings away are pressed twice

loading-again-stage = Another stage? Press T again: stage, initials and gauge are asked for anew. Any other key: no.
loading-again-reset = Press R again: both readings of this drill are taken anew. Any other key: no.
loading-again-fell = Did it fall? Press F again: its readings no longer count. Any other key: no.
loading-again-gauge = Did the gauge fall? Press D again: it is checked before the next reading. Any other key: no.

## Falls

loading-fell-spare = { $name } fell: put it aside. { $count } more in stock; begin anew with one.
loading-fell-spares = Its spare: { $spares }.
loading-fell-stop = Look at its stop: whole, it is set anew on the spare and read twice; else take another.
loading-fell-no-spare = { $name } fell: put it aside. There is no spare in stock.

## The plan changed

loading-stop = STOP
loading-stop-why = The plan has changed. This is wrong now:
loading-stop-nothing-wrong = Nothing that was set, read or laid is wrong.
loading-stop-approval = The approval no longer holds: the plan has to be approved again.
loading-stop-added = New in the plan: { $names }.
loading-stop-unsaved = The change is not saved yet.
loading-understood = Read. Go on with the plan as it is now
loading-wrong-for = { $name } for { $sites }
loading-wrong-in = { $name } in { $slot }
loading-wrong-setting = { $what }: set to { $was }, now planned at { $now }. Take it and set it anew.
loading-wrong-stop = { $what }: another stop is planned on it. Take it and set it anew.
loading-wrong-gauge = { $what }: the gauge is to show another figure. Read it anew.
loading-wrong-not-needed = { $what }: not needed any more. Take it off the tray.
loading-wrong-slot = { $what }: it belongs in { $slot }.
loading-wrong-no-slot = { $what }: it has no slot any more.
loading-note-changed = The plan changed while the tray was loaded. Read and understood: { $wrong }
