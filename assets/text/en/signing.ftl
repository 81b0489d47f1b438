# Event files: approvals, readings and the log.

## What can be wrong with an event file. Every text also has { $file } and { $line }.

sign-file-empty = { $file }: the file contains no line at all
sign-file-too-large = { $file }: the file is larger than { $limit } bytes, more than events can fill
sign-file-other-encoding = { $file }: the file is written in { $name }, not in UTF-8
sign-file-byte-order-mark = { $file }: another program put a byte order mark before the first line
sign-file-carriage-returns = { $file }, line { $line }: another program changed the line ends to CR LF
sign-file-not-an-event-file = { $file }, line { $line }: this is not how an event file begins ({ $detail })
sign-file-newer-version = { $file }: written in version { $found } of the format; this program reads version { $known }
sign-file-other-case = { $file }: these events belong to case { $found }, not to case { $expected }
sign-file-other-jaw = { $file }: these events belong to the { $found ->
        [upper] upper jaw
       *[lower] lower jaw
    }, not to the { $expected ->
        [upper] upper jaw
       *[lower] lower jaw
    }; nothing of one jaw verifies the other
sign-file-blank-line = { $file }, line { $line }: a blank line
sign-file-line-too-long = { $file }, line { $line }: the line has { $found } bytes, more than the { $limit } that one can have
sign-file-not-utf8 = { $file }, line { $line }, byte { $column }: the line is not written in UTF-8
sign-file-not-json = { $file }, line { $line }, byte { $column }: the line cannot be read ({ $detail })
sign-file-not-an-event = { $file }, line { $line }: the line is no event of this program ({ $detail })
sign-file-unknown-kind = { $file }, line { $line }: this program does not know events of the kind “{ $name }”; a newer one may have written it
sign-file-impossible = { $file }, line { $line }: { $detail }
sign-file-edited = { $file }, line { $line }: the line was changed after it was written
sign-file-not-as-written = { $file }, line { $line }: the line was rewritten by another program
sign-file-other-writer = { $file }, line { $line }: a line by { $found } in the file of { $expected }
sign-file-repeated = { $file }, line { $line }: event { $found } appears again where event { $expected } is due
sign-file-missing = { $file }, line { $line }: event { $found } follows where event { $expected } is due; lines are missing
sign-file-chain-broken = { $file }, line { $line }: the line before is not the one that this line was written after
sign-file-clock-went-back = { $file }, line { $line }: the time { $at } is earlier than { $before } of the event before
sign-file-cut-short = { $file }, line { $line }: the file ends within the line ({ $bytes } bytes of it), as after a power cut
sign-file-copy = { $file }: a copy of the events of { $writer } under another name
sign-file-not-in-place = { $file }: events of { $writer } that its own file has not, under another name
sign-file-unreadable = { $file }: this looks like events, and is no event file that can be read
sign-file-no-file = { $file }: this has the name of a file of events, and is no file that can be read (a link that leads nowhere, a folder, a device)
sign-file-within = { $file }: this has the name of a file of events and lies in a folder of the record, where none is read
sign-file-put-aside-in-silence = { $file }: a file of events that was put aside, and no event says so
sign-file-forked = { $file }: { $writer } has two histories that part at event { $seq }; its file was copied and both were continued
sign-file-gone = { $file }, line { $line }: event { $seq } is not there any more, but was read here before
sign-file-lost = { $file }, line { $line }: event { $seq } is not there, but { $by } was written after it
sign-file-no-line-end = { $file }, line { $line }: the last line is whole, only its end is missing

## What an event cannot say. { $key } is the key in the file.

sign-kind-empty = { $key } is empty
sign-kind-long = { $key } has { $found } characters, the limit is { $limit }
sign-kind-character = { $key } holds the character { $found }, which is not seen and can show it as another text; remove it
sign-kind-length = { $key } is { $found }: must be above 0 and at most { $limit }
sign-kind-day = { $key } is { $found }: must be from { $first } to { $last }
sign-kind-scale = { $key } is { $found }: must be from { $least } to { $most }
sign-kind-other = { $key } is of another kind than what it corrects
sign-kind-torque = { $key } is { $found } N·cm: must be at least 1 and at most { $limit }
sign-append-long = the line has { $found } bytes, the limit is { $limit }

