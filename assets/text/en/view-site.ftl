### What the site view says.

site-none = The case has no site yet. Place one in the arch.

## What is changed, in the name of the step that can be undone

site-change = { $what } of { $site }
site-what-tooth = tooth number
site-what-placement = position on the arch
site-what-implant = implant
site-what-master = master sleeve
site-what-extent = guided extent
site-what-face = face of the sleeve offset
site-what-distance = sleeve offset
site-what-bone = state of the bone
site-what-density = bone density
site-what-socket-rim = platform below the socket's rim
site-what-crest = platform below crest
site-what-heights = heights
site-what-tissue = tissue thickness
site-what-occlusal = crest below the occlusal plane
site-what-wall = wall
site-what-neighbour = distance to a neighbour
site-what-neighbour-added = new distance to a neighbour
site-what-neighbour-removed = distance removed
site-what-structure = deep structure
site-what-structure-added = new deep structure
site-what-structure-removed = structure removed
site-what-obstacle = obstacle
site-what-obstacle-added = new obstacle
site-what-obstacle-removed = obstacle removed
site-what-confirmed = measured value confirmed
site-what-carrier = carrier
site-what-insertion-sleeve = sleeve for the implant
site-what-note = note
site-what-setting = settings
site-what-protocol = sequence from the protocol
site-what-proposal = proposed sequence
site-what-order = order of steps
site-what-step-added = new step
site-what-step-dropped = step removed
site-what-drill = drill
site-what-sleeve = drill sleeve
site-what-stop = stop
site-what-depth = depth
site-what-then = what follows a step

## Plan

site-tooth = Tooth
site-placed-at = On the arch it is at the { $tooth }; correcting the number does not move it.
site-place-there = Move it to its tooth
site-leads-again = The guide was not left: let it lead again
site-not-cut = Not in the bone
site-cut-tip = { $name }: measured below the platform
site-what-cut-before = what was drilled before
site-implant = Implant
site-master = Master sleeve
site-extent = Guided

## Distance

site-distance-title = Sleeve offset
site-distance = Offset
site-distance-apical = To the apical face
site-distance-coronal = To the coronal rim
site-distance-face-first = Choose the face the offset is measured to, from the platform. Without it the figure means nothing: the two are a sleeve's height apart.
site-distance-lower = so to the apical face
refused-rim = { $value } cannot be to the coronal rim: the sleeve is { $height } high. The sleeve offset is unchanged.
site-face-platform = implant platform
site-face-rim = coronal rim
site-face-lower = apical face

## Bone

site-bone-title = Bone
site-bone = State
site-bone-healed = healed
site-bone-fresh = fresh socket
site-bone-grafted = grafted
site-bone-implant = implant to be removed
site-gap = Gap to the buccal wall
site-slope = Slope of the wall
site-grafted-on = Grafted on
site-date-fault = not a date; write year, month and day, such as 2026-03-14
site-density = Density
site-density-unknown = not entered

## Heights

site-heights-title = Heights
site-heights-anew = Measured again: clear them
site-crest-highest = Platform below the most coronal crest
site-crest-lowest = Platform below the most apical crest
site-socket-rim = Platform below the most apical point of the socket's rim
site-crest-both = Both are needed: the most coronal counts for space, the most apical for walls and for freehand depth.
site-crest-made = The guide is made: the platform is where it leads. Another depth here, within 2 mm of that when the guide was made, is another reading of the crest; what was measured from the platform stays as good, or as old, as it is. One that is farther off is none until somebody says so.
site-crest-off = not where the guide leads
site-crest-read = the crest was read so, and the guide leads as it was planned: say so as { $by }
site-crest-nobody = To say that the crest was read so, name the surgeon under Case.
site-crest-practice = That the crest was read so is said for a patient, not in a demonstration.
site-what-crest-read = another depth said to be a reading of the crest
site-rim-old = The rim was measured while the platform was at another depth: clear it and measure again.
site-tissue = Tissue thickness
site-occlusal = Crest below the occlusal plane

## Walls

site-walls-title = Walls
site-walls-what = From the axis to the outer surface of the bone.

## Neighbours

site-neighbours-title = Measured distances
site-neighbours-what = From the axis to the nearest point of a tooth, a root or an implant placed earlier; to another planned implant from axis to axis. At the crest measure level: across a leaning axis more is read than lies between the platforms.
site-neighbours-none = No neighbour is known. Enter in the arch which teeth are there.
site-neighbour-add = Add a distance to
site-neighbour-which = which neighbour
site-neighbour-height = At which height
site-height-which = which height
site-neighbour-distance = Distance

## Deep structures

