"""How the sheet of a whole part looks beyond what every sheet has: the first page on one look."""

from __future__ import annotations

from crib.render.html.sheet_style import within

_ALWAYS = """
.look h2{margin:.8em 0 .3em}
.cards{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,15em),1fr));gap:.8em}
.setup{border:1.5px solid;padding:.5em;break-inside:avoid;min-width:0}
.setup figure{margin:0 0 .4em}
.setup svg{margin:auto}
.setup dt{min-width:3em}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;padding:.15em .6em .15em 0;vertical-align:baseline;border-bottom:1px solid #8886}
td label{padding:.6em 0 .6em 1.7em;text-indent:-1.7em;min-height:45px}
.right{text-align:right;padding-right:0}
.first td{border-top:1.5px solid}
.operation,.part,.part>.step{clear:both}
.operation h3{margin:1.2em 0 .3em;padding-top:.3em;border-top:1px solid;font-size:1.1em;break-after:avoid}
.step h3,.step h4{font-size:1em;margin:.8em 0 .2em;break-after:avoid;border:0;padding:0}
.done{border:1.5px solid;border-radius:1em;padding:0 .5em;font-weight:normal}
"""

_NARROW = """
table,tbody,tr,td{display:block}
thead{position:absolute;left:-99em}
tr{padding:.4em 0;border-bottom:1px solid #8886}
td{border:0;padding:0}
.first td{border:0}
td:first-child:not(:empty)::before{content:"set-up "}
.right{text-align:left}
.right::after{content:" min"}
"""

_PRINTED = """
.look{break-after:page}
.look h1{font-size:15pt}
.look h2{margin:1.5mm 0 .5mm;font-size:10.5pt;border-width:1.5px}
.look dl,.look table,.look ul{font-size:9pt;line-height:1.2}
.look header h1,.look header .answer{display:inline-block;margin:0 6mm 0 0}
.look header dl{display:flex;flex-wrap:wrap;gap:0 6mm}
.look header dt{min-width:0;font-weight:bold}
.look td,.look th{padding:.25mm 2mm .25mm 0}
.look input{width:3mm;height:3mm;margin-top:0}
.look .setup{padding:1mm 1.5mm}
.look .setup h3{font-size:9.5pt;margin:0}
.look .setup figure{margin:0}
.look .setup dl{font-size:8pt}
.look .beyond{padding:0 2mm .5mm;border-width:2px;margin:1mm 0}
.look .beyond h2,.look .mind h2{font-size:9pt;margin:.5mm 0 0;border:0}
.look .beyond li,.look .mind li{margin:0 0 0 4mm}
.look .mind ul{columns:2;column-gap:6mm}
.look .blanks{margin:1mm 0;font-size:9pt}
.look .ticked label{padding:0}
.look .cards{grid-template-columns:repeat(auto-fit,minmax(54mm,1fr));gap:2mm}
tr{break-inside:avoid}
td label{padding:0 0 0 1.7em;min-height:0}
"""

PART = (f"{within(_ALWAYS)}@media screen and (max-width:560px){{{within(_NARROW)}}}"
        f"@media print{{{within(_PRINTED)}}}")
"""The rules."""
