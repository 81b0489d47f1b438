### The day of surgery: its steps, what keeps one from being ready, and what was recorded of it.

## Steps

surgery-step-count-in = count before the first cut
surgery-step-count-out = count before closing
surgery-step-reseat = guide re-seated without the plugs
surgery-step-seat = guide seated, looked at through its windows, rocked
surgery-step-lifted = guide taken off before its time
surgery-step-abandoned = THE GUIDE IS ABANDONED, from here everything is without it
surgery-step-same-guide = after it was dropped the same guide goes in again, made sterile anew
surgery-step-another-guide = another guide of the same code in the place of the one that was dropped
surgery-step-implant-changed = { $site }: changed on the table to implant { $implant }
surgery-step-implant-changed-from = { $site }: changed on the table from implant { $from } to implant { $implant }
surgery-step-profile-dropped = { $site }: changed on the table to go without the profile drill
surgery-step-guide-left = { $site }: changed on the table to go without the guide from here
surgery-step-guide-off = guide off, every guided stop off its drill
surgery-step-pin = pin “{ $name }”, { $drill }
surgery-step-punch = tissue punched: { $sites }
surgery-step-sound = { $site }: bone sounding
surgery-step-set-anew = { $drill }, re-set in the sterile field
surgery-step-drill = { $site }: { $drill }
surgery-step-look = { $site }: { $what }
surgery-step-insert = { $site }: implant { $implant }
surgery-step-finish = { $site }: implant { $implant }, to its depth by hand
surgery-step-at = { $step }, set to { $set }
surgery-step-in = { $step }, in { $sleeve }
surgery-step-void = { $step }, does not fit: no setting
surgery-step-unknown = { $step }, SETTING UNKNOWN
surgery-step-by-hand = { $step }, BY HAND: no guide and no stop held it, { $depth }
surgery-aimed = { $depth } from the crest aimed at
surgery-aimed-none = depth aimed at not recorded
surgery-then-done = Done: { $step }
surgery-then-left-out = Left out: { $step }
surgery-step-set-otherwise = { $step }; by the record it is set to { $set }

## What keeps a step from being ready

surgery-not-no-figure = The plan has no figure for this drill. { $hand ->
        [yes] Not with a stop on it.
       *[no] Do not drill with it.
    }
surgery-not-fit = It does not fit as it would be set for here. { $hand ->
        [yes] Not with a stop on it.
       *[no] Do not drill with it.
    }
surgery-not-on-gauge = What the gauge would show is not known, so its setting cannot be read. { $hand ->
        [yes] Not with a stop on it.
       *[no] Do not drill with it.
    }
surgery-not-soundable = The plan has no figure or no limit for this sounding: what the probe shows can be held against nothing.
surgery-not-set-anew = Its stop is still at an earlier setting. It is re-set first, and read aloud. { $hand ->
        [yes] Not with the stop as it is now.
       *[no] Do not drill with it.
    }
surgery-not-set-since = Its stop was re-set since, for a later step. { $hand ->
        [yes] Not with the stop as it is now: it is re-set for this one first.
       *[no] Do not drill with it: it is re-set for this one first.
    }
surgery-not-read = It is not verified in the sterile field.
surgery-not-laid = It is in no slot by the record: it was not placed, or was handled since.
surgery-not-opened = It lies sealed in { $slot } by the record. Open it, and set or place it in the sterile field (R).
surgery-not-set = It lies in { $slot } by the record as it was placed there, and was not set. Set and read it (R).
surgery-not-fell = It was dropped.
surgery-not-told = A STOP told somebody to take it, and nobody recorded it as set or placed since.
surgery-not-sounded = This site was not sounded within its limit.
surgery-left-unsounded = This site was not sounded: that was left out for a reason.
surgery-drills-left-out = { $count ->
        [one] One drill of this site was left out.
       *[other] { $count } drills of this site were left out.
    }
surgery-not-set-otherwise = It is set to { $set }, not as this step needs it ({ $slot }). Re-set it first (R). { $hand ->
        [yes] Not with the stop as it is now.
       *[no] Do not drill with it.
    }
