### What is found in a plan: what does not fit, what comes too close, what is not known, and the remedy.
###
### Arguments that are lengths or angles carry their unit. Every finding also has
###   $state    how it stands: "1.9 mm, limit 2.0 mm", or "unknown, …" with what is missing
###   $value    its value; $size the same without a sign; $limit its limit
###   $sign     of the value: positive, negative, zero or none (unknown is none)

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
# Beside a setting, so that the word is not taken for the setting
severity-of-site = site: { $verdict }

severity-meaning-short = A limit is broken, something does not fit, or something is missing from the tray.
severity-meaning-unknown = Something that is needed here is missing, out of date or taken from the arch model only.
severity-meaning-tight = The limit holds, but the chance of falling below the floor is too high.
severity-meaning-accepted = Short or unknown, and accepted by the surgeon with a reason.
severity-meaning-intended = A planned contact, with its reason.
severity-meaning-note = Worth knowing; no limit is broken.
severity-meaning-clear = The limit holds for the figures entered. Their accuracy was not assessed.

## How a value stands against its limit

state-limit = { $value }, limit { $limit }
state-at-most = { $value } at most, limit { $limit }: only partly known, and the rest can only reduce it
state-at-least-overlap = { $value } at least, limit { $limit }: only partly known, and the rest can only add to it
# After a move or a change of depth, what that cannot take, and what it cannot give back
state-at-least = { $value } at least after a change of place or depth, limit { $limit }
state-at-most-changed = { $value } at most after a change of place or depth, limit { $limit }
state-at-least-overlap-changed = { $value } at least after a change of place or depth, limit { $limit }
# What was measured before such a change, where that may break the limit or not
state-between = unknown, at worst { $least }, at best { $most }, limit { $limit }: { $reasons }
# Without a gauge, by the deepest that any could let the drills cut
state-at-least-gauge = { $value } at least with any gauge, limit { $limit }
# The most that an angle can be, whichever way the arch turns
state-at-most-angle = { $value } at most, limit { $limit }
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
said-measured-bore = { $headline } (bore of the master sleeve as measured: { $bore })
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
said-lapsed-accepted = previously accepted by { $by } ({ $reason }), which no longer holds: the finding has changed
said-lapsed-intended = previously marked as intended by { $by } ({ $reason }), which does not hold: the finding has changed, or a finding of this kind cannot be intended
said-void-not-acceptable = the decision of { $by } ({ $reason }) does not count: nobody can accept this
said-void-no-reason = the decision of { $by } ({ $reason }) does not count: a reason has two words and ten letters at least
said-void-no-name = the decision on it ({ $reason }) does not count: nobody is named who could sign it
said-at-place = { $place }: { $what }

## What was not looked at

not-assessed-heading = Not assessed by this program
not-assessed-sleeve-room = space between neighbouring sleeves, and between sleeves and crowns
not-assessed-pins = distance of fixation pins from implants, roots and canals
not-assessed-slope = slope of the sinus floor, the nasal floor or a canal: each is assumed level at the height entered, and may be nearer beside the axis
not-assessed-socket = sockets, of teeth and of implants that are removed: whether the first drill slips on the sloping wall of the socket, and a gap to any wall but the buccal one
not-assessed-carriers = carrier and handpiece beside neighbouring crowns while an implant goes in
not-assessed-mouth-room = whether the mouth opens wide enough for drill and handpiece
not-assessed-accuracy = accuracy: how far drilling through the guide may deviate from the plan

## Sequence

finding-rules-older = the case is of rules { $before }, this program works by rules { $now }
remedy-rules-older = See in the view Case, or by “traywright check”, what the newer rules change, and take them there.
finding-no-sites = no implant is planned
remedy-no-sites = Enter at least one site.
finding-accepted-order-does-not-fit = the accepted order does not fit the plan as it is now, so the default rule is followed
remedy-accepted-order-does-not-fit = Review the order of use and accept one again, or withdraw the accepted order.
finding-no-sequence = no drill sequence chosen
remedy-no-sequence = Choose the steps.
finding-sequence-without-protocol = sequence not from a manufacturer's protocol
remedy-sequence-without-protocol = Check it against the manufacturer's instructions.
finding-differs-from-protocol = sequence differs from the protocol “{ $protocol }”{ $missing ->
        [none] {""}
       *[other] ; missing: { $missing }
    }{ $added ->
        [none] {""}
       *[other] ; added: { $added }
    }{ $depths ->
        [none] {""}
       *[other] ; to another depth: { $depths }
    }{ $order ->
        [other] ; its drills in another order
       *[same] {""}
    }
remedy-differs-from-protocol = Check that the difference is intended.
finding-protocol-step-left-out = protocol “{ $protocol }”{ $drills ->
        [none] {""}
       *[other] ; left out: { $drills }
    }{ $shallower ->
        [none] {""}
       *[other] ; kept shallower than there: { $shallower }
    }: unknown whether the bone lets the implant in without
remedy-protocol-step-left-out = Take it as the protocol does, or accept with a reason that it is not needed: in dense bone the implant may stop above its depth, or press on the bone.
finding-kit-not-at-hand = { $implant } was chosen where the kit was not at hand: unknown whether the kit has a protocol for it, and what else this case lacks of the kit
remedy-kit-not-at-hand = Open the file of the kit in the kit view, and take over what it has for this case. Without the kit check the sequence against the manufacturer's instructions, and accept it with a reason.
finding-protocol-for-another-implant = protocol “{ $protocol }” is not for the implant { $implant }
remedy-protocol-for-another-implant = Choose a protocol for this implant, or check the sequence against the manufacturer's instructions.
finding-protocol-for-another-density = protocol “{ $protocol }” is { $entered ->
        [no] for some bone only: unknown whether for this, bone density not entered
       *[yes] not for the bone density entered
    }
remedy-protocol-for-another-density = Choose a protocol for this density, or check the sequence against the manufacturer's instructions.
finding-density-unknown = bone density not entered
remedy-density-unknown = Enter it; the final diameter depends on it.
finding-no-pilot-first = sequence starts with { $drill }, not with a pilot drill
remedy-no-pilot-first = Put a pilot drill first, or check that this is intended.
finding-widest-not-to-full-depth = { $drill } is the widest drill of the osteotomy, and no step takes it to full depth
remedy-widest-not-to-full-depth = Add a step to full depth: the implant does not seat in an osteotomy that is too narrow apically.
finding-step-limit-unknown = unknown whether a step in diameter is too large: the kit gives no limit, and no protocol is followed
remedy-step-limit-unknown = Enter the largest step in the kit, or follow the manufacturer's protocol.
finding-no-full-depth = no step goes to full depth
remedy-no-full-depth = Add a step to full depth, or check that this is intended.
finding-pass-cuts-nothing = { $drill } comes after { $before }, which has gone as deep already: it cuts nothing, and a radiograph then shows what is drilled
remedy-pass-cuts-nothing = Put the partial pass before the drill that goes deeper, or remove it.
finding-shaping-before-bore = { $drill } comes before { $after }, which widens the osteotomy after it
remedy-shaping-before-bore = Put the profile drill after the last drill that widens the osteotomy and the tap last, or check the manufacturer's instructions: one jams in an osteotomy that is too narrow, and a thread that was cut is drilled away.
finding-diameter-falls = { $drill } is { $size } narrower than { $before } before it
remedy-diameter-falls = Check the order of the steps.
finding-wider-than-implant = { $drill } cuts { $value }, the implant is { $limit } wide
remedy-wider-than-implant = Remove the drill, or choose a wider implant: nothing would hold it.
finding-collar-reach-unknown = { $drill } cuts { $value }, the implant's body is { $limit } wide: unknown how deep its wider part reaches
remedy-collar-reach-unknown = Enter the implant's outline in the kit, or a protocol with this drill, from the manufacturer's instructions; or accept it with a reason: below its wider part nothing would hold the implant.
finding-last-drill-thin = last drill to full depth, { $drill }: { $wide } wide; { $entered ->
        [no] unknown whether that is enough, bone density not entered: { $by ->
            [any_protocol] in softer bone
            [usual_anywhere] in softer bone
            [kit_soft] in softer bone
           *[usual] in dense bone
        } this implant needs { $limit } or more
        [open] bone density not entered: { $by ->
            [any_protocol] in softer bone
            [usual_anywhere] in softer bone
            [kit_soft] in softer bone
           *[usual] in dense bone
        } this implant needs { $limit } or more
       *[yes] { $by ->
            [protocol] in bone this dense the kit's protocols for this implant end with { $limit }
            [any_protocol] the kit's protocols for this implant end with { $limit } or more
            [kit] in bone this dense the kit's final diameter asks for { $limit } or more
            [kit_soft] in bone of this density the kit's final diameter asks for { $limit } or more
            [usual_anywhere] { $limit } or more is usual for this implant, in soft bone too
           *[usual] in bone this dense { $limit } or more is usual for this implant
        }
    }
