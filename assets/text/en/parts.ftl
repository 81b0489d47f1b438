## Parts of a case that two desks may change apart

part-rules-version = rules of the figures
part-reference = reference
part-demonstration = for practice or for surgery
part-jaw = jaw
part-other-jaw-case = case of the other jaw
part-guide = guide
part-team = team
part-arch = size of the arch
part-setup = gauge, head, tray and order of use
part-sites = order of the sites
part-teeth = order of the teeth
part-judgements = order of the decisions
part-limits = limits
part-run = wishes for the order of use
part-accepted-order = accepted order of use
part-tray-places = places on the tray
part-note = note
part-decision = decision on { $finding }
part-kit = { $key } of the kit
part-kit-entry = { $id } of the kit’s { $list }
part-yes = yes
part-no = no
part-not-there = —
