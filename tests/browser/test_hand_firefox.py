"""What does Debian's Firefox keep? It gives each local file a store of its own: pages opened from files must notice, the one-file pack need not."""
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.firefox import Firefox, firefox
from tests.browser.hand import LINK, RESULTS
from tests.browser.pages import served

STATE = "await Doorpost.keep.state()"
ONE_FILE = "<!doctype html><html lang=en><meta charset=utf-8><title>One file</title><script>{data}</script><script>{script}</script></html>"


@pytest.fixture(scope="module")
def fox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    with firefox(tmp_path_factory.mktemp("fox")) as running:
        yield running


@pytest.fixture(scope="module")
def pack(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The installer's pack as it lies on a disk."""
    return shutil.copytree(demo / "installer", tmp_path_factory.mktemp("disk") / "pack")


def state(fox: Firefox) -> tuple[bool, str]:
    found = fox.ask(f"{{ return {STATE}; }}")
    return found["kept"], found["why"]


def test_pages_opened_from_files_say_that_one_does_not_see_what_the_other_keeps(fox: Firefox, pack: Path) -> None:
    for name in (RESULTS, "steps/fix.html", RESULTS):
        fox.open((pack / name).as_uri())
        kept, why = state(fox)
        assert not kept and "pocket.html" in why and "paper lines" in why


def test_pages_opened_from_files_refuse_an_entry_rather_than_keep_it_where_no_page_finds_it(fox: Firefox, pack: Path) -> None:
    fox.open((pack / "steps/fix.html").as_uri())
    says = fox.ask(f"{{ return await Doorpost.keep.add({LINK}).then(one => 'kept ' + one.id, error => error.message); }}")
    assert "pocket.html" in says and fox.ask("{ return (await Doorpost.keep.all()).length; }") == 0


def test_the_page_of_what_was_written_says_so_before_anything_else(fox: Firefox, pack: Path) -> None:
    fox.open((pack / RESULTS).as_uri())
    state(fox)
    shown = fox.ask("{ const shown = document.querySelector('[data-part=kept]'); return [shown.textContent, shown.className]; }")
    assert "pocket.html" in shown[0] and shown[1] == "warn"


def test_the_pack_in_one_file_keeps_what_is_written(fox: Firefox, pack: Path) -> None:
    file = pack.parent / "one.html"
    data, script = (pack / name for name in ("hand-data.js", "hand.js"))
    file.write_text(ONE_FILE.format(data=data.read_text("utf-8"), script=script.read_text("utf-8")), encoding="utf-8")
    fox.open(file.as_uri())
    assert state(fox)[0]
    fox.ask(f"{{ return (await Doorpost.keep.add({LINK})).id; }}")
    fox.open("about:blank")
    fox.open(file.as_uri())
    assert fox.ask("{ return (await Doorpost.keep.all()).length; }") == 1


def test_over_http_entries_are_kept_and_the_drawings_sum_is_right(fox: Firefox, pack: Path) -> None:
    with served(pack) as root:
        fox.open(root + RESULTS)
        assert state(fox)[0]
        # The worked example of FIPS 180-4, "abc".
        assert fox.ask("{ return Doorpost.entries.hash('abc'); }") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_private_window_says_that_it_forgets(fox: Firefox, pack: Path) -> None:
    fox.private()
    with served(pack) as root:
        fox.open(root + RESULTS)
        kept, why = state(fox)
    assert not kept and "private window" in why


def test_refused_storage_is_said(pack: Path, tmp_path: Path) -> None:
    # 2: no site may store anything.
    with firefox(tmp_path / "fox", network__cookie__cookieBehavior=2) as fox, served(pack) as root:
        fox.open(root + RESULTS)
        kept, why = state(fox)
    assert not kept and "keeps nothing" in why and "paper lines" in why
