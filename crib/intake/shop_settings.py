"""The shop's settings as they are typed: how the text of each is read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from crib.findings.errors import CribError
from crib.intake.attributes import read_length, read_number, read_whole
from crib.intake.near import one_of
from crib.light.records import dataclass
from crib.shop import STIFFNESS

UNITS = ("in", "mm")
_NONE = "none"
_MOST_MINUTES = 10_000.0
KW_OF_HP = 0.7457
_MEMORY = "from memory"


@dataclass(frozen=True)
class Setting:
    """One setting: its field in `Shop`, what it means, and how its text is read in the units at hand. `source`: where
    the default of a weight comes from, one of the figures that the cost is reckoned with; empty for what isn't one."""

    key: str
    help: str
    read: Callable[[str, str, str], Any]
    source: str = ""

    @property
    def name(self) -> str:
        """`neck-clearance` for `neck_clearance_mm`."""
        return self.key.removesuffix("_mm").replace("_", "-")


def read_settings(texts: Mapping[str, str], units: str) -> dict[str, Any]:
    """The values of settings from their texts, by field; lengths in the units that are set along with them.

    Raises `CribError` for a value that can't be read.
    """
    if "units" in texts:
        units = SETTINGS["units"].read(texts["units"], units, "units")
    return {key: SETTINGS[key].read(text, units, SETTINGS[key].name) for key, text in texts.items()}


def _items(text: str, name: str) -> list[str]:
    """The parts of a list with commas between; `none` is a list of nothing."""
    if text.strip().lower() == _NONE:
        return []
    items = [part.strip() for part in text.split(",")]
    if not all(items):
        raise CribError("list", f"{name} {text.strip()!r} has an empty place", text,
                        "sizes or speeds with commas between, or none")
    return items


def _speeds(text: str, units: str, name: str) -> list[int]:
    return sorted({read_whole(1, part, name, "80,135,210") for part in _items(text, name)})


def _sizes(text: str, units: str, name: str) -> list[float]:
    return sorted({read_length(part, units, name) for part in _items(text, name)})


def _arbors(text: str, units: str, name: str) -> list[dict[str, float]]:
    return [_arbor(part, units, name) for part in _items(text, name)]


def _arbor(text: str, units: str, name: str) -> dict[str, float]:
    """An arbor from its text: bore, flange, and where they are known the nose above it and how far up that begins."""
    places = ("bore", "flange", "nose", "reach")
    parts = text.split(":")
    if len(parts) < 2:
        raise CribError("arbor", f"{name} {text!r} names no flange", text,
                        "an arbor is written BORE:FLANGE, such as 1:1-3/4, or BORE:FLANGE:NOSE:REACH")
    if len(parts) > len(places):
        raise CribError("arbor", f"{name} {text!r} has more than four sizes", text, "BORE:FLANGE:NOSE:REACH")
    arbor = {f"{place}_mm": read_length(part, units, place) for place, part in zip(places, parts, strict=False)}
    if arbor["flange_mm"] < arbor["bore_mm"]:
        raise CribError("arbor", f"{name} {text!r} has a flange narrower than its bore", text,
                        "bore first, then flange")
    return arbor


def _heads(text: str, units: str, name: str) -> list[dict[str, Any]]:
    return [_head(part, units, name) for part in _items(text, name)]


def _head(text: str, units: str, name: str) -> dict[str, Any]:
    """A boring head from its text: shank of its bars, least and most diameter, fastest speed, what its dial counts;
    `facing` at the end, where it feeds out by itself."""
    parts = [part.strip() for part in text.split(":")]
    faces = parts[-1].lower() in ("facing", "faces")
    parts = parts[:-1] if faces else parts
    if not 3 <= len(parts) <= 5:
        raise CribError("boring head", f"{name} {text!r} isn't a boring head", text,
                        "BAR:FROM:TO[:RPM[:DIAL]][:facing], such as 1/2:3/8:5:1000:diameter")
    places = ("bar", "least", "most")
    head: dict[str, Any] = {f"{place}_mm": read_length(part, units, place)
                            for place, part in zip(places, parts, strict=False)}
    if head["most_mm"] <= head["least_mm"]:
        raise CribError("boring head", f"{name} {text!r} bores from more than it bores to", text,
                        "the least diameter first, then the largest")
    head["rpm"] = float(read_whole(1, parts[3], name)) if len(parts) > 3 else 1000.0
    head["dial"] = _one_of(("diameter", "radius"))(parts[4], units, name) if len(parts) > 4 else "diameter"
    head |= {"faces": True} if faces else {}
    return head


