"""Files of results as a phone writes them, made by hand: phones, counters, and a whole day played from what is asked."""
import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from generator.pipeline import Compiled, compile_job
from generator.procedure.asked import CALLED, CHECK, HOLD, NOTE, OPERATOR, PHOTO, SERIAL, SIGNAL, SIGNATURE, STEP, Asked, asked_of
from generator.procedure.check import DRIFT
from generator.procedure.steps import procedure
from generator.terms.audience import Audience

ADA, BEN = "ada22222", "ben33333"
AT = "2026-11-24T10:05:00+00:00"


@dataclass
class Phone:
    """A phone that holds entries of one pack."""

    reference: str
    fingerprint: str
    revision: int = 0
    name: str = ADA
    opening: str = "m2c8r4"
    entries: list[dict[str, str]] = field(default_factory=list)
    signatures: dict[str, str] = field(default_factory=dict)

    def add(self, device: str, step: str, what: str, **more: str) -> dict[str, str]:
        """Writes an entry down."""
        counter = sum(one["id"].startswith(self.name) for one in self.entries) + 1
        entry = {"id": f"{self.name}-{self.opening}-{counter:06}", "device": device, "step": step, "what": what, "value": "", "unit": "", "result": "",
                 "at": AT, "by": self.name[:3].upper(), "note": ""} | more
        self.entries.append(entry)
        return entry

    def data(self) -> dict[str, Any]:
        """The file as data."""
        return {"format": 1, "reference": self.reference, "revision": self.revision, "fingerprint": self.fingerprint, "phone": self.name,
                "entries": self.entries, "signatures": self.signatures}

    def write(self, folder: Path) -> Path:
        """The file that the phone exports."""
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"{self.reference}-{self.name}.txt"
        path.write_text(json.dumps(self.data(), ensure_ascii=False), encoding="utf-8")
        return path


def phone_of_job(job: Compiled, name: str = ADA) -> Phone:
    """A phone that was handed the pack of a job as it stands."""
    return Phone(job.papers.job.reference, job.fingerprint_of[Audience.INSTALLER][:12], job.last.revision if job.last else 0, name)


def asked_in(job: Compiled) -> tuple[Asked, ...]:
    """What the installer's pack of a job asks."""
    papers = job.papers_of[Audience.INSTALLER]
    return asked_of(papers, job.results, procedure(papers, job.results))


# What each link is read at, before drilling and after.
HEARD_DB = "31"


def play(phone: Phone, asked: Iterable[Asked]) -> None:
    """The whole day as it goes where nothing is amiss."""
    for one in asked:
        here = (one.device, one.step)
        if one.kind in (STEP, PHOTO, HOLD):
            phone.add(*here, one.what, result="done")
        elif one.kind == SERIAL:
            phone.add(*here, one.what, value=one.planned or f"99{one.device}")
        elif one.kind == SIGNAL:
            for part, value, unit in (("sent", "10", ""), ("received", "10", ""), ("level", HEARD_DB, "dB")):
                phone.add(*here, f"signal/1/from-unit/{part}", value=value, unit=unit)
        elif one.kind == CHECK:
            middle = one.least if one.least is not None else one.most
            value = HEARD_DB if one.title == DRIFT else f"{middle:g}" if middle is not None else "1" if one.rests_on_value else ""
            phone.add(*here, one.what, result="pass", **({"value": value, "unit": one.unit} if value else {}))
        elif one.kind == CALLED:
            phone.add(*here, one.what, value="A. Listener" if one.what == OPERATOR else "14:05")
        elif one.kind == SIGNATURE:
            phone.add(*here, one.what, value="Pat Example", result="done")
        else:
            assert one.kind == NOTE


def job_at(folder: Path) -> Compiled:
    """A job, compiled."""
    return compile_job(folder)