remedy-last-drill-thin = Add a wider drill, or check the manufacturer's instructions: in so narrow a bore the implant may stop above its depth, or press on the bone.
finding-last-drill-wide = last drill to full depth, { $drill }: { $wide } wide; { $entered ->
        [no] unknown whether that is too much, bone density not entered: in the softest bone
        [open] bone density not entered: in the softest bone
       *[yes] in bone this soft
    } { $by ->
        [protocol] the kit's protocols for this implant end with { $limit }
        [kit] the kit's final diameter is { $limit }
       *[usual] { $limit } or less is usual for this implant
    }
remedy-last-drill-wide = End with a narrower drill, or check the manufacturer's instructions: in so wide a bore the implant may find no hold.
finding-tap-in-soft-bone = { $drill } cuts a thread; { $entered ->
        [no] unknown whether the bone is too soft for that, bone density not entered: in the softest bone
       *[yes] in bone this soft
    } { $by ->
        [protocol] the kit's protocols for this implant take no tap
       *[usual] no tap is usual
    }
remedy-tap-in-soft-bone = Leave the tap out, or check the manufacturer's instructions: in a thread that was cut in so soft a bone the implant may find no hold.
finding-deeper-than-implant = { $drill } is planned to { $value } below the platform, the implant needs { $limit }
remedy-deeper-than-implant = Correct the depth of the step.
finding-cut-before = { $how ->
        [implant] an implant, { $name }, went in here before the plan was changed: it is not the one that is planned, or not where it is planned
        [unknown] drilled here before the plan was changed, with { $name }: nobody knows how deep that is below the platform as it is planned now
        [deeper] drilled here before the plan was changed, with { $name }, to { $value } below the platform: the implant needs { $limit }, beneath it the hole stays empty
        [wider] drilled here before the plan was changed, with { $name }, { $value } wide: the implant is { $limit } wide there
       *[within] drilled here before the plan was changed, with { $name }, to { $value } below the platform; it counts in every margin
    }
remedy-cut-before = { $how ->
        [implant] Plan the implant that is in, or say in the form of the site that it is out.
        [unknown] Measure how deep it is below the platform, and enter that in the form of the site; if it was not drilled, say so there.
        [deeper] Choose an implant that fills the hole, or accept it with who decided and why.
        [wider] Choose a wider implant: nothing would hold this one.
       *[within] If it was not drilled, say so in the form of the site.
    }
finding-deeper-than-protocol = { $drill } is planned to { $value } below the platform, the kit's protocols for this implant take it to { $limit }
remedy-deeper-than-protocol = Correct the depth of the step: below the implant's wider part nothing would hold it.
finding-deeper-than-before = { $drill } { $how ->
        [set] goes, as it is set,
        [widest] goes
       *[planned] is planned
    } { $value } deeper than { $how ->
        [widest] { $before }, the widest drill before it: a narrower osteotomy is all that it meets there
       *[planned] any drill before it
    }
remedy-deeper-than-before = { $how ->
        [widest] Take { $before } as deep, or keep this one above where that ends: in an osteotomy that is too narrow it jams.
       *[planned] Take the pilot drill, or a narrower one, to that depth first, or check the manufacturer's instructions.
    }
finding-step-too-large = { $drill } is { $value } wider than { $before }, the widest before it that goes as deep; the kit's largest step is { $limit }
remedy-step-too-large = Add a drill between them, or check the manufacturer's instructions.

## Setting and instruments

finding-outside-gauge = { $drill }: setting outside the gauge ({ $value }; { $gauge }: { $from } to { $to })
remedy-outside-gauge = Choose another gauge, drill or sleeve or, before the guide is made, another sleeve offset. Never set it at the end of the scale.
finding-no-fixed-length-fits = { $drill }: no fixed stop gives { $limit } or less, and more is not allowed
remedy-no-fixed-length-fits = Choose another stop or, before the guide is made, a sleeve offset at which one fits.
finding-no-mark-fits = { $drill }: no depth mark is at { $limit } or less, and more is not allowed
remedy-no-mark-fits = Use a stop, or a drill with a mark that fits. Never estimate a depth between two marks.
finding-setting-unknown = { $drill }, setting: { $state }
finding-speed-far-off = { $name }: maximum speed entered as { $is } rpm, more than { $usual } rpm is unusual
remedy-speed-far-off = Check the digits in the kit against the manufacturer's instructions. If it is right, accept it with a reason.
finding-torque-far-off = { $name }: maximum torque entered as { $is }, { $side ->
        [less] less
       *[more] more
    } than { $usual } is unusual
remedy-torque-far-off = Check the digits in the kit against the manufacturer's instructions. If it is right, accept it with a reason.
finding-allowance-far-off = { $name }: drills are to go { $value } beyond its apex, more than { $limit } is unusual
remedy-allowance-far-off = Check the digits in the kit against the manufacturer's instructions. If it is right, accept it with a reason.
finding-flat-point-counted = { $name }: its depth is counted where its full diameter begins, yet its point is entered as flat, 0 long: one of them is wrong
remedy-flat-point-counted = Measure the point and enter its length, or count the depth at the tip. If its end is flat, accept it with a reason.
finding-gauge-face-unknown = { $drill }: unknown whether { $gauge } reads the stop's lower or upper face, so there is no gauge figure
remedy-gauge-face-unknown = Find out from the gauge's manufacturer or with the check piece, and enter it in the kit.
finding-gauge-constant-missing = { $gauge }: unknown what it adds to the length that it measures, so there is no gauge figure
remedy-gauge-constant-missing = Find out what the gauge adds to the length that it measures, from its manufacturer or with the check piece, and enter it in the kit: 0 if it adds nothing.
finding-fixed-stop-off-gauge = { $drill }: the length given by { $stop } cannot be read on the gauge: { $state }
remedy-unknown-fixed-stop-off-gauge = Measure from tip to landing face with callipers, or choose a gauge that shows it; otherwise accept it with a reason.
finding-clamp-unknown = { $drill }: unknown where on the shank a stop may be clamped
remedy-clamp-unknown = Enter the clamping length in the kit, or use a drill made for a stop.
finding-off-clamping-length = { $drill }: { $stop } would end { $value } from the tip, the clamping length runs from { $from } to { $to }
remedy-off-clamping-length = Choose another drill, stop or sleeve or, before the guide is made, another sleeve offset: a stop that is only half clamped slips.
finding-landing-on-drill-sleeve = { $sign ->
        [negative] { $drill }: { $stop } falls into the bore of { $sleeve }, its face is { $size } too narrow on each side
       *[positive] { $drill }: { $stop } lands on { $sleeve } with { $value } on each side, minimum { $limit }
    }
remedy-landing-on-drill-sleeve = Use a stop with a wider face.
finding-landing-on-pin-sleeve = { $sign ->
        [negative] pin “{ $name }”: { $stop } on { $drill } falls into the pin's sleeve, its face is { $size } too narrow on each side
       *[positive] pin “{ $name }”: { $stop } on { $drill } lands on the pin's sleeve with { $value } on each side, minimum { $limit }
    }
