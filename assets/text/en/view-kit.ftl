### What the view kit says.