def _length(text: str, units: str, name: str) -> float:
    return read_length(text, units, name)


def _length_or_none(text: str, units: str, name: str) -> float | None:
    return None if text.strip().lower() == _NONE else read_length(text, units, name)


def _runout(text: str, units: str, name: str) -> float | None:
    return None if text.strip().lower() == _NONE else read_length(text, units, name, may_be_zero=True)


def _length_or_zero(text: str, units: str, name: str) -> float:
    return read_length(text, units, name, may_be_zero=True)


def _money(text: str, units: str, name: str) -> float:
    return read_number(text, name, 0, 1e6, "an amount of money, without the currency")


def _money_or_none(text: str, units: str, name: str) -> float | None:
    return None if text.strip().lower() == _NONE else _money(text, units, name)


def _days(text: str, units: str, name: str) -> float:
    return read_number(text, name, 0, 3650, "a number of days")


def _minutes(text: str, units: str, name: str) -> float:
    return read_number(text, name, 0, _MOST_MINUTES, "a number of minutes")


def _years(text: str, units: str, name: str) -> float:
    return read_number(text, name, 0, 50, "a number of years")


def _share(text: str, units: str, name: str) -> float:
    """A share of 1, or a percentage."""
    bare = text.strip()
    what = "a share from 0 to 1, or a percentage such as 3%"
    if bare.endswith("%"):
        return read_number(bare[:-1], name, 0, 100, what) / 100
    return read_number(bare, name, 0, 1, what)


def _power(text: str, units: str, name: str) -> float | None:
    """Kilowatts, or horsepower where it says so."""
    bare = text.strip().lower()
    if bare == _NONE:
        return None
    what = "kilowatts, or horsepower: 1.1 or 1.5hp"
    if bare.endswith("hp"):
        return read_number(bare[:-2], name, 0.01, 100, what) * KW_OF_HP
    return read_number(bare.removesuffix("kw"), name, 0.01, 75, what)


def _paper(text: str, units: str, name: str) -> str | None:
    word = text.strip().lower()
    return None if word == _NONE else _one_of(("letter", "a4", _NONE))(text, units, name)


def _levels(text: str, units: str, name: str) -> int:
    return read_whole(1, text, name)


def _whole_or_none(text: str, units: str, name: str) -> int | None:
    return None if text.strip().lower() == _NONE else read_whole(1, text, name)


def _yes_no(text: str, units: str, name: str) -> bool:
    return text == "yes"


def _currency(text: str, units: str, name: str) -> str:
    code = text.strip().upper()
    if len(code) != 3 or not (code.isascii() and code.isalpha()):
        raise CribError("currency", f"{name} {text.strip()!r} is not a currency", text, "three letters, such as USD")
    return code


def _one_of(names: tuple[str, ...]) -> Callable[[str, str, str], str]:
    def read(text: str, units: str, name: str) -> str:
        word = text.strip().lower()
        if word not in names:
            raise CribError("choice", f"{name} {text.strip()!r} is not known", text, one_of(word, names))
        return word

    return read


def _overruled(text: str, units: str, name: str) -> list[str]:
    """Rules with the owner's words, `;` between; `none` is none."""
    from crib.rules.overruling import checked_of_many

    if text.strip().lower() == _NONE:
        return []
    return [checked_of_many(part) for part in text.split(";") if part.strip()]


