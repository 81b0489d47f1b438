### Names of figures and of the terms and rules that they come from.

## Bases

basis-measured = measured
basis-confirmed = confirmed, not measured anew
basis-confirmed-moved = confirmed by { $by } after a move of { $moved }, not measured anew
basis-confirmed-otherwise = confirmed by { $by } after a change of tilt, depth, implant or bone, not measured anew
basis-confirmed-elsewhere = confirmed by { $by } after a change of place, not measured anew
told-confirmed = { $what } (a height was confirmed by { $by }, not measured anew)
basis-entered = from the plan
basis-estimated = estimated
basis-arch_model = from the arch model

## Where a term comes from

origin-case = entered for the case
origin-site = entered for { $site }
origin-kit = from the kit: { $entry }
origin-limit = limit of the case: { $limit }
origin-figure-step = calculated for { $step }, { $site }
origin-figure-site = calculated for { $site }
origin-worked-out = calculated

## Rules: how a figure comes about

rule-distance = sleeve offset, from the platform to the apical face of the master sleeve, as entered
rule-seat-drill-sleeve = from the platform to the landing face of the drill sleeve: sleeve offset, master sleeve height and how far the drill sleeve projects above its rim
rule-seat-master-sleeve = from the platform to the coronal rim of the master sleeve: sleeve offset and master sleeve height
rule-seat-crest = without the guide the depth is read at the most apical point of the crest: read at any other point the cut ends shallower, never deeper
rule-depth-full = full depth: implant from platform to apex, and the apical allowance of its manufacturer
rule-depth-below-platform = depth below the platform, as entered for the step
rule-depth-short = partial depth: full depth less what the step is to leave
rule-exact = tip to the stop's face before rounding: seat, depth, and the length from the tip to where the drill's depth is counted
rule-exact-pin = tip to the rim of the pin's sleeve before rounding: length of the pin under its head, and the length from the tip to where the drill's depth is counted
rule-set-gauge = the largest gauge figure that is not deeper than exact
rule-set-fixed = the longest length of the fixed stop that is not deeper than exact
rule-set-mark = the deepest mark of the drill that is not deeper than exact
rule-set-one-figure = one figure for the sequence: the smallest of its full-depth settings
rule-gauge-landing = setting and gauge constant: this gauge reads the stop's landing face
rule-gauge-upper = setting, gauge constant and height of the stop: this gauge reads the stop's upper face
rule-cut = setting less seat: the deepest point below the platform, tip included
rule-shortfall = exact less setting: what is lost to rounding, a fixed stop or one figure
rule-bench = setting less master sleeve height and less the projection of the drill sleeve above its rim: how far the tip projects beyond the master sleeve's apical face
rule-drill-sleeve-room = the room under the master sleeve less the part of the drill sleeve that reaches out of it
rule-ends-short = how much shallower than planned the cut ends: what the setting loses, how much farther from the bone than planned the guide seats and, freehand with a stop, how far apart the most coronal and the most apical crest are
rule-deepest-cut = the deepest of all cuts of the site
rule-final-depth = where the platform of a freehand implant ends, along the axis from a point of the crest; negative: coronal to it
rule-sounding = seat of the first guided step less the crest: what a probe through the guide must show
rule-carrier = seat less the carrier's line: how much shallower than planned the implant stays
rule-play-tilt = the largest tilt: play of the drill in its sleeve over the guided length, and of the drill sleeve in the master sleeve
rule-play-at-tip = the largest lateral error at the tip, from the same play
rule-radius = half the widest of implant and cuts near the measured point, rounded up
rule-wall = bone from the axis to the wall less the radius of implant and cuts
rule-structure-upright = height to the structure, which is assumed level, less the deepest of implant and cuts
rule-structure-along-axis = height along the axis to the structure, which is assumed level, less the deepest of implant and cuts; on a tilted site this gives no information about what is beside it
rule-structure-along-tilted = height along the axis to the structure, which is assumed level, times the cosine of the tilt, less the most apical corner of the tilted implant or cut
rule-structure-tilted = vertical height to the structure, which is assumed level, less the most apical corner of the tilted implant or cut
rule-structure-beside = axis to the structure less the radius of implant and cuts, and less the anterior loop at the mental foramen
rule-neighbour-measured = measured distance less the radii of implant and cuts, the smallest of all heights measured
rule-neighbour-arch-model = distance in the arch model less half a mean tooth's width at the neck and the radius of implant and cuts
rule-pair-platforms = lateral distance between the platforms, seen from above or along either axis, whichever is smallest, less both radii of implant and cuts
rule-pair-axes = distance between the two axes less both radii of implant and cuts
rule-stop-room = axis to the obstacle less the radius of stop or handpiece, whichever reaches its height
rule-seat-above-crowns = how far the seat nearest the bone is beyond the occlusal plane, which the crowns reach
rule-tissue-room-punch = sleeve offset less the most coronal crest and the soft tissue
rule-tissue-room-flap = sleeve offset less the most coronal crest and the bulk of the flap