remedy-landing-on-pin-sleeve = Use a stop with a wider face.
finding-landing-on-master-sleeve = { $sign ->
        [negative] { $drill }: { $stop } falls into { $sleeve } where no drill sleeve is in it, its face is { $size } too narrow on each side
       *[positive] { $drill }: { $stop } lands on the empty { $sleeve } with { $value } on each side, minimum { $limit }
    }
remedy-landing-on-master-sleeve = Use a stop with a wider face: with one that is too narrow, a forgotten drill sleeve lets the drill drop through.
finding-stop-bore = { $sign ->
        [negative] { $drill }: the bore of { $stop } is { $size } too narrow for the drill
       *[positive] { $drill }: the bore of { $stop } is { $value } wider than the drill's stop seat, allowed { $least } to { $most }
    }
remedy-stop-bore = Use a stop that belongs to this drill.
finding-stop-seat-unknown = { $drill }: unknown what diameter { $stop } would fit on
remedy-stop-seat-unknown = Enter the diameter in the kit, or use a drill made for a stop.
finding-guided-clearance = { $sign ->
        [negative] { $drill }: { $size } too wide for the bore that guides it
       *[positive] { $drill }: { $value } between drill and bore, allowed { $least } to { $most }
    }
remedy-guided-clearance = Use the sleeve that belongs to this drill.
finding-sleeve-without-guide = { $drill }: { $sleeve } is chosen, but this step is drilled without the guide
remedy-sleeve-without-guide = Remove the sleeve from the step, or extend the guided part.
finding-sleeve-not-for-master = { $sleeve } is not made for { $master }
remedy-sleeve-not-for-master = Choose a drill sleeve made for this master sleeve.
finding-sleeve-clearance = { $sign ->
        [negative] { $sleeve } is { $size } too wide for the master sleeve
       *[positive] { $value } between { $sleeve } and the master sleeve, allowed { $least } to { $most }
    }
remedy-sleeve-clearance = Choose a drill sleeve that fits the master sleeve.
finding-sleeve-not-in-master = no part of the barrel of { $sleeve } is inside the bore of { $master }
remedy-sleeve-not-in-master = Choose a longer drill sleeve, and check the dimensions of both sleeves in the kit: a loose sleeve guides nothing.
finding-recess-unknown = the flange of { $sleeve } is { $value } below the rim of { $master }, but no recess is known for it
remedy-recess-unknown = Measure the recess of the master sleeve and the seat of the drill sleeve in it, and enter them in the kit.
finding-flange-not-in-recess = the flange of { $sleeve } is { $limit } wide and does not fit into the recess of { $master }, which is { $value } wide
remedy-flange-not-in-recess = Choose a drill sleeve that fits into it, or correct the dimensions in the kit: the stop lands farther from the bone or nearer to it than calculated.
finding-seat-against-flange = { $sign ->
        [negative] { $sleeve }: by its flange it would sit { $size } deeper in { $master } than the seat that was measured, unknown which is right
       *[positive] { $sleeve }: by its flange it would sit { $value } less deep in { $master } than the seat that was measured, unknown which is right
    }
remedy-seat-against-flange = Measure flange, recess and the seat of the assembled sleeves, and correct the kit: every drill in this sleeve goes deeper or less deep by the difference.
finding-guided-part-unknown = { $drill }: unknown where its guided part begins, so unknown whether it is guided
remedy-guided-part-unknown = Measure from the tip to the part that runs in the sleeve, and enter it in the kit.
finding-drill-not-led = { $drill }: with the stop landed, its guided part does not reach the sleeve's bore, so nothing guides it
remedy-drill-not-led = Use a longer sleeve or another drill, and check in the kit where its guided part begins.
finding-stop-held-by-rim = { $drill }: { $stop } is too wide for the recess of { $master } and lands { $value } too far from the bone
remedy-stop-held-by-rim = Use a narrower stop or another drill sleeve: the drill would cut too shallow.
finding-stop-sinks-into-recess = { $drill }: { $stop } drops into the recess of { $master }, { $value } below the rim that its depth is counted to
remedy-stop-sinks-into-recess = Use a stop with a wider face, or a drill sleeve: the drill would cut { $value } too deep.
finding-flute-short = { $drill }: flutes of { $value }, { $limit } needed to clear chips from the bone
remedy-flute-short = Use a drill with longer flutes.
finding-free-length-short = { $drill }: { $value } free of the handpiece, setting and stop need { $limit }
remedy-free-length-short = Use a longer drill or a shorter stop or, before the guide is made, a smaller sleeve offset.
finding-ends-above-platform = { $drill }: as set, its tip ends { $value } above the platform
remedy-ends-above-platform = Choose another stop, mark or sleeve, or remove the step: it prepares nothing.
finding-ends-short = { $sign ->
        [none] { $drill }: how much shallower than planned the cut ends: { $state }
       *[positive] { $drill }: the cut ends { $value } shallower than planned, limit { $limit }: the implant may not seat
    }
remedy-ends-short = Choose a stop, mark or sleeve that comes nearer or, before the guide is made, another sleeve offset. Never force the implant into bone that was not drilled.
finding-play-at-tip = { $sign ->
        [none] { $drill }: how far its tip can be off by the play of its sleeves: { $state }
       *[positive] { $drill }: with the play of its sleeves it can lean by { $tilt } and its tip can be { $value } off, limit { $limit }
    }
remedy-play-at-tip = Use a longer or a tighter sleeve or, before the guide is made, a smaller sleeve offset.
finding-full-diameter-above-apex = { $drill }: full diameter ends { $value } coronal of the apex
remedy-full-diameter-above-apex = { $far ->
        [yes] Use a drill with a shorter point, or check in the manufacturer's instructions how its depth is counted: below there the bore is narrower than the implant, which may stop above its depth, or press on the bone.
       *[no] No action needed if rounding, or the way the manufacturer counts this drill's depth, explains it.
    }
finding-both-deepen = { $drill }: a full-diameter drill that the implant's apical allowance deepens as well, to { $value } below the apex as planned
remedy-both-deepen = Check in the manufacturer's instructions that both are intended.

## Turning the implant in

finding-implant-does-not-pass = { $implant } is { $limit } wide and { $passes ->
        [tight] has { $play } of play in the bore of { $value }, allowed { $least } or more
       *[no] does not pass the bore of { $value }
    }
remedy-implant-does-not-pass = Insert it without the guide (guided extent “all drilling”), or choose a wider sleeve.
finding-carrier-missing = no carrier chosen for inserting the implant
remedy-carrier-missing = Choose a carrier, or insert the implant without the guide.
finding-carrier-not-for-implant = { $carrier } does not hold { $implant }
remedy-carrier-not-for-implant = Choose a carrier for this implant.
finding-carrier-clearance = { $sign ->
        [negative] { $carrier } is { $size } too wide for its bore
       *[positive] { $value } between { $carrier } and its bore, allowed { $least } to { $most }
    }
remedy-carrier-clearance = Choose a carrier that fits the bore.
finding-carrier-too-long = { $carrier }: every line is still outside the sleeve at the planned depth, so none gives it
remedy-carrier-too-long = Choose a shorter carrier or, before the guide is made, a greater sleeve offset.
finding-carrier-depth = depth of the carrier: { $state }
finding-carrier-line-short = { $carrier }: at line { $line } the implant stays { $value } shallower than planned
remedy-carrier-line-short = Stop turning when the line is level and finish without the guide, or choose a carrier that fits.

## Fixation pins and the kit as a whole

