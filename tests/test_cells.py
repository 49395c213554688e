"""Is the life of a cell the one that published examples work out, never longer for more messages, and never promised?"""
import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as some

from generator.calc.days.campaigns import Campaign, Due, campaigns, last_visit
from generator.calc.power.cells import NOT_FOR_COLD, Cell, cell_life, supervision_messages
from generator.calc.working import Given

NONSENSE = [-1.0, math.nan, math.inf, -math.inf, 1e300, 1e-300]


def number(name: str, value: float, unit: str = "") -> Given:
    return Given(name, "x", value, unit, "typed in the test")


def cell(capacity: float = 1200, sleep: float = 12, message: float = 30, usable: float = 100, loss: float = 0) -> Cell:
    return Cell(number("capacity", capacity, "mAh"), number("usable share", usable, "%"), number("loss", loss, "%"),
                number("sleep current", sleep, "µA"), number("charge of a message", message, "mA·s"))


def messages(count: float) -> Given:
    return number("messages", count)


# --- against published examples -------------------------------------------------------------------------------

def test_a_node_that_sends_every_quarter_of_an_hour_lasts_14101_hours() -> None:
    # A published page on sensor batteries (read): 28 mA for 0.65 s, 31 mA for 0.05 s, 0.12 mA for 900 s; 2000 mAh last
    # 14 101 h at 0.142 mA. Our sleep current flows all the time, so that a message is what comes on top of it.
    cycle_s = 0.65 + 0.05 + 900
    extra = (28 - 0.12) * 0.65 + (31 - 0.12) * 0.05
    life = cell_life(cell(2000, 120, extra), [messages(86400 / cycle_s)])
    assert life.by_the_sum * 8766 == pytest.approx(14101, abs=1)
    assert life.day_mah / 24 == pytest.approx(0.142, abs=0.0005)


def test_a_node_of_eighteen_messages_a_day_takes_1_224_mah_a_day() -> None:
    # A published course page (read): 18 messages a day, 40 mA for 6 s each, 1 µA between them, 6000 mAh: 1.224 mAh a day,
    # 4902 days, 13.4 years.
    life = cell_life(cell(6000, 1, 40 * 6), [messages(18)])
    assert life.day_mah == pytest.approx(1.224, abs=1e-9)
    assert life.by_the_sum * 365.25 == pytest.approx(4902, abs=0.5)
    assert life.by_the_sum == pytest.approx(13.4, abs=0.05)
    # Nobody is promised as much.
    assert life.years == 10
    assert "longer" in life.working.notes[-1]


def test_a_node_of_717_microwatts_lasts_140_days() -> None:
    # A published question and answer page (read): 717 µW at 2.8 V are 0.256 mA; 860 mAh last 3358 h, 140 days.
    life = cell_life(cell(860, 717 / 2.8, 0), [])
    assert life.years * 8766 == pytest.approx(3358, abs=1)
    assert life.years * 365.25 == pytest.approx(140, abs=0.5)


@pytest.mark.parametrize("count, years", [(60, 3.5), (120, 2.2), (400, 0.75)])
def test_a_busy_hall_empties_a_cell_in_months(count, years) -> None:
    # Common practice, no source: 1.2 Ah of which 85 % are counted on, 12 µA, 30 mA·s a message: about 3.5 years in a quiet
    # room, 2.2 in a room in use, nine months in a busy hall. Again by hand: 1020 mAh / ((0.012 + count x 30 / 86400) x 8766).
    life = cell_life(cell(usable=85), [messages(count)])
    assert life.years == pytest.approx(1020 / ((0.012 + count * 30 / 86400) * 8766), rel=1e-9)
    assert life.years == pytest.approx(years, abs=0.08)


def test_what_a_cell_loses_by_itself_shortens_its_life() -> None:
    # By hand: 850 mAh / (0.01 mA x 8766 h + 1 % of 1000 mAh) = 850 / 97.66.
    assert cell_life(cell(1000, 10, 0, 85, 1), []).years == pytest.approx(850 / 97.66)


@given(sleep=some.floats(5, 500), loss=some.floats(0.1, 5), usable=some.floats(50, 100))
def test_beyond_a_year_it_is_never_longer_than_by_the_other_form(sleep, loss, usable) -> None:
    # The other form in use: what is left after its yearly loss is what was drawn, C x (1 - s)^T = I x 8766 x T.
    years = cell_life(cell(1200, sleep, 0, usable, loss), []).by_the_sum
    if years > 1:
        assert 1200 * usable / 100 * (1 - loss / 100) ** years >= sleep / 1000 * 8766 * years * (1 - 1e-9)


def test_signs_of_life_are_messages_too() -> None:
    # By hand: one every 15 min are 96 a day.
    signs = supervision_messages(number("between two supervision messages", 15, "min"))
    assert signs.value == 96
    assert "one every 15 min" in signs.origin
    assert cell_life(cell(), [messages(60), signs]).years == cell_life(cell(), [messages(156)]).years


def test_the_working_says_that_it_is_derated_and_that_cold_is_not_in_it() -> None:
    notes = cell_life(cell(usable=85), [messages(60)]).working.notes
    assert notes[0].startswith("Derated: 85 % of the capacity")
    assert notes[1] == NOT_FOR_COLD == "Not derated for cold: no figure."
    assert cell_life(cell(), [messages(60)]).working.notes[0].startswith("Not derated: 100 %")


