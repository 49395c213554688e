"""Do the pieces of the bench measure what they say, and does it fail where it should?"""
import sys
from pathlib import Path

import pytest
import yaml

from bench import AIMS, Bench, Times, block_lines, figures_of, report, stage_table, verdict
from block import write_block
from measured import shared_payloads
from plain import article, build_sites, differing
from process import COMPILED, run
from radio import JOBS, exponent, of_assignment, of_links, of_plan, of_searches, papers_of
from stages import STAGES

pytestmark = pytest.mark.alone

SITES = ["homeowner", "installer", "record"]
AT_AIM = {name: one.aim for name, one in AIMS.items()}
AT_BOUND = {name: one.bound or one.aim for name, one in AIMS.items()}


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(tmp_path_factory.mktemp("bench"))


@pytest.fixture(scope="module")
def sites(bench: Bench) -> Path:
    """The plain sites, really built."""
    build_sites(bench.sources, bench.work / "sites")
    return bench.work / "sites"


def test_plain_holds_the_same_content_in_every_page(bench: Bench, demo: Path, sites: Path) -> None:
    compared, other = differing(bench.packs, demo, sites)
    assert other == []
    assert sorted(folder.name for folder in sites.iterdir()) == SITES
    assert compared == sum(len(pack.pages) for pack in bench.packs if pack.audience.value in SITES)
    assert (sites / "installer" / "search" / "search_index.json").exists()
    assert not (sites / "homeowner" / "search").exists()


@pytest.mark.parametrize("site", SITES)
def test_a_page_that_differs_is_noticed(bench: Bench, demo: Path, sites: Path, site: str, tmp_path: Path) -> None:
    for folder in SITES:
        (tmp_path / folder).symlink_to(demo / folder)
    changed = tmp_path / "changed"
    changed.mkdir()
    for one in (demo / site).iterdir():
        (changed / one.name).symlink_to(one)
    page = (demo / site / "index.html").read_text(encoding="utf-8")
    (changed / "index.html").unlink()
    (changed / "index.html").write_text(page.replace("</article>", "<p>more</p></article>"), encoding="utf-8")
    (tmp_path / site).unlink()
    (tmp_path / site).symlink_to(changed)
    assert differing(bench.packs, tmp_path, sites)[1] == [f"{site}/index.html"]


def test_a_page_that_is_missing_is_noticed(bench: Bench, demo: Path, tmp_path: Path) -> None:
    compared, other = differing(bench.packs, demo, tmp_path)
    assert len(other) == compared


def test_an_article_is_its_text_and_its_attributes() -> None:
    page = '<p>not this<article class="x"><div>Door <a href="d.html">Hall &amp; lane</a></div></article><p>nor this'
    assert article(page) == ["Door", "href=d.html", "Hall", "&", "lane"]


def test_plain_is_mkdocs_without_our_plugin(bench: Bench) -> None:
    plugins = [yaml.safe_load(source.read_text(encoding="utf-8"))["plugins"] for source in bench.sources]
    assert plugins == [["search"], [], []]


def test_whatever_is_measured_keeps_its_compiled_modules_in_one_folder_of_the_run() -> None:
    told = run([sys.executable, "-c", "import sys; print(sys.dont_write_bytecode, sys.pycache_prefix)"])[1]
    assert told.split() == ["False", COMPILED.name]


def test_the_second_job_shares_no_qr_code_with_the_first(bench: Bench) -> None:
    # The bench refuses to start if there is one; here: that it would see one.
    assert shared_payloads(bench.packs, bench.packs)


def test_the_limit_writes_every_page(bench: Bench) -> None:
    times = Times()
    bench.limit(times)
    written = {file.relative_to(bench.work / "limit").as_posix() for file in (bench.work / "limit").rglob("*.html")}
    assert written == {f"{pack.audience.value}/{page.path}" for pack in bench.packs for page in pack.pages}
    assert times.of["limit"][0] > times.of["bare"][0] > 0


def test_the_stages_add_up_to_the_whole(bench: Bench) -> None:
    times = Times()
    bench.staged(times)
    assert sum(times.stages.values()) == pytest.approx(times.of["staged"][0], rel=0.1)
    assert list(times.stages) == [*STAGES, "end of Python"]
    assert [stage for stage, spent in times.stages.items() if spent <= 0] == []
    assert len(stage_table(times.stages, 1)) == len(times.stages)


def test_the_memory_of_a_build_is_measured(bench: Bench) -> None:
    assert 10 < bench.memory() < 1000


def test_the_numbers_of_many_units_are_measured(bench: Bench) -> None:
    assert 0 < bench.numbers() < 60


