### What the view of the tray says.

tray-title = Tray
tray-title-of = Tray: { $tray }
tray-drawing = The tray from above
tray-none = No tray is chosen, so nothing has a slot.
tray-none-lead = Choose a tray in the case
tray-other-tray = Choose another tray in the case
tray-no-sites = No implant is planned yet: only what every case needs is here.
tray-no-sites-lead = Place a site in the arch
tray-by-program = Automatic layout
tray-by-program-none = Nothing was placed by hand.
tray-by-program-step = automatic layout of the tray
tray-approved = The plan is approved. If anything is moved to another slot, the approval lapses: a printed tray has to match.
tray-begun = Something is on the tray already. Where something is given another slot here, touch nothing: after saving, the loading view tells who sets.
tray-hint = Drag a thing to another slot of its kind, or choose it in the list and press Enter. It changes places with whatever is there.
tray-by-hand-mark = A bar at the near edge of a slot: placed there by hand.

## A thing, with its number in the order of loading

tray-thing = { $number }. { $name }
tray-thing-set = { $number }. { $name } at { $setting }
tray-thing-mark = { $number }. { $name }, to its mark at { $mark }
tray-thing-no-mark = { $number }. { $name }, its mark unknown
tray-thing-misfit = { $number }. { $name }, does not fit
tray-thing-unset = { $number }. { $name }, its setting unknown

## What is in hand

tray-in-hand = In hand: { $thing }. Arrows choose a slot, Enter puts it there, Escape leaves it where it was.
tray-to-free = { $thing }: into slot { $slot }, which is free
tray-to-other = { $thing }: into slot { $slot }, in exchange with { $there }
tray-lies-there = { $thing }: stays in slot { $slot }
tray-other-kind = { $thing }: not into slot { $slot }, which takes only the kind “{ $takes }”; this is of the kind “{ $kind }”

## Names of steps that can be undone

tray-laid = { $name } in slot { $slot }
tray-exchanged = { $name } in slot { $slot }, { $other } in slot { $from }
tray-pushed-out = { $name } in slot { $slot }, { $other } in none

## The list

tray-list = In the order of use
tray-row = { $thing }, slot { $slot }: { $more }
tray-by-hand = placed by hand; the automatic layout puts it in slot { $slot }
tray-by-hand-no-slot = placed by hand; the automatic layout has no slot for it

## What the findings say of it

tray-told = Findings on the layout
tray-told-one = { $word }: { $what }
tray-told-lead = Show in the findings
tray-none-beside = No look-alikes are side by side.