## What is no name of a person or a desk.

sign-name-empty = a name needs at least one letter or digit
sign-name-no-letter = a name needs letters: a figure, a length or a scanned code is none
sign-name-calling = the initials or the name of a person are needed, not a calling
sign-name-several = one person signs here; the other signs separately
sign-name-long = a name of { $found } characters is above the limit of { $limit }
sign-name-unprintable = no font of this program can print { $found }, so that the paper could not say who signed; write the name in Latin letters
sign-name-character = a name cannot hold { $found }

## What mends it.

sign-remedy-converted = Save the file again as UTF-8 without a byte order mark and with LF line ends, or take it from a copy that no other program has opened.
sign-remedy-update = Open the case with the program version that wrote it, or a newer one.
sign-remedy-move = Move { $file } to the case that it belongs to.
sign-remedy-none = Nothing is lost and nothing needs to be done.
sign-remedy-clock = Correct the clock of that desk; the events count in the order in which they were written.
sign-remedy-redo = Nothing that was signed on this case counts until the rest of the line is put aside at that desk: in the view Sheet, by traywright put-aside, or with the next approval by traywright approve. What was lost is then told; record it again.
sign-remedy-replace = Nothing that was signed on this case counts until that is mended. Restore an intact copy of { $file }; if there is none, put it aside in the view Sheet: then approve and read again.
sign-remedy-restore = Nothing that was signed on this case counts until that is mended. Restore an intact copy of { $file }; if there is none, put it aside in the view Sheet: then approve and read again.
sign-remedy-within = Nothing that was signed on this case counts until that is mended. Move { $file } to where it was; if it is of no use, put it aside in the view Sheet: then approve and read again.
sign-remedy-rename = Nothing that was signed on this case counts until that is mended. Give { $file } the name back that it had.

## Joining the files of several desks.

sign-merge-other-case = Events of case { $found } cannot be merged with events of case { $expected }.
sign-merge-other-jaw = Events of the { $found ->
        [upper] upper jaw
       *[lower] lower jaw
    } cannot be joined to events of the { $expected ->
        [upper] upper jaw
       *[lower] lower jaw
    }.
sign-merge-forked = { $writer } has two histories that diverge at event { $seq }: its file was copied and both copies were continued. Keep one of them.

## A line that was never finished and was put aside.

sign-torn-lost = The rest of a line that was never finished was put aside: { $file }. { $by } was to be recorded with { $lost ->
        [approval] an approval
        [opened] what was opened
        [beside] what was there
       *[note] a note
    }. Record it again; all else is as it was.
sign-torn-aside = The rest of a line that was never finished was put aside: { $file }. It may have taken something back. Nothing that was signed on this case before counts any more.

## Why an approval does not hold.

sign-clock-ahead = The desk { $writer } wrote times up to { $at }, which is later than now. Its clock or this one is wrong: correct it. Events count in the order in which desks had read them.
sign-purpose-unsaid = It does not say whether it was for a patient or for practice.
sign-void-broken = The record of this case has a break; what is missing may have withdrawn it.
sign-void-set-aside = A damaged part of the record was put aside ({ $by }); nothing signed before counts.
sign-approval-other-extent = The plan code of then covered other parts of the plan (extent { $covered }); names of instruments, the step after a drill, irrigation, the guide’s code or the scan’s date may have changed. Approve again.
sign-approval-practice = Given for practice; it never counts.
sign-approval-fingerprint-differs = The approved plan is { $approved }; this one is { $current }.
sign-approval-withdrawn = Withdrawn by { $who }: { $reason }
sign-approval-acceptances-not-covered = Accepted since, without approval: { $keys }.
sign-approval-decisions-changed = Accepted with another reason or by another name than was approved: { $keys }.
sign-approval-acceptances-gone = No longer accepted: { $keys }.

