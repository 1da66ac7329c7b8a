"""Pages kept as files beside this one. `CRIB_UPDATE_GOLDEN=1 python -m pytest tests/golden` writes them anew: look at
what changed before keeping it."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from crib.pages.answer import page
from crib.render.json.answer import advice_json
from crib.render.terminal import picture, plan_view
from tests.sheet_samples import ADVICE, CANNOT, MEASURE, REFER, from_above, scene
from tests.shown import shown

HERE = Path(__file__).parent

PAGES = {
    "picture_100.txt": lambda: picture.of_scene(scene(), "in", 100),
    "picture_60.txt": lambda: picture.of_scene(scene(), "in", 60),
    "picture_ascii.txt": lambda: picture.of_scene(scene(), "in", 100, lines=False),
    "above_100.txt": lambda: plan_view.of_scene(from_above(12.0, x=5.83, y=0.0, hole=0.7), "in", 100),
    "above_60.txt": lambda: plan_view.of_scene(from_above(), "in", 60),
    "above_ascii_100.txt": lambda: plan_view.of_scene(from_above(), "in", 100, lines=False),
    "above_ascii_60.txt": lambda: plan_view.of_scene(from_above(12.0, x=5.6875, is_open=True), "in", 60, lines=False),
    "above_short.txt": lambda: plan_view.of_scene(from_above(0.976, x=0.18), "in", 60),
    "answer_in.txt": lambda: shown(page(ADVICE, (scene(),))),
    "answer_mm_ascii.txt": lambda: shown(page(ADVICE, (scene(),)), "mm", lines=False),
    "cannot.txt": lambda: shown(page(CANNOT)),
    "measure_first.txt": lambda: shown(page(MEASURE)),
    "refer.txt": lambda: shown(page(REFER)),
    "answer.json": lambda: json.dumps(advice_json(ADVICE, "in"), indent=1).splitlines(),
}


@pytest.mark.parametrize("name", PAGES)
def test_as_kept(name: str) -> None:
    text = "\n".join(PAGES[name]()) + "\n"
    kept = HERE / name
    if os.environ.get("CRIB_UPDATE_GOLDEN"):
        kept.write_text(text, encoding="utf-8")
    assert text == kept.read_text(encoding="utf-8"), "CRIB_UPDATE_GOLDEN=1 writes it anew"
