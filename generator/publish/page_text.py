"""What does a page say, line by line, without its markup?"""
from html.parser import HTMLParser

BLOCKS = {"p", "li", "tr", "dl", "h1", "h2", "h3", "summary", "figcaption", "div", "caption", "pre"}
BETWEEN = {"dt": ": ", "td": " · ", "th": " · "}
UNSAID = {"svg", "style", "script"}


class _Lines(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._now = ""
        self._unsaid = 0

    def handle_starttag(self, tag: str, attributes) -> None:
        self._unsaid += tag in UNSAID
        self._now += " " if tag == "br" else ""
        if tag in BLOCKS:
            self.end_line()

    def handle_endtag(self, tag: str) -> None:
        self._unsaid -= tag in UNSAID
        if tag in BLOCKS:
            self.end_line()
        self._now += BETWEEN.get(tag, "")

    def handle_data(self, data: str) -> None:
        if not self._unsaid:
            self._now += data

    def end_line(self) -> None:
        """Takes what was said so far as a line, without blanks and marks at its ends."""
        line = " ".join(self._now.split()).strip(" ·:")
        if line:
            self.lines.append(line)
        self._now = ""


def page_text(html: str) -> tuple[str, ...]:
    """The lines of a page: a block each; the cells of a row and a name and its value stand on one line."""
    parser = _Lines()
    parser.feed(html)
    parser.close()
    parser.end_line()
    return tuple(parser.lines)
