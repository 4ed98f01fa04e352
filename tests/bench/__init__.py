"""Performance promises, measured: ratios of one run, never a timed test."""
