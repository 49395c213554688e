"""Does a transmission reach the category that is asked of it?

Within one kind the standard's own order decides. A category with two paths reaches one with a single path if a failure of its
first path is known as soon; those times stand in the profile.
"""
from dataclasses import dataclass

from generator.calc.unknown import Unknown
from generator.model.limits import SECONDS
from generator.model.monitoring import Monitoring
from generator.model.profile import Profile
from generator.tables.transmission import DUAL, PATHS_OF, SINGLE


@dataclass(frozen=True)
class Category:
    """The category asked and the one given, "" for none; whether it is reached, and how many paths what is asked wants.

    `reached` is None where nothing is asked.
    """

    asked: str
    given: str
    reached: bool | Unknown | None
    paths_wanted: int


def category_of(profile: Profile, agreed: Monitoring) -> Category:
    """The categories of a job, one held against the other."""
    asked, given = agreed.category_asked or "", agreed.category_given or ""
    if not asked:
        reached = None
    elif not given:
        reached = Unknown("the job file does not say which category is given")
    else:
        reached = reaches(profile, given, asked)
    return Category(asked, given, reached, PATHS_OF.get(asked, 0))


def reaches(profile: Profile, given: str, asked: str) -> bool | Unknown:
    """Whether one category is as strict as another or stricter."""
    for kind in (SINGLE, DUAL):
        if given in kind and asked in kind:
            return kind.index(given) >= kind.index(asked)
    if given not in PATHS_OF or asked not in PATHS_OF:
        return Unknown("what a custom category demands stands in its own papers")
    if asked in DUAL:
        return False
    times = {one: reporting_limit(profile, one) for one in (given, asked)}
    lacking = next((one for one in (given, asked) if times[one] is None), None)
    if lacking:
        return Unknown(f"the profile has no limit for the reporting time of {lacking}")
    return reporting_s(profile, given) <= reporting_s(profile, asked)


def is_reporting_limit(name: str) -> bool:
    """Whether a limit is the reporting time of a category's first path."""
    return any(name.startswith(_stem(one)) for one in PATHS_OF)


def _stem(category: str) -> str:
    return f"report_{category.lower()}_"


def reporting_limit(profile: Profile, category: str) -> str | None:
    """The name of the profile's limit that holds a category's reporting time; None if it has none. Its unit is in its name."""
    return next((name for name in profile.limits if name.startswith(_stem(category))), None)


def reporting_s(profile: Profile, category: str) -> float:
    """How soon a failure of the first path is known at the station (s). KeyError for a profile without that limit."""
    limit = profile.limits[reporting_limit(profile, category) or category]
    return limit.value * SECONDS[limit.unit]
