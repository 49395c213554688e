"""What a line of the checklist is, and how it is held against a limit of the profile."""
from dataclasses import dataclass

from generator.model.found import COULD_NOT_TEST, FAIL, NOT_APPLICABLE, PASS
from generator.model.papers import Papers
from generator.model.ratings import LinkScale

DECIBEL = "db"
PRACTICE = "common practice"
SHEET = "the company's equipment sheet"
PLATE = "the unit's own plate"
NO_LIMIT = "the profile names no figure; the unit's own papers decide"
# What can be written as a result. A blank is none of them.
RESULTS = (PASS, FAIL, COULD_NOT_TEST, NOT_APPLICABLE)
# What is written of a line that the station reads: who read it there, and when.
BY_STATION = "operator, time"
CARRIED = ("fob", "tag")
MAINS_FAIL = "Mains fail"
DRIFT = "Drift"
UNWATCHED = "Space without a detector"
# The end of a span that a limit is.
LEAST, MOST = "least", "most"


@dataclass(frozen=True)
class Check:
    """One line of the checklist. `unit` is "" for the system; `measured` is the unit of a value to write, "" for none.

    `accept` is what is expected, with the limit in it; `source` is whose limit that is and how it is known; `fields` are those of
    the job whose values `accept` quotes. A measured value passes from `least` to `most`, both in the unit `measured`; None where there
    is no such end, or none that a number alone could be held against.
    """

    unit: str
    what: str
    accept: str
    source: str
    measured: str = ""
    fields: tuple[str, ...] = ()
    least: float | None = None
    most: float | None = None

    @property
    def id(self) -> str:
        """A name that stays the same as long as the line means the same."""
        return f"{self.unit or 'system'}/{self.what.lower().replace(' ', '-')}"


def limit(papers: Papers, name: str) -> tuple[str, str] | None:
    """A limit as text with its unit, and its source; None where the profile has none of that name."""
    entry = papers.profile.limits.get(name)
    return (entry.shown(), papers.profile.source_of(name).cited()) if entry else None


def held(papers: Papers, unit: str, what: str, accept: str, name: str, measured: str = "", without: str = "",
         fields: tuple[str, ...] = (), end: str = "") -> Check:
    """A check against a limit of the profile: `accept` holds {limit}; `without` is what is expected where there is no such limit.

    `end` is LEAST or MOST where the measured value itself, in the limit's own unit, is held against the limit.
    """
    found = limit(papers, name)
    if found:
        bound = {end: float(papers.profile.limits[name].value)} if end else {}
        return Check(unit, what, accept.replace("{limit}", found[0]), found[1], measured, fields, **bound)
    return Check(unit, what, without or accept.replace("{limit}", "what its papers say"), NO_LIMIT, measured, fields)


def own_scale(papers: Papers) -> LinkScale | None:
    """The scale of its own on which the control unit shows a link, other than in dB; None where its sheet has none."""
    own = papers.sheet_of[papers.job.control_unit.id].control_unit
    scale = own.link_scale if own else None
    return scale if scale and scale.unit.lower() != DECIBEL else None


def on_own_scale(papers: Papers) -> str:
    """What a reading on the control unit's own scale says of a margin in dB, and what it does not; "" where its sheet has no such scale.

    Its papers say from where on a link is good; nowhere do they say how many dB that is, so that no margin is proved by it.
    """
    scale = own_scale(papers)
    if scale is None:
        return ""
    return (f"Write the dB. Only {scale.unit} to be read: “could not test”, with the {scale.unit} beside it ({scale.passes} of {scale.most} or better is good "
            f"by its papers, and no margin)")


def both(*sources: str) -> str:
    """Several sources of one line, each named once."""
    return "; ".join(dict.fromkeys(sources))
