### What the view of the order of use says.

order-title = Order of use
order-by = Order followed: { $by }
order-strip = The order as a strip: a column for each step, a lane for each site, the changes below
order-step = step
order-sum = { $count }, { $time }
order-sum-none = none
order-keys = Arrows select a step. Alt or Ctrl with an arrow moves it; so does dragging.
order-there = There: { $cost } ({ $differs }).
order-moved = Moved: { $cost } ({ $differs }).
order-list = Step by step
order-breaks = The rule that it breaks: { $wish }.
order-row = { $number }. { $line }
order-list-without-cost = The order as it is followed. Its cost is not known.
order-none = No run order

## The best order

order-best = The best order found
order-stop = Stop searching ({ $key })
order-again = Search again
order-follow-best = Follow the best order
order-follow-rule = Follow the default rule again: { $rule }
order-approval = The plan is approved. With another order the approval no longer holds.
order-undo-best = best order followed
order-undo-rule = default rule followed: { $rule }
order-undo-moved = moved in the order: { $drill }, { $place }

## Why

order-why = Why this order
order-why-going = Being calculated: what each rule and each change costs.
order-why-none = Not calculated.

## What is missing

order-short = What is missing
order-remedies-going = Being calculated: what would resolve it.
order-remedies-failed = What would resolve it could not be calculated. It is still missing; change something in the case to try again.
order-remedies-none = No other stop, figure or sleeve offset was found that resolves it and opens nothing else. Get what is missing, or let the surgeon accept re-sets in the findings.
order-remedy-notes = It adds notes: { $notes }.
order-undo-remedy = { $remedy }

## Preferences

order-wishes = Preferences
order-wishes-what = They guide the search for the best order. They change no setting.
order-fewest-resets = Fewest re-sets first, then shortest time
order-least-time = Shortest time, a re-set counting like anything else
order-undo-wish = preference for the order: { $what }
order-times-back = Back to the invented times
order-rule-back = Remove
order-rule-back-of = Remove: { $rule }
order-site-open = choose a site
order-first = This site first
order-then = Then this one
order-rule-add = Add this rule
order-rule-add-why = Choose both sites first
order-hold = Sites that hold the guide and come first
order-hold-proposed = as proposed on mucosa
order-hold-named = as named here
order-hold-none = none
