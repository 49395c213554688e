"""Does each hazard bring its message where it is, and nowhere else, with the signal word that it deserves?

Signal words: ANSI Z535.4-2007, 4.14, read second-hand in a standards FAQ that quotes it
(http://www.safetylabel.com/safetylabelstandards/ansi-signal-words.php). The hazards themselves: common practice, no source.
"""
import copy

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import messages, safety
from generator.procedure.message import Word
from generator.procedure.steps import procedure
from generator.tables.cell_names import is_button, is_lead, is_lithium
from tests.conftest import JOBS

# What follows if the message is ignored, and whether it will or could follow, gives the word, as the FAQ quotes the standard.
STANDARD = {("will", "death or serious injury"): Word.DANGER, ("could", "death or serious injury"): Word.WARNING,
            ("could", "minor or moderate injury"): Word.CAUTION, ("", "no injury"): Word.NOTICE}
SERIOUS, NONE = "death or serious injury", "no injury"
# The judgement for each hazard. "will" is kept for the worst cases: who ignores all of the message is killed or maimed.
JUDGED = {
    "wiring": ("will", SERIOUS), "asbestos": ("will", SERIOUS), "ladder": ("will", SERIOUS), "button-cell": ("will", SERIOUS), "live": ("will", SERIOUS),
    "terminals": ("could", SERIOUS), "drilling": ("could", SERIOUS), "dust": ("could", SERIOUS), "alone": ("could", SERIOUS),
    "battery": ("could", SERIOUS), "lithium": ("could", SERIOUS), "sounder": ("could", SERIOUS), "steps": ("could", SERIOUS), "life-safety": ("could", SERIOUS),
    "gas": ("could", SERIOUS), "personal": ("could", SERIOUS), "escape": ("could", SERIOUS), "implants": ("could", SERIOUS),
    "no-less-secure": ("", NONE), "radio": ("", NONE), "static": ("", NONE), "neighbours": ("", NONE), "cameras": ("", NONE),
}
HURTS = ("kill", "die", "death", "deadly", "blind", "burn", "burst", "fire", "injure", "harm", "hurt ", "lung")


def papers_of(job_file, *changes):
    return read_job(job_file(*changes)).papers


def ids(found) -> list[str]:
    return [one.id for one in found]


def test_every_message_has_the_word_that_the_standard_gives_to_its_outcome() -> None:
    assert {one.id: one.word for one in messages.EVERY} == {name: STANDARD[judged] for name, judged in JUDGED.items()}


@pytest.mark.parametrize("message", messages.EVERY, ids=ids(messages.EVERY))
def test_a_notice_tells_of_no_injury_and_every_other_word_does(message) -> None:
    told = [words for words in HURTS if words in message.consequence.lower()]
    assert bool(told or message.id in ("life-safety", "personal", "implants")) == (message.word is not Word.NOTICE), told


@pytest.mark.parametrize("message", messages.EVERY, ids=ids(messages.EVERY))
def test_every_message_names_hazard_consequence_avoidance_and_who_decides(message) -> None:
    assert all((message.hazard, message.consequence, message.avoid, message.brief))
    assert "decide" in message.defers_to or "law" in message.defers_to
    assert message.defers_to.endswith(messages.LOCAL)
    assert len(message.brief) < len(f"{message.avoid} {message.consequence} {message.defers_to}")


@pytest.mark.parametrize("message", [messages.WIRING, messages.TERMINALS], ids=["wiring", "terminals"])
def test_even_the_short_word_on_wiring_isolates_proves_and_leaves_fixed_wiring_to_the_licensed(message) -> None:
    short = message.brief.lower()
    assert all(words in short for words in ("isolate", "dead", "keep out of fixed wiring", "licensed electrician", "local wiring code"))


def sheet(name: str, **changes: str):
    """A change of one equipment sheet, by its name in the demo."""
    return lambda files: files["equipment"][name].update(changes)


def cell(name: str, printed: str):
    return lambda files: files["equipment"][name]["power"].update(cell=printed)


def kind(word: str, role: str):
    """The back door's contact becomes another kind of unit."""
    def change(files) -> None:
        files["equipment"]["tern-dc2"].update(kind=word)
        files["equipment"]["tern-dc2"].pop("terminals", None)
        files["job"]["devices"]["D3"].update(role=role)
    return change


