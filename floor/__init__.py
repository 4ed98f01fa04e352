"""The two front ends: the shell's commands and the bench terminal's screens."""
