### The arch chart and the tray drawing.

## The arch chart

# jaw is upper, lower or both
chart-arch-caption = { $jaw ->
    [both] Both jaws, as you face the patient
    [upper] Upper jaw, as you face the patient
   *[lower] Lower jaw, as you face the patient
}
chart-arch-schematic = schematic: arch size not entered, not to scale
chart-arch-other-jaw = the other jaw is a mean arch, for orientation only

# A site's tooth in brief; jaw and side show on the chart
chart-site-title = { $tooth } ({ $number })
# verdict is one of the words below, words a sentence on the worst finding
chart-site-worst = { $verdict }: { $words }
chart-site-more = and { $count } more to resolve
chart-verdict-nothing-checked = site: unknown, nothing checked
chart-pin = pin { $name }

## Tilt of an implant

chart-apex = apex { $tilt }
chart-apex-part = { $angle } to { $towards }
chart-apex-handle = apex
chart-apex-measured = apex { $angle } off vertical, to { $towards }
chart-towards-both = { $first } and { $second }
chart-towards-mesial = mesial
chart-towards-distal = distal
chart-towards-buccal = buccal
chart-towards-lingual = lingual
chart-towards-palatal = palatal

## What stands at a tooth position

chart-tooth-present = present
chart-tooth-missing = missing
chart-tooth-to-extract = to extract
chart-tooth-pontic = pontic
chart-tooth-implant = existing implant
chart-tooth-root-filled = root-filled
chart-tooth-impacted = impacted
chart-tooth-remnant = root remnant
chart-tooth-not-entered = not entered

# A chart's part for those who cannot see it: what it shows, and what was said of it
chart-part = { $what }: { $words }

## The tray drawing

chart-slot-empty = empty
chart-slot-number = number { $number }
chart-slot-setting = set { $setting }
chart-slot-setting-unknown = setting unknown
chart-slot-mark = to its mark at { $mark }
chart-slot-mark-unknown = mark unknown
# Above a setting in its slot, and in its place where it is not known
chart-slot-set = set, mm
chart-slot-to-mark = mark, mm
chart-slot-set-unknown = no figure
chart-slot-next = next
chart-diameter = ⌀ { $diameter }
chart-tray-no-slot = Without a slot: { $count }; see the list.
chart-tray-unmarked = Drawn without their markings, for which there is no room: { $count }; see the list.
