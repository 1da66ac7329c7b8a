"""What to measure, and which questions that turns, as the JSON that other programs rely on: lengths in mm."""

from __future__ import annotations

from typing import Any

from crib.planning.measures import Threshold, ToMeasure, ToMic
from crib.render.words import worded


def to_mic_json(found: ToMic, units: str) -> dict[str, Any]:
    """The same for programs, lengths in mm."""
    shape = {
        "measure": [_measure(one) for one in found.measures],
        "turned": list(found.turned),
        "could_turn": list(found.could_turn),
        "skipped": [{"question": number, "why": why} for number, why in found.skipped],
        "cut_short": found.cut_short,
    }
    tidy: dict[str, Any] = worded(shape, units)
    return tidy


def _measure(one: ToMeasure) -> dict[str, Any]:
    return {
        "cutter_id": one.cutter.id,
        "label": one.cutter.label,
        "drawer": one.cutter.drawer,
        "sizes": [{"key": ask.key, "ask": ask.ask} for ask in one.asks],
        "turns": [{
            "question": turn.number, "answer_now": turn.now, "answer_at_best": turn.then, "fix": turn.fix,
            "turns_at": [_at_json(at) for at in turn.at],
            "beside": list(turn.beside), "instead": [list(ids) for ids in turn.instead],
        } for turn in one.turns],
    }


def _at_json(at: Threshold) -> dict[str, Any]:
    return {"key": at.key, "mm": None if at.mm is None else round(at.mm, 6), "or": "more" if at.more else "less"}
