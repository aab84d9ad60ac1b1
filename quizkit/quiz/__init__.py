"""Questions in use: the form of a check, each person's walk, mastery, and what answers say about a question. Pure."""
