"""The characters that pictures are drawn with: one set of box lines and blocks, one of plain ASCII."""

from __future__ import annotations

from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.pages.scene import Body


@dataclass(frozen=True)
class Strokes:
    """One set of characters.

    `edges`: for standing metal at a cell's corners (top left, top right, bottom left, bottom right), the line between
    metal and none. `quarters`: for teeth in a cell's quarters, in the same order. `bends`: the corners of edges drawn
    round. `dash`, `dash_upright`: edges that metal hides. `trace`:
    what was there first.
    """

    edges: dict[tuple[bool, bool, bool, bool], str]
    quarters: dict[tuple[bool, bool, bool, bool], str]
    rising: str
    falling: str
    hatch: str
    neck: str
    shank: str
    holder: str
    pilot: str
    from_right: str
    from_left: str
    down: str
    centre: str
    surface: str
    rule: str
    rule_left: str
    rule_right: str
    stem: str
    stem_top: str
    stem_bottom: str
    bends: dict[str, str]
    dash: str
    dash_upright: str
    trace: str
    up: str

    @property
    def teeth(self) -> str:
        return self.quarters[True, True, True, True]

    @property
    def bodies(self) -> dict[Body, str]:
        """What parts that don't cut are filled with."""
        from crib.pages.scene import Body

        return {Body.NECK: self.neck, Body.SHANK: self.shank, Body.PILOT: self.pilot, Body.HOLDER: self.holder}


def _by_corners(glyphs: str) -> dict[tuple[bool, bool, bool, bool], str]:
    """Sixteen characters, in the order of the corners read as a binary number."""
    return {(bool(i & 8), bool(i & 4), bool(i & 2), bool(i & 1)): glyph for i, glyph in enumerate(glyphs)}


LINES = Strokes(
    edges=_by_corners(" ┌┐─└│╱┘┘╲│└─┐┌ "),
    quarters=_by_corners(" ▗▖▄▝▐▞▟▘▚▌▙▀▜▛█"),
    rising="╱", falling="╲", hatch="╱", neck="▒", shank="░", holder="▚", pilot="▓",
    from_right="◄─", from_left="─►", down="▼", centre="┊", surface="╌",
    rule="─", rule_left="├", rule_right="┤", stem="│", stem_top="┬", stem_bottom="┴",
    bends=dict(zip("┌┐└┘", "╭╮╰╯", strict=True)), dash="╌", dash_upright="╎", trace="·", up="▲",
)
ASCII = Strokes(
    edges=_by_corners(" ++-+|/++\\|+-++ "),
    quarters={corners: "#" if sum(corners) >= 2 else " " for corners in _by_corners(" " * 16)},
    rising="/", falling="\\", hatch="/", neck=":", shank="=", holder="%", pilot="o",
    from_right="<-", from_left="->", down="v", centre="'", surface="-",
    rule="-", rule_left="|", rule_right="|", stem="|", stem_top="+", stem_bottom="+",
    bends={}, dash=".", dash_upright=".", trace="'", up="^",
)


def can_draw_lines(encoding: str | None) -> bool:
    """Whether box lines and blocks can be written in an encoding.

    >>> can_draw_lines("utf-8"), can_draw_lines("cp1252"), can_draw_lines(None)
    (True, False, False)
    """
    used = LINES.teeth + LINES.neck + LINES.hatch + LINES.from_right + LINES.surface + LINES.centre
    try:
        used.encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def strokes(lines: bool) -> Strokes:
    """The set to draw with."""
    return LINES if lines else ASCII
