"""Do the numbers hold?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import Need, rule
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import count, sentence_list

ZONES = Need("zones that fit", lambda papers, results: "the zones do not fit" if any(gap.list == "zones" for gap in results.slots.no_room)
             else "")


@rule("numbers-do-not-fit", Severity.STOP, source=SHEET,
      compares="the numbers that the units need in each list with those that the control unit has",
      mends="Leave a second input unused, take a unit out, free a number given in the job file, or choose a larger control unit.",
      firm="no agreement makes room for a number")
def numbers_do_not_fit(papers: Papers, results: Results) -> Iterator[Hit]:
    """The control unit has too few numbers of one kind.

    A unit without a number cannot be enrolled, and the station cannot name it.
    """
    unit = papers.job.control_unit
    for gap in results.slots.no_room:
        doubles = f" {sentence_list(list(gap.two_numbers))} take two each." if gap.two_numbers else ""
        says = f"{count(gap.needed, 'number')} of the {gap.list} needed, {gap.available} available.{doubles}"
        if gap.needed <= gap.available:
            says += " Numbers given in the job file leave no room for the others in their order."
        yield Hit("job.control_unit.sheet", says,
                  "Leave a second input unused, take a unit out, free a number given in the job file, "
                  "or choose a control unit with longer lists.",
                  (Value("needed", str(gap.needed), "", "job.devices"),
                   Value("available", str(gap.available), "", f"sheet {unit.sheet}: control_unit.lists.{gap.list}")))


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
