### The record of a case: what was placed and what became of it.

## What is asked for

record-implant = implant placed
record-torque = insertion torque
record-depth = final depth
record-stability = stability
record-graft = graft
record-closure = closure
record-healing = healing part
record-deviation = deviation
record-discarded = instrument discarded
record-lot = lot of the implant
record-expiry = expiry of the implant
record-graft-lot = lot of the graft
record-healing-torque = torque of the healing part

## What was entered

record-not-recorded = not recorded
record-not-placed = not placed
record-not-placed-because = not placed ({ $who }, { $at }); reason: { $reason }
record-no-plan = none planned
record-implant-unknown = an implant that the kit does not know by this code
record-implant-of = { $implant }; code { $code }; lot { $lot }; expiry { $expiry }; { $given ->
        [scanned] scanned
       *[typed] typed
    }
record-implant-compared = { $said }. The kit has no code for it: known by its label, read aloud and held against the kit by { $second }: { $name }, diameter { $diameter }, length { $length }
record-implant-because = { $said }. Planned was { $planned }; reason: { $reason }
record-resonance = by its resonance, as the device showed it
record-damping = by how it damps a tap, as the device showed it
record-stability-of = { $value }, { $method }
record-graft-none = no graft
record-graft-of = { $what }; lot { $lot }; expiry { $expiry }
record-healing-none = none put on
record-healing-of = { $what }; lot { $lot }; torque { $torque }
record-deviation-none = nothing otherwise than planned
record-deviation-of = { $what }; reason: { $reason }
record-discarded-of = { $what }; reason: { $reason }
record-taken-away = entered by mistake, nothing stands
record-nothing-of = { $what }: nothing stands
record-named = { $kind }: { $what }
record-named-at = { $site }, { $kind }: { $what }

## Who said it

record-said = { $what } ({ $who }, { $at })
record-since = { $said }; ADDED SINCE THE RECORD WAS SIGNED
record-differs = DESKS DIFFER: { $all }
record-corrected-by = corrected by { $who }, { $at }: { $reason }
record-before = Before: { $said }; { $why }
record-taken-because = { $said }; reason: { $reason }
record-line = { $at } { $who }: { $what }
record-step-with = { $step }, no. { $copy }
record-step-with-spare = { $step }, with the spare for no. { $copy }, which fell
record-planned-then = { $said } [planned then: { $implant }]
record-at-time = { $at } { $what }
record-count-reopened = { $said }. Something was dropped since: count anew
record-run-taken = { $line }. RECORDED BY MISTAKE, said { $by }, { $at }
record-fall-mistake = { $line }. REPORTED BY MISTAKE
record-astray = CORRECTS NOTHING THAT STANDS: { $line }

## What stands out

record-missing-at = { $site }, not recorded: { $what }
record-missing = not recorded: { $what }
record-at = { $site }: { $said }
record-told-not-placed = { $site }: NO IMPLANT PLACED, recorded by { $who }, { $at }. Reason: { $reason }
record-told-other = { $site }: NOT THE PLANNED IMPLANT. Placed was { $placed }, planned { $planned }
record-told-unknown = { $site }: the kit has no implant, or several, by the code { $code }. Nobody can say whether it is the planned one
record-told-expired = { $site }, { $what }: EXPIRED. To be used by { $expiry }, used { $on }
record-told-differs = { $what }: desks recorded it otherwise, neither knowing of the other. Correct what is wrong
record-told-differs-at = { $site }, { $what }: desks recorded it otherwise, neither knowing of the other. Correct what is wrong
record-told-abandoned = The guide was abandoned, recorded by { $who }, { $at }
record-told-changed = { $what }, recorded by { $who }, { $at }
record-told-changed-kept = { $said }. { $count ->
        [one] One drilling
       *[other] { $count } drillings
    } by the plan before stay in the bone at { $site }
record-told-count = The count before closing is not as it should be, or is of another list than the plan now has
record-told-not-planned = { $site }: the plan has no such site any more

## How it stands

record-practice = FOR PRACTICE ONLY: nothing of this was done for a patient.
record-broken = The record has a break: nothing of it counts.
record-unsigned = The record is not signed.
record-signed = Signed by { $who }, { $at }{ $open ->
        [0] {""}
        [one] , with one thing open
       *[other] , with { $open } things open
    }.
record-signed-otherwise = It was signed under the plan { $then }; the plan is { $now } now.
record-added-since = { $count ->
        [one] One thing was added since, or was not known to whoever signed.
       *[other] { $count } things were added since, or were not known to whoever signed.
    }

## In the history

history-recorded = For the record, { $what }
history-record-corrected = Record corrected, instead of { $event }: { $what }. Reason: { $reason }
history-record-signed = Signed the record under the plan { $fingerprint }{ $open ->
        [0] {""}
        [one] , with one thing open
       *[other] , with { $open } things open
    }
