"""Weights under control: which bench needs the supervisor, and what is only noise."""
