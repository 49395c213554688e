"""How does a link stand, in a word and in figures? The one place that sorts links for the drawing.

No limit of its own: a link is held against the margin that the profile wants of it, on the worse day.
"""
from generator.calc.radio.link import Link
from generator.calc.unknown import Unknown
from generator.terms.show import amount, number

WORDS = {"enough": "Enough", "little": "Little to spare", "short": "Short", "unknown": "Not worked out"}
KEY = {
    "enough": "Link with enough: above the margin that is wanted at least as much again is left",
    "little": "Link with little to spare: the margin that is wanted is left, and less than as much again",
    "short": "Short link: on a bad day less is left than the margin that is wanted",
    "unknown": "Link that is not worked out",
}


def level_of(link: Link | Unknown) -> str:
    """One of LEVELS: reserve below nothing is short; below the margin that is wanted, little; else enough."""
    if isinstance(link, Unknown):
        return "unknown"
    if link.reserve_db < 0:
        return "short"
    return "enough" if link.reserve_db >= link.required.value else "little"


def link_words(link: Link | Unknown, heard_by: str) -> str:
    """A link in words: how it stands, who hears it, margin, margin wanted and the difference."""
    word = WORDS[level_of(link)]
    if isinstance(link, Unknown):
        return f"{word}: whether {heard_by} hears it is not checked, because {link.reason}."
    margin, reserve = link.margin_db(link.worse), link.reserve_db
    rest = f"{number(-reserve)} dB short" if reserve < 0 else f"{number(reserve)} dB to spare"
    held = f"{amount(margin, 'dB').replace('-', '−')} on the worse day, {number(link.required.value)} wanted, {rest}"
    return f"{word}: heard by {heard_by} with {held}."
