"""Errors for people: what was read, what is wrong with it, what would be right."""

from __future__ import annotations

from crib.findings.finding import Finding, Grade
from crib.findings.message import Text


class CribError(Exception):
    """Work can't go on; carries the one `Finding` that says why: what is wrong, with the bad value in it, the text as
    it was read, and what would be right. It is worded where it is shown."""

    def __init__(self, code: str, what: Text, read: Text = "", help: Text = "") -> None:
        super().__init__(what)
        self.finding = failure(code, what, read, help)

    @staticmethod
    def of(finding: Finding) -> CribError:
        """The same finding, raised."""
        error = CribError(finding.id, finding.says, finding.read, finding.fix or "")
        error.finding = finding
        return error


def failure(id: str, says: Text, read: Text = "", fix: Text = "") -> Finding:
    """Why a request couldn't be carried out: what is wrong, the text as it was read, what would be right."""
    return Finding(id, Grade.ERROR, says, "", fix=fix, read=read)


def wrong(says: Text, read: Text, fix: Text) -> Finding:
    """Something that can't be true of a cutter."""
    return failure("impossible", says, read, fix)
