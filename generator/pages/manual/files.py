"""The manual's page of files: those that a job is made of, and those that come out."""
from dataclasses import dataclass

from generator.pages.page import Page


@dataclass(frozen=True)
class FileView:
    """A file or folder: its name, who it is for or who writes it, and what it holds."""

    name: str
    who: str
    what: str


@dataclass(frozen=True)
class FilesView:
    """The files of a job, of its pack, and of what `doorpost` writes besides."""

    job: tuple[FileView, ...]
    pack: tuple[FileView, ...]
    others: tuple[FileView, ...]


JOB = (
    FileView("job.yaml", "the office", "The job itself; a folder that holds one is a job."),
    FileView("people.yaml", "the office", "All personal data of the job, and the only place where it stands. Every page builds without it."),
    FileView("issued.yaml", "`doorpost issue`", "What was issued, revision by revision. Keep it with the job and do not edit it."),
    FileView("site/", "`doorpost results`", "What was found on site, as it was taken in: files that are written once and named by phone, counters and SHA-256. Keep them with "
                                            "the job and do not edit them."),
    FileView("signatures/", "`doorpost results`", "Drawn signatures and typed names, personal data like `people.yaml`; what stands under `site/` holds their SHA-256 alone."),
    FileView("company.yaml", "the company", "The company, and limits that it sets itself. Sought in the job folder, then in the folders above it."),
    FileView("equipment/NAME.yaml", "the company", "One kind of unit, from its own papers. Sought like the company's file."),
    FileView("profiles/NAME.yaml", "the company", "A profile of your own. Sought like the company's file, then in the program."),
)
PACK = (
    FileView("installer/", "who fits", "The day's work on the phone: start, safety, slot map, steps, a page for each unit, tests, kit, the day on paper, labels, findings, sources."),
    FileView("pocket.html", "who fits", "The same in one file of a megabyte at most, to be carried by mail, chat or cable: read without scripts, with finder and "
                                        "notes where scripts run; what it leaves out stands at its end."),
    FileView("phone-worker.js", "phones", "In `installer/`, where the job gives a web address: keeps the whole pack on the phone after one opening, each file by its checksum."),
    FileView("phone.webmanifest", "phones", "Beside it, with `icon-180.png` and `icon-512.png`: how the pack stands on the home screen."),
    FileView("homeowner/", "who lives there", "On and off step by step, sounds and lights, what to do when something happens, whom to call, care, people, "
                                             "moving house, papers, what is in the house; no numbers, serials, positions or signal levels."),
    FileView("homeowner.html", "who lives there", "All of that but the cards in one file, to be sent; its style inside, no script."),
    FileView("station/", "the monitoring station", "One page, and the same as data."),
    FileView("index.html", "each reader", "The first page of each reader's folder; the station has no other."),
    FileView("zones.csv", "the monitoring station", "The table of zones for a spreadsheet, in `station/`."),
    FileView("events.csv", "the monitoring station", "Every event with its exact message, for a spreadsheet, in `station/`."),
    FileView("station.json", "the monitoring station", "Everything that the station's page says, as data, in `station/`."),
    FileView("record/", "the company", "Every document of the job to print, what was found on site beside the plan, what is filled and what is blank, what was checked against which profile as of when, "
                                      "power, cells, dates, transmission, sources, what the leak search reads."),
    FileView("calendar.ics", "the company", "Every day and month of the job for a calendar program, in `record/`."),
    FileView("pack.json", "the company", "What `doorpost plan` prints."),
    FileView("manifest-sha256.txt", "anybody", "SHA-256 of every other file, a line each."),
)
OTHERS = (
    FileView("REFERENCE-PHONE.txt", "the office", "What the installer's pack exports on a phone: everything written down on site, to be taken in with `doorpost results`."),
    FileView("REFERENCE-rREVISION.zip", "the company", "What `doorpost issue` puts into its folder: the packs, `pack.json`, `issued.yaml` and the list of checksums. "
                                                       "An archive is never written over."),
    FileView("KIND.schema.json", "editors", "What `doorpost schema KIND --out DIR` writes: what may stand in a kind of file, with units and examples."),
    FileView("check.schema.json", "programs", "In the program, under `generator/schemas`: the form of what `doorpost check --format json` prints."),
    FileView("plan.schema.json", "programs", "In the program, under `generator/schemas`: the form of what `doorpost plan` prints."),
)


def files_page() -> Page:
    """The page."""
    return Page("files.html", "Files", "manual/files.html.j2", FilesView(JOB, PACK, OTHERS))
