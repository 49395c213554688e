"""A profile with all that it extends, put together into one."""
from collections.abc import Iterator
from pathlib import Path

from generator.intake import find
from generator.intake.typed import typed
from generator.intake.yaml_tree import Tree, read_tree
from generator.model.fields import nearest
from generator.model.profile import BLOCKS, NEEDED_LIMITS, Profile, ProfilePart
from generator.terms.problem import Problem

Part = tuple[Tree, ProfilePart]


def read_profile(folder: Path, asking: Tree, key: str, problems: list[Problem]) -> Profile | None:
    """The profile that a job names, from the job folder upward. None, and problems, if it or one it extends cannot be used."""
    parts = _chain(folder, asking, ("profile",), key, problems)
    if parts is None:
        return None
    found = [problem for index, part in enumerate(parts) for problem in _of_part(part, parts[index + 1:])]
    tree = parts[0][0]
    whole = _whole(parts)
    found += _of_whole(tree, whole)
    problems.extend(found)
    return None if found else Profile.model_construct(**whole)


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
                                           f"{nearest(key, known)}Known here: {', '.join(known) or 'none'}."))
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
    """The parts as one: of what stands in several, the first counts."""
    first = parts[0][1]
    every = [part for _, part in parts]
    documents: dict = {}
    limits: dict = {}
    constructions: dict = {}
    for part in reversed(every):
        documents |= part.documents
        limits |= part.limits
        constructions |= part.constructions
    return {"format": first.format, "name": first.name, "edition": first.edition, "documents": documents, "limits": limits,
            "blocks": next((part.blocks for part in every if part.blocks), []),
            "words": next((part.words for part in every if part.words), None), "constructions": constructions}


def _of_part(part: Part, extended: list[Part]) -> Iterator[Problem]:
    """What is wrong in one file, seen with what it extends."""
    tree, own = part
    documents = {*own.documents, *(key for _, other in extended for key in other.documents)}
    for name, limit in own.limits.items():
        if limit.source not in documents:
            yield tree.problem(("limits", name, "source"), f'there is no document "{limit.source}".',
                               f"{nearest(limit.source, sorted(documents))}Known: {', '.join(sorted(documents))}.")
        before = next((other.limits[name] for _, other in extended if name in other.limits), None)
        if before and not limit.because:
            yield tree.problem(("limits", name), f"this replaces {before.value:g} {before.unit or ''}".rstrip()
                               + f" of {extended[0][1].name} without a reason.", "Write because: and why.", key=True)
        if before and (before.unit or "") != (limit.unit or ""):
            yield tree.problem(("limits", name, "unit"), f'"{limit.unit or "no unit"}" stands here, "{before.unit or "no unit"}" in '
                               "what it replaces.", "Give the value in the same unit.")


def _of_whole(tree: Tree, whole: dict) -> Iterator[Problem]:
    """What the parts lack together, and where their limits contradict each other."""
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
    for name in limits:
        other = name.replace("_min_", "_max_")
        if other != name and other in limits and limits[name].value > limits[other].value:
            yield tree.problem(("limits", name), f"{limits[name].value:g} is the least here and {limits[other].value:g} the most: "
                               "no value fits.", f"Correct {name} or {other}.")
