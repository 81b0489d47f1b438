### What the view findings says.
