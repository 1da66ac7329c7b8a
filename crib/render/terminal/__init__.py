"""Blocks and pictures as lines of a terminal, to scale and without colour."""
