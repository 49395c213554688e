"""What can be asked of a job of which some values cannot be read?

Checks of the whole need a whole job. So that one run names the unit above its ceiling beside the number that is none, what cannot be
read is taken out, and the plan is asked of what is left. What would only follow from a value that was taken out is not said.
"""
import copy
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from generator.intake.plan_checks import plan_checks
from generator.intake.yaml_tree import Path_, Tree
from generator.model.job import Job
from generator.terms.problem import Problem

# Each round takes out what the one before laid bare, a group whose needed key is gone; none is nested deeper.
ROUNDS = 6
STOREY = len(("premises", "storeys", "ground"))
# A rectangle is written by two keys: one alone says nothing.
TOGETHER = {"corner_m": "size_m", "size_m": "corner_m"}


def plan_of_what_is_left(tree: Tree) -> Iterator[Problem]:
    """What is wrong with the plan besides the values that cannot be read."""
    data, gone = copy.deepcopy(tree.data), []
    for _ in range(ROUNDS):
        try:
            job = Job.model_validate(data)
        except ValidationError as error:
            found = [_group(one["loc"], one["type"]) for one in error.errors(include_url=False, include_context=False, include_input=False)]
            if not all(_take_out(data, path) for path in sorted(set(found), key=str, reverse=True)):
                return
            gone += found
        else:
            yield from (one for one in plan_checks(tree, job) if not _follows(one, gone))
            return


def _group(at: Path_, kind: str) -> Path_:
    """What goes with a value that cannot be read: the key that it stands under, or the group that lacks a key."""
    path = tuple(one for one in at if one != "[key]")
    if kind == "missing":
        path = path[:-1]
    while path and isinstance(path[-1], int):
        path = path[:-1]
    return path


def _take_out(data: Any, path: Path_) -> bool:
    """Takes a value out; False if the job or a whole storey would go with it, and nothing sure can be asked."""
    if not path or (path[:2] == ("premises", "storeys") and len(path) <= STOREY) or path == ("premises",):
        return False
    for part in path[:-1]:
        if not isinstance(data, (dict, list)) or (part not in data if isinstance(data, dict) else not isinstance(part, int) or part >= len(data)):
            # It went with something that was taken out before.
            return True
        data = data[part]
    if isinstance(data, dict):
        data.pop(path[-1], None)
        data.pop(TOGETHER.get(path[-1]), None)
    return isinstance(data, dict)


def _follows(problem: Problem, gone: list[Path_]) -> bool:
    """Whether a problem stands at, in or above something that was taken out, or at a unit of which something was."""
    field = tuple(problem.field.split("."))
    for path in (tuple(map(str, one)) for one in gone):
        shared = min(len(field), len(path))
        if field[:shared] == path[:shared] or (path[0] == "devices" and field[:2] == path[:2]):
            return True
    return False
