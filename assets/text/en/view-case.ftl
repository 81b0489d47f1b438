### What the view case says.
