"""Taking cutters in line by line over a while: what a line says of the one before holds, whoever carries the lines."""

from __future__ import annotations

from collections.abc import Mapping
from threading import Lock
from typing import TYPE_CHECKING

from crib.app.take_in import session_of
from crib.light.records import dataclass, field
from crib.store import Crib

if TYPE_CHECKING:
    from crib.intake.talk.deeds import Outcome
    from crib.intake.talk.session import Session


@dataclass(eq=False)
class Talk:
    """What was said so far, oldest first, and what came of it. The crib is handed in line by line, for it isn't kept
    open in between."""

    said: list[Outcome] = field(default_factory=list)
    _session: Session | None = None
    _one_at_a_time: Lock = field(default_factory=Lock)

    def say(self, crib: Crib, text: str, number: int = 0, beside: Mapping[str, str] | None = None) -> Outcome:
        """Take in one line, or hold it back; written down before this returns. `number`: which line of the talk it is,
        where that is known: one that comes twice, as a button that is pressed twice sends it, is taken in once.
        `beside`: by field, what goes for the line besides. Raises `CribError` where it can't be kept."""
        with self._one_at_a_time:
            if 0 < number <= len(self.said) and self.said[number - 1].text == text:
                return self.said[number - 1]
            fresh = session_of(crib, texts=beside, joins=True)
            session = self._session or fresh
            session.crib, session.shop = crib, fresh.shop
            outcome = session.say(text, len(self.said) + 1)
            self._session = session
            self.said.append(outcome)
            return outcome
