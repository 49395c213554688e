"""Is a hold-up unit one that nobody presses by mistake, and can it be found?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.job import Device
from generator.model.papers import Papers
from generator.rules.asked import limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import count, sentence_list

HOLD_UP, CARRIED = "hold-up", ("fob", "tag")
ACTIONS = "holdup_actions"


def hold_up_units(papers: Papers) -> dict[str, Device]:
    """The units by which somebody calls for help unseen."""
    return {name: device for name, device in papers.job.devices.items() if HOLD_UP in (device.role, papers.sheet_of[name].kind)}


WITH_HOLD_UP = Where("the job has hold-up units", lambda papers: bool(hold_up_units(papers)))


@rule("hold-up-one-action", Severity.FIX, where=WITH_HOLD_UP, limits=(ACTIONS,),
      compares="the actions that the sheet of each hold-up unit asks for with those that the profile wants",
      mends="Choose a unit that asks for two actions at once, or correct two_action in its sheet.")
def hold_up_one_action(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A hold-up unit can be set off by one action.

    A bag put down, a child or an animal does it, and two false calls can end the response to all of them.
    """
    wanted, silent = papers.profile.limits[ACTIONS].value, []
    for name, device in hold_up_units(papers).items():
        two = papers.sheet_of[name].two_action
        # One action, and one more where two are needed at once.
        actions = 1 + bool(two)
        if two is None:
            silent.append(device.sheet)
        elif actions < wanted:
            yield Hit(f"job.devices.{name}.sheet", f"{name} asks for {count(actions, 'action')}; {limit_text(papers, ACTIONS)} separate ones are "
                      "wanted.", "Choose a unit that asks for two at once, or correct two_action in its sheet.",
                      (Value("actions", str(actions), "", f"sheet {device.sheet}: two_action"), limited(papers, ACTIONS, "at least")))
    if silent:
        sheets = sorted(set(silent))
        yield Unchecked(f"the {'sheets' if len(sheets) > 1 else 'sheet'} {sentence_list(sheets)} {'do' if len(sheets) > 1 else 'does'} not say "
                        "whether two actions are needed")


@rule("hold-up-place", Severity.ASK, where=WITH_HOLD_UP, source=PRACTICE,
      compares="the hold-up units that are fitted with what the job file says of their place, and of their height where children live",
      mends="Agree the place with whoever would use it, and write position:, and height_m: where children live.")
def hold_up_place(papers: Papers, results: Results) -> Iterator[Hit]:
    """Nobody has said where exactly a hold-up unit goes.

    It must be reached without being seen to be reached, and must not be where children play.
    """
    children = papers.job.premises.children
    for name, device in hold_up_units(papers).items():
        if papers.sheet_of[name].kind in CARRIED:
            continue
        at = f"job.devices.{name}"
        lacks = ([("place", f"{at}.position")] if device.position is None else []) + (
            [("height", f"{at}.height_m")] if children and device.height_m is None else [])
        if lacks:
            why = "; children live here or visit often" if children else ""
            yield Hit(lacks[0][1], f"No {sentence_list([what for what, _ in lacks], 'and no')} is given for {name}{why}.",
                      "Agree it with whoever would use the unit: reached unseen, out of children's reach.",
                      (*(Value(what, "none", "", field) for what, field in lacks),
                       Value("children", "true" if children else "false", "", "job.premises.children")))
