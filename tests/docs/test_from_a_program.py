"""What the README shows of the program in another program's hands."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

import pytest

from crib.app.demo import copy
from tests.docs.console import ROOT

_BLOCK = re.compile(r"^```python\n(>>> .*?)^```$", re.MULTILINE | re.DOTALL)


def test_the_example_answers_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    copy(tmp_path / "bench.db")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("CRIB_UNITS", raising=False)
    [block] = _BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8"))
    example = doctest.DocTestParser().get_doctest(block, {}, "README.md", "README.md", 0)
    assert len(example.examples) > 5
    said: list[str] = []
    result = doctest.DocTestRunner().run(example, out=said.append)
    assert not result.failed, "".join(said)