@given(count=some.floats(0.01, 5000), more=some.floats(0.01, 5000), charge=some.floats(0.1, 500), sleep=some.floats(0.1, 500))
def test_more_messages_never_make_it_longer(count, more, charge, sleep) -> None:
    one, other = (cell_life(cell(1200, sleep, charge, 85, 1), [messages(n)]) for n in (count, count + more))
    assert other.by_the_sum < one.by_the_sum
    assert other.years <= one.years <= 10


# --- the day, and what is changed together --------------------------------------------------------------------

def test_a_cell_is_spent_on_the_last_whole_day_of_its_life() -> None:
    # By hand: 0.256 mA from 860 mAh last 139.9 days; 139 days after 1 March are 18 July.
    life = cell_life(cell(860, 717 / 2.8, 0), [])
    assert life.dies_on(date(2026, 3, 1)) == date(2026, 3, 1) + timedelta(days=139) == date(2026, 7, 18)
    assert cell_life(cell(6000, 1, 240), [messages(18)]).dies_on(date(2026, 3, 1)) == date(2036, 2, 29)
    with pytest.raises(ValueError, match="date of fitting"):
        life.dies_on(date(9999, 12, 1))


def test_cells_of_one_type_due_in_one_month_are_one_campaign() -> None:
    due = [Due("D4", "CR2", 1, date(2028, 3, 30)), Due("D1", "CR123A", 2, date(2028, 3, 9)), Due("D2", "CR2", 1, date(2028, 3, 2)),
           Due("D3", "CR2", 1, date(2027, 3, 2)), Due("D5", "CR2", 2, date(2028, 4, 1))]
    assert campaigns(due) == (
        Campaign(2027, 3, "CR2", 1, ("D3",), date(2027, 3, 2)), Campaign(2028, 3, "CR123A", 2, ("D1",), date(2028, 3, 9)),
        Campaign(2028, 3, "CR2", 2, ("D4", "D2"), date(2028, 3, 2)), Campaign(2028, 4, "CR2", 2, ("D5",), date(2028, 4, 1)))
    assert campaigns([]) == ()


dues = some.lists(some.builds(Due, some.uuids().map(str), some.sampled_from(["CR2", "CR123A", "AA"]), some.integers(1, 4),
                              some.dates(date(2026, 1, 1), date(2029, 1, 1))), max_size=20)


@given(due=dues)
def test_every_unit_stands_in_just_one_campaign(due) -> None:
    found = campaigns(due)
    assert sorted(unit for one in found for unit in one.units) == sorted(one.unit for one in due)
    assert sum(one.cells for one in found) == sum(one.cells for one in due)
    assert len({(one.year, one.month, one.cell) for one in found}) == len(found)
    assert [one.first_on.replace(day=1) for one in found] == sorted(one.first_on.replace(day=1) for one in found)


def test_a_cell_is_changed_at_the_last_visit_before_it_is_spent() -> None:
    visits = [date(2027, 9, 1), date(2026, 9, 1), date(2028, 9, 1)]
    assert last_visit(visits, date(2028, 8, 31)) == date(2027, 9, 1)
    # A visit on the very day comes too late: the cell may be spent by the hour.
    assert last_visit(visits, date(2028, 9, 1)) == date(2027, 9, 1)
    assert last_visit(visits, date(2026, 8, 1)) is None


# --- what cannot be -------------------------------------------------------------------------------------------

@pytest.mark.parametrize("value", [0.0, *NONSENSE])
def test_a_capacity_a_share_and_an_interval_that_cannot_be_are_refused(value) -> None:
    with pytest.raises(ValueError, match="capacity"):
        cell_life(cell(capacity=value), [messages(60)])
    with pytest.raises(ValueError, match="usable share"):
        cell_life(cell(usable=value), [messages(60)])
    with pytest.raises(ValueError, match="between two supervision messages"):
        supervision_messages(number("between two supervision messages", value, "min"))


@pytest.mark.parametrize("value", NONSENSE)
def test_a_current_a_charge_and_a_count_may_be_none_but_no_nonsense(value) -> None:
    with pytest.raises(ValueError, match="sleep current"):
        cell_life(cell(sleep=value), [messages(60)])
    with pytest.raises(ValueError, match="charge of a message"):
        cell_life(cell(message=value), [messages(60)])
    with pytest.raises(ValueError, match="messages"):
        cell_life(cell(), [messages(value)])


@pytest.mark.parametrize("value", [-1.0, 101.0, math.nan, math.inf, 1e300])
def test_a_loss_that_cannot_be_is_refused(value) -> None:
    with pytest.raises(ValueError, match="loss"):
        cell_life(cell(loss=value), [messages(60)])


def test_a_cell_from_which_nothing_is_taken_has_no_life() -> None:
    with pytest.raises(ValueError, match="charge that the cell gives or loses"):
        cell_life(cell(sleep=0, message=0), [messages(60)])
    with pytest.raises(ValueError, match="cells of D1"):
        campaigns([Due("D1", "CR2", 0, date(2026, 1, 1))])
