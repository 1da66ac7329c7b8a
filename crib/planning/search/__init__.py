"""Drafts: which cutters together, in which set-up, grown cutter by cutter and weighed."""