SETTINGS: dict[str, Setting] = {setting.key: setting for setting in (
    Setting("units", "Units of what is typed and shown: in or mm", _one_of(UNITS)),
    Setting("spindle_rpm", "The spindle's speeds: 60,95,150", _speeds),
    Setting("collets_mm", "Collets, by the shank they hold: 1/4,3/8,1/2", _sizes),
    Setting("chuck_mm", "Largest shank that the drill chuck holds", _length),
    Setting("arbors", "Arbors for cutters with a bore: BORE:FLANGE[:NOSE[:REACH]], more after a comma", _arbors),
    Setting("boring_heads", "Boring heads: BAR:FROM:TO[:RPM[:DIAL]][:facing], the shank of its bars, the diameters it "
            "bores, its fastest speed (1000), whether its dial counts on the diameter or the radius, whether it feeds "
            "out by itself; more after a comma",
            _heads),
    Setting("collet_blocks", "Whether there are collet blocks, a square and a hexagon one, to index by", _yes_no),
    Setting("dividing_turns", "Turns of the dividing head's crank for one of its spindle: 40; none", _whole_or_none),
    Setting("rotary_turns", "Turns of the rotary table's crank for one of the table: 40, 72, 90; none",
            _whole_or_none),
    Setting("saw_allowance_mm", "Left on a blank's length for the saw and for facing both ends", _length),
    Setting("square_allowance_mm", "Left on a blank's width and height for squaring, both sides together", _length),
    Setting("hold_allowance_mm", "Left on a blank's length to hold by, where a cut takes off what it is held by",
            _length),
    Setting("nose_mm", "Diameter of the spindle's nose", _length),
    Setting("collet_nose_mm", "Diameter of the chuck that closes the collets; none: they close in the spindle",
            _length_or_none),
    Setting("collet_nose_length_mm", "How far the collets' chuck stands out of the spindle", _length),
    Setting("dro", "Whether the table has a digital readout", _yes_no),
    Setting("stiffness", "How stiff the mill is: " + ", ".join(STIFFNESS), _one_of(STIFFNESS)),
    Setting("motor_kw", "The motor's power: 1.1 or 1.5hp; none: what is usual for the build", _power),
    Setting("hand_feed_mm", "Fastest that a hand turns the table, a minute", _length),
    Setting("power_feed_mm", "Fastest of the table's power feed, a minute; none: fed by hand", _length_or_none),
    Setting("unknown_steel", "What a cutter of unknown steel is run as: hss, where most of yours are; unknown: as "
            "carbon steel, half as fast, and each answer says so", _one_of(("unknown", "hss", "carbon-steel"))),
    Setting("magnesium", "Whether dry sand or a class D extinguisher stands ready, no water near, for magnesium",
            _yes_no),
    Setting("backlash_mm", "Backlash of the table's screws", _length_or_zero),
    Setting("screw_lead_mm", "What a turn moves table and cross slide, the lead of their screws", _length),
    Setting("knee_lead_mm", "What a turn moves the knee", _length),
    Setting("edge_finder_mm", "Diameter of the edge finder", _length),
    Setting("paper_mm", "Thickness of the paper that cutters are touched off on", _length),
    Setting("mill_runout_mm", "What an indicator reads in all at an end mill's edges as it turns; none: not measured",
            _runout),
    Setting("saw_runout_mm", "What an indicator reads in all at a saw's side as it turns; none: not measured", _runout),
    Setting("neck_clearance_mm", "Room that a neck must have on each side", _length_or_zero),
    Setting("end_clearance_mm", "Room above or below what doesn't cut", _length_or_zero),
    Setting("general_tolerance_mm", "Tolerance of a size that has none", _length),
    Setting("loose_tolerance_mm", "Tolerance of a size that is only room for something", _length),
    Setting("overruled", "Rules that don't hold in this shop, each with your words: 'SP1 I run that saw at 80'; more "
            "after a semicolon; none: all hold", _overruled),
    Setting("most_levels", "Most levels for one cutter", _levels),
    Setting("hour_rate", "What an hour at the mill is worth", _money),
    Setting("currency", "Currency of all money: USD", _currency),
    Setting("blank_cost", "What the work costs before it is cut", _money, _MEMORY),
    Setting("setup_minutes", "Minutes to set up the work", _minutes, _MEMORY),
    Setting("tilt_minutes", "Minutes to tilt head or work, and set it true again", _minutes, _MEMORY),
    Setting("index_setup_minutes", "Minutes to put up a dividing head or rotary table, and set it true", _minutes,
            _MEMORY),
    Setting("index_minutes", "Minutes to turn the work to the next flat, by a block, a head or a table", _minutes,
            _MEMORY),
    Setting("protractor_minutes", "The same in a vee block, by protractor", _minutes, _MEMORY),
    Setting("cutter_minutes", "Minutes to change a cutter", _minutes, _MEMORY),
    Setting("collet_minutes", "Minutes to change a collet", _minutes, _MEMORY),
    Setting("touch_minutes", "Minutes to touch off a cutter", _minutes, _MEMORY),
    Setting("touch_disc_minutes", "Minutes to touch off a cutter with a neck", _minutes, _MEMORY),
    Setting("pass_minutes", "Minutes of handling for each pass", _minutes, _MEMORY),
    Setting("buried_pass_minutes", "Minutes of handling for a pass out of sight", _minutes, _MEMORY),
    Setting("measure_minutes", "Minutes to measure once", _minutes, _MEMORY),
    Setting("chip_stop_minutes", "Minutes to stop in a buried cut and brush the chips out", _minutes, _MEMORY),
    Setting("deburr_minutes", "Minutes to take up the file and deburr", _minutes, _MEMORY),
    Setting("deburr_inch_minutes", "Minutes to deburr an inch of edge", _minutes, _MEMORY),
    Setting("peck_minutes", "Minutes to draw a drill out, clear it and go back, once", _minutes, _MEMORY),
    Setting("file_minutes", "Minutes to begin filing and to try it", _minutes, _MEMORY),
    Setting("file_inch_minutes", "Minutes to file a square inch", _minutes, _MEMORY),
    Setting("trial_minutes", "Minutes for a trial cut in scrap, which halves the chance of scrap", _minutes, _MEMORY),
    Setting("base_chance", "Chance of scrap of any plan", _share, _MEMORY),
    Setting("warn_chance", "What each remark to mind adds to it", _share, _MEMORY),
    Setting("caution_chance", "What each caution adds to it", _share, _MEMORY),
    Setting("careful_chance", "What a size that is held with care only adds to it", _share, _MEMORY),
    Setting("assumed_chance", "What a size taken as usual for its kind adds to it", _share, _MEMORY),
    Setting("overhang_chance", "What a cutter that stands far out adds to it", _share, _MEMORY),
    Setting("hand_chance", "What finishing to size by hand adds to it", _share, _MEMORY),
    Setting("miss_chance", "What a size that may come out outside its limits adds to it", _share, _MEMORY),
    Setting("easy_wear", "Share of its price that a cutter loses to easy work", _share, _MEMORY),
    Setting("buried_wear", "The same where its teeth are out of sight", _share, _MEMORY),
    Setting("hard_wear", "The same in metal that hardens as it is cut", _share, _MEMORY),
    Setting("grind_minutes", "Minutes to grind a one-tooth cutter from a blank", _minutes, _MEMORY),
    Setting("borrow_minutes", "Minutes to fetch a friend's cutter and bring it back", _minutes, _MEMORY),
    Setting("regrind_worth", "What a reground cutter is worth, of a new one", _share, _MEMORY),
    Setting("regrind_price", "What a grinding service asks for a cutter, with the post; none: none is reckoned with",
            _money_or_none),
    Setting("regrind_days", "Days until a cutter is back from it", _days, _MEMORY),
    Setting("neighbour_rate", "What an hour at a neighbour's shop or a makerspace costs; none: there is none",
            _money_or_none),
    Setting("years_ahead", "Years for which a purchase is expected to serve", _years, _MEMORY),
    Setting("future_doubt", "Share of the uses expected later that is counted", _share, _MEMORY),
    Setting("sheet_paper", "Paper that set-up sheets and labels are printed on: letter or a4; none: Letter for inches, "
            "A4 for millimetres", _paper),
    Setting("remember_questions", "Whether the crib remembers what was asked of it", _yes_no),
)}

WEIGHTS: tuple[str, ...] = tuple(key for key, setting in SETTINGS.items() if setting.source)
"""The settings that the cost is reckoned with."""
