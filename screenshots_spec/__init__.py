"""The screens as they should be: each described in a TOML, rendered, and checked as text."""
