"""Does a height on the page say the height in the job, for somebody with a tape in the hand?"""
import pytest
from bs4 import BeautifulSoup

from generator.intake.job_reader import read_job
from generator.terms.show import metres
from tests.conftest import JOBS
from tests.test_step_pages import html, words


@pytest.fixture(scope="module")
def large() -> dict[str, BeautifulSoup]:
    return html(JOBS / "curlew-house" / "job.yaml")


@pytest.mark.parametrize("value, says", [(1.85, "1.85 m"), (0.05, "0.05 m"), (2.0, "2 m"), (4.8, "4.8 m")])
def test_a_length_is_said_to_the_centimetre(value: float, says: str) -> None:
    assert metres(value) == says


def test_steps_and_pages_of_units_say_each_height_as_the_job_has_it(large) -> None:
    """By hand: 1.85 m for the front door's contact, 0.05 m for the water detector, as the job file says."""
    steps = {one.h2["id"]: words(one) for one in large["steps/fix.html"].select("section.step")}
    assert "Height 1.85 m" in steps["fix-d1"] and "Height 0.05 m" in steps["fix-w1"]
    pages = {page.h1.get_text(): words(page) for path, page in large.items() if path.startswith("d/")}
    for name, one in read_job(JOBS / "curlew-house" / "job.yaml").papers.job.devices.items():
        if one.height_m is not None:
            said = f"Height {float(one.height_m):g} m"
            assert said in pages[name] and said in steps[f"fix-{name.lower()}"], name
