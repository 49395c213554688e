"""Who may see which field. The table is the only place that says so.

A row names a field by its path from the file it stands in; `*` stands for a name that the writer of the file chose or
for a place in a list. The letters are I installer, H homeowner, S station, R record. A reader "may see" a field if the
value, or anything that follows from it, may stand in that reader's pack: the station may see `role` because the zone
numbers follow from it, though the word itself is not printed. What a reader may not see is taken out before a single
page of theirs is planned.
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
from generator.terms.audience import Audience

ROOTS: dict[str, type[BaseModel]] = {"job": Job, "sheet": Sheet, "company": Company, "people": People, "profile": Profile}
LETTERS = {Audience.INSTALLER: "I", Audience.HOMEOWNER: "H", Audience.STATION: "S", Audience.RECORD: "R"}

TABLE: dict[str, str] = {
    "job.format": "I--R",
    "job.reference": "IHSR",
    "job.title": "IHSR",
    "job.dated": "IHSR",
    "job.kind": "I--R",
    "job.profile": "I--R",
    "job.note": "I--R",
    "job.control_unit.id": "IHSR",
    "job.control_unit.sheet": "I--R",
    "job.control_unit.room": "I--R",
    "job.control_unit.height_m": "I--R",
    "job.control_unit.position": "I--R",
    "job.control_unit.serial": "I--R",
    "job.premises.place": "I--R",
    "job.premises.built_before": "I--R",
    "job.premises.children": "IH-R",
    "job.premises.hazards.*": "I--R",
    "job.premises.storeys.*": "IHSR",
    "job.premises.storeys.*.name": "IHSR",
    "job.premises.storeys.*.outbuilding": "I-SR",
    "job.premises.storeys.*.ceiling_m": "I--R",
    "job.premises.storeys.*.rooms.*": "IHSR",
    "job.premises.storeys.*.rooms.*.name": "IHSR",
    "job.premises.storeys.*.rooms.*.cooking": "I--R",
    "job.premises.storeys.*.rooms.*.sleeping": "I--R",
    "job.premises.storeys.*.openings.*": "IHSR",
    "job.premises.storeys.*.openings.*.kind": "IHSR",
    "job.premises.storeys.*.openings.*.wall.*": "IHSR",
    "job.premises.storeys.*.openings.*.name": "IHSR",
    "job.premises.storeys.*.openings.*.entry": "IHSR",
    "job.devices.*": "IHSR",
    "job.devices.*.sheet": "I--R",
    "job.devices.*.room": "IHSR",
    "job.devices.*.protects": "IHSR",
    "job.devices.*.role": "I-SR",
    "job.devices.*.text": "I-SR",
    "job.devices.*.text_2": "I-SR",
    "job.devices.*.use_input_2": "I-SR",
    "job.devices.*.number": "I-SR",
    "job.devices.*.serial": "I--R",
    "job.devices.*.height_m": "I--R",
    "job.devices.*.position": "I--R",
    "job.devices.*.called": "IH-R",
    "job.devices.*.note": "I--R",
    "job.users.*": "I-SR",
    "job.users.*.who": "I-SR",
    "job.users.*.fob": "I-SR",
    "job.users.*.tag": "I-SR",
    "job.times.entry_s": "IH-R",
    "job.times.exit_s": "IH-R",
    "job.times.sounder_min": "IH-R",
    "job.monitoring.station": "IHSR",
    "job.monitoring.telephone": "IHSR",
    "job.monitoring.account": "I-SR",
    "job.monitoring.test_interval_h": "I-SR",
    "job.monitoring.test_at": "I-SR",
    "job.publish.address": "IHSR",
    "job.publish.installer": "I---",
    "job.publish.homeowner": "-H--",
    "job.publish.station": "--S-",
    "job.publish.record": "---R",
    # A sheet in the job file is a sheet like any other: its fields stand under "sheet", its name under "sheet" of a unit.
    "job.equipment.*": "----",
    "sheet.format": "I--R",
    "sheet.name": "I--R",
    "sheet.kind": "IHSR",
    "sheet.two_way": "I--R",
    "sheet.inputs.*.name": "I-SR",
    "sheet.inputs.*.optional": "I-SR",
    "sheet.power.kind": "I--R",
    "sheet.power.cell": "I--R",
    "sheet.power.cells": "I--R",
    "sheet.terminals.*.name": "I--R",
    "sheet.terminals.*.wire": "I--R",
    "sheet.mounting_m.*": "I--R",
    "sheet.parts.*.item": "I--R",
    "sheet.parts.*.count": "I--R",
    "sheet.handling.enrol": "I--R",
    "sheet.handling.fix": "I--R",
    "sheet.handling.test": "I--R",
    "sheet.handling.change_cell": "I--R",
    "sheet.control_unit.lists.zones": "I-SR",
    "sheet.control_unit.lists.slots": "I-SR",
    "sheet.control_unit.lists.keypads": "I-SR",
    "sheet.control_unit.lists.sounders": "I-SR",
    "sheet.control_unit.lists.fobs": "I-SR",
    "sheet.control_unit.lists.tags": "I-SR",
    "sheet.control_unit.lists.repeaters": "I-SR",
    "sheet.control_unit.lists.users": "I-SR",
    "sheet.control_unit.lists.partitions": "I-SR",
    "sheet.control_unit.slot_is_zone": "I-SR",
    "sheet.control_unit.zone_text.length": "I-SR",
    "sheet.control_unit.zone_text.alphabet": "I-SR",
    "sheet.control_unit.power_order.*": "I--R",
    "sheet.control_unit.power_order_reason": "I--R",
    "sheet.everyday": "IH-R",
    "company.format": "I--R",
    "company.name": "IHSR",
    "company.telephone": "IHSR",
    "company.out_of_hours": "IHSR",
    "company.data_contact": "IH-R",
    "company.licences.*.name": "---R",
    "company.licences.*.number": "---R",
    "company.licences.*.valid_to": "---R",
    "people.format": "---R",
    "people.customer.name": "I-SR",
    "people.customer.telephone": "I-SR",
    "people.customer.address.*": "I-SR",
    "people.keyholders.*": "--SR",
    "people.keyholders.*.name": "--SR",
    "people.keyholders.*.telephone": "--SR",
    "profile.format": "I--R",
    "profile.name": "I--R",
    "profile.edition": "I--R",
    "profile.documents.*": "I--R",
    "profile.documents.*.title": "I--R",
    "profile.documents.*.edition": "I--R",
    "profile.limits.*": "I--R",
    "profile.limits.*.value": "I--R",
    "profile.limits.*.unit": "I--R",
    "profile.limits.*.means": "I--R",
    "profile.limits.*.source": "I--R",
    "profile.limits.*.known": "I--R",
    "profile.limits.*.through": "I--R",
    "profile.limits.*.because": "I--R",
    "profile.blocks.*.name": "I-SR",
    "profile.blocks.*.means": "I-SR",
    "profile.blocks.*.start": "I-SR",
    "profile.blocks.*.start_from_end": "I-SR",
    "profile.blocks.*.spare": "I-SR",
    "profile.words.set": "IHSR",
    "profile.words.unset": "IHSR",
    "profile.words.is_set": "IHSR",
    "profile.words.is_unset": "IHSR",
    "profile.words.emergency_number": "IH-R",
}


def may_see(audience: Audience, pattern: str) -> bool:
    """Whether a reader may see a field. A field without a row is a mistake in the table, never visible by default."""
    return LETTERS[audience] in TABLE[pattern]


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
        inner = plain(get_args(annotation)[0])
        yield from _inside(inner, f"{at}.*") if _is_model(inner) else [f"{at}.*"]
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
    )
