"""What is to be said beside an answer. Whoever shows answers takes it and shows it; nothing is printed here."""

from __future__ import annotations

_SAID: list[str] = []


def say(text: str) -> None:
    """Leave a notice, once."""
    if text not in _SAID:
        _SAID.append(text)


def take() -> list[str]:
    """What was said since it was last taken."""
    said = _SAID.copy()
    _SAID.clear()
    return said
