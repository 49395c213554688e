"""What browser tests share: which pages there are, how they are opened, and what a browser noticed meanwhile."""
import functools
import re
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Dialog, Page, Request

from generator.terms.audience import Audience

HERE = Path(__file__).resolve().parent
AUDIENCES = tuple(one.value for one in Audience)
WITH_CODES = ("installer", "homeowner")
WITH_DRAWER = tuple(one for one in AUDIENCES if one != "station")
PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 800}
SCHEMES = ("light", "dark")
# The installer's search: its results, and pages at both depths of a pack to search from.
RESULT = ".md-search-result__link"
STARTS = ("index.html", "steps/fix.html")

# Places that the installer's script fills, and where without it a page says what to use instead.
TOLD_BY_SCRIPT = "[data-write], [data-open], [data-find], [data-results], [data-phone]"

Contexts = Callable[..., BrowserContext]


def pages_of(pack: Path) -> list[Path]:
    """Every HTML page of one reader's pack; a pack without any is a mistake."""
    pages = sorted(pack.rglob("*.html"))
    assert pages, f"{pack.name} has no page"
    return pages


def new_context(browser: Browser, **options: Any) -> BrowserContext:
    """A fresh context like a phone in light, unless told otherwise; every page in it can be asked through seen.js."""
    fresh = browser.new_context(**{"viewport": PHONE, "color_scheme": "light", "service_workers": "block", **options})
    fresh.set_default_timeout(10_000)
    fresh.add_init_script(path=HERE / "seen.js")
    return fresh


def shown_text(page: Page) -> str:
    """The text of a page's content as it is shown, blanks evened out; what only a script can tell is left out, and has tests of its own."""
    told = page.locator(TOLD_BY_SCRIPT)
    told.evaluate_all("all => all.forEach(one => { one.style.display = 'none'; })")
    text = " ".join(page.locator("article, main:not(:has(article))").inner_text().split())
    told.evaluate_all("all => all.forEach(one => { one.style.display = ''; })")
    return text


def one_of_each_kind(pack: Path) -> list[Path]:
    """Every page of a pack, and of those that lie together in a folder, made by one template, the first."""
    kinds: dict[str, Path] = {}
    for file in pages_of(pack):
        kinds.setdefault(file.parent.name if file.parent != pack else file.name, file)
    return list(kinds.values())


def search(page: Page, words: str) -> None:
    """Opens the search as a thumb does and types."""
    page.click("label.md-header__button[for=__search]")
    search_again(page, words)


def search_again(page: Page, words: str) -> None:
    """Types into the open search, all at once: one question, one answer."""
    page.fill("[name=query]", words)
    page.press("[name=query]", "End")


@dataclass
class Noticed:
    """What a browser tried and complained about: addresses asked for, faults, dialogs."""

    requests: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)


def notice(context: BrowserContext) -> Noticed:
    """Notes down everything that pages of a context do from now on, failed requests too."""
    seen = Noticed()

    def failed(request: Request) -> None:
        # What the browser itself gave up because another page was opened is nobody's fault.
        if request.failure != "net::ERR_ABORTED":
            seen.faults.append(f"{request.url}: {request.failure}")

    def said(message: ConsoleMessage) -> None:
        # What drives the browser here lets no worker in, and says so itself; workers have tests of their own.
        if message.type in ("error", "warning") and message.text != "Service Worker registration blocked by Playwright":
            seen.faults.append(f"{message.type}: {message.text}")

    def ended(dialog: Dialog) -> None:
        seen.dialogs.append(dialog.message)
        dialog.dismiss()

    context.on("request", lambda request: seen.requests.append(request.url))
    context.on("requestfailed", failed)
    context.on("console", said)
    context.on("weberror", lambda error: seen.faults.append(f"script: {error.error}"))
    context.on("dialog", ended)
    return seen


def outside(addresses: list[str], root: str) -> list[str]:
    """The addresses that lie outside a pack. What a page holds in itself (data:, blob:) asks nobody, nor does a telephone number."""
    return [one for one in addresses if not one.startswith((root, "data:", "blob:", "tel:"))]


def only_from(context: BrowserContext, root: str) -> None:
    """Cuts the network: everything but the addresses below `root` fails."""
    context.route(re.compile(f"^(?!{re.escape(root)})"), lambda route: route.abort())


class _Quiet(SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *_: object) -> None:
        """Nothing: a failed request shows in the browser."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serves a folder on this machine only; gives the address of its root, with a slash at its end."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(folder)))
    server.daemon_threads = True
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}/"
    finally:
        server.shutdown()
        server.server_close()


@contextmanager
def rooted(pack: Path, way: str) -> Iterator[str]:
    """The address of a pack's folder, opened from the disk ("file") or over HTTP from this machine ("loopback")."""
    if way == "file":
        yield f"{pack.as_uri()}/"
    else:
        with served(pack) as address:
            yield address


def below(address: str, root: str) -> str:
    """The path of a page below a pack's root, without its anchor."""
    return unquote(urlsplit(address.removeprefix(root)).path)
