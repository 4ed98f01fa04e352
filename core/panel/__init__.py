"""The tasting panel: what tasters score, and whether the line tastes alike in every size."""
