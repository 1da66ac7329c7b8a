"""From what was typed to a request: sizes with their tolerances, the shop's defaults where none was given."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crib.features import KINDS
from crib.features.base import ENDS, FeatureKind, SizeSpec
from crib.features.request import Request, Spoken, Wall, is_yes
from crib.findings.errors import CribError
from crib.handbook.sizes import read_size, source_of
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, replace
from crib.rules.overruling import checked_of_many
from crib.shop import Shop
from crib.units import Size, read
from crib.units.angles import Angle, read_angle

if TYPE_CHECKING:
    from crib.handbook.mates import Mate


@dataclass(frozen=True)
class Field:
    """Something that can be asked of a feature: its key, its option, its line of help, and a word for its value."""

    key: str
    name: str
    help: str
    value: str


_COMMON = (
    Field("length", "length", "Length of the cut", "SIZE"),
    Field("ends", "ends", "Which ends are open", "ENDS"),
    Field("material", "material", "What it is cut in: grey iron, 1018, 6061 ...", "WORDS"),
    Field("hardness", "hardness", "Hardness, where it is known: 45 HRC", "TEXT"),
    Field("below", "below", "Metal left under the feature", "SIZE"),
    Field("floor_radius", "floor-radius", "Radius that the floor corners may have", "SIZE"),
    Field("corner_relief", "corner-relief", "Relief that the corners may have", "SIZE"),
    Field("mating", "mating", "The part that goes with it", "WORDS"),
    Field("wall", "wall", "What stands beside it: HEIGHT@DISTANCE, below zero in front; more after a comma", "H@D"),
    Field("count", "count", "How many are to be made", "N"),
    Field("hours", "hours", "Hours of work already in the part", "HOURS"),
    Field("use", "use", "What it is for: cover, slide, load, pressure, lifting ...", "WORDS"),
    Field("overrule", "overrule", "A rule that doesn't hold here, with your words: 'SP1 I run that saw at 80'; more "
          "after a semicolon", "WORDS"),
)


COMMON = frozenset(one.key for one in _COMMON)
"""What every kind can be asked with."""

_SAME_MM = 1e-3
"""Sizes that differ by less are one [mm]."""

_MATE = (
    Field("fit", "fit", "How it fits its mate: sliding, running, push, press ...; H7/g6, RC2", "FIT"),
    Field("to", "to", "The mate, as it mikes: 'tongue .4975 measured', 'worn .618 .6195 .617'", "WORDS"),
)
"""What a kind takes that goes round another part."""


def fields(kind: FeatureKind) -> tuple[Field, ...]:
    """Everything that a kind of feature can be asked with."""
    sizes = tuple(Field(spec.key, spec.key.replace("_", "-"), spec.words[:1].upper() + spec.words[1:], "SIZE")
                  for spec in kind.sizes)
    standards = tuple(Field(one.key, one.key, one.words[:1].upper() + one.words[1:], "TEXT") for one in kind.standards)
    told = tuple(Field(one.key, one.key.replace("_", "-"), one.words[:1].upper() + one.words[1:], one.value)
                 for one in kind.options)
    own = {spec.key for spec in kind.sizes}
    mate = tuple(one for one in _MATE if kind.mates and one.key not in {one.key for one in kind.standards})
    common = tuple(replace(one, help=_ends(kind)) if one.key == "ends" else one
                   for one in _COMMON if one.key not in own)
    angles = tuple(Field(one.key, one.key.replace("_", "-"), one.words[:1].upper() + one.words[1:], "DEGREES")
                   for one in kind.angles)
    return (*angles, *sizes, *standards, *told, *mate, *common)


def _hardness(texts: Mapping[str, str]) -> str | None:
    """The hardness as it was said, if it can be read."""
    if "hardness" in texts:
        from crib.handbook.hardness import read_hardness

        read_hardness(texts["hardness"])
    return texts.get("hardness")


def _ends(kind: FeatureKind) -> str:
    words = {"open": "open (both ends)", "one": "one (the other is closed)", "closed": "closed"}
    return "Its ends: " + " or ".join(words[end] for end in kind.ends)


def read_request(name: str, texts: Mapping[str, str], shop: Shop, units: str) -> Request:
    """Read a request from texts by key.

    Sizes go before a standard's. Raises `CribError` for what can't be read, a size that is missing, and sizes that
    can't be together.
    """
    kind = KINDS[name]
    if texts.get("below", "").strip() and is_yes(texts.get("through", "no")):
        raise CribError("below", "it goes through, and metal is to be left under it", texts["below"],
                        "one of the two: --through, or --below")
    mate = _mate(kind, texts, units)
    sizes, source = _sizes(kind, texts, shop, units, mate)
    ends = texts.get("ends", "open" if "open" in kind.ends else kind.ends[0]).strip().lower()
    if ends not in ENDS:
        raise CribError("ends", f"ends {ends!r} are not known", ends, "one of " + ", ".join(kind.ends))
    if ends != "open" and "length" in texts:
        sizes["length"] = read_size(texts["length"], units, "length", _default(SizeSpec("length", ""), shop),
                                    _about(shop))
    return Request(
        kind=name,
        sizes=sizes,
        material=texts.get("material", "").strip(),
        length=_as_long(sizes["length"], ends) if "length" in sizes else _length(texts, "length", units),
        ends=ends,
        floor_radius=_length(texts, "floor_radius", units) or 0.0,
        below=_length(texts, "below", units),
        walls=tuple(_walls(texts.get("wall", ""), units)),
        hardness=_hardness(texts),
        count=round(_number(texts, "count", 1, least=1, whole=True)),
        hours=_number(texts, "hours", 0),
        use=texts.get("use"),
        mating=texts.get("mating") or texts.get("to"),
        corner_relief=_length(texts, "corner_relief", units) or 0.0,
        source=source,
        said=_said(kind, texts),
        angles=dict(_angles(kind, texts, units)),
        units=units,
        mate=mate,
        overruled=tuple(checked_of_many(part) for part in texts.get("overrule", "").split(";") if part.strip()),
    )


def _as_long(length: Size, ends: str) -> float:
    """How long the cut is [mm]; to one closed end as far as the middle of its limits, where the stop is set."""
    return length.mid if ends == "one" else length.nominal


def _mate(kind: FeatureKind, texts: Mapping[str, str], units: str) -> Mate | None:
    """The mate that a size is taken from, if one is given. Raises `CribError`."""
    if "to" not in texts or not kind.mates:
        return None
    if kind.mates in texts:
        name = kind.mates.replace("_", " ")
        raise CribError("mate", f"its {name} is given, {texts[kind.mates]}, and comes from its mate too",
                        texts[kind.mates], f"one of the two: --{name.replace(' ', '-')}, or --fit and --to")
    from crib.handbook.mates import from_mate

    return from_mate(texts["to"], texts.get("fit", ""), units)


def _angles(kind: FeatureKind, texts: Mapping[str, str], units: str) -> Iterator[tuple[str, Angle]]:
    """The angles by key."""
    given = {key: deg for standard in kind.standards if standard.key in texts
             for key, deg in standard.angles(Spoken(texts[standard.key], texts, units)).items()}
    for one in kind.angles:
        if texts.get(one.key, "").strip():
            yield one.key, read_angle(texts[one.key], one.key, one.most)
        elif one.key in given:
            yield one.key, Angle(given[one.key], f"{given[one.key]:g}")
        elif one.usual is None:
            raise CribError("angle", f"{kind.words} needs its {one.key} ({one.words})", "", f"give --{one.key}")
        else:
            yield one.key, Angle(one.usual, "")


def _said(kind: FeatureKind, texts: Mapping[str, str]) -> dict[str, str]:
    """What was said to a kind's own options."""
    for one in kind.options:
        if one.needed and not texts.get(one.key, "").strip():
            raise CribError("option", f"{kind.words} needs its {one.key} ({one.words})", "", f"give --{one.key}")
    return {one.key: texts[one.key].strip() for one in kind.options if one.key in texts}


