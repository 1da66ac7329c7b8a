"""Types and style, as one test each; their own output says what is wrong."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.docs.console import ROOT

KEPT = ROOT / ".mypy_cache"
"""What mypy knows from its last run. Where it never ran before, as in a fresh checkout, keeping it takes a tenth of the
time and nobody comes back to it: `mkdir .mypy_cache` and it is kept."""


@pytest.mark.slow
@pytest.mark.parametrize("words", [("mypy", "--strict", "--no-color-output", "--no-error-summary", "--cache-dir",
                                    str(KEPT) if KEPT.exists() else os.devnull),
                                   ("ruff", "check", "--quiet", "--no-cache", "--output-format", "concise", ".")],
                         ids=lambda words: words[0])
def test_a_checker_has_nothing_to_say(words: tuple[str, ...]) -> None:
    done = subprocess.run([sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.fail(done.stdout + done.stderr, pytrace=False)
