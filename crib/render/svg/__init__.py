"""Scenes as vector drawings to scale."""