def texts_of(words: Sequence[str]) -> dict[str, str]:
    """The texts by key of options and their values as they stand on a command line.

    >>> texts_of(["--head-width", ".975", "--ends", "open"])
    {'head_width': '.975', 'ends': 'open'}
    """
    pairs = zip(words[::2], words[1::2], strict=True)
    return {name.removeprefix("--").replace("-", "_"): value for name, value in pairs}


def _sizes(kind: FeatureKind, texts: Mapping[str, str], shop: Shop, units: str, mate: Mate | None
           ) -> tuple[dict[str, Size], str | None]:
    sizes: dict[str, Size] = {}
    source = None
    limited = set()
    if mate is not None:
        sizes[kind.mates], source = mate.size, f"{mate.fit.name} fit {mate.fit.classes}: {mate.fit.source}"
    for standard in kind.standards:
        if standard.key in texts and not (mate and standard.key == "fit"):
            found, said = standard.sizes(Spoken(texts[standard.key], texts, units))
            sizes, source = sizes | found, "; ".join(one for one in (source, said) if one) or None
            limited |= {standard.limits} & found.keys()
    for spec in kind.sizes:
        if spec.key in texts and spec.key not in limited:
            size = read_size(texts[spec.key], units, spec.key.replace("_", " "), _default(spec, shop), _about(shop))
            if source and spec.key in sizes and _is_the_same(size, sizes[spec.key]):
                continue
            if source and spec.key in sizes:
                source += f"; its {spec.key.replace('_', ' ')} is {size.text} as you gave it, not the standard's"
            sizes[spec.key] = replace(size, given=True) if spec.tolerance == "exact" else size
            if spec.key == kind.mates and "fit" in texts and "fit" not in {one.key for one in kind.standards}:
                sizes[spec.key], of = _fitted(sizes[spec.key], texts["fit"])
                source = "; ".join(one for one in (source, of) if one)
            if of := source_of(texts[spec.key], size):
                source = "; ".join(one for one in (source, f"{spec.key.replace('_', ' ')} {of}") if one)
    missing = [spec for spec in kind.sizes if spec.needed and spec.key not in sizes]
    if missing:
        options = " ".join(f"--{spec.key.replace('_', '-')}" for spec in missing)
        words = " and ".join(f"its {spec.key.replace('_', ' ')} ({spec.words})" for spec in missing)
        other = "".join(f", or --{standard.key}" for standard in kind.standards if standard.key not in texts)
        raise CribError("size", f"{kind.words} needs {words}", "", f"give {options}{other}")
    return sizes, source


