"""Do the files of an archive bear a time by which a host tells one issue from the next, and is it nobody's clock?"""
import functools
import os
import threading
import urllib.error
import urllib.request
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from generator.disk.archive import moment_of, write_zip


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Nothing."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serves a folder on this machine only; gives the address of its root."""
    with ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}/"
        server.shutdown()


def test_a_host_tells_the_files_of_the_next_issue_from_those_of_the_last_even_of_one_day_and_size(tmp_path) -> None:
    """Held against the conditional answers of Python's own server of files (RFC 9110, section 13.1.3), for archives unpacked with the times in them."""
    (tmp_path / "pack").mkdir()
    at = tmp_path / "host" / "K-1"
    with served(tmp_path / "host") as address:
        known = ""
        for on, revision in ((date(2026, 9, 14), 1), (date(2026, 9, 14), 2), (date(2026, 9, 15), 3)):
            (tmp_path / "pack" / "phone-worker.js").write_text(f"revision {revision}", "utf-8")
            write_zip(tmp_path / "pack", tmp_path / "pack.zip", "K-1", moment_of(on, revision))
            with zipfile.ZipFile(tmp_path / "pack.zip") as file:
                file.extractall(tmp_path / "host")
                (entry,) = file.infolist()
            os.utime(at / "phone-worker.js", times=(datetime(*entry.date_time).timestamp(),) * 2)
            asked = urllib.request.Request(f"{address}K-1/phone-worker.js", headers={"If-Modified-Since": known} if known else {})
            with urllib.request.urlopen(asked) as answer:
                known = answer.headers["Last-Modified"]
                assert answer.status == 200 and answer.read() == f"revision {revision}".encode()
            with pytest.raises(urllib.error.HTTPError) as same:
                urllib.request.urlopen(urllib.request.Request(asked.full_url, headers={"If-Modified-Since": known}))
            assert same.value.code == 304


@pytest.mark.parametrize("day, revision, moment", [
    (date(1970, 1, 1), 1, (1980, 1, 1, 0, 0, 2)), (date(2200, 1, 1), 9999, (2107, 12, 31, 5, 33, 18)), (date(2026, 9, 14), 10**6, (2026, 9, 14, 23, 59, 58))])
def test_every_day_and_revision_has_a_moment_that_a_zip_can_hold(day: date, revision: int, moment: tuple[int, ...]) -> None:
    assert moment_of(day, revision) == moment
