"""Whole parts: for each feature one of its plans, and all their operations in one order."""
