### Always shown: on screen, on paper and by the command line.

caution-aid = This is a planning aid. It replaces neither imaging nor the judgement of a licensed clinician.
caution-first = The manufacturers' instructions and local rules take precedence.
caution-cooling = A closed sleeve keeps the coolant out: use sharp drills within their speed limit, direct cooled irrigant at the mouth of the sleeve, withdraw often and clear the chips.
caution-fit = Before the first cut, check through the guide's windows that it is fully seated, and that it does not rock.
caution-reading = Before the first cut, measure one setting by hand.