def _is_the_same(size: Size, standard: Size) -> bool:
    """Whether a size without limits is the one of the standard, whose limits it then has."""
    return not (size.given or size.doubtful) and abs(size.nominal - standard.nominal) < _SAME_MM


def _fitted(size: Size, fit: str) -> tuple[Size, str]:
    """A size with the limits that its side of a fit has, and where they are from. Raises `CribError`."""
    if size.given:
        raise CribError("fit", f"the size has limits of its own, {size.text}, beside the fit {fit}", size.text,
                        "one of the two")
    from crib.handbook.mates import own_limits

    lo, hi, source = own_limits(size.nominal, fit)
    return replace(size, lo=lo, hi=hi, given=True), source


def _default(spec: SizeSpec, shop: Shop) -> tuple[float, float]:
    if spec.tolerance == "exact":
        return 0.0, 0.0
    around = shop.loose_tolerance_mm if spec.tolerance == "loose" else shop.general_tolerance_mm
    return -around, around


def _about(shop: Shop) -> tuple[float, float]:
    """What may be either side of a size that is said to be about so much [mm]."""
    return -shop.loose_tolerance_mm, shop.loose_tolerance_mm


def _length(texts: Mapping[str, str], key: str, units: str) -> float | None:
    if key not in texts:
        return None
    return read(texts[key], units, key.replace("_", " ")).mm


def _number(texts: Mapping[str, str], key: str, default: float, least: float = 0, whole: bool = False) -> float:
    text = texts.get(key)
    if text is None:
        return default
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not least <= value < 1e6 or (whole and value != int(value)):
        kind = "whole number" if whole else "number"
        raise CribError(key, f"{key} {text!r} is not a {kind} of {least:g} or more", text, f"--{key} {max(least, 2):g}")
    return value


def _walls(text: str, units: str) -> Iterator[Wall]:
    for part in filter(None, (p.strip() for p in text.split(","))):
        height, at, distance = part.partition("@")
        if not at:
            raise CribError("wall", f"wall {part!r} doesn't say how far away it stands", part,
                            "--wall HEIGHT@DISTANCE: 1.5@2")
        away = distance.strip()
        side = -1 if away.startswith("-") else 1
        yield Wall(read(height, units, "wall height").mm, side * read(away.lstrip("-+"), units, "wall distance").mm)
