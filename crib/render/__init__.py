"""From facts to what a reader sees: units, rounding and spelling are chosen here and nowhere below."""
