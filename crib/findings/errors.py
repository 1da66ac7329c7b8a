"""Errors for people: what was read, what is wrong with it, what would be right."""

from __future__ import annotations

from crib.records import dataclass


@dataclass(frozen=True)
class Diagnostic:
    """One thing that is wrong.

    `what` says what is wrong and names the bad value, `read` is the text as it was read, `help` says what would be
    right. `code` is a short stable name for programs.
    """

    code: str
    what: str
    read: str
    help: str

    def as_json(self) -> dict[str, str]:
        """The shape that `--json` prints under `error`."""
        return {"what": self.what, "read": self.read, "help": self.help, "code": self.code}


class CribError(Exception):
    """Work can't go on; carries the one `Diagnostic` that says why."""

    def __init__(self, code: str, what: str, read: str = "", help: str = "") -> None:
        super().__init__(what)
        self.diagnostic = Diagnostic(code, what, read, help)
