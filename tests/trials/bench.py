"""`python -m tests.trials.bench [ROUNDS]`: nonsense and sense for every address of the bench page, by several hands at
once. Nothing fails but in words, every answer is whole, and the crib is sound afterwards.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from random import Random
from urllib.parse import quote, urlencode

from crib.app import demo
from crib.app.kinds import NAMES, fields_of
from crib.features import KINDS
from crib.intake.attributes import ATTRIBUTES
from crib.intake.shop_settings import SETTINGS
from crib.store import open_crib
from crib.web.bench import Bench
from crib.web.site import _DEEDS, _PAGES
from tests.web.conftest import HOST, Browser

HANDS = 4
_PIECES = ("1/2", ".375", "10mm", "5/8+.002-0", "0", "-1", "1e9", "1/0", "#7", "M6", "1/4-20", "x", "", " ", "unknown",
           "end mill", "keyseat cutter", "drill", "dull", "lent to bob", "back", "undo", "same as last but 1/4", "B2",
           "yes", "no", "closed", "60", "grey iron", "<b>", "\"'", "\x00", "\u202e", "👩‍🔧", "é" * 40, "9" * 40,
           "; DROP TABLE", "--drawer", "{{ 1 }}", "%s", "\r\n", "\ufffd")
_FORMS = ("line", "talk", "drawer", "words", "since", "number", "change", "text", "box", "before", "place", "thread",
          "depth", "price", "uses", "budget", "most", "who", "news", "said", "quietly", "line_no", "relax")


def run(rounds: int, seed: int = 0) -> tuple[Counter[int], list[str]]:
    """So many requests; how often each status came, and what went wrong."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "crib.db"
        demo.copy(place)
        bench = Bench(str(place), hosts=frozenset({HOST}), address=f"http://{HOST}/")
        counts: Counter[int] = Counter()
        bad: list[str] = []
        with ThreadPoolExecutor(HANDS) as hands:
            for found, wrong in hands.map(lambda hand: _asked(bench, rounds // HANDS, seed + hand), range(HANDS)):
                counts += found
                bad += wrong
        with open_crib(str(place)) as crib:
            for cutter in crib.find(()).cutters:
                assert crib.cutter(cutter.id) == cutter
        return counts, bad


def _asked(bench: Bench, rounds: int, seed: int) -> tuple[Counter[int], list[str]]:
    browser, chance = Browser(bench), Random(seed)
    counts: Counter[int] = Counter()
    bad = []
    for _ in range(rounds):
        kind = chance.choice(NAMES)
        path, typed = chance.choice([*_PAGES, *_DEEDS]), _typed(chance, kind)
        deed = path in _DEEDS and (path not in _PAGES or chance.random() < 0.5)
        number = str(chance.choice((1, 10, 12, 27, 74, 9999, "x")))
        path = path.replace("{kind}", chance.choice((kind, kind, kind, quote(chance.choice(_PIECES) or "x", safe=""))))
        path = path.replace("{number}", number)
        came = browser.post(path, typed, follow=False) if deed else browser.get(f"{path}?{urlencode(typed)}")
        counts[came.status] += 1
        whole = came.text.rstrip().endswith(("</html>", "}", ">")) or came.status in (303, 401, 403, 413, 421)
        if came.status >= 500 or not whole:
            bad.append(f"{'POST' if deed else 'GET'} {path} {typed!r}: {came.status} {came.text[-300:]}")
    return counts, bad


def _typed(chance: Random, kind: str) -> dict[str, str]:
    """What may stand in a form: mostly of one sort, so that some of it can be read."""
    asked = [one.key for one in fields_of(kind)]
    keys = chance.choice((asked, asked, list(ATTRIBUTES), list(SETTINGS), list(_FORMS), list(_FORMS)))
    typed = {key: " ".join(chance.choices(_PIECES, k=chance.choice((1, 1, 1, 2)))) for key in
             chance.sample(keys, k=min(len(keys), chance.randrange(7)))}
    return {**typed, **KINDS[kind].example} if keys is asked and chance.random() < 0.5 else typed


if __name__ == "__main__":
    came, wrong = run(int(sys.argv[1]) if sys.argv[1:] else 4000)
    print(dict(came))
    print("\n".join(wrong) or "nothing went wrong")
    sys.exit(bool(wrong))
