### The team's questions in three phases, and the counts.
###
### The three phases are those of the surgical safety checklist of the World Health Organization. The
### items are worded for this procedure and supplement the local list.

safety-title = Team check
safety-subtitle = Asked aloud, answered aloud, ticked. It supplements the local checklist and replaces nothing on it. The person asking reads each line aloud and waits for the answer. If an answer is missing or wrong, stop there.
safety-more-open = Not listed here: { $more } more; all of them are in the annex.
safety-asked-by = asked by
safety-at = time

## Before the anaesthetic

safety-before-anaesthetic = Before anaesthesia
safety-identity = The patient states their name, date of birth and the procedure. It agrees with the label on these pages and with the signed consent.
safety-jaw = Everyone agrees on the jaw and the teeth: { $jaw }; { $teeth }.
safety-jaw-listed = Everyone agrees on the jaw and the teeth: { $jaw }; the { $count } teeth above, each named aloud.
safety-health = Allergies, medication, bleeding, bone and heart were asked about today. Any premedication was given.
safety-scan = The scan of { $date } is this patient's and is on display. No tooth, filling or crown in this jaw has changed since.
safety-scan-unknown = The scan is this patient's and is on display. Its date was not entered: find it, and ask what has changed in this jaw since.
safety-plan = Case { $case }, revision { $revision } and plan code { $fingerprint } are the same on these pages and on the screen.
safety-guide-code = The code on the guide is { $code }. The guide is intact and clean, and was tried in.
safety-guide-no-code = The guide is this patient's (no code was entered for it). It is intact and clean, and was tried in.
safety-guide-planned = The plan says that the guide is not made yet. If there is one, find out which plan it was made from before anything else.
safety-stops = Every stop was set, locked and read by two people.
safety-stops-some-sealed = Every stop was set, locked and read by two people; those on sealed drills are when they are opened.
safety-stops-sealed = The stops on sealed drills are set, locked and read by two people when they are opened.
safety-resets = Re-sets during this surgery, as named in the order of use: { $count }. Gauge and lock key are sterile and at hand, and two people are present to read.
safety-tray = The tray's sterilisation indicator shows that it is sterile.
safety-implants = The planned implants are here, unopened and in date.
safety-implants-some-shorter = The planned implants are here, and the next shorter ones that the kit has, unopened and in date.
safety-implants-all-shorter = The planned implants and the next shorter ones are here, unopened and in date.
safety-coolant = Cooled irrigant, suction and torque wrench are at hand and working.
safety-open-none = The plan has no open finding.
safety-open = Open findings of the plan: { $count }. The surgeon has named each and said what follows from it.

## Before the first cut

safety-before-cut = Before the first cut
safety-names = Everyone in the room has given their name and role.
safety-aloud = The surgeon says aloud: jaw, teeth, first drill and its setting, the nearest structure and how near it is.
safety-small-parts = The throat is protected; key, drivers and small parts are tethered or held.
safety-seat = The guide is fully seated: seen through every window, and it does not rock under finger pressure on either side.
safety-pins = Fixation pins in: { $count }, placed in occlusion. The guide has not moved since.
safety-sounding = Bone sounding: at each site the probe through the guide shows the figure on its page, within the limit.
safety-sounding-some = Bone sounding: at each site whose page gives a figure, the probe through the guide shows it, within the limit: { $sites }.
safety-reading = The first drill's setting was measured by hand once more.
safety-running = Irrigant flows at the mouth of the sleeve; speed, torque and direction are set for the first drill.
safety-counted-in = Everything on the count list is counted in.

## Before the patient leaves

safety-before-leaving = Before the patient leaves
safety-counted-out = Everything is counted out and agrees: stops, sleeves, pins, key, tethers, swabs, needles.
safety-throat = The throat pack is out and was shown.
safety-whole = Drills, stops and guide are intact; no piece is missing from any of them.
safety-record = For each implant: type, lot, torque, final depth and each deviation from this plan are recorded.
safety-radiograph = The check radiograph was reviewed, or its date is set.
safety-wear = The uses of each drill are counted; anything worn, bent or dropped is set aside.
safety-told-lower = The patient knows whom to call, and will call if the lip or chin is still numb when the anaesthetic should have worn off.
safety-told-upper = The patient knows whom to call, and was told about nose blowing and nosebleeds where the sinus or nose is near.

## Counts

count-heading = Counts
count-how = Two people count together, aloud. If a count does not agree, search before the wound is closed.
count-in-by = counted in by, both names
count-out-by = counted out by, both names
count-guide = surgical guide
count-gauge = depth gauge
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
count-local = local list
