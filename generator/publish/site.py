"""One reader's pack, or the manual, as files in a folder."""
import logging
import os
from dataclasses import replace
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.pages.dates import CALENDAR
from generator.pages.page import Pack, Site
from generator.publish.ical import ical_text
from generator.publish.phone import write_phone
from generator.publish.places import MKDOCS_CONFIG
from generator.publish.plugin import site_of
from generator.publish.render import environment, render, translations
from generator.publish.tables import csv_text, json_text
from generator.terms.audience import Audience

logging.getLogger("mkdocs").setLevel(logging.WARNING)


def write_site(pack: Pack, folder: Path, words=None) -> None:
    """Writes a pack into an empty folder of ours. `words` are the homeowner's translations; English if not given."""
    words = words or translations()
    if pack.audience is Audience.STATION:
        _write_station(pack, folder, words)
    else:
        write_with_mkdocs(replace(site_of(pack), kept=bool(pack.address)), folder, words)
        if pack.address:
            write_phone(pack.stamp, folder)
    if pack.calendar:
        text = ical_text(pack.calendar.calendar, title=pack.stamp.title, reference=pack.stamp.reference, as_of=pack.calendar.as_of)
        (folder / CALENDAR).write_text(text, encoding="utf-8", newline="")


def write_with_mkdocs(site: Site, folder: Path, words=None) -> None:
    """Writes a site of ready pages into an empty folder of ours."""
    words = words or translations()
    # MkDocs stamps pages with the day of the build unless told otherwise; no page of ours holds the clock.
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = "315532800"
    try:
        # MkDocs would count a relative folder from where its configuration stands.
        with open(MKDOCS_CONFIG, "rb") as handle:
            config = load_config(handle, config_file_path=str(MKDOCS_CONFIG), site_dir=str(folder.resolve()))
        plugin = config.plugins["doorpost"]
        plugin.site, plugin.say = site, words
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
        config.plugins.on_shutdown()
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


def _write_station(pack: Pack, folder: Path, words) -> None:
    page = pack.pages[0]
    folder.mkdir(parents=True, exist_ok=True)
    (folder / page.path).write_text(render(page, environment(words)).html, encoding="utf-8")
    view = page.view
    (folder / "zones.csv").write_text(csv_text(view.zones), encoding="utf-8", newline="")
    (folder / "events.csv").write_text(csv_text(view.events), encoding="utf-8", newline="")
    (folder / "station.json").write_text(json_text(view), encoding="utf-8")
