"""The floor in a browser: a small web server on this machine, one floor a browser session."""
