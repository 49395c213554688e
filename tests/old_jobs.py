"""The demo job as it would be in format 0, for tests alone: job.yaml and company.yaml are old, the others current."""
import shutil
from pathlib import Path

import pytest

from tests.conftest import DEMO, ROOT
from tests.old_format import old_format  # noqa: F401

JOB = (DEMO / "job.yaml").read_text(encoding="utf-8")
OLD_JOB = JOB.replace("format: 1", "format: 0  # old").replace("    position: on the frame, lock", "    place: on the frame, lock").replace(
    "times: {entry_s: 30,", "times: {entry_min: 0.5,")
NEW_JOB = OLD_JOB.replace("format: 0", "format: 1").replace("place: on", "position: on").replace("entry_min: 0.5", "entry_s: 30")
PEOPLE = (DEMO / "people.yaml").read_text(encoding="utf-8")
COMPANY = (ROOT / "jobs" / "company.yaml").read_text(encoding="utf-8")
OLD_COMPANY = COMPANY.replace("format: 1", "format: 0").replace("\ntelephone:", "\nphone:")


@pytest.fixture
def jobs(tmp_path: Path, old_format) -> Path:  # noqa: F811
    """A folder of the demo job with its shared files; job and company are of format 0."""
    return lay_out(tmp_path / "jobs")


def lay_out(folder: Path) -> Path:
    (folder / "one").mkdir(parents=True)
    shutil.copytree(ROOT / "jobs" / "equipment", folder / "equipment")
    for path, text in ((folder / "company.yaml", OLD_COMPANY), (folder / "one" / "job.yaml", OLD_JOB), (folder / "one" / "people.yaml", PEOPLE)):
        path.write_text(text, encoding="utf-8")
    return folder


def content(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
