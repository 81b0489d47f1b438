### The printed checklist.
