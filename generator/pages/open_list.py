"""What is still open, and who answers it: what no rule could look at, and what the plan leaves blank."""
from collections.abc import Iterable, Iterator

from generator.model.papers import Papers
from generator.procedure.step import Fact
from generator.rules.finding import Finding
from generator.terms.show import sentence_list

# Who answers, by the first part of the field that a rule could not look at; the office where nothing else is known.
ON_SITE = ("job.survey.", "job.premises.", "job.cables.")
OFFICE, SITE = "The office answers", "Answered on site, before it is built on"


def unanswered(papers: Papers, found: Iterable[Finding]) -> Iterator[Fact]:
    """One line for each: who answers, and what. What no market limit exists for is left out: nobody at the job can answer it."""
    for one in found:
        if one.outcome == "not_checked" and not one.of_market:
            yield Fact(SITE if one.hit.at.startswith(ON_SITE) else OFFICE, one.hit.says)
    for key, one in (papers.job.survey.assumptions.items() if papers.job.survey else ()):
        if one.found:
            yield Fact(OFFICE, f"Planned on “{one.assumed}”, found “{one.found}” ({key.replace('-', ' ')}): which units does it touch?")
    blank = [name for name, device in papers.job.devices.items() if not device.serial]
    if blank:
        yield Fact(SITE, f"The serial of {sentence_list(blank)}: read it from the plate and write it into its step.")