def test_the_radio_of_the_large_demo_is_measured_against_its_pages(bench: Bench) -> None:
    found = bench.radio()
    assert found["pages"] > 60 and found["page"] > 0
    assert found["links"] == pytest.approx(found["seconds"] / (10 * found["page"]), rel=0.5)
    assert 0 < found["radio"] < found["links"] * 10


@pytest.mark.long
def test_the_block_of_flats_is_the_one_that_was_asked_for_and_its_memory_is_measured(bench: Bench) -> None:
    found = bench.block()
    assert (found["units"], found["walls"], found["receivers"]) == (1000, 3000, 9) and 50 < found["block"] < AIMS["block"].bound
    assert "1000 units, 3000 walls, 9 receivers" in block_lines(found)[0]


def test_an_exponent_is_the_power_of_growth() -> None:
    assert exponent([1, 2, 4, 8], [3, 6, 12, 24]) == pytest.approx(1)
    assert exponent([5, 10, 20], [25, 100, 400]) == pytest.approx(2)
    assert exponent([5, 10, 20], [7, 7, 7]) == pytest.approx(0)


def test_blocks_of_every_size_go_through_the_intake_and_hold_what_they_say(tmp_path: Path) -> None:
    for flats, receivers, units in ((2, 1, 5), (6, 3, 25), (10, 8, 12)):
        papers = papers_of(tmp_path, flats, receivers, units)
        assert len(papers.job.devices) == flats * units and len(papers.rooms()) == 25 * flats
        assert sum(papers.sheet_of[name].kind == "repeater" for name in papers.job.devices) == receivers - 1
    assert write_block(tmp_path / "one", JOBS, 2).read_bytes() == write_block(tmp_path / "two", JOBS, 2).read_bytes()


def test_growth_is_measured_of_links_plan_and_receivers_and_more_takes_longer(tmp_path: Path) -> None:
    blocks = [(2, 2, 10), (10, 4, 20)]
    for found in (of_links(tmp_path, blocks), of_searches(tmp_path, blocks), of_plan(tmp_path, [2, 10]), of_assignment([20, 200])):
        assert 0 < found[0] < found[1]


def test_figures_are_medians_of_each_rounds_own_ratio() -> None:
    times = Times({"ours": [1, 9, 4], "plain": [1, 3, 4], "second": [1, 1, 1], "limit": [1, 1, 1], "first": [6, 6, 6],
                   "bare": [1, 2, 3]})
    assert figures_of(times, {"memory": 50, "numbers": 0.5, "links": 0.3, "pages": 71}) == {
        "cold": 1, "second": pytest.approx(1 / 3), "limit": 4, "bare": 3, "memory": 50, "numbers": 0.5, "links": 0.3}


@pytest.mark.parametrize(("factor", "code"), [(1, 0), (1.4, 0), (1.6, 1)])
def test_the_report_says_where_the_time_goes_when_an_aim_is_not_reached(factor: float, code: int) -> None:
    said: list[str] = []
    times = Times({"ours": [1.0]}, {"imports": 2.0, "views": 1.0})
    assert report(times, AT_AIM | {"cold": factor * AIMS["cold"].aim}, 1, said.append) == code
    assert (said[-1] == "Most of the time goes to: imports, views.") == (factor > 1)


@pytest.mark.parametrize("figures", [AT_AIM, {name: 0.5 * figure for name, figure in AT_AIM.items()}])
def test_it_passes_at_the_aims_and_below(figures: dict[str, float]) -> None:
    lines, code = verdict(figures)
    assert code == 0
    assert all(line.endswith(": reached") for line in lines)


def test_it_passes_up_to_the_bounds_and_says_what_is_not_reached() -> None:
    lines, code = verdict(AT_BOUND)
    assert code == 0
    assert [line.endswith("NOT REACHED") for line in lines] == [one.bound is not None for one in AIMS.values()]


BOUND = [name for name, one in AIMS.items() if one.bound is not None]


def test_what_must_hold_has_a_bound_and_the_rest_an_aim() -> None:
    assert BOUND == ["cold", "second", "links", "radio", "block", "product", "devices", "receivers", "walls", "searches", "plan",
                     "assignment"]


@pytest.mark.parametrize("name", BOUND)
def test_it_fails_past_a_bound(name: str) -> None:
    lines, code = verdict(AT_AIM | {name: AT_BOUND[name] * 1.01})
    assert code == 1
    assert sum("TOO MUCH" in line for line in lines) == 1


@pytest.mark.parametrize("name", sorted(set(AIMS) - set(BOUND)))
def test_an_aim_without_a_bound_is_told_only(name: str) -> None:
    lines, code = verdict(AT_AIM | {name: AIMS[name].aim * 3})
    assert code == 0
    assert sum(line.endswith("NOT REACHED") for line in lines) == 1
