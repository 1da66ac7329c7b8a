"""What says itself what it is, wherever it stands in a line: ends, a count, a material, a hardness, hours, a wall, a
use. A pattern is looked for only where a word of it stands in the line: most lines have none of them."""

from __future__ import annotations

import re

from crib.features.base import FeatureKind
from crib.handbook.materials import is_named
from crib.intake.questions.fits import fits
from crib.intake.questions.sheet import GAP, KIND, Sheet
from crib.intake.questions.stock import stock
from crib.intake.questions.tokens import FIGURE, Token, tokens
from crib.intake.questions.values import UNITS
from crib.intake.questions.vocabulary import free_options, labels, tells

_CLOSED = r"(?:closed|blind|stopped|shut)"
_BOTH = (rf"{_CLOSED}(?: off)?(?: at| on)?(?: the)? (?:both|two|2(?![-/.,]?\d))(?: ends?)?|"
         rf"(?:both|two|2) ends?(?: are)? {_CLOSED}|(?:both|two|2) {_CLOSED} ends?|ends? closed|"
         r"ends are closed|closed ends")
_PLAINLY_BOTH = rf"(?:both|two|2) ends?(?: are)? {_CLOSED}"
_NO_SIZE = r"(?![-/.,]?\d)"
_ONE = (rf"(?:{_CLOSED}|open)(?: at| on)(?: the)? (?:one|1){_NO_SIZE}(?: ends?)?(?: only)?|"
        rf"(?:{_CLOSED}|open)(?: the)? (?:one|1)(?: ends?(?: only)?| only|(?=\s*(?:[,;]|$)))|"
        rf"(?<![-/.\d])(?:one|1)(?: end)?(?: is)? (?:{_CLOSED}|open)(?: end)?|ends? (?:one|1){_NO_SIZE}")
_OPEN = (r"open(?: at| on)? (?:both|two|2)(?: ends?)?|(?:both|two|2) ends?(?: are)? open|open ended|open ends?|"
         r"ends? open|(?:right|clean|straight|all the way) (?:through|thru|across)|end to end")
_THROUGH = r"(?:going |goes |right |clean |all the way |drilled |through )?(?:through|thru)(?: yes)?"
_UNIT = r"(?: ?(?:mm|in|inch|inches|\"))?"

_HARDNESS = (r"(?:hardness(?: of)? )?(\d+(?:\.\d+)? ?(?:hrc|rc|rockwell(?: c)?|hbw?|bhn|brinell))|"
             r"((?:hrc|rc|rockwell c?|bhn|hbw?|brinell) ?\d+(?:\.\d+)?)|hardness(?: of)? (\d+(?:\.\d+)?)")
_HARDENED = r"(?:case |through )?hardened(?: and tempered)?(?: to)?"
"""What says no more than a figure beside it does."""

_TEMPER = (r"(?:hardness )?(hardened and tempered|case hardened|pre ?hard(?:ened)?|annealed|hardened|normali[sz]ed|"
           r"half hard|as cast|as rolled)")
_HOURS = (r"(?:with )?(\d+(?:[.,]\d+)?) ?(?:hours?|hrs?)(?: of)?(?: work)?(?: already)?(?: (?:in|into|on)"
          r"(?: it| the part| this| that| already)?)?(?: so far| already)?|hours (\d+(?:[.,]\d+)?)")
_COUNT = (r"\((\d{1,3})\)|(\d{1,3}) (?:of (?:them|these|those)|off|pcs|pieces?|pc|places|plcs|times|each|ea|"
          r"(?:long |short |outside |sharp )?edges)|"
          r"(?:qty|quantity|count)\.? ?(?:of )?[:=]? ?(\d{1,3})|x(\d{1,3}) ?(?:off)?$|(\d{1,3}) ?x(?= ?[‖a-z])|"
          r"make (\d{1,3})$|(\d{1,2}) of(?= (?:#?\d+(?:/\d+)?-\d|m\d))")
_AS = rf"(?:half|twice|double|{FIGURE}) as (?:deep|wide|long|high|thick|big|large|much)(?: as \w+)?"
_COUNTING = ("(", " edges", " of ", " off", "pc", "piece", "place", "plcs", "times", "qty", "quantity", "count", "each",
             " ea", "make ", f"x {KIND}", f"x{KIND}")
_HOLES = (r"(?<![\w/.,-])(\d{1,2})(?: ?x(?= #?\d))? (?=(?:tapped |drilled |reamed |threaded |bored |clearance |bolt |"
          r"#?m?[\d./]+[\dx./-]* )*(holes|screws|bolts)\b)")
