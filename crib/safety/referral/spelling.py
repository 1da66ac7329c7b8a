"""Misspelt words, taken for the one that refers which they are nearest to; ordinary words are left as they are."""

from __future__ import annotations

from functools import cache

from crib.light.records import replace
from crib.safety.referral.reading import RuleEffects, is_near, singular
from crib.safety.referral.topics import TOPICS

_LEAST_LETTERS = 6
_ORDINARY = """
    airflow airfoil babysit bachelor bailer ballpoint bandster bascule bearable billet blacker blackness bladder
    bleached blistered blocker bluejoint boiled bowing bowler breach broiler bulled burgeon butyne canister cannot
    canton canyon carbide carbon carmine cental center centre coiler crossweb cutoff denature denial dentil digging
    dragline earthling elevation endoscopy evaluation evocation exorcise expulsive facemaker failing firehouse
    firelight fishbone fleshly foiler force forcible forearm foreground forwarder founding frangipane gardening
    gauging gentry gifting girding glass grabber grading grained granddad grenadine grinding groundling grubber
    guider gullet guzzle hairpin hammer handily hangdog hardness headrent hommock hydrogel inhale inhaled inlayer
    interlake inulin keelboat ladle lander larder latter lifelike lilting listing lofting lowing madder mailing
    manorial medial mediation mental mineral misfile missive mowing mullet nailing nuclei nuzzle oxygon pacer padder
    paintable pantry parakeet parameter parquet patent patentee peacemaker perimeter perish permeator permuter
    persist piercer piston placemaker planer pointable praiser presser profane promoter prosaist prostate pullet
    pursuit puzzle pyrometer racketry raising realtor rector redactor rental resolver respue ricture ridder ridging
    rigor ringing rolling roughing rouging rounding rowing sadder sailor scalper scatter scooper scouter searing
    sharing shearing sheering shooter shoring sifting silence silenced skew skewed skiving slider soaring sounding
    souring spraygun stability stamper stirring storing stormer straight strange stranger streamer string sturgeon
    sweeping synagogue tagging tailing tailor terracing thrashing tiered toiler torsioning towall toying traipse
    traitor trapezia treeline tribune tubeless venture vesicle wirework wishful zeppelin
    """
"""Words of shop and house that are a letter from one that refers, or sound like it."""


def spelt(said: RuleEffects) -> RuleEffects:
    """What was said, with the word that is meant beside each that is misspelt."""
    (whole, begun), ordinary = _known(), _ordinary()
    asked = [word for word in said.plain if len(word) >= _LEAST_LETTERS - 1 and singular(word) not in ordinary]
    meant = {other for word in asked for other in whole if is_near(word, other)}
    meant |= {other for word in asked for other in begun if _begins_near(word, other)}
    return replace(said, words=said.words | meant)


def _begins_near(word: str, begun: str) -> bool:
    """Whether a word begins nearly as those do that refer."""
    return any(is_near(word[:len(begun) + more], begun) for more in (-1, 0, 1))


@cache
def _known() -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words that are known however they are spelt, and how some begin."""
    signs = [sign.says for topic in TOPICS for sign in topic.signs if sign.spelt]
    return (tuple(sorted({word for says in signs for word in says.whole if len(word) >= _LEAST_LETTERS})),
            tuple(sorted({word for says in signs for word in says.begun if len(word) >= _LEAST_LETTERS})))


@cache
def _ordinary() -> frozenset[str]:
    """The words that mean what they say: ordinary ones, and the company that signs name."""
    company = {word for topic in TOPICS for sign in topic.signs for some in (sign.beside, sign.unless) if some
               for word in some.whole}
    return frozenset(_ORDINARY.split()) | company
