"""Which packs are measured: every reader's pages of the demo job, and of a second job with other references."""
import shutil
from pathlib import Path

from generator.pages.page import Pack
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.publish.render import translations
from generator.terms.audience import Audience

ROOT = Path(__file__).resolve().parent.parent.parent
JOB = ROOT / "jobs" / "thrift-cottage"
LARGE = ROOT / "jobs" / "curlew-house"
REFERENCE, SECOND = "K-2041", "K-2042"


def packs_of(job: Path) -> list[Pack]:
    """Every reader's pages of a job, before any HTML is made of them."""
    compiled = compile_job(job / "job.yaml")
    looked = looked_for(compiled, own_wording())
    return [pack_of(compiled, audience, translations().gettext, looked) for audience in Audience]


def write_second(folder: Path) -> Path:
    """Copies the jobs and gives the demo job another reference there; no QR code is the same then. Gives its folder."""
    shutil.copytree(JOB.parent, folder)
    file = folder / JOB.name / "job.yaml"
    text = file.read_text(encoding="utf-8")
    line = f"reference: {REFERENCE}\n"
    if text.count(line) != 1:
        raise ValueError(f'the demo job no longer holds the line "{line.strip()}" once; look at REFERENCE')
    file.write_text(text.replace(line, f"reference: {SECOND}\n"), encoding="utf-8")
    return file.parent


def shared_payloads(one: list[Pack], other: list[Pack]) -> set[str]:
    """The payloads of QR codes that both jobs have; a second pack is measured honestly only if there is none."""
    return {text for pack in one for text in pack.payloads} & {text for pack in other for text in pack.payloads}