_TIMES = rf"(\d{{1,2}}) ?x (?=(#?m?\d+(?:/\d+|[.,]\d+)?{_UNIT}) {KIND})"
"""How many of one size: `4 x 1/4 holes`."""

_WALL = (rf"(?:with )?(?:an? )?(?:wall|boss|lug|clamp|rib|ear)s? (?:(?P<first>[^\s@]+@[^\s]+)|"
         rf"(?P<high>(?:{FIGURE}){_UNIT}) (?:high|tall|up)(?:,| and)? ?(?:standing |stands )?"
         rf"(?:at )?(?P<away>(?:{FIGURE}){_UNIT}) "
         r"(?:away|off|beside it|from (?:it|the (?:centre|center|middle|wall|slot)(?: ?line)?)))")
_CLAUSE = r"(?=\s*(?:[,;]|$))"
_USE = rf"(?:to be )?used? (?:is |as |for |on |in |it for )*(?P<use>[^,;]+?){_CLAUSE}"
_MATES = (rf"(?:(?:its )?mating part(?: is)?|mating|mates with|goes with|to go with|to mate with)"
          rf"(?: an?| the)? (?P<mate>[^,;]+?){_CLAUSE}")
_FOR = (rf"(?<![\w/.-])for (?:an?|the|my|our|some|his|her) (?P<use>[a-z][a-z' ]*?)(?=\s*"
        rf"(?:[,;.?{GAP}{KIND}]|$|\b(?:in|out|made|with|on|and|from|by|of)\b|(?<![a-z])\d))")
_ANYTHING = r"(?:[:=] (?P<said>[^,;]+)| (?P<it>yes|no|none|[^,;]*\d[^,;]*))(?=[,;]|$)"
_IN_WORDS = ("in", "of", "from", "out", "material", "made", "a", "some", "my", "the", "piece", "bit", "lump", "on")
_SIZE_AHEAD = rf"\d ?(?:{'|'.join(map(re.escape, UNITS))})? ?$"
"""A size before a word that names one: the `1 inch` of a `1 inch bar 4140`, of which only the 4140 is the metal."""

_LONGEST = 5
_GRADE = (r"(?:\bin|\bout of|\bfrom|\bmade of|\b(?:bar|piece|lump|block|plate|bit) of) (\d{3,5})(?![\w./-])")
_AHEAD, _BEHIND = ("", ",", ";", "(", GAP, KIND), ("", ",", ";", ")", ".", "?", GAP, KIND)


def phrases(sheet: Sheet, kind: FeatureKind, is_plural: bool) -> None:
    """Read all of it off the sheet."""
    fits(sheet, kind)
    _options(sheet, kind)
    _clauses(sheet)
    _counts(sheet, kind, is_plural)
    _walls(sheet)
    _materials(sheet, kind)
    _first(sheet, ("hrc", "rc", "hb", "bhn", "brinell", "rockwell", "hardness"), _HARDNESS, "hardness")
    if "hardness" in sheet.texts:
        sheet.take(_HARDENED)
    _first(sheet, ("hard", "anneal", "normal", "as cast", "as rolled"), _TEMPER, "hardness")
    _first(sheet, ("hour", "hr"), _HOURS, "hours")
    if " as " in sheet.low and (found := sheet.take(_AS)):
        sheet.ask(f"{found[0]}: how much is that?", found[0], "the size itself")
    stock(sheet, kind)
    _ends(sheet, kind)
    _told_by_a_word(sheet, kind)


def _told_by_a_word(sheet: Sheet, kind: FeatureKind) -> None:
    """Words that give an option its text; those that also name a size stay for it."""
    heard = ""
    for words, (key, text) in tells(kind.name).items():
        if words in heard:
            continue
        if words in sheet.before and re.search(rf"(?<![a-z]){re.escape(words)}(?![a-z])", sheet.before):
            if words not in labels(kind.name):
                sheet.take(re.escape(words))
            sheet.put(key, text)
            heard += f"{words};"


def _first(sheet: Sheet, words: tuple[str, ...], pattern: str, key: str) -> None:
    """Put what a pattern finds, if any of its words stands in the line."""
    if any(word in sheet.low for word in words) and (found := sheet.take(pattern)):
        at = next(at for at in range(1, 9) if found[at])
        sheet.put(key, sheet.line[found.start(at):found.end(at)])


def _options(sheet: Sheet, kind: FeatureKind) -> None:
    """An option by its name, with the rest of its clause, where it can be told anything."""
    for key in free_options(kind):
        name = key.replace("_", " ")
        found = re.search(rf"(?:^|[,;] ?){name}{_ANYTHING}", sheet.low) if name in sheet.low else None
        if found:
            start, end = found.span("said" if found["said"] else "it")
            sheet.put(key, sheet.line[start:end])
            sheet.blank(sheet.low.index(name, found.start()), end)