def premises(**changes):
    return lambda files: files["job"]["premises"].update(changes)


def job(**changes):
    return lambda files: files["job"].update(changes)


TAKEOVER = {"kind": "takeover", "existing": [{"list": "zones", "number": "20", "text": "OLD SHED"}]}


def drop(*keys: str):
    """Takes a key out of the job, by the way to it."""
    def change(files) -> None:
        group = files["job"]
        for key in keys[:-1]:
            group = group[key]
        group.pop(keys[-1], None)
    return change


def no_mains(files) -> None:
    files["equipment"]["tern-cu32"]["power"].update(kind="wired")


def nothing(files) -> None:
    """No change."""


# The number of the hazard in the trade's list, its message, the unit it is asked of ("" for the job), a job with it, one without.
CASES = [
    ("W1", "wiring", "CU", nothing, no_mains),
    ("W1", "live", "CU", nothing, no_mains),
    ("W1", "terminals", "D3", nothing, lambda f: f["equipment"]["tern-dc2"].pop("terminals")),
    ("W2", "drilling", "D1", nothing, sheet("tern-dc", kind="fob")),
    ("W3", "ladder", "S1", nothing, lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.0")),
    ("W3", "ladder", "D2", lambda f: (f["job"]["premises"]["storeys"]["ground"].update(ceiling_m="2.8"), f["job"]["devices"]["D2"].update(height_m="2.6")),
     lambda f: f["job"]["devices"]["D2"].update(height_m="2.4")),
    ("W3", "steps", "D2", lambda f: f["job"]["devices"]["D2"].update(height_m="2.1"), lambda f: f["job"]["devices"]["D2"].update(height_m="2.0")),
    ("W3", "steps", "S1", lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.2"), nothing),
    ("W4", "asbestos", "D1", drop("premises", "built_before"), premises(built_before="false")),
    ("W5", "battery", "CU", nothing, cell("tern-cu32", "lithium pack")),
    ("W6", "lithium", "D1", nothing, cell("tern-dc", "LR6 alkaline")),
    ("W7", "button-cell", "F1", premises(children="true"), nothing),
    ("W7", "button-cell", "F1", premises(children="true"), lambda f: (premises(children="true")(f), cell("tern-fob", "CR2")(f))),
    ("W8", "static", "CU", nothing, lambda f: (no_mains(f), f["equipment"]["tern-cu32"].pop("terminals"))),
    ("W9", "sounder", "S1", nothing, sheet("tern-sx", kind="repeater")),
    ("W10", "dust", "K1", nothing, sheet("tern-kp", kind="tag")),
    ("W11", "life-safety", "D3", kind("smoke", "fire"), nothing),
    ("W12", "escape", "", job(part_sets={"night": {"name": "Night", "when": "everybody sleeps"}}), nothing),
    ("W12", "escape", "", lambda f: f["job"]["times"].update(completes_by="lock"), lambda f: f["job"]["times"].update(completes_by="final-door")),
    ("W13", "personal", "D3", kind("hold-up", "hold-up"), nothing),
    ("W13", "personal", "D3", kind("medical", "medical"), nothing),
    ("W14", "radio", "", nothing, lambda f: [one.pop("radio", None) for one in f["equipment"].values()]),
    ("W15", "implants", "F1", nothing,
     lambda f: (sheet("tern-fob", kind="tag")(f), f["job"]["users"]["1"].update(tag=f["job"]["users"]["1"].pop("fob")))),
    ("W16", "cameras", "", lambda f: f["job"]["monitoring"].update(confirmation="visual"),
     lambda f: f["job"]["monitoring"].update(confirmation="sequential")),
    ("W17", "gas", "D3", kind("carbon-monoxide", "carbon-monoxide"), kind("smoke", "fire")),
    ("W18", "neighbours", "", nothing, lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.0")),
    ("W19", "alone", "", nothing, drop("premises", "hazards")),
    ("W20", "no-less-secure", "", job(**TAKEOVER), nothing),
]


@pytest.mark.parametrize("number, message, unit, with_it, without_it", CASES, ids=[f"{one[0]}-{one[1]}-{index}" for index, one in enumerate(CASES)])
def test_a_hazard_stands_where_its_fact_is_and_nowhere_else(job_file, files, number, message, unit, with_it, without_it) -> None:
    def found(change) -> list[str]:
        papers = papers_of(job_file, change)
        return ids(safety.messages_of_unit(papers, unit) if unit else safety.messages_of_job(papers))

    before = copy.deepcopy(files)
    assert message in found(with_it), number
    files.clear()
    files.update(before)
    assert message not in found(without_it), number


def test_every_hazard_of_the_trades_list_is_asked_for() -> None:
    assert {one[0] for one in CASES} == {f"W{number}" for number in range(1, 21)}
    assert {one[1] for one in CASES} == set(JUDGED)


def test_every_hazard_of_a_job_stands_before_some_step_of_it(job_file) -> None:
    def everything(files) -> None:
        premises(children="true")(files)
        job(**TAKEOVER, part_sets={"night": {"name": "Night", "when": "everybody sleeps"}})(files)
        files["job"]["monitoring"].update(confirmation="visual")
        kind("carbon-monoxide", "carbon-monoxide")(files)
        files["equipment"]["hu"] = {**files["equipment"]["tern-dc"], "kind": "hold-up", "terminals": [{"name": "A", "wire": "B"}]}
        files["job"]["devices"]["H1"] = {"sheet": "hu", "room": "hall", "role": "hold-up", "text": "HOLD UP"}
    papers = papers_of(job_file, everything)
    met = {one.id for step in procedure(papers, compute(papers)) for one in step.messages}
    assert met == set(ids(safety.messages_of_job(papers))) == set(JUDGED)


def test_no_step_that_needs_the_mains_on_tells_to_isolate_it_and_none_that_is_done_dead_calls_it_live() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    found = {step.id: step for step in procedure(papers, compute(papers))}
    live = {name for name, step in found.items() if messages.LIVE in step.messages}
    assert live == {"power-battery", "on-S1", "enrol-R1", "test-CU", "test-S1", "tampers", "mains-fail", "battery-load", "test-R1"}
    assert not [name for name in live if {messages.WIRING, messages.STATIC} & set(found[name].messages)]
    dead = {name for name, step in found.items() if messages.WIRING in step.messages}
    assert dead == {"isolate", "cable-entry", "fix-CU", "fix-R1", "power-mains", "power-R1", "off-S1", "join-S1"}


def test_no_step_has_a_message_whose_hazard_the_job_has_not(job_file) -> None:
    papers = papers_of(job_file, premises(built_before="false"))
    there = set(safety.messages_of_job(papers))
    assert all(set(step.messages) <= there for step in procedure(papers, compute(papers)))
    assert messages.ASBESTOS not in there and messages.LADDER in there


def test_the_gravest_message_stands_first_before_every_step(job_file) -> None:
    papers = papers_of(job_file)
    rank = list(Word)
    for step in procedure(papers, compute(papers)):
        words = [rank.index(one.word) for one in step.messages]
        assert words == sorted(words), step.id


# Names as printed on cells; IEC 60086-1, nomenclature, from memory.
@pytest.mark.parametrize("name, button, lithium", [
    ("CR2032", True, True), ("cr1220 button cell", True, True), ("LR44", True, False), ("SR41", True, False), ("CR2", False, True),
    ("CR123A", False, True), ("CR17345", False, True), ("CR14505", False, True), ("LR6", False, False), ("LR03 alkaline", False, False),
    ("FR6", False, True), ("lithium pack LP3", False, True), ("12 V 7 Ah lead-acid battery", False, False), ("pack 4", False, None),
    ("CR1/3N", False, True),
])
def test_the_name_on_a_cell_tells_its_chemistry_and_whether_it_is_a_button(name, button, lithium) -> None:
    assert (is_button(name), is_lithium(name)) == (button, lithium)


def test_a_lead_battery_is_known_by_its_name() -> None:
    assert is_lead("12 V 7 Ah lead-acid battery") and is_lead("VRLA 12 V") and not is_lead("CR2")
