# What is wrong with a file: which file, what, remedy.
# No capital at the start, no full stop at the end.

store-not-found = { $path } does not exist. Check folder and name
store-is-folder = { $path } is a folder. Choose a file
store-no-file = { $path } is neither a file nor a folder. Choose a file
store-not-folder = { $path } is no folder, and the record of a case lies in one. Nothing was read or written. Give that file another name
store-no-folder = the folder { $path } does not exist. Choose another folder, or create it first
store-no-name = { $path } is not a file name. Give a name
store-may-not-read = { $path } cannot be read by this user. Ask for permission, or choose another file
store-may-not-write = { $path } cannot be written by this user. What was there before is unchanged. Ask for permission, or choose another folder
store-folder-read-only = the folder { $path } is read-only for this user, or its disk is. What was there before is unchanged. Have writing in it allowed, or copy the case with what is beside it to another folder and open it there
store-protected = { $path } is protected against writing. It is left as it is. Choose another name, or take the protection away
store-exists = { $path } is there already and is not replaced. Choose another name
store-not-pdf = { $path } is there and is no PDF. It is left as it is. Choose another name
store-of-case = { $path } belongs to a case and its record. Nothing was written. Choose another name
store-too-large = { $path } has { $bytes } bytes, more than the { $limit } that are read. Choose a file of this program
store-disk-full = the disk is full, { $path } was not written. What was there before is unchanged. Free some space, or choose another disk
store-unsure = { $path } was written, but it is not certain that it has reached the disk ({ $reason }). Save it again
store-doubt = what was to be added to { $path } may have reached the disk or not ({ $reason }). Open the case again and look whether it is there before it is done again
store-bad-name = { $path } is no name that the system takes. Nothing was written. Choose another one, of few letters and digits
store-other = { $path } could not be read or written ({ $reason }). Check the disk, or choose another folder

## Packs

pack-not = { $file } is no pack of this program, or not the whole of one. Choose another file, or have it packed again
pack-newer = { $file } was packed by a newer version of this program (version { $what } of packs). Unpack it with that
pack-unsafe = { $file } holds “{ $what }”, which no pack of this program holds. Nothing was taken out of it. Have the case packed again by whoever sent it
pack-damaged = “{ $what }” in { $file } is not what was packed. Nothing was taken out of it. Have the case packed again
pack-passphrase = { $file } is encrypted, and this passphrase does not open it, or it was changed on its way. Enter the passphrase again; if it is lost, nobody can open the pack
pack-name = “{ $what }” cannot be packed under this name, which other systems do not take. Nothing was written. Rename it first
pack-broken = The record of the case has a break: packed without what cannot be read it would look sound. Nothing was written. Mend the record first; where that cannot be done, put the damaged part aside
pack-no-kit = The kit file of this desk is not there, and is not in the pack; the case holds the entries that it uses
pack-is-one = { $file } is a pack. Open it with “Open a pack…”, or by traywright unpack
pack-done = { $parts } files packed: { $file }
pack-done-sealed = { $parts } files packed and encrypted: { $file }. Whoever loses the passphrase cannot open it, nor can anybody else: keep it where it is found again, and apart from the pack
pack-undone = Unpacked; the case is { $file }. It is a copy of its own: what is recorded in it does not arrive where it was packed, nor what is recorded there here
pack-is-copy = This case came out of a pack and is a copy by itself: nothing that is recorded here reaches the case that was packed, nor the other way round
pack-may-be-copy = The list of a pack lies beside this case: if it came out of that pack, under whatever name, it is a copy by itself, and nothing that is recorded here reaches the case that was packed, nor the other way round
pack-is-copy-no-more = Where this copy takes the place of that case for good, remove traywright-pack.json beside it, and this is told no more
pack-from = It was packed on { $at } from { $file }, at { $desk }
pack-from-desk = the desk { $desk }
pack-from-no-desk = a desk without a name
pack-from-unknown = When and where it was packed the pack does not say
pack-from-unanswered = Whether the case that was packed still lies there cannot be told: it cannot be read by this user, or its disk does not answer
pack-from-there = The case that was packed still lies there. Work on one of the two alone
pack-meanwhile = The case or its record was written each time while it was read, so that it cannot be packed as it is at one moment. Nothing was packed. Try again once no desk is signing
store-other-name = The file of this case has another name beside this one (a hard link). What is signed under one name is not seen under the other, and saving makes two files of them. Keep one of the names
pack-ask = Passphrase
pack-ask-again = The same again
pack-differ = The two passphrases differ. Nothing was written; enter both again
pack-empty = An empty passphrase protects nothing. Nothing was written; enter one
pack-no-passphrase = The passphrase could not be read ({ $reason }). Nothing was written; enter it at the terminal, give it on the first line of the input, or in TRAYWRIGHT_PASSPHRASE
