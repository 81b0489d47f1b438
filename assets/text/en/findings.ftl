### What is found in a plan: what does not fit, what comes too close, what is not known, and the remedy.
###
### Arguments that are lengths or angles carry their unit. Every finding also has
###   $state    how it stands: "1.9 mm, limit 2.0 mm", or "unknown, …" with what is missing
###   $value    its value; $size the same without a sign; $limit its limit
###   $sign     of the value: positive, negative or none (0 is positive, unknown is none)

## Severity. The word is always shown together with a shape and a colour.

severity-short = short
severity-unknown = unknown
severity-tight = tight
severity-accepted = accepted
severity-accepted-short = accepted, short
severity-accepted-unknown = accepted, unknown
severity-accepted-tight = accepted, tight
severity-intended = intended
severity-note = note
severity-clear = clear

severity-meaning-short = A limit is broken, something does not fit, or something is missing from the tray.
severity-meaning-unknown = Something that the answer needs is missing, out of date or taken from the arch model only.
severity-meaning-tight = The limit holds, but the chance of falling below the floor is too great.
severity-meaning-accepted = Short, unknown or tight, and accepted by the surgeon with a reason.
severity-meaning-intended = A planned contact, with its reason.
severity-meaning-note = Worth knowing; no limit is broken.
severity-meaning-clear = The limit holds for the figures entered. How accurate they are was not assessed.

## How a value stands against its limit

state-limit = { $value }, limit { $limit }
state-at-most = { $value } at most, limit { $limit }: not all of it is known, and the rest can only take more
state-no-limit = { $value }
state-arch-model = from the arch model { $value }, limit { $limit }
state-arch-model-only = from the arch model { $value }, limit { $limit }: measure it
state-along-axis = along the axis { $value }, limit { $limit }: the site is tilted, so this says too little
state-unknown = unknown, { $reasons }
state-unknown-bare = unknown
# A negative margin is told in words, so that no sign can be overlooked.
margin-overlap = overlap of { $size }
# Between reasons of one finding
reasons-joined = { $first }; { $rest }

## Beside a finding

