"""What is found: errors for people, what rules say, what was measured, verdicts; facts, not yet put into words."""