finding-pin-depth-not-given = pin “{ $name }”: nothing on { $drill } gives a depth of at most { $from }, the length of the pin
remedy-pin-depth-not-given = Enter the drill's marks, or the stop that belongs to it, in the kit. Never drill for a pin without one.
finding-pin-depth-unknown = pin “{ $name }”, { $drill }: { $state }
finding-pin-ends-short = pin “{ $name }”: the hole of { $drill } ends { $value } before the pin's tip, limit { $limit }: the pin does not go in to its head
remedy-pin-ends-short = Choose a pin, a stop or a mark that comes nearer. Never force the pin: its head would lift the guide or break its sleeve.
finding-pin-drill-short = pin “{ $name }”: { $drill } is { $value } free of the handpiece, { $limit } is needed
remedy-pin-drill-short = Use a longer drill or a shorter pin.
finding-drilling-data-missing = unknown how to run the drill in { $steps ->
        [one] 1 step
       *[other] { $steps } steps
    }: the kit does not say all of it{ $speed ->
        [0] {""}
       *[other] ; no greatest speed in { $speed }
    }{ $torque ->
        [0] {""}
       *[other] ; no torque limit of the tap in { $torque }
    }{ $irrigation ->
        [0] {""}
       *[other] ; no irrigation in { $irrigation }
    }
remedy-drilling-data-missing = Enter it in the kit from the manufacturer's instructions, and update the case from the kit.
finding-pin-drilling-data-missing = unknown how to run { $drill } for the pins: the kit does not say all of it{ $speed ->
        [yes] ; no greatest speed
       *[no] {""}
    }{ $irrigation ->
        [yes] ; no irrigation
       *[no] {""}
    }
remedy-pin-drilling-data-missing = Enter it in the kit from the manufacturer's instructions, and update the case from the kit.
finding-implant-below-label = { $implant }: platform to apex { $value }, its label says { $limit }: unknown which is right
remedy-implant-below-label = Measure the implant, or look it up in the manufacturer's instructions, and correct it in the kit: a label may leave out a collar, it never adds one. If the label is rounded up, accept it with a reason.
finding-insertion-torque-missing = unknown how firmly to turn in the implant at { $sites ->
        [one] 1 site
       *[other] { $sites } sites
    }: the kit gives no greatest torque
remedy-insertion-torque-missing = Enter it in the kit from the manufacturer's instructions, and update the case from the kit.
finding-kit-is-invented = the kit “{ $kit }” is invented for practice, the case is not
remedy-kit-is-invented = Enter the dimensions of the instruments actually used: update the case from their kit, or mark the case as practice, in its case view.

## Clearances

finding-deep-structure = { $structure }: { $state }
remedy-deep-structure = Choose a shorter implant{ $guide ->
        [made] {""}
       *[planned] , a shallower platform or another position
    }{ $accept ->
        [no] { "." }
       *[yes] ; otherwise accept it with a reason.
    }
finding-structure-below-not-measured = { $structure }: entered beside the axis, unknown what lies below the tip
remedy-unknown-structure-below-not-measured = Measure down to it from the platform or the crest and enter that; if it does not run below the site, accept it with a reason.
finding-structure-beside-not-measured = { $structure }: entered below the site, unknown how near it runs beside the axis
remedy-unknown-structure-beside-not-measured = Measure from the axis to it and enter it as one beside the site; if it does not run near the site, accept it with a reason.
finding-wall = { $side } wall { $height }: { $state }
remedy-wall = { $guide ->
        [made] Choose a narrower implant, plan a graft, or have another guide made with the site moved or tilted; otherwise accept it with a reason.
       *[planned] Move or tilt the site, choose a narrower implant, or plan a graft; otherwise accept it with a reason.
    }
finding-wall-not-measured = { $side } wall: unknown, not measured
remedy-unknown-wall-not-measured = Measure from the site's axis to the outer surface of the wall and enter it.
finding-oral-profile-not-measured = { $side } wall below the crest: unknown, measured at the crest only
remedy-unknown-oral-profile-not-measured = Measure it at mid-length and at the apex too: the bone may be undercut there, and vessels run close by.
finding-neighbour-not-entered = { $position }: unknown, tooth status not entered
remedy-unknown-neighbour-not-entered = Enter whether the tooth is present, missing or to be extracted, and what kind it is.
finding-tooth-at-site = { $position }: there is { $what ->
        [implant] an existing implant
       *[tooth] a tooth
    } where the implant is planned
remedy-tooth-at-site = { $what ->
        [implant] Say of the site that the implant is to be removed, or correct the site.
       *[tooth] Mark the tooth to be extracted, or correct the site.
    }
finding-socket-not-entered = { $what ->
        [buried] what lies buried at { $position } is still to come out
       *[none] { $position } is still to be extracted
    }, but the bone of the site is { $bone ->
        [implant] entered as that of an implant to be removed
       *[other] not entered as a fresh socket
    }
remedy-socket-not-entered = Correct one of the two. Without the guide depths count from the rim of a socket, in healed bone from the crest.
finding-socket-without-tooth = { $bone ->
    [implant] an implant is entered to be removed at the site, but { $position } as { $what ->
        [pontic] a pontic
       *[none] missing, without an implant
    }
   *[other] the bone of the site is entered as a fresh socket, but { $position } as { $what ->
        [pontic] a pontic, which has no root
       *[none] missing
    }
}
remedy-socket-without-tooth = { $bone ->
    [implant] Enter the implant at that place, or correct the bone; if the implant is out already, accept it with a reason.
   *[other] Mark the tooth to be extracted, or correct the bone; if the tooth is out already, accept it with a reason.
}
finding-site-away-from-its-tooth = { $how ->
        [side] coordinates put the platform { $by } beyond the midline, on the other side than { $position }
        [coronal] coordinates put the platform { $by } coronal of the occlusal plane
        [height] coordinates put the platform { $by } away from the height that its depth below the crest and the crest below the occlusal plane give
        [arch] coordinates put the platform { $by } from { $position } on the arch model
        [across] placed at { $there }, on the other side of the mouth than { $position }
        [along] placed { $by } along the arch from the middle of { $position }, beyond its crown; it stands at { $there }
        [buccal] placed { $by } to buccal of the middle of { $position }, far beside its crown
        [oral] placed { $by } to oral of the middle of { $position }, far beside its crown
       *[tooth] placed at { $position }, not at the site's own tooth
    }
remedy-site-away-from-its-tooth = { $how ->
        [along] Check its tooth, its position on the arch and the sign; otherwise accept it with a reason.
        [buccal] Check its position on the arch and the sign; otherwise accept it with a reason.
        [oral] Check its position on the arch and the sign; otherwise accept it with a reason.
        [side] Correct the coordinates, their signs or the tooth.
        [across] Correct its tooth, or its position on the arch and the sign.
        [tooth] Check that this is the right site: correct its tooth or its position on the arch; otherwise accept it with a reason.
       *[coordinates] Check the coordinates, their signs and the tooth against the scan; otherwise accept it with a reason.
    }
finding-walls-disagree = bone { $height }: buccal and oral distance were both confirmed after a move of { $by } from the one wall towards the other; both cannot hold
remedy-walls-disagree = Measure both again at the site as planned now.
finding-confirmed-disagree = { $how ->
        [crest] { $thing }: confirmed after the platform went { $by } deeper; both cannot hold
        [gap] { $thing }: confirmed after the axis went { $by } away from the buccal wall; it is wider now
        [beside] { $thing }: its distance was confirmed after a move that may have taken { $by } of it, more than is left above the limit
        [nearer] { $thing }: confirmed after the axis went { $by } towards it; it is nearer now
        [together] { $thing }: confirmed after both sites together came { $by } nearer to each other; it is less now
        [neighbours] the distances to { $position } and { $other } were both confirmed after a move of { $by } from the one towards the other; both cannot hold
       *[deeper] { $thing }: its height below the platform was confirmed after the platform went { $by } deeper; both cannot hold
    }
remedy-confirmed-disagree = Measure again at the site as planned now.
finding-places-disagree = to { $other }: { $how ->
        [order] by the coordinates of both, the more distal site is { $by } mesial of the other
       *[apart] by the coordinates of both, { $by } apart; the crowns between them are { $crowns } wide on average
    }