## Why a reading does not count.

sign-reading-practice = Taken for practice; it never counts.
sign-reading-drill-not-in-plan = The plan does not use drill { $drill }.
sign-reading-copy-not-in-plan = The plan does not use a drill { $drill } no. { $copy }.
sign-reading-instrument-changed = The kit has another drill or stop under these names than when drill { $drill } no. { $copy } was read, or the record does not say which it was.
sign-reading-stop-changed = The plan has another stop on drill { $drill } no. { $copy }.
sign-reading-setting-changed = Read at a setting of { $read }; the plan sets drill { $drill } no. { $copy } to { $planned }.
sign-reading-gauge-changed = Read on gauge { $read }; the plan reads it on gauge { $planned }.
sign-reading-reset = The stop was moved since.
sign-reading-told = A STOP told to take it and set it anew since.
sign-reading-handled = The stop was set, locked or tugged since.
sign-reading-read-otherwise = The drill was read at another setting since.
sign-reading-other-gauge = The drill was read on another gauge since.
sign-reading-dropped = The drill was dropped since.
sign-reading-fall-taken-back = A fall of the drill was taken back since.
sign-reading-another-sitting = Another sitting was begun since.
sign-reading-landings = The stop landed { $times } times since; a reading holds for fewer than { $limit }.
sign-reading-superseded = Read again since.

## A reading against the plan.

sign-judged-in-tolerance = In tolerance, { $shallower } to the shallow side.
sign-judged-too-deep = Too deep by { $by }. Do not use the drill as it is set.
sign-judged-too-shallow = Too shallow by { $by }.
sign-judged-no-figure = The plan has no figure for the gauge here.
sign-mistyped-outside-gauge = Mistyped? The gauge shows { $least } to { $greatest }.
sign-mistyped-off-graduation = Mistyped? The gauge has graduations of { $graduation } and shows no such figure.
sign-mistyped-far-off = Mistyped? It is { $by } off.
sign-mistyped-decimal-mark = Mistyped? The digits are those of the expected figure, but the decimal mark is in another place.

## What keeps a setting from being verified.

sign-check-practice = A demonstration; nothing counts.
sign-check-first-missing = The first reading is missing.
sign-check-second-missing = The second reading is missing.
sign-check-bench-only = Read on the bench only; it has to be read again after sterilisation.
sign-check-same-person = Both readings may be by { $who }; another person has to read. If they are two people, enter both in the team of the case as they sign, by full names where their letters are alike.
sign-check-set-it = The second reading is by { $who }, who set the stop and saw its figure; another person has to read.
sign-check-saw-approved = The second reading is by { $who }, who approved the plan before and saw its figures; another person has to read.
sign-check-saw-set = The second reading is by { $who }, who began to set stops of this case before and saw their figures; another person has to read.
sign-check-saw-read = The second reading is by { $who }, who read stops of this case before with their figures in sight; another person has to read.
sign-check-saw-worked = The second reading is by { $who }, who recorded steps of surgery before and saw their figures; another person has to read.
sign-check-saw-left = The second reading is by { $who }, who went from a second reading to where figures stand before; another person has to read.
sign-check-contradicted = Another reading of the same setting does not agree.
sign-check-gauge-not-checked = Gauge { $gauge } was not checked with its check piece beforehand.
sign-check-gauge-no-figure = Gauge { $gauge } shows no { $value }: what was entered of its check piece is no check.
sign-check-gauge-check-old = Gauge { $gauge } was last checked with its check piece too long before.
sign-check-gauge-off = Gauge { $gauge } is { $off } off on its check piece.
sign-check-gauge-fell = Gauge { $gauge } was dropped after it was checked.
sign-check-gauge-found-off = Gauge { $gauge } was { $off } off at its next check: nobody knows since when.
