"""What both front ends ask: the house, today's entries and the line just typed."""
