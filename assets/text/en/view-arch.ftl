### What the view arch says.

arch-chart = Arch chart

## Tools above the chart

arch-both-jaws = Both jaws
arch-own-jaw = This jaw only
arch-farther = Farther
arch-farther-hint = Look from farther away (-)
arch-closer = Closer
arch-closer-hint = Look closer (+)
arch-whole = Whole
arch-whole-hint = The whole chart again (0)
arch-zoom-hint = Ctrl and wheel: closer; drag the ground: move
arch-handle-hint = drag: tilts the axis, the apex goes where you go
arch-key-hint = key { $key } while the chart has the keyboard

## What is chosen

arch-choose = Look at
arch-choose-nothing = nothing
arch-thing-site = implant: { $site }
arch-thing-pin = pin { $name }: { $place }
arch-thing-tooth = { $tooth }: { $state }

## Nothing chosen

arch-what-to-do = What to do here
arch-do-place = Click a tooth position to say what stands there or to place an implant at it.
arch-do-move = Drag an implant to move it. Drag the small ring beside the chosen one to tilt its axis.
arch-do-keys = With the keyboard on the chart: arrows move the chosen implant by 0.1 mm, with Shift by 1 mm, with Alt they tilt it by 1°; Del takes it away; Esc chooses nothing, arrows then go from tooth to tooth.
arch-no-size = Size of the arch not entered
arch-no-size-why = The chart shows a mean arch, not to scale, and nothing is measured from it.
arch-enter-size = Enter it in the case
arch-teeth-open = { $count ->
    [1] One position of which nothing was said
   *[other] { $count } positions of which nothing was said
}
arch-rest-present = All of them present
arch-rest-missing = All of them missing
arch-all = All that is here

## A tooth position

arch-tooth-state = Tooth here
arch-tooth-kind = Kind of neighbour
arch-tooth-kind-open = not said
arch-tooth-keys = Keys on the chart: P present, M missing, X to extract, Del not entered; arrows go to the next tooth.
arch-tooth-set = { $tooth }: what stands there
arch-site-here = Implant planned here
arch-look-at-site = Look at it

## A new site

arch-place = Place an implant here
arch-place-where = It begins upright in the middle of the position; move and tilt it then.
arch-place-it = Place it
arch-place-fill = Choose bone, implant, master sleeve and how far the guide leads.
arch-placed = new implant, { $site }
arch-pick = choose
arch-new-bone = Bone
arch-new-implant = Implant
arch-new-master = Master sleeve
arch-new-extent = Guided
arch-master-fits = { $name } (fits its protocols)

## A site

arch-distance = Platform to sleeve
arch-distance-apical = { $size }, apical face
arch-distance-coronal = { $size }, coronal rim
arch-density = Bone density
arch-findings = Findings
arch-nothing-found = Nothing was looked at yet.
arch-accuracy = Accuracy is not assessed.
arch-more-findings = { $count } more in the findings
arch-stands = Place and tilt
arch-along = Along the arch, to
arch-across = Across it, to
arch-lean-along = Apex, along, to
arch-lean-across = Apex, across, to
arch-no-side = choose the side first
arch-moved = place of { $site }
arch-tilted = tilt of { $site }
arch-removed = { $site } taken away
arch-removed-told = { $site } taken away with all that was measured there. Ctrl+Z brings it back.
arch-site-view = Go to the site
arch-site-remove = Take it away
arch-guide-made = The guide is made and does not change: place, axis, sleeves and pins stay as they are.
arch-measured-stays = Placed by measured coordinates. They are not moved by hand on a chart.
arch-onto-arch = Place it on the arch instead
arch-sequence = Sequence
arch-no-steps = No drill yet. The sequence is chosen at the site.
arch-col-step = step
arch-col-sleeve = sleeve
arch-col-depth = depth
arch-col-set = set, mm

## A pin

arch-pin = Fixation pin
arch-pin-title = Pin { $name }
arch-put-pin = Put { $pin } here
arch-pin-put = new pin { $name }
arch-pin-name = Name
arch-pin-kind = Pin
arch-pin-at = At
arch-pin-moved = place of pin { $name }
arch-pin-changed = pin { $name }
arch-pin-removed = pin { $name } taken away
arch-pin-remove = Take it away
arch-pins-not-assessed = Clearances of pins are not assessed.
