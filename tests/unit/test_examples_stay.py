"""What the laws are tried on is the same whichever tests run."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from tests.docs.console import ROOT

DRAWS = """\
import sys
sys.path.insert(0, "")
from hypothesis import given, strategies as st
import tests.strategies
if len(sys.argv) > 1:
    import crib.cli.app, crib.planning.advise, crib.handbook.tslots
drawn = []

@given(st.integers(), st.floats(), st.text())
def draw(whole, real, text):
    drawn.append((whole, real, text))

draw()
print(repr(drawn).encode("utf-8", "surrogatepass"))
"""


def test_no_example_hangs_on_which_modules_are_loaded() -> None:
    """Run alone a law failed that held among the others: its examples had numbers of the others' modules in them."""
    bare, loaded = (drawn(*more) for more in ((), ("loaded",)))
    assert bare == loaded and len(bare) > 1000


DRAWS_BY = {r"^import random$": r"(?<![\w.])random\.(?!Random\b)\w+\(", r"^from random\b": r"import (?!Random$)",
            r"^import numpy\b": r"\b(?:np|numpy)\.random\.(?!default_rng\b)\w"}
"""What is loaded, and what then draws from a generator that whole modules share."""


def shared(text: str) -> list[str]:
    return [found for loaded, draws in DRAWS_BY.items() for line in re.findall(rf"{loaded}.*", text, re.MULTILINE)
            for found in re.findall(draws, line if loaded.startswith("^from") else text)]


def test_nothing_draws_from_a_generator_that_others_share() -> None:
    """Those aren't begun anew for each example (`tests/light_draws.py`), so that a law that drew from one would be
    tried on other examples each time."""
    for path in (path for folder in ("crib", "tests") for path in (ROOT / folder).rglob("*.py")):
        assert path == Path(__file__) or not shared(path.read_text(encoding="utf-8")), path
    for drawing in ("import random\nrandom.choice((1, 2))", "from random import choice",
                    "import numpy as np\nnp.random.rand(3)"):
        assert shared(drawing)
    for fair in ("import random\nrandom.Random(7).choice((1, 2))", "from random import Random",
                 "import numpy as np\nnp.random.default_rng(1)"):
        assert not shared(fair)


def drawn(*more: str) -> str:
    done = subprocess.run([sys.executable, "-c", DRAWS, *more], capture_output=True, text=True, check=False, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return done.stdout
