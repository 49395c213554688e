"""Do the numbers hold?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.calc.slots.law import Demand, Kind
from generator.calc.slots.reasons import NoRoom, Reason
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import Need, rule
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import count, number, sentence_list

ZONES = Need("zones that fit", lambda papers, results: "" if results.slots.zones_fit else "the zones do not fit")


@rule("numbers-do-not-fit", Severity.STOP, source=SHEET,
      compares="what the job file and earlier numbers ask of each list with the numbers that the control unit has",
      mends="Leave a second input unused, take a unit out, free a number given in the job file, or choose a larger control unit.",
      firm="no agreement makes room for a number")
def numbers_do_not_fit(papers: Papers, results: Results) -> Iterator[Hit]:
    """The units of a list cannot all have the numbers that are asked for.

    A unit without a number cannot be enrolled, and the station cannot name it.
    """
    for gap in results.slots.no_room:
        for index, reason in enumerate(gap.reasons or (Reason((), (), True),)):
            too_few = _too_few(papers, gap) if reason.short or (index == 0 and gap.needed > gap.available) else ""
            do = ". Or: ".join(mend.says for mend in reason.mends) or NO_SINGLE_MEND
            says = " ".join(filter(None, (too_few, "" if reason.short else _contradiction(gap, reason))))
            values = (*_needed_and_available(papers, gap), *(_doubles(gap) if too_few else ()), *_asked(reason))
            yield Hit(_place(reason), says, f"{do}.", (*values, *(_spare(papers, gap) if too_few else ())))


NO_SINGLE_MEND = "No single change mends it: free a number, take units out, or choose a control unit with longer lists"


def _place(reason: Reason) -> str:
    """Too few numbers concern the control unit; a contradiction, the first thing that the job file asks for and could let go."""
    asked = [one.field for one in reason.demands if one.field and one.kind is not Kind.UNIT]
    return asked[0] if asked and not reason.short else "job.control_unit.sheet"


def _too_few(papers: Papers, gap: NoRoom) -> str:
    kept = f": {gap.length}, of which {gap.kept} stay free" if gap.kept else ""
    doubles = f" {sentence_list(list(gap.two_numbers))} {'takes' if len(gap.two_numbers) == 1 else 'take'} more than one." if gap.two_numbers else ""
    spare = " ".join(f"Spare would be {gap.available - gap.needed}; the profile wants at least {one.value}." for one in _spare(papers, gap)[1:])
    return " ".join(filter(None, (f"{count(gap.needed, 'number')} of the {gap.list} needed, {gap.available} available{kept}.{doubles}", spare)))


def _contradiction(gap: NoRoom, reason: Reason) -> str:
    units = [one.unit for one in reason.demands if one.kind is Kind.UNIT]
    asked = [_says(one) for one in reason.demands if one.kind is not Kind.UNIT]
    others = [f"{'unit' if len(units) == 1 else 'units'} {sentence_list(units)}"] if units else []
    return f"In the list of {gap.list} these cannot be kept together: {'; '.join(asked + others)}. Without any one of them the others fit."


def _says(one: Demand) -> str:
    """A demand in words."""
    span = f"number {one.first} stays" if one.first == one.last else f"numbers {one.first} to {one.last} stay"
    return {
        Kind.SECOND: f"the second input of {one.unit}",
        Kind.PIN: f"number {one.first} for {one.unit}",
        Kind.FROZEN: f"number {one.first}, which {one.unit} has had before ({one.why})",
        Kind.KEPT: f"{span} free ({one.why})",
        Kind.RESTING: f"number {one.first} rests ({one.why})",
        Kind.NEIGHBOURS: f"{one.unit} next to {one.other}",
    }[one.kind]


def _needed_and_available(papers: Papers, gap: NoRoom) -> tuple[Value, ...]:
    unit = papers.job.control_unit
    lists = papers.sheet_of[unit.id].control_unit.lists
    key = "slots" if gap.list == "zones" and gap.length < lists.zones else gap.list.replace(" ", "_")
    kept = (Value("kept free", str(gap.kept), "", "job.reserved"),) if gap.kept else ()
    return (Value("needed", str(gap.needed), "", "job.devices"),
            Value("available", str(gap.available), "", f"sheet {unit.sheet}: control_unit.lists.{key}"), *kept)


def _doubles(gap: NoRoom) -> tuple[Value, ...]:
    return tuple(Value("takes more than one", name, "", f"job.devices.{name}.use_input_2") for name in gap.two_numbers)


def _asked(reason: Reason) -> tuple[Value, ...]:
    return tuple(Value(one.kind.value, _says(one), "", one.field or "numbers given before")
                 for one in reason.demands if one.kind is not Kind.UNIT and not reason.short)


def _spare(papers: Papers, gap: NoRoom) -> tuple[Value, ...]:
    """The spare that would be left, and what the profile wants."""
    entry = papers.profile.limits["spare_percent"]
    if gap.list != "zones":
        return ()
    wanted = f"{number(gap.share(entry.value))} ({entry.value:g} % of {gap.length})"
    return (Value("spare", str(gap.available - gap.needed), "", "slot map"),
            Value("spare wanted", wanted, "", papers.profile.source_of("spare_percent").cited()))


@rule("spare-short", Severity.NOTE, source=PRACTICE, needs=(ZONES,),
      compares="the free numbers behind each block with the spare that the profile wants there",
      mends="Nothing to mend; plan additions at the end of the list.")
def spare_short(papers: Papers, results: Results) -> Iterator[Hit]:
    """A block of numbers ends with less spare than the profile wants.

    A window added later then gets a number far from its neighbours.
    """
    for block in results.slots.blocks:
        if block.spare < block.spare_wanted:
            yield Hit("job.devices", f"Block {block.name}: {block.spare} free behind number {block.last}, "
                      f"{block.spare_wanted} wanted.", "Nothing to mend; plan additions at the end of the list.",
                      (Value("free", str(block.spare), "", "slot map"),
                       Value("wanted", str(block.spare_wanted), "", f"profile {papers.job.profile}: blocks")))
