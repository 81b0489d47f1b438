### The run order: its cost, how good it is, each step with the changes before it, and why.

run-seconds = { $seconds } s
run-whole-minutes = { $minutes } min
run-minutes = { $minutes } min { $seconds } s
run-no-reset = no re-set
run-one-reset = 1 re-set
run-resets = { $count } re-sets
run-cost = { $resets }, { $time }
run-more = { $size } more
run-less = { $size } less
run-and = { $first }, { $rest }
run-same = the same

## How good it is

run-least = The least possible.
run-above = { $above } above the least possible.
run-at-most = At most { $above } above the least possible; an order that is { $better } better is known.
run-at-most-none-better = At most { $above } above the least possible; no better one is known.
run-breaks = It breaks a rule that is wished, so it is not held against orders that keep them.
run-best-least = Proved: nothing is better.
run-best-at-most = At most { $above } above the least possible.
run-best-stopped = The search was stopped. At most { $above } above the least possible.
run-pending = Being computed: how far this is above the least possible is not known yet.
run-not-computed = Not computed: how far this is above the least possible is not known.
run-invented = The times are invented, not measured: put in those of your own team.
run-own-times = Reckoned with your own times.

## Changes

run-change-mount = mount
run-change-reset = re-set
run-change-move = move
run-change-sleeve = sleeve
run-change-speed = speed
run-change-full-mount = another instrument in the handpiece
run-change-full-reset = a stop set anew in the sterile field
run-change-full-move = another site
run-change-full-sleeve = a sleeve put in
run-change-full-speed = another speed
run-event-mount = take { $instrument }
run-event-mount-from = take { $instrument } from { $slot }
run-event-reset = re-set its stop to { $set }
run-event-stop-off = take its stop off
run-event-move = go to { $place }
run-event-sleeve = put in { $sleeve }
run-event-speed = motor to at most { $speed }
run-line = { $changes }. Then { $line }
run-pin = pin “{ $name }”
run-driver = driver
run-jaw-punch = punch
run-jaw-reseat = seat again
run-jaw-sound = sound
run-jaw-guide-off = guide off

## Wishes, and what each costs

run-wish-before = { $first } before { $then }
run-wish-site_by_site = each site finished before the next
run-wish-by_diameter = no drill before a narrower one, over all sites
run-wish-hold_guide = first the sites that hold the guide
run-why-rule = { $wish }: without this rule { $less } ({ $cost })
run-why-weight = { $wish }: if it took no time { $less } ({ $cost })
run-why-less = { $less } less
run-why-same = no less
run-why = { $told }.
run-why-found = { $told }, as far as was looked.

## Why there is none

run-none-nothing = Nothing is planned that has an order. Place a site in the arch and give it a sequence.
run-none-unknown = A step has no setting, so nobody knows how often a stop is set anew: { $reasons }. The findings say what to enter.
run-none-no-copy = There is no { $tool } with what it needs, for step { $step } at { $place }. Take one into the kit, or another instrument at this step.
run-none-no-piece = There is no { $sleeve }, for step { $step } at { $place }. Take one into the kit, or another sleeve at this step.
run-none-falling = Step { $step } at { $place } is narrower than the one before it, so drilling cannot go by diameter. Take that rule back, or change the sequence.
run-none-contradiction = The rules lead in a circle: { $circle }. Take one of them back.
run-link-before = { $first } before { $then }
run-link-diameter = a narrower drill at { $first } before a wider one at { $then }

## Why a step stays where it is

run-stays-whole-jaw = This is done for the whole jaw and comes where it has to.
run-stays-sequence = It cannot pass { $other } of its own site: that is the site's sequence.
run-stays-barrier = It cannot pass “{ $other }”: everything before that is finished first.
run-stays-wish = It would break the rule “{ $wish }”. Take that rule back first.
run-stays-end = There is no place farther on.

## What would settle a shortage

run-remedy-other-stop = Use { $stop } at { $sites }
run-remedy-fixed-stop = Use { $stop }, a fixed stop, at { $sites }
run-remedy-one-figure = Take one figure for the sequence at { $sites }
run-remedy-distance = Plan a distance of { $distance } at { $site }
