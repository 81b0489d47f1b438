### Always shown: on screen, on paper and by the command line.

caution-aid = This is a planning aid. It replaces neither imaging nor a licensed clinician's judgement.
caution-first = The makers' instructions and the local rules come first.
caution-cooling = A closed sleeve keeps the coolant out: use sharp drills within their speed limit, aim cooled irrigant at the sleeve's mouth, withdraw often and clear the chips.
caution-fit = Before the first cut see through the guide's windows that it seats, and that it does not rock.
caution-reading = Before the first cut measure one setting by hand.
