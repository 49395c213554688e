"""Which zones may confirm which, in one sentence for what is set and for the calls with the station."""
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.terms.show import sentence_list

SEQUENTIAL = "sequential"
# The line of the checklist at which it is written; nobody plans it.
SECOND_ZONE = "Time for the second zone"
WINDOW = f"not in the plan: what is set is written at the line “{SECOND_ZONE}”"


def confirming_in_words(papers: Papers, results: Results) -> str:
    """Which zones confirm an alarm of another, of every partition that has such; "" where no second zone confirms."""
    agreed = papers.job.monitoring
    if agreed is None or agreed.confirmation != SEQUENTIAL:
        return ""
    found: dict[int, list[str]] = {}
    for row in sorted((row for row in results.slots.rows if row.list == "zones" and row.device), key=lambda row: row.zone or row.number):
        device = papers.job.devices[row.device]
        if device.confirms:
            found.setdefault(papers.partition_of(device), []).append(f"{row.zone or row.number} {row.text}")
    if not found:
        return "no zone is marked as one that may confirm: ask the office"
    several = len(papers.partitions()) > 1
    return "; ".join(f"an alarm of any intruder zone{f' of partition {number}' if several else ''} is confirmed by another one among zones "
                     f"{sentence_list(zones)}; never by the same zone twice" for number, zones in sorted(found.items()))
