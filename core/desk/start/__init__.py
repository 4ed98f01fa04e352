"""The first run: a house book by question and answer, or one that is there already."""
