"""The manual's page of formulas: every calculation that gives a figure, read from the calculations themselves.

A module of `calc` that comes later stands on the page by itself. A figure is what a public function gives whose result holds a
number with decimals or a working, unless it only picks numbers out of a whole job or profile; and whatever a public function
shows by a worked example. `lacking` says what such a function's text leaves out; a test asks it of all.
"""
import ast
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from types import ModuleType
from typing import Any, get_args, get_type_hints

from generator import calc
from generator.model.papers import Papers
from generator.model.profile import Profile
from generator.pages.page import Page
from generator.terms.source import Source
from generator.terms.units import unit_of

WORKING = "Working"
# How a number is checked and how it is carried: what stands there computes none.
CARRIERS = ("bounds", "working")
# A relation with something on both sides of it; what stands in a worked example is none.
FORMULA = re.compile(r"\S\s*(?:=|≥|≤)\s*\S")
# A document, a mark of how it is known, or that it is arithmetic and no more.
SOURCED = re.compile(r"\b(source:|from memory|common practice|read second-hand|read;|computed|plain arithmetic|"
                     r"(?:EN|BS|PD|IEC|IEEE|ISO|ANSI|UL|SIA|NFPA|ITU-R|ERC|ASTM|RFC|CFR|IETF)\b[ /-]?[\w.-]*\d)", re.IGNORECASE)
EXAMPLE = re.compile(r"^>>> ")


@dataclass(frozen=True)
class WorkingView:
    """A formula as pages unfold it beside its figure: what it gives, in words, in symbols."""

    title: str
    words: str
    symbols: str


@dataclass(frozen=True)
class FormulaView:
    """One calculation: its name in the program, what it takes, what it says of itself, and its worked examples."""

    id: str
    name: str
    takes: str
    says: tuple[str, ...]
    examples: tuple[str, ...]


@dataclass(frozen=True)
class TopicView:
    """One question with the calculations that answer it, their formulas and sources."""

    id: str
    question: str
    says: tuple[str, ...]
    formulas: tuple[FormulaView, ...]
    workings: tuple[WorkingView, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True)
class FormulasView:
    """Questions with a figure for an answer, and those that are answered by sorting and comparing."""

    topics: tuple[TopicView, ...]
    others: tuple[TopicView, ...]


def formulas_page() -> Page:
    """The page."""
    topics = [_topic(module) for module in modules()]
    return Page("formulas.html", "Formulas", "manual/formulas.html.j2",
                FormulasView(tuple(one for one in topics if one.formulas), tuple(one for one in topics if not one.formulas)))


def modules() -> tuple[ModuleType, ...]:
    """Every module of the calculations, by name."""
    names = sorted(one.name for one in pkgutil.walk_packages(calc.__path__, f"{calc.__name__}.") if not one.ispkg)
    return tuple(importlib.import_module(name) for name in names)


def figures(module: ModuleType) -> tuple[Callable[..., Any], ...]:
    """The public functions of a module that compute a figure, in the order of its source."""
    if module.__name__.rpartition(".")[2] in CARRIERS:
        return ()
    own = [one for name, one in vars(module).items()
           if inspect.isfunction(one) and not name.startswith("_") and one.__module__ == module.__name__]
    return tuple(one for one in own if _examples(one) or not _gathers(one) and _is_figure(get_type_hints(one).get("return"), set()))


def _gathers(function: Callable[..., Any]) -> bool:
    """Whether a function is given a whole job or profile: it picks numbers out of it, and the calculation that it hands them to is asked."""
    return bool({Papers, Profile} & set(get_type_hints(function).values()))


def _is_figure(kind: Any, seen: set[Any]) -> bool:
    """Whether a result is a number with decimals, or holds one, or a working."""
    if kind in (float, Fraction) or getattr(kind, "__name__", "") == WORKING:
        return True
    if kind in seen:
        return False
    seen.add(kind)
    parts = list(get_args(kind))
    if not parts and hasattr(kind, "__dataclass_fields__") and kind.__module__.startswith(calc.__name__):
        parts = list(get_type_hints(kind).values())
    return any(_is_figure(one, seen) for one in parts)


def lacking(function: Callable[..., Any], module: ModuleType) -> tuple[str, ...]:
    """What the text of a calculation leaves out: what it gives, its formula or an example, its source, the errors that it raises.

    Formula and source may stand once at the head of the module for all that is in it. A working brings both: it names where each
    of its numbers was given. So do constants that the module takes from the tables with their document.
    """
    own, head = inspect.getdoc(function) or "", inspect.getdoc(module) or ""
    formula = _examples(function) or _workings(module) or FORMULA.search(f"{_prose(own)} {head}")
    sourced = _sources(module) or _workings(module) or SOURCED.search(f"{own} {head}")
    silent = "raise ValueError" in inspect.getsource(function) and "ValueError" not in own
    return tuple(name for name, missing in (("what it gives", not own), ("formula or example", not formula),
                                            ("source", not sourced), ("errors", silent)) if missing)


def _topic(module: ModuleType) -> TopicView:
    name = module.__name__.rpartition(".")[2]
    question, _, rest = (inspect.getdoc(module) or "").partition("\n")
    found = figures(module)
    return TopicView(name, question, _paragraphs(rest), tuple(_formula(name, one) for one in found),
                     tuple(_workings(module)) if found else (), tuple(dict.fromkeys(_sources(module))))


def _formula(topic: str, function: Callable[..., Any]) -> FormulaView:
    return FormulaView(f"{topic}.{function.__name__}", function.__name__, "; ".join(_takes(function)),
                       _paragraphs(_prose(inspect.getdoc(function) or "")), tuple(_examples(function)))


def _takes(function: Callable[..., Any]) -> Iterator[str]:
    """What a calculation is given, each with the unit that its name ends in."""
    for name in inspect.signature(function).parameters:
        unit = unit_of(name)
        yield f"{name} in {unit}" if unit else name


def _paragraphs(text: str) -> tuple[str, ...]:
    return tuple(" ".join(one.split()) for one in re.split(r"\n\s*\n", text) if one.strip())


def _prose(text: str) -> str:
    """A text without its worked examples."""
    return "\n\n".join(one for one in re.split(r"\n\s*\n", text) if not EXAMPLE.match(one.strip()))


def _examples(function: Callable[..., Any]) -> list[str]:
    """The worked examples, as they are run by the tests."""
    return [inspect.cleandoc(one) for one in re.split(r"\n\s*\n", inspect.getdoc(function) or "") if EXAMPLE.match(one.strip())]


def _sources(module: ModuleType) -> list[str]:
    """The documents of the constants that a module takes from the tables."""
    return [f"{one.cited()}." for one in vars(module).values() if isinstance(one, Source)]


def _workings(module: ModuleType) -> list[WorkingView]:
    """The workings that a module makes, as far as they stand in its source word for word."""
    calls = [node for node in ast.walk(ast.parse(inspect.getsource(module)))
             if isinstance(node, ast.Call) and getattr(node.func, "id", "") == WORKING]
    made = [tuple(_said(part) for part in node.args[:3]) for node in sorted(calls, key=lambda node: node.lineno)]
    return [WorkingView(*parts) for parts in dict.fromkeys(made) if len(parts) == 3 and parts[0]]


def _said(node: ast.expr) -> str:
    """A text in the source; what is filled into it later is left as dots, and one that is put together elsewhere is empty."""
    if isinstance(node, ast.Constant):
        return str(node.value)
    if isinstance(node, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "…" for part in node.values)
    return ""
