"""The office's side of the day that is played: the large job issued into one file, and what phones send home taken in and shown in the record."""
import json
import re
import shutil
import socket
from contextlib import redirect_stdout
from dataclasses import dataclass
from datetime import date
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag

from generator.cli import main
from generator.model.found import FoundEntry
from generator.pipeline import pack_of
from generator.publish.pocket import NAME, pocket
from generator.publish.render import environment, render, translations
from generator.record import site
from generator.record.issue import issue
from generator.terms.audience import Audience
from tests.conftest import JOBS

LARGE, ISSUED = "curlew-house", date(2026, 10, 5)
SITE, COMPLETION = "site.html", "completion.html"


@dataclass
class House:
    """The large job, issued: its file, the folder of the one file that was sent, and a place for more."""

    job: Path
    sent: Path
    folder: Path

    @property
    def address(self) -> str:
        return (self.sent / NAME).as_uri()


@dataclass
class Home:
    """What came of taking files in: exit code, what was printed, files under site/, pages of the record."""

    code: int
    told: str
    site: dict[str, bytes]
    pages: dict[str, BeautifulSoup]


def issued(folder: Path) -> House:
    """The job issued and its file built with every way to a network shut. Of the archive what was issued alone: packs have tests of their own."""
    shutil.copytree(JOBS, folder / "jobs")
    job, sent = folder / "jobs" / LARGE / "job.yaml", folder / "sent"
    sent.mkdir()

    def fill(_: Any, place: Path, more: dict[str, bytes]) -> None:
        for name, content in more.items():
            (place / name).write_bytes(content)

    def refuse(*_: Any) -> None:
        raise OSError("no network")

    with pytest.MonkeyPatch.context() as cut:
        for way in ("connect", "connect_ex", "sendto"):
            cut.setattr(socket.socket, way, refuse)
        cut.setattr(socket, "getaddrinfo", refuse)
        pack = pack_of(issue(job, ISSUED, folder / "archive", fill).job, Audience.INSTALLER, translations().gettext, {})
        (sent / NAME).write_text(pocket(pack, translations()), encoding="utf-8", newline="\n")
    return House(job, sent, folder)


def home(house: House, *files: Path) -> Home:
    """Takes files in by the command; gives what came of it, with the pages of the record that show it."""
    out, done, take_in = StringIO(), [], site.take_in

    def seen(*all: Any) -> Any:
        done.append(take_in(*all))
        return done[-1]

    with pytest.MonkeyPatch.context() as spy, redirect_stdout(out):
        spy.setattr(site, "take_in", seen)
        code = main(["results", str(house.job), *map(str, files)])
    pack, env = pack_of(done[-1].job, Audience.RECORD, translations().gettext, {}), environment(translations())
    pages = {page.path: BeautifulSoup(render(page, env).html, "html.parser") for page in pack.pages if page.path in (SITE, COMPLETION)}
    return Home(code, out.getvalue(), {path.name: path.read_bytes() for path in (house.job.parent / "site").iterdir()}, pages)


def entries_of(file: Path) -> list[FoundEntry]:
    return [FoundEntry.model_validate(one) for one in json.loads(file.read_text(encoding="utf-8"))["entries"]]


def row(page: BeautifulSoup, device: str, title: str) -> Tag:
    """A line of the page of what was found."""
    heading = next(one for one in page.select("h2") if re.match(rf"{re.escape(device)}( |$)", one.get_text()))
    return next(one for one in heading.find_parent("section").select("tr") if one.th and one.th.get_text() == title)


def text(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def differences(page: BeautifulSoup) -> list[str]:
    return [text(one) for one in page.find(id="differences").find_parent("section").select("li")]
