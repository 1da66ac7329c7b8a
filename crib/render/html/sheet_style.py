"""How a set-up sheet looks: on Letter and A4 in black and white, on a screen by day and by night, on a phone."""

from __future__ import annotations

ROOT = "sheet"
"""The class of the element that a sheet stands in; its rules reach nothing outside of it."""

_PAPERS = {"letter": "letter", "a4": "A4"}

PAGE = """:root{color-scheme:light dark}
body{color:CanvasText;background:Canvas;max-width:62em;margin:auto;padding:12px}
@media print{:root{color-scheme:light}body{color:#000;background:#fff;max-width:none;padding:0}}
"""
"""For a page that is nothing but a sheet."""

_ALWAYS = """
{font:18px/1.4 sans-serif;overflow-wrap:anywhere;font-variant-numeric:tabular-nums;font-variant-ligatures:none}
*{box-sizing:border-box}
h1{font-size:1.5em;margin:0}
h1::first-letter{text-transform:uppercase}
h2{font-size:1.15em;margin:1.4em 0 .4em;border-bottom:2px solid;break-after:avoid}
h3{font-size:1em;margin:0 0 .3em}
p,ul,dl,figure{margin:.3em 0}
ul{padding:0;list-style:none}
.answer{font-weight:bold}
.blanks{display:flex;flex-wrap:wrap;gap:.3em 1.5em}
.blank{display:flex;flex:1 1 9em;gap:.4em}
.blank .write{flex:1}
dl>div{display:flex;gap:.6em}
dt{flex:none;min-width:4.2em}
dd{margin:0}
.step dl{display:flex;flex-wrap:wrap;gap:.1em 1.4em}
.step dt{min-width:0;font-weight:bold}
label{display:block}
input{width:1.1em;height:1.1em;margin:.15em .6em 0 0;flex:none;font-size:1em;vertical-align:-.15em}
.write{display:inline-block;min-width:4.5em;border-bottom:1.5px solid;height:1.2em;vertical-align:-.1em}
.tasks label,.ticked label{display:flex;padding:.3em 0;break-inside:avoid}
.tasks>li{display:flow-root;border-bottom:1px solid #8886}
.do{flex:1;min-width:0}
.no{min-width:1.7em}
.what{margin-right:.5em}
.no+.do>.what{display:inline-block;min-width:4.5em}
.set{display:inline-block;margin-right:1em;min-width:9.5em}
.set b{font-size:1.2em}
.dial{font-size:.85em}
.feed{font-size:1.3em;font-weight:bold;line-height:1}
.each{display:flex;flex-wrap:wrap;gap:0 1.2em;margin-left:3.4em}
.note{display:block;font-size:.88em;margin:.1em 0}
.reads b{font-size:1.1em}
.card{break-inside:avoid;border:1.5px solid;padding:.5em;margin:.5em 0;overflow:hidden}
.card .tasks>li:last-child{border:0}
figure,svg,.step dl{break-inside:avoid}
svg{max-width:100%;height:auto;display:block}
.ready ul{display:flex;flex-wrap:wrap;gap:0 1.5em}
.beyond{border:3px double;padding:0 .6em .4em}
.mind li,.beyond li,.always li,.why li{margin:.2em 0 .2em 1.2em;list-style:disc}
.always,.why{font-size:.8em}
"""

_WIDE = """
.step>figure,.card>figure{float:right;margin:0 0 .5em 1em;max-width:45%}
.step{overflow:hidden}
.pictures{display:flex;flex-wrap:wrap;gap:1em;align-items:flex-start}
"""

_PRINTED = """
{font-size:10.5pt}
.step>figure,.card>figure{float:right;margin:0 0 1mm 4mm;max-width:70mm}
.step{overflow:visible;clear:both}
.short{break-inside:avoid}
.pictures{display:block}
h2{margin-top:4mm}
.tasks label,.ticked label{padding:.8mm 0}
"""


def page_size(paper: str) -> str:
    """The size of the printed page.

    >>> page_size("a4")
    '@page{size:A4;margin:12mm}'
    """
    return f"@page{{size:{_PAPERS[paper]};margin:12mm}}"


def within(rules: str) -> str:
    """Rules, a line each, that hold inside the sheet alone.

    >>> within("{margin:0}\\na,b{color:red}")
    '.sheet{margin:0}.sheet a,.sheet b{color:red}'
    """
    found = (line.partition("{") for line in rules.strip().splitlines())
    return "".join(",".join(f".{ROOT} {one}".rstrip() for one in selectors.split(",")) + "{" + rest
                   for selectors, _, rest in found)


STYLE = f"{within(_ALWAYS)}@media (min-width:640px){{{within(_WIDE)}}}@media print{{{within(_PRINTED)}}}"
"""The sheet's own rules."""