remedy-places-disagree = Check the coordinates, their signs and the teeth of both against the scan; otherwise accept it with a reason.
finding-bone-towards-socket = bone towards the socket of { $position }: unknown how much will be left
remedy-bone-towards-socket = Check on the scan how much bone will be left between the socket and the implant, and accept it with a reason; otherwise let the socket heal first.
finding-distance-to-no-root = { $tooth ->
        [to_extract] a distance to { $position } was entered, and that tooth is to be extracted
       *[none] a distance to { $position } was entered, but there is no root
    }
remedy-distance-to-no-root = Correct the tooth status, or delete the distance.
finding-distances-disagree = distance to the implant of { $other }: { $least } by one measure and { $most } by another
remedy-distances-disagree = One of them is wrong: measure again, and correct the distance, or the coordinates of the axes. Until then the least counts.
finding-root-distances-disagree = distance to { $position }: { $least } by one measure and { $most } by another
remedy-root-distances-disagree = One of them is wrong: measure again and correct it. Until then the least counts.
finding-neighbour-root = neighbouring root, { $position }: { $state }
remedy-neighbour-root = { $guide ->
        [made] Choose a narrower implant, or have another guide made with the site moved or tilted
       *[planned] Move or tilt the site, or choose a narrower implant
    }{ $accept ->
        [no] { "." }
       *[yes] ; otherwise accept it with a reason.
    }
finding-neighbour-old-implant = existing implant, { $position }: { $state }
remedy-neighbour-old-implant = { $guide ->
        [made] Choose a narrower implant, or have another guide made with the site moved or tilted
       *[planned] Move or tilt the site, or choose a narrower implant
    }{ $accept ->
        [no] { "." }
       *[yes] ; otherwise accept it with a reason.
    }
finding-neighbour-implant = planned implant, { $other }, between the platforms: { $state }
remedy-neighbour-implant = { $guide ->
        [made] Choose narrower implants, or have another guide made with one of the sites moved
       *[planned] Move one of the sites, or choose narrower implants
    }{ $accept ->
        [no] { "." }
       *[yes] ; otherwise accept it with a reason.
    }
finding-neighbour-implant-body = planned implant, { $other }, along the bodies: { $state }
remedy-neighbour-implant-body = { $guide ->
        [made] Choose narrower or shorter implants, or have another guide made with one of the sites moved or tilted
       *[planned] Move or tilt one of the sites, or choose narrower or shorter implants
    }{ $accept ->
        [no] { "." }
       *[yes] ; otherwise accept it with a reason.
    }
finding-convergence = angle to the implant of { $other }: { $state }
remedy-convergence = { $guide ->
        [made] Check with the restorative team, or have another guide made with one of the sites tilted less; otherwise accept it with a reason.
       *[planned] Tilt one of the sites less, or check with the restorative team; otherwise accept it with a reason.
    }

## Room

finding-nothing-to-punch = soft tissue of { $value }, where it is to be punched: unknown whether it was measured, less than { $limit } is unusual
remedy-nothing-to-punch = Measure the thickness of the soft tissue and enter it, or choose another access; otherwise accept it with a reason.
finding-tissue-room = space for the soft tissue under the sleeve: { $state }
remedy-tissue-room = { $sign ->
        [negative] { $guide ->
            [made] The guide cannot seat there. Choose another access, or have another guide made with the sleeve farther from the bone.
           *[planned] The guide cannot seat there. Plan the sleeve farther from the bone, or choose another access.
        }
       *[positive] { $guide ->
            [made] Choose another access, have another guide made with the sleeve farther from the bone, or accept it with a reason.
           *[planned] Plan the sleeve farther from the bone, choose another access, or accept it with a reason.
        }
    }
finding-measured-too-far = { $what ->
        [buccal] outer surface of the buccal bone entered { $value } away
        [oral] outer surface of the oral bone entered { $value } away
        [across] buccal and oral surface of the bone entered { $value } apart
        [crown] what stands beside the sleeve entered { $value } away
        [tooth] tooth or implant beside the site entered { $value } away
        [below] deep structure entered { $value } away
        [both] teeth on both sides of the site entered { $value } away together
       *[beside] deep structure beside the site entered { $value } away
    }: { $by ->
        [model] by the arch model it is { $limit } away
       *[usual] more than { $limit } is unusual
    }
finding-sites-measured-too-far = axis of { $other } entered { $value } away: { $by ->
        [model] by the arch model it is { $limit } away
       *[usual] more than { $limit } is unusual
    }
remedy-sites-measured-too-far = Check the decimals and measure again. If it is that far, accept it with a reason.
remedy-measured-too-far = Check the decimals and measure again. If it is that far, accept it with a reason.
finding-socket-gap-unusual = { $gap ->
        [none] gap to the buccal wall of the socket entered as 0.0 mm: the implant would touch the wall
       *[wide] gap to the buccal wall of the socket entered as { $value }: more than { $limit } is unusual
    }
remedy-socket-gap-unusual = Measure it at the crest; leave the field empty if it is not known. If it is so, accept it with a reason.
finding-measured-down-too-far = said to be measured down to { $value } below the platform: more than { $limit } is unusual beside this implant
remedy-measured-down-too-far = Check the decimals, and enter how deep it was measured. If it was that deep, accept it with a reason.
finding-measured-too-near = crest entered { $value } below the occlusal plane: less than { $limit } is unusual
remedy-measured-too-near = Measure it again; leave the field empty if it is not known. If it is that low, accept it with a reason.
finding-axis-tilted-far = axis tilted by { $value } in all: more than { $limit } is unusual
remedy-axis-tilted-far = Check both tilts, or the direction that was measured. If the implant is to stand so, accept it with a reason.
finding-platform-above-crest = platform { $value } above the { $crest ->
        [one_side] most apical crest: on that side so much of the implant stands out of the bone
        [lowest] most apical crest: unknown whether that is intended, beyond { $limit } it is unusual
       *[whole] whole crest: unknown whether that is intended, beyond { $limit } it is unusual
    }
remedy-platform-above-crest = { $crest ->
        [one_side] Check that this is intended.
       *[other] Check the sign: a platform below the crest is entered as a positive depth. If the platform is to stand that high, accept it with a reason.
    }
finding-scan-before-graft = { $scan ->
        [none] grafted on { $graft }, date of the scan not entered: unknown whether it shows the bone as it is now
       *[other] grafted on { $graft }, scanned on { $scan }: unknown how the bone is now, what was measured may be from before the graft
    }
remedy-scan-before-graft = { $scan ->
        [none] Enter the date of the scan.
       *[other] Scan again after the graft and measure on that scan, or correct the dates.
    }
finding-sleeve-face-doubtful = sleeve offset { $entered } to the apical face: unknown whether it was measured to the coronal rim, since { $value } is left under the sleeve and up to { $limit } is usual
remedy-sleeve-face-doubtful = Check in the guide's plan to which face it was measured. If to the coronal rim, every guided drill now goes { $height } too deep: enter that face.
finding-drill-sleeve-room = { $sleeve } reaches out of the master sleeve towards the bone, room left under it: { $state }
remedy-drill-sleeve-room = Use a shorter drill sleeve or, before the guide is made, plan the sleeve farther from the bone: held up there it does not seat, and the drill cuts too shallow; otherwise accept it with a reason.
finding-stop-room = stop and handpiece beside “{ $obstacle }”: { $state }
remedy-stop-room = Use a narrower stop, remove the obstacle or, before the guide is made, plan the sleeve farther from the bone: a stop held up there leaves the cut too shallow.
finding-crown-doubtful = { $how ->
        [within_sleeve] “{ $obstacle }”: entered { $entered } from the axis, within the master sleeve, whose outer radius is { $expected }: unknown where the crown is
        [within_implant] “{ $obstacle }”: entered { $entered } from the axis, within the implant, whose radius is { $expected }: unknown where the crown is
       *[below_occlusal] “{ $obstacle }”: entered { $entered } over the rim, where the occlusal plane stands { $expected } over it: unknown whether the crown ends so far below
    }
