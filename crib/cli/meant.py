"""What a command is called by people who don't know its name: `add`, `scrap`, `list`."""

from __future__ import annotations

_MEANT = {
    "take-in": "add new enter record import load insert register intake input put take",
    "find": "list search ls look query where have got inventory stock cutters tools all",
    "show": "view info details card display describe",
    "amend": "edit change update modify set fix correct alter",
    "now NUMBER WORDS": (
        "scrap scrapped delete remove rm del lend lent loan lost lose broke broken break snapped discard retire return "
        "sharpen sharpened regrind reground grind ground dull blunt chipped move moved found back"),
    "undo": "revert back rollback oops redo restore-last unscrap",
    "make": "cut mill machine plan can ask how slot t-slot tslot dovetail keyway step bore drill do",
    "worth": "buy purchase shopping afford need",
    "shop": "settings config configure setup preferences options machine mill spindle collets units",
    "history": "log changes audit who",
    "export": "save dump csv write download",
    "backup": "copy archive",
    "gauge": "identify name what measure unknown",
    "check-up": "check doctor lint validate problems",
    "walk-round": "count stocktake stock-take inventory-check",
    "labels": "label print sticker stickers",
    "drawer": "bin tray drawers place",
    "price": "prices cost costs quote quotes",
    "friends": "friend borrow neighbour neighbor",
    "out": "away borrowed loaned",
    "result": "results measured took timed came",
    "asked": "questions question again",
    "to-mic": "mic mike micrometer tomic",
    "restore": "recover",
    "salvage": "repair rescue damaged",
    "materials": "material metal metals alloys grades",
    "kinds": "kind features feature sorts types",
    "part": "parts job jobs",
    "completion": "complete completions autocomplete bash zsh fish powershell",
    "wish-list": "wishlist wants",
    "bench": "web serve server page browser phone",
    "demo": "example sample try tutorial",
    "tap": "thread threads tapping",
    "held-back": "errors unread failed skipped pending",
    "--help": "help man usage commands",
}
_BY_WORD: dict[str, list[str]] = {}
for _command, _words in _MEANT.items():
    for _word in _words.split():
        _BY_WORD.setdefault(_word, []).append(_command)


def other_words(said: str) -> list[str]:
    """The commands that a word may mean, as they are typed; none for one that means none.

    >>> other_words("add"), other_words("scrap"), other_words("zorp")
    (['crib take-in'], ['crib now NUMBER WORDS'], [])
    """
    return [f"crib {command}" for command in _BY_WORD.get(said.lower(), ())]


def means_another(said: str, commands: tuple[str, ...]) -> bool:
    """Whether a word means a command, and none of these; `what` asks for anything.

    >>> means_another("scrap", ("make",)), means_another("mill", ("make",)), means_another("what", ("make",))
    (True, False, False)
    """
    meant = _BY_WORD.get(said, []) if said != "what" else []
    return bool(meant) and not any(one in commands for one in meant)
