"""A table taken in line by line, all or none, without ever having all of it in memory."""

from __future__ import annotations


