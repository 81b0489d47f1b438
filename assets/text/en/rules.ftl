### What newer rules of the program change of a case that was saved by older ones.

rules-older = This case is of rules { $before }; this program works by rules { $now }. Every figure here is by rules { $now }. Approvals given before do not hold.
rules-2 = What rules 2 do otherwise than rules 1: cuts and bench checks count the guide as it was measured to seat; of several distances the least counts, and coordinates are held against what was entered; what a small move cannot take of a margin is still known; a fresh socket has no crest; what was measured on a guide counts for that guide alone, and is asked for anew where the file does not say which; less than 0.1 mm to a nerve, a root or an implant is accepted by nobody; gauge ranges, play, wide or thin last drills, pins and anatomy that was not entered are checked as well, so that findings may be new.
rules-3 = What rules 3 do otherwise than rules 2: the bed of an implant that is to be removed has no crest; a place beyond its own crown is asked about, and the structures where platform and apex are must be known, as must impacted teeth behind a neighbour; what was measured remembers its scan and the bone; confirmations that cannot all hold, or of a place that cannot be compared, count for nothing; less than 0.1 mm to a nerve, a root or an implant is clear under no limit; a guide that was measured to seat farther from the bone lifts the implant as well; hardly any tissue to punch, distances farther than any, a guide on one tooth, a platform far out of the bone on one side and states that contradict each other are asked about; what was accepted as unknown, or by a bound, lapses with the body.
rules-4 = What rules 4 do otherwise than rules 3: a density that was not entered leaves a last drill that is too thin or too wide for some bone unknown; full diameter that ends more than 2 mm above the apex, and an implant that passes its bore with less play than the kit allows, are short; a seat that flange and recess deny is accepted by nobody; what only an allowance of the kit lets pass that is looser than usual is told, as are a gauge without its constant, a crest at the occlusal plane and an axis tilted farther than any; an outline thinner than its implant is refused; what was accepted of a stock lapses with the settings that lack; a confirmation given in practice does not count for a patient, nor one after a move that cannot have left its value; what is counted from the crest of a socket is never clear; two measures of one root that differ, a punch through a guide on bone, and bone wider or a crown farther than is usual, are told.
rules-nothing-kept = The file does not hold what its rules gave, so that nobody can say which figures differ: hold every setting against a sheet printed by them, before you take the newer rules.
rules-of-another = The plan was changed since the figures of the older rules were kept; what differs may come from that as well.
rules-no-change = By what the file holds of them, no setting, no cut and no finding that is short, unknown or tight differs.
rules-setting = { $site }, { $step }: set { $before } before, { $after } now
rules-cut = { $site }, { $step }: cut { $before } before, { $after } now
rules-finding = { $finding }: { $before } before, { $after } now
rules-shown = { $verdict } ({ $value } against { $limit })
rules-unknown = unknown
rules-not-open = neither short nor unknown
rules-view = Rules
rules-take = Take the newer rules
rules-taken = take the newer rules
cli-rules-same = The case is of the newest rules; nothing was written
cli-rules-taken = The case is now of rules { $now } (revision { $revision }, { $fingerprint }). Approvals of before do not hold
