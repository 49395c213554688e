"""Does the program work where there is no checkout?"""
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.conftest import ROOT


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run([sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--wheel-dir", str(folder),
                    str(ROOT)], check=True)
    return next(folder.glob("doorpost-*.whl"))


def test_the_wheel_holds_templates_profiles_schemas_the_ladder_and_configuration(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    here = [path for folder in ("templates", "generator/profiles", "generator/schemas", "jobs/ladder", "jobs/equipment") for path in (ROOT / folder).rglob("*")
            if path.is_file() and "__pycache__" not in path.parts]
    wanted = {f"generator/shipped/{path.relative_to(ROOT).as_posix()}" if path.relative_to(ROOT).parts[0] != "generator"
              else path.relative_to(ROOT).as_posix() for path in here} | {"generator/shipped/mkdocs.yml"}
    assert len(wanted) > 30 and wanted - names == set()


def test_an_installed_wheel_builds_a_pack_and_the_manual_where_there_is_no_checkout(wheel: Path, tmp_path: Path, demo: Path, manual: Path) -> None:
    env = {key: value for key, value in os.environ.items() if key not in ("PYTHONPATH", "VIRTUAL_ENV")}
    subprocess.run([sys.executable, "-m", "venv", str(tmp_path / "env")], check=True)
    subprocess.run([str(tmp_path / "env" / "bin" / "pip"), "install", "--quiet", "--disable-pip-version-check", str(wheel)],
                   check=True, env=env, cwd=tmp_path)
    doorpost = str(tmp_path / "env" / "bin" / "doorpost")
    subprocess.run([doorpost, "new", "mine"], check=True, cwd=tmp_path, env=env)
    done = subprocess.run([doorpost, "build", "mine", "--out", "packs"], cwd=tmp_path, env=env, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "packs" / "J-0001" / "installer" / "search" / "search_index.js").is_file()
    # The same job gives the same bytes from the wheel as from the checkout.
    subprocess.run([doorpost, "build", str(ROOT / "jobs" / "thrift-cottage"), "--out", "packs"], check=True, cwd=tmp_path, env=env,
                   capture_output=True)
    manifest = "manifest-sha256.txt"
    assert (tmp_path / "packs" / "K-2041" / manifest).read_bytes() == (demo / manifest).read_bytes()
    subprocess.run([doorpost, "manual", "--out", "manual"], check=True, cwd=tmp_path, env=env, capture_output=True)
    assert (tmp_path / "manual" / manifest).read_bytes() == (manual / manifest).read_bytes()
