"""Errors for people: what was read, what is wrong with it, what would be right."""

from __future__ import annotations

from crib.findings.finding import Finding, Grade
from crib.findings.message import Text


class CribError(Exception):
    """Work can't go on; carries the one `Finding` that says why: what is wrong, with the bad value in it, the text as
    it was read, and what would be right. It is worded where it is shown."""

    def __init__(self, code: str, what: Text, read: str = "", help: Text = "") -> None:
        super().__init__(what)
        self.finding = Finding(code, Grade.ERROR, what, "", fix=help, read=read)

    @staticmethod
    def of(finding: Finding) -> CribError:
        """The same finding, raised."""
        error = CribError(finding.id, finding.says, finding.read, finding.fix or "")
        error.finding = finding
        return error


def wrong(says: Text, read: str, fix: Text, id: str = "impossible") -> Finding:
    """Something that can't be true of what was typed."""
    return Finding(id, Grade.ERROR, says, "", fix=fix, read=read)
