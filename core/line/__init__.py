"""One blend across every size: the line sheet and its cost."""
