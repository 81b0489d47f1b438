### What the view of the order of use says.

order-title = Order of use
order-by = Followed: { $by }
order-strip = The order as a strip: a column for each step, a lane for each site, below the changes
order-step = step
order-sum = { $count }, { $time }
order-sum-none = none
order-keys = Arrows choose a step. Alt or Ctrl with an arrow moves it; so does the pointer.
order-there = There: { $cost } ({ $differs }).
order-moved = Moved: { $cost } ({ $differs }).
order-list = Step by step
order-breaks = The rule that it breaks: { $wish }.
order-row = { $number }. { $line }
order-list-without-cost = The order as it is followed. What it costs is not known.
order-none = No run order

## The best order

order-best = The best order found
order-how-far = { $states } states looked at. Best so far: { $best }.
order-not-below = Nothing is better than { $bound }.
order-stop = Stop looking ({ $key })
order-again = Look again
order-follow-best = Follow the best order
order-follow-rule = Follow the plain rule again: { $rule }
order-approval = The plan is approved. With another order the approval no longer holds.
order-undo-best = the best order followed
order-undo-rule = the plain rule followed: { $rule }
order-undo-moved = moved in the order: { $drill }, { $place }

## Why

order-why = Why this order
order-why-going = Being computed: what each rule and each change costs.
order-why-none = Not computed.

## Shortages

order-short = Short of
order-remedies-going = Being computed: what would settle it.
order-remedies-failed = What would settle it could not be worked out. The shortage stands; change something in the case to try again.
order-remedies-none = No other stop, figure or distance was found that settles it and opens nothing else. Get what is missing, or let the surgeon accept re-sets in the findings.
order-remedy-notes = It brings notes: { $notes }.
order-undo-remedy = { $remedy }

## Wishes

order-wishes = Wishes
order-wishes-what = They say what the best order is looked for with. They change no setting.
order-fewest-resets = Fewest re-sets first, then least time
order-least-time = Least time, a re-set counting like anything else
order-undo-wish = wish for the order: { $what }
order-times-back = Back to the invented times
order-rule-back = Take back
order-rule-back-of = Take back: { $rule }
order-site-open = choose a site
order-first = This site first
order-then = Then this one
order-rule-add = Add this rule
order-rule-add-why = Choose both sites first
order-hold = Sites that hold the guide and come first
order-hold-proposed = as proposed on mucosa
order-hold-named = as named here
order-hold-none = none
