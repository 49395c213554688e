"""Does the homeowner's pack send nobody into danger, and does it help nobody who only says that he lives there?

What to do: common practice, no source, but for what is named beside a check.
"""
import re
from pathlib import Path

import pytest

from tests.conftest import JOBS
from tests.test_homeowner import texts_of
from tests.test_homeowner_true import part

CURLEW, HERON = (JOBS / name / "job.yaml" for name in ("curlew-house", "heron-bungalow"))
FIRE_FIRST = "or it might be a fire, get everybody out at once and call {} from outside."


@pytest.fixture(scope="module")
def curlew() -> dict[str, str]:
    return texts_of(CURLEW)


@pytest.fixture(scope="module")
def heron() -> dict[str, str]:
    return texts_of(HERON)


# --- fire before a stranger ---------------------------------------------------------------------------------

@pytest.mark.parametrize("page, heading, after, hide", [
    ("when.html", "The alarm sounds and you are at home", "The alarm sounds and you are away", "do the same as for a stranger"),
    ("when.html", "Loud and without a pause", "no emergency", "Shut yourself in"),
    ("sounds.html", "Alarm: somebody may be in the house", "Alarm: fire", "shut yourself in"),
])
def test_whoever_is_not_sure_leaves_a_fire_before_hiding_from_a_stranger(curlew, heron, page: str, heading: str, after: str, hide: str) -> None:
    for pack, number in ((curlew, "999"), (heron, "911")):
        text = part(pack[page], heading, after)
        assert text.index(FIRE_FIRST.format(number)) < text.index(hide), text


def test_the_large_print_too_thinks_of_fire_before_a_stranger(curlew, heron) -> None:
    for text in (curlew["sheet.html"], heron["sheet.html"]):
        sure = text.index("You are not sure: think of fire first. If it might be a fire, get everybody out.")
        assert sure < text.index("Shut yourself in") and not re.search("not sure: (?:do not|do the same|shut)", text)
