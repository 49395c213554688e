"""Is the one file that is carried the installer's pack: whole but for what it says it leaves out, within itself, and small?"""
import math
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, NavigableString
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint

from generator.publish import pocket as publish_pocket
from generator.publish.drawing.thin_paths import thin_paths, thinned
from generator.publish.lean.page import lean_html
from generator.publish.lean.short_names import short_names
from generator.publish.lean.shorter import SHORTER
from generator.publish.lean.style import lean_css
from generator.publish.manifest import MANIFEST
from generator.publish.parts_of_file import as_parts, part_id
from generator.publish.pocket import MOST_BYTES, NAME, is_left_out, pocket
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from tests.conftest import JOBS, packs_of

LARGE = JOBS / "curlew-house" / "job.yaml"


@pytest.fixture(scope="module")
def pack():
    return next(one for one in packs_of(LARGE) if one.audience is Audience.INSTALLER)


@pytest.fixture(scope="module")
def text(pack) -> str:
    return pocket(pack, translations())


@pytest.fixture(scope="module")
def file(pack) -> BeautifulSoup:
    """The file with its classes named as on the pages."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(publish_pocket, "short_names", lambda page, style, script: (page, style))
        return BeautifulSoup(pocket(pack, translations()), "html5lib")


@pytest.fixture(scope="module")
def pages(pack) -> dict[str, BeautifulSoup]:
    """The pages of the folder, as they are printed there."""
    env = environment(translations())
    return {page.path: BeautifulSoup(render(page, env).html, "html5lib") for page in pack.pages}


def plain(node) -> str:
    return " ".join(node.get_text(" ").split())


def test_the_large_job_fits_into_a_million_bytes(text: str) -> None:
    assert len(text.encode()) <= MOST_BYTES == 1_000_000


def test_ids_are_unique_and_every_link_leads_within(file: BeautifulSoup) -> None:
    ids = [one["id"] for one in file.find_all(id=True)]
    assert len(ids) == len(set(ids)) > 800
    links = [one["href"] for one in file.find_all(href=True)]
    assert len(links) > 1500
    assert [one for one in links if not one.startswith("tel:") and one[1:] not in ids] == []
    for attribute in ("for", "aria-labelledby", "aria-describedby"):
        assert [one for tag in file.find_all(attrs={attribute: True}) for one in tag[attribute].split() if one not in ids] == []


def test_nothing_is_loaded(file: BeautifulSoup) -> None:
    assert file.find_all(src=True) == []
    assert file.find_all("link") == [] and "@import" not in file.style.string and "url(" not in file.style.string


def test_every_page_that_is_not_named_as_left_out_is_there(pack, file: BeautifulSoup) -> None:
    named = plain(file.find(id="pages"))
    for page in pack.pages:
        left = is_left_out(page)
        assert (file.find(id=part_id(page.path)) is None) == (left and page.path != "sources.html"), page.path
        assert page.title in named


def said(section, *parts: str) -> list[list[str]]:
    return [[plain(one) for one in section.select(part)] for part in parts]


def test_every_step_and_hold_point_stands_with_all_that_is_to_do_and_its_safety_before_it(pages, file: BeautifulSoup) -> None:
    steps = [one for path, page in pages.items() if path.startswith("steps/") for one in page.select("[data-step]")]
    there = file.select("[data-step]")
    assert len(there) == len(steps) > 300
    for own, other in zip(steps, there):
        assert (own["data-step"], own.get("data-hold")) == (other["data-step"], other.get("data-hold"))
        parts = (".count", "h2", ".do > li", ".facts dl", ".finding p", ".hold p", ".office", ".safety:is(.again, .first) > p:not(p.word) > .word", ".tick", ".act")
        assert said(own, *parts) == said(other, *parts), own["data-step"]
        names = [[plain(one.select(".safety strong, .safety b")[-1]) for one in section.select(".safety") if one.select("strong, b")] for section in (own, other)]
        assert names[0] == names[1]
        if own.get("data-hold") is None:
            assert other.h2["id"] == own["data-step"]
            assert _stands_before(other, ".safety", ".do")


def _stands_before(section, first: str, then: str) -> bool:
    order = [one for one in section.select(f"{first}, {then}")]
    return all(one not in section.select(first) for one in order[order.index(section.select_one(then)):])


def test_every_safety_message_stands_in_full_and_each_line_leads_to_its_own(pages, file: BeautifulSoup) -> None:
    full = {plain(one) for one in file.select("#safety-html .safety p")}
    assert {plain(one) for one in pages["safety.html"].select(".safety p")} == full and len(full) > 20
    lines = file.select(".safety.again a")
    assert len(lines) > 100
    for line in lines:
        message = file.find(id=line["href"][1:]).find_parent(class_="safety")
        assert plain(line.find_parent(class_="again").p.find_all("b")[-1]) in plain(message)


@pytest.mark.parametrize("path, parts", [
    ("slots.html", ("h1, h2, p", "th", "td")),
    ("tests.html", ("h1, h2", ".what")),
    ("findings.html", ("h1, h2, p", "dt", "dd")),
    ("plan.html", ("h1, h2, p", "text", "li", "label")),
    ("radio.html", ("h1, h3", ".facts:not(.inputs) dd", ".missing", ".state")),
    ("kit.html", ("h1, h2, p", "li")),
    ("calls.html", ("h1, h2, h3", "p:not(.result, .blanks)")),
    ("settings.html", ("h1, h2, p", "th", "td")),
])
def test_a_page_says_there_what_it_says_in_the_folder(pages, file: BeautifulSoup, path: str, parts: tuple[str, ...]) -> None:
    own, other = said(pages[path], *parts), said(file.find(id=part_id(path)), *parts)
    assert all(own) and own == other


def test_every_line_of_the_checklist_says_what_it_accepts_and_names_its_source(pages, file: BeautifulSoup) -> None:
    sources = [plain(one) for one in file.select("#sources-html li")]
    own, other = pages["tests.html"].select(".checks > li"), file.find(id="tests-html").select(".checks > li")
    assert len(own) == len(other) > 500
    for line, short in zip(own, other):
        number = int(re.search(r"\[(\d+)\]$", plain(short))[1])
        assert plain(line.p) == plain(short.p).removesuffix(plain(short.i)).strip()
        measured, _, source = plain(line.select_one(".source")).rpartition("From: ")
        assert source == sources[number - 1] and bool(measured) == plain(short.i).startswith("Measured in ")


def test_every_unit_has_its_page_with_place_numbers_and_actions(pages, file: BeautifulSoup) -> None:
    units = [path for path in pages if path.startswith("d/")]
    assert len(units) == 38
    for path in units:
        own, other = pages[path], file.find(id=part_id(path))
        for one in own.select("details, .checks, .safety, .hint, #code, .code"):
            one.decompose()
        assert said(own, "h1, h2", "dt", "dd", "p:not(.result)", "figcaption") == said(other, "h1, h2", "dt", "dd", "p:not(.result)", "figcaption"), path
        assert not other.select(".qr")


def test_each_figure_of_a_working_stands_without_it(pages, file: BeautifulSoup) -> None:
    own = [plain(one) for path, page in pages.items() if file.find(id=part_id(path)) for one in page.select("details.working > summary")]
    assert own == [plain(one) for one in file.select(".worked")] and len(own) > 100


def test_what_is_said_shorter_is_found_on_the_pages(pack) -> None:
    """A pattern that finds nothing any more is dead, and the file longer than it was thought."""
    env = environment(translations())
    whole = "".join(render(page, env).html for page in pack.pages)
    assert [pattern.pattern for pattern, _ in SHORTER if not pattern.search(whole)] == []


def test_it_lies_beside_the_packs_is_listed_and_the_same_twice(every_demo: Path, text: str) -> None:
    lying = every_demo / "K-2050" / NAME
    assert lying.read_text(encoding="utf-8") == text
    assert f"  {NAME}\n" in (every_demo / "K-2050" / MANIFEST).read_text(encoding="utf-8")


def test_only_the_installers_pack_is_made_into_it() -> None:
    other = next(one for one in packs_of(JOBS / "thrift-cottage" / "job.yaml") if one.audience is Audience.HOMEOWNER)
    with pytest.raises(ValueError, match="only the installer"):
        pocket(other, translations())


def test_a_link_to_nowhere_is_refused() -> None:
    with pytest.raises(ValueError, match="no page of the pack has"):
        as_parts({"a.html": '<p><a href="b.html#c">x</a></p>'}, {})
    assert as_parts({"a.html": '<p id="x"><a href="b.html#c">x</a></p>'}, {"b.html": "pages"}) == {"a.html": '<p><a href="#pages">x</a></p>'}


# What can stand in a page: nested elements whose end tags may or may not be left out, with blanks and quotes about.
WORDS = st.text(st.sampled_from("ab \n'\"=&;/<>"), max_size=6).map(lambda one: one.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&#34;").replace("'", "&#39;"))
INLINE = st.recursive(WORDS, lambda inner: st.tuples(st.sampled_from(["b", "span", "em"]), WORDS, inner).map(lambda one: f'<{one[0]} title="{one[1]}">{one[2]}</{one[0]}>'))
BLOCK = st.recursive(INLINE.map(lambda one: f"<p>{one}</p>"), lambda inner: st.one_of(
    st.lists(inner, max_size=3).map(lambda all: "<ul>" + "".join(f"\n<li>{one}</li> " for one in all) + "</ul>"),
    st.lists(inner, min_size=1, max_size=3).map(lambda all: "<dl>" + "".join(f"<dt>x</dt>\n<dd>{one}</dd>" for one in all) + "</dl>"),
    st.lists(inner, min_size=1, max_size=3).map(lambda all: "<table><tbody>" + "".join(f"<tr><th>a</th>\n<td>{one}</td></tr>" for one in all) + "</tbody></table>"),
    st.tuples(inner, inner).map(lambda pair: f'<div class="a b">{pair[0]} {pair[1]}</div>')))


def tree(html: str) -> list:
    """Elements with their attributes and texts, blanks evened out, as a browser builds them."""
    def of(node) -> list:
        out = []
        for one in node.children:
            if isinstance(one, NavigableString):
                if " ".join(one.split()):
                    out.append(" ".join(one.split()))
            else:
                out.append((one.name, sorted((key, str(value)) for key, value in one.attrs.items()), of(one)))
        return out
    return of(BeautifulSoup(html, "html5lib").body)


@given(BLOCK)
def test_fewer_bytes_are_the_same_page(html: str) -> None:
    assert tree(lean_html(html)) == tree(html)


def test_every_page_in_fewer_bytes_is_the_same_page(pack) -> None:
    env = environment(translations())
    for page in pack.pages[:9]:
        html = render(page, env).html
        assert tree(lean_html(html)) == tree(html), page.path
        assert len(lean_html(html)) < len(html) * 0.97


def test_a_picture_that_closes_itself_and_an_address_that_ends_in_a_stroke_stay_apart() -> None:
    assert lean_html('<svg><path d="M1" r="2"/></svg><a href="x/">y</a>') == '<svg><path d=M1 r=2 /></svg><a href=x/>y</a>'
    assert lean_html("<pre>a  b\n c</pre>") == "<pre>a  b\n c</pre>"


def test_a_style_keeps_the_rules_that_meet_something_and_no_others() -> None:
    style = "/* c */ .a, .gone { color: red; } @media print { .gone { x: y; } } @media screen { .a :is(.gone, b) { p: q; } } #id:not(.gone) { z: 1; }"
    assert lean_css(style, '<p class="a" id="id">') == ".a{color:red}@media screen{.a :is(.gone,b){p:q}}#id:not(.gone){z:1}"


def test_short_names_are_given_in_page_and_style_alike_and_never_to_what_a_script_names() -> None:
    page, style = short_names('<p class="long kept"><b class=long>', ".long .kept{}.other{}", 'one.className = "kept a"; let long;')
    assert (page, style) == ('<p class="b kept"><b class=b>', ".b .kept{}.other{}")


@given(st.lists(st.tuples(st.integers(0, 300), st.integers(0, 300)), min_size=2, max_size=60), st.floats(0.01, 40))
def test_an_outline_with_fewer_corners_lies_nowhere_farther_off_than_allowed(points, off: float) -> None:
    """Against shapely's distance of each corner from the line that is left."""
    kept = thinned(points, off)
    line = LineString([points[at] for at in kept])
    assert kept[0] == 0 and kept[-1] == len(points) - 1
    assert all(line.distance(ShapelyPoint(one)) <= off + 1e-9 for one in points)


def test_a_round_outline_loses_corners_and_a_wall_none() -> None:
    ring = "M" + "L".join(f"{100 + 50 * math.cos(at / 60):.1f} {100 + 50 * math.sin(at / 60):.1f}" for at in range(376)) + "Z"
    assert len(thin_paths(f'<path d="{ring}"/>')) < len(ring) / 5
    wall = '<path d="M1 1L2 1.05L3 1L3 4L1 4Z"/>'
    assert thin_paths(wall) == wall
