"""What is the script of the installer's pack told, and is it what the plan says and the installer may see? Does the script reach the pack whole?"""
import json
import re
import subprocess
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from generator.pages.installer.hand_told import HandData
from generator.pipeline import Compiled, compile_job, issued_on, looked_for, pack_of
from generator.procedure.check import RESULTS
from generator.publish.hand import DATA, PARTS, SCRIPT, data_script, script
from generator.publish.lean.script import OpenText, lean
from generator.publish.places import own_wording
from generator.terms.audience import Audience
from tests.conftest import DEMO, JOBS, Files


def told(compiled: Compiled) -> HandData:
    """What the installer's script is told of a job."""
    hand = pack_of(compiled, Audience.INSTALLER, str, looked_for(compiled, own_wording())).hand
    assert hand
    return hand


@pytest.fixture(scope="module")
def demo_told() -> tuple[Compiled, HandData]:
    compiled = compile_job(DEMO / "job.yaml")
    return compiled, told(compiled)


def read_back(text: str) -> dict[str, Any]:
    """The data as a browser reads it, by the program node."""
    run = subprocess.run(["node", "-e", f"globalThis.self = globalThis;{text};console.log(JSON.stringify(self.DOORPOST))"], capture_output=True, text=True, check=True)
    return json.loads(run.stdout)


def test_planned_serials_numbers_and_texts_are_those_of_the_plan(demo_told: tuple[Compiled, HandData]) -> None:
    compiled, hand = demo_told
    devices, rows = compiled.papers.job.devices, compiled.results.slots.rows
    assert {one.id: one.serial for one in hand.units if one.id in devices} == {name: device.serial or "" for name, device in devices.items()}
    assert [(one.id, one.list, one.text) for one in hand.units if one.list == "zone"] == [(row.device, "zone", row.text) for row in rows if row.list == "zones"]
    asked = {one.device: one.planned for one in hand.asked if one.kind == "serial"}
    assert asked == {one.id: one.serial for one in hand.units}


def test_steps_and_what_is_asked_belong_together_and_lead_to_pages_that_exist(demo: Path, demo_told: tuple[Compiled, HandData]) -> None:
    _, hand = demo_told
    assert [one.n for one in hand.steps] == list(range(1, len(hand.steps) + 1))
    assert {one.step for one in hand.asked} == {one.id for one in hand.steps}
    for one in hand.steps:
        page, _, anchor = one.page.partition("#")
        assert anchor in (one.id, f"hold-{one.id}") and f'id="{anchor}"' in (demo / "installer" / page).read_text(encoding="utf-8")
    for unit in hand.units:
        assert (demo / "installer" / unit.page).is_file()
    assert hand.words.results == RESULTS


def test_only_what_the_installer_may_see_is_told(demo: Path) -> None:
    # The rest is held by the test that changes every hidden field and compares all bytes of the pack.
    text = (demo / "installer" / DATA).read_text(encoding="utf-8")
    for hidden in ("keyholder", "agreement", "ZZ99"):
        assert hidden not in text


def test_a_serial_that_stands_twice_is_not_offered_as_planned(job_file: Callable[..., Path]) -> None:
    def twice(files: Files) -> None:
        files["job"]["devices"]["D2"]["serial"] = files["job"]["devices"]["D1"]["serial"]

    hand = told(compile_job(job_file(twice)))
    asked = {one.device: one for one in hand.asked if one.kind == "serial"}
    units = {one.id: one for one in hand.units}
    for name in ("D1", "D2"):
        assert asked[name].planned == "" and asked[name].accept.startswith("STOP: ")
        assert units[name].serial == "" and units[name].stop
    assert asked["K1"].planned and units["K1"].stop == ""


def test_where_a_bad_day_asks_for_more_than_the_limit_the_step_of_the_link_says_so() -> None:
    hand = told(compile_job(JOBS / "curlew-house" / "job.yaml"))
    more = {one.unit: (one.wanted, one.wish) for one in hand.steps if one.wish}
    assert more["M4"] == (45.9, "ASK THE OFFICE before drilling: for a bad day 45.9 dB or more is wanted here.")
    assert all(one.id == f"signal-{one.unit}".lower() for one in hand.steps if one.wish)
    assert all(one.wanted is None for one in hand.steps if not one.wish)


