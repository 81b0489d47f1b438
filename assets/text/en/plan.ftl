### Words of the plan: instruments, steps, depths, guide and site.

## Names that cannot be found in the case

name-no-site = site “{ $id }”
name-no-step = step “{ $id }”
name-no-entry = “{ $id }”

## How an instrument is marked

marking-letter = letter { $letter }
marking-colour = { $colour }
marking-joined = { $first }, { $rest }
named-with-marking = { $name } ({ $marking })
named-implant = { $name }, { $length } measured
shape-dot = dot
shape-half_dot = half dot
shape-ring = ring
shape-bar = bar
shape-triangle = triangle
shape-diamond = diamond
shape-square = square
shape-cross = cross

## Steps

# The same drill more than once in one sequence
step-with-depth = { $drill } ({ $depth })
depth-full = full depth
depth-below_platform = { $depth } below the platform
depth-short_of_full = partial depth, full less { $by }
depth-then = { $depth }, then { $then }
path-drill_sleeve = through its drill sleeve
path-named = through { $sleeve }
path-master_sleeve = directly through the master sleeve
path-freehand = freehand
setting-none = no figure
setting-does-not-fit = does not fit
setting-unknown = no figure: { $reasons }
# Which of the lengths that a fixed stop has on a drill
fixed-place = length { $place } of { $count }, counted from the tip
mark-line = no stop: to the mark { $mark }
mark-lower = no stop: to the edge of the mark { $mark } nearer the tip
mark-upper = no stop: to the edge of the mark { $mark } nearer the shank
bench-below = with the stop landed, the tip projects { $size } beyond the master sleeve's apical face
bench-above = with the stop landed, the tip is { $size } coronal of the master sleeve's apical face
bench-mark-below = with the mark level with the rim, the tip projects { $size } beyond the master sleeve's apical face
bench-mark-above = with the mark level with the rim, the tip is { $size } coronal of the master sleeve's apical face
# With what a mark or a carrier's line has to be level
rim-master-sleeve = the master sleeve's coronal rim
rim-drill-sleeve = the landing face of { $sleeve }
rim-socket = the most apical point of the socket's rim
rim-crest = the most apical point of the crest
until-level-line = drill until the mark { $mark } is level with { $rim }, no farther
until-level-lower = drill until the edge of the mark { $mark } nearer the tip is level with { $rim }, no farther
until-level-upper = drill until the edge of the mark { $mark } nearer the shank is level with { $rim }, no farther
bench-none = bench check: no figure
sounding = with the guide seated, the probe shows { $size } from the seat to the crest; off by more than { $limit }: stop and find out why
sounding-loosened = { $said } (the limit is less strict than the program's own, { $own })
sounding-no-limit = with the guide seated, the probe shows { $size } from the seat to the crest; no limit is set for the difference
sounding-none = bone sounding: no figure, { $reasons }
cut-below = cuts { $size } below the platform
cut-above = ends { $size } above the platform
cut-none = depth of the cut: no figure
shortfall-none = no loss of depth
shortfall-taken-by-guide = as deep as planned: the guide seats nearer the bone, as measured
shortfall-deeper = { $size } deeper than planned: the guide seats nearer the bone, as measured
shortfall = { $size } shallower than exact
shortfall-less-guide = { $size } shallower than exact, { $left } than planned: the guide seats nearer the bone, as measured
play = tilts up to { $tilt }, off by up to { $tip } at the tip
play-unknown = play unknown: { $reasons }

## Insertion

insertion-freehand = the implant is inserted without the guide
insertion-exact = { $carrier }: turn until line { $line } is level with { $rim }, no farther. The implant is then at its planned depth.
insertion-short = { $carrier }: turn until line { $line } is level with { $rim }, no farther. The implant is then { $size } shallower than planned.
insertion-not-to = Not to line { $line }: that is { $size } deeper.
# The same on paper, where the things that carry it stand with their slots
insertion-by = { $carrier }: until line { $line } is level with { $rim }, no farther.
insertion-by-short = { $carrier }: until line { $line } is level with { $rim }, no farther; it is then { $size } shallower than planned.
insertion-by-not-to = Not to line { $line }: { $size } deeper.
insertion-unknown = depth of the carrier unknown: { $reasons }

# The platform of an implant that goes in freehand, against two points of the crest
final-depth = final depth: the platform { $coronal }, { $apical }
final-depth-apical = { $size } apical to { $point }
final-depth-coronal = { $size } coronal to { $point }
final-depth-level = level with { $point }
final-depth-point-coronal = the most coronal point of the crest
final-depth-point-apical = the most apical one
final-depth-socket = final depth: the platform { $against }
final-depth-point-socket = the most apical point of the socket's rim
final-depth-unknown = final depth: no figure, { $reasons }

## Choices nearby

shorter = settings for the next shorter implant, { $implant }
fitting-all = at a sleeve offset of { $distance } to the { $face } every fixed stop fits exactly
fitting-some = at a sleeve offset of { $distance } to the { $face } { $exact ->
        [one] 1 fixed stop fits
       *[other] { $exact } fixed stops fit
    } exactly, the others end { $shortfall } shallower in total
face-apical = master sleeve's apical face
face-coronal = master sleeve's coronal rim

## Guide

support-teeth = teeth
support-teeth_and_mucosa = teeth and mucosa
support-mucosa = mucosa
support-bone = bone
access-flap = full-thickness flap
access-punch = tissue punch through the guide
guide-planned = guide not made yet
guide-made = guide made: sleeve offset, axis, sleeve and platform can no longer change
extent-pilot_only = pilot drill guided, the rest freehand
extent-all_drilling = all drilling guided, the implant freehand
extent-drilling_and_implant = drilling and implant guided
cut-before-to = in the bone since before the plan was changed: { $name }, { $wide } wide, to { $tip } below the platform
cut-before-unknown = in the bone since before the plan was changed: { $name }, { $wide } wide, nobody knows how deep
cut-before-not = { $name } is not in the bone
extent-left = { $extent }; THE GUIDE WAS LEFT DURING SURGERY: { $count ->
        [0] nothing went through it
        [one] one step went through it
       *[other] { $count } steps went through it
    }, the rest is freehand
order-site_by_site = site by site
order-by_diameter = each diameter at all sites in turn
order-accepted = as accepted
order-fallback = { $rule }, because the accepted order does not fit

## Site

upright = upright
tilt-mesial = apex { $angle } to mesial
tilt-distal = apex { $angle } to distal
tilt-buccal = apex { $angle } to buccal
tilt-oral-upper = apex { $angle } to palatal
tilt-oral-lower = apex { $angle } to lingual
tilt-both = { $first }, { $second }
tilt-measured = axis measured in the scan
place-part = { $size } to { $way }
place-both = { $first }, { $rest }
place-middle = centred in its position
place-from = { $place }, measured from { $from }
place-of-pin = { $tooth }, { $place }
place-measured = measured in the scan
sleeve-offset-apical = { $size }, apical face
sleeve-offset-coronal = { $size }, coronal rim
distance-not-entered = not entered
neighbour-natural = natural
bone-healed = healed
bone-fresh = fresh socket
bone-gap = { $of }, gap { $gap }
bone-slope = { $of }, wall sloping { $slope }
bone-gap-slope = { $of }, gap { $gap }, wall sloping { $slope }
bone-grafted = grafted on { $date }
bone-implant = existing implant, to be removed
density-d1 = D1, dense cortical bone
density-d2 = D2, thick cortex over coarse trabecular bone
density-d3 = D3, thin cortex over fine trabecular bone
density-d4 = D4, fine trabecular bone, little cortex
density-unknown = bone density not entered

## Why no sequence can be proposed

proposal-density = no sequence can be proposed: bone density not entered. Enter it; the final diameter depends on it.
proposal-final-diameter = no sequence can be proposed: the kit gives no final diameter for this density. Enter it in the kit.
proposal-no-pilot = no sequence can be proposed: the kit has no pilot drill. Add one, or choose the steps by hand.
proposal-gap = no sequence can be proposed: after { $after } the kit has no drill within its largest step. Add one, or choose the steps by hand.
proposal-too-wide = no sequence can be proposed: no twist drill ends at or below { $wanted }. Add one, or choose the steps by hand.
proposal-note = proposed from the kit's drills: check it against the manufacturer's instructions
