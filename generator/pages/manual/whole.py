"""The manual: everything that a person can use, planned from the program itself, so that nothing in it can be out of date."""
import argparse
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.model.profile import Profile
from generator.pages.keys import FILES
from generator.pages.manual.commands import commands_page
from generator.pages.manual.files import files_page
from generator.pages.manual.formulas import formulas_page
from generator.pages.manual.keys import keys_pages, keys_path
from generator.pages.manual.ladder import Rung, ladder_pages
from generator.pages.manual.limits import limits_pages
from generator.pages.manual.rules import rules_pages
from generator.pages.manual.words import words_page
from generator.pages.page import Link, Page, Site

TITLE, STYLE = "Doorpost manual", "manual.css"


@dataclass(frozen=True)
class StartView:
    """The first page: where to go for what."""

    begin: tuple[Link, ...]
    look_up: tuple[tuple[Link, str], ...]


@dataclass(frozen=True)
class ProseView:
    """A page of prose; only where it leads from there hangs on anything."""

    ladder: Link


@dataclass(frozen=True)
class Source:
    """What the manual is made from, besides what its pages ask themselves: the parser of the command line with the exit codes'
    meanings, the profiles that come along, the ladder's jobs with the page that each shows as the rung before has it."""

    version: str
    parser: argparse.ArgumentParser
    codes: Mapping[int, str]
    profiles: Mapping[str, Profile]
    rungs: Sequence[Rung]
    pages_before: Sequence[tuple[tuple[str, str], ...]]


def manual(source: Source) -> Site:
    """The manual's pages, in the order of the navigation."""
    ladder = ladder_pages(source.rungs, source.pages_before)
    writing = Page("writing.html", "Writing a job", "manual/writing.html.j2", ProseView(Link(ladder[0].path, ladder[0].title)))
    issuing = Page("issuing.html", "Issuing a job", "manual/issuing.html.j2", ProseView(Link(ladder[-1].path, ladder[-1].title)))
    found = Page("found.html", "What was found on site", "manual/found.html.j2", ProseView(Link(keys_path("results"), FILES["results"])))
    keys, rules, limits = keys_pages(), rules_pages(source.profiles), limits_pages(source.profiles)
    commands, files, formulas, words = commands_page(source.parser, source.codes), files_page(), formulas_page(), words_page(source.profiles)
    start = Page("index.html", "Start", "manual/start.html.j2", StartView(
        tuple(Link(one.path, text) for one, text in ((ladder[0], "Learn it step by step: small jobs, each with one idea more"),
                                                     (writing, "Writing a job"), (issuing, "Issuing a job"), (found, "What was found on site"))),
        ((Link(commands.path, commands.title), "with every option and exit code"),
         *((Link(one.path, one.title), "every key: what it takes, its unit and bounds, who may see it") for one in keys),
         (Link(rules[0].path, rules[0].title), "what is checked, why, and what mends it"),
         *((Link(one.path, one.title), "every limit with its source") for one in limits),
         (Link(files.path, files.title), "what a job is made of, and what comes out"),
         (Link(formulas.path, formulas.title), "how figures are worked out"),
         (Link(words.path, words.title), "severities, signal words, words of the trade"))))
    return Site(TITLE, (f"Doorpost {source.version}, the manual, made from the program itself.",
                        "Local law and licensed practice come before what stands here. Wiring is for licensed electricians."), True,
                (start, *ladder, writing, issuing, found, commands, *keys, *rules, *limits, files, formulas, words), STYLE)
