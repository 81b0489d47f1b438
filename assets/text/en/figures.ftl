### Names of figures and of the terms and rules that they come from.
