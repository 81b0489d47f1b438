# What is wrong with a document: place, value, limit, remedy.
# No capital at the start, no full stop at the end.

### How a fault is put together. $place is the path for people, $what the text of the rule.

fault-at-line-and-place = line { $line }, column { $column }: { $place }: { $what }
fault-at-line = line { $line }, column { $column }: { $what }
fault-at-place = { $place }: { $what }

faults-left-out = and { $count ->
        [one] 1 more fault that is
       *[other] { $count } more faults that are
    } not listed
faults-each-value-only = whether the parts of the document agree with each other can be checked only once these faults are corrected
faults-up-to-here = what follows can be checked only once this fault is corrected

### The file as a whole

fault-too-large = the file has { $bytes } bytes, more than the { $limit } allowed for a document. Choose a document of this program
fault-empty = the file is empty. Choose another file, or restore this one from a backup
fault-other-encoding = the text is encoded as { $encoding }. Save it as UTF-8
fault-not-utf8 = the byte { $byte } is not UTF-8. Save the text as UTF-8; if it was saved that way, the file is damaged: restore it from a backup
fault-nul-byte = the text has a NUL byte, so the file is damaged or not text. Restore it from a backup

### JSON

fault-unfinished = the text stops inside { $open ->
        [object] an object, which begins with {"{"} on line { $line }
        [list] a list, which begins with [ on line { $line }
        [text] a text, which begins with a quote on line { $line }
       *[value] a value on line { $line }
    }. If the file was cut off, restore it from a backup; otherwise close what is open
fault-expected-value = a value is expected here, not “{ $found }”. Enter a number, a text in double quotes, a list, an object, true, false or null
fault-expected-key = a key in double quotes is expected here, not “{ $found }”. Put the key in double quotes, or remove the comma before it if nothing follows
fault-expected-colon = a colon is expected between key and value, not “{ $found }”. Enter a colon
fault-expected-comma = a comma or the closing { $open ->
        [list] ]
       *[object] {"}"}
    } is expected here, not “{ $found }”. Enter the one that is missing, or remove what does not belong here
