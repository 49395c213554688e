"""The installer's pages of what is agreed and counted: dates, calls with the station, ways to the station, time on air."""
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.dates import dates_page
from generator.pages.installer_air import air_page
from generator.pages.installer_calls import calls_page
from generator.pages.page import Page
from generator.pages.transmission import transmission_page


def paper_pages(papers: Papers, results: Results) -> tuple[Page, ...]:
    """These pages, in their order."""
    return dates_page(papers, results), *calls_page(papers, results), *transmission_page(papers, results), air_page(papers, results)
