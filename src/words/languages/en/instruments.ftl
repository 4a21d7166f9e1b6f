# Names of instruments. English takes them from the table of instruments; another language has a variant for each, its
# English name with hyphens.

instrument = { $name }
