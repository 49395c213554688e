"""One document of the record: whose it is, which plan it was made from, its parts, and who has signed."""
from collections.abc import Iterable
from dataclasses import dataclass

from generator.model.papers import Papers
from generator.pages.page import Page, Stamp
from generator.pages.paper import UNSIGNED, Entry, Section, given, to_write
from generator.terms.show import day

NO_PEOPLE = "not in this build: there was no people.yaml"
DOCUMENTS = "Documents"
SIGNED = ("Name", "Role", "Day and time", "How it was signed", "Signature")


@dataclass(frozen=True)
class DocumentView:
    """A document. `purpose` says what it is for, `head` whose it is and which plan it was made from."""

    purpose: str
    head: tuple[Entry, ...]
    sections: tuple[Section, ...]


def has_categories(papers: Papers) -> bool:
    """Whether the ways to the station have categories in this market: its profile holds a limit from EN 50136, or the job names one."""
    agreed, limits = papers.job.monitoring, papers.profile.limits.values()
    return bool(agreed and (agreed.category_asked or agreed.category_given)) or any(
        papers.profile.documents[one.source].title.startswith("EN 50136") for one in limits)


def document(path: str, title: str, purpose: str, papers: Papers, stamp: Stamp, sections: Iterable[Section]) -> Page:
    """A document as a page of its own."""
    job, company = papers.job, papers.company
    head = (
        Entry("Company", f"{company.name}, {company.telephone}"),
        Entry("Job", f"{job.reference}, {job.title}"),
        Entry("Dated", day(job.dated)),
        Entry("Revision", stamp.issued),
        Entry("Fingerprint of this record", stamp.fingerprint),
    )
    return Page(path, title, "record/document.html.j2", DocumentView(purpose, head, tuple(sections)), DOCUMENTS)


def parties(papers: Papers) -> tuple[Entry, ...]:
    """Customer and premises: from people's data, or why not."""
    customer = papers.people.customer if papers.people else None
    if customer is None:
        return tuple(Entry(name, "", NO_PEOPLE) for name in ("Customer", "Telephone", "Address"))
    return (Entry("Customer", customer.name), Entry("Telephone", customer.telephone),
            given("Address", ", ".join(customer.address), "the customer"))


def signatures(*who: str) -> Section:
    """Room for signatures. Until they are there, nothing counts as accepted."""
    return Section("signatures", "Signatures", "A signature belongs to the revision and the fingerprint above, and to no other.",
                   (Entry("Acceptance", "", UNSIGNED),), to_write("Signatures", "Who", SIGNED, who))
