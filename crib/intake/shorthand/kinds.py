"""What kind of cutter a line speaks of: by its name, else by what only such a cutter has."""

from __future__ import annotations

import re

from crib.intake.shorthand.slip import SIZE, Held, Slip
from crib.intake.shorthand.vocabulary import HOLDERS, KINDS, NO_CUTTERS, NOUNS

_TAP = (r"plug|bottoming|tap|spiral point|spiral flute|spiral|forming|sti|g?[hd]\d|lh|whitworth|bsw|bsf|"
        r"\d+ ?ba")
_DRILL = r"jobbers?|split|taper length|screw[ -]machine|letter [a-z]|reduced|turned[ -]down"
_MILL = r"loc|de|se|cc|non ?-?cc|ctr|(?:[3-9]|1) (?:flutes?)"
_MUSHROOM = "mushroom|unknown|no idea|whatsit"
_MEASURE = "measure its diameter, the height of its teeth, its neck and its shank, and say: keyseat or T-slot cutter"
_NO_SECOND = "".join(rf"(?<!\b{word} )" for word in ("for", "for a", "for the", "as", "as a", "like", "like a"))
_NOT_OF_IT = (r"(?! ?(?:point|mill|drawer|tray|box|bin|rack|shelf|cabinet|index|stand|press|chuck|wrench|handle|"
              r"bushing))")
_LENGTHS = "1/2 x 1 x 3 x 4"


def kind_by_name(slip: Slip) -> str | None:
    """The kind that is named, its words taken off the slip; None where none is. Raises `Held` for what is no cutter."""
    for word, why in NO_CUTTERS.items():
        if slip.has(word):
            raise Held(why, "a note in the drawer is better; it is kept here until you put it right")
    if slip.take(r"slot (?:cutters?|mills?)(?<!t slot cutter)") and not slip.has(r"t slot.*"):
        slip.ask("kind", "is it a keyseat cutter or a T-slot cutter? look for teeth on its faces")
        return "keyseat-cutter"
    for pattern, kind, note in KINDS:
        if slip.take(pattern):
            _note(slip, note)
            _drop_names(slip, kind)
            return kind
    _no_holder(slip)
    return None


def only_one_kind(slip: Slip, kind: str) -> None:
    """Raises `Held` where what is left of a line names another kind too, not as what the cutter is for or lies in."""
    for noun, other in NOUNS:
        found = re.search(rf"{_NO_SECOND}(?<![\w/.-])({noun})s?(?![\w/]|-\w){_NOT_OF_IT}", slip.text)
        if found and other != kind:
            raise Held(f"it names two kinds, {kind.replace('-', ' ')} and {other.replace('-', ' ')}; "
                       "one cutter at a time", "a line for each")


def only_one_cutter(slip: Slip, kind: str) -> None:
    """Raises `Held` where the sizes without a label are those of two cutters: the kind is named twice with one of them
    in between, or there is an `and` between two. A set or a double-ender has several by nature."""
    if len(slip.sizes) < 2 or slip.values.get("double_ended"):
        return
    size = "|".join(re.escape(text) for text in slip.sizes)
    named = "|".join([noun for noun, other in NOUNS if other == kind] or [kind.replace("-", " ")])
    two = rf"(?<![\w/.-])({named})s?(?![\w/]|-\w).*(?<![\w/.-])({size})(?![\w/]).*(?<![\w/.-])(?:\1)s?(?![\w/]|-\w)"
    joined = re.search(rf"(?<![\w/.-])({size}) ?(?:and|&|\+) ?({size})(?![\w/.])", slip.said)
    if joined or re.search(two, slip.said):
        first, second = joined.groups() if joined else slip.sizes[:2]
        raise Held(f"{first} and {second} look like two cutters, or like two sizes of one",
                   "a line for each, or what the second size is, such as its shank")


def kind_named(text: str) -> str | None:
    """The kind that a name alone stands for, spelt right: `Woodruff`, `end mill`; None where it stands for none.

    >>> kind_named("Woodruff cutter"), kind_named("Endmill"), kind_named("end-mil")
    ('keyseat-cutter', 'end-mill', None)
    """
    bare = " ".join(text.lower().replace("-", " ").split())
    return next((kind for pattern, kind, _ in KINDS if re.fullmatch(pattern, bare)), None)


def _note(slip: Slip, note: str) -> None:
    if note == "ball":
        slip.values["ball"] = True
    elif note == "slot drill":
        slip.values.setdefault("flutes", 2)
        slip.values.setdefault("centre_cutting", True)
        slip.assumed += ["flutes", "centre_cutting"]
        slip.notes.append(note)
    elif note:
        slip.notes.append(note)


def _drop_names(slip: Slip, kind: str) -> None:
    """Further words for the same kind say nothing more: `rougher, corncob`."""
    if kind == "taper-reamer":
        slip.take("reamers?")
    for pattern, named, note in KINDS:
        if named == kind and slip.take(pattern):
            _note(slip, "" if note in slip.notes else note)


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


def kind_by_signs(slip: Slip, sizes: int, thread: bool) -> str | None:
    """The kind that only fits what was said; None where several do. Raises `Held` where it helps to say why not."""
    if slip.has(_MUSHROOM):
        raise Held("it doesn't say what kind of cutter it is", _MEASURE)
    if thread:
        return "tap" if slip.has(_TAP) else None
    if slip.has(_DRILL):
        return "drill"
    if slip.has(_MILL) or sizes == 4:
        return "end-mill"
    if slip.has("2 flutes?") and slip.has("carbide"):
        return "end-mill"
    if sizes == 3 and slip.values.get("flutes", 0) and slip.values["flutes"] >= 12:
        return "slitting-saw"
    if slip.has(r"(?:#\s?\d+)") and slip.has("stub|cobalt|hss"):
        return "drill"
    return None


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
    return Held("it doesn't say what kind of cutter it is", f"add the word: {bare[:60]} end mill, drill, tap ...")
