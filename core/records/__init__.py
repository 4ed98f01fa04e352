"""Journals on disk that acknowledge an entry only after the sync."""
