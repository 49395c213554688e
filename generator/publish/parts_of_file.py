"""Anchors and links of pages that become parts of one file."""
import itertools
import re
from collections import Counter
from collections.abc import Iterable, Mapping

STEPS = "steps/"
ID = re.compile(r' id="([^"]+)"')
REFERS = re.compile(r' (for|aria-labelledby|aria-describedby)="([^"]+)"')
LINK = re.compile(r'(?<= )href="([^"]*)"')
STEP = re.compile(r' data-step="([^"]+)"')
# A page and an anchor on it; the page's own is "".
Anchors = dict[tuple[str, str], str]


def part_id(path: str) -> str:
    """The anchor of a page: its path with a dash for what is no letter or digit; the ending stays, so that no step is called the same.

    >>> part_id("d/3nrw.html")
    'd-3nrw-html'
    """
    return re.sub(r"\W+", "-", path)


def steps_of(printed: Mapping[str, str]) -> str:
    """The pages of steps, one after the other."""
    return "".join(html for path, html in printed.items() if path.startswith(STEPS))


def as_parts(printed: Mapping[str, str], elsewhere: Mapping[str, str]) -> dict[str, str]:
    """Pages by their paths, with anchors that no two of them have, links that stay within the file, and no anchor to which nothing leads.
    `elsewhere` gives for each page that is left out the anchor that stands for it.

    ValueError for a link to no page of the pack, to no anchor of its page, and for two anchors that would be one.
    """
    anchors = _anchors(printed, elsewhere.values())
    parts = {path: _within(path, html, anchors, elsewhere) for path, html in printed.items()}
    led = {one for html in parts.values() for one in _led(html)} | set(STEP.findall(steps_of(printed)))
    return {path: ID.sub(lambda match: match[0] if match[1] in led else "", html) for path, html in parts.items()}


def _anchors(printed: Mapping[str, str], taken: Iterable[str]) -> Anchors:
    """The file's anchor for each of a page's. Those of steps stay as they are, since what is written down is named by them; the others are
    counted: nobody types them, and they are many."""
    steps = set(STEP.findall(steps_of(printed)))
    count = itertools.count(1)
    out = {}
    for path, html in printed.items():
        out[path, ""] = part_id(path)
        for one in ID.findall(html):
            out[path, one] = one if path.startswith(STEPS) and one in steps else f"_{next(count)}"
    twice = [one for one, times in Counter([*out.values(), *set(taken)]).items() if times > 1]
    if twice:
        raise ValueError(f"two places of one file would be called {', '.join(twice)}")
    return out


def _led(html: str) -> set[str]:
    return {one for one in re.findall(r' href="#([^"]*)"', html)} | {one for _, found in REFERS.findall(html) for one in found.split()}


def _within(path: str, html: str, anchors: Anchors, elsewhere: Mapping[str, str]) -> str:
    html = ID.sub(lambda match: f' id="{anchors[path, match[1]]}"', html)
    html = REFERS.sub(lambda match: f' {match[1]}="{" ".join(anchors[path, one] for one in match[2].split())}"', html)
    return LINK.sub(lambda match: f'href="{_href(path, match[1], anchors, elsewhere)}"', html)


def _href(path: str, href: str, anchors: Anchors, elsewhere: Mapping[str, str]) -> str:
    """A link to a page as one to its part. A telephone number stays one."""
    if href.startswith("tel:"):
        return href
    page, _, anchor = href.removeprefix("../" * path.count("/")).partition("#")
    page = page or path
    if page in elsewhere:
        return f"#{elsewhere[page]}"
    if (page, anchor) not in anchors:
        raise ValueError(f"{path}: a link to {href}, which no page of the pack has")
    return f"#{anchors[page, anchor]}"
