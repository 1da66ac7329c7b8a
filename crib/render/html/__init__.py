"""Pages for a browser and a printer: black and white, no script, no other file."""
