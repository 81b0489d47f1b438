### Jaws, sides, teeth and the ways to number them.

## Jaws and the patient's sides

jaw-upper = upper jaw
jaw-lower = lower jaw
side-right = right
side-left = left
# The letters at the ends of a chart
side-letter-right = R
side-letter-left = L

## Teeth

tooth-jaw-upper = upper
tooth-jaw-lower = lower
tooth-central-incisor = central incisor
tooth-lateral-incisor = lateral incisor
tooth-canine = canine
tooth-first-premolar = first premolar
tooth-second-premolar = second premolar
tooth-first-molar = first molar
tooth-second-molar = second molar
tooth-third-molar = third molar

# "upper right first premolar": jaw is tooth-jaw-…, side is side-…, tooth is one of the names above
tooth-words = { $jaw } { $side } { $tooth }
# "upper right first premolar (14)": words is tooth-words, number is written in the notation in use
tooth-label = { $words } ({ $number })

## Notations

notation-iso = ISO 3950
notation-universal = Universal 1–32
notation-quadrant = quadrant notation

## Where an arch's width and depth are measured

arch-landmark-first-molars = distal contacts of the first molars
arch-landmark-second-molars = distal contacts of the second molars
