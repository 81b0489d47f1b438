### What the view loading says.
