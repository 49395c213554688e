"""Does every name that a job file refers to stand somewhere? Asked of the text as written, so that one mistake hides no other.

Where the place that names come from is itself not sound, nothing is said of the names: that would answer one mistake twice.
"""
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from generator.intake.secret_words import gives_secret
from generator.intake.yaml_tree import Path_, Tree
from generator.model.equipment import Sheet
from generator.model.fields import listed, nearest, shown
from generator.model.premises import OUTSIDE, Storey
from generator.terms.problem import Problem

Known = set[str] | None


def references(tree: Tree, sheet_of: Mapping[str, Sheet | None]) -> Iterator[Problem]:
    """Every reference to a room, opening, fob or tag that does not stand in the job."""
    rooms, openings = _known(tree, "rooms"), _known(tree, "openings")
    places = None if rooms is None else {*rooms, OUTSIDE}
    for path in _openings(tree):
        for index, place in enumerate(_list(tree.data, *path, "wall")):
            yield from _of(tree, (*path, "wall", index), place, "room", places)
    yield from _of(tree, ("control_unit", "room"), _at(tree.data, "control_unit", "room"), "room", rooms)
    for name in _group(tree.data, "devices"):
        path = ("devices", name)
        yield from _of(tree, (*path, "room"), _at(tree.data, *path, "room"), "room", places)
        for key in ("protects", "protects_2"):
            yield from _of(tree, (*path, key), _at(tree.data, *path, key), "opening", openings)
    for number in _group(tree.data, "users"):
        for kind in ("fob", "tag"):
            path = ("users", number, kind)
            yield from _of(tree, path, _at(tree.data, *path), kind, _carried(tree, kind, sheet_of))


def constructions(tree: Tree, known: Iterable[str]) -> Iterator[Problem]:
    """Every construction that the job names and nobody describes; `known` are those of company and profile."""
    every = {*known, *_group(tree.data, "premises", "constructions")}
    for path in _built(tree):
        yield from _of(tree, path, _at(tree.data, *path), "construction", every)


def _built(tree: Tree) -> Iterator[Path_]:
    """Every place of a job file that names a construction."""
    for storey in _group(tree.data, "premises", "storeys"):
        here = ("premises", "storeys", storey)
        yield from ((*here, "floor"), (*here, "walls", "outside"), (*here, "walls", "inside"))
        between = _list(tree.data, *here, "walls", "between")
        yield from ((*here, "walls", "between", index, "construction") for index in range(len(between)))
        yield from ((*here, "walls", "own", name, "construction") for name in _group(tree.data, *here, "walls", "own"))
    yield from ((*path, "leaf") for path in _openings(tree))
    for name in _group(tree.data, "devices"):
        for group in ("walls", "floors"):
            path = ("devices", name, "path", group)
            yield from ((*path, index) for index in range(len(_list(tree.data, *path))))


def sheet_names(tree: Tree) -> dict[str, tuple[Path_, str]]:
    """For each unit of a job the place and the name of its sheet, as far as they are written."""
    unit = _at(tree.data, "control_unit", "id")
    paths = {unit: ("control_unit", "sheet")} if isinstance(unit, str) else {}
    paths |= {name: ("devices", name, "sheet") for name in _group(tree.data, "devices")}
    return {unit: (path, name) for unit, path in paths.items() if isinstance(name := _at(tree.data, *path), str)}


def not_there(tree: Tree, path: Path_, name: str, what: str, known: Iterable[str]) -> Problem:
    """The answer to a name that refers to nothing. What is known is listed, but for a name that gives a secret away."""
    known = sorted(one for one in known if not gives_secret(one))
    return tree.problem(path, f"there is no {what} {shown(name)}.", f"{nearest(name, known)}Known here: {listed(known)}.")


def _of(tree: Tree, path: Path_, name: Any, what: str, known: Known) -> Iterator[Problem]:
    if isinstance(name, str) and known is not None and name not in known:
        yield not_there(tree, path, name, what, known)


def _known(tree: Tree, group: str) -> Known:
    """The names of all rooms or openings; None if a storey is not sound."""
    storeys = _group(tree.data, "premises", "storeys")
    if not storeys or any(len(path) < 5 and path[:2] == ("premises", "storeys")[:len(path)] for path, _, _ in tree.second):
        return None
    if any(not isinstance(one, dict) or not set(one) <= set(Storey.model_fields) or not isinstance(one.get(group) or {}, dict)
           or "rooms" not in one for one in storeys.values()):
        return None
    return {name for one in storeys.values() for name in one.get(group) or {}}


def _carried(tree: Tree, kind: str, sheet_of: Mapping[str, Sheet | None]) -> Known:
    """The units of a kind that is handed out; of a unit whose sheet is not known nothing is said."""
    if not _group(tree.data, "devices"):
        return None
    return {name for name in _group(tree.data, "devices") if sheet_of.get(name) is None or sheet_of[name].kind == kind}


def _openings(tree: Tree) -> Iterator[Path_]:
    for storey in _group(tree.data, "premises", "storeys"):
        for name in _group(tree.data, "premises", "storeys", storey, "openings"):
            yield "premises", "storeys", storey, "openings", name


def _at(data: Any, *path: str | int) -> Any:
    for part in path:
        if isinstance(data, list) and isinstance(part, int) and part < len(data):
            data = data[part]
        elif isinstance(data, dict):
            data = data.get(part)
        else:
            return None
    return data


def _group(data: Any, *path: str | int) -> dict[str, Any]:
    found = _at(data, *path)
    return found if isinstance(found, dict) else {}


def _list(data: Any, *path: str | int) -> list[Any]:
    found = _at(data, *path)
    return found if isinstance(found, list) else []
