"""What pages say twice or for the eye alone, said once or shorter in the one file that is carried."""
import re

STRONG_STYLE = re.compile(r"\bstrong\b")
# Each pattern and what stands in its place. A test names the one that finds nothing any more.
SHORTER: tuple[tuple[re.Pattern[str], str], ...] = tuple((re.compile(pattern, re.S), instead) for pattern, instead in (
    # What cannot be signed without a result, and where that result stands, in one line.
    (r'<p class="source">If it cannot be done, this cannot be signed: ([^<]*)\.</p>\s*<p class="result"><strong>Result:</strong> written at its step, on the phone '
     r'or in the day on paper; in the checklist it is\s*(<a href="[^"]*">\1</a>\s*</p>)', r'<p class="result"><strong>Result</strong>, without which this cannot be signed: \2'),
    # Results are written at their step; where they stand in the checklist, its own list tells, in the order of units.
    (r'<p class="result"><strong>Result:</strong> written at its step, on the phone or in the day on paper; in the checklist it is\s*'
     r'(?:<a href="[^"]*">[^<]*</a>,\s*)*<a href="[^"]*">[^<]*</a>\s*</p>', ""),
    # Blanks and boxes are for a page that is printed; the file says where printed ones are.
    (r'<p class="blanks">.*?</p>', ""),
    (r'<span class="box"></span>\s*', ""),
    # Links beside those under the thumb.
    (r'<p class="show">\s*<a href="[^"]*">(?:Step before|All at once)<.*?</p>', ""),
    (r'<a class="edge" href="[^"]*">Next <span aria-hidden="true">›</span></a>', ""),
    (r'<span aria-hidden="true">‹</span> ', ""),
    # Names of what bears its name in its first line.
    (r' aria-labelledby="[^"]*"(?= data-)', ""),
    # A step's unit, which nothing asks for there.
    (r'(?<=") data-unit="[^"]*"(?=>\s*<p class="count")', ""),
    (r'(<nav class="thumb") aria-label="[^"]*"', r"\1"),
    (r"<strong>With the station</strong> this is the same test, made once, while the operator reads:", "<strong>With the station</strong>, the same test:"),
    (r' role="note"', ""),
    # The message stands before its link.
    (r'aria-label="In full: [^"]*"', 'aria-label="In full"'),
    # Shown where a mouse rests, which no thumb does; the same stands in words below the drawing.
    (r"<title>[^<]*</title>", ""),
    (r"(</?)strong\b", r"\1b"),
))


def shorter(html: str) -> str:
    """A page with all of that."""
    for pattern, instead in SHORTER:
        html = pattern.sub(instead, html)
    return html
