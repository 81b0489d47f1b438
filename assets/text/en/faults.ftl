### Why a file cannot be read or a value cannot be taken.
