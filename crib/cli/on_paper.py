"""The files that an answer is also written to: the set-up sheet, the picture."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from pathlib import Path

    from crib.app.asking import Reply


@dataclass(frozen=True)
class Files:
    """Where the set-up sheet and the picture go; None where they aren't wanted. `over`: what is there may go."""

    sheet: Path | None = None
    picture: Path | None = None
    over: bool = False

    def check(self) -> None:
        """Before anything is reckoned, whether the files can be written. Raises `CribError` for a name that doesn't
        say what it is, a folder that isn't there, a file that is."""
        for path, endings in ((self.sheet, (".html", ".htm")), (self.picture, (".svg",))):
            if path is None:
                continue
            if path.suffix.lower() not in endings:
                raise CribError("file", f"{path.name!r} isn't named {endings[0]}", str(path),
                                f"--{'sheet slide' if '.html' in endings else 'picture slide'}{endings[0]}")
            if not path.parent.is_dir():
                raise CribError("file", f"there is no folder {path.parent}", str(path.parent),
                                "a folder that is there, or make it first")
            if path.exists() and path.is_file() and not self.over:
                raise CribError("file", f"{path} is there already", str(path), "another name, or --over")

    def write(self, reply: Reply) -> None:
        """Write them, and say so; where there is no plan, that there is nothing to write. Raises `CribError` where a
        file can't be written."""
        if self.sheet is None and self.picture is None:
            return
        from crib.app.export import write
        from crib.cli import out
        from crib.render.html.setup_sheet import picture_svg, sheet_html

        for path, what, made in ((self.sheet, "set-up sheet", sheet_html), (self.picture, "picture", picture_svg)):
            if path is None:
                continue
            text = made(reply.found)
            if text is None:
                out.note(f"crib: no {what} was written: there is no plan to set up")
                continue
            write(path, text, self.over)
            out.note(f"{what} written to {path}")


NONE = Files()
"""Nothing but the answer."""
