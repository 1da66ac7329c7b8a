"""Tap and drill: whether they belong together, how deep to go, and what to do without the right drill."""
