"""What is worth buying for a reamed hole where neither drill nor reamer is owned: both, and sizes that are sold."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Crib


@pytest.mark.parametrize(("diameter", "reamer"), [
    ("3/8+.0005-0", "3/8 reamer"), ("3/8+.001-0", "3/8 reamer"), ("1/4+.005-0", "1/4 reamer"),
    ("10mmH7", "10 mm reamer"),
    (".3755+.0005-0", ".3755 reamer"), ("11/16+.001-0", "11/16 reamer"), ("12mm+.02-0", "12 mm reamer")])
def test_a_drill_and_a_reamer_are_offered_together(crib: Crib, diameter: str, reamer: str) -> None:
    """A reamer was proposed to the middle of the limits, though it cuts over its size by .0001 to .0005: it came out
    over the most, and nothing was found to buy. Common practice, no source."""
    crib("take-in", "1/2 end mill 4 flutes 1/2 shank")
    found = crib("worth", "hole", "--diameter", diameter, "--depth", "3/4", "--finish", "reamed")
    assert f"the {reamer} and " in found.out and " drill would" in found.out, found.out


def test_what_is_given_away_is_told_with_its_figure(crib: Crib) -> None:
    """`the head bears on its rim alone, off the seat at the hole by. If that will do, ask again`."""
    crib("take-in", "3/4 countersink 82 degrees 1/2 shank")
    found = crib("worth", "countersink", "--diameter", ".5", "--hole", ".25", "--angle", "90").out
    told = " ".join(found.split())
    assert "off the seat at the hole by .0" in told and " by. " not in told
