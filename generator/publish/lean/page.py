"""The same page in fewer bytes: blanks that nothing shows, quotes and end tags that HTML lets one leave out. No element, attribute or word goes.

Which end tags and quotes may be left out: HTML Living Standard, 13.1.2.3 and 13.1.2.4 (from memory).
"""
import re
from collections.abc import Iterator
from functools import lru_cache

TOKEN = re.compile(r"<!--.*?-->|<[^>]*>|[^<]+", re.S)
NAME = re.compile(r"</?([a-zA-Z0-9]+)")
QUOTED = re.compile(r'="([^\s"\'=<>`]+)"')
BLANKS = re.compile(r"[ \t\r\n]+")
# Beside these a blank shows nothing.
BLOCKS = frozenset("address article aside blockquote br dd details div dl dt fieldset figcaption figure footer form h1 h2 h3 h4 h5 h6 header hr "
                   "legend li main nav ol p section summary table tbody td tfoot th thead tr ul".split())
# A table ends a paragraph too, but not where a page is shown by the oldest rules.
ENDS_P = frozenset("address article aside blockquote details div dl fieldset figcaption figure footer form h1 h2 h3 h4 h5 h6 header hr main "
                   "nav ol p section ul".split())
HOLDS_P = frozenset("article aside blockquote dd details div dt fieldset figcaption figure footer form header li main nav section td th".split())
# An end tag goes if one of these opens next, or one of those closes.
LEFT_OUT = {
    "li": ({"li"}, {"ul", "ol"}),
    "dt": ({"dt", "dd"}, set()),
    "dd": ({"dt", "dd"}, {"dl"}),
    "p": (ENDS_P, HOLDS_P),
    "td": ({"td", "th"}, {"tr"}),
    "th": ({"td", "th"}, {"tr"}),
    "tr": ({"tr"}, {"thead", "tbody", "table"}),
    "thead": ({"tbody"}, set()),
    "tbody": (set(), {"table"}),
}


def lean_html(html: str) -> str:
    """A part of a page, whole elements of it. What stands in `pre` stays as it is."""
    tokens = [one for one in TOKEN.findall(html) if not one.startswith("<!--")]
    kept = list(_without_blanks(tokens))
    out = [one for one, following in zip(kept, [*kept[1:], ""]) if not _needless(one, following)]
    return "".join(_unquoted(one) if one.startswith("<") else _plain(one) for one in out)


def _name(token: str) -> str:
    return _element(token) if token.startswith("<") else ""


# A page says the same few tags many times.
@lru_cache(maxsize=4096)
def _element(tag: str) -> str:
    found = NAME.match(tag)
    return found[1].lower() if found else ""


def _without_blanks(tokens: list[str]) -> Iterator[str]:
    inside = 0
    before = "div"
    for token, following in zip(tokens, [*tokens[1:], "<div>"]):
        name = _name(token)
        if name == "pre":
            inside += -1 if token.startswith("</") else 1
        if token.startswith("<") or inside:
            yield token
            before = name
            continue
        text = BLANKS.sub(" ", token)
        text = text.lstrip(" ") if before in BLOCKS else text
        text = text.rstrip(" ") if _name(following) in BLOCKS else text
        if text:
            yield text
            before = ""


def _needless(token: str, following: str) -> bool:
    """Whether an end tag goes, since what follows says as much."""
    if not token.startswith("</") or _name(token) not in LEFT_OUT:
        return False
    opens, closes = LEFT_OUT[_name(token)]
    return _name(following) in (closes if following.startswith("</") else opens)


@lru_cache(maxsize=4096)
def _unquoted(tag: str) -> str:
    bare = QUOTED.sub(r"=\1", tag)
    # What closes itself in a picture must not be taken for the end of a value.
    return f"{bare[:-2].rstrip()} />" if tag.endswith("/>") else bare


def _plain(text: str) -> str:
    """Quotes as themselves: beside tags they mean nothing."""
    return text.replace("&#39;", "'").replace("&#34;", '"')
