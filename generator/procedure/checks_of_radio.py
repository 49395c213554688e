"""The tests of every radio unit: who it is, how well it is heard, its lid, its cell, its place."""
from collections.abc import Iterator

from generator.calc.radio.link_limit import link_limit
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import DRIFT, LEAST, MOST, PLATE, PRACTICE, Check, both, held, limit, on_own_scale, own_scale
from generator.procedure.made_set import called_set
from generator.procedure.safety import has_wiring
from generator.terms.show import amount, number, sentence_list


def identity(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """Serial, number and text."""
    device = papers.job.devices[name]
    zones = [row for row in results.slots.of(name) if row.list == "zones"]
    wanted = f"serial {device.serial}" if device.serial else "the serial written into the slot map today"
    yield Check(name, "Identity", f"The plate, the slot map and the control unit's read-back agree: {wanted}.", PRACTICE, "serial",
                (f"job.devices.{name}.serial",))
    if zones:
        shown = sentence_list([f"zone {row.zone} {row.text}" for row in zones])
        state = papers.profile.words.is_set if called_set(papers, results, name) else papers.profile.words.is_unset
        too = f"; in its call, with the system {state}, the monitoring station reads the same" if papers.job.monitoring else ""
        yield Check(name, "Number and text", f"When it acts, the keypad shows {shown}{too}.", PRACTICE, "",
                    tuple(row.text_field for row in zones))


def _scale(papers: Papers) -> str:
    shown = on_own_scale(papers)
    return f" {shown}." if shown else ""


def _drift(papers: Papers) -> str:
    """What a later reading may differ by, also where no dB can be read: on its own scale no step is small enough to be let go."""
    scale = own_scale(papers)
    return f" Read in {scale.unit} only: not one less." if scale else ""


def radio(papers: Papers, name: str) -> Iterator[Check]:
    """Its link, its lid, its silence, its cell, its place."""
    sheet, device = papers.sheet_of[name], papers.job.devices[name]
    ways = ", in both directions" if sheet.two_way else ""
    through = f" through {device.via}" if device.via else ""
    yield held(papers, name, "Link margin", f"At the final place, lid on, doors in their worst state: {{limit}} or more{ways}{through}.{_scale(papers)}",
               link_limit(papers, name), "dB", end=LEAST)
    sent = number(papers.profile.limits["link_messages"].value)
    yield held(papers, name, "Messages", "{limit} of {limit} test messages arrive.", "link_messages", f"of {sent}", end=LEAST)
    yield held(papers, name, DRIFT, "Read again now that it is fixed, doors and people as before, and write what is read now. What it fell by, the reading before "
               f"drilling less this one: {{limit}} at most; if more, a place is looked for again. A reading that rose is no drift.{_drift(papers)}",
               "link_drift_db", "dB now")
    yield held(papers, name, "Lid tamper", f"Opened {papers.profile.words.is_unset}, it is shown within {{limit}}; with one unit of each kind also "
                                           f"{papers.profile.words.is_set}.",
               "tamper_s", "s", end=MOST)
    yield Check(name, "Wall tamper", "Lifted off its wall, where it watches that: tamper is shown. Else: not applicable.", PRACTICE)
    yield from _supervision(papers, name)
    if sheet.power.cell:
        yield Check(name, "Cell", f"{sheet.power.cells or 1} × {sheet.power.cell}, dated inside; no weak cell shown.", PRACTICE, "date on it")
    yield from _climate(papers, name)
    yield Check(name, "Fixing", f"Nothing moves by hand, it sits flat{', no gap behind, cable hole sealed' if has_wiring(sheet) else ''}.", PRACTICE)


def _supervision(papers: Papers, name: str) -> Iterator[Check]:
    every = papers.sheet_of[name].radio.supervision_min if papers.sheet_of[name].radio else None
    share = limit(papers, "last_heard_percent")
    longest = limit(papers, "supervision_min")
    if share and longest:
        yield Check(name, "Last heard", f"Within {share[0]} of {longest[0]}" + (f"; it sends every {amount(every, 'min')}." if every else "."),
                    both(share[1], longest[1]), "min ago", most=_share(papers, "last_heard_percent", "supervision_min"))
    elif every:
        yield Check(name, "Last heard", f"It sends every {amount(every, 'min')}: heard no longer ago than that.", PLATE, "min ago")


def _share(papers: Papers, percent: str, of: str) -> float:
    limits = papers.profile.limits
    return float(limits[of].value * limits[percent].value / 100)


def _climate(papers: Papers, name: str) -> Iterator[Check]:
    own = papers.sheet_of[name].environment
    found = papers.rooms().get(papers.room_of(papers.job.devices[name]) or "")
    room = found[1] if found else None
    parts = []
    if own and own.least_c is not None and own.most_c is not None:
        parts.append(f"its plate allows {amount(own.least_c, '°C')} to {amount(own.most_c, '°C')}")
    if own and own.environmental_class:
        parts.append(f"environmental class {own.environmental_class}")
    if room and room.coldest_c is not None and room.warmest_c is not None:
        parts.append(f"the plan expects {amount(room.coldest_c, '°C')} to {amount(room.warmest_c, '°C')}")
    shown = f": {'; '.join(parts)}" if parts else ""
    yield Check(name, "Climate", f"What its place gets in a year lies within its plate{shown}.", PLATE, "°C today")
