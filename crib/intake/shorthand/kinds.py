"""What kind of cutter a line speaks of: by its name, else by what only such a cutter has."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from crib.cutters import KINDS, told_apart
from crib.cutters.base import CUTTER_KEYS, Kind
from crib.cutters.speech import Name
from crib.findings.message import a
from crib.intake.shorthand.needed import Likely, likely_of
from crib.intake.shorthand.slip import NAMED, SIZE, Held, Slip, found_in
from crib.intake.shorthand.vocabulary import HOLDER, HOLDERS, NO_CUTTERS
from crib.light.patterns import pattern
from crib.light.tuples import NamedTuple

_MUSHROOM = "mushroom|unknown|no idea|whatsit"
_MEASURE = "measure its diameter, the height of its teeth, its neck and its shank, and say: keyseat or T-slot cutter"
_NO_SECOND = "".join(rf"(?<!\b{word} )" for word in ("for", "for a", "for the", "as", "as a", "like", "like a"))
_NOT_OF_IT = (r"(?! ?(?:point|mill|drawer|tray|box|bin|rack|shelf|cabinet|index|stand|press|chuck|wrench|handle|"
              r"bushing))")
_JOINED = pattern(r"and|&|\+")
_LENGTHS = "1/2 x 1 x 3 x 4"


def kind_by_name(slip: Slip) -> str | None:
    """The kind that is named, its words taken off the slip; None where none is. Raises `Held` for what is no cutter."""
    for word, why in _likely_others().among(slip.pieces):
        if slip.has(word):
            raise Held(why, "a note in the drawer is better; it is kept here until you put it right")
    _no_cutter_but_its_holder(slip)
    if named := called(slip):
        for said in _likely().among(slip.pieces):
            while said.kind is named.kind and slip.take(said.name.pattern, "kind", NAMED):
                _heed(slip, said.name)
        if beside := named.kind.speech.beside:
            slip.take(beside, sign=NAMED)
        return named.kind.name
    _no_holder(slip)
    return None


def _no_cutter_but_its_holder(slip: Slip) -> None:
    """Raises `Held` where a line names a kind in its holder's name alone: `end mill holder`; else that is noted."""
    if ("hold" in slip.text or "adapt" in slip.text or "chuck" in slip.text) and (found := slip.take(HOLDER)):
        if called(slip) is None:
            holder = found[0].strip()
            raise Held(f"{a(holder)} is a holder, not a cutter", "a note in the drawer is better; what it takes is "
                       "told by crib shop: --collets, --arbors, --chuck")
        slip.notes.append(found[0].strip())


class Called(NamedTuple):
    """A kind and one way to say it."""

    kind: Kind
    name: Name


@cache
def names() -> tuple[Called, ...]:
    """Every way to say every kind, its own words last. Raises `ValueError` with both files where two kinds have a name,
    or one kind's name is another's own words."""
    told_apart((f"crib/cutters/{name.replace('-', '_')}.py", kind) for name, kind in KINDS.items())
    own = {said.lower(): kind for kind in KINDS.values() for said in (kind.words, kind.plural)}
    found = []
    for kind in KINDS.values():
        for name in kind.speech.names:
            others = {one.name for said, one in own.items() if one is not kind and re.fullmatch(name.pattern, said)}
            if others and not name.lent:
                both = " and of ".join(f"crib/cutters/{one.replace('-', '_')}.py" for one in (kind.name, *others))
                raise ValueError(f"{name.pattern!r} is a name of {both}: mark it as lent where it is the other's own")
            if not others:
                found.append(Called(kind, name))
        found.append(Called(kind, Name(_own(kind))))
    return tuple(found)


@cache
def _likely_others() -> Likely[tuple[str, str]]:
    return likely_of(NO_CUTTERS.items())


@cache
def _likely() -> Likely[Called]:
    return Likely((said.name.pattern, said) for said in names())


def _own(kind: Kind) -> str:
    """The kind's own words, in one or in many."""
    return "|".join(re.escape(said.lower()).replace(r"\-", "[ -]").replace(r"\ ", " ?")
                    for said in (kind.plural, kind.words))


def called(slip: Slip, sure: bool = False) -> Called | None:
    """The kind that a line names: the first of them whose name isn't a part of a longer one. Names that must be asked
    about go before the others; of the `sure` ones there are none."""
    return _called(slip.pieces, slip.text, sure)


