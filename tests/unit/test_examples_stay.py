"""What the laws are tried on is the same whichever tests run."""

from __future__ import annotations

import subprocess
import sys

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


def drawn(*more: str) -> str:
    done = subprocess.run([sys.executable, "-c", DRAWS, *more], capture_output=True, text=True, check=False, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return done.stdout
