"""An address as a code that a phone reads: for a screen, and in characters for a terminal."""

from __future__ import annotations

import io


def drawn(address: str) -> str:
    """The code as a drawing, dark on light whatever the page's colours are."""
    import segno

    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="svg", xmldecl=False, svgns=True, scale=6, light="#fff",
                                                    title="the address of this page as a code")
    return out.getvalue().decode()


def in_characters(address: str) -> str:
    """The code in half blocks, with the light room that it needs round it."""
    import segno

    out = io.StringIO()
    segno.make(address, error="m", micro=False).terminal(out, compact=True)
    return out.getvalue()
