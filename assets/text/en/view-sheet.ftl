### What the view sheet says.
