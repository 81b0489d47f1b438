### What the view arch says.

arch-chart = Arch chart

## Tools above the chart

arch-both-jaws = Both jaws
arch-own-jaw = This jaw only
arch-farther = Zoom out
arch-farther-hint = Zoom out (-)
arch-closer = Zoom in
arch-closer-hint = Zoom in (+)
arch-whole = Fit
arch-whole-hint = Fit the whole chart (0)
arch-zoom-hint = Ctrl and wheel: zoom; drag the background: pan
arch-handle-hint = drag: tilts the axis, the apex follows the pointer
arch-key-hint = key { $key } while the chart has keyboard focus

## What is chosen

arch-choose = Selected
arch-choose-nothing = nothing
arch-thing-site = implant: { $site }
arch-thing-pin = pin { $name }: { $place }
arch-thing-tooth = { $tooth }: { $state }

## Nothing chosen

arch-what-to-do = What to do here
arch-do-place = Click a tooth position to enter its status or to place an implant there.
arch-do-move = Drag an implant to move it. Drag the small ring beside the selected one to tilt its axis.
arch-do-keys = With the keyboard on the chart: arrows move the selected implant by 0.1 mm, with Shift by 1 mm, with Alt they tilt it by 1°; Del removes it; Esc clears the selection, arrows then go from tooth to tooth.
arch-no-size = Size of the arch not entered
arch-no-size-why = The chart shows a mean arch, not to scale, and nothing is measured from it.
arch-enter-size = Enter it in the case
arch-teeth-open = { $count ->
    [one] 1 position not entered
   *[other] { $count } positions not entered
}
arch-rest-present = All of them natural teeth
arch-rest-missing = All of them missing
arch-all = All that is here

## A tooth position

arch-tooth-state = Tooth status
arch-tooth-kind = Kind of neighbour
arch-tooth-kind-open = not entered
arch-tooth-keys = Keys on the chart: P present, M missing, X to extract, Del not entered; arrows go to the next tooth.
arch-tooth-set = { $tooth }: tooth status
arch-site-here = Implant planned here
arch-look-at-site = Show it

## A new site

arch-place = Place an implant here
arch-place-where = It starts upright, centred in the position; then move and tilt it.
arch-place-it = Place it
arch-place-fill = Choose bone, implant, master sleeve and guided extent.
arch-placed = new implant, { $site }
arch-pick = choose
arch-new-bone = Bone
arch-new-implant = Implant
arch-new-master = Master sleeve
arch-new-extent = Guided
arch-master-fits = { $name } (fits its protocols)

## A site

arch-distance = Sleeve offset
arch-density = Bone density
arch-findings = Findings
arch-nothing-found = Nothing was assessed yet.
arch-accuracy = Accuracy is not assessed.
arch-more-findings = { $count } more in the findings
arch-stands = Position and tilt
arch-along = Along the arch, to
arch-across = Across the arch, to
arch-lean-along = Apex, along, to
arch-lean-across = Apex, across, to
arch-no-side = choose the side first
arch-moved = position of { $site }
arch-tilted = tilt of { $site }
arch-removed = { $site } removed
arch-removed-told = { $site } removed, with everything that was measured there. Ctrl+Z brings it back.
arch-site-view = Go to the site
arch-site-remove = Remove it
arch-guide-made = The guide is made and cannot change: position, axis, sleeves and pins stay as they are.
arch-measured-stays = Placed by measured coordinates. It cannot be moved by hand on a chart.
arch-onto-arch = Place it on the arch instead
arch-sequence = Sequence
arch-no-steps = No drills yet. Choose the sequence in the site view.
arch-col-step = step
arch-col-sleeve = sleeve
arch-col-depth = depth
arch-col-set = set, mm

## A pin

arch-pin = Fixation pin
arch-pin-title = Pin { $name }
arch-put-pin = Place { $pin } here
arch-pin-put = new pin { $name }
arch-pin-name = Name
arch-pin-kind = Pin
arch-pin-at = At
arch-pin-moved = position of pin { $name }
arch-pin-changed = pin { $name }
arch-pin-removed = pin { $name } removed
arch-pin-remove = Remove it
arch-pins-not-assessed = Clearances of pins are not assessed.
