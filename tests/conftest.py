"""What many tests need: the demo job as data, a way to write a changed copy, and packs built once a run."""
import copy
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from generator.cli import main
from generator.intake.yaml_tree import read_tree
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.pack import write_pack
from generator.publish.places import own_wording
from generator.publish.render import translations
from generator.terms.audience import Audience
from generator.terms.site_names import SITE, site_name

# How long one example takes tells nothing beside other tests; what measures does so alone.
settings.register_profile("doorpost", deadline=None)
settings.load_profile("doorpost")

ROOT = Path(__file__).resolve().parent.parent
JOBS = ROOT / "jobs"
DEMO = JOBS / "thrift-cottage"
HOSTILE = "Hall | <script>alert(1)</script> {{ 7*7 }} [x](javascript:1) =1+1"

Files = dict[str, Any]


def read_files(folder: Path = DEMO) -> Files:
    """The files of a job as data, every value the text that was written: job, people, company, and the sheets that it names.

    What the folder above holds besides is not the job's: a sheet more in jobs/equipment changes no test.
    """
    def data(name: str) -> Any:
        path = next((place / name for place in (folder, folder.parent) if (place / name).is_file()), None)
        return read_tree(path, path.name).data if path else None

    job = data("job.yaml")
    named = {unit["sheet"] for unit in (job["control_unit"], *job["devices"].values())}
    return {
        "job": job,
        "people": data("people.yaml"),
        "company": data("company.yaml"),
        "equipment": {name: data(f"equipment/{name}.yaml") for name in sorted(named)},
        "profiles": {},
    }


def write_files(files: Files, folder: Path) -> Path:
    """Writes files into a job folder, the shared ones too; JSON is YAML. Gives the path of the job file."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name in ("job", "people", "company"):
        if files[name] is not None:
            (folder / f"{name}.yaml").write_text(json.dumps(files[name], ensure_ascii=False, indent=1), encoding="utf-8")
    for kind in ("equipment", "profiles"):
        (folder / kind).mkdir()
        for name, data in files[kind].items():
            (folder / kind / f"{name}.yaml").write_text(json.dumps(data, ensure_ascii=False, indent=1), encoding="utf-8")
    for data in files.get("site", ()):
        content = json.dumps(data).encode()
        (folder / SITE).mkdir(exist_ok=True)
        (folder / SITE / site_name(data["phone"], 1, len(data["entries"]), content)).write_bytes(content)
    return folder / "job.yaml"


@pytest.fixture
def files() -> Files:
    """The demo job as data, to be changed freely."""
    return copy.deepcopy(_DEMO_FILES)


@pytest.fixture
def job_file(files: Files, tmp_path: Path) -> Callable[..., Path]:
    """Writes the demo job with changes: `job_file(lambda f: f["job"].update(title="X"))` gives the path of job.yaml."""

    def write(*changes: Callable[[Files], Any], name: str = "job") -> Path:
        for change in changes:
            change(files)
        return write_files(files, tmp_path / name)

    return write


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the demo job's packs, built once; do not change it."""
    return write_pack(compile_job(DEMO / "job.yaml"), tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="session")
def every_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the packs of all demo jobs, as `doorpost build jobs` makes them, built once; do not change it."""
    out = tmp_path_factory.mktemp("demos")
    assert main(["build", str(JOBS), "--out", str(out)]) == 0
    return out


@pytest.fixture(scope="session")
def manual(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the manual, built once; do not change it."""
    out = tmp_path_factory.mktemp("manual") / "manual"
    assert main(["manual", "--out", str(out)]) == 0
    return out


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str, str]]:
    """Runs a command in this process; gives exit code, output and error output."""

    def call(*arguments: object) -> tuple[int, str, str]:
        try:
            code = main([str(one) for one in arguments])
        except SystemExit as stop:
            code = int(stop.code or 0)
        out = capsys.readouterr()
        return code, out.out, out.err

    return call


_DEMO_FILES = read_files()


@pytest.fixture(scope="session")
def demo_packs():
    """The demo job's packs as views, one for each reader."""
    return packs_of(DEMO / "job.yaml")


def packs_of(path: Path):
    """A job's packs as views, one for each reader."""
    compiled = compile_job(path)
    looked = looked_for(compiled, own_wording())
    return tuple(pack_of(compiled, audience, translations().gettext, looked) for audience in Audience)
