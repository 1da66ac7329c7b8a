"""Lines taken in one after the other: what each does, what a later one puts right, what became of a cutter."""
