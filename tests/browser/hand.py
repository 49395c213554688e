"""What tests of the pack in the hand share: a page with the keeper in it, entries made up, and Chromium as a process that can be killed."""
import os
import shutil
import signal
import subprocess
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser.conftest import QUIET

RESULTS = "results.html"
FIELDS = ("id", "device", "step", "what", "value", "unit", "result", "at", "by", "note")
# One thing of the demo job that is asked, and another.
LINK = {"device": "D1", "step": "signal-d1", "what": "signal/1/from-unit/level"}
ADD = "thing => Doorpost.keep.add(thing)"
ALL = "() => Doorpost.keep.all()"
# A name that was drawn, with its lines.
SIGN = """drawn => Doorpost.keep.add({device: "", step: "sign", what: "signature/customer", value: Doorpost.entries.hash(drawn), drawn}).then(one => one.value)"""
STATE = "() => Doorpost.keep.state()"
PATIENCE = 60


def opened(context: BrowserContext, address: str) -> Page:
    """A page of a pack, once its script has looked at what is kept."""
    page = context.new_page()
    page.goto(address)
    page.wait_for_function("document.querySelector('[data-part=scripted]:not([hidden])') || document.querySelector('[data-part=kept].warn')")
    return page


def entry(phone: str, number: int, **more: str) -> dict[str, str]:
    """An entry as another phone would have written it."""
    made = dict.fromkeys(FIELDS, "") | LINK | {"id": f"{phone}-aaaaaa-{number:06}", "at": "2026-11-24T10:05:00+00:00"}
    return made | more


def file_of(page: Page, phone: str, entries: Sequence[dict[str, str]], **more: Any) -> dict[str, Any]:
    """A results file of the pack that a page belongs to."""
    mark = page.evaluate("() => ({reference: DOORPOST.reference, revision: DOORPOST.revision, fingerprint: DOORPOST.fingerprint})")
    return {"format": 1, **mark, "phone": phone, "entries": list(entries), "signatures": {}} | more


@contextmanager
def process(chromium: Browser, profile: Path) -> Iterator[tuple[Page, Any]]:
    """A Chromium of its own over a profile that lasts: a page of it, and what kills all of it at once."""
    program = shutil.which("chromium")
    port = profile / "DevToolsActivePort"
    port.unlink(missing_ok=True)
    started = subprocess.Popen([program, *QUIET, "--headless", "--remote-debugging-port=0", f"--user-data-dir={profile}", "about:blank"],
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)

    def kill() -> None:
        os.killpg(started.pid, signal.SIGKILL)
        started.wait()

    try:
        address = _listening(port)
        yield chromium.browser_type.connect_over_cdp(address).contexts[0].pages[0], kill
    finally:
        if started.poll() is None:
            kill()


def _listening(port: Path) -> str:
    until = time.monotonic() + PATIENCE
    while not (port.is_file() and "\n" in port.read_text()):
        assert time.monotonic() < until, "Chromium does not listen"
        time.sleep(0.02)
    return f"http://127.0.0.1:{port.read_text().split()[0]}"