def test_a_pack_that_was_not_issued_as_it_stands_is_of_no_revision(demo_told: tuple[Compiled, HandData]) -> None:
    assert demo_told[1].revision == 0
    issued = issued_on(demo_told[0], date(2026, 11, 24))
    assert told(issued).revision == 1
    assert told(replace(issued, fingerprint_of={one: "0" * 64 for one in Audience})).revision == 0


def test_the_data_reads_back_as_it_was_told_and_no_text_ends_the_script(demo_told: tuple[Compiled, HandData]) -> None:
    hand = replace(demo_told[1], title="</script><!-- \u2028 \\u0041 `${1}`")
    text = data_script(hand)
    assert "<" not in text and "\u2028" not in text
    data = read_back(text)
    assert data["title"] == hand.title
    assert [one["id"] for one in data["steps"]] == [one.id for one in hand.steps]
    assert [(one["device"], one["step"], one["what"], one["least"], one["planned"]) for one in data["asked"]] == [
        (one.device, one.step, one.what, one.least, one.planned) for one in hand.asked]
    assert data["scale"] == {"unit": "bars", "most": 9, "passes": 4} and data["words"]["results"] == list(RESULTS)


def test_the_pack_holds_the_script_after_its_data_and_no_part_of_it_by_itself(demo: Path) -> None:
    installer = demo / "installer"
    assert (installer / SCRIPT).read_text(encoding="utf-8") == script()
    assert not (installer / "hand").exists()
    for name, root in (("index.html", ""), ("steps/fix.html", "../")):
        page = (installer / name).read_text(encoding="utf-8")
        assert page.index(f'<script src="{root}{DATA}" defer></script>') < page.index(f'<script src="{root}{SCRIPT}" defer></script>')
    for other in ("homeowner", "station", "record"):
        assert not list((demo / other).rglob("hand*"))


def test_the_lean_script_means_what_its_source_means() -> None:
    source = r'''
    // a comment with "a text" and `another`
    const a = "// no comment"; /* gone */ const b = 'it\'s /* kept */';
    const c = `a  ${ { x: `in  ${1 + +"2"} ` }.x }  // kept`;
    const d = /[/"'`]+ \/ {2}/g.test("'/ /  ") ? 8 / 2 / 1 : 3;
    const e = 1 + +1 - -1, f = typeof /x/;
    const given = (first, { second, third: other = 4, ...rest }) => ({ first, second, other, ...rest, ...first && { third: first }, third() { return second; } });
    const once = 1; for (const two of [once]) console.log(two); const three = () => { const four = 2; const five = `${four};const`; return five; }; const six = three();
    if (six) { console.log(six); } { let ten = 3; while (--ten > 0); for (const _ of [1]); if (ten) three(); }
    const whole = { const: true, false: false, if: false }; console.log(whole.const === true, !false, whole.false, typeof true, (() => { return true; })());
    if (six) { console.log(six); } const seven = 7; console.log(seven); const eight = 8; const nine = 9; console.log(eight, nine);
    const { first: one, second, ...more } = given(5, { second: 6, third: 7, fourth: 8 }), [, next = one, [deep]] = [0, undefined, [second]];
    for (const [key, value] of Object.entries({ one, second, more, next, deep })) console.log(key, JSON.stringify(value), (({ one }) => one)({ one: key }));
    const g = () => { return /a b/ }
    console.log(JSON.stringify([a, b, c, d, e, f, String(g())]))
    '''
    before, after = (subprocess.run(["node", "-e", text], capture_output=True, text=True, check=True).stdout for text in (source, lean(source)))
    assert before == after and "kept" in after
    assert "comment with" not in lean(source) and "gone" not in lean(source) and len(lean(source)) < len(source) - 100


@pytest.mark.parametrize("text", ["const a = `open", "const a = \"open\nb", "const a = `${'open}`"])
def test_a_text_without_an_end_is_a_mistake_of_ours(text: str) -> None:
    with pytest.raises(OpenText, match="has no end"):
        lean(text, "part.js")


def test_no_part_reads_text_as_html_evaluates_or_fetches() -> None:
    for path in sorted(PARTS.glob("*.js")):
        source = lean(path.read_text(encoding="utf-8"))
        assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\b|new Function|XMLHttpRequest", source), path.name