remedy-crown-doubtful = { $how ->
        [within_implant] The implant stands where that crown is: measure from the axis to its near surface again.
        [within_sleeve] The sleeve stands where that crown is: measure from the axis to its near surface again.
       *[below_occlusal] Check the sign (a crown that ends below the rim is negative) and the height of the crest below the occlusal plane; if the crown does end so low, accept it with a reason.
    }
finding-crown-of-no-tooth = { $tooth ->
        [to_extract] a crown of { $position } was entered beside the seat, and that tooth is to be extracted
       *[none] a crown of { $position } was entered beside the seat, but there is none
    }
finding-crown-not-measured = crown of { $position } beside the seat of the stop: not measured, unknown whether stop and handpiece pass
remedy-crown-of-no-tooth = Correct the tooth status, or delete the obstacle.
remedy-crown-not-measured = Measure how high and how near it is, and enter it as that tooth's crown.
finding-crowns-beside-seat = { $sign ->
        [zero] neighbouring crowns end level with the seat of the stop
        [positive] neighbouring crowns end { $size } before the seat of the stop
        [negative] neighbouring crowns may reach { $size } beyond the seat of the stop: unknown whether stop and handpiece pass
       *[none] neighbouring crowns beside the seat of the stop: { $state }
    }
remedy-crowns-beside-seat = Measure what is beside the sleeve and enter it.

## The guide as it came

finding-receipt = { $of ->
        [master_sleeve_height] height of the master sleeve
        [master_sleeve_bore] bore of the master sleeve
       *[platform_to_sleeve] sleeve offset on the guide
    }: measured { $measured }; { $sign ->
        [zero] as planned
        [positive] { $size } more than planned, limit { $limit }
        [negative] { $size } less than planned, limit { $limit }
       *[none] { $state }
    }
remedy-receipt = Do not use the guide until the difference is explained. Measure again; ask whoever made it; enter the true figures and recalculate the settings.
finding-receipt-seat = seat of the stops as measured: { $sign ->
        [zero] as planned
        [positive] { $size } farther from the bone than planned, limit { $limit }
       *[negative] { $size } nearer the bone than planned, so every guided cut is { $size } deeper, limit { $limit }
    }
remedy-receipt-seat = Do not use the guide until the difference is explained. Measure sleeve offset and sleeve again; enter the true figures and recalculate the settings.
finding-guide-seats-lower = the guide seats { $size } nearer the bone than planned, as measured: every guided cut is { $size } deeper
remedy-guide-seats-lower = To recalculate the settings, set the guide back to “not made yet”, enter the measured figure as the planned sleeve offset, and measure the guide anew.
finding-guide-not-held = { $support ->
        [mucosa] the guide is on mucosa and no fixation pin holds it: it gives under the drill
        [bone_spot] the guide is on bone and its fixation pins are in one spot, about which it turns: unknown what else holds it in place
       *[bone] the guide is on bone and no fixation pin is entered: unknown what holds it in place
    }
remedy-guide-not-held = Plan fixation pins, three or more and not in line; otherwise accept it, stating what holds the guide.
finding-punch-on-bone = the guide is on bone, which a flap lays bare, and tissue is to be punched through the guide: one of the two is wrong
remedy-punch-on-bone = Plan a flap, or another support of the guide.
finding-few-pins = the guide is on mucosa and { $count ->
        [one] { $count } fixation pin holds it
       *[other] { $count } fixation pins hold it
    }, { $fewest } are needed: it tips under the drill
remedy-few-pins = Plan more fixation pins, on both sides and not in line; otherwise accept it, stating what holds the guide.
finding-pins-not-spread = { $spread ->
        [spot] the fixation pins are all in one spot: the guide turns about them
        [near] fewer than three fixation pins are a crown's width or more apart: the guide tips about two
        [line] the fixation pins are almost in one line: the guide tips about it
       *[side] the fixation pins are all on one side: the guide lifts on the other
    }
remedy-pins-not-spread = Plan pins on both sides, away from each other and not in one line; otherwise accept it, stating what holds the guide.
finding-no-tooth-holds = { $entered ->
        [all] the guide is to rest on teeth, and none of this jaw stays
        [one] the guide is to rest on teeth, and only one that stays is entered: unknown what else holds it
        [kind] the guide is to rest on teeth, and of too many that stay it is not entered what kind they are: unknown whether they hold it
        [third] the guide is to rest on teeth, and of those entered only third molars stay: unknown whether they hold it
       *[some] the guide is to rest on teeth, and none that stays is entered: unknown what holds it
    }
remedy-no-tooth-holds = { $entered ->
        [kind] Enter what kind the teeth are that carry the guide: a pontic, a root remnant or an impacted tooth holds none.
       *[some] Enter all teeth that stay and carry the guide, or correct its support and plan fixation pins.
    }
finding-guide-teeth-lost = { $rest ->
        [unrecorded] guide made, but not recorded on which teeth it rests: unknown whether all of them are still there
       *[some] { $count ->
            [one] the guide was made to rest on { $position } too, which does not hold it any more
           *[other] the guide was made to rest on { $count } teeth that do not hold it any more, { $position } among them
        }: { $rest ->
            [none] none of its teeth is left
           *[some] unknown whether those that are left hold it
        }
    }
remedy-guide-teeth-lost = { $rest ->
        [unrecorded] Compare the guide with the teeth as they are entered: accept it with a reason once all that it rests on are there, else have another guide made.
        [none] Have another guide made, held otherwise. If the teeth are there, correct their status.
       *[some] Try the guide in the mouth, on the teeth that are left: accept it with a reason if it neither rocks nor sinks, else have another guide made. If the teeth are there, correct their status.
    }
finding-depth-over-made-guide = platform { $highest } below the most coronal and { $lowest } below the most apical crest, { $then ->
        [none] where nothing was entered when the guide was made: unknown whether the guide was made for this depth
        [led] where the guide leads it to { $highest_then } and { $lowest_then } by the last reading that counts: unknown whether the crest was read anew or another depth is meant
        [word] where it was { $highest_then } and { $lowest_then } before: by the word of { $by } the crest was read anew, so that the guide leads the implant where it did
       *[read] where it was { $highest_then } and { $lowest_then } when the guide was made: unknown whether the crest was read anew, for the guide leads the implant where it did
    }
remedy-depth-over-made-guide = { $then ->
        [none] Compare the guide with the plan, and accept it with a reason once they agree.
        [led] If it is a slip, enter { $highest_then } and { $lowest_then }. If the crest was read so, and the guide was made as it was planned, say so by name at the heights of the site, and then measure what is asked for again.
       *[read] If the crest was read anew, measure what counts from the crest again and accept it with a reason: freehand drills go by the new reading, the implant through the guide does not.
    } If another depth is meant, have the guide made anew.
finding-guide-left = { $where ->
        [one] guide left during surgery at { $left }: what is drilled by hand there is led by nothing, the margins between the two sites are by the plan
        [both] guide left during surgery at both sites: what is drilled by hand is led by nothing, the margins to the implant of { $other } are by the plan
       *[here] guide left during surgery: place and axis of what is drilled by hand here are led by nothing, every margin is by the plan
    }
remedy-guide-left = Hold depth, place and axis against the crest and the neighbours at each drill; if the guide leads here again, say so in the form of the site.
finding-guide-made-by-other = { $what ->
        [arch] guide made by another width or depth of the arch: unknown whether its sites are where the plan shows them; every margin is by the plan
        [held] guide made with other pins, or for another support or access: unknown whether it is held as planned
        [added] guide made before this site was planned: unknown whether it has a sleeve here, and on this axis; every margin here is by the plan
        [moved] guide made for another place or axis of this site: unknown whether its sleeve is where the plan shows it; every margin here is by the plan
        [sleeve] guide made with another master sleeve or sleeve offset at this site: unknown whether the settings are for the guide at hand
        [sleeve_unrecorded] guide made, but not recorded with which sleeve offset at this site: unknown whether the settings are for the guide at hand
        [implant] guide made for another implant, or another depth, at this site: its sleeve stays, the settings are for what is planned now
        [removed] guide made for { $count ->
            [one] a site that is
           *[other] { $count } sites that are
        } no longer planned: its sleeve is still there
       *[unrecorded] guide made, but not recorded by which plan: unknown what of arch, pins, sites, depths and implants was changed since
    }