site-structures-title = Deep structures
site-structure-add = Add a structure
site-structure-which = which structure
site-structure-lies = Where it is
site-lies-which = below or beside
site-lies-below = below the site
site-lies-beside = beside the site
site-structure-height = Height to it
site-structure-from = Measured from
site-from-which = from where
site-from-platform = the platform
site-from-crest = the crest
site-structure-direction = Direction
site-direction-which = which way
site-along-axis = along the axis
site-vertical = vertically
site-structure-first = For one below the site, first enter from where and in which direction it was measured; then its height.
site-structure-beside = Axis to near surface
site-structure-loop = Anterior loop
site-structure-source = How it was measured

## Obstacles

site-obstacles-title = In the way of stop and head
site-obstacles-what = Crowns and guide walls beside the sleeve.
site-obstacle-add = Add: what it is
site-obstacle-tooth = Whose crown
site-obstacle-no-crown = no crown
site-obstacle-above = Above the sleeve's rim
site-obstacle-beside = Axis to near surface

## Insertion

site-insertion-title = Implant insertion
site-carrier = Carrier
site-carrier-none = not chosen
site-insertion-sleeve = Through
site-note = Note
site-note-what = Worth mentioning

## Measured values

site-stale = measured before the site was as it is now
site-stale-unrecorded = not recorded where this was measured, or measured beside another implant: measure it anew
site-stale-confirm = still valid: confirm as { $by }
site-stale-nobody = To confirm it, name the surgeon under Case.
site-stale-confirm-what = { $what }: still valid, confirm as { $by }
site-down-to = { $what }: measured down to, below the platform
site-field-of = { $what }: { $field }
site-remove = Remove
site-remove-what = Remove: { $what }

## Sequence

site-sequence = Sequence{ $steps ->
    [0] {""}
    [one] , 1 step
   *[other] , { $steps } steps
}
site-no-steps = No step yet. Use a protocol of the kit or a proposal, or add drills by hand.
site-protocol = from the kit's protocol “{ $protocol }”
site-protocol-changed = from the kit's protocol “{ $protocol }”, changed
site-by-hand = put together by hand: check it against the manufacturer's instructions
site-from-protocol = From protocol: { $protocol }
site-propose = Propose one
site-same-sequence = this is the present sequence
site-head-step = step
site-head-set = set, mm
site-head-gauge = gauge
site-head-cut = cut
site-head-bench = bench
site-setting-of = setting of { $step }
site-gauge-of = gauge figure of { $step }
site-cut-of = cut of { $step } below the platform
site-bench-of = bench check of { $step }: tip beyond the sleeve's apical face
site-no-figure = no figure
site-no-stop = no stop, no mark
site-step-title = Step { $number }: { $drill }
site-drill = Drill
site-sleeve = Drill sleeve
site-sleeve-none = none: the master sleeve itself
site-stop = Stop
site-stop-none = none: marks are read
site-depth = Depth
site-depth-full = full depth
site-depth-below = below the platform
site-depth-short = partial depth
site-depth-below-by = Below the platform by
site-depth-short-by = Full depth less
site-then = After it
site-step-earlier = Earlier
site-step-later = Later
site-step-drop = Remove step
site-step-add = Add a step
site-step-add-drill = which drill
site-setting = Settings
site-setting-each = a separate figure for each step
site-setting-one = one figure for all full-depth steps
site-deepest-cut = Deepest cut below the platform
site-sounding = Bone sounding, seat to crest
site-until-level = { $step }: { $level }
site-told = { $what }: { $line }
site-term = { $name } { $value }
site-term-confirmed = { $name } { $value } ({ $basis })
site-term-origin = { $name } { $value }: { $origin }, { $basis }
site-by-sleeve = sleeve { $marking }
site-by-stop = stop { $marking }

## Drawing

site-step-before = Previous step
site-step-next = Next step
site-step-of = step { $number } of { $count }
site-no-drawing = There is no space here for the drawing. Make the window larger.

## Findings and other implants

site-findings = Found here, worst first
site-findings-short = Found here
site-pane-step = Change it
site-no-findings = Nothing was found.
site-other-implants = Another implant
site-next-shorter = Next shorter: { $implant }
site-next-longer = Next longer: { $implant }
site-next-narrower = Next narrower: { $implant }
site-no-shorter = The line has no shorter one of this diameter.
site-no-longer = The line has no longer one of this diameter.
site-no-narrower = The line has no narrower one.
site-trial-summary = { $worsened ->
    [0] {""}
   *[other] makes { $worsened } worse,{" "}
}resolves { $settled } { $settled ->
    [one] finding
   *[other] findings
}, raises { $opened } new
site-trial-refused = not possible
site-trial-worsens = It would make worse
site-trial-settles = It would resolve
site-trial-opens = It would raise
site-trial-changes = It would change
site-trial-notes = Worth knowing
site-trial-nothing = Nothing that is short or unknown would change.
site-trial-protocol = With the sequence of the protocol “{ $protocol }”
site-trial-setting = { $drill } { $set }
site-trial-settings = Settings: { $list }
site-trial-take = Take { $implant }
