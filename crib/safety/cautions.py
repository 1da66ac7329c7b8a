"""Cautions, in short. Those that go for any work at a mill stand at the head of a printed sheet and in the README;
under a plan stands what its own material, cutters and operations can do to hands, eyes, lungs and slides. Common
practice, no source."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters import kind_of
from crib.handbook.materials import Material

GENERAL: tuple[str, ...] = (
    "glasses with side shields; no gloves, rings, loose sleeves or long hair at the spindle",
    "brush chips only with the spindle stopped; no fingers, no rag",
    "stop the spindle and wait for it before measuring or clearing",
    "check collet and drawbar; wrench off the drawbar before starting",
    "take the burrs off the edges before measuring or the next setting: a burr gives a false size and cuts",
    "no compressed air toward eyes or slides",
    "the machine's manual, local codes and qualified people stand over anything said here",
)
"""What goes for any work at a mill."""

BY_MATERIAL: dict[str, tuple[str, ...]] = {
    "beryllium copper": ("beryllium copper: its dust poisons the lungs: cut wet, never grind, file or sand it dry",),
    "bronze": ("may hold lead: wash hands, keep chips and hands from food",),
    "free-cutting brass": ("leaded: wash hands, keep chips and hands from food",
                           "brass splinters fly: shield the cutter"),
    "cast aluminium": ("never grind it on a wheel that grinds steel: the dust can burn",),
    "aluminium 6061": ("never grind it on a wheel that grinds steel: the dust can burn",),
    "white metal": ("lead, or may hold it: it poisons by dust and hands: no filing dust, no fumes, wash hands before "
                    "food or smoke",),
    "zinc die casting": ("zinc dust and fine chips burn: no grinding dust, sweep chips up; never heat it red",),
    "PVC": ("PVC that gets hot gives off acid fumes: sharp cutter, clear the chips, stop if it smells",),
    "PTFE": ("PTFE that gets hot gives off fumes that make you ill: sharp cutter, no tobacco near the chips",),
    "glass-filled plastic": ("glass dust goes to lungs, eyes and slides: mask on, vacuum, ways covered",
                             "glass blunts HSS fast: carbide, or look at the edges often"),
    "phenolic": ("its dust goes to lungs and slides: mask on, vacuum",),
    "acrylic": ("it chips and cracks as the cutter comes out: back it up, ease the feed",),
    "grey cast iron, hard skin": ("get under the skin with the first bite, and with an old cutter",),
    "acetal": ("acetal fumes sting and burn: sharp cutter, stop if it smokes",),
}
"""Cautions by the material's name."""

RUBS = "never let it rub or dwell: it hardens"

BY_GROUP: dict[str, tuple[str, ...]] = {
    "magnesium": (
        "magnesium burns: sharp cutter, big chips, no fines, no rubbing, no grinding",
        "no water and no water-mixed fluid on magnesium; dry sand or a class D extinguisher within reach",
        "sweep magnesium chips up after every pass and keep flames away"),
    "titanium": (
        "titanium chips burn: sharp cutter, no dwelling, no fines, no dry grinding",
        "sweep titanium chips up; dry sand or a class D extinguisher within reach"),
    "iron": ("cast iron dust: mask on, ways covered, no oil on it, vacuum rather than air",),
    "steel": ("steel chips are razor strings: a hook, never a hand",),
    "stainless": ("stainless chips are razor strings: a hook, never a hand", RUBS),
}
"""Cautions by the material's group."""

WET: dict[str, tuple[str, ...]] = {"copper": ("no sulphurised oil on copper alloys: it stains",)}
"""Cautions on the fluid by the material's group, where fluid is used."""

THROUGH = "the drill grabs as it breaks through: clamp the work, ease the feed"
"""For a drill that breaks through."""

OIL = "if the oil smokes, stop; use no oil from an old unmarked tin"


def cautions(material: Material | None, kinds: Iterable[str] = (), work: Iterable[str] = ()) -> tuple[str, ...]:
    """What to print under a plan: the material's dangers first, then the cutters' and the work's, then the fluid's
    where any is used.

    Parameters: material, None where it isn't known; kinds of the cutters by name [-]; what the work itself cautions
    against. Returns: the cautions, each once. References: common practice, no source.

    >>> from crib.handbook.materials import find_material
    >>> cautions(find_material("grey iron"), ["end-mill", "keyseat-cutter"])[0]
    'cast iron dust: mask on, ways covered, no oil on it, vacuum rather than air'
    """
    group = material.group if material else ""
    said: list[str] = []
    if material:
        said += (*BY_MATERIAL.get(material.name, ()), *BY_GROUP.get(group, ()))
    for kind in kinds:
        said += kind_of(kind).cautions(group)
    said += work
    if material and not material.fluid.startswith("dry"):
        said += (*WET.get(group, ()), OIL)
    return tuple(dict.fromkeys(said))
