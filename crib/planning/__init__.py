"""From a question to its answer: what the cutters that are owned can make, in which passes, at what cost."""