remedy-guide-made-by-other = { $what ->
        [arch] Compare the sites on the guide with the plan, or correct the arch; accept it with a reason once they agree.
        [held] Have the guide changed, or plan the pins, the support and the access that it was made for.
        [added] Have the guide made anew, or compare its sleeve with the plan, measure it, enter that, and accept it with a reason.
        [moved] Have the guide made anew, or compare its sleeve with the plan and accept it with a reason once they agree.
        [sleeve] Enter sleeve and offset as the guide was made with them, or say that another guide is made; if it is this one, measure it and accept it with a reason.
        [sleeve_unrecorded] Measure the sleeve offset on the guide and enter what was measured.
        [implant] Check that sleeve, offset and implant go together as planned now.
        [removed] Close its sleeve, or mark it, so that nobody drills there.
       *[unrecorded] Compare the guide with the plan and accept it with a reason once they agree, or have it made anew.
    }
finding-no-receipt = { $missing ->
        [distance] guide made, sleeve offset not measured
        [height] guide made, height of the master sleeve not measured
        [bore] guide made, bore of the master sleeve not measured
        [distance_height] guide made, sleeve offset and height of the master sleeve not measured
        [distance_bore] guide made, sleeve offset and bore of the master sleeve not measured
        [height_bore] guide made, height and bore of the master sleeve not measured
       *[all] guide made but not measured
    }
remedy-no-receipt = Measure sleeve offset, height and bore of the master sleeve when the guide arrives, and enter them: what is not measured counts as planned.

## Stock and tray

finding-stock-short = { $name }: { $needed } needed, { $have } available, { $resets ->
        [unknown] unknown whether that is enough: settings that are not known may be equal
        [none] { $short } missing
       *[some] enough only with re-sets during surgery: { $resets } in this order
    }
remedy-stock-short = Get what is missing, or change the plan.
finding-no-tray = no tray chosen, so nothing has a slot
remedy-no-tray = Choose a tray.
finding-no-slot = { $name }: no slot left on the tray{ $fits ->
        [unknown] , unknown whether one is needed: settings that are not known may be equal
       *[no] {""}
    }
remedy-no-slot = Choose a tray with more slots, or place it beside the tray and note where.
finding-look-alikes-side-by-side = look-alikes side by side: { $name }{ $set ->
        [none] {""}
        [unknown] {" "}with its setting unknown
       *[other] {" "}at { $set }
    } in slot { $slot } and { $beside }{ $beside_set ->
        [none] {""}
        [unknown] {" "}with its setting unknown
       *[other] {" "}at { $beside_set }
    } in slot { $beside_slot }
remedy-look-alikes-side-by-side = Move one of them to another slot, or choose a tray with more space; otherwise read slot and setting aloud whenever one of them is taken.
finding-tray-place-does-not-fit = { $now ->
        [none] slot { $slot } was chosen by hand for something that is not placed by itself, so the choice is not followed
       *[other] slot { $slot } was chosen by hand for { $name }, which is the same instrument as the one chosen for slot { $now } and is there, so the choice is not followed
    }
remedy-tray-place-does-not-fit = Review the tray; withdraw the choice, or put something else there.

## Why something is unknown: what was not entered, and what to do

missing-platform_to_sleeve = sleeve offset not entered
supply-platform_to_sleeve = Enter the sleeve offset, from the platform to the sleeve, and the face it is measured to.
missing-platform_below_crest = depth of the platform below the crest not entered
supply-platform_below_crest = Enter how far the platform is below the crest.
missing-platform_below_socket_rim_mm = depth of the platform below the rim of the socket not entered
supply-platform_below_socket_rim_mm = Measure how far the platform is below the most apical point of the socket's rim: within the socket there is no crest to count freehand depth from.
missing-tissue_thickness_mm = thickness of the soft tissue not entered
supply-tissue_thickness_mm = Measure the thickness of the soft tissue over the crest and enter it.
missing-crest_below_occlusal_mm = height from the crest to the occlusal plane not entered
supply-crest_below_occlusal_mm = Measure how far the crest is below the occlusal plane, or what is beside the sleeve, and enter it.
missing-heights-measured_at = position of the site when its heights were measured not entered
supply-heights-measured_at = Measure the heights at the site as planned now.
missing-carrier = no carrier chosen
supply-carrier = Choose a carrier.
missing-steps = no drill sequence chosen
supply-steps = Choose the steps.
missing-structure = { $structure } not entered
supply-structure = Measure where it is ({ $structure }) and enter it.
missing-anterior_loop_mm = anterior loop of the canal not measured
supply-anterior_loop_mm = Measure how far the canal loops anterior to the foramen and enter it, the foramen as one beside the site; 0 only if imaging shows that there is no loop.
missing-wall = { $height ->
        [none] { $side } wall not measured
       *[other] { $side } wall { $height } not measured
    }
supply-wall = { $height ->
        [none] Measure from the site's axis to the { $side } wall and enter it.
       *[other] Measure from the site's axis to the { $side } wall { $height } and enter it.
    }
missing-density = bone density not entered
supply-density = Enter how dense the bone is.
missing-gap_mm = gap between implant and buccal wall of the socket not entered
supply-gap_mm = Measure the gap between implant and buccal wall at the crest and enter it.
missing-distance = distance to { $to } neither measured nor given by the arch model
supply-distance = Measure the distance to { $to } and enter it.
missing-tooth = tooth status at { $tooth } not entered
supply-tooth = Enter the tooth status at { $tooth }.
missing-limit = no limit set ({ $limit })
supply-limit = Set the limit and state its source ({ $limit }).
missing-gauge = no gauge chosen
supply-gauge = Choose the gauge on which the stops are set.
missing-head = no handpiece head chosen
supply-head = Choose the handpiece head.
missing-tray = no tray chosen
supply-tray = Choose a tray.
missing-gauge-constant = not entered in the kit what { $gauge } adds to the length that it measures
supply-gauge-constant = Enter in the kit what { $gauge } adds to the length that it measures: 0 if it adds nothing.
missing-gauge-face = not entered in the kit whether { $gauge } reads the stop's lower or upper face
supply-gauge-face = Enter in the kit whether { $gauge } reads the stop's lower or upper face.
missing-arch = width and depth of the arch not entered, and nothing measured
supply-arch = Measure the distance, or enter the width and depth of the arch.
missing-obstacle = position of the sleeve when “{ $obstacle }” was measured not entered
supply-obstacle = Measure the height of “{ $obstacle }” above the rim of the sleeve as planned now, or confirm that the value still holds.
missing-other = not entered: “{ $path }” in the case file
supply-other = Enter it in the case file: “{ $path }”.

## The same, said by a finding about that very thing

missing-here-structure = not entered
missing-here-distance = neither measured nor given by the arch model

## One cause on which several findings hang

cause-told = { $why }: { $findings } findings unknown for this
cause-told-at = { $why }: { $findings } findings unknown for this, at { $sites }
cause-told-also-at = { $why }: { $findings } findings unknown for this, also at { $sites }
cause-goes-deeper = a drill at { $site } goes deeper than was measured
cause-guide-of-other-plan = guide that was made is of another place, axis, sleeve or sleeve offset of { $site }
cause-guide-left = guide left during surgery at { $site }
cause-cut-before = drilled at { $site } before its plan was changed, and nobody knows how deep
cause-outside-gauge = a setting is outside the gauge
cause-arch-model = known from the arch model alone
cause-sockets = teeth beside these sites come out
cause-scan-undated = The date of the scan is not entered, and the bone was grafted
cause-kinds = teeth entered without their kind, which may be natural, implants, pontics or buried
cause-grafted = { $site } was grafted after it was measured on the scan