surgery-not-guide-fell = The guide was dropped. Nothing is done through it before somebody says which one goes in now (A): the same one, if it is whole and was made sterile anew as local rules have it, or another of the same code. Else abandon it (T, 8).
surgery-not-guide-off = The guide is off: a guided stop would go deeper without it. If the guide is not off, take that record back (N at its step); then it is seated and sounded anew.
surgery-not-guide-left = The guide was left at this site: nothing more is done through it. Go on without it (T), or say in the plan that it was not left.
surgery-not-guide-abandoned = The guide is abandoned: nothing more is done through it, and this plan still has it so. Plan all that is open without it (T, 0), or say that it was not abandoned (T, 9).
surgery-not-thing-laid = { $thing }: in no slot by the record. It was not placed, or was handled since.
surgery-not-thing-fell = { $thing }: it was dropped, and none was placed since.

## Look-alikes

surgery-alike = the same drill at { $set }, { $slot }
surgery-no-slot = in no slot
surgery-alike-deeper = it would cut { $by } deeper here
surgery-alike-shallower = it would end { $by } shallower here
surgery-alike-harm = it would cut { $by } deeper here: { $harm }
surgery-alike-unknown = nobody knows what it would do here

## How a drill runs

surgery-speed = at most { $speed } rpm
surgery-torque-most = at most { $torque } N·cm

## Counts

surgery-count-drills = drills
surgery-count-stops-again = stops of dropped drills that are on another drill again
surgery-count-implants = implants, also those turned in
surgery-amiss = { $what } { $found } instead of { $wanted }

## What an insertion reached

surgery-torque-none = torque not recorded
surgery-depth-none = depth not recorded
surgery-torque-above = ABOVE ITS LIMIT: { $torque } N·cm, at most { $limit } N·cm by the kit
surgery-torque-no-limit = The kit gives no torque limit for this implant
surgery-depth-too-apical = OFF ITS PLAN: { $by } apical, more than { $limit }
surgery-depth-too-coronal = OFF ITS PLAN: { $by } coronal, more than { $limit }
surgery-depth-planned = at its planned depth
surgery-depth-coronal = { $by } coronal of its planned depth
surgery-depth-apical = { $by } apical of its planned depth

## What was recorded

history-surgery-begun = Began or went on with surgery by { $fingerprint }, { $approved ->
        [yes] approved
       *[no] NOT APPROVED
    }{ $count ->
        [0] {""}
        [one] ; one thing was not as the plan has it
       *[other] ; { $count } things were not as the plan has it
    }{ $anew ->
        [yes] . Another sitting: no step from before counts in it, but that an implant is in
       *[no] {""}
    }
history-step-done = Done: { $step }
history-step-done-with = Done with no. { $copy }: { $step }
history-step-done-with-spare = Done with the spare for no. { $copy }, which fell: { $step }
history-step-due = { $said }. OUT OF TURN: due was { $due }
history-step-skipped = Left out: { $step }. Reason: { $reason }
history-step-skipped-done = Done before and not again: { $step } ({ $who }, { $at }). Reason: { $reason }
history-step-taken-back = Recorded by mistake, { $event }: { $step }
history-sounded = { $step }: the probe showed { $found }, planned { $planned }
history-sounded-no-plan = { $step }: the probe showed { $found }, and the plan has no figure
history-inserted = { $step }, { $way ->
        [guided] by its carrier through the guide
        [ended] ended by hand
       *[freehand] without the guide
    }: { $torque }, { $depth }
history-reached = { $said }. { $note }
history-inserted-begun = { $step }, begun through its sleeve; it is turned to its depth by hand once the guide is off
history-counted = { $step }, with { $second }: all as it should be
history-counted-then = { $step }, with { $second }: it agreed then
history-counted-amiss = { $step }, with { $second }: { $amiss }
history-because = { $said }. Reason: { $reason }
history-despite = { $said }. Gone on with although something was open, for this reason: { $reason }
guide-abandoned-led = The guide is abandoned by the record, and the plan still leads through it: nothing is drilled or turned in by what the plan has for it. In the surgery view have the plan follow, or say there that it is not abandoned. ({ $line })
