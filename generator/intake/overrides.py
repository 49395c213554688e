"""A profile with the limits that the company sets itself, each with its reason and what it stands in place of."""
from collections.abc import Iterator

from generator.intake.yaml_tree import Tree
from generator.model.company import Company, OwnLimit
from generator.model.fields import nearest
from generator.model.limits import contradictions, impossible
from generator.model.profile import Document, Limit, Profile
from generator.terms.problem import Problem
from generator.terms.show import count
from generator.terms.source import Known

# No file can write this key, so no profile's document is ever taken for the company.
OWN = "own rule"


def overridden(profile: Profile, company: Company, tree: Tree, problems: list[Problem]) -> Profile:
    """The profile as this company uses it; problems, at the lines of company.yaml, where it cannot be used so."""
    if not company.limits:
        return profile
    limits = dict(profile.limits)
    for name, own in company.limits.items():
        if name in limits:
            limits[name] = _own(profile, name, own)
    problems.extend([*_of_each(profile, company, tree), *_together(limits, company, tree)])
    edition = f"{profile.edition}, with {count(len(company.limits), 'limit')} of the company's own"
    documents = profile.documents | {OWN: Document.model_construct(title=company.name)}
    return profile.model_copy(update={"limits": limits, "documents": documents, "edition": edition})


def _own(profile: Profile, name: str, own: OwnLimit) -> Limit:
    """The limit with the company's value; unit and meaning stay the profile's."""
    before = profile.limits[name]
    reason = f"{own.because.rstrip('.')}; decided by: {own.by}." if own.by else own.because
    return before.model_copy(update={"value": own.value, "source": OWN, "known": Known.OWN.value, "through": None,
                                     "because": profile.in_place_of(name, reason)})


def _of_each(profile: Profile, company: Company, tree: Tree) -> Iterator[Problem]:
    for name, own in company.limits.items():
        if name not in profile.limits:
            known = sorted(profile.limits)
            yield tree.problem(("limits", name), f'the profile {profile.name} has no limit "{name}".',
                               f"{nearest(name, known)}Its limits stand in the profile's file and on the page of sources.",
                               key=True)
        elif wrong := impossible(name, own.value, profile.limits[name].unit):
            yield tree.problem(("limits", name, "value"), *wrong)


def _together(limits: dict[str, Limit], company: Company, tree: Tree) -> Iterator[Problem]:
    for lower, upper in contradictions(limits):
        name = lower if lower in company.limits else upper
        yield tree.problem(("limits", name, "value"), f"{limits[lower].shown()} ({lower}) would lie above "
                           f"{limits[upper].shown()} ({upper}): no value fits.", f"Correct {name}.")
