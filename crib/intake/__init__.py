"""From what is typed, or a file of it, to cutters and settings."""
