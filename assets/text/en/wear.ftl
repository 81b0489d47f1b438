### The wear of drills: what was counted, and what its limit says to that.

## Counts

wear-count = { $of ->
        [uses] { $count ->
            [one] { $count } use
           *[other] { $count } uses
        }
       *[sterilisations] { $count ->
            [one] { $count } sterilisation
           *[other] { $count } sterilisations
        }
    }
wear-count-least = at least { $said }
wear-count-between = { $least } to { $said }

## The whole

wear-top = { $kit }: { $count ->
        [one] one closed sitting counted
       *[other] { $count } closed sittings counted
    }.
wear-practice = The kit is for practice: its drills are invented, and so is their wear.
wear-partial = Of the record of { $case } a part is damaged, or was and is put aside: uses may be missing. No count is more than the least that it may be.
wear-none = Nothing is known of the wear of any drill: the kit gives no limit and lists no pieces, and no sitting that was counted used one.

## A drill and its pieces

wear-drill = { $drill }: { $limit }
wear-limit-none = nobody gave a limit
wear-limit = limit { $most }, { $by ->
        [maker] the manufacturer’s
       *[user] the user’s
    } ({ $source })
wear-limit-both = { $uses } and { $sterilisations }
wear-piece = { $mark }: { $uses }, { $sterilisations }; { $verdict }
wear-piece-why = { $piece } ({ $why })
wear-why-before = nobody said what it was used for before it was counted
wear-why-uncounted = no count was read
wear-why-put-aside = a part of a record is damaged or put aside, and with it perhaps uses
wear-why-open = { $uses } on a day that is not closed
wear-why-open-unnamed = on a day that is not closed a piece was used that nobody named
wear-why-unnamed = uses of a piece that nobody named may be its own
wear-unnamed = not named: { $uses }, { $sterilisations }; any piece of this drill may have them
wear-unnamed-open = not named, on a day that is not closed: { $uses }; any piece of this drill may have them
wear-no-pieces = nobody named a piece of it
wear-verdict = { $verdict ->
        [no-limit] no limit
        [within] within its limit
        [unknown] UNKNOWN: it may have reached its limit
        [near] NEAR its limit
        [beyond] it would go BEYOND ITS LIMIT
       *[reached] LIMIT REACHED: not to be used again
    }

## In loading

wear-after = To discard or send back by its wear, or to look at where that is not known:
wear-after-line = { $drill } no. { $copy }, { $wear }
wear-loading-unnamed = which piece it is nobody said: its uses are not known
wear-loading-being-read = piece { $mark }: its count is being read
wear-loading-not-there = piece { $mark }: its uses are not known, no count beside the kit
wear-loading-unread = piece { $mark }: its uses are not known, the count beside the kit cannot be read
wear-loading = piece { $mark }: { $uses }, limit { $limit }; { $verdict }

## The command

wear-rebuilt = Counted anew from { $count ->
        [one] one case
       *[other] { $count } cases
    }.
wear-others = { $count ->
        [one] One other case is
       *[other] { $count } other cases are
    } of another kit or practised, and wear no drill of this one.
wear-open = Surgery was begun and its day never closed, so that it does not count yet: { $list }. It is closed by the count before closing, by leaving that out with a reason, or by a signature under the record.
wear-forgotten = No longer counted, since what was read lacks it: uses of { $list }.
wear-aside = What was no sound ledger is kept as { $file }. Whether it had cases that are not among those read, nobody can tell.
wear-counted = Counted as the record says now
wear-as-before = It was counted so already
wear-not-closed = Nothing of it counts yet: no day of it is closed
wear-behind = Not counted: this copy of the case lags behind. The ledger has what it lacks, and stays as it is. Count the copy that went on
wear-apart = Not counted: this copy of the case and the one that was counted both went on, and each has what the other lacks. Bring them together, and count the case again
wear-of-another = Not counted: the case is of another kit, or for practice

## What was not counted, and why

wear-not-there = There is no ledger of wear at { $file }, so nothing is known of the wear of the kit's drills. Count the cases: traywright wear KIT --rebuild FOLDER
wear-damaged = { $file } is damaged, or no ledger of wear. Count the cases anew, and it is put aside: traywright wear KIT --rebuild FOLDER
wear-newer = { $file } was written by a newer version of the program. Update the program
wear-other-kit = { $file } is the ledger of the kit { $found }, and this is { $kit }. Put each beside its own kit
wear-no-answer = The ledger of wear could not be read. Look at this view again
wear-refused = { $file } cannot be read or written: { $reason }. Try again
wear-uncounted = Nothing was counted: no use in the ledger is another than before. These cannot be counted:
wear-case-newer = { $file } was written by a newer version of the program. Update the program
wear-case-damaged = { $file } is no case, or damaged. Open it to see what is wrong
wear-case-broken = { $file }: its record is broken, and what is missing may be a use. Mend it, or put the damaged part aside: traywright put-aside
wear-case-apart = { $file } and { $other } are copies of one case, and both went on. Keep one of them
wear-gone = Nothing was counted: the ledger has cases, or more of them, than what was read, and their uses would be lost: { $list }. Name the folders of these, or of the copies that went on, as well, or, where they are gone for good, add --forget
wear-named = { $drill } no. { $copy } is the piece marked { $mark }: recorded, { $for ->
        [next] for the sitting to come
       *[last] for the sitting that was begun last
    }
wear-named-unknown = Which piece { $drill } no. { $copy } is, nobody knows: recorded, { $for ->
        [next] for the sitting to come
       *[last] for the sitting that was begun last
    }
wear-no-drill = The case's kit has no drill { $drill }. It has: { $list }
wear-no-copy = { $drill } no. { $copy } is none: their numbers in this case go up to { $most }
wear-name-other-kit = The case is not of the kit { $kit }
wear-mark-text = Nothing was recorded, for this is no mark: { $reason }
wear-mark-alike = Nothing was recorded: “{ $found }” in the mark is a letter of another alphabet that looks like a Latin one. Write it in Latin letters
wear-mark-not-listed = Nothing was recorded: the kit lists no such piece of { $drill }. It lists: { $list }. Where it is one of these, name that one; where it is new, list it in the kit first; where nobody knows, say --unknown
wear-mark-taken = Nothing was recorded: that piece is { $drill } no. { $copy } in the same sitting, and one piece lies in one place. Where that is wrong, name that drill anew first, or say --unknown of it
wear-unheld = It was held against no list of pieces: there is no kit file of this case’s kit at hand. Name one with --kit
wear-no-mark = Say what stands on the piece with --mark, or --unknown where nobody knows which it is
