"""A profile with all that it extends, put together into one."""
from collections.abc import Iterator
from pathlib import Path

from generator.intake import find
from generator.intake.typed import typed
from generator.intake.yaml_tree import Tree, read_tree
from generator.model.fields import listed, nearest
from generator.model.limits import contradictions, impossible, units_of
from generator.model.profile import BLOCKS, NEEDED_LIMITS, Limit, Profile, ProfilePart, replacing
from generator.terms.problem import Problem
from generator.terms.source import Known

Part = tuple[Tree, ProfilePart]


def read_profile(folder: Path, asking: Tree, key: str, problems: list[Problem]) -> Profile | None:
    """The profile that a job names, from the job folder upward. None, and problems, if it or one it extends cannot be used."""
    parts = _chain(folder, asking, ("profile",), key, problems)
    if parts is None:
        return None
    found = [problem for index, part in enumerate(parts) for problem in _of_part(part, parts[index + 1:])]
    whole = _whole(parts)
    found += _of_whole(parts, whole)
    problems.extend(found)
    return None if found else Profile.model_construct(**whole)


def profiles_known(folder: Path) -> dict[str, Profile]:
    """Every profile that a job in a folder could name and that can be used, by its key."""
    keys = find.shared_names(folder, "profiles")
    found = {key: read_profile(folder, Tree("profiles"), key, []) for key in keys}
    return {key: profile for key, profile in found.items() if profile is not None}


def profiles_shipped() -> dict[str, Profile]:
    """The profiles that the program brings along, by their keys."""
    known = profiles_known(find.PACKAGE)
    return {file.stem: known[file.stem] for file in sorted((find.PACKAGE / "profiles").glob("*.yaml"))}


def _chain(folder: Path, asking: Tree, path: tuple[str, ...], key: str, problems: list[Problem]) -> list[Part] | None:
    """The parts of a profile, itself first, then what it extends, and so on."""
    parts: list[Part] = []
    keys: list[str] = []
    while True:
        file = find.shared_file(folder, f"profiles/{key}.yaml")
        if key in keys:
            problems.append(asking.problem(path, f"{' extends '.join([*keys[keys.index(key):], key])}: a circle.",
                                           "Take one extends: out."))
            return None
        if file is None:
            known = find.shared_names(folder, "profiles")
            problems.append(asking.problem(path, f'there is no profile "{key}".',
                                           f"{nearest(key, known)}Known here: {listed(known)}."))
            return None
        tree = read_tree(file, f"profiles/{key}.yaml")
        part = typed(tree, ProfilePart)
        if part is None or tree.problems:
            problems.extend(tree.problems)
            return None
        parts.append((tree, part))
        keys.append(key)
        if part.extends is None:
            return parts
        asking, path, key = tree, ("extends",), part.extends


def _whole(parts: list[Part]) -> dict:
    """The parts as one: of what stands in several, the first counts, and a limit says what it stands in place of."""
    every = [part for _, part in parts]
    first = every[0]
    documents: dict = {}
    limits: dict[str, Limit] = {}
    constructions: dict = {}
    for part in reversed(every):
        limits |= {name: _replacing(limits.get(name), limit, documents) for name, limit in part.limits.items()}
        documents |= part.documents
        constructions |= part.constructions
    edition = "".join([first.edition, *(f", with {part.name}, edition {part.edition}" for part in every[1:])])
    return {"format": first.format, "name": first.name, "edition": edition, "documents": documents, "limits": limits,
            "blocks": next((part.blocks for part in every if part.blocks), []),
            "words": next((part.words for part in every if part.words), None), "constructions": constructions}


def _replacing(before: Limit | None, limit: Limit, documents: dict) -> Limit:
    # Without the document there is a problem already.
    if before is None or before.source not in documents:
        return limit
    return limit.model_copy(update={"because": replacing(before, documents, limit.because or "")})


def _of_part(part: Part, extended: list[Part]) -> Iterator[Problem]:
    """What is wrong in one file, seen with what it extends."""
    tree, own = part
    documents = {*own.documents, *(key for _, other in extended for key in other.documents)}
    for key in own.documents:
        if base := next((other for _, other in extended if key in other.documents), None):
            yield tree.problem(("documents", key), f'{base.name} has a document "{key}" already, and its limits cite that one.',
                               "Give this document another key.", key=True)
    for name, limit in own.limits.items():
        if limit.source not in documents:
            yield tree.problem(("limits", name, "source"), f'there is no document "{limit.source}".',
                               f"{nearest(limit.source, sorted(documents))}Known: {listed(documents)}.")
        base = next((other for _, other in extended if name in other.limits), None)
        if base and not limit.because:
            replaced = base.limits[name].shown()
            yield tree.problem(("limits", name), f"this replaces {replaced} of {base.name} without a reason.",
                               "Write because: and why.", key=True)
        yield from _of_limit(tree, name, limit, base.limits[name] if base else None)


def _of_limit(tree: Tree, name: str, limit: Limit, before: Limit | None) -> Iterator[Problem]:
    """What is wrong with the number, the unit and the mark of one limit."""
    if before and (before.unit or "") != (limit.unit or ""):
        yield tree.problem(("limits", name, "unit"), f'"{limit.unit or "no unit"}" stands here, "{before.unit or "no unit"}" in '
                           "what it replaces.", "Give the value in the same unit.")
    elif units_of(name) and limit.unit not in units_of(name):
        yield tree.problem(("limits", name, "unit"), f'"{limit.unit or "no unit"}" stands here, and the name ends in another unit.',
                           f"Write {units_of(name)[0]}, or give the limit a name that ends in its unit.")
    elif wrong := impossible(name, limit.value, limit.unit):
        yield tree.problem(("limits", name, "value"), *wrong)
    if limit.known == Known.SECOND_HAND and not limit.through:
        yield tree.problem(("limits", name, "known"), "nothing says where this was read.",
                           "Write through: and the text that quotes the document.")


def _of_whole(parts: list[Part], whole: dict) -> Iterator[Problem]:
    """What the parts lack together, and where their limits contradict each other."""
    tree = parts[0][0]
    names = [block.name for block in whole["blocks"]]
    if sorted(names) != sorted(BLOCKS):
        yield tree.problem(("blocks",), f"these blocks stand here: {', '.join(names) or 'none'}.",
                           f"Write each of these once, in the order of their numbers: {', '.join(BLOCKS)}.")
    if whole["words"] is None:
        yield tree.problem((), "the words of the market are missing.", "Write words: with set, unset and the rest.")
    limits = whole["limits"]
    for name in NEEDED_LIMITS:
        if name not in limits:
            yield tree.problem(("limits",), f'the limit "{name}" is missing.', f"Write {name}: with value, means, source, known.")
    for lower, upper in contradictions(limits):
        own = next(tree for tree, part in parts if {lower, upper} & {*part.limits})
        name = lower if ("limits", lower) in own.values else upper
        yield own.problem(("limits", name, "value"), f"{limits[lower].shown()} ({lower}) lies above {limits[upper].shown()} "
                          f"({upper}): no value fits.", f"Correct {lower} or {upper}.")
