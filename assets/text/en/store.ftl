# What is wrong with a file: which file, what, remedy.
# No capital at the start, no full stop at the end.

store-not-found = { $path } does not exist. Check folder and name
store-is-folder = { $path } is a folder. Choose a file
store-no-file = { $path } is neither a file nor a folder. Choose a file
store-no-folder = the folder { $path } does not exist. Choose another folder, or create it first
store-no-name = { $path } is not a file name. Give a name
store-may-not-read = { $path } cannot be read by this user. Ask for permission, or choose another file
store-may-not-write = { $path } cannot be written by this user. The old file is unchanged. Ask for permission, or choose another folder
store-protected = { $path } is protected against writing. It is left as it is. Choose another name, or take the protection away
store-not-pdf = { $path } is there and is no PDF. It is left as it is. Choose another name
store-of-case = { $path } belongs to a case and its record. Nothing was written. Choose another name
store-too-large = { $path } has { $bytes } bytes, more than the { $limit } that are read. Choose a file of this program
store-disk-full = the disk is full, { $path } was not written. The old file is unchanged. Free some space, or choose another disk
store-unsure = { $path } was written, but it is not certain that it has reached the disk ({ $reason }). Save it again
store-other = { $path } could not be read or written ({ $reason }). Check the disk, or choose another folder
