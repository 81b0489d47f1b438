### The view of the record.

view-record-unsaved = A record is kept beside the case's file: save the case first.
view-record-broken = The record has a break: nothing can be added until it is put aside (view Sheet).
view-record-not-saved = The case is not what is saved in its file: save it first. What is recorded is of the plan that every desk can open.
view-record-who = Who records? Name or initials
view-record-no-who = Who records is entered first.
view-record-site = { $site }: planned { $planned }
view-record-case = The case
view-record-line = { $what }: { $said }
view-record-of = { $what }, { $site }
view-record-enter = Enter { $what }
view-record-add = Enter another { $what }
view-record-correct = Correct { $what }
view-record-correct-of = Correct no. { $number }, { $what }
view-record-since = Added since the record was signed
view-record-run = Events of the day

## Fields

view-record-code = Code on its label, scanned or typed
view-record-lot = Lot
view-record-expiry = Expiry, such as 2031-05-31 or 2031-05
view-record-torque = Torque, N·cm
view-record-by = How far from its planned depth, mm; 0 for as planned
view-record-way = To which side: c for coronal of the plan, a for apical of it
view-record-value = Figure as the device shows it, whole
view-record-method = How it was measured: r for resonance, d for damping of a tap
view-record-material = Material
view-record-how = How it was closed
view-record-part = Part
view-record-part-torque = Its torque, N·cm
view-record-what = What was done otherwise than planned
view-record-why = Why
view-record-instrument = Instrument
view-record-reason = Why is it corrected?
view-record-hint = Enter goes on.
view-record-hint-implant = Enter goes on. A scanned label fills all three; hold them against the label. What it does not say is left empty.
view-record-hint-depth = Enter goes on.
view-record-hint-none = Enter goes on. “none” says that there was none.
view-record-do = Record it
view-record-nothing = Entered by mistake: nothing stands
view-record-leave = Enter nothing now

## What cannot be read

view-record-needed = This is needed.
view-record-no-day = No day: write it as 2031-05-31 or 2031-05.
view-record-no-torque = No torque: a whole number from 1 to 200.
view-record-no-length = No length: from 0 to 20 mm. The side is asked for beside it.
view-record-no-way = c or a is needed.
view-record-no-method = r or d is needed.
view-record-no-value = No figure: a whole number from { $least } to { $most }.

## Another implant

view-record-stop-other = STOP. By its code { $code } this is { $placed }. Planned is { $planned }.
view-record-stop-unknown = STOP. The kit has no implant, or several, by the code { $code }. Nobody can say whether it is the planned { $planned }.
view-record-compare = The kit has no code for the planned one. Read its label aloud, and have somebody else hold it against this: { $name }, diameter { $diameter }, length { $length }.
view-record-compared-by = Initials of who held it against this
view-record-compared = All three are the same: it is the planned one
view-record-no-second = Somebody else than who records holds it against this: initials
view-record-because = Why was it placed?
view-record-because-unknown = What does its label say it is, and why was it placed?
view-record-placed = It was placed
view-record-back = Back to the label

## Signature and paper

view-record-sign = Signature
view-record-sign-what = A signature is for what is recorded now. What is added later is told as added since.
view-record-signer = Who signs? Name
view-record-sign-now = { $open ->
        [0] Sign the record
        [one] Sign the record with one thing open
       *[other] Sign the record with { $open } things open
    }
view-record-write = Write the record as PDF…
view-record-written = The record is in { $file }.
