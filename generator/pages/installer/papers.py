"""The installer's pages of what is agreed and counted: dates, calls and ways to the station, ways in and out, radio, time on air, seen and heard."""
from collections.abc import Iterable

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.dates import dates_page
from generator.pages.installer.air import air_page
from generator.pages.installer.calls import calls_page
from generator.pages.installer.links import links_page
from generator.pages.installer.routes import routes_page
from generator.pages.installer.seen import seen_page
from generator.pages.page import Page
from generator.pages.parts import Stopped, finding_view
from generator.pages.transmission import transmission_page
from generator.rules.finding import Finding

# The rules whose findings stand at the top of a page: what they say of it must be known before anything on it is used.
DATES = ("service-interval-long", "service-out-of-month", "service-missed", "permit-ended", "permit-ends-before-service", "unit-past-date")
CALLS = ("account-form",)
TRANSMISSION = ("category-below", "paths-fewer-than-asked", "path-dies-with-mains", "paths-share-router")
AIR = ("air-time-long", "power-over-band")
RADIO = ("link-short", "repeater-hops")
WAYS_IN = ("entry-route-short", "entry-route-beyond", "exit-route-short", "entry-route-blocked", "immediate-on-way-in", "keypad-outside")
SEEN = ("opening-undetected", "detector-disturbed", "animal-heavy", "animal-climbs", "sleepers-way", "part-cannot-confirm", "opening-unconfirmed",
        "confirmed-farther-on", "keypad-exposed", "sounder-in-reach", "place-outside-plate", "bedroom-too-quiet")


def paper_pages(papers: Papers, results: Results, found: Iterable[Finding], stopped: Stopped) -> tuple[Page, ...]:
    """These pages, in their order, each below what was found about it; what is `stopped` is not shown as a value to use."""
    kept = tuple(found)

    def about(rules: tuple[str, ...]):
        return tuple(finding_view(one) for one in kept if one.open and one.rule in rules)

    return (dates_page(papers, results, about(DATES)), *calls_page(papers, results, about(CALLS), stopped),
            *transmission_page(papers, results, about(TRANSMISSION)), *routes_page(papers, results, about(WAYS_IN)),
            links_page(papers, results, about(RADIO)), air_page(papers, results, about(AIR)), seen_page(papers, results, about(SEEN)))