fault-missing-value = a value is missing before “{ $found }”. Enter the value, or leave the key out if that is allowed
fault-stray-comma = there is one comma too many, or something is missing next to it. Remove the comma, or enter what is missing
fault-trailing-text = the document has ended, but “{ $found }” follows. Remove what follows, or one closing bracket too many
fault-comment = a document cannot contain comments. Remove the comment
fault-other-quotes = texts and keys need double quotes ("), not any others. Use double quotes
fault-bare-word = “{ $found }” is not a value. Put a text in double quotes; without quotes use only true, false, null or a number
fault-not-finite = “{ $found }” is not a number that can be stored. Enter a number, or leave the key out if it is unknown
fault-number-form = “{ $found }” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros
fault-decimal-comma = “{ $found }” has a comma as decimal mark. Write { $instead }
fault-bad-escape = “{ $found }” is not an escape. Write \\ for a backslash, or \u and four digits for a character
fault-control-character = a text cannot contain the character { $code } as it is. Write it as an escape, such as \n for a line break, or remove it
fault-unseen-character = the text holds the character { $code }, which is not seen and can show it as another text. Remove it, or write the text anew
fault-unprintable-character = the text holds the character { $found } ({ $code }), which cannot be printed on the checklist. Write it in letters that can: Latin, Greek or Cyrillic
fault-too-deep = brackets are nested more than { $limit } levels deep. Choose a document of this program
fault-too-many-values = there are more than the { $limit } values that a document can have. Choose a document of this program
fault-duplicate-key = the key { $key } appears twice, first on line { $line }. Keep the right one and remove the other

### Kind and version

fault-kind = { $kind ->
        [run-order] run order
       *[other] { $kind }
    }
fault-not-this-kind = this is not a Traywright { fault-kind }: the key "{ $key }" is missing. Choose another file
fault-other-kind = this is a Traywright { $other }, not a { fault-kind }. Choose the { fault-kind }
fault-bad-version = { $value } is not a version. Write { $version }, or the version that the file was saved with
fault-newer-version = the { fault-kind } is of version { $value }, and this program reads versions up to { $version }. Update the program
fault-newer-rules = the { fault-kind } is of rules { $value }, and this program works by rules up to { $version }. Update the program
fault-older-version = the { fault-kind } is of version { $value }, and this program reads versions from { $oldest }. Open and save it with an older program first

### Numbers

fault-too-many-decimals = { $value } has more than { $limit } decimals. Write it with { $limit } at most, such as { $instead }
fault-beyond-all-bounds = { $value } is farther from 0 than { $limit }, the largest that is possible. Check unit and decimal mark
fault-minus-zero = { $value } is a zero with a minus sign. Write 0, or the intended number

### Structure

fault-unknown-key = the key { $key } is not known here. Remove it; known are { $known }
fault-misspelt-key = the key { $key } is not known here. Write { $instead } if that is meant, otherwise remove it
fault-missing-key = { $key } is missing. Add it with its value
fault-missing-tag = { $key } is missing. Add it with one of { $known }
fault-wrong-type = { $expected ->
        [null] null
        [boolean] true or false
        [number] a number
        [whole-number] a whole number
        [text] a text
        [list] a list
        [object] an object
        [object-or-text] a text or an object
       *[other] another value ({ $expected })
    } is needed here, not { $found ->
        [text] the text { $value }
        [number] the number { $value }
        [list] a list
        [object] an object
       *[other] { $value }
    }. Write { $expected ->
        [null] null
        [boolean] true or false without quotes
        [number] a number without quotes and unit
        [whole-number] a whole number without quotes and unit
        [text] a text in double quotes
        [list] a list in [ ]
        [object] an object in {"{ }"}
       *[other] one of these
    }
fault-number-in-quotes = the number { $value } is in quotes. Write { $instead }
fault-not-whole = { $value } must be a whole number. Write it without decimals
fault-below-minimum = { $value } must be at least { $limit }. Check number, unit and decimal mark; { $limit } or more is allowed
fault-above-maximum = { $value } must be at most { $limit }. Check number, unit and decimal mark; { $limit } or less is allowed
fault-not-above = { $value } must be above { $limit }. Enter a number above { $limit }
fault-not-below = { $value } must be below { $limit }. Enter a number below { $limit }
fault-not-multiple = { $value } must be a multiple of { $limit }. Enter the nearest multiple that is correct
fault-not-one-of = { $value } is not known here. Use one of { $known }
fault-misspelt-value = { $value } is not known here. Write { $instead } if that is meant, otherwise one of { $known }
fault-empty-text = the text is empty. Enter it, or leave the key out if that is allowed
fault-text-too-short = { $value } must have at least { $limit } characters. Write a longer text
fault-text-too-long = the text has { $length } characters, more than { $limit }. Shorten it
fault-text-form = { $value } does not have the form needed here. Write { $form ->
        [id] letters, digits, hyphens, dots and underscores only, beginning with a letter or digit
        [tooth] the two digits of ISO 3950, such as 36: quadrant 1 to 4, then 1 to 8 from the midline
        [label] one line, without spaces at its ends
        [code] at least five letters, digits or signs as on a keyboard, without spaces, points and commas
       *[other] it in the form { $pattern }
    }
fault-text-format = { $value } is not { $format ->
        [date] a date. Write year, month and day, such as 2031-05-28
        [date-time] a time. Write date and time, such as 2031-05-28T09:30:00Z
       *[other] written as { $format }. Write it in that form
    }
fault-empty-list = the list is empty. Add at least one item
fault-too-few = there are { $count } items, fewer than { $limit }. Add what is missing
fault-too-many = there are { $count } items, more than { $limit }. Remove some
fault-repeated-item = an item appears twice in the list. Remove one of the two
fault-one-key-of = exactly one of these must be present: { $known }. Give one of them
fault-refused = the value cannot be used ({ $reason }). Check it against the schema of the document

### What the parts of a document say of each other

# Whatever has no words of its own here is named as the file names it.
fault-noun = { $noun ->
        [head] handpiece head
        [master-sleeve] master sleeve
        [drill-sleeve] drill sleeve
       *[other] { $noun }
    }
fault-other = { $other ->
        [apex] the implant's apex
        [full-depth] the full depth
        [shortest-full-depth] the full depth of its shortest implant
        [master-sleeve-height] the master sleeve's height_mm
        [face-of-its-master] the apical face of a master sleeve that it fits
        [bore-of-its-sleeve] its sleeve's bore_mm
        [height-of-its-sleeve] its sleeve's height_mm
        [diameter-of-its-drill] its drill's diameter
        [length-of-its-drill] overall_length_mm of its drill
        [point-before] the profile point before
        [tray-from-left] the tray with left_mm counted in
        [tray-from-far] the tray with far_mm counted in
       *[other] { $other }
    }
fault-below-other = { $value } must be at least the { $limit } of { fault-other }. Correct whichever of the two is wrong
fault-above-other = { $value } must be at most the { $limit } of { fault-other }. Correct whichever of the two is wrong
fault-duplicate-id = { $key ->
        [id] the id { $id } is given twice, first at { $first }. Give one of them another id, and check what names it
       *[other] { $id } is given twice, first at { $first }. Correct one of them, or remove it
    }
fault-dangling-reference = there is no { fault-noun } with the id { $id }. Add it, or name an existing one
fault-misspelt-reference = there is no { fault-noun } with the id { $id }. Write { $instead } if that is meant
fault-other-jaw = tooth { $position } is in the other jaw. Name a tooth of this case's jaw, or check the jaw of the case; the other jaw needs a case of its own
fault-structure-of-other-jaw = “{ $structure }” is no structure of the { $jaw } jaw. Name one of this case's jaw, remove it, or check the jaw of the case
fault-slots-overlap = the slot { $slot } overlaps the slot { $other }. Correct the position or size of one of them
fault-other-slot-kind = the slot { $slot } takes the kind { $kind }, not the kind { $other }. Name a slot of that kind
fault-in-two-slots = what is assigned to the slot { $slot } is also assigned to { $first }. Remove one of the two
fault-same-tooth = two sites replace tooth { $position }, the first is { $first }. Give one of them another position
fault-against-other = { $other } says otherwise. Remove one of them
fault-refers-to-itself = { $id } refers to itself. Name another one
fault-no-direction = the direction is 0 in all three parts. Enter the vector from platform to apex
fault-axis-points-back = the direction does not point from platform to apex: in the { $jaw } jaw its z is { $jaw ->
        [upper] above
       *[lower] below
    } 0. Reverse it
