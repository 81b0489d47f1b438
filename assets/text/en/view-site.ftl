### What the view site says.
