"""All that can be found, as it is said, written into `crib/findings/CATALOGUE.md`: `python -m tests.docs.findings`
writes it anew, from the source: each place where an id stands beside a template."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from crib.findings.finding import Grade
from crib.rules.catalogue import BY_ID, EFFECTS, Effect

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "crib" / "findings" / "CATALOGUE.md"
ID = re.compile(r"(?:AU\d{1,2}|[A-Z]{2}\d|G\d{1,2})")
ERRORS = {"CribError": 0, "failure": 0}
"""What is called with the id of an error, and where that stands."""

PLACE = {"Finding": 1, "fault": 1}
"""At which place behind the id the sentence stands; at the first otherwise."""

SOURCED = ("Finding", "off_drawing")
"""What has a source behind its sentence, and not what would do."""


@dataclass(frozen=True)
class Template:
    """What is said at one place: of which id, how grave (none where that is worked out there), with what would do."""

    id: str
    grade: str
    says: str
    fix: str
    place: str


@cache
def templates() -> tuple[Template, ...]:
    """Every template that stands beside an id, by ids; the source is gone through once."""
    found = [one for path in sorted((ROOT / "crib").rglob("*.py")) if path.name != "catalogue.py"
             for one in _in_file(path)]
    return tuple(sorted(set(found), key=lambda one: (_sort(one.id), one.says, one.place, one.fix, one.grade)))


def _sort(id: str) -> tuple[int, str, int]:
    """Rules first, then what is wrong in a crib, then errors of input."""
    letters = id.rstrip("0123456789")
    number = id.removeprefix(letters)
    return 0 if id in BY_ID else 1 if number else 2, letters, int(number or 0)


def _in_file(path: Path) -> Iterator[Template]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    place = path.relative_to(ROOT / "crib").as_posix()
    for scope, calls in _scopes(tree):
        known = list(_assigned(scope, None))
        for call in calls:
            yield from _of_call(call, _nearest(known, call.lineno), place)


def _scopes(tree: ast.Module) -> Iterator[tuple[ast.AST, list[ast.Call]]]:
    """Each function with all that is called in it, and the file with what is called in none: gone through once."""
    found: dict[ast.AST, list[ast.Call]] = {tree: []}
    waiting: list[tuple[ast.AST, tuple[ast.AST, ...]]] = [(tree, ())]
    while waiting:
        node, within = waiting.pop()
        if isinstance(node, ast.FunctionDef):
            within, found[node] = (*within, node), []
        elif isinstance(node, ast.Call):
            for scope in within or (tree,):
                found[scope].append(node)
        waiting += [(child, within) for child in ast.iter_child_nodes(node)]
    yield from found.items()


def _assigned(scope: ast.AST, branch: ast.AST | None) -> Iterator[tuple[str, ast.expr, ast.AST | None]]:
    """What names stand for in a function, each with the `if` in one of whose branches that is said."""
    for node in _statements(scope):
        if isinstance(node, ast.Assign):
            for target in node.targets:
                yield from ((name, value, branch) for name, value in _bound(target, node.value))
        if isinstance(node, ast.For) and isinstance(node.iter, ast.Tuple):
            for one in node.iter.elts:
                yield from ((name, value, node) for name, value in _bound(node.target, one))
        yield from _assigned(node, node if isinstance(node, ast.If) else branch)


def _statements(node: ast.AST) -> Iterator[ast.AST]:
    """What stands in the blocks of a statement, in order; in an expression there is none."""
    for block in ("body", "handlers", "cases", "orelse", "finalbody"):
        inside = getattr(node, block, ())
        yield from inside if isinstance(inside, list) else ()


def _bound(target: ast.expr, value: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(target, ast.Name):
        yield target.id, value
    elif isinstance(value, ast.IfExp):
        yield from (*_bound(target, value.body), *_bound(target, value.orelse))
    elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple) and len(target.elts) == len(value.elts):
        for one, inner in zip(target.elts, value.elts, strict=True):
            yield from _bound(one, inner)


def _nearest(known: Sequence[tuple[str, ast.expr, ast.AST | None]], line: int) -> Mapping[str, list[ast.expr]]:
    """What names stand for at a line: what was said last before it, in any branch of the same `if`."""
    found: dict[str, list[ast.expr]] = {}
    for name in {name for name, *_ in known}:
        before = [(value, branch) for each, value, branch in known if each == name and value.lineno <= line]
        if before:
            last, branch = before[-1]
            found[name] = [value for value, other in before if other is branch and (
                branch is not None or value.lineno == last.lineno)]
    return found


def _of_call(call: ast.Call, within: Mapping[str, list[ast.expr]], place: str) -> Iterator[Template]:
    ids, rest = _id_of(call, within)
    if not ids:
        return
    named = {word.arg: word.value for word in call.keywords}
    at = PLACE.get(_name(call), 0)
    says = _texts(named.get("says", rest[at] if len(rest) > at else None), within)
    behind = [] if _name(call) in SOURCED else [told for one in rest[at + 1:] if (told := _texts(one, within))]
    fix = _texts(named.get("fix", named.get("help")), within) or (behind[0] if behind else [])
    grades = [grade for argument in rest for grade in _grades(argument, within)]
    for number in ids:
        grade = " or ".join(dict.fromkeys(grades)) or _usual(call, number)
        for one in says:
            yield Template(number, grade, one, " / ".join(fix), place)


def _name(call: ast.Call) -> str:
    """What is called."""
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def _id_of(call: ast.Call, within: Mapping[str, list[ast.expr]]) -> tuple[list[str], list[ast.expr]]:
    """The ids that a call names, and what stands behind them."""
    name = _name(call)
    if name in ERRORS and call.args and (told := _words(call.args[0], within)):
        return told, call.args[1:3:] if len(call.args) < 4 else [call.args[1], call.args[3]]
    if name == "Finding" and call.args and (told := _words(call.args[0], within)) and not ID.fullmatch(told[0]):
        return told, call.args[1:]
    if name == "wrong":
        return ["impossible"], [call.args[0], call.args[2]]
    if name == "refuse":
        return ["feature"], [call.args[0], call.args[2]]
    if name == "Held" and len(call.args) > 3:
        return _words(call.args[3], within), [call.args[2], *call.args[4:]]
    named = {word.arg: word.value for word in call.keywords}
    if "warns" in named:
        return ["SU1"], [named["warns"]]
    if name == "_replace" and "id" in named:
        return _words(named["id"], within), []
    for at, argument in enumerate(call.args):
        if found := [word for word in _words(argument, within) if ID.fullmatch(word)]:
            return found, call.args[at + 1:]
    return [word for word in _words(named.get("rule"), within) if ID.fullmatch(word)], call.args[2:]


def _words(node: ast.expr | None, within: Mapping[str, list[ast.expr]], depth: int = 2) -> list[str]:
    """The plain words that an expression may stand for."""
    if depth == 0:
        return []
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) else []
    if isinstance(node, ast.IfExp):
        return [*_words(node.body, within, depth), *_words(node.orelse, within, depth)]
    if isinstance(node, ast.Name):
        return [word for one in within.get(node.id, ()) for word in _words(one, within, depth - 1)]
    return []


def _grades(node: ast.expr, within: Mapping[str, list[ast.expr]], depth: int = 2) -> list[str]:
    if depth == 0:
        return []
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "Grade":
        return [Grade[node.attr].value]
    if isinstance(node, ast.IfExp):
        return [*_grades(node.body, within, depth), *_grades(node.orelse, within, depth)]
    if isinstance(node, ast.Name):
        return [grade for one in within.get(node.id, ()) for grade in _grades(one, within, depth - 1)]
    return []


def _usual(call: ast.Call, number: str) -> str:
    """How grave it is where the call doesn't say: by what is called, else anything that the rule may be."""
    by_name = {"off_drawing": Grade.OUTSIDE, "fault": Grade.FAULT, "refused": Grade.REFUSES, "Limit": Grade.REFUSES}
    if _name(call) in by_name:
        return by_name[_name(call)].value
    if number not in BY_ID:
        return Grade.ERROR.value
    effects = BY_ID[number].effects
    if _name(call) != "Finding" and Effect.REFUSES in effects:
        return Grade.REFUSES.value
    return " or ".join(grade.value for grade, effect in EFFECTS.items()
                       if effect in effects and effect not in (Effect.REFUSES, Effect.OUTSIDE))


