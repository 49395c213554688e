"""What may a reader see? Papers without what that reader's rows of the table rule out.

What a reader may not see is taken out before a single page of theirs is planned.
"""
import types
from collections.abc import Iterator
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from generator.model.company import Company
from generator.model.equipment import Sheet
from generator.model.job import Job
from generator.model.papers import Papers
from generator.model.people import People
from generator.model.profile import Profile
from generator.model.readers import TABLE
from generator.model.readers_of_found import FOUND
from generator.terms.audience import Audience

ROOTS: dict[str, type[BaseModel]] = {"job": Job, "sheet": Sheet, "company": Company, "people": People, "profile": Profile}
LETTERS = {Audience.INSTALLER: "I", Audience.HOMEOWNER: "H", Audience.STATION: "S", Audience.RECORD: "R"}


def may_see(audience: Audience, pattern: str) -> bool:
    """Whether a reader may see a field. A field without a row is a mistake in the table, never visible by default."""
    return LETTERS[audience] in (FOUND[pattern] if pattern in FOUND else TABLE[pattern])


def plain(annotation: Any) -> Any:
    """An annotation without its validators and without "or nothing"."""
    while get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    if get_origin(annotation) in (Union, types.UnionType):
        annotation = plain(next(one for one in get_args(annotation) if one is not type(None)))
    return annotation


def patterns(model: type[BaseModel], at: str) -> Iterator[str]:
    """Every path of the table that a model has: its fields, the names in its groups, the places in its lists."""
    for name, field in model.model_fields.items():
        yield from _patterns_of(field.annotation, f"{at}.{name}")


def _patterns_of(annotation: Any, at: str) -> Iterator[str]:
    annotation = plain(annotation)
    origin = get_origin(annotation)
    if at == "job.equipment":
        yield f"{at}.*"
    elif origin is dict:
        yield f"{at}.*"
        yield from _inside(get_args(annotation)[1], f"{at}.*")
    elif origin is list:
        yield from _patterns_of(get_args(annotation)[0], f"{at}.*")
    elif _is_model(annotation):
        yield from patterns(annotation, at)
    else:
        yield at


def _inside(annotation: Any, at: str) -> Iterator[str]:
    annotation = plain(annotation)
    if _is_model(annotation):
        yield from patterns(annotation, at)


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def choices() -> frozenset[str]:
    """The paths whose value is a word out of a fixed list, or true or false: such a word names nobody and nothing."""
    return frozenset(pattern for root, model in ROOTS.items() for pattern in _choices_of(model, root))


def _choices_of(annotation: Any, at: str) -> Iterator[str]:
    annotation = plain(annotation)
    if _is_model(annotation):
        for name, field in annotation.model_fields.items():
            yield from _choices_of(field.annotation, f"{at}.{name}")
    elif get_origin(annotation) in (dict, list):
        yield from _choices_of(get_args(annotation)[-1], f"{at}.*")
    elif get_origin(annotation) is Literal or annotation is bool:
        yield at


def leaves(value: Any, pattern: str, at: str) -> Iterator[tuple[str, str, Any]]:
    """Every value that stands below `value`: its row in the table, its place, the value.

    The names in a group that the writer chose are values too; their place is the group's.
    """
    if isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from leaves(getattr(value, name), f"{pattern}.{name}", f"{at}.{name}")
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield f"{pattern}.*", f"{at}.{key}", key
            if pattern != "job.equipment":
                yield from leaves(inner, f"{pattern}.*", f"{at}.{key}")
    elif isinstance(value, (list, tuple)):
        for index, inner in enumerate(value):
            yield from leaves(inner, f"{pattern}.*", f"{at}.{index}")
    elif value is not None:
        yield pattern, at, value


def redacted(value: Any, pattern: str, audience: Audience) -> Any:
    """The value without what a reader may not see: hidden fields are None, hidden lists and groups are empty."""
    if isinstance(value, BaseModel):
        fields = {name: redacted(getattr(value, name), f"{pattern}.{name}", audience) for name in type(value).model_fields}
        return type(value).model_construct(**fields)
    if isinstance(value, dict):
        if not may_see(audience, f"{pattern}.*"):
            return {}
        return {key: redacted(inner, f"{pattern}.*", audience) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        inner = [redacted(one, f"{pattern}.*", audience) for one in value]
        return [one for one in inner if not _blank(one)]
    if value is None or not may_see(audience, pattern):
        return None
    return value


def _blank(value: Any) -> bool:
    """Whether nothing is left of a value: then not even that there was one may show."""
    if isinstance(value, BaseModel):
        return all(_blank(getattr(value, name)) for name in type(value).model_fields)
    return value is None or value in ([], {})


def visible(papers: Papers, audience: Audience) -> Papers:
    """The papers as one reader may see them."""
    return Papers(
        job=redacted(papers.job, "job", audience),
        sheet_of={name: redacted(sheet, "sheet", audience) for name, sheet in papers.sheet_of.items()},
        company=redacted(papers.company, "company", audience),
        profile=redacted(papers.profile, "profile", audience),
        people=redacted(papers.people, "people", audience) if papers.people else None,
        # What might be fitted is for the one who fits.
        spare={key: redacted(sheet, "sheet", audience) for key, sheet in papers.spare.items()} if audience is Audience.INSTALLER else {},
        # Who may see what was read on site may see all of it.
        site=papers.site if may_see(audience, "results.entries.*.value") else (),
        lost=papers.lost if may_see(audience, "results.entries.*.value") else {},
    )
