"""The metals and plastics that come to a bench, and what they ask of a milling cutter.

Speeds are for high-speed steel, side and end milling; they sit in the lower half of the published ranges, for an owner
who sharpens by hand and cuts dry or with a brush. All of it is meant to be overruled by the owner's own figures.
"""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.light.patterns import pattern
from crib.light.records import dataclass

M_PER_FT = 0.3048
"""Metres in a foot, exactly."""

PRACTICE = "common practice; inside the ranges of several public school-shop tables"
MEMORY = "from memory"

DEFAULT_MATERIAL = "mild steel"
"""What is planned for where no material is named."""


@dataclass(frozen=True)
class Material:
    """A material and the figures that milling it goes by.

    `speed_ft_min`: surface speed of a sharp HSS end mill [ft/min], `scale_ft_min` the same in a hard skin or chill.
    `feed_factor`: on the feed per tooth for low-carbon steel [-]. `bite_fraction`: depth of a full-width bite of an
    end mill, of its diameter [-]. `side_step_mm`: sideways bite of a buried disc 1/2 to 1 in across [mm].
    `centre_bite_fraction`: side bite of a disc that cuts both walls at once and can't be split, of its diameter [-].
    `ductile` is false where chips break to dust or crumbs. `fluid`: what to brush on. `usual_hrc`: the hardness that
    the figures are for, `hrc` one that it has instead [HRC]; `bite_share`: what that leaves of its bites, and
    `carbide_gain` what carbide does there beyond its share of the HSS speed [-].
    """

    name: str
    group: str
    words: tuple[str, ...]
    speed_ft_min: float
    feed_factor: float
    bite_fraction: float
    side_step_mm: float
    centre_bite_fraction: float
    ductile: bool
    fluid: str
    scale_ft_min: int | None = None
    speed_source: str = PRACTICE
    feed_source: str = MEMORY
    bite_source: str = MEMORY
    side_step_source: str = MEMORY
    fluid_source: str = "common practice"
    usual_hrc: float = 20.0
    hrc: float | None = None
    bite_share: float = 1.0
    carbide_gain: float = 1.0

    @property
    def work_hardens(self) -> bool:
        """Whether an edge that rubs instead of cutting hardens it. Common practice."""
        return self.group in ("stainless", "titanium")

    @property
    def speed_m_min(self) -> float:
        """Surface speed of a sharp HSS end mill [m/min].

        >>> find_material("grey iron").speed_m_min
        19.812
        """
        return round(self.speed_ft_min * M_PER_FT, 9)


_OIL = "sulphurised oil, by brush"
_SOFT_STEP, _STEEL_STEP = 50 * 0.0254, 30 * 0.0254
_SOFT_BITE, _STEEL_BITE = 0.15, 0.10
_LIGHT_OIL = "light oil or paraffin"

