"""Words are wrapped as the library that is long in loading wraps them."""

from __future__ import annotations

import subprocess
import sys
import textwrap

from hypothesis import example, given
from hypothesis import strategies as st

from crib.render.text import wrap

WORDS = st.lists(st.one_of(st.sampled_from(["a", "neck", "side-step", "1-1/4", "--", "→", ".013", "well-known-", "",
                                            "\xa0", "a\tb", "x\n", "\x1f"]), st.text(max_size=5)), max_size=12)
LEADS = st.sampled_from(["", "- ", "  Note: ", "      "])


@given(WORDS.map(" ".join), st.integers(10, 30), LEADS, LEADS, st.booleans(), st.booleans())
@example("", 10, "  ", "", True, False)
@example("ab abcdefghijkl c", 7, "", "  ", True, True)
def test_it_wraps_as_the_library_does(text: str, width: int, lead: str, indent: str, at_hyphens: bool,
                                      whole: bool) -> None:
    theirs = textwrap.wrap(text, width, initial_indent=lead, subsequent_indent=indent, break_on_hyphens=at_hyphens,
                           break_long_words=not whole)
    assert wrap(text, width, lead, indent, at_hyphens, whole) == theirs


def test_plain_words_are_wrapped_without_it() -> None:
    code = ("import sys; from crib.render.text import paragraph; paragraph('look at the neck ' * 20 + 'again', 70); "
            "print('textwrap' in sys.modules)")
    assert subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout == "False\n"
