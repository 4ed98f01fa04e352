"""Have I leaf enough, and where is it: cover, shortages, and what to issue for a shift."""
