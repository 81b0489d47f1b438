### Charts: the section of a site and the true-scale strip.

## Structures and verdicts

chart-confirmed = { $what }, confirmed by { $by }, not measured anew
chart-structure-beside = { $structure }, beside
# verdict is one of the words above; value and limit are millimetres without unit. U+00A0 keeps a
# figure on the line of its word
chart-margin = { $verdict }:{ "\u00A0" }{ $value }, limit{ "\u00A0" }{ $limit }
chart-margin-at-least = { $verdict }:{ "\u00A0" }{ $value } at least, limit{ "\u00A0" }{ $limit }
chart-margin-at-most = { $verdict }:{ "\u00A0" }{ $value } at most, limit{ "\u00A0" }{ $limit }
chart-unknown-because = unknown: { $reason }
# verdict is accepted or intended: the surgeon's word on something that is not known
chart-judged-unknown = { $verdict }, unknown: { $reason }

## Why something is not known, without any figure

chart-reason-none = no figure
chart-reason-stale = measured before the site was changed
chart-reason-before-graft = measured before the graft
chart-reason-scan-undated = measured on a scan without a date
chart-reason-arch-model = known from the arch model only
chart-reason-at-most = only partly known
chart-reason-against-model = the measurement and the arch model contradict each other
chart-reason-less-deep = not measured to the depth of the cut
chart-reason-unfit = instruments do not fit
chart-reason-some-heights = not measured along the full length
chart-reason-not-the-least = said to be the smallest, but less was measured elsewhere
chart-reason-along-tilted-axis = height along the axis, and the site is tilted
chart-reason-crest-of-socket = counted from the crest, which a socket has none of
chart-reason-outside-gauge = outside the gauge
chart-reason-between-graduations = between graduations
chart-reason-kind-not-entered = kind of the tooth not entered
chart-reason-cut-through-guide = drilled before the guide was left
chart-reason-cut-before = drilled before the plan was changed
chart-reason-nothing-fits = no stop length or mark gives a depth small enough
chart-reason-pending = still being calculated
chart-reason-no-accuracy = no accuracy figure applies
chart-missing-distance = sleeve offset not entered
chart-missing-crest = crest not entered
chart-missing-socket-gap = gap of the socket not entered
chart-missing-socket-rim = rim of the socket not entered
chart-missing-gauge = no gauge chosen
chart-missing-gauge-constant = what the gauge adds is not known
chart-missing-gauge-face = which face the gauge reads is not known
chart-missing-loop = anterior loop not measured
chart-missing-limit = no limit entered
chart-missing-steps = no sequence
chart-missing-position = not entered
chart-missing-entry = something is not entered

## Section: head

# The accessible name of the whole drawing; step is section-step or section-no-step
section-name = Section of { $site }, { $step }
section-step = Step { $number } of { $count }: { $drill }
section-no-step = no sequence yet
# Why there is no drawing
section-none-site = site { $site }: not in this case
section-none-step = site { $site }: no step { $step }
section-none-room = site { $site }: section needs more room than { $width } × { $height }
section-head-no-step = No sequence yet
section-through-sleeve = through drill sleeve { $sleeve }
section-through-master = through the master sleeve, no drill sleeve
section-freehand = freehand, guide off

## Section: what is named beside the picture

section-tissue = soft tissue
section-tissue-reflected = soft tissue, reflected
section-tissue-unknown = soft tissue: thickness not entered
section-crest = crest
section-crest-highest = most coronal crest
section-crest-lowest = most apical crest
section-crest-unknown = crest not entered: no bone drawn
section-crest-stale = crest measured before the site was moved: no bone drawn
section-platform = platform
section-implant = implant { $name }, { $length } measured
section-apex = apex
section-deepest = deepest cut of the site
section-deepest-unknown = deepest cut of the site unknown
section-sleeve-unknown = sleeve offset not entered: no sleeve drawn
section-drill-unknown = depth not known: no drill drawn
section-deeper = deeper than shown here
section-farther = farther out than shown here
section-cut-before = drilled before the plan was changed: { $name }
section-drill = drill { $name }
section-stop = stop { $name }
section-drill-sleeve = drill sleeve { $name }
section-master-sleeve = master sleeve { $name }
section-on-stop = stop

## Section: dimensions

section-seat = seat
section-master = sleeve
section-distance = offset
section-crest-height = apical crest
section-cut = cut
section-margin = margin

## Section: the setting

section-set = stop setting, mm
section-set-mark = depth, mm: drill to { $mark }
section-mark-line = mark { $name }
section-mark-lower = mark { $name }, edge nearer the tip
section-mark-upper = mark { $name }, edge nearer the shank
section-gauge = gauge shows{ "\u00A0" }{ $figure }
section-gauge-unknown = no gauge figure: { $reason }
section-set-unknown = no setting
section-does-not-fit = does not fit, not to be used

## Section: foot

# ratio is such as "2.5 : 1"
section-scale = scale { $ratio }
tilt-axis = axis { $angle } from the vertical
section-fresh-socket = fresh socket
section-implant-bed = bed of an implant that is removed
section-schematic = Guide body and size of canals not to scale.

## True-scale strip

strip-head = True to scale: before sterilisation, place each drill on its drawing
strip-measure = Measure this ruler first: 0 to 50 must be exactly 50 mm. If it is not, do not use the strip.
strip-ruler = 50 mm
# The accessible name of a row; state is strip-row-set or strip-no-picture
strip-row = { $name }: { $state }
strip-row-set = set to { $figure }
strip-copy = { $name }, piece { $copy }
strip-stop = stop { $name }
strip-set-anew = re-set in surgery
strip-unit = mm, tip to stop
strip-does-not-fit = does not fit, not to be used: no drawing
strip-no-setting = no setting, so no drawing: { $reason }
strip-too-long = no drawing: the drill with its stop is longer than this strip
strip-mark = mm, tip to { $mark }
