"""Between closed ends: how a cutter gets in, how far it runs, what becomes of the ends."""
