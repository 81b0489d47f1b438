### What the window's frame says.

window-name = Traywright

## Views

view-start = Start
view-case = Case
view-arch = Arch
view-site = Site
view-findings = Findings
view-order = Order of use
view-tray = Tray
view-loading = Loading
view-surgery = Surgery
view-sheet = Sheet
view-record = Record
view-history = History
view-kit = Kit

## Commands, and why one cannot be done

command-new = New case
command-open = Open…
command-save = Save
command-save-as = Save as…
command-pack = Pack the case…
command-pack-unsaved = Save the case first; what is packed is what its file holds
command-unpack = Open a pack…
command-close = Close the case
command-undo = Undo
command-redo = Redo
command-next-site = Next site
command-previous-site = Previous site
command-stop-looking = Stop searching for the best order
command-mode = Light or dark
command-help = Help
command-quit = Exit
command-no-case = no case is open
command-nothing-to-save = nothing has changed since it was saved
command-nothing-to-undo = nothing to undo
command-nothing-to-redo = nothing to redo
command-nothing-to-stop = no search is running
command-no-sites = the case has no site yet

window-undo = Undo: { $name } ({ $key })
window-redo = Redo: { $name } ({ $key })
window-saved = Saved: { $file }
window-not-saved = Not saved: “{ $text }” at { $field }: { $fault }
window-not-taken-yet = it was typed and not entered
window-typed = “{ $text }”
window-taken-back = Taken back: “{ $text }” at { $field }
window-written = Written: { $file }
window-sign-unsaved = Save the case first: what is signed is kept in a folder beside its file.
window-plan-from-disk = the plan as another desk saved it
window-no-journal = What is changed here is not kept beside the file until it is saved: { $reason } Save often.
window-saved-elsewhere = Another desk saved this file: { $parts }. There are unsaved changes here. Saving brings both together, and asks where both changed the same.
window-taken-over = Another desk saved this file; taken over: { $parts }
window-taken-over-nothing = nothing that is entered
window-saved-together = Saved, with what another desk had saved meanwhile: { $parts }. File: { $file }
window-parted = The file had another name besides (a hard link). Under that the plan stays as it was; the two are two cases from now on.
window-saved-anew = The file was gone. It was written anew: { $file }
window-saved-aside = Saved: { $file }. What lay there is kept as { $aside }
window-file-busy = Other desks write { $file } all the time. Nothing was saved; try again.
window-gone = The file of this case is gone: { $file }. What is open here is all there is of it; Save writes it anew.
window-other-case = The file is now another case: { $name }. Nothing of it was taken over, and nothing here is lost. Save this case under another name.
window-no-case-there = { $file } is no case that can be read, and is not replaced. Choose another name.
window-record-there = Beside { $file } lies the record of another case, { $reference }. Choose another name.
window-changed-meanwhile = The plan on the disk changed: { $parts }. Nothing was signed. Look at it again first.
window-sign-name = { $reason }. Enter a name or initials

settings-unread = The settings of this desk cannot be read: { $why } The usual ones count, and { $file } is left as it is: nothing that is chosen here is kept. Mend the file, or take it away.
settings-faulty = Settings that cannot be read: { $entries }. The usual ones count in their place; what stands in { $file } is left there.

## Questions