def _clauses(sheet: Sheet) -> None:
    """What is told with its name in front: the rest of its clause."""
    for key, words in (("material", ("material",)), ("use", ("use",)), ("mating", ("mat", "goes with", "go with"))):
        if not any(word in sheet.low for word in words):
            continue
        pattern = {"use": _USE, "mating": _MATES}.get(key, rf"material(?: is)?[:=]? (?P<it>[^,;]+?){_CLAUSE}")
        if found := sheet.find(pattern):
            start, end = found.span(found.lastgroup or 0)
            if key == "material":
                end = _of_the_metal(sheet.line, start, end)
            if key != "material" or is_named(sheet.line[start:end]) or not re.search(r"\d ?(?:[a-z]+ )?[a-z]*$",
                                                                                    sheet.low[start:end]):
                sheet.put(key, sheet.line[start:end])
                sheet.blank(found.start(), end)


def _of_the_metal(line: str, start: int, end: int) -> int:
    """Where the words of a metal end: before what else its clause says, as `brass ends closed`."""
    if is_named(line[start:end]):
        return end
    ends = [found.start() for found in re.finditer(r" ", line[start:end])]
    return next((start + one for one in reversed(ends) if is_named(line[start:start + one])), end)


def _counts(sheet: Sheet, kind: FeatureKind, is_plural: bool) -> None:
    """How many are to be made."""
    may_be = "x" in sheet.low[-5:] or any(word in sheet.low for word in _COUNTING)
    if may_be and (found := sheet.take(_COUNT)):
        sheet.put(kind.speech.counts, next(text for text in found.groups() if text))
        return
    if is_plural and (found := re.match(_TIMES, sheet.low)):
        sheet.put(kind.speech.counts, found[1])
        sheet.blank(*found.span())
        if not any(one.key == "diameter" for one in kind.sizes) and found[2][0] != "m":
            sheet.ask(f"{found[0]}{found[2]}: how many are they, or how long?", found[0].strip(),
                      f"{found[1]} pcs {found[2]}, or {found[1]} long")
        return
    counted = kind.speech.counts != "count" and re.search(_HOLES, sheet.low)
    if counted:
        sheet.put(kind.speech.counts, counted[1])
        sheet.blank(*counted.span(1))
        if counted[2] not in labels(kind.name) and counted[2][:-1] not in labels(kind.name):
            sheet.blank(*counted.span(2))
        return
    several = is_plural or (kind.speech.counts != "count" and sheet.name.endswith("s"))
    if several and (found := re.search(rf"(?<![\w/.,-])(\d{{1,2}}) (?={KIND})", sheet.low)):
        sheet.put(kind.speech.counts, found[1])
        sheet.blank(*found.span(1))


def _walls(sheet: Sheet) -> None:
    """Walls that stand beside it."""
    if "@" not in sheet.low and not (" high" in sheet.low or " tall" in sheet.low or " up" in sheet.low):
        return
    walls = []
    while found := sheet.take(_WALL):
        walls.append(found["first"] or f"{found['high']}@{found['away']}".replace(" ", ""))
    if walls:
        sheet.put("wall", ",".join(one.rstrip(",") for one in walls))


def _ends(sheet: Sheet, kind: FeatureKind) -> None:
    """Open and closed ends, holes that go through."""
    low = sheet.low
    can_go_through = any(one.key == "through" for one in kind.options)
    if "clos" in low or "blind" in low or "stopped" in low or "open" in low or "end" in low or "across" in low:
        for text, pattern in (("closed", _PLAINLY_BOTH), ("one", _ONE), ("closed", _BOTH), ("open", _OPEN)):
            if not (can_go_through and len(kind.ends) == 1) and sheet.take(pattern):
                sheet.put("ends", text)
                return
        if found := sheet.take(rf"(?:not (?:through|thru)|{_not_of_a_size(kind)}{_CLOSED})"):
            _blind(sheet, kind, found[0], can_go_through)
            return
    if ("through" in low or "thru" in low) and (can_go_through or len(kind.ends) > 1):
        if sheet.take(r"not (?:through|thru)"):
            return
        if sheet.take(_THROUGH):
            sheet.put(*(("through", "yes") if can_go_through else ("ends", "open")))


def _not_of_a_size(kind: FeatureKind) -> str:
    """That it isn't part of what names a size: `corners at the closed end`."""
    return "".join(f"(?<!{re.escape(said[:found.start()])})" for said in labels(kind.name)
                   if (found := re.search(_CLOSED, said)))


