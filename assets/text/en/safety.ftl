### The team's questions in three phases, and the counts.
###
### The three phases are those of the surgical safety checklist of the World Health Organization. The
### items are worded for this procedure and supplement the local list.

safety-title = Team check
safety-subtitle = Asked aloud, answered aloud, ticked. It supplements the local list and replaces nothing on it.
safety-supplement = Who asks reads each line aloud and waits for the answer. If an answer is missing or wrong, stop there.
safety-asked-by = asked by
safety-at = time

## Before the anaesthetic

safety-before-anaesthetic = Before the anaesthetic
safety-identity = The patient says their name and date of birth, and what is to be done. It agrees with the label on these pages and with the signed consent.
safety-jaw = Everyone agrees on the jaw and the teeth: { $jaw }; { $teeth }.
safety-health = Allergies, medicines, bleeding, bone and heart were asked about today. What has to be given beforehand was given.
safety-scan = The scan of { $date } is this patient's and is on display. No tooth, filling or crown in this jaw has changed since.
safety-scan-unknown = The scan is this patient's and is on display. Its date was not entered: find it, and ask what has changed in this jaw since.
safety-plan = Case { $case }, revision { $revision }, fingerprint { $fingerprint } stand alike on these pages and on the screen.
safety-guide-code = The code on the guide is { $code }. The guide is whole, clean and was tried in.
safety-guide-no-code = The guide is this patient's (no code was entered for it). It is whole, clean and was tried in.
safety-guide-planned = The plan says that the guide is not made yet. If there is one, find out which plan it was made from before anything else.
safety-stops = Every stop was set, locked and read by two people.
safety-stops-some-sealed = Every stop was set, locked and read by two people; those on sealed drills are when they are opened.
safety-stops-sealed = The stops on sealed drills are set, locked and read by two people when they are opened.
safety-resets = Stops set anew during this surgery, as the order of use names them: { $count }. Gauge and lock key lie sterile at hand, and two people who read are there.
safety-tray = The tray shows its sign of sterility.
safety-implants = The planned implants are there, unopened and in date.
safety-implants-some-shorter = The planned implants are there, and the next shorter ones that the kit has, unopened and in date.
safety-implants-all-shorter = The planned implants and the next shorter ones are there, unopened and in date.
safety-coolant = Cooled irrigant, suction and torque wrench are at hand and work.
safety-open-none = The plan has no open finding.
safety-open = Open findings of the plan: { $count }. The surgeon has named each and said what follows from it.

## Before the first cut

safety-before-cut = Before the first cut
safety-names = Everyone in the room has said their name and what they do.
safety-aloud = The surgeon says aloud: jaw, teeth, first drill and its setting, what lies nearest and how near.
safety-small-parts = The throat is guarded; key, drivers and small parts are tied or held.
safety-seat = The guide is seated: seen through every window, and it does not rock under a finger on either side.
safety-pins = Fixation pins in: { $count }, set in the bite. The guide has not moved since.
safety-sounding = At each site the probe through the guide shows the figure of its page, within the limit.
safety-sounding-some = At each site whose page gives a figure, the probe through the guide shows it, within the limit: { $sites }.
safety-reading = The first drill's setting was measured by hand once more.
safety-running = Irrigant runs at the sleeve's mouth; speed, torque and direction are set for the first drill.
safety-counted-in = Everything on the list of counts is counted in.

## Before the patient leaves

safety-before-leaving = Before the patient leaves
safety-counted-out = Everything is counted out and agrees: stops, sleeves, pins, key, tethers, swabs, needles.
safety-throat = The throat pack is out and was shown.
safety-whole = Drills, stops and guide are whole; no piece is missing from any of them.
safety-record = For each implant: what was placed, lot, torque, final depth, and each departure from this plan, is written down.
safety-radiograph = The check radiograph was looked at, or its date is set.
safety-wear = The uses of each drill are counted; what is worn, bent or fell is put aside.
safety-told-lower = The patient knows whom to call, and will call if lip or chin are still numb when the anaesthetic should have gone.
safety-told-upper = The patient knows whom to call, and was told about nose blowing and nose bleeds where the sinus or nose is near.

## Counts

count-heading = Counts
count-how = Two people count together, aloud. A number that does not agree is searched for before the wound is closed.
count-stops = depth stops
count-drills = drills, opened
count-sleeves = drill sleeves
count-pins = fixation pins
count-carriers = carriers
count-drivers = drivers
count-sealed-drills = drills, sealed
count-sealed-spares = spares, sealed
count-sealed-implants = implants as planned, sealed
count-sealed-shorter = next shorter implants, sealed
count-key = lock key
count-tethers = tethers
count-throat-pack = throat pack
count-swabs = swabs, needles, blades
count-local = by local list
