"""From a tree of texts to a typed object, with every problem at its own place."""
import re
from itertools import islice
from typing import Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, ValidationError

from generator.intake.formats import other_formats
from generator.intake.secrets import secrets, without_secrets
from generator.intake.yaml_tree import MOST_PROBLEMS, Path_, Tree
from generator.model.fields import listed, nearest, shown
from generator.model.visibility import plain
from generator.terms.problem import Problem

Model = TypeVar("Model", bound=BaseModel)

WANTED = {
    "model_type": "a group of keys, each on a line of its own",
    "model_attributes_type": "a group of keys, each on a line of its own",
    "dict_type": "a group of keys, each on a line of its own",
    "list_type": "a list: one line each, with a hyphen before it",
    "string_type": "a text",
}


def typed(tree: Tree, model: type[Model]) -> Model | None:
    """A file's tree as an object; None, and problems in the tree, if it cannot be one. Secrets are problems too."""
    if tree.data is None:
        if not tree.problems:
            tree.problems.append(tree.problem((), "nothing stands in this file.", "Start one with `doorpost new`."))
        return None
    foreign = other_formats(tree, model)
    if () in foreign:
        # What its keys mean is not known here, so nothing else is said of them.
        tree.problems[:], tree.data = [foreign[()]], None
        return None
    found = list(islice(secrets(tree, lambda path: _is_chosen(model, path)), MOST_PROBLEMS))
    entry = None
    try:
        entry = model.model_validate(tree.data)
    except ValidationError as error:
        every = [one for one in error.errors(include_url=False) if not any(one["loc"][:len(at)] == at for at in foreign)]
        # In order of line before they are worded: of thousands only the first are.
        every.sort(key=lambda one: tree.place(one["loc"], True))
        tree.problems.extend(foreign.values())
        tree.problems.extend(_problem(tree, model, one) for one in every[:MOST_PROBLEMS])
        if len(every) > MOST_PROBLEMS:
            tree.problems.append(tree.problem_at((len(tree.lines), 1), (), f"{len(every) - MOST_PROBLEMS} more problems stand in this "
                                                 "file.", "Mend those above first, then check again."))
    tree.problems[:] = without_secrets(tree.problems, found)
    return None if found else entry


def _problem(tree: Tree, model: type[BaseModel], error: Any) -> Problem:
    path = tuple(error["loc"])
    on_key = path[-1:] == ("[key]",)
    path = path[:-1] if on_key else path
    kind = error["type"]
    if kind == "field":
        return tree.problem(path, error["ctx"]["says"], error["ctx"]["do"], key=on_key)
    if kind == "extra_forbidden":
        known = keys_of(model, path[:-1])
        return tree.problem(path, f"the key {shown(str(path[-1]))} is not known here.",
                            f"{nearest(str(path[-1]), known)}Known keys: {listed(known)}.", key=True)
    if kind == "missing":
        return tree.problem(path, "this key is missing.", f"Write {path[-1]}: and its value here.")
    wanted = WANTED.get(kind, "another value")
    return tree.problem(path, f"{shown(error['input'])} stands here.", f"Write {wanted}.")


def keys_of(model: Any, path: Path_) -> list[str]:
    """The keys that may stand at a path of a model."""
    annotation = model
    for part in path:
        annotation = plain(annotation)
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            annotation = annotation.model_fields[str(part)].annotation
        elif get_origin(annotation) in (dict, list):
            annotation = get_args(annotation)[-1]
    annotation = plain(annotation)
    return list(annotation.model_fields) if isinstance(annotation, type) else []


def _is_chosen(model: Any, path: Path_) -> bool:
    """Whether the last key of a path is a name that the writer may choose; not so below a key that is not known."""
    annotation = plain(model)
    for part in path[:-1]:
        if get_origin(annotation) in (dict, list):
            annotation = plain(get_args(annotation)[-1])
        elif hasattr(annotation, "model_fields") and part in annotation.model_fields:
            annotation = plain(annotation.model_fields[part].annotation)
        else:
            return False
    return get_origin(annotation) is dict


def placeholders(text: str) -> list[str]:
    """The names in braces of a text: "{number}: lift" gives ["number"]."""
    return re.findall(r"\{([^{}]*)\}", text)
