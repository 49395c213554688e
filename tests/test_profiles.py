"""Are limits data: put together from what a profile extends, each replaced with a reason, each with its source and mark?"""
import copy
import re

import pytest

from generator.intake.job_reader import read_job
from generator.intake.yaml_tree import read_tree
from generator.model.profile import KNOWN
from generator.pages.sources import USED
from generator.publish.places import PACKAGE
from generator.terms.problem import JobInvalid

SHIPPED = sorted((PACKAGE / "profiles").glob("*.yaml"))
UNIT_OF_SUFFIX = {"_s": "s", "_min": "min", "_h": "h", "_m": "m", "_db": "dB", "_percent": "%", "_c": "°C", "_v": "V"}


def own(**keys):
    """A change: the job names a profile of its own that extends the European one."""
    def change(files) -> None:
        files["profiles"]["own"] = {"format": "1", "extends": "en-grade-2", "name": "Own", "edition": "1", **copy.deepcopy(keys)}
        files["job"]["profile"] = "own"
    return change


def problems(job_file, *changes) -> list[str]:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(*changes))
    return [f"{one.file} {one.field}: {one.says} {one.do}" for one in caught.value.problems]


LIMIT = {"value": "40", "unit": "s", "means": "longest entry time", "source": "practice", "known": "common practice"}


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_a_shipped_profile_can_be_used(job_file, path) -> None:
    profile = read_job(job_file(lambda f: f["job"].update(profile=path.stem))).papers.profile
    assert len(profile.limits) > 80 and set(USED) <= set(profile.limits)
    assert all(profile.source_of(name).cited() for name in profile.limits)


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_a_limit_ends_in_its_unit_and_a_second_hand_value_names_where_it_was_seen(path) -> None:
    for name, limit in read_tree(path, path.name).data["limits"].items():
        assert limit["known"] in KNOWN and (limit["known"] == "read second-hand") == ("through" in limit), name
        suffix = next((one for one in UNIT_OF_SUFFIX if name.endswith(one)), None)
        assert suffix is None or limit["unit"].startswith(UNIT_OF_SUFFIX[suffix]), name


def test_the_marks_of_what_was_not_read_are_not_raised() -> None:
    # Values that nobody on this project has read in their standard, by the notes of the figures they were taken from.
    limits = read_tree(PACKAGE / "profiles" / "en-grade-2.yaml", "x").data["limits"]
    assert limits["sounder_max_min"]["known"] == limits["tamper_s"]["known"] == "from memory"
    assert limits["entry_max_s"]["known"] == "read second-hand"
    assert all(limits[name]["known"] == "common practice" for name in ("link_margin_db", "link_margin_main_db", "ladder_from_m"))


def test_the_united_kingdom_takes_over_the_european_limits_and_replaces_two_with_a_reason(job_file) -> None:
    european = read_job(job_file(name="a")).papers.profile
    british = read_job(job_file(lambda f: f["job"].update(profile="uk-grade-2"), name="b")).papers.profile
    assert set(european.limits) < set(british.limits) and british.blocks == european.blocks
    replaced = {name for name, limit in european.limits.items() if british.limits[name] != limit}
    assert replaced == {"sounder_max_min", "keyholders_least"} and all(british.limits[name].because for name in replaced)
    assert british.words.emergency_number == "999"


def test_what_is_extended_counts_unless_it_is_replaced(job_file) -> None:
    profile = read_job(job_file(own(limits={"entry_max_s": LIMIT | {"because": "Our insurer asks for it."}}))).papers.profile
    assert profile.limits["entry_max_s"].value == 40 and profile.limits["sounder_max_min"].value == 15 and profile.name == "Own"


@pytest.mark.parametrize("keys, says", [
    ({"limits": {"entry_max_s": LIMIT}},
     "profiles/own.yaml limits.entry_max_s: this replaces 45 s of European grade 2 without a reason. Write because: and why."),
    ({"limits": {"entry_max_s": LIMIT | {"unit": "min", "because": "x"}}},
     'profiles/own.yaml limits.entry_max_s.unit: "min" stands here, "s" in what it replaces. Give the value in the same unit.'),
    ({"limits": {"entry_max_s": LIMIT | {"source": "practise", "because": "x"}}},
     'profiles/own.yaml limits.entry_max_s.source: there is no document "practise". Did you mean "practice"?'),
    ({"limits": {"exit_usual_min_s": LIMIT | {"value": "90", "because": "x"}}},
     "profiles/own.yaml limits.exit_usual_min_s: 90 is the least here and 60 the most: no value fits."),
    ({"extends": "en-grade-3"}, 'profiles/own.yaml extends: there is no profile "en-grade-3". Did you mean "en-grade-2"?'),
    ({"extends": "own"}, "profiles/own.yaml extends: own extends own: a circle. Take one extends: out."),
])
def test_what_contradicts_is_answered_at_its_place(job_file, keys, says: str) -> None:
    assert any(line.startswith(says) for line in problems(job_file, own(**keys))), problems(job_file, own(**keys))


def test_a_circle_over_two_profiles_is_answered(job_file) -> None:
    def other(files) -> None:
        files["profiles"]["other"] = {"format": "1", "extends": "own", "name": "Other", "edition": "1"}
    assert problems(job_file, own(extends="other"), other) == [
        "profiles/other.yaml extends: own extends other extends own: a circle. Take one extends: out."]


def test_a_profile_that_stands_alone_and_lacks_something_is_answered(job_file) -> None:
    found = problems(job_file, own(), lambda f: f["profiles"]["own"].pop("extends"))
    assert any("the words of the market are missing." in line for line in found)
    assert any('the limit "tamper_s" is missing.' in line for line in found) and any("these blocks stand here: none." in line for line in found)


def test_every_limit_that_the_program_names_is_among_those_shown_as_used() -> None:
    source = "\n".join(path.read_text(encoding="utf-8") for part in ("rules", "procedure") for path in (PACKAGE / part).glob("*.py"))
    known = {name for path in SHIPPED for name in read_tree(path, path.name).data["limits"]}
    named = {name for name in re.findall(r'"([a-z_]+)"', source) if name in known}
    assert named == set(USED)
