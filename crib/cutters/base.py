"""What every cutter has in common: the record that the store keeps, and what a kind of cutter must give."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from crib.cutters.cutter import CUTTER_KEYS as CUTTER_KEYS
from crib.cutters.cutter import LENGTH_KEYS as LENGTH_KEYS
from crib.cutters.cutter import Cutter as Cutter
from crib.cutters.gauged import Gauging
from crib.cutters.speech import Speech
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.geometry.silhouette import Silhouette
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import load
from crib.light.records import dataclass, field

if TYPE_CHECKING:
    from crib.cutters.proposals import Need, Wanted
    from crib.cutters.shapes import Stem

MATERIALS = ("hss", "cobalt", "carbide", "carbide-tipped", "carbon-steel", "unknown")
CONDITIONS = ("sharp", "used", "dull", "chipped", "burnt", "bent", "unknown")
HANDS = ("right", "left")
TAP_CHAMFERS = ("taper", "plug", "bottoming")
TAP_FORMS = ("cutting", "forming")
TAP_POINTS = ("straight", "spiral point", "spiral flute")

CHOICES: dict[str, tuple[str, ...]] = {
    "material": MATERIALS,
    "condition": CONDITIONS,
    "hand": HANDS,
    "tap_chamfer": TAP_CHAMFERS,
    "tap_form": TAP_FORMS,
    "tap_point": TAP_POINTS,
}


@dataclass(frozen=True)
class Clearances:
    """How much room what doesn't cut must have [mm]: a neck or shank at its side, anything fatter at its end."""

    neck: float = 0.254
    end: float = 0.762


@dataclass(frozen=True)
class Unknown:
    """A size that isn't known and may decide: the field, what it could be at its kindest and at its worst [mm], and
    the words that ask for it. One that isn't `at_once` is asked for only where an answer turns on it. `either`: the
    values that it could have, where they are few. `position`: a setting hangs on it, whatever size it is. `between`: it
    is surely no more than one of the two, and no less than the other."""

    key: str
    kindest: float
    worst: float
    ask: str
    at_once: bool = True
    either: tuple[float, ...] = ()
    position: bool = False
    between: bool = False

    def nearest(self, wanted: float | None) -> float:
        """What it could be that comes nearest to what is wanted; its kindest where nothing is."""
        if wanted is None:
            return self.kindest
        if self.between:
            low, high = sorted((self.kindest, self.worst))
            return min(max(wanted, low), high)
        return min(self.either, key=lambda value: abs(value - wanted)) if self.either else wanted


class Motion(StrEnum):
    """How a cutter moves through the work: along a room, down its own axis, along a flank that leans over it, along a
    slanted edge that is open above, round an edge."""

    ALONG = "along"
    DOWN = "down"
    FLANK = "flank"
    EDGE = "edge"
    ROUND = "round"


class Down(StrEnum):
    """What a cutter does down its own axis; its speed goes by it."""

    DRILLING = "drilling"
    SPOTTING = "spotting"
    REAMING = "reaming"
    BORING = "boring"
    MILLING = "milling"
    COUNTERBORING = "counterboring"
    COUNTERSINKING = "countersinking"
    TAPPING = "tapping"
    GROOVING = "grooving"
    TREPANNING = "trepanning"
    SLOTTING = "slotting"
    BROACHING = "broaching"