_MATERIALS: tuple[Material, ...] = (
    Material("free-machining steel", "steel", (
        "free cutting steel", "freecutting steel", "leaded steel", "screw stock", "12L14", "12L15", "1215", "1213",
        "1144", "11SMn30", "EN1A", "230M07"), 110, 1.0, 0.33, _STEEL_STEP, _STEEL_BITE, True, _OIL),
    Material("mild steel", "steel", (
        "low carbon steel", "CRS", "cold rolled steel", "cold rolled", "HRS", "hot rolled steel", "hot rolled", "BDMS",
        "bright drawn mild steel", "bright mild steel", "black mild steel", "MS", "1018", "1020", "1015", "1010", "A36",
        "S235", "S275", "S355", "S235JR", "S275JR", "S355JR", "ST37", "ST52", "structural steel", "EN3", "EN3B",
        "080A15"), 90, 1.0, 0.33, _STEEL_STEP, _STEEL_BITE, True, _OIL),
    Material("medium-carbon steel", "steel", (
        "1045", "1040", "1050 steel", "C45", "EN8", "080M40", "EN9"),
        70, 0.8, 0.25, _STEEL_STEP, _STEEL_BITE, True, _OIL),
    Material("alloy steel, annealed", "steel", (
        "alloy steel", "annealed alloy steel", "chrome moly", "chromoly", "4140", "4140 annealed", "4130", "4340",
        "8620", "42CrMo4", "EN19", "EN24", "EN36"), 70, 0.8, 0.25, _STEEL_STEP, _STEEL_BITE, True, _OIL),
    Material("pre-hard steel", "steel", (
        "prehard", "pre hardened steel", "prehardened steel", "4140 prehard", "4140 PH", "4140 HT", "4140 prehardened",
        "EN19T", "EN24T", "P20"), 50, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, _OIL, usual_hrc=30.0),
    Material("tool steel, annealed", "steel", (
        "tool steel", "annealed tool steel", "silver steel", "drill rod", "gauge plate", "ground flat stock", "O1",
        "A2", "D2", "W1", "S7", "X210Cr12", "115CrV3", "1.2210", "01 tool steel"),
        50, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, _OIL),
    Material("stainless 303", "stainless", (
        "303", "303 stainless", "303 stainless steel", "free machining stainless", "free cutting stainless", "416",
        "X8CrNiS18-9", "EN58M", "1.4305"), 65, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, "rich oil, never dry"),
    Material("stainless 304/316", "stainless", (
        "304", "316", "304 stainless", "316 stainless", "304 stainless steel", "316 stainless steel", "304L", "316L",
        "18/8", "18-8 stainless", "300 series stainless", "A2 stainless", "A4 stainless", "X5CrNi18-10", "1.4301",
        "1.4401"), 50, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, "rich oil, never dry"),
    Material("grey cast iron", "iron", (
        "grey iron", "gray iron", "gray cast iron", "cast iron", "CI", "class 30", "class 40", "class 30 iron",
        "ASTM A48 class 30", "Meehanite", "Durabar", "GG20", "GG25", "EN-GJL-250", "grade 17"),
        65, 1.2, 0.50, _SOFT_STEP, _SOFT_BITE, False, "dry", scale_ft_min=40),
    Material("ductile cast iron", "iron", (
        "ductile iron", "nodular iron", "SG iron", "spheroidal graphite iron", "65-45-12", "EN-GJS-400", "EN-GJS-500",
        "EN-GJS-400/500", "GGG40"), 70, 1.0, 0.33, _SOFT_STEP, _SOFT_BITE, True, "dry", bite_source=MEMORY),
    Material("malleable iron", "iron", (
        "malleable cast iron", "malleable", "32510", "GTS-35"), 80, 1.0, 0.33, _SOFT_STEP, _SOFT_BITE, True, "dry",
        speed_source=MEMORY),
    Material("aluminium 6061", "aluminium", (
        "aluminium", "aluminum", "alu", "alum", "ally", "dural", "wrought aluminium", "wrought aluminum",
        "aluminum 6061", "6061", "6061-T6", "6082", "6082-T6", "6063", "2024", "2014", "7075", "7075-T6", "HE30",
        "AlMgSi1"),
        300, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, _LIGHT_OIL),
    Material("cast aluminium", "aluminium", (
        "cast aluminum", "aluminium casting", "aluminum casting", "A356", "356", "319", "LM25", "LM4", "AlSi7Mg",
        "MIC-6", "MIC6", "tooling plate"), 250, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, _LIGHT_OIL),
    Material("free-cutting brass", "brass", (
        "brass", "freecutting brass", "free machining brass", "leaded brass", "360", "360 brass", "C360", "C36000",
        "CZ121", "CuZn39Pb3", "385 brass"), 200, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, False, "dry"),
    Material("bronze", "bronze", (
        "bearing bronze", "leaded bronze", "leaded bearing bronze", "tin bronze", "SAE 660", "660", "660 bronze",
        "C932", "C93200", "932", "phosphor bronze", "PB1", "PB102", "gunmetal",
        "gun metal", "bronze casting", "LG2", "SAE 841", "oilite"),
        100, 1.0, 0.33, _STEEL_STEP, _STEEL_BITE, False, "dry"),
    Material("aluminium bronze", "bronze", (
        "aluminum bronze", "manganese bronze", "954", "954 bronze", "C954", "C95400", "AB2", "CA104", "HTB1", "C863",
        "C86300"), 60, 0.6, 0.25, _STEEL_STEP, _STEEL_BITE, True, "dry or light oil"),
    Material("beryllium copper", "copper", (
        "beryllium bronze", "BeCu", "BeCo", "copper beryllium", "C172", "C17200", "CB101"),
        60, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, "wet: flood with light oil, never dry", speed_source=MEMORY,
        usual_hrc=38.0),
    Material("copper", "copper", (
        "pure copper", "tough pitch copper", "ETP copper", "C110", "C11000", "C101", "tellurium copper", "C145"),
        100, 1.0, 0.25, _STEEL_STEP, _STEEL_BITE, True, "light oil, no sulphur"),
    Material("acetal", "plastic", (
        "delrin", "POM", "acetal copolymer", "polyacetal"),
        300, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air"),
    Material("nylon", "plastic", (
        "PA6", "PA66", "cast nylon", "nylon 66", "nylon 6", "polyamide"),
        300, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air"),
    Material("titanium 6Al-4V", "titanium", (
        "titanium", "Ti-6Al-4V", "6al4v", "Ti64", "grade 5 titanium", "titanium grade 5"),
        40, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, "rich oil, plenty of it", usual_hrc=36.0),
    Material("magnesium", "magnesium", (
        "magnesium alloy", "AZ31", "AZ31B", "AZ91", "AZ80", "magnesium casting", "ZK60", "elektron"),
        300, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry: no water, no water-mixed fluid", speed_source=MEMORY),
    Material("stainless 400 series", "stainless", (
        "410", "420", "430", "440C", "17-4", "17-4PH", "400 series stainless", "martensitic stainless", "1.4021"),
        50, 0.6, 0.20, _STEEL_STEP, _STEEL_BITE, True, "rich oil, never dry", speed_source=MEMORY),
    Material("grey cast iron, hard skin", "iron", (
        "grey iron with chill", "grey iron with scale", "grey iron with skin", "cast iron with chill",
        "cast iron with scale", "cast iron with skin", "cast iron with hard skin", "chilled skin", "casting skin"),
        40, 1.2, 0.33, _SOFT_STEP, _SOFT_BITE, False, "dry"),
    Material("nickel silver", "brass", ("german silver", "C752", "leaded nickel silver", "NS103"),
             80, 1.0, 0.33, _STEEL_STEP, _STEEL_BITE, True, "light oil, no sulphur", speed_source=MEMORY),
    Material("zinc die casting", "zinc", (
        "zinc", "zinc alloy", "zinc casting", "zinc die cast", "die cast zinc", "diecast zinc", "zamak", "mazak",
        "ZA27"),
        200, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, False, _LIGHT_OIL, speed_source=MEMORY),
    Material("white metal", "lead", (
        "babbitt", "babbit", "bearing metal", "white bearing metal", "tin babbitt", "lead babbitt", "lead",
        "lead sheet", "lead block", "pewter", "solder", "type metal"),
        250, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry", speed_source=MEMORY),
    Material("PVC", "plastic", ("uPVC", "CPVC", "rigid PVC", "PVC pipe", "vinyl", "polyvinyl chloride"),
             250, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air", speed_source=MEMORY),
    Material("PTFE", "plastic", ("fluoropolymer", "polytetrafluoroethylene"),
             250, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air", speed_source=MEMORY),
    Material("glass-filled plastic", "plastic", (
        "glass filled nylon", "glass filled", "glass filled acetal", "glass reinforced nylon", "glass filled PA66",
        "nylon GF30", "PA66 GF30", "PA6 GF30", "GF30", "glass filled PTFE", "glass filled polycarbonate"),
        150, 1.0, 0.50, _SOFT_STEP, _SOFT_BITE, False, "dry, or air", speed_source=MEMORY),
    Material("acrylic", "plastic", ("PMMA", "acrylic sheet", "polymethyl methacrylate"),
             200, 1.5, 0.33, _SOFT_STEP, _SOFT_BITE, False, "dry, or air", speed_source=MEMORY),
    Material("polythene", "plastic", ("polyethylene", "HDPE", "UHMW", "UHMWPE", "PE", "polypropylene", "PP"),
             300, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air", speed_source=MEMORY),
    Material("polycarbonate", "plastic", ("PC", "PC sheet", "ABS", "PEEK"),
             250, 1.5, 0.50, _SOFT_STEP, _SOFT_BITE, True, "dry, or air", speed_source=MEMORY),
    Material("phenolic", "plastic", (
        "paper phenolic", "fabric phenolic", "linen phenolic", "SRBP", "SRBF", "bakelised paper", "phenolic sheet"),
        200, 1.0, 0.50, _SOFT_STEP, _SOFT_BITE, False, "dry, or air", speed_source=MEMORY),
)

HELP_MANY = "name it closer: "


def materials() -> tuple[Material, ...]:
    """Every material there is, in the order that a shop thinks of them.

    >>> len(materials()), materials()[8].name
    (34, 'grey cast iron')
    """
    return _MATERIALS


def find_material(words: str) -> Material:
    """The material that a name, grade or usual synonym stands for; case and punctuation don't matter.

    Never a guess: a word that fits several kinds (`steel`), and one that fits none, raise `CribError` with the near
    ones named.

    Parameters: words as typed [-]. Returns: the material. Raises: `material` where it isn't known or not told apart.
    References: names and grades in common use, no one source.

    >>> [find_material(w).name for w in ("Gray Iron", "12l14", "crs", "O-1", "SAE 660", "delrin")]
    ['grey cast iron', 'free-machining steel', 'mild steel', 'tool steel, annealed', 'bronze', 'acetal']
    >>> find_material("steel")
    Traceback (most recent call last):
        ...
    crib.findings.errors.CribError: material 'steel' could be several
    """
    key = _key(words)
    if not key:
        raise CribError("material", "material is empty", words, "a name or a grade: grey iron, 1018, 6061, brass …")
    if (named := _names().get(key)) is not None:
        return named
    from crib.handbook.not_here import special

    if own := special(words):
        raise CribError("material", f"material {words.strip()!r}: {own.what}", words, own.help)
    if (found := _by_grade(words) or _named_twice(words)) is not None:
        return found
    if key in _GENERAL:
        names = "; ".join(m.name for m in _MATERIALS if m.group == _GENERAL[key])
        raise CribError("material", f"material {words.strip()!r} could be several", words, HELP_MANY + names)
    near = _near(key)
    raise CribError("material", f"material {words.strip()!r} is not known", words,
                    f"near: {'; '.join(near)}" if near else f"one of: {'; '.join(m.name for m in _MATERIALS)}")


def is_named(words: str) -> bool:
    """Whether words are a material's: a name, a grade, or what several are called. Nothing is guessed.

    >>> [is_named(said) for said in ("Gray Iron", "6061-T6", "brass 360", "A2 tool steel", "steel", "slot")]
    [True, True, True, True, True, False]
    """
    key, apart = _key(words), words.lower().split()
    with_kind = not _GROUP_WORDS.keys().isdisjoint(apart) or not _FORMS.isdisjoint(apart)
    return bool(key) and (key in _names() or key in _GENERAL or (with_kind and _by_grade(words) is not None)
                         or _named_twice(words) is not None)


def is_same(one: str, other: str) -> bool:
    """Whether two names are one material's.

    >>> is_same("CRS", "1018"), is_same("brass", "1018")
    (True, False)
    """
    return (found := _names().get(_key(one))) is not None and found == _names().get(_key(other))


_GENERAL = {
    "steel": "steel", "steels": "steel", "stainless": "stainless", "stainlesssteel": "stainless", "ss": "stainless",
    "iron": "iron", "plastic": "plastic", "copperalloy": "copper",
}
_FORMS = frozenset(["aisi", "sae", "astm", "uns", "bar", "plate", "stock", "round", "flat"])
_WITHOUT = pattern(rf"\b(?:{'|'.join(sorted(_FORMS))})\b", re.IGNORECASE)
_GROUP_WORDS = {"steel": ("steel", "stainless"), "stainless": ("stainless",), "ss": ("stainless",),
                "iron": ("iron",),
                "aluminium": ("aluminium",), "aluminum": ("aluminium",), "al": ("aluminium",), "brass": ("brass",),
                "bronze": ("bronze",), "copper": ("copper",), "titanium": ("titanium",), "magnesium": ("magnesium",),
                "plastic": ("plastic",)}
_TABLE: dict[str, Material] = {}


_NO_LETTERS = {code: None for code in range(128) if not chr(code).isalnum()}


def _key(words: str) -> str:
    """Words by their letters and figures alone.

    >>> _key("Gray iron, 40 ksi"), _key("brass 360 – ½ hard")
    ('greyiron40ksi', 'brass360hard')
    """
    key = words.lower().replace("aluminum", "aluminium").replace("gray", "grey").translate(_NO_LETTERS)
    return key if key.isascii() else re.sub(r"[^a-z0-9]+", "", key)


def _by_grade(words: str) -> Material | None:
    """The material of `7075 aluminum` or `steel 1018`: known by its grade, and of the kind that the words name."""
    rest = _WITHOUT.sub(" ", words.lower()).split()
    kinds = [_GROUP_WORDS[word] for word in rest if word in _GROUP_WORDS]
    found = _names().get(_key(" ".join(rest))) or _names().get(_key(" ".join(w for w in rest if w not in _GROUP_WORDS)))
    return found if found and all(found.group in kind for kind in kinds) else None


def _named_twice(words: str) -> Material | None:
    """The material of `A2 tool steel` or `class 40 cast iron`: two names of one and the same."""
    apart = words.lower().split()
    for place in range(1, len(apart)):
        one = _names().get(_key(" ".join(apart[:place])))
        if one is not None and one is _names().get(_key(" ".join(apart[place:]))):
            return one
    return None


def _names() -> dict[str, Material]:
    """Every key and its material; built at the first question."""
    if not _TABLE:
        for material in _MATERIALS:
            for word in (material.name, *material.words):
                _TABLE.setdefault(_key(word), material)
    return _TABLE


def _near(key: str) -> list[str]:
    """Up to four materials whose names are spelt nearly so, nearest first; for people to choose from."""
    from rapidfuzz import fuzz, process

    found = process.extract(key, list(_names()), scorer=fuzz.WRatio, limit=12, score_cutoff=76)
    return list(dict.fromkeys(_names()[name].name for name, _, _ in found))[:4]
