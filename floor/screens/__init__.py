"""One screen a file; each answers one question of the person in front of it."""