@dataclass(frozen=True, eq=False)
class Kind:
    """What a kind of cutter gives, and all that is said of it. A kind is one file with one `KIND`, listed once in
    `crib/cutters/__init__.py`.

    Record: `size_keys`: fields of which at least one must be known, else the line is held back. `shown_keys`: fields
    that its label and `show` name after the size, in order. `fill`: typical values for what wasn't stated; the keys it
    fills are assumptions. `check`: what can't be true of such a cutter. `keeps_size`: whether sharpening leaves its
    diameter. `speech`: the words for it. `gauging`: how it is named when it is unmarked.

    Cutting: `form`: its silhouette, or None where it isn't reckoned with yet; it may assume that what `unknowns` lists
    has been filled in. `stem`: what stands above its teeth, told of a cutter that needn't be filled in, where these are
    one straight piece of its diameter from the lower face up, but for a rounded corner: a large crib is sieved by it
    before silhouettes are drawn, and before that by how tall its `teeth` are. `on_axis`: the silhouette where it comes
    down its own axis, of its stated size; None where it doesn't. `motions`: those that it can make; `down`: what it
    does down its own axis. `opens`: whether it is made to open a room from solid, from above. `buried`: whether it
    works with its teeth out of sight, so that chips must be cleared at each pass and it runs slower. `operation`: what
    its speed and feed go by where that is neither milling nor buried; `bite_mm`: the most that it takes down at once,
    where its diameter doesn't say that. `on_arbor`: whether it has a bore and no shank; `may_be_bored`: whether some of
    them have; `on_stub`: whether its bore goes on the end of a stub arbor, whose screw lies in its lower face;
    `called`: what one of them is called where that isn't what the kind is; `in_chuck`: whether a drill chuck may hold
    it, for it never cuts on its side; `by_hand`: whether a hand turns one down its axis, and no spindle; `sizes`: from
    and to what it can be set [mm]. `cautions`: what it can do to hands and eyes in a group of metals (empty where that
    isn't known). `is_plain`: whether it is drawn as one piece from end to end, without teeth on a shank.

    Buying: `proposes`: what could be bought of it. `in_place_of`: kinds that it does the work of. `is_ground_out`:
    whether a grinding service takes it, and it cuts to its size again, a little smaller. `is_ground_from_blanks`:
    whether one tooth of it, ground on a blank (a kind that `is_blank`), does the work.
    """

    name: str
    words: str
    size_keys: tuple[str, ...] = ("diameter_mm",)
    shown_keys: tuple[str, ...] = ()
    form: Callable[[Cutter, Clearances], Silhouette] | None = None
    stem: Callable[[Cutter, Clearances], Stem] | None = None
    teeth: Callable[[Cutter], float] = lambda cutter: 0.0
    on_axis: Callable[[Cutter, Clearances], Silhouette] | None = None
    fill: Callable[[Cutter], Cutter] = lambda cutter: cutter
    unknowns: Callable[[Cutter], tuple[Unknown, ...]] = lambda cutter: ()
    check: Callable[[Cutter], tuple[Finding, ...]] = lambda cutter: ()
    motions: frozenset[Motion] = frozenset()
    down: frozenset[Down] = frozenset()
    in_chuck: bool = False
    by_hand: Callable[[Cutter], bool] = lambda cutter: False
    sizes: Callable[[Cutter], tuple[float, float]] = lambda cutter: (cutter.diameter_mm or 0.0,) * 2
    opens: bool = False
    buried: bool = False
    on_arbor: bool = False
    may_be_bored: bool = False
    on_stub: bool = False
    called: Callable[[Cutter], str] = lambda cutter: ""
    operation: str | None = None
    bite_mm: float | None = None
    keeps_size: bool = False
    gauging: Gauging | None = None
    proposes: Callable[[Need], Iterable[Wanted]] = lambda need: ()
    is_plain: bool = False
    in_place_of: tuple[str, ...] = ()
    is_ground_from_blanks: bool = False
    is_blank: bool = False
    is_ground_out: bool = False
    cautions: Callable[[str], tuple[str, ...]] = lambda group: ()
    speech: Speech = field(default_factory=Speech)
    plural: str = ""
    example: Cutter | None = None

    def is_weak(self, cutter: Cutter) -> bool:
        """Whether one of this kind isn't made to open anything from solid: it works buried, or its neck is thin."""
        return self.buried or (cutter.neck_mm is not None and cutter.neck_mm < (cutter.diameter_mm or 0.0) / 2)

    @property
    def saws(self) -> bool:
        """Whether it takes its whole depth at once."""
        return self.operation == "sawing"


class Kinds(Mapping[str, Kind]):
    """The kinds by name, each loaded when it is asked for: a short answer is about few of them."""

    def __init__(self, loaded: dict[str, Kind]) -> None:
        self._file_of: dict[str, str] = {}
        self._loaded = loaded

    def put_in(self, files: Iterable[str]) -> None:
        """The files that have one each, called as it is."""
        self._file_of |= {file.replace("_", "-"): file for file in files}

    def __getitem__(self, name: str) -> Kind:
        try:
            return self._loaded[name]
        except KeyError:
            self._loaded[name] = load(f"crib.cutters.{self._file_of[name]}").KIND
            return self._loaded[name]

    def __contains__(self, name: object) -> bool:
        return name in self._file_of

    def __iter__(self) -> Iterator[str]:
        return iter(self._file_of)

    def __len__(self) -> int:
        return len(self._file_of)


_loaded: dict[str, Kind] = {}
KINDS = Kinds(_loaded)
"""All that there are: `crib/cutters/__init__.py` names their files."""


def kind_of(cutter: Cutter | str) -> Kind:
    """The kind of a cutter, or the kind of that name. Raises `CribError` for a name that no kind has."""
    name = cutter if isinstance(cutter, str) else cutter.kind
    if (kind := _loaded.get(name)) is not None:
        return kind
    try:
        return KINDS[name]
    except KeyError:
        raise CribError("kind", f"{name!r} is not a kind of cutter", name, "one of " + ", ".join(KINDS)) from None


def goes_down(cutter: Cutter, what: Down) -> bool:
    """Whether a cutter does this down its own axis."""
    return what in kind_of(cutter).down
