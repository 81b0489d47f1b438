### The run order: its cost, how good it is, each step with the changes before it, and why.

run-whole-minutes = { $minutes } min
run-minutes = { $minutes } min { $seconds }
run-resets = { $count ->
        [0] no re-set
        [one] 1 re-set
       *[other] { $count } re-sets
    }
run-cost = { $resets }, { $time }
run-bound = { $count ->
        [0] None takes less than { $time } without a re-set.
        [one] None has no re-set, and none with 1 re-set takes less than { $time }.
       *[other] None has fewer than { $count } re-sets, and none with { $count } takes less than { $time }.
    }
run-bound-resets = { $count ->
        [one] None has no re-set.
       *[other] None has fewer than { $count } re-sets.
    }
run-bound-time = None takes less than { $time }.
run-bound-none = No minimum known yet.
run-how-far = { $states ->
        [one] 1 state searched. Best so far: { $best }. { $bound }
       *[other] { $states } states searched. Best so far: { $best }. { $bound }
    }
run-more = { $size } more
run-less = { $size } less
run-and = { $first }, { $rest }
run-same = the same

## How good it is

run-least = The minimum possible.
run-above = { $above } above the minimum.
run-at-most = At most { $above } above the minimum; an order that is { $better } better is known.
run-at-most-none-better = At most { $above } above the minimum; no better one is known.
run-breaks = It breaks a rule in the preferences, so it is not compared with orders that keep them.
run-best-least = Proven: no order is better.
run-best-at-most = At most { $above } above the minimum.
run-best-stopped = The search was stopped. At most { $above } above the minimum.
run-pending = Being calculated: how far this is above the minimum is not known yet.
run-not-computed = Not calculated: how far this is above the minimum is not known.
run-invented = The times are invented, not measured: enter those of your own team.
run-own-times = Calculated with your own times.

## Changes

run-change-mount = mount
run-change-reset = re-set
run-change-move = move
run-change-sleeve = sleeve
run-change-speed = speed
run-change-full-mount = another instrument in the handpiece
run-change-full-reset = a stop re-set in the sterile field
run-change-full-move = another site
run-change-full-sleeve = a sleeve inserted
run-change-full-speed = another speed
run-event-mount = take { $instrument }
run-event-mount-from = take { $instrument } from { $slot }
run-event-reset = re-set its stop to { $set }
run-event-reset-does-not-fit = do not re-set its stop: it does not fit so
run-event-stop-off = remove its stop
run-event-move = go to { $place }
run-event-sleeve = insert { $sleeve }
run-event-speed = motor to at most { $speed }
run-pin = pin “{ $name }”
run-driver = driver
run-jaw-punch = punch
run-jaw-reseat = re-seat
run-jaw-sound = sound
run-jaw-guide-off = guide off

## Preferences, and what each costs

run-wish-before = { $first } before { $then }
run-wish-site_by_site = each site finished before the next
run-wish-by_diameter = no drill before a narrower one, across all sites
run-wish-hold_guide = the sites that hold the guide first
run-why-rule = { $wish }: without this rule { $less } ({ $cost })
run-why-weight = { $wish }: if it took no time { $less } ({ $cost })
run-why-less = { $less } less
run-why-same = no less
run-why = { $told }.
run-why-found = { $told }, as far as was searched.

## Why there is none

run-none-nothing = Nothing is planned that needs an order. Place a site in the arch and give it a sequence.
run-none-unknown = A step has no setting, so it is not known how often a stop has to be re-set: { $reasons }. The findings say what to enter.
run-none-no-copy = No { $tool } with what it needs is available for step { $step } at { $place }. Add one to the kit, or choose another instrument for this step.
run-none-no-piece = No { $sleeve } is available for step { $step } at { $place }. Add one to the kit, or choose another sleeve for this step.
run-none-falling = Step { $step } at { $place } is narrower than the one before it, so drilling cannot go by diameter. Remove that rule, or change the sequence.
run-none-contradiction = The rules contradict each other in a circle: { $circle }. Remove one of them.
run-link-before = { $first } before { $then }
run-link-diameter = a narrower drill at { $first } before a wider one at { $then }

## Why a step stays where it is

run-stays-whole-jaw = This is done for the whole jaw and has a fixed place.
run-stays-sequence = It cannot pass { $other } of its own site: that is the site's sequence.
run-stays-barrier = It cannot pass “{ $other }”: everything before that is completed first.
run-stays-wish = It would break the rule “{ $wish }”. Remove that rule first.
run-stays-end = There is no place beyond this one.

## What would settle what is missing

run-remedy-other-stop = Use { $stop } at { $sites }
run-remedy-fixed-stop = Use { $stop }, a fixed stop, at { $sites }
run-remedy-one-figure = Use one figure for the sequence at { $sites }
run-remedy-distance = Plan a sleeve offset of { $distance } at { $site }
