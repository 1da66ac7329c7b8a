"""The bench page: who gets in, what the pages say, and the whole of it in a real browser."""