@lru_cache(maxsize=8)
def _called(pieces: frozenset[str], text: str, sure: bool) -> Called | None:
    told = [said for said in _likely().among(pieces) if not (sure and said.name.asks)]
    found = [(place, said) for said in told if (place := found_in(text, said.name.pattern))]
    whole = [said for place, said in found if not any(_is_within(place.span(), other.span()) for other, _ in found)]
    return min(whole, key=lambda said: not said.name.asks, default=None)


def _is_within(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one != other and other[0] <= one[0] and one[1] <= other[1]


@cache
def _nouns() -> tuple[tuple[str, str], ...]:
    """Names that stand for nothing but a cutter of their kind: two of them in a line are two cutters."""
    return tuple((kind.speech.noun or _own(kind), kind.name) for kind in KINDS.values() if kind.speech.noun is not None)


@cache
def _likely_nouns() -> Likely[tuple[str, str]]:
    return Likely((noun, (noun, name)) for noun, name in _nouns())


@cache
def _second(noun: str) -> re.Pattern[str]:
    """A noun that names a second cutter, not what the first is for or lies in."""
    return re.compile(rf"{_NO_SECOND}(?<![\w/.-])({noun})s?(?![\w/]|-\w){_NOT_OF_IT}")


def only_one_kind(slip: Slip, kind: str) -> None:
    """Raises `Held` where what is left of a line names another kind too, not as what the cutter is for or lies in."""
    for noun, other in _likely_nouns().among(slip.pieces):
        if other != kind and (second := _second(noun).search(slip.text)):
            raise Held(f"it names two kinds, {kind.replace('-', ' ')} and {other.replace('-', ' ')}; "
                       "one cutter at a time", "a line for each", _joint(slip.said, second.start(), second.end()))


_JOINT = pattern(r"\s*(?:[,;&+]|\band\b|\bplus\b)\s*(?:(?:an?|the|one)\s+)?")


def _joint(said: str, start: int, end: int) -> int | None:
    """Which of its joints parts a line of two cutters: the one ahead of the second's name, else behind it; None where
    nothing joins them."""
    joints = list(_JOINT.finditer(said))
    ahead = [place for place, one in enumerate(joints) if one.end() <= start]
    return ahead[-1] if ahead else next((place for place, one in enumerate(joints) if one.start() >= end), None)


def a_line_for_each(text: str, joint: int | None, said: str) -> str:
    """How a line of two cutters is split, as it was typed, where that has the joints that were read.

    >>> a_line_for_each("1/2 end mill and a 3/8 drill", 0, "1/2 end mill and a 3/8 drill")
    "a line for each: '1/2 end mill' and '3/8 drill'"
    """
    joints = list(_JOINT.finditer(text))
    if joint is None or len(joints) != len(list(_JOINT.finditer(said))):
        return "a line for each"
    at = joints[joint]
    return f"a line for each: {text[:at.start()].strip()!r} and {text[at.end():].strip()!r}"


def only_one_cutter(slip: Slip, kind: str) -> None:
    """Raises `Held` where the sizes without a label are those of two cutters: the kind is named twice with one of them
    in between, or there is an `and` between two. A set or a double-ender has several by nature."""
    if len(slip.sizes) < 2 or slip.values.get("double_ended"):
        return
    size = "|".join(re.escape(text) for text in slip.sizes)
    apart = [part for part in slip.said.split(";") if re.search(rf"(?<![\w/.-])(?:{size})(?![\w/])", part)
             and any(re.search(rf"\b(?:{said.name.pattern})", part) for said in names())] if ";" in slip.said else []
    if len(apart) > 1:
        raise Held(f"{slip.sizes[0]} and {slip.sizes[1]} look like two cutters with a stop between", "a line for each")
    joined = _JOINED.search(slip.said) and re.search(
        rf"(?<![\w/.-])({size}) ?(?:and|&|\+) ?({size})(?![\w/.])", slip.said)
    if joined or _is_named_twice(slip, kind, size):
        first, second = joined.groups() if joined else slip.sizes[:2]
        raise Held(f"{first} and {second} look like two cutters, or like two sizes of one",
                   "a line for each, or what the second size is, such as its shank")


def _is_named_twice(slip: Slip, kind: str, size: str) -> bool:
    """Whether one of the sizes, of a pattern, stands between the kind and the kind again."""
    named = "|".join([noun for noun, other in _nouns() if other == kind] or [kind.replace("-", " ")])
    if len(_noun(named).findall(slip.said)) < 2:
        return False
    two = rf"(?<![\w/.-])({named})s?(?![\w/]|-\w).*(?<![\w/.-])({size})(?![\w/]).*(?<![\w/.-])(?:\1)s?(?![\w/]|-\w)"
    return re.search(two, slip.said) is not None


@cache
def _noun(noun: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w/.-])({noun})s?(?![\w/]|-\w)")


