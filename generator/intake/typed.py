"""From a tree of texts to a typed object, with every problem at its own place."""
import re
from typing import Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, ValidationError

from generator.intake.yaml_tree import Path_, Tree
from generator.model.fields import nearest, shown
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


def typed(tree: Tree, model: type[Model], at: Path_ = ()) -> Model | None:
    """The part of a tree below `at` as an object; None, and problems in the tree, if it cannot be one."""
    data = tree.data
    for part in at:
        data = data[part]
    if data is None and not tree.problems:
        tree.problems.append(tree.problem(at, "nothing stands in this file.", "Start one with `doorpost new`."))
    if data is None:
        return None
    try:
        return model.model_validate(data)
    except ValidationError as error:
        tree.problems.extend(_problem(tree, model, at, one) for one in error.errors(include_url=False))
        return None


def _problem(tree: Tree, model: type[BaseModel], at: Path_, error: Any) -> Problem:
    path = tuple(error["loc"])
    on_key = path[-1:] == ("[key]",)
    path = path[:-1] if on_key else path
    full = (*at, *path)
    kind = error["type"]
    if kind == "field":
        return tree.problem(full, error["ctx"]["says"], error["ctx"]["do"], key=on_key)
    if kind == "extra_forbidden":
        known = keys_of(model, path[:-1])
        return tree.problem(full, f'the key "{path[-1]}" is not known here.',
                            f"{nearest(str(path[-1]), known)}Known keys: {', '.join(sorted(known))}.", key=True)
    if kind == "missing":
        return tree.problem(full, "this key is missing.", f"Write {path[-1]}: and its value here.")
    wanted = WANTED.get(kind, "another value")
    return tree.problem(full, f"{shown(error['input'])} stands here.", f"Write {wanted}.")


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


def placeholders(text: str) -> list[str]:
    """The names in braces of a text: "{number}: lift" gives ["number"]."""
    return re.findall(r"\{([^{}]*)\}", text)
