"""The work lies on its side: what was its top stands upright at the back, and is cut from there."""

from __future__ import annotations

from crib.geometry.outline import Opening, Outline
from crib.geometry.rotate import laid_over
from crib.light.hints import TYPE_CHECKING
from crib.setups.base import Setup

if TYPE_CHECKING:
    from crib.geometry.layers import Layers


def turn(outline: Outline) -> Outline:
    """Top and right changed over. Where that opens a room at the top, z counts from the new top and x from the room's
    own wall, as they do where such a section is drawn so from the start."""
    return laid_over(outline, *_moved(outline))


def _moved(outline: Outline) -> tuple[int, int]:
    """How far it is moved besides: what opens at the right is what then opens at the top."""
    above = next((room for room in outline.rooms if room.opens(Opening.RIGHT)), None)
    return (-above.aim.low, -outline.stock.bounds()[2]) if above else (0, 0)


def lay(layers: Layers, outline: Outline) -> Layers:
    """The same of what it is seen from above."""
    from crib.geometry import layers as seen

    return seen.laid_over(layers, *_moved(outline))


def zeros(outline: Outline) -> tuple[str, str] | None:
    """What x and z count from: of a room that is cut from the side, its open face and its own middle."""
    room = outline.rooms[0]
    if room.opens(Opening.TOP):
        return "the finished wall, the floor in the drawing", "the top as the work lies, its edge in the drawing"
    return "the face that it opens at", f"the middle of the {room.name}"


SETUP = Setup(
    name="on its side",
    words="work on its side, its top upright at the back, away from you",
    held="on its side against an angle plate, its top upright at the back, the top indicated {true} and square to the "
         "table",
    turn=turn,
    lay=lay,
    zeros=zeros,
    clampings=1,
    warns="the work is clamped anew on its side: square it by indicator, and find its edges again",
)
