### The order of use, what goes on the tray, what is in stock, and mix-ups.

## Order of use

use-pin = With the guide held in occlusion: pin “{ $name }”: { $drill }, set { $set }, until the stop lands on the rim of the pin's sleeve. Place the pin.
use-pin-mark = With the guide held in occlusion: pin “{ $name }”: { $drill }, { $mark } ({ $set }), level with the rim of the pin's sleeve. Place the pin.
use-pin-does-not-fit = With the guide held in occlusion: pin “{ $name }”: { $drill }. Does not fit: do not drill.
use-pin-none = With the guide held in occlusion: pin “{ $name }”: { $drill }. No figure: do not drill.
use-punch = Punch the tissue through the guide: { $sites }.
use-punch-seat = Seat the guide, check through its windows, check that it does not rock. Punch the tissue through it: { $sites }.
use-reseat = Take the guide off, remove every tissue plug, re-seat the guide. Check through its windows, check that it does not rock.
use-reseat-pins = Take the pins out and the guide off, remove every tissue plug, re-seat the guide in occlusion and replace its pins: { $pins }. Check through its windows, check that it does not rock.
use-pins = { $first }, { $rest }
use-seat = Seat the guide. Check through its windows, check that it does not rock.
use-look = Check through the guide's windows, check that it does not rock.
use-sound = Bone sounding: { $sites }.
use-sound-site = { $site } { $size }
use-sound-here = Bone sounding, more than { $limit } off: stop. The probe shows
use-sound-here-no-limit = Bone sounding, no limit is set: how far off it may be is unknown. The probe shows
use-sound-unknown = No bone sounding figure: { $sites }. Find it before the first cut.
use-then = { $first } { $rest }
use-drill = { $site }: { $drill } { $path }, { $depth }, set { $set }.
use-drill-mark = { $site }: { $drill } { $path }, { $depth }, { $mark } ({ $set }), level with { $rim }, no farther.
use-drill-does-not-fit = { $site }: { $drill } { $path }, { $depth }. Does not fit: do not drill.
use-drill-none = { $site }: { $drill } { $path }, { $depth }. No figure: do not drill.
use-insert-guided = { $site }: insert the implant { $implant } through the guide.
use-insert-freehand = { $site }: insert the implant { $implant } without the guide.
use-carrier-stays = Leave its carrier in: the implant holds the guide until the guide comes off. Check that head and stop clear it at the neighbouring sites.
use-carriers-out = Remove the carriers that held the guide from their implants.
use-pins-out = Take the pins out: { $pins }.
use-guide-off = Take the guide off. Take every guided stop off its drill, and say that it is off.

## Loading

load-one-of = { $name }, { $slot }
load-stop = { $stop }, set { $set }
load-stop-gauge = { $stop }, set { $set }, the gauge shows { $gauge }
load-stop-does-not-fit = { $stop }: does not fit, do not set
load-stop-none = { $stop }: no figure, do not set
load-slot = slot { $slot }
load-no-slot = no slot left
load-unopened = stays unopened until called for
load-whole-case = for the whole case
load-serves-step = { $step }, { $site }
load-serves-site = { $site }
load-goes-in = { $site }: { $words }
bore-master = the master sleeve of the guide at { $site }
bore-pin = the sleeve of its pin in the guide
load-list = { $first }; { $rest }

kind-drill = drill
kind-sleeve = drill sleeve
kind-implant = implant
kind-carrier = carrier
kind-driver = driver
kind-pin = pin
kind-accessory = accessory

## Set anew in surgery, where there are fewer drills or stops than settings

reset-change = from { $from } to { $to }
reset-change-to = to { $to }
reset-change-groove = from { $from } to { $to }, { $groove }
reset-change-stop = from { $from } on { $was } to { $to } on { $is }
reset-gauge = the gauge then shows { $gauge }
reset-when = after { $after }; before { $before }
reset-before = before { $before }
reset-line = Re-set { $drill }, { $change }.
reset-line-does-not-fit = Do not re-set { $drill }: it does not fit so.
reset-line-gauge = Re-set { $drill }, { $change }; { $gauge }.
reset-ahead-does-not-fit = Not to be re-set during surgery, since it does not fit so: { $when }.
reset-ahead = To be re-set during surgery { $change }: { $when }.
use-name-pin = pin “{ $name }”

## Stock

stock-enough = { $name }: { $needed } needed, { $have } available
stock-too-few = { $name }: { $needed } needed, { $have } available, { $short } missing
stock-unknown = { $name }: { $needed } needed, { $have } available, unknown whether that is enough: settings that are not known may be equal
stock-with-resets = { $name }: { $needed } needed, { $have } available, enough only with re-sets during surgery: { $resets } in this order

## Mix-ups, each seen from the site where it would happen

mix-up-other-site = { $drill } set for { $of } ({ $set }), { $at }, { $cuts }
mix-up-same-site = { $drill } set for another step of this site ({ $set }), { $at }, { $cuts }
mix-up-other-set = { $drill } set for { $of } ({ $set }) and its { $sleeve }, both taken { $at }, { $cuts }
mix-up-without-sleeve = { $drill } without its drill sleeve { $at } { $cuts }
mix-up-other-sleeve = { $drill } in { $sleeve } { $at } { $cuts }
mix-up-pin-drill = { $drill } for pin “{ $pin }” ({ $set }), { $at }, { $cuts }
mix-up-without-guide-mark = { $drill } at its guided mark but without the guide { $at } { $cuts }
mix-up-before-move = { $mistake }, by the crest as it was measured before the site was moved or tilted
mix-up-without-guide = { $drill } with its guided stop but without the guide { $at } { $cuts }
# How much too deep and too wide
mix-up-deeper = cuts { $deeper } deeper than anything planned here
mix-up-deeper-at-step = cuts { $deeper } deeper than this step is planned
mix-up-wider = cuts { $wider } wider than the last drill here
mix-up-deeper-and-wider = cuts { $deeper } deeper than anything planned here and { $wider } wider than the last drill here
# Where what is taken lies, and the step in which it would be taken
mix-up-lying = { $name } from slot { $slot }
mix-up-taken-at = taken at step { $step }, { $path }
mix-up-at-step = at step { $step }
mix-up-deeper-than-step = its step is to partial depth only
mix-up-too-wide = wider than the last drill here: the implant may have no hold
mix-up-breaks = would break the limit of the { $what }
not-tried-here = Only partly known, since a setting or height of this site has no figure: { $reasons }.
not-tried-others = Not tried here, since a setting of theirs has no figure: the drills of { $others }.
not-tried-pin = pin { $pin }
mix-up-list = { $first } and of the { $rest }
mix-up-unknown-besides = { $harm }; what else it would reach is not known
mix-up-wall = { $side } wall
mix-up-implant = planned implant, { $site }
mix-up-anatomy-unknown = anatomy unknown here: what it would reach is not known
