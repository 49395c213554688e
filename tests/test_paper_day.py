"""Does paper ask for what the phone asks for, step by step, and do labels hold what a company and a link need?"""
from collections import Counter

import pytest
from qrcode import base
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_Q
from qrcode.util import BIT_LIMIT_TABLE, QRData

from generator.model.label_sheet import A4_24, LEAST_MODULE_MM, LETTER_30, PAPERS, LabelSheet
from generator.pages.installer.paper_day import PATH, PaperView
from generator.pages.installer.steps import PhaseView
from generator.pages.labels import LabelSheetsView
from generator.pipeline import compile_job, pack_of, steps_of
from generator.procedure.asked import CALLED, CHECK, PHOTO, SERIAL, SIGNAL, SIGNATURE, asked_of
from generator.terms.audience import Audience
from generator.terms.label_code import FITS, MODULES, VERSION
from generator.terms.problem import JobInvalid
from tests.conftest import read_files, write_files

OWN = {"paper": "Letter", "columns": "2", "rows": "10", "width_mm": "101.6", "height_mm": "25.4", "left_mm": "3.96", "top_mm": "12.7", "across_mm": "4.77"}


def compiled(tmp_path, change=lambda files: None):
    files = read_files()
    change(files)
    return compile_job(write_files(files, tmp_path / "job"))


def pages(job):
    looked = {audience: None for audience in Audience}
    return {page.path: page.view for page in pack_of(job, Audience.INSTALLER, str, looked).pages}


def test_paper_asks_at_each_step_for_what_the_phone_asks(tmp_path) -> None:
    job = compiled(tmp_path)
    found = pages(job)
    view: PaperView = found[PATH]
    steps = [step for phase in view.phases for step in phase.steps]
    on_phone = [step for one in found.values() if isinstance(one, PhaseView) for step in one.steps]
    assert [step.view for step in steps] == on_phone and len(steps) > 30
    asked = asked_of(job.papers_of[Audience.INSTALLER], job.results, steps_of(job))
    assert {one.step for one in asked} == {step.view.id for step in steps}
    for step in steps:
        own = [one for one in asked if one.step == step.view.id]
        wanted, kinds = Counter(one.kind for one in own), Counter(row.kind for row in step.rows)
        photos = [one for one in own if one.kind == PHOTO]
        boxed = [box for row in step.rows for box in row.boxes]
        # One photograph has a row like a line of the checklist; more share a row, a box each.
        assert boxed == ([one.title for one in photos] if len(photos) > 1 else [])
        assert kinds[CHECK] == wanted[CHECK] + (len(photos) == 1)
        assert all(kinds[one] == wanted[one] for one in (SERIAL, SIGNAL, SIGNATURE))
        for one in own:
            # What is asked of a call stands in one row.
            rows = [row for row in step.rows if row.title.endswith(one.title) or row.kind == one.kind == CALLED and one.title.lower() in row.title]
            assert one.kind in ("step", "note") or one.kind == "hold" and step.view.hold or rows or one.title in boxed
            assert one.kind != CHECK or any(row.value == one.unit for row in rows)
    links = [row for step in steps for row in step.rows if row.kind == SIGNAL]
    assert links and all(row.tries == (1, 2, 3) and row.ways[0].startswith("from ") for row in links)
    assert {len(row.ways) for row in links} == {1, 2}


def test_a_safety_message_stands_in_full_at_its_first_step_of_the_day(tmp_path) -> None:
    view = pages(compiled(tmp_path))[PATH]
    full = [message.view.id for phase in view.phases for step in phase.steps for message in step.messages if message.full]
    every = {message.view.id for phase in view.phases for step in phase.steps for message in step.messages}
    assert len(full) == len(set(full)) and set(full) == every


@pytest.mark.parametrize("stock", [A4_24, LETTER_30], ids=["A4", "Letter"])
def test_the_sheets_that_are_built_in_fit_their_paper_and_their_codes_can_be_read(stock) -> None:
    assert all(used <= there for used, there in zip(stock.used, PAPERS[stock.paper]))
    # Both edges alike, so that a sheet can be fed either way round.
    assert stock.used[0] == pytest.approx(PAPERS[stock.paper][0] - stock.left) and stock.used[1] == pytest.approx(PAPERS[stock.paper][1] - stock.top)
    assert stock.module >= LEAST_MODULE_MM and stock.code < stock.height


def test_the_smallest_label_that_can_be_asked_for_holds_a_code_that_can_be_read() -> None:
    least = {"width_mm": 55.0, "height_mm": 24.0}
    stock = LabelSheet.model_construct(paper="A4", columns=1, rows=1, left_mm=0.0, top_mm=0.0, across_mm=0.0, down_mm=0.0, **least).stock()
    assert stock.module >= LEAST_MODULE_MM - 1e-9


@pytest.mark.parametrize("level, name", [(ERROR_CORRECT_H, "H"), (ERROR_CORRECT_Q, "Q")], ids=["H", "Q"])
def test_what_fits_a_code_is_what_the_library_that_makes_it_says(level: int, name: str) -> None:
    # Four bits of mode and eight of length before the bytes: ISO/IEC 18004, from memory; the table is the library's.
    assert (BIT_LIMIT_TABLE[level][VERSION] - 12) // 8 == FITS[name]
    assert 17 + 4 * VERSION == MODULES and base.rs_blocks(VERSION, level) and QRData(b"x").mode


def test_a_label_of_the_companys_own_size_comes_first_and_one_that_does_not_fit_is_refused(tmp_path) -> None:
    found = pages(compiled(tmp_path, lambda files: files["company"].update(label_sheet=OWN)))
    sheets = {path: view for path, view in found.items() if isinstance(view, LabelSheetsView)}
    assert list(sheets) == ["labels-own.html", "labels.html", "labels-letter.html"]
    assert sheets["labels-own.html"].paper == "Letter" and "--wide: 101.6mm" in sheets["labels-own.html"].measures
    with pytest.raises(JobInvalid) as caught:
        compiled(tmp_path / "wide", lambda files: files["company"].update(label_sheet={**OWN, "columns": "3", "rows": "11"}))
    said = [(one.file, one.says) for one in caught.value.problems]
    assert len(said) == 2 and all(file == "company.yaml" and "from the paper's edge" in says for file, says in said)


def test_a_link_that_needs_smaller_modules_gives_way_to_the_short_reference(tmp_path) -> None:
    def publish(length: int):
        return lambda files: files["job"].update(publish={"address": f"https://{'p' * length}.example/", "installer": "k" * 13 + "3" * 13})
    for length, whole in ((20, True), (60, False)):
        labels = pages(compiled(tmp_path / str(length), publish(length)))["labels.html"].labels
        assert all(label.payload.startswith("https://") is whole and label.payload.upper().find(label.short) >= 0 for label in labels)
        assert all(len(label.payload) <= FITS["Q"] for label in labels)
