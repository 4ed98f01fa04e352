"""The rolling room's arithmetic and records: no screen, no colour, no terminal."""