## Terms

term-anterior-loop = anterior loop of the canal
term-apical-allowance = apical allowance
term-arch-model = width of the arch
term-axis-to-neighbour = axis to the neighbour
term-axis-to-neighbour-besides = axis to the neighbour by another measure, which leaves no less
term-axis-to-obstacle = axis to the obstacle
term-axis-to-structure = axis to the structure
term-axis-to-wall = axis to the wall
term-between-axes = between the two axes
term-carrier-line = carrier's line above the platform
term-crest-above-platform = platform to the most coronal crest
term-socket-rim-above-platform = platform to the most apical point of the socket's rim
term-lowest-crest-above-platform = platform to the most apical crest
term-crest-below-occlusal = crest below the occlusal plane
term-cut = cut of a step
term-cut-before = drilled before the plan was changed
term-deepest-cut = deepest cut of the site
term-depth = depth below the platform
term-exact = exact length
term-fixed-stop = length of the fixed stop
term-flap-bulge = bulk of the flap
term-gauge = gauge, whichever it will be
term-gauge-constant = gauge constant
term-given-by-move = most that the change of place or depth since then can give back
term-graduation = graduation of the gauge
term-guided-diameter = guided diameter
term-least-of-sequence = smallest setting of the sequence
term-line-from-tip = tip to the line where depth is counted
term-mark = depth mark from the tip
term-master-sleeve-height = height of the master sleeve
term-own-setting = setting on its own
term-pin-length = pin under its head
term-platform-to-apex = implant from platform to apex
term-platform-to-sleeve = sleeve offset
term-point-length = length of the drill's point
term-preparation = depth below the platform
term-nearest-across = diameter there
term-nearest-depth = depth of the nearest point along the axis
term-radius = radius of implant and cuts
term-receipt-deficit = deeper by the guide at hand
term-receipt-excess = farther from the bone by the guide at hand
term-receipt-master-bore = master sleeve bore as measured on the guide
term-receipt-master-height = master sleeve height as measured on the guide
term-receipt-lower-face = nearer the bone by the guide at hand
term-seat = seat above the platform
term-seat-above-rim = drill sleeve above the master sleeve's rim
term-set = setting
term-shortfall = depth lost by the setting
term-sleeve-length = length of the drill sleeve
term-short-of-full = what the partial depth leaves
term-socket-gap = open socket between implant or cut and the wall
term-stop-body = height of the stop
term-stop-or-head-radius = radius of stop or handpiece
term-structure-height = height to the structure
term-taken-by-move = most that the change of place or depth since then can take of what is nearest in space
term-tilt = tilt of the site
term-tissue-thickness = thickness of the soft tissue

## Figures in one line. Lengths without unit inside a sum, the sum as a whole with it.

sum-line = { $value } = { $sum }
sum-rounded = { $value }, rounded down from { $exact } = { $sum }
sum-fixed = { $value }, the longest fixed length not above { $exact } = { $sum }
sum-mark = { $value }, the deepest mark not above { $exact } = { $sum }
sum-one-figure = { $value }, the smallest of the sequence; on its own { $own }, from { $exact } = { $sum }
line-rounded = { $value }, rounded down from { $exact }
line-same = { $value }, exactly as calculated
line-fixed = { $value }, the longest fixed length not above { $exact }
line-mark = { $value }, the deepest mark not above { $exact }
line-one-figure = { $value }, the smallest of the sequence; on its own { $own }
line-deepest = { $value }, the deepest of { $list }
line-at-most = at most { $value }
line-from-terms = { $value }, from { $list }
line-by-rule = { $value }: { $rule }
line-unknown = no figure: { $reasons }
line-term = { $name } { $value }
list-separator = { $first }, { $rest }
