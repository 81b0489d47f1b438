### What is found in a plan: what does not fit, what comes too close, what is not known, and the remedy.
