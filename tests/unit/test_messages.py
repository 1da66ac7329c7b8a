"""What is said is data until it is shown: one message in inches, in millimetres, nested, joined, hashed."""

from __future__ import annotations

import pytest

from crib.findings.message import Apart, ByUnits, Feed, InWords, Mm, Power, Reading, Torque, apart, joined, said
from crib.render.words import worded, words


def test_one_message_is_read_in_either_unit() -> None:
    """Nothing is reckoned again to change the units: 19.05 mm is 3/4 in, 25.4 mm to the inch."""
    message = said("neck {has}, a {size} hole, {ratio:.1f} times {label}", has=Mm(12.7), size=InWords(19.05),
                   ratio=2.46, label="no. 4 {in braces}")
    assert words(message, "in") == "neck .500, a 3/4 hole, 2.5 times no. 4 {in braces}"
    assert words(message, "mm") == "neck 12.700, a 19.05 mm hole, 2.5 times no. 4 {in braces}"


def test_messages_nest_and_join() -> None:
    """A part of a sentence is a message too; braces between parts and in plain words stay braces."""
    inner = said("{x} out", x=Mm(2.54))
    both = joined(" {and} ", [inner, "by hand {"])
    assert words(said("{why}: {both}", why=inner, both=both), "in") == ".100 out: .100 out {and} by hand {"
    assert joined(", ", []) == ""
    assert joined(", ", ["a", "b"]) == "a, b"


def test_messages_are_hashed_by_what_they_say() -> None:
    """Equal facts are one finding, and a length in one spelling is no length in another."""
    assert said("{x}", x=Mm(1.0)) == said("{x}", x=Mm(1.0))
    assert len({said("{x}", x=Mm(1.0)), said("{x}", x=Mm(1.0)), said("{x}", x=InWords(1.0))}) == 2


def test_a_message_does_not_slip_into_a_string() -> None:
    """It would stand there as it is kept, in no unit at all."""
    with pytest.raises(TypeError, match="worded where it is shown"):
        f"{said('{x}', x=Mm(1.0))}"


@pytest.mark.parametrize(("fact", "inch", "mm"), [
    (Mm(-13.208, sign=True), "-.520", "-13.208"),
    (Mm(0.79375, fine=True), ".0313", "0.794"),
    (Reading(10.16), ".400", "10.160"),
    (Reading(-1.6637, True), "-.0655", "-1.664"),
    (Apart(19.8437, 19.8374), ".7812", "19.844"),
    (Feed(203.2), "8.0 in/min (7.5 s an inch)", "203 mm/min (3.0 s for 10 mm)"),
    (Power(745.7), "1.00 hp", "0.75 kW"),
    (Torque(13.558), "10.0 lb ft", "13.6 N m"),
    (ByUnits("1/8 in", "3 mm"), "1/8 in", "3 mm"),
])
def test_every_quantity_is_spelt_by_the_unit(fact: Mm, inch: str, mm: str) -> None:
    """25.4 mm to the inch, 745.7 W to the horsepower, 1.3558 N m to the foot pound: definitions."""
    assert (words(said("{x}", x=fact), "in"), words(said("{x}", x=fact), "mm")) == (inch, mm)


def test_a_tree_is_worded_to_its_leaves() -> None:
    """What programs read is worded at the last moment, wherever in it a message stands."""
    tree = {"a": [said("{x}", x=Mm(25.4)), {"b": (None, 2, "c")}]}
    assert worded(tree, "in") == {"a": ["1.000", {"b": [None, 2, "c"]}]}


def test_lengths_set_against_each_other_differ_as_they_are_read() -> None:
    """Both have as many places as tell them apart."""
    has, needs = apart(6.35, 5.08)
    assert words(said("{a} {b}", a=has, b=needs), "in") == ".250 .200"