ask-open-case = Open a case
ask-open-kit = Use instruments from a kit
ask-save-case = Save the case
ask-save-sheet = Write the checklist
ask-save-record = Write the record
ask-pack = Pack the case into one file
ask-pack-what = The pack holds the case as it is saved, its whole record and the kit file. It says when and at which desk it was packed, and in which folder. It is one plain file that anybody can read, unless it is encrypted.
ask-pack-encrypt = Encrypt it with a passphrase
ask-pack-lost = Whoever loses the passphrase cannot open the pack, nor can anybody else.
ask-pack-empty = Enter a passphrase.
ask-pack-differ = The two passphrases differ.
ask-pack-do = Pack
ask-unpack = Open a pack
ask-unpack-what = The case and its record are put into a new folder beside the pack, of its name.
ask-unpack-passphrase = Passphrase, if it is encrypted
ask-unpack-sealed = The pack is encrypted. Enter the passphrase of this pack.
ask-copy = A copy of a case
ask-copy-what = What comes out of a pack is a copy by itself: nothing that is recorded in it reaches the case that was packed, nor the other way round.
ask-copy-open = Open this copy
ask-unpack-do = Unpack and open
ask-path = File, with its folder
ask-open = Open
ask-save = Save
ask-browse = Choose…
ask-cancel = Cancel
ask-leaving = The case has unsaved changes
ask-leaving-typed = A text that was typed is not in the case
ask-leaving-what = Unsaved changes will be lost.
ask-save-first = Save first
ask-leave = Discard changes
ask-replace = There is a case of this name
ask-replace-what = { $file } holds the case { $reference }. Replacing it loses that case.
ask-replace-elsewhere = Save elsewhere
ask-replace-do = Replace it
ask-damaged = The file of this case cannot be read
ask-damaged-what = { $why }
ask-damaged-do = Save this one, keep the damaged file beside it
ask-protected = The file is protected against writing
ask-protected-what = Somebody has protected { $file } so that it stays as it is. Replaced, it holds what is open here and is protected as before.
ask-protected-do = Replace it all the same
ask-apart = Another desk changed the same
ask-apart-what = Choose for each what is kept. All other changes of both are kept as they are.
ask-apart-unfit = What was chosen does not fit together. Choose otherwise.
ask-apart-here = Here
ask-apart-there = On the disk
ask-apart-save = Save what is chosen

notice-close = Close
help-title = Keys and cautions

unsaved-title = Changes that were never saved
unsaved-what = The program ended before they were saved, last at { $at }, in the case { $reference }. Nothing of them is taken over or thrown away by itself.
unsaved-in-file = in the file
unsaved-unsaved = not saved
unsaved-take = Take them over
unsaved-give-up = Throw them away
unsaved-later = Ask again later
unsaved-step = changes that were never saved
unsaved-cut = A line of them is damaged. What was done after it is lost.
unsaved-not-from-this = They do not start from what the file holds now: it was changed since, here or elsewhere. Where both changed the same part, they are opened as a case of their own.
unsaved-of-other = The file holds another case now, { $reference }. Nothing of these changes goes into it: they are opened as a case of their own.
unsaved-unread = Changes of an earlier session that were never saved cannot be read here: { $files }. They are of a newer version of this program, or damaged; they stay where they are.
unsaved-unanswered = Changes that were never saved may be of this case, and are not offered here: they were made in { $files }, and whether that case is there still cannot be told. It cannot be read by this user, or its disk does not answer. The changes are kept: open the case there once it answers, or look at them on the start page.
unsaved-moved = They were made in { $file }, and the case is not there now. This case is the one that they were made in, or was saved from it.
unsaved-sibling = They were made in { $file }, and the case is not there now. This case is not that one: both were saved from one case, and each went on by itself since. Look at each value before you take them over.
unsaved-own = What was never saved is opened as a case of its own, which has no file yet. Save it to keep it.
unsaved-aside = Set aside, and not offered again. Nothing of it is thrown away: it is kept in { $file }.
unsaved-taken = Taken over as one step, which can be undone. Save the case to keep them.
unsaved-apart = The file was changed since, at the same parts. What was never saved is opened as a case of its own: save it under another name, or close it.
fault-of-program = The program met a fault of its own
fault-of-program-what = Nothing more is done with this case now. What was not saved is kept, and is offered when the case is opened again. Leave the program, start it anew and look at every figure before you go on.

## Fields

field-empty = a value is needed here
field-no-number = not a number with at most three decimals
field-no-seconds = not a number of seconds with at most one decimal
field-out-of-range = from { $least } to { $most }

## What a kit offers

offer-no-kit = This desk has no kit: only what this case already holds is offered.
offer-choose-kit = Choose this desk's kit…
offer-none = Neither this case nor the kit { $kit } has one.

## Strip and title block

strip-empty = No site yet. Click a tooth position in the arch to place one.
strip-no-steps = no drill
strip-more = and { $count } more: scroll

title-case = CASE
title-jaw = JAW
title-revision = REVISION
title-fingerprint = PLAN CODE
title-state = STATE
title-demonstration = DEMONSTRATION: for practice only
title-changed = { $revision }, changed
title-open = not approved
title-record-broken = record broken
title-approved = approved by { $by }
title-practised = practice approval by { $by }
title-lapsed = approval lapsed