def _blind(sheet: Sheet, kind: FeatureKind, word: str, can_go_through: bool) -> None:
    """An end, or the bottom, that is closed, where it isn't said which."""
    shut = [end for end in kind.ends if end != "open"]
    if can_go_through or (not shut and any(one.key == "diameter" for one in kind.sizes)):
        return
    if len(shut) == 1:
        sheet.put("ends", shut[0])
        return
    sheet.ask(f"{word}: at one end, or at both?", word, f"{word} at one end, or {word} at both ends")


def _materials(sheet: Sheet, kind: FeatureKind) -> None:
    """The metal: the longest of what names one. A grade that is nothing but a figure waits until the sizes are read."""
    if "material" in sheet.texts:
        return
    found = material_at(sheet, tokens(sheet.low)) or _grade_at(sheet, kind)
    if found is None:
        return
    start, end = found
    sheet.put("material", sheet.line[start:end])
    _with_what_leads(sheet, start, end)


def _grade_at(sheet: Sheet, kind: FeatureKind) -> tuple[int, int] | None:
    """Where a grade that is a bare figure stands behind what leads to a material, and nothing makes a size of it."""
    for found in re.finditer(_GRADE, sheet.low) if any(word in sheet.low for word in (" in ", "of ", "from ")) else ():
        behind = re.match(r" ?([a-z]+|\")?", sheet.low[found.end() :])
        word = (behind[1] or "") if behind else ""
        if is_grade(found[1]) and word not in UNITS and word not in labels(kind.name):
            return found.span(1)
    return None


def _with_what_leads(sheet: Sheet, start: int, end: int) -> None:
    """Take a material away with the words that lead to it: `out of a piece of`."""
    pieces = [one for one in tokens(sheet.low) if one.end <= start]
    while pieces and pieces[-1].text in _IN_WORDS:
        start = pieces.pop().start
    sheet.blank(start, end)


def material_at(sheet: Sheet, pieces: list[Token]) -> tuple[int, int] | None:
    """Where a material is named by more than a figure."""
    for place in range(len(pieces)):
        for many in range(min(_LONGEST, len(pieces) - place), 0, -1):
            words = pieces[place : place + many]
            if _may_name(sheet, words) and is_named(sheet.line[words[0].start : words[-1].end].replace("_", " ")):
                return words[0].start, words[-1].end
    return None


def _may_name(sheet: Sheet, words: list[Token]) -> bool:
    """Whether pieces can be a material's: letters among them, one figure at the most, no size, and whole words."""
    first, last = words[0], words[-1]
    if not first.text[0].isalnum() or not last.text[-1].isalnum():
        return False
    before, behind = sheet.low[first.start - 1 : first.start], sheet.low[last.end : last.end + 1]
    if before.strip() not in _AHEAD or behind.strip() not in _BEHIND:
        return False
    text = sheet.low[first.start : last.end]
    if first.text in labels(sheet.kind) and len(words) > 1 and re.search(_SIZE_AHEAD, sheet.low[:first.start]):
        return False
    if any(sign in text for sign in ",;()¦‖@+=") or not any(sign.isalpha() for sign in text):
        return False
    apart = text.split()
    figures = [word for word in apart if word.isdigit()]
    if len(figures) > 1 or any(re.fullmatch(r"[#\d]*[./]\d+.*|\d+-\d+/\d+", word) for word in apart):
        return text in ("18/8",)
    if figures and any(len(word) == 1 and word.isalpha() for word in apart):
        return False
    if apart[0] in ("a", "an", "the", "in", "of", "on"):
        return False
    return not (text in ("pc", "ms", "pe", "pp") and re.search(r"\d\s*$", sheet.low[: first.start]))


def is_grade(text: str) -> bool:
    """Whether a bare figure is a grade.

    >>> is_grade("1018"), is_grade("12")
    (True, False)
    """
    return text.isdigit() and len(text) > 2 and is_named(text)


def uses(sheet: Sheet, kind: FeatureKind) -> None:
    """What it is for, if that is said plainly: it may be something that isn't made at a bench."""
    if "use" in sheet.texts or "for " not in sheet.low:
        return
    known = {word for said in labels(kind.name) for word in said.split()} | {"number", "no"}
    for found in re.finditer(_FOR, sheet.low):
        words = found["use"].split()
        if words and not known & {*words, *(word.removesuffix("s") for word in words)}:
            sheet.put("use", sheet.line[found.start("use"):found.end("use")])
            sheet.blank(*found.span())
            return