def kind_named(text: str) -> str | None:
    """The kind that a name alone stands for, spelt right: `Woodruff`, `end mill`; None where it stands for none.

    >>> kind_named("Woodruff cutter"), kind_named("Endmill"), kind_named("end-mil")
    ('keyseat-cutter', 'end-mill', None)
    """
    bare = " ".join(text.lower().replace("-", " ").split())
    return next((said.kind.name for said in names() if re.fullmatch(said.name.pattern, bare)), None)


def _heed(slip: Slip, name: Name) -> None:
    """What follows from a name beside the kind."""
    for key, value in name.means.items():
        slip.values.setdefault(key, value)
    slip.assumed += [key for key in name.means if key in CUTTER_KEYS]
    if name.note and name.note not in slip.notes:
        slip.notes.append(name.note)
    if name.asks:
        slip.ask("kind", name.asks)


def _no_holder(slip: Slip) -> None:
    for word, setting in HOLDERS.items():
        if not slip.has(f"{word}s?"):
            continue
        sizes = [found[0].strip() for found in SIZE.finditer(slip.text)]
        span = re.search(r"\b(\d{1,2})-(\d{1,2})\b", slip.text) if word == "collet" else None
        if span:
            low, high = sorted((int(span[1]), int(span[2])))
            raise Held(f"a collet is a holder, not a cutter; {span[0]} is its range, {low} to {high} mm",
                       f"list all collets with crib shop --collets {high}mm,...")
        named = f" of {sizes[0]}" if len(sizes) == 1 else ""
        ask = f"; is {' or '.join(sizes)} the bore or the shank?" if word == "arbor" and len(sizes) > 1 else ""
        raise Held(f"{'an' if word[0] in 'aeiou' else 'a'} {word}{named} is a holder, not a cutter{ask}",
                   f"list all of them with crib shop --{setting} "
                   + ("BORE:FLANGE,..." if word == "arbor" else "1/4,3/8,..."))


def kind_by_signs(slip: Slip, thread: bool) -> str | None:
    """The kind that only fits what was said, one with a thread where there is one; None where none or several do.
    Raises `Held` where it helps to say why not."""
    if slip.has(_MUSHROOM):
        raise Held("it doesn't say what kind of cutter it is", _MEASURE)
    fits = [kind.name for kind in KINDS.values() if ("thread" in kind.size_keys) == thread and kind.speech.signs(slip)]
    return fits[0] if len(fits) == 1 else None


def no_kind(slip: Slip, thread: str | None) -> Held:
    """Why a line without a kind isn't guessed, and what to add."""
    bare = slip.said.strip()
    if re.fullmatch(r"1-8", bare):
        return Held("1-8 could be the thread 1-8, 1/8 typed badly, or a range", "1-8 tap, or 1/8 end mill")
    if thread == "1/8-27" or bare == "1/8-27":
        return Held("1/8-27 could be the pipe thread, .405 across, or a special 1/8 across",
                    "1/8 NPT tap, or .125-27 special tap")
    if thread:
        return Held(f"{thread} is a thread, but is it a tap or a die?", f"{thread} tap, with plug, taper or bottoming")
    if found := re.search(r"(?<![\w/.-])(\d{3,4}(?:-1/2)?)(?![\w/.-])", bare):
        from crib.intake.shorthand.marks import keyseat

        if keyseat(found[1]):
            return Held(f"{found[1]} could be the mark of a keyseat cutter, or a part's number",
                        f"{found[1]} key cutter, if it is one")
    if slip.values.get("flutes") == 2:
        return Held("it doesn't say what kind of cutter it is: with 2 flutes an end mill or a drill",
                    f"{bare} end mill, or {bare} drill")
    such_as = f", such as: {bare[:60].strip()} end mill" if re.search(r"\d", bare) else ""
    return Held("it doesn't say what kind of cutter it is", f"add the word, end mill, drill, tap ...{such_as}")
