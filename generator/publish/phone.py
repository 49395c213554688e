"""What lets a phone keep the installer's pack where it stands at an HTTPS address: a service worker that knows each file by its checksum, the
manifest by which it comes to the home screen, and icons.

Forms: Service Workers and Web Application Manifest, W3C (from memory).
"""
import hashlib
import json
from functools import lru_cache
from pathlib import Path

from generator.pages.page import Stamp
from generator.publish.hand import PARTS, lean
from generator.publish.png import png

WORKER, MANIFEST = "phone-worker.js", "phone.webmanifest"
SOURCE = PARTS / "worker" / WORKER
# Over HTTP the search reads its index as data; the same as a script is for pages that are opened as files.
FOR_FILES = "search/search_index.js"
# Sides in pixels: what home screens ask for.
ICONS = {"icon-180.png": 180, "icon-512.png": 512}
DARK, LIGHT = (0x17, 0x44, 0x3F), (0xFF, 0xFF, 0xFF)
# The mark of the pages' head in a square of 24: a door, its frame, its handle; each from left, top, right, bottom.
SIDE = 24
MARK = ((4, 2, 15, 4), (4, 4, 6, 20), (13, 4, 15, 20), (4, 20, 15, 22), (16, 2, 20, 22), (11, 11, 12, 13))


def write_phone(stamp: Stamp, folder: Path) -> None:
    """Writes all of it into the folder of a pack that is otherwise finished."""
    for name, side in ICONS.items():
        (folder / name).write_bytes(icon(side))
    (folder / MANIFEST).write_text(manifest(stamp), encoding="utf-8", newline="\n")
    (folder / WORKER).write_text(worker(stamp, checksums(folder)), encoding="utf-8", newline="\n")


def checksums(folder: Path) -> dict[str, str]:
    """The SHA-256 of every file that a phone keeps, by its name from the pack's first folder."""
    files = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    return {name: hashlib.sha256((folder / name).read_bytes()).hexdigest() for name in files if name not in (WORKER, FOR_FILES)}


def worker(stamp: Stamp, files: dict[str, str]) -> str:
    """The worker of one pack. Its version follows from what the files hold: another pack is another script, which browsers notice."""
    version = hashlib.sha256(json.dumps(files, sort_keys=True).encode()).hexdigest()[:12]
    pack = {"reference": stamp.reference, "version": version, "fingerprint": stamp.fingerprint, "files": files}
    return f"const PACK = {json.dumps(pack, ensure_ascii=False, separators=(',', ':'))};\n{worker_script()}"


@lru_cache(maxsize=1)
def worker_script() -> str:
    """What the worker does, the same for every pack."""
    return lean(SOURCE.read_text(encoding="utf-8"), WORKER)


def manifest(stamp: Stamp) -> str:
    """By what name and picture the pack stands on the home screen, and where it opens."""
    said = {
        "name": f"{stamp.title} · {stamp.reference}", "short_name": stamp.reference, "lang": "en", "start_url": "index.html", "scope": "./",
        "display": "standalone", "background_color": "#ffffff", "theme_color": "#17443f",
        "icons": [{"src": name, "sizes": f"{side}x{side}", "type": "image/png"} for name, side in ICONS.items()],
    }
    return json.dumps(said, ensure_ascii=False, indent=1) + "\n"


@lru_cache(maxsize=4)
def icon(side: int) -> bytes:
    """The mark on its own ground, with a margin of a quarter all round, so that a round mask cuts nothing off."""
    unit = side / (SIDE * 1.5)
    margin = SIDE / 4
    places = [x / unit - margin for x in range(side)]
    # Few rows differ: those between the same edges of the mark are one.
    return png([_row(tuple(span for span in MARK if span[1] <= y < span[3]), tuple(places)) for y in places], DARK, LIGHT)


@lru_cache(maxsize=32)
def _row(spans: tuple[tuple[int, ...], ...], places: tuple[float, ...]) -> list[bool]:
    """One row of pixels, true for the ground beside the mark."""
    return [not any(left <= x < right for left, _, right, _ in spans) for x in places]
