"""Do templates loop and print and no more, each with its view and reader named in the first line?"""
import re
from dataclasses import is_dataclass
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

from generator.cli import parser
from generator.cli.manual import manual_site
from generator.publish.places import TEMPLATES
from generator.publish.render import environment, translations
from tests.conftest import JOBS, packs_of

FIRST_LINE = re.compile(r"\{# view: .+ · audience: .+ #\}")
ARITHMETIC = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow, nodes.Neg, nodes.Compare)
FILTERS = {"note", "replace", "capitalize", "e"}


def own() -> list[Path]:
    return sorted(TEMPLATES.rglob("*.j2"))


def parsed(source: str) -> nodes.Template:
    return environment(translations()).parse(source)


def faults(source: str) -> list[str]:
    """What a template does besides looping and printing."""
    tree = parsed(source)
    out = [type(node).__name__ for kind in ARITHMETIC for node in tree.find_all(kind)]
    out += [f"filter {node.name}" for node in tree.find_all(nodes.Filter) if node.name not in FILTERS]
    out += [f"test {node.name}" for node in tree.find_all(nodes.Test)]
    return out + ["set" for _ in tree.find_all(nodes.Assign)]


@pytest.mark.parametrize("path", own(), ids=lambda path: path.relative_to(TEMPLATES).as_posix())
def test_a_template_only_loops_and_prints(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    assert FIRST_LINE.fullmatch(source.splitlines()[0]), "line one names view and audience"
    assert faults(source) == []
    assert "|safe" not in source.replace(" ", "") and "autoescape" not in source


@pytest.mark.parametrize("source, fault", [
    ("{{ view.a + 1 }}", "Add"),
    ("{% if view.margin < 10 %}x{% endif %}", "Compare"),
    ("{{ view.rows|sort }}", "filter sort"),
    ("{{ view.x|round }}", "filter round"),
    ("{% if view.x is even %}x{% endif %}", "test even"),
    ("{% set x = 1 %}", "set"),
])
def test_a_template_that_thinks_is_seen(source: str, fault: str) -> None:
    assert faults(source) == [fault]


def test_a_missing_field_is_an_error() -> None:
    with pytest.raises(jinja2.UndefinedError):
        environment(translations()).from_string("{% if view.nothing %}x{% endif %}").render(view=object())


def test_every_template_of_a_page_is_used_and_prints_a_dataclass(demo_packs) -> None:
    # The small demo has no plan; only the large one has ways that are walked.
    pages = [page for pack in (*demo_packs, *packs_of(JOBS / "curlew-house" / "job.yaml")) for page in pack.pages]
    assert all(is_dataclass(page.view) for page in pages)
    manual = manual_site(parser()).pages
    assert all(is_dataclass(page.view) for page in manual)
    used = {page.template for page in (*pages, *manual)} | {"shared/parts.html.j2", "shared/papers.html.j2", "shared/working.html.j2",
                                                            "homeowner/one_file.html.j2", "manual/parts.html.j2", "installer/pocket.html.j2", "installer/writing.html.j2", "installer/left.html.j2",
                                                            "shared/phone.html.j2"}
    assert {path.relative_to(TEMPLATES).as_posix() for path in own()} == used
