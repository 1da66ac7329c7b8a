"""Which parts get no plan, by what is said of them: words by their meaning, and what they mean as data."""
