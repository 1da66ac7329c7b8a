"""The record of a cutter. Of a large crib there are as many as it has cutters: they are small, and quickly made."""

from __future__ import annotations

from collections.abc import Callable

from crib.light.hints import Any
from crib.light.records import dataclass, fields


class _Named:
    """How a cutter is named whose label isn't made yet: the units that it is named in, and which cutter it is named
    after."""

    __slots__ = ("_alike", "_units")
    _units: str | None
    _alike: Cutter | None


@dataclass(frozen=True, slots=True)
class Cutter(_Named):
    """A cutter as it is owned. Lengths in mm, angles in degrees; what isn't known is None, never a guess.

    `diameter_mm` is what the program reckons with: measured where it was measured, else as stated or stamped;
    None for a reground cutter that was not measured since. `nominal_mm` keeps the stamp. `measured`, `stamped` (read
    off a marking) and `assumed` (typical of its kind) hold the names of fields; what is known besides is stated. Of a
    double-ender the top level shows the first end and `ends` has both. `count` is of those that are there; `away` says
    in words of others to whom they are lent, or since when they are lost (see `crib.cutters.away`). `overruled`: the
    rules that the owner says don't hold for it, with his words.
    """

    id: int
    kind: str
    label: str = ""
    count: int = 1
    drawer: str | None = None
    condition: str = "unknown"
    reground: bool = False
    material: str = "unknown"
    hand: str = "right"
    diameter_mm: float | None = None
    nominal_mm: float | None = None
    face_mm: float | None = None
    neck_mm: float | None = None
    neck_fillet_mm: float | None = None
    reach_mm: float | None = None
    shank_mm: float | None = None
    length_of_cut_mm: float | None = None
    overall_length_mm: float | None = None
    corner_radius_mm: float | None = None
    radius_mm: float | None = None
    angle_deg: float | None = None
    tip_mm: float | None = None
    bore_mm: float | None = None
    pilot_mm: float | None = None
    min_hole_mm: float | None = None
    flutes: int | None = None
    centre_cutting: bool | None = None
    end_teeth: bool | None = None
    thread: str | None = None
    tap_chamfer: str | None = None
    tap_form: str | None = None
    tap_point: str | None = None
    limit: str | None = None
    marking: str | None = None
    price: float | None = None
    currency: str | None = None
    assumed: tuple[str, ...] = ()
    measured: tuple[str, ...] = ()
    stamped: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    ends: tuple[Cutter, ...] = ()
    note: str | None = None
    away: tuple[str, ...] = ()
    overruled: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The contract's shape: every key, `ends` only where there are any."""
        shape: dict[str, Any] = {}
        for known in fields(self):
            value = getattr(self, known.name)
            if known.name == "ends":
                if value:
                    shape["ends"] = [end.as_json() for end in value]
                continue
            shape[known.name] = list(value) if isinstance(value, tuple) else value
        return shape

    def but(self, **changes: Any) -> Cutter:
        """The same cutter with some values changed. Raises `TypeError` for a name that it hasn't."""
        if not changes.keys() <= _KEYS:
            raise TypeError(f"a cutter has no {', '.join(changes.keys() - _KEYS)}")
        other = copied(self)
        for name, value in changes.items():
            setattr(other, name, value)
        return closed(other)


class _Label:
    """A cutter's short name, made the first time that somebody asks for it: of a large crib most are never named.
    `kept`: where it is kept, None until then; `made_by`: what makes it, in units, of which the record knows nothing."""

    made_by: Callable[[Cutter, str], str]

    def __init__(self, kept: Any) -> None:
        self.kept = kept

    def __get__(self, cutter: Cutter | None, _: type[Cutter]) -> Any:
        if cutter is None:
            return self.kept
        if (found := self.kept.__get__(cutter)) is None:
            found = self.made_by(cutter._alike or cutter, cutter._units or "in")
            self.kept.__set__(cutter, found)
        return found

    def __set__(self, cutter: Cutter, label: str) -> None:
        self.kept.__set__(cutter, label)


_kept: Any = vars(Cutter)["label"]
LABEL = _Label(_kept)
type.__setattr__(Cutter, "label", LABEL)

Open: Any = type("Open", Cutter.__bases__, {"__slots__": Cutter.__match_args__})
"""What a cutter is while it is made: it has the same slots, and they can be filled in. Once all are, it is closed."""


def closed(made: Any) -> Cutter:
    """The cutter that was made; from here on it can't be changed."""
    made.__class__ = Cutter
    return made  # type: ignore[no-any-return]


def unnamed(made: Any, units: str) -> Cutter:
    """The same, its label made in these units when it is asked for."""
    made.label, made._alike, made._units = None, None, units
    return closed(made)


def copied(one: Cutter) -> Any:
    """A cutter like another, still open. Written out: of large cribs thousands are changed a little."""
    made = object.__new__(Open)
    made._units = getattr(one, "_units", None)
    made.label = _kept.__get__(one)
    made._alike = (one._alike or one) if made.label is None else None
    made.id, made.kind, made.count = one.id, one.kind, one.count
    made.drawer, made.condition, made.reground = one.drawer, one.condition, one.reground
    made.material, made.hand, made.diameter_mm = one.material, one.hand, one.diameter_mm
    made.nominal_mm, made.face_mm, made.neck_mm = one.nominal_mm, one.face_mm, one.neck_mm
    made.neck_fillet_mm, made.reach_mm, made.shank_mm = one.neck_fillet_mm, one.reach_mm, one.shank_mm
    made.length_of_cut_mm, made.overall_length_mm = one.length_of_cut_mm, one.overall_length_mm
    made.corner_radius_mm = one.corner_radius_mm
    made.radius_mm, made.angle_deg, made.tip_mm = one.radius_mm, one.angle_deg, one.tip_mm
    made.bore_mm, made.pilot_mm, made.min_hole_mm = one.bore_mm, one.pilot_mm, one.min_hole_mm
    made.flutes, made.centre_cutting, made.end_teeth = one.flutes, one.centre_cutting, one.end_teeth
    made.thread, made.tap_chamfer, made.tap_form = one.thread, one.tap_chamfer, one.tap_form
    made.tap_point, made.limit, made.marking = one.tap_point, one.limit, one.marking
    made.price, made.currency, made.assumed = one.price, one.currency, one.assumed
    made.measured, made.stamped, made.questions = one.measured, one.stamped, one.questions
    made.ends, made.note, made.away = one.ends, one.note, one.away
    made.overruled = one.overruled
    return made


CUTTER_KEYS: tuple[str, ...] = tuple(field.name for field in fields(Cutter))
LENGTH_KEYS: tuple[str, ...] = tuple(key for key in CUTTER_KEYS if key.endswith("_mm"))
_KEYS = frozenset(CUTTER_KEYS)