said-basis = basis: { $basis }
said-source = source of the limit: { $source }
# Behind what is found, where the case's limit is less strict
said-loosened = { $headline } (the limit “{ $limit }” is less strict than the program's own, { $own })
limit-loosened = { $source } Less strict than the program's own, { $own }.
said-accuracy = accuracy not assessed
# How many were accepted, beside how many are open
accepted-count-short = accepted although short: { $count }
accepted-count-unknown = accepted although unknown: { $count }
accepted-count-tight = accepted although tight: { $count }
accepted-count-intended = intended: { $count }
said-accepted = accepted by { $by }: { $reason }
said-intended = intended by { $by }: { $reason }
said-lapsed-accepted = accepted earlier by { $by } ({ $reason }), which no longer holds: it shows something else now
said-lapsed-intended = called intended earlier by { $by } ({ $reason }), which does not hold: it shows something else now, or a finding of this kind cannot be intended
said-at-place = { $place }: { $what }

## What was not looked at

not-assessed-heading = Not assessed by this program
not-assessed-sleeve-room = room between neighbouring sleeves, and between sleeves and crowns
not-assessed-pins = distance of fixation pins from implants, roots and canals
not-assessed-slope = slope of the sinus floor, the nasal floor or a canal: each is taken as level at the height that was entered, and may lie nearer beside the axis
not-assessed-mouth-room = whether the mouth opens far enough for drill and handpiece
not-assessed-accuracy = accuracy: how far drilling through the guide may depart from the plan

## Sequence

finding-no-sites = no implant is planned
remedy-no-sites = Enter at least one site.
finding-accepted-order-does-not-fit = the accepted order does not fit the plan as it is now, so the plain rule is followed
remedy-accepted-order-does-not-fit = Look at the order of use again and accept one, or take the accepted order back.
finding-no-sequence = no drill sequence chosen
remedy-no-sequence = Choose the steps.
finding-sequence-without-protocol = sequence without a maker's protocol
remedy-sequence-without-protocol = Check it against the maker's instructions.
finding-differs-from-protocol = sequence differs from the protocol “{ $protocol }”
remedy-differs-from-protocol = Check that the difference is meant.
finding-protocol-for-another-implant = protocol “{ $protocol }” is not for the implant { $implant }
remedy-protocol-for-another-implant = Choose a protocol for this implant, or check the sequence against the maker's instructions.
finding-protocol-for-another-density = protocol “{ $protocol }” is not for the bone density entered
remedy-protocol-for-another-density = Choose a protocol for this density, or check the sequence against the maker's instructions.
finding-density-unknown = bone density not entered
remedy-density-unknown = Enter it; the last diameter depends on it.
finding-no-pilot-first = sequence begins with { $drill }, not with a pilot drill
remedy-no-pilot-first = Put a pilot drill first, or check that this is meant.
finding-widest-not-to-full-depth = { $drill } is the widest drill of the bore, and no step takes it to full depth
remedy-widest-not-to-full-depth = Add a step to full depth: the implant does not seat in a bore that is too narrow below.
finding-step-limit-unknown = unknown whether a step in diameter is too large: the kit gives no limit, and no protocol is followed
remedy-step-limit-unknown = Enter the largest step in the kit, or follow the maker's protocol.
finding-no-full-depth = no step goes to full depth
remedy-no-full-depth = Add a step to full depth, or check that this is meant.
finding-diameter-falls = { $drill } is { $size } narrower than { $before } before it
remedy-diameter-falls = Check the order of the steps.
finding-wider-than-implant = { $drill } cuts { $value }, the implant is { $limit } thick
remedy-wider-than-implant = Take the drill out, or choose a thicker implant: nothing would hold it.
finding-deeper-than-implant = { $drill } is to go { $value } below the platform, the implant needs { $limit }
remedy-deeper-than-implant = Correct the depth of the step.
finding-deeper-than-before = { $drill } is to go { $value } deeper than any drill before it
remedy-deeper-than-before = Let the pilot drill, or a narrower one, go to that depth first, or check the maker's instructions.
finding-step-too-large = { $drill } is { $value } wider than { $before } before it, the kit's largest step is { $limit }
remedy-step-too-large = Put a drill between them, or check the maker's instructions.

## Setting and instruments

finding-outside-gauge = { $drill }: setting outside the gauge ({ $value }; { $gauge }: { $from } to { $to })
remedy-outside-gauge = Choose another gauge, drill or sleeve or, before the guide is made, another distance. Never set it at the end of the scale.
finding-no-fixed-length-fits = { $drill }: no fixed stop is short enough, { $limit } at most may be used
remedy-no-fixed-length-fits = Choose another stop or, before the guide is made, a distance at which one fits.
finding-no-mark-fits = { $drill }: no depth mark is short enough, { $limit } at most may be used
remedy-no-mark-fits = Use a stop, or a drill with a mark that fits. Never drill to a guess between two marks.
finding-setting-unknown = { $drill }, setting: { $state }
finding-gauge-face-unknown = { $drill }: unknown whether { $gauge } reads the stop's lower or upper face, so there is no gauge figure
remedy-gauge-face-unknown = Find out from the gauge's maker or with the check piece, and enter it in the kit.
finding-fixed-stop-off-gauge = { $drill }: what { $stop } gives cannot be read on the gauge: { $state }
remedy-fixed-stop-off-gauge = Measure from tip to landing face with a calliper, or choose a gauge that shows it; else accept it with a reason.
finding-clamp-unknown = { $drill }: unknown where on the shaft a stop may be clamped
remedy-clamp-unknown = Enter the clamping length in the kit, or use a drill made for a stop.
finding-off-clamping-length = { $drill }: { $stop } would end { $value } from the tip, the clamping length goes from { $from } to { $to }
remedy-off-clamping-length = Choose another drill, stop or sleeve or, before the guide is made, another distance: a stop that is half clamped slips.
finding-landing-on-drill-sleeve = { $sign ->
        [negative] { $drill }: { $stop } falls into the bore of { $sleeve }, its face is { $size } too narrow on each side
       *[positive] { $drill }: { $stop } lands on { $sleeve } with { $value } on each side, least { $limit }
    }
remedy-landing-on-drill-sleeve = Use a stop with a wider face.
finding-landing-on-pin-sleeve = { $sign ->
        [negative] pin “{ $name }”: { $stop } on { $drill } falls into the pin's sleeve, its face is { $size } too narrow on each side
       *[positive] pin “{ $name }”: { $stop } on { $drill } lands on the pin's sleeve with { $value } on each side, least { $limit }
    }
remedy-landing-on-pin-sleeve = Use a stop with a wider face.
finding-landing-on-master-sleeve = { $sign ->
        [negative] { $drill }: { $stop } falls into { $sleeve } where no drill sleeve is in it, its face is { $size } too narrow on each side
       *[positive] { $drill }: { $stop } lands on the empty { $sleeve } with { $value } on each side, least { $limit }
    }
remedy-landing-on-master-sleeve = Use a stop with a wider face: with too narrow a one a forgotten drill sleeve lets the drill fall through.
finding-stop-bore = { $sign ->
        [negative] { $drill }: the bore of { $stop } is { $size } too narrow for the drill
       *[positive] { $drill }: the bore of { $stop } is { $value } wider than the drill's stop seat, allowed { $least } to { $most }
    }
remedy-stop-bore = Use a stop that belongs to this drill.
finding-stop-seat-unknown = { $drill }: unknown what diameter { $stop } would sit on
remedy-stop-seat-unknown = Enter the diameter in the kit, or use a drill made for a stop.
finding-guided-clearance = { $sign ->
        [negative] { $drill }: { $size } too thick for the bore that guides it
       *[positive] { $drill }: { $value } between drill and bore, allowed { $least } to { $most }
    }
remedy-guided-clearance = Use the sleeve that belongs to this drill.
finding-sleeve-without-guide = { $drill }: { $sleeve } is chosen, but this step is drilled without the guide
remedy-sleeve-without-guide = Take the sleeve out of the step, or let the guide lead further.
finding-sleeve-not-for-master = { $sleeve } is not made for { $master }
remedy-sleeve-not-for-master = Choose a drill sleeve made for this master sleeve.
finding-sleeve-clearance = { $sign ->
        [negative] { $sleeve } is { $size } too thick for the master sleeve
       *[positive] { $value } between { $sleeve } and the master sleeve, allowed { $least } to { $most }
    }
remedy-sleeve-clearance = Choose a drill sleeve that fits the master sleeve.
finding-sleeve-not-in-master = no part of the barrel of { $sleeve } lies in the bore of { $master }
remedy-sleeve-not-in-master = Choose a longer drill sleeve, and check both sleeves' measures in the kit: one that stands loose leads nothing.
finding-recess-unknown = the flange of { $sleeve } lies { $value } below the rim of { $master }, but no recess of it is known
remedy-recess-unknown = Measure the recess of the master sleeve and the seat of the drill sleeve in it, and enter them in the kit.
finding-flange-not-in-recess = the flange of { $sleeve } is { $limit } wide and does not go into the recess of { $master }, which is { $value } wide
remedy-flange-not-in-recess = Choose a drill sleeve that goes into it, or correct the measures in the kit: the stop lands farther from the bone or nearer to it than worked out.
finding-seat-against-flange = { $sign ->
        [negative] { $sleeve }: by its flange it would sit { $size } deeper in { $master } than the seat that was measured, unknown which is right
       *[positive] { $sleeve }: by its flange it would sit { $value } less deep in { $master } than the seat that was measured, unknown which is right
    }
remedy-seat-against-flange = Measure flange, recess and the seat of the assembled sleeves, and correct the kit: every drill in this sleeve goes deeper or less deep by the difference.
finding-guided-part-unknown = { $drill }: unknown where its guided part begins, so unknown whether it is led
remedy-guided-part-unknown = Measure from the tip up to the part that runs in the sleeve, and enter it in the kit.
finding-drill-not-led = { $drill }: with the stop landed its guided part ends short of the sleeve's bore, nothing leads it
remedy-drill-not-led = Use a longer sleeve or another drill, and check where its guided part begins in the kit.
finding-stop-held-by-rim = { $drill }: { $stop } is too wide for the recess of { $master } and lands { $value } too far from the bone
remedy-stop-held-by-rim = Use a narrower stop or another drill sleeve: the drill would cut too shallow.
finding-stop-sinks-into-recess = { $drill }: { $stop } sinks into the recess of { $master }, { $value } below the rim that its depth is counted to
remedy-stop-sinks-into-recess = Use a stop with a wider face, or a drill sleeve: the drill would cut { $value } too deep.
finding-flute-short = { $drill }: flutes of { $value }, needed { $limit } so that chips leave the bone
remedy-flute-short = Use a drill with longer flutes.
finding-free-length-short = { $drill }: { $value } stand out of the handpiece, setting and stop need { $limit }
remedy-free-length-short = Use a longer drill or a shorter stop or, before the guide is made, a smaller distance.
finding-ends-above-platform = { $drill }: as set its tip ends { $value } above the platform
remedy-ends-above-platform = Choose another stop, mark or sleeve, or take the step out: it prepares nothing.
finding-ends-short = { $sign ->
        [none] { $drill }: the cut ends short of its planned depth: { $state }
       *[positive] { $drill }: the cut ends { $value } short of its planned depth, limit { $limit }: the implant may not seat
    }
remedy-ends-short = Choose a stop, mark or sleeve that comes nearer or, before the guide is made, another distance. Never press the implant on into bone that was not drilled.
finding-full-diameter-above-apex = { $drill }: full diameter ends { $value } short of the apex
remedy-full-diameter-above-apex = Nothing to do if rounding, or the maker's way of counting this drill's depth, explains it.
finding-both-deepen = { $drill }: counted at its full diameter and deepened by the implant's apical allowance, { $value } together
remedy-both-deepen = Check with the maker's instructions that both are meant.

## Turning the implant in

finding-implant-does-not-pass = { $implant } is { $limit } wide and does not pass the bore of { $value }
remedy-implant-does-not-pass = Turn it in without the guide (guided extent “all drilling”), or choose a wider sleeve.
finding-carrier-missing = no carrier chosen for turning the implant in
remedy-carrier-missing = Choose a carrier, or turn the implant in without the guide.
finding-carrier-not-for-implant = { $carrier } does not hold { $implant }
remedy-carrier-not-for-implant = Choose a carrier for this implant.
finding-carrier-clearance = { $sign ->
        [negative] { $carrier } is { $size } too thick for its bore
       *[positive] { $value } between { $carrier } and its bore, allowed { $least } to { $most }
    }
remedy-carrier-clearance = Choose a carrier that fits the bore.
finding-carrier-too-long = { $carrier }: every line is still out of the sleeve at the planned depth, so none gives it
remedy-carrier-too-long = Choose a shorter carrier or, before the guide is made, a greater distance.
finding-carrier-depth = depth of the carrier: { $state }
finding-carrier-line-short = { $carrier }: at line { $line } the implant stays { $value } short of its planned depth
remedy-carrier-line-short = Stop turning when the line is level and finish without the guide, or choose a carrier that fits.

## Fixation pins and the kit as a whole

finding-pin-depth-not-given = pin “{ $name }”: nothing on { $drill } gives a depth of at most { $from }, the length of the pin
remedy-pin-depth-not-given = Enter the drill's marks, or the stop that belongs to it, in the kit. Never drill for a pin without one.
finding-pin-depth-unknown = pin “{ $name }”, { $drill }: { $state }
finding-pin-ends-short = pin “{ $name }”: the hole of { $drill } ends { $value } short of the pin's tip, limit { $limit }: the pin does not go in to its head
remedy-pin-ends-short = Take a pin, a stop or a mark that comes nearer. Never press the pin on: its head would lift the guide or break its sleeve.
finding-pin-drill-short = pin “{ $name }”: { $drill } stands { $value } out of the handpiece, { $limit } is needed
remedy-pin-drill-short = Use a longer drill or a shorter pin.
finding-kit-is-invented = the kit “{ $kit }” is invented for practice, the case is not
remedy-kit-is-invented = Take the measures of the instruments in the hand: take over their kit, or mark the case as a demonstration.

## Clearances

finding-deep-structure = { $structure }: { $state }
remedy-deep-structure = Choose a shorter implant, a shallower platform or another place; else accept it with a reason.
finding-wall = { $side } wall { $height }: { $state }
remedy-wall = Move or tilt the site, choose a narrower implant, or plan a graft; else accept it with a reason.
finding-wall-not-measured = { $side } wall: unknown, not measured
remedy-wall-not-measured = Measure from the site's axis to the outer surface of the wall and enter it.
finding-oral-profile-not-measured = { $side } wall below the crest: unknown, measured at the crest only
remedy-oral-profile-not-measured = Measure it at mid-length and at the apex too: the bone may be undercut there, and vessels run beside it.
finding-neighbour-not-entered = { $position }: unknown, what stands there was not entered
remedy-neighbour-not-entered = Enter whether the tooth is present, missing or to be extracted, and what kind it is.
finding-tooth-at-site = { $position }: a tooth stands where the implant is planned
remedy-tooth-at-site = Mark the tooth to be extracted, or correct the site.
finding-site-away-from-its-tooth = placed at { $position }, not at the site's own tooth
remedy-site-away-from-its-tooth = Check that this is the right site: correct its tooth or its place on the arch; else accept it with a reason.
finding-distance-to-no-root = a distance to { $position } was entered, but no root stands there
remedy-distance-to-no-root = Correct what stands there, or delete the distance.
finding-neighbour-root = neighbouring root, { $position }: { $state }
remedy-neighbour-root = Move or tilt the site, or choose a narrower implant; else accept it with a reason.
finding-neighbour-old-implant = existing implant, { $position }: { $state }
remedy-neighbour-old-implant = Move or tilt the site, or choose a narrower implant; else accept it with a reason.
finding-neighbour-implant = planned implant, { $other }, between the platforms: { $state }
remedy-neighbour-implant = Move one of the sites, or choose narrower implants; else accept it with a reason.
finding-neighbour-implant-body = planned implant, { $other }, along the bodies: { $state }
remedy-neighbour-implant-body = Move or tilt one of the sites, or choose narrower or shorter implants; else accept it with a reason.
finding-convergence = angle to the implant of { $other }: { $state }
remedy-convergence = Tilt one of the sites less, or check with whoever makes the restoration; else accept it with a reason.

## Room

finding-tissue-room = room for the tissue under the sleeve: { $state }
remedy-tissue-room = { $sign ->
        [negative] The guide cannot seat there. Plan the sleeve farther from the bone before the guide is made, or choose another access.
       *[positive] Plan the sleeve farther from the bone before the guide is made, choose another access, or accept it with a reason.
    }
finding-stop-room = stop and handpiece beside “{ $obstacle }”: { $state }
remedy-stop-room = Use a narrower stop, take the obstacle away or, before the guide is made, plan the sleeve farther from the bone: a stop held up there lets the drill cut too shallow.
finding-crown-not-measured = crown of { $position } beside the seat of the stop: not measured, unknown whether stop and handpiece pass
remedy-crown-not-measured = Measure how high and how near it stands, and enter it as that tooth's crown.
finding-crowns-beside-seat = { $sign ->
        [positive] neighbouring crowns end { $size } short of the seat of the stop
        [negative] neighbouring crowns may stand { $size } beyond the seat of the stop: unknown whether stop and handpiece pass
       *[none] neighbouring crowns beside the seat of the stop: { $state }
    }
remedy-crowns-beside-seat = Measure what stands beside the sleeve and enter it.

## The guide as it came

finding-receipt = { $of ->
        [master_sleeve_height] height of the master sleeve
        [master_sleeve_bore] bore of the master sleeve
       *[platform_to_sleeve] platform to sleeve on the guide
    }: measured { $measured }; { $sign ->
        [positive] { $size } more than planned, limit { $limit }
        [negative] { $size } less than planned, limit { $limit }
       *[none] { $state }
    }
remedy-receipt = Do not use the guide before the difference is explained. Measure again; ask whoever made it; enter what is true and work the settings out anew.
finding-receipt-seat = seat of the stops as measured: { $sign ->
        [positive] { $size } farther from the bone than planned, limit { $limit }
       *[negative] { $size } nearer the bone than planned, so every guided cut is { $size } deeper, limit { $limit }
    }
remedy-receipt-seat = Do not use the guide before the difference is explained. Measure distance and sleeve again; enter what is true and work the settings out anew.
finding-guide-seats-lower = the guide seats { $size } nearer the bone than planned, as measured: every guided cut is { $size } deeper
remedy-guide-seats-lower = To have the settings worked out anew, enter what was measured as the distance of the plan.
finding-guide-not-held = { $support ->
        [mucosa] the guide rests on mucosa and no fixation pin holds it: it gives way under the drill
       *[bone] the guide rests on bone and no fixation pin is entered: unknown what holds it in place
    }
remedy-guide-not-held = Plan fixation pins, three or more and not in line; else accept it, saying what holds the guide.
finding-no-receipt = guide made but not measured
remedy-no-receipt = Measure the distance from platform to sleeve and the sleeve's height when the guide comes, and enter them.

## Stock and tray

finding-stock-short = { $name }: { $needed } needed, { $have } there, { $resets ->
        [none] { $short } short
       *[some] enough only with stops set anew in surgery: { $resets } in this order
    }
remedy-stock-short = Get what is missing, or change the plan.
finding-no-tray = no tray chosen, so nothing has a slot
remedy-no-tray = Choose a tray.
finding-no-slot = { $name }: no slot left on the tray
remedy-no-slot = Choose a tray with more slots, or lay it out beside the tray and say where.
finding-look-alikes-side-by-side = look-alikes lie side by side: { $name }{ $set ->
        [none] {""}
        [unknown] {" "}with its setting unknown
       *[other] {" "}at { $set }
    } in slot { $slot } and { $beside }{ $beside_set ->
        [none] {""}
        [unknown] {" "}with its setting unknown
       *[other] {" "}at { $beside_set }
    } in slot { $beside_slot }
remedy-look-alikes-side-by-side = Move one of them to another slot, or choose a tray with more room; else read slot and setting aloud whenever one of them is taken.
finding-tray-place-does-not-fit = { $now ->
        [none] slot { $slot } was chosen by hand for something that is not laid by itself, so the choice is not followed
       *[other] slot { $slot } was chosen by hand for { $name }, which is one instrument with what was chosen for slot { $now } and lies there, so the choice is not followed
    }
remedy-tray-place-does-not-fit = Look at the tray; take the choice back, or lay something else there.

## Why something is unknown: what was not entered, and what to do

missing-platform_to_sleeve = distance from platform to sleeve not entered
supply-platform_to_sleeve = Enter the distance from platform to sleeve, together with the face that it was given to.
missing-platform_below_crest = depth of the platform below the crest not entered
supply-platform_below_crest = Enter how deep the platform lies below the crest.
missing-tissue_thickness_mm = thickness of the soft tissue not entered
supply-tissue_thickness_mm = Measure the thickness of the soft tissue over the crest and enter it.
missing-crest_below_occlusal_mm = height from the crest to the occlusal plane not entered
supply-crest_below_occlusal_mm = Measure how far the crest lies below the occlusal plane, or what stands beside the sleeve, and enter it.
missing-heights-measured_at = not entered where the site stood when its heights were measured
supply-heights-measured_at = Measure the heights at the site as it stands, or confirm that they hold.
missing-carrier = no carrier chosen
supply-carrier = Choose a carrier.
missing-steps = no drill sequence chosen
supply-steps = Choose the steps.
missing-structure = { $structure } not entered
supply-structure = Measure where it lies ({ $structure }) and enter it.
missing-anterior_loop_mm = anterior loop of the canal not measured
supply-anterior_loop_mm = Measure how far the canal loops forward of the foramen and enter it; 0 only if it was seen that there is no loop.
missing-wall = { $side } wall not measured
supply-wall = Measure from the site's axis to the { $side } wall and enter it.
missing-distance = distance to { $to } neither measured nor given by the arch model
supply-distance = Measure the distance to { $to } and enter it.
missing-tooth = what stands at { $tooth } not entered
supply-tooth = Enter what stands at { $tooth }.
missing-limit = no limit set ({ $limit })
supply-limit = Set the limit and say where it comes from ({ $limit }).
missing-gauge = no gauge chosen
supply-gauge = Choose the gauge on which the stops are set.
missing-head = no handpiece head chosen
supply-head = Choose the handpiece head.
missing-tray = no tray chosen
supply-tray = Choose a tray.
missing-gauge-face = not entered in the kit whether { $gauge } reads the stop's lower or upper face
supply-gauge-face = Enter in the kit whether { $gauge } reads the stop's lower or upper face.
missing-arch = width and depth of the arch not entered, and nothing measured
supply-arch = Measure the distance, or enter the width and depth of the arch.
missing-other = not entered: “{ $path }” in the case file
supply-other = Enter it in the case file: “{ $path }”.

## The same, said by a finding about that very thing

missing-here-structure = not entered
missing-here-distance = neither measured nor given by the arch model
stale-here = measured before the site was moved or its implant changed

## Why something is unknown: other reasons

reason-stale = { $what }: measured before the site was moved or its implant changed
supply-stale = Measure again, or confirm that the value still holds.
stale-platform_below_crest = depth of the platform below the crest
stale-tissue_thickness_mm = thickness of the soft tissue
stale-crest_below_occlusal_mm = height from the crest to the occlusal plane
stale-structure = { $structure }
stale-wall = { $side } wall { $height }
stale-distance = distance to { $to } { $height }
stale-obstacle = “{ $obstacle }” beside the sleeve
stale-other = “{ $path }” in the case file
reason-arch-model = from the arch model: { $value }, measure it
supply-arch-model = Measure the distance: the arch model is a schematic and never makes anything clear.
supply-may-be-intended = If the contact is planned, call it intended, with a reason.
reason-against-model = by the measured distance { $measured }, but from the arch model { $model }: one of distance and placement is wrong
supply-against-model = Measure the distance again, or correct where the site stands.
reason-less-deep = { $value } where it was measured, but a drill goes deeper than that
supply-less-deep = Measure down to the tip of the deepest drill, and enter how deep that is.
reason-at-most = what is known leaves { $value } at most
supply-at-most = Enter what is missing.
reason-some-heights = { $value } where it was measured, but not measured along the whole length
supply-some-heights = Measure the least distance over the whole length, or at crest, middle and apex.
reason-arch-angle = from the arch model { $value }
supply-arch-angle = Enter both places as measured: the arch model is a schematic and never makes anything clear.
reason-along-axis = along the axis { $value } would be left, but the site is tilted and nothing says what lies beside it
supply-along-axis = Measure the vertical height of the structure and enter that.
reason-outside-gauge = outside the gauge (would show { $value }; { $gauge }: { $from } to { $to })
reason-outside-gauge-bare = outside the gauge (would show { $value })
supply-outside-gauge = Choose another gauge, drill or sleeve or, before the guide is made, another distance.
reason-between-graduations = between two graduations of the gauge (would show { $value })
supply-between-graduations = Choose a gauge with a graduation there, or measure from tip to stop with a calliper.
reason-unfit = the instruments do not fit there
supply-unfit = Choose other instruments for this implant.
reason-nothing-fits = no stop length, mark or line is short enough
supply-nothing-fits = Choose another instrument or, before the guide is made, a distance at which one fits.
reason-pending = still being worked out
supply-pending = Wait for the answer.
reason-no-accuracy = no figure for the accuracy applies
supply-no-accuracy = Choose a source for the accuracy of guided placement.
# A reason that belongs to another site than the finding
reason-at-site = { $reason }, { $site }

## Structures, walls and heights

structure-mandibular_canal = mandibular canal
structure-mental_foramen = mental foramen
structure-incisive_canal = incisive canal
structure-nasopalatine_canal = nasopalatine canal
structure-sinus_floor = sinus floor
structure-sinus_anterior_wall = front wall of the sinus
structure-nasal_floor = nasal floor

# The oral side has another name in each jaw
wall-side-buccal = buccal
wall-side-oral-upper = palatal
wall-side-oral-lower = lingual

height-crest = at the crest
height-mid = at mid-length
height-apex = at the apex
height-least = at its closest
measured-at = { $what }, { $height }
measured-to-site = implant at { $site }

## Limits

limit-carrier_depth = implant short of its planned depth by the carrier
limit-neighbour_root = neighbouring root
limit-neighbour_implant = implant to implant at the platform
limit-neighbour_implant_body = implant to implant along the bodies
limit-buccal_wall = buccal wall
limit-oral_wall = palatal or lingual wall
limit-mandibular_canal = mandibular canal
limit-mental_foramen = mental foramen
limit-incisive_canal = incisive canal
limit-nasopalatine_canal = nasopalatine canal
limit-sinus = sinus
limit-nasal_floor = nasal floor
limit-tissue_room = room under the sleeve
limit-flap_bulge = room for the bulging flap
limit-stop_room = room beside stop and handpiece
limit-shortfall = cut short of its planned depth
limit-receipt = guide as it came against the plan
limit-sounding = sounding against the plan
limit-convergence = angle between implants
