### What the view arch says.
