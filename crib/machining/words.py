"""The words of a pass as types: what it does, which side it cuts, in what manner a room is cleared."""

from __future__ import annotations

from crib.light.choices import StrEnum


class Role(StrEnum):
    """What a pass does."""

    ROUGH = "rough"
    FLOOR = "floor"
    FINISH = "finish"
    UNDERCUT = "undercut"
    SAW = "saw"
    SPOT = "spot"
    DRILL = "drill"
    REAM = "ream"
    BORE = "bore"
    PLUNGE = "plunge"
    COUNTERBORE = "counterbore"
    COUNTERSINK = "countersink"
    LAND = "spotface"
    TRANSFER = "transfer"
    TAP = "tap"
    GROOVE = "groove"
    ENTER = "go in"
    SLOT = "slot"
    BROACH = "broach"


class Making(StrEnum):
    """How a hole comes to its size."""

    DRILL = "drill"
    TWO_DRILLS = "two drills"
    REAM = "ream"
    END_MILL = "end mill"
    BORE = "bore"


class Entry(StrEnum):
    """How a cutter gets down to a pass: by an open end, in free room, straight into the metal, in a hole that is there,
    on a ramp, from beside the work at its height; `ON` goes on from the last one."""

    OPEN_END = "open end"
    FREE = "free"
    PLUNGE = "plunge"
    HOLE = "hole"
    RAMP = "ramp"
    BESIDE = "beside"
    ON = "on"


class Side(StrEnum):
    """Which wall a pass cuts: both at once, one of them, or none, going down its axis."""

    BOTH = "both"
    BACK = "back"
    FRONT = "front"
    AXIS = "axis"

    @property
    def other(self) -> Side:
        """The same with left and right changed over."""
        return {Side.BACK: Side.FRONT, Side.FRONT: Side.BACK}.get(self, self)


class Direction(StrEnum):
    """How the teeth meet the metal that a pass takes."""

    BOTH = "both"
    CONVENTIONAL = "conventional"
    CLIMB = "climb"
    AXIAL = "axial"


class Fed(StrEnum):
    """Which way the cutter goes past the work while it cuts, as it is seen from the front: `ROUND` where the work is
    turned under it, `OUT` where a boring head set it out beforehand."""

    RIGHT = "right"
    LEFT = "left"
    TOWARD_YOU = "toward you"
    DOWN = "down"
    ROUND = "round"
    OUT = "out"


class Slide(StrEnum):
    """What is moved by a handwheel, or locked."""

    TABLE = "table"
    CROSS = "cross"
    KNEE = "knee"
    QUILL = "quill"


class Turned(StrEnum):
    """Which way a slide is brought to its reading: the way that the cutter goes past the work, the knee by itself."""

    RIGHT = "right"
    AWAY = "away from you"
    UP = "up"


class Slack(StrEnum):
    """From which side the slack between screw and nut is taken up."""

    LEFT = "left"
    FRONT = "front"
    BELOW = "below"


class Seen(StrEnum):
    """How a pass is looked at: across the way that it is fed, or from above."""

    CROSS = "cross"
    PLAN = "plan"


class Manner(StrEnum):
    """How a tool clears a room; `IDLE` for one of which nothing is asked but what it is, `DRILLED` for a way in,
    `IN_THE_CORNERS` for a drill down each corner, `IN_A_ROW` for a chain of holes, `ROUGHED` for what is finished by
    another, `STEPS_FIRST` for a disc's steps under a flank, `DOWN` for one stroke of a chain."""

    OWN_SIZE = "own size"
    STEPPED = "stepped"
    WIDE = "wide"
    A_HAIR_A_SIDE = "a hair a side"
    ALONG_THE_EDGE = "along the edge"
    ONE_HEIGHT = "one height"
    TWO_HEIGHTS = "two heights"
    ONE_PLACE = "one place"
    ONE_LEVEL = "one level"
    LEVELS = "levels"
    ONE_LEVEL_OWN_WIDTH = "one level of its own width"
    LEVELS_OWN_WIDTH = "levels of its own width"
    SAWN = "sawn"
    SAWN_IN_LEVELS = "sawn in levels"
    FROM_THE_SIDE = "from the side"
    FROM_THE_SIDE_IN_LEVELS = "from the side in levels"
    DRILLED = "drilled"
    IN_THE_CORNERS = "drilled in the corners"
    IN_A_ROW = "drilled in a row"
    ROUGHED = "roughed"
    STEPS_FIRST = "in steps first"
    DOWN = "down the axis"
    IDLE = ""


BY_THE_AXIS = (Manner.STEPPED, Manner.WIDE, Manner.A_HAIR_A_SIDE, Manner.ALONG_THE_EDGE)
"""Walls are set by the axis, not by the cutter's own width."""

BY_ITS_WIDTH = (Manner.OWN_SIZE, Manner.ONE_LEVEL_OWN_WIDTH, Manner.LEVELS_OWN_WIDTH)
"""Walls are as far apart as the cutter is wide, by choice."""

MEANT_TO_FOLLOW = (Manner.IN_THE_CORNERS, Manner.IN_A_ROW, Manner.ROUGHED, Manner.STEPS_FIRST)
"""After these another cutter is meant to finish the room, as one follows a drill down an axis."""

PREPARES = (Manner.DRILLED, *MEANT_TO_FOLLOW)
"""Nothing is made to size: another cutter follows there."""

LEANING = (Manner.ONE_HEIGHT, Manner.TWO_HEIGHTS)
"""Walls lean, made by the teeth's own lean."""

SIDEWAYS = (Manner.SAWN, Manner.SAWN_IN_LEVELS, Manner.FROM_THE_SIDE, Manner.FROM_THE_SIDE_IN_LEVELS)
"""The cutter comes in from the open side."""

SIZED = (Role.DRILL, Role.REAM, Role.COUNTERBORE, Role.PLUNGE)
"""A hole is as wide as the cutter makes it."""

IN_THE_HOLE = (Role.REAM, Role.TAP)
"""What wants its oil in the hole."""

MAKES = (*SIZED, Role.BORE, Role.GROOVE, Role.SLOT, Role.BROACH)
"""A hole, its floor, a groove or a keyseat is made to size."""

BESIDE_THE_AXIS = (Fed.ROUND, Fed.OUT)
"""A cutter goes round an axis beside it, and not down it."""
