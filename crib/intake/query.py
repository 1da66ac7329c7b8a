"""What is looked for, from the words of a shop: `keyseat about 5/8 in drawer B2`, `what fits the 3/8 collet`."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.cutters import KINDS
from crib.findings.errors import CribError
from crib.holders.collets import UNDER
from crib.intake.shorthand.kinds import called
from crib.intake.shorthand.line import units_apart
from crib.intake.shorthand.places import apart
from crib.intake.shorthand.slip import SIZE, Slip
from crib.intake.shorthand.spelling import plain
from crib.intake.shorthand.vocabulary import MATERIALS
from crib.store.find import Wanted, plainly
from crib.units import read

_ABOUT = rf"(?:about|around|roughly|near|approx\.?|~|ca\.?)\s*(?P<size>{SIZE.pattern})"
_PLUS_MINUS = rf"(?P<size>{SIZE.pattern})\s*(?:±|\+/?-|within|give or take)\s*(?P<off>{SIZE.pattern})"
_COLLET = (rf"(?:what |that |which )?(?:fits?|for|goes in(?:to)?|in)\s+(?:the |a |my )?(?P<size>{SIZE.pattern})"
           r"\s+collets?")
_SHARE, _LEAST_MM = 0.03, 0.8
"""How far `about` reaches: a share of the size, at least so many mm."""

_SAME_MM = 0.001

_IDLE_WORDS = """in that what which all any find me of my with are is the a an anything everything something i do have
got there please show list where from"""
_IDLE = frozenset(_IDLE_WORDS.split())
_UNIT = re.compile(r"(?<=\d) ?(?:(mm)|inch(?:es)?|\")(?![\w.])")


def read_query(words: Sequence[str], units: str) -> Wanted:
    """What the words ask for.

    >>> found = read_query(["about", "5/8", "woodruff", "in", "drawer", "B2"], "in")
    >>> found.kinds, found.place, [round(mm, 3) for mm, _ in found.near], found.words
    (('keyseat-cutter',), 'B2', [15.875], ())
    >>> [round(mm, 3) for mm in read_query(["what fits the 3/8 collet"], "in").shank or ()]
    [9.449, 9.525]
    >>> read_query(["anything half inch in the gift box"], "in").words
    ('1/2in', 'gift', 'box')
    """
    said = " ".join(words)
    bare, drawer = apart("".join(sign if sign.isprintable() else " " for sign in said))
    text, read_as = plain(bare)
    slip = Slip(units_apart(text), units)
    shank = _collet(slip, units)
    near = tuple(_near(slip, units))
    material = next((name for pattern, name in MATERIALS if slip.take(pattern)), None)
    kinds, notes = _kind(slip)
    text = _UNIT.sub(lambda found: found[1] or "in", re.sub(r"[¦‖,;()]", " ", slip.text))
    left = [word for word in text.split() if word not in _IDLE]
    threads: tuple[str, ...] = ()
    if not kinds and (tapped := _tapped(left, units)):
        kinds, left, threads = tapped
    wanted = plainly([*notes, *left], units)
    return Wanted(wanted.words, kinds, near, drawer, shank, material, read_as, threads)


def _tapped(words: list[str], units: str) -> tuple[tuple[str, ...], list[str], tuple[str, ...]] | None:
    """`tap 1/4`: the kind, the other words, and the threads of that major diameter; None where it isn't that.

    >>> _tapped(["plug", "tap", "10"], "in")
    (('tap',), ['plug'], ('10-24', '10-32', '10-28', '10-30'))
    """
    kind = next((kind.name for word in words for kind in KINDS.values() if word in (kind.words, kind.plural)
                 and "thread" in kind.size_keys), None)
    sizes = [word for word in words if SIZE.fullmatch(word)]
    if kind is None or len(sizes) != 1 or "shank" in words:
        return None
    from crib.handbook.threads import threads

    bare = sizes[0].removeprefix("#")
    size = None if "#" in sizes[0] or (bare.isdigit() and units == "in") else _mm(sizes[0], units)
    names = [one.name for one in threads() if one.name.rpartition("-")[0] == bare
             or (size is not None and not one.taper and abs(one.major_mm - size) < _SAME_MM)]
    if not names:
        return None
    others = [word for word in words if word != sizes[0] and word.rstrip("s") != kind]
    return (kind,), others, tuple(dict.fromkeys(names))


def _collet(slip: Slip, units: str) -> tuple[float, float] | None:
    found = slip.take(_COLLET)
    size = _mm(found["size"], units) if found else None
    return None if size is None else (size - UNDER, size)


def _near(slip: Slip, units: str) -> list[tuple[float, float]]:
    near = []
    while found := slip.take(_PLUS_MINUS):
        size, off = _mm(found["size"], units), _mm(found["off"], units)
        if size is not None and off is not None:
            near.append((size, off))
    while found := slip.take(_ABOUT):
        if (size := _mm(found["size"], units)) is not None:
            near.append((size, max(_LEAST_MM, _SHARE * size)))
    return near


def _mm(text: str, units: str) -> float | None:
    try:
        return read(text, units).mm
    except CribError:
        return None


def _kind(slip: Slip) -> tuple[tuple[str, ...], list[str]]:
    """The kind that is named by another word than its own, and the words that its note has then."""
    if not (said := called(slip, sure=True)):
        return (), []
    kind, name = said
    found = slip.find(name.pattern)
    if kind.speech.common and not name.note and found and found[0].rstrip("s") in (kind.words, kind.name):
        return (), []
    slip.take(name.pattern)
    return (kind.name,), (name.note or " ".join(name.means)).split()[:2]