def _texts(node: ast.expr | None, within: Mapping[str, list[ast.expr]], depth: int = 3) -> list[str]:
    """The sentences that an expression may stand for, each hole by its name."""
    if node is None or depth == 0:
        return []
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) and " " in node.value else []
    if isinstance(node, ast.JoinedStr):
        return ["".join(part.value if isinstance(part, ast.Constant) else f"{{{ast.unparse(part.value)}}}"
                        for part in node.values)]
    if isinstance(node, ast.IfExp):
        return [*_texts(node.body, within, depth), *_texts(node.orelse, within, depth)]
    if isinstance(node, ast.Name):
        return [text for one in within.get(node.id, ()) for text in _texts(one, within, depth - 1)]
    if isinstance(node, ast.Call):
        name = _name(node)
        if name in ("said", "filled") and node.args:
            return _texts(node.args[0], within, depth) or _words(node.args[0], within)
        if name == "joined":
            return [text for one in ast.walk(node.args[1]) if isinstance(one, ast.expr)
                    and isinstance(one, ast.Constant | ast.Call) and one is not node for text in _texts(one, {}, depth)]
    return []


def _effect(one: Template) -> str:
    """What comes of it."""
    if one.grade == Grade.ERROR:
        return "not carried out"
    if one.grade == Grade.FAULT:
        return "told by check-up"
    grades = [Grade(grade) for grade in one.grade.split(" or ")]
    return ", ".join(dict.fromkeys(EFFECTS[grade].value for grade in grades))


def page() -> str:
    """The whole page."""
    lines = ["# What can be found, and how it is said", "",
             "Written by `python -m tests.docs.findings` from the source; don't edit it by hand. Holes in braces are",
             "filled with quantities where a sentence is shown; programs find them in `facts` by the same names.", ""]
    before = None
    for one in templates():
        if one.id != before:
            lines += [*([""] if before else []), f"## {one.id}", ""]
            if rule := BY_ID.get(one.id):
                lines += [f"{rule.check} ({rule.subject}; {rule.source})", ""]
            lines += ["| grade | what comes of it | said | what would do | place |", "| --- | --- | --- | --- | --- |"]
        cells = (one.grade, _effect(one), one.says, one.fix or "–", f"`{one.place}`")
        lines.append("| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |")
        before = one.id
    return "\n".join([*lines, ""])


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
