"""Can what the job file accepts be accepted?"""
from collections.abc import Iterator, Mapping

from generator.intake.yaml_tree import Tree
from generator.model.fields import nearest
from generator.model.job import Job
from generator.terms.problem import Problem


def acceptance_problems(tree: Tree, job: Job, acceptable: Mapping[str, str]) -> Iterator[Problem]:
    """Acceptances of a rule that does not exist, or of one whose findings nobody can accept; none where no rules are given."""
    for index, entry in enumerate(job.accepted):
        path = ("accepted", index, "rule")
        if acceptable and entry.rule not in acceptable:
            yield tree.problem(path, f'there is no rule "{entry.rule}".',
                               f"{nearest(entry.rule, list(acceptable))}`doorpost rules` lists them all.")
        elif acceptable.get(entry.rule):
            yield tree.problem(path, f"{entry.rule} cannot be accepted: {acceptable[entry.rule]}.",
                               f"Take this entry out and mend what is found; `doorpost explain {entry.rule}` says how.")
