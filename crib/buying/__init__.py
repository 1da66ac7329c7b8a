"""Whether something is worth its money: what could be got, what it would save, and what would turn that."""
