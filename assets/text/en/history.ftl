### What was recorded of a case, in the order of the record.

## What happened

history-approval = Approved revision { $revision }, { $fingerprint }, with { $count ->
        [0] no finding accepted
        [one] 1 finding accepted or intended
       *[other] { $count } findings accepted or intended
    }
history-approval-withdrawn = Withdrew every approval of { $fingerprint } so far: { $reason }
history-reading = { $turn ->
        [first] First
       *[second] Second
    } reading { $stage ->
        [bench] on the bench
        [sterile_field] in the sterile field
       *[after_use] after use
    }: { $drill } no. { $copy }, set to { $set }, read { $value } on { $gauge }
history-reading-aloud = { $reading }; read aloud, entered by { $by }
history-handled = { $step ->
        [set] Set { $drill } no. { $copy } to { $set }
        [locked] Locked the stop of { $drill } no. { $copy } at { $set }
       *[tugged] Tugged at the stop of { $drill } no. { $copy } at { $set }, and it held
    }
history-reset = Moved or took off the stop of { $drill } no. { $copy }
history-reset-over = { $reset }; its setting of { $set } was left without being read as it had to be
history-dropped = Fell: { $what }
history-fall-taken-back = Did not fall, reported by mistake: { $what }. It is to be read anew
history-guide-did-not-fall = Did not fall, reported by mistake: { $what }. It is seated and sounded anew
history-guide = the guide, code { $code }
history-guide-no-code = the guide
history-drill = { $drill } no. { $copy }
history-piece-named = { $drill } no. { $copy } is the piece marked { $mark }
history-piece-unknown = Which piece { $drill } no. { $copy } is, nobody knows
history-landed = The stop of { $drill } no. { $copy } landed { $count ->
        [one] once
       *[other] { $count } times
    } on its sleeve
history-placed = Put { $drill } no. { $copy }, set to { $set }, into slot { $slot }
history-placed-mark = Put { $drill } no. { $copy }, for its mark at { $set }, into slot { $slot }
history-laid = Put { $thing } no. { $copy } into slot { $slot }
history-taken-off = Took { $thing } no. { $copy } off the tray
history-told = { $work ->
        [take] A STOP told: take { $thing } no. { $copy } off its slot
       *[set-anew] A STOP told: take { $thing } no. { $copy }; nothing read of it before counts
    }
history-opened = Opened { $thing } no. { $copy }
history-beside = Seen beside the tray: { $what }
history-pass-begun = Began { $pass ->
        [setting] to set and read the drills
       *[blind] to read the drills with no figure in sight
    } ({ $stage ->
        [bench] bench
        [sterile_field] sterile field
       *[after_use] after use
    })
history-pass-ended = { $end ->
        [unseen] Ended the readings without figures; none was seen
       *[left] Left the readings without figures for where figures stand
    }
history-gauge = Checked { $gauge }: its check piece of { $piece } read { $value }
history-gauge-off = Checked { $gauge }: its check piece of { $piece } read { $value }. The gauge is OFF
history-gauge-no-figure = Checked { $gauge }: its check piece of { $piece } read { $value }. The gauge shows no such figure: it is no check
history-gauge-unknown = Checked { $gauge }: its check piece of { $piece } read { $value }. Its constant is not known, so nobody can say if that is right
history-gauge-asked-back = { $check }. Entered before and asked back: { $figures }
history-gauge-doubt = Began to check { $gauge }: its check piece of { $piece } read { $value }: asked back
history-figures = { $first }, { $rest }
history-set-aside = Put a damaged file of { $desk } aside; it is kept as { $file }
history-line-lost = Put the rest of a line aside that was never finished; it is kept as { $file }. { $by } was to be recorded with { $lost ->
        [approval] an approval
        [opened] what was opened
        [beside] what was there
       *[note] a note
    }
history-note = Note: { $text }

## A step that could not be recorded: no setting and no reading in it

unrecorded = Not recorded, so it does not count as done: { $step }. { $reason }
unrecorded-approval = the approval
unrecorded-withdrawal = the withdrawal of the approval
unrecorded-first = { $what }, first reading
unrecorded-second = { $what }, second reading
unrecorded-set = { $what }, its stop set
unrecorded-locked = { $what }, its stop locked
unrecorded-tugged = { $what }, its stop tugged
unrecorded-reset = { $what }, its stop moved or taken off
unrecorded-dropped = { $what }, dropped
unrecorded-not-dropped = { $what }, not dropped after all
unrecorded-landed = { $what }, its stop landed on its sleeve
unrecorded-placed = { $what }, put into slot { $slot }
unrecorded-off = { $what }, taken off the tray
unrecorded-told = { $what }, that a STOP told to take it
unrecorded-opened = { $what }, opened
unrecorded-beside = { $what }, seen beside the tray
unrecorded-begun = the beginning of the pass
unrecorded-ended = the end of the pass
unrecorded-gauge = the check of { $what }
unrecorded-surgery = the beginning of surgery
unrecorded-correction = the correction of: { $what }
unrecorded-piece = { $what }, which piece of the stock it is
unrecorded-record-signed = the signature under the record
unrecorded-aside = the damaged file put aside
unrecorded-note = the note

## What it is worth

history-saves = Saved, by the file itself, which anybody can write; the newest first
history-save = { $at } UTC, { $desk }: revision { $revision }, { $fingerprint }
history-line = { $at } UTC, { $who }, { $event }: { $what }
history-counts = counts
history-happened = on record
history-practice = for practice only
history-not = DOES NOT COUNT
history-reading-open = counts, but DOES NOT VERIFY its setting

## The whole

history-now = The case as it is: revision { $revision }, { $fingerprint }.
history-empty = Nothing is recorded for this case yet. Approvals, readings, falls and gauge checks are recorded as they happen.
history-copy = Copy as text
history-unsaved = The case has no file yet, so nothing can be recorded for it.
history-order = In the order in which the desks had read of each other, not of their clocks.
history-broken = The record has a break: what is missing may have withdrawn anything below. Nothing below counts.

## The end of each log, as it is on paper

history-heads = Last event of each desk, as a sheet printed now bears it: { $list }.
history-paper = { $head }: the record holds it. Everything that desk had recorded and read up to there is as it was.
history-paper-ends = { $head }: NOT HELD. The record of this desk { $has ->
        [0] has no event at all
       *[other] ends at event { $has }
    }; what was recorded was removed.
history-paper-apart = { $head }: NOT HELD. The event is there with this code, but that everything that desk had recorded and read up to there is as it was cannot be shown: the record is damaged, or something of it is gone or was put aside.
history-paper-unread = { $head }: NOT HELD. The record is damaged. Of this desk { $has ->
        [0] no event can be read
       *[other] events can be read up to { $has }
    }: what was recorded after that may be damaged or gone.
history-paper-put-aside = { $head }: NOT HELD. What was recorded at this desk was damaged or gone and was put aside; nothing of it counts.
history-paper-other = { $head }: NOT HELD. Event { $seq } of this desk has another code: the record was replaced, or the code is not what is on paper.
history-paper-no-code = “{ $text }” is no end of a record. Give it as it is on paper: desk, number and the twelve characters of the code, such as desk 12: 8RWD 5JTC 0N4K
history-paper-means = A code proves that what was recorded before it was printed is still there and unchanged. It proves nothing of what was recorded later, which can be removed unnoticed until another desk has read it or it is on paper, too; nor who wrote it.
history-paper-field = End of the record on paper
