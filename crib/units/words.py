"""Messages in words, in the reader's units."""

from __future__ import annotations

from collections.abc import Callable

from crib.findings.finding import Finding
from crib.findings.message import (
    Apart,
    ByUnits,
    Clause,
    Deg,
    Fact,
    Feed,
    Handed,
    Head,
    InWords,
    Measure,
    Message,
    Mm,
    Power,
    Rate,
    Reading,
    Rpm,
    Sentence,
    Torque,
    with_articles,
)
from crib.light.hints import Any
from crib.units.show import in_words, show, show_apart

_THOU_MM = 0.0254
_NM_OF_LB_FT = 0.3048 * 4.4482216152605
_W_OF_HP = 550 * _NM_OF_LB_FT
"""Newton metres in a foot pound, watts in a horsepower: by their definitions."""


def words(text: Fact, units: str) -> str:
    """A text or a quantity in the units asked for, `in` or `mm`.

    >>> from crib.findings.message import said
    >>> short = said("flutes {has}, the hole goes {needs} deep", has=Mm(12.7), needs=Mm(19.05))
    >>> words(short, "in"), words(short, "mm")
    ('flutes .500, the hole goes .750 deep', 'flutes 12.700, the hole goes 19.050 deep')
    """
    if isinstance(text, Message):
        template = text.template
        return with_articles(template, template.format_map({name: _shown(fact, units) for name, fact in text.facts}))
    return str(_shown(text, units))


def worded(value: Any, units: str) -> Any:
    """A tree of dicts and lists with every message in it put into words.

    >>> from crib.findings.message import said
    >>> worded({"says": [said("{x} off", x=Mm(2.54)), None], "no": 3}, "in")
    {'says': ['.100 off', None], 'no': 3}
    """
    if isinstance(value, Message):
        return words(value, units)
    if isinstance(value, dict):
        return {key: worded(inner, units) for key, inner in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [worded(inner, units) for inner in value]
    return value


def told(finding: Finding, units: str) -> tuple[str, str]:
    """What is wrong, and what would be right.

    >>> from crib.findings.errors import wrong
    >>> told(wrong("a saw isn't so thick", "1/2", "the thickness of the saw"), "in")
    ("a saw isn't so thick", 'the thickness of the saw')
    """
    return words(finding.says, units), words(finding.fix or "", units)


def _shown(fact: Fact, units: str) -> str | int | float:
    say = _SAYS.get(type(fact))
    if say is None:
        return fact  # type: ignore[return-value]
    return say(fact, units)


def _length(fact: Mm, units: str) -> str:
    """A length: four places are a tenth of a thou, among millimetres nobody reads past a micron.

    >>> _length(Mm(12.2836, places=4), "mm"), _length(Mm(12.7, places=4), "in"), _length(Mm(12.7), "in")
    ('12.284', '.5000', '.500')
    """
    places = min(4 if fact.fine else fact.places, 4 if units == "in" else 3)
    return show(fact.mm, units, fact.sign, places)


def _reading(fact: Reading, units: str) -> str:
    """A reading.

    >>> _reading(Reading(12.7), "in"), _reading(Reading(-1.6637, True), "in"), _reading(Reading(4.445), "mm")
    ('.500', '-.0655', '4.445')
    """
    fine = units == "in" and abs(fact.mm / _THOU_MM - round(fact.mm / _THOU_MM)) > 1e-4
    return show(fact.mm, units, fact.sign, 4 if fine else 3)


def _measure(fact: Measure, units: str) -> str:
    """A size.

    >>> _measure(Measure(0.3175), "in"), _measure(Measure(0.33), "in"), _measure(Measure(-0.3175, sign=True), "mm")
    ('.0125', '.013', '-0.318')
    """
    half_thou = units == "in" and round(abs(fact.mm) / 25.4 * 10_000) % 10 == 5
    return show(fact.mm, units, fact.sign, 4 if half_thou else fact.places if units == "in" else 3)


def _rate(fact: Rate, units: str) -> str:
    return f"{fact.mm_per_min / 25.4:.1f}" if units == "in" else f"{fact.mm_per_min:.0f}"


def _handed(fact: Handed, units: str) -> str:
    return f"{60 * (25.4 if units == 'in' else 10.0) / fact.mm_per_min:.0f}"


def sentence(text: str) -> str:
    """With a capital and a full stop, as far as it has none.

    >>> sentence("neck hits the lip"), sentence(".250 is too thin"), sentence("Why?")
    ('Neck hits the lip.', '.250 is too thin.', 'Why?')
    """
    text = text.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".!?" else ".")


def _feed(fact: Feed, units: str) -> str:
    """A feed.

    >>> _feed(Feed(203.2), "in"), _feed(Feed(200.0), "mm")
    ('8.0 in/min (7.5 s an inch)', '200 mm/min (3.0 s for 10 mm)')
    """
    rate = fact.mm_per_min
    if units == "in":
        return f"{rate / 25.4:.1f} in/min ({25.4 / rate * 60:.1f} s an inch)"
    return f"{rate:.0f} mm/min ({10 / rate * 60:.1f} s for 10 mm)"


def _power(fact: Power, units: str) -> str:
    return f"{fact.watts / _W_OF_HP:.2f} hp" if units == "in" else f"{fact.watts / 1000:.2f} kW"


def _torque(fact: Torque, units: str) -> str:
    """A torque.

    >>> _torque(Torque(2.8, True), "mm"), _torque(Torque(2.8, True), "in"), _torque(Torque(40.0, True), "in")
    ('2.8 N m', '25 in-lb', '30 ft-lb')
    """
    foot_pounds = fact.newton_metres / _NM_OF_LB_FT
    if units != "in":
        return f"{fact.newton_metres:.1f} N m"
    if not fact.of_a_tap:
        return f"{foot_pounds:.1f} lb ft"
    return f"{foot_pounds * 12:.0f} in-lb" if foot_pounds < 10 else f"{foot_pounds:.0f} ft-lb"


_SAYS: dict[type, Callable[[Any, str], str]] = {
    Message: words,
    Sentence: lambda fact, units: sentence(words(fact.text, units)),
    Clause: lambda fact, units: words(fact.text, units).rstrip("."),
    Mm: _length,
    Head: lambda fact, units: words(fact.text, units).split(",")[0],
    Reading: _reading,
    Measure: _measure,
    Rate: _rate,
    Handed: _handed,
    InWords: lambda fact, units: in_words(fact.mm, units),
    Apart: lambda fact, units: show_apart(fact.mm, fact.other_mm, units, fact.places)[0],
    Deg: lambda fact, _: f"{fact.deg:g}",
    Rpm: lambda fact, _: f"{fact.rpm:.0f}",
    Feed: _feed,
    Power: _power,
    Torque: _torque,
    ByUnits: lambda fact, units: words(fact.inch if units == "in" else fact.mm, units),
}