## Why something is unknown: other reasons

scan-undated = The day of the scan was not entered: nobody can say whether it shows the mouth as it is now. Enter it in the case view
scan-old = The scan is of { $day }, { $months } months ago: teeth and bone may have changed since. Check its date, and scan again if they have
scan-to-come = The scan is dated { $day }, a day that has not come yet. Correct its date, or the clock of this machine, before anything is approved
graft-to-come = The graft at { $site } is dated { $day }, a day that has not come yet. Correct its date, or the clock of this machine, before anything is approved
reason-before-graft = { $what }: measured on a scan from before the graft
reason-scan-undated = { $what }: measured on a scan without a date, unknown whether that shows the graft
supply-scan-undated = Enter the date of the scan.
supply-before-graft = Scan again after the graft and measure on that scan.
reason-stale = { $what }: { $since }
stale-since-moved = measured before { $whose ->
        [own] the site
       *[other] { $site }
    } was moved or tilted
stale-since-depth = measured before { $whose ->
        [own] the platform
       *[other] the platform of { $site }
    } was set to another depth
stale-since-depth-missing = measured where { $whose ->
        [own] the platform
       *[other] the platform of { $site }
    } was at a depth below the crest that is not entered now
stale-since-off-guide = { $whose ->
        [own] the platform
       *[other] the platform of { $site }
    } is planned at another depth than the guide leads it to
stale-since-implant = measured before { $whose ->
        [own] the implant
       *[other] the implant of { $site }
    } was replaced by a longer or shorter one
stale-since-bone = measured { $whose ->
        [own] in another state of the bone
       *[other] in another state of the bone at { $site }
    }, or on a scan from before the graft
stale-since-sleeve = measured before the sleeve was set to another distance
stale-since-guide-code = measured on a guide with another code, or before this code was entered
stale-since-guide-plan = measured before { $whose ->
        [own] sleeve offset, axis or sleeve
       *[other] sleeve offset, axis or sleeve of { $site }
    } was planned otherwise
stale-since-unrecorded-guide = measured without a record of which guide
stale-since-unrecorded = measured without a record of how { $site } was placed then
supply-stale-guide = Measure it again on the guide that is there. Nobody can accept this.
supply-depth-missing = Enter the depth of the platform below the crest.
supply-off-guide = Enter the depth to which the guide leads, or say by name at the heights of the site that the crest was read so. Until then nothing that is measured from the platform counts.
supply-guide-of-other-plan = Have the guide made anew, take the plan back to what it was made by, or compare its sleeve with the plan and measure it again.
supply-stale = Measure again, or confirm that the value still holds.
stale-platform_below_crest = depth of the platform below the crest
stale-platform_below_socket_rim_mm = depth of the platform below the rim of the socket
stale-gap_mm = gap of the socket
stale-tissue_thickness_mm = thickness of the soft tissue
stale-crest_below_occlusal_mm = height from the crest to the occlusal plane
stale-structure = { $structure }
stale-wall = { $side } wall { $height }
stale-distance = distance to { $to } { $height }
stale-obstacle = “{ $obstacle }” beside the sleeve
stale-other = “{ $path }” in the case file
reason-arch-model = from the arch model: { $value }, measure it
supply-arch-model = Measure the distance: the arch model is a schematic and never makes anything clear.
supply-not-acceptable = Nobody can accept this.
supply-may-be-intended = If the contact is planned, mark it as intended, with a reason.
reason-crest-of-socket = { $value } at most, counted from the crest: within a socket or the bed of an implant there is none
supply-crest-of-socket = Measure its height from the platform and enter that.
reason-against-model = { $measured } by the measured distance, but { $model } from the arch model: one of distance and position is wrong
supply-against-model = Measure the distance again, or correct the position of the site.
reason-less-deep = { $value } where it was measured, but a drill goes deeper than that
supply-less-deep = Measure down to the tip of the deepest drill, and enter how deep that is.
reason-at-most = what is known leaves { $value } at most
supply-at-most = Enter what is missing.
reason-between = at worst { $least }, at best { $most }
reason-some-heights = { $value } where it was measured, but not measured along the full length
reason-between-heights = { $measured } where it was measured; implants may lean or end apart, so that between those heights these may be as near as { $least }
supply-between-heights = Measure the smallest distance over the full length; between two sites it may be enough to measure at the other one as well, at crest, mid-length and apex.
supply-some-heights = Measure the smallest distance over the full length, or at crest, mid-length and apex.
reason-not-the-least = { $value } by the distance said to be the smallest over the full length, but less was measured elsewhere
supply-not-the-least = Measure the smallest distance over the full length again, or correct what was measured elsewhere.
reason-arch-angle = from the arch model { $value }
supply-arch-angle = Enter both positions as measured: the arch model is a schematic and never makes anything clear.
reason-along-axis = along the axis { $value } would be left, but the site is tilted and nothing is known of what is beside it
supply-along-axis = Measure the vertical height of the structure and enter that.
reason-outside-gauge = outside the gauge (would show { $value }; { $gauge }: { $from } to { $to })
reason-outside-gauge-bare = outside the gauge (would show { $value })
supply-outside-gauge = Choose another gauge, drill or sleeve or, before the guide is made, another sleeve offset.
reason-between-graduations = between two graduations of the gauge (would show { $value })
supply-between-graduations = Choose a gauge with a graduation there, or measure from tip to stop with callipers.
reason-unfit = the instruments do not fit there
supply-unfit = Choose other instruments for this implant.
reason-kind = { $tooth } entered without its kind
reason-kind-beside = { $value } beside it, but what kind it is was not entered: an implant would need { $needed }
supply-kind = Enter what kind { $tooth } is: natural, an implant or another.
supply-kinds = Enter of each of these teeth what kind it is: natural, an implant or another.
reason-cut-through-guide = drilled through the guide before it was left, and an older program did not keep in this case how deep
supply-cut-through-guide = Hold what was drilled, by the record, against what is near it.
reason-cut-before = drilled here before the plan was changed, and nobody knows how deep that is below the platform as it is planned now
supply-cut-before = Measure how deep it is below the platform, and enter that in the form of the site; if it was not drilled, say so there.
reason-nothing-fits = no stop length, mark or line gives a depth small enough
supply-nothing-fits = Choose another instrument or, before the guide is made, a sleeve offset at which one fits.
reason-pending = still being calculated
supply-pending = Wait for the result.
reason-no-accuracy = no accuracy figure applies
supply-no-accuracy = Choose a source for the accuracy of guided placement.
# A reason that belongs to another site than the finding
reason-at-site = { $reason }, { $site }

## Structures, walls and heights

structure-mandibular_canal = mandibular canal
structure-mental_foramen = mental foramen
structure-incisive_canal = incisive canal
structure-nasopalatine_canal = nasopalatine canal
structure-sinus_floor = sinus floor
structure-sinus_anterior_wall = anterior wall of the sinus
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

limit-carrier_depth = implant shallower than planned by the carrier
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
limit-tissue_room = space under the sleeve
limit-flap_bulge = space for the bulk of the flap
limit-stop_room = space beside stop and handpiece
limit-shortfall = cut shallower than planned
limit-play = drill tip off its axis by the play of its sleeves
limit-receipt = delivered guide against the plan
limit-sounding = bone sounding against the plan
limit-convergence = angle between implants
# Allowances of the kit
limit-guided_clearance = play of what a bore guides
limit-sleeve_clearance = play of a drill sleeve in its master sleeve
limit-stop_clearance = play of a stop on its drill
limit-least_landing_mm = landing of a stop on its sleeve
limit-flute_reserve_mm = flutes free above the bone
limit-largest_step_mm = step in diameter
limit-final_diameter = last drill narrower than the implant
