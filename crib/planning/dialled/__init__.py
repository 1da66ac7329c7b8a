"""From a draft to a plan: proved, set on the dials and put into passes."""
