"""What must be so before the system is handed over: the installer's own authority, and words that the user can read."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import AS_OF
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Need, rule
from generator.tables.languages import ENGLISH, LANGUAGES
from generator.tables.sources import PRACTICE
from generator.terms.show import day, sentence_list

CHANGED, IN_USE, LANGUAGE = "job.handover.authority_changed", "job.agreement.in_use_on", "job.household.language"
CHANGE = "Change it on the day, and write authority_changed: true with changed_on: and changed_by:; no file holds the code itself."
SPOKEN = Need("the main user's language", lambda papers, results: "" if papers.job.household and papers.job.household.language else
              "the job file does not say which language the main user reads")


def _changed(papers: Papers) -> bool | None:
    return papers.job.handover.authority_changed if papers.job.handover else None


@rule("authority-not-changed", Severity.STOP, source=PRACTICE,
      compares="the state of the installer's own authority with that in which the unit was delivered",
      mends=CHANGE, firm="whoever has the unit's papers could turn the system off")
def authority_not_changed(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The installer's authority is still the one with which the unit was delivered.

    It is printed in papers that anybody can have; in some countries it is unlawful to hand a unit over like that. No certificate can
    be signed.
    """
    changed = _changed(papers)
    if changed is None:
        yield Unchecked("nobody has written yet whether the installer's authority was changed")
    elif not changed:
        yield Hit(CHANGED, "The installer's authority is as delivered: the certificate cannot be signed.", CHANGE,
                  (Value("changed", "false", "", CHANGED), Value("wanted", "true", "", PRACTICE)))


@rule("authority-not-known", Severity.ASK, source=PRACTICE,
      compares="the day on which the system came into use with what is written of the installer's authority",
      mends="Ask the installer, look on the next visit, and write authority_changed: with what was found.")
def authority_not_known(papers: Papers, results: Results) -> Iterator[Hit]:
    """The system is in use, and nobody wrote whether the installer's authority was changed.

    What nobody wrote down was often not done.
    """
    agreement = papers.job.agreement
    in_use = agreement.in_use_on if agreement else None
    if _changed(papers) is None and in_use and in_use < results.as_of:
        yield Hit(CHANGED, f"In use since {day(in_use)}, and nothing is written of the installer's authority.",
                  "Ask the installer, look on the next visit, and write authority_changed: with what was found.",
                  (Value("changed", "not known", "", CHANGED), Value("in use from", day(in_use), "", IN_USE), Value("then", "in use", "", AS_OF)))


@rule("language-not-there", Severity.ASK, needs=(SPOKEN,), source="the languages in which the homeowner's pages come along",
      compares="the language of the main user with those in which the homeowner's pages come along",
      mends="Go through the pages with somebody who speaks both, and do not take them for understood; or add the translation.")
def language_not_there(papers: Papers, results: Results) -> Iterator[Hit]:
    """The homeowner's pages are not there in the language of the main user.

    They come in English then. Whoever signs for pages that they cannot read has not been shown the system.
    """
    language = papers.job.household.language
    if language not in LANGUAGES:
        there = sentence_list(list(LANGUAGES))
        yield Hit(LANGUAGE, f'The main user reads "{language}"; the homeowner\'s pages are there in: {there}. They come in {LANGUAGES[ENGLISH]}.',
                  "Go through the pages with somebody who speaks both, and do not take them for understood.",
                  (Value("main user", language, "", LANGUAGE), Value("there", there, "", "the strings that come along")))
