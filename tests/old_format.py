"""A format 0 that never was, for tests alone: one key renamed, one moved, one given in another unit; and where a group goes."""
from fractions import Fraction

import pytest

from generator.intake import migrations
from generator.intake.migrations import Convert, Drop, Move, Rename
from generator.intake.steps_on_text import Draft, current
from generator.intake.yaml_tree import tree_of

OLD = {
    ("job", 0): (
        Rename("devices.*.place", "position"),
        Move("sounder.run_min", "times"),
        Drop("sounder"),
        Convert("times.entry_min", "entry_s", Fraction(60)),
    ),
    ("people", 0): (Rename("customer.phone", "telephone"),),
    ("company", 0): (Rename("phone", "telephone"),),
    ("sheet", 0): (Convert("mounting_cm", "mounting_m", Fraction(1, 100)),),
    ("profile", 0): (Move("stand.*.edition", "documents.*"), Drop("stand.*"), Drop("stand")),
}


@pytest.fixture
def old_format(monkeypatch: pytest.MonkeyPatch) -> None:
    """Makes format 0 of every kind of file known."""
    monkeypatch.setattr(migrations, "MIGRATIONS", OLD)


def drafted(monkeypatch: pytest.MonkeyPatch, text: str, *steps) -> Draft:
    """A text of a job in format 0 taken to format 1 by steps of one's own."""
    monkeypatch.setattr(migrations, "MIGRATIONS", {("job", 0): steps})
    return current(tree_of(text.replace("\r\n", "\n").replace("\r", "\n"), "job.yaml"), "job", text)


def asked(draft: Draft) -> list[str]:
    """What a draft's problems say, without what to write instead."""
    return [f"{one.line}:{one.column} {one.field}: {one.says}" for one in draft.problems]
