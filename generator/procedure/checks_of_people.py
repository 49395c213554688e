"""The tests of what people press, carry, read and hear."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import BY_STATION, MOST, PLATE, PRACTICE, Check, both, held, limit
from generator.procedure.safety import fed_by_wire, is_outside
from generator.terms.show import amount, capital, sentence_list


def of_hold_up(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """Both actions, silent or audible as planned, a hold-up at the station and nothing else."""
    agreed, device = papers.job.monitoring, papers.job.devices[name]
    if agreed:
        yield Check(name, "Told first", f"{agreed.station}, and the police where that is asked, were told before it is pressed.", PRACTICE,
                    BY_STATION)
    wanted = papers.sheet_of[name].two_action
    actions = limit(papers, "holdup_actions")
    if wanted is not False:
        yield Check(name, "Both actions", "One action alone does nothing; it takes " + (f"{actions[0]} at once." if actions else "two at once."),
                    actions[1] if actions else PRACTICE)
    how = {"silent": "Nothing is heard or shown in the house.", "audible": "The sounders inside start."}
    unknown = "As agreed with customer and station: it is not in the plan, write it here."
    yield Check(name, "Silent or audible", how[device.signal] if device.signal else unknown, PRACTICE)
    yield Check(name, "Stays shown", "It stays shown until somebody with the right to do so resets it.", PRACTICE)
    if agreed:
        yield Check(name, "Event at the station", "The station reads hold-up, not intruder, with number and text.", PRACTICE, BY_STATION)
    yield Check(name, "Use explained", "The user says back when to use it, and when not: not for a quarrel outside, not for illness.", PRACTICE)
    yield Check(name, "Back in service", "Last of all and with a witness.", PRACTICE, "witness, time")


def of_medical(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """A call for help, only where the system is approved for it."""
    yield Check(name, "Approved", "The system is approved for calls for help under the local rules; else it is labelled: not a medical alarm.",
                "the local rules on social alarms decide")
    yield Check(name, "Range", "Pressed in bed, in the bath, at the edge of the garden: the call arrives each time.", PRACTICE)
    if papers.job.monitoring:
        yield Check(name, "Event at the station", "The station reads a call for help, speaks with the user where that is built in, and knows what "
                                                  "to do.",
                    PRACTICE, BY_STATION)


def of_keypad(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It can be worked by who may, and by nobody else."""
    what = "Every key, light and tone" if papers.sheet_of[name].kind == "keypad" else "Light and tone"
    yield Check(name, "Working it", f"{what} as its papers say.", PLATE)
    wrong = "Wrong codes" if papers.sheet_of[name].kind == "keypad" else "A strange tag"
    yield Check(name, "Refusal", f"{wrong}: refused; it locks and reports as its papers say.", PLATE)
    yield Check(name, "Not from outside", "With curtains open nobody outside can read it or reach it.", PRACTICE)
    doors = [f"{unit} {device.text}" for unit, device in papers.job.devices.items() if device.role == "timed-entry" and device.text]
    at = sentence_list(doors) if doors else "the entry door"
    yield Check(name, "Entry warning", f"Its warning is heard at {at}.", PRACTICE)
    low, high = limit(papers, "keypad_low_m"), limit(papers, "keypad_high_m")
    if low and high:
        yield Check(name, "Height", f"Its middle hangs {low[0]} to {high[0]} above the floor, lower where somebody sits.", both(low[1], high[1]), "m",
                    least=float(papers.profile.limits["keypad_low_m"].value), most=float(papers.profile.limits["keypad_high_m"].value))


def of_carried(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """A fob or tag: one user's, and it does nothing by accident."""
    words = papers.profile.words
    owner = next((f"user {number}, {user.who}" for number, user in papers.job.users.items() if name in (user.fob, user.tag)), "")
    yield Check(name, "Owner", f"It {words.set}s and {words.unset}s; the log names {owner}." if owner else
                "It belongs to no user of the plan: give it to one, or take it out.", PRACTICE)
    if papers.sheet_of[name].kind == "fob":
        yield Check(name, "In a pocket", "Pressed through cloth: nothing happens.", PRACTICE)
        yield Check(name, "From the street", f"Out in the street it does not {words.unset} by accident.", PRACTICE, "m")
        if papers.job.devices[name].use_input_2:
            yield Check(name, "Hold-up key", "Two keys at once for as long as its papers say: hold-up, and nothing by accident.", PLATE)


def of_sounder(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It starts, is heard, stops by itself, and has a voice of its own."""
    outside, times = is_outside(papers, name), papers.job.times
    yield Check(name, "Start", "It starts with the alarm, at once or after the time agreed.", PRACTICE, "s")
    where = "Loud at the edge of the plot" if outside else "Heard in every bedroom with the doors shut"
    level = limit(papers, "sounder_outside_dba" if outside else "sounder_inside_dba")
    yield Check(name, "Heard", f"{where}." + (f" Figure of the profile: {level[0]} at 1 m." if level else ""),
                both(PRACTICE, *([level[1]] if level else [])), "dB(A)")
    planned = times.sounder_min if outside else times.inside_sounder_min
    runs = "It stops by itself" + (f" after {amount(planned, 'min')}" if planned is not None else
                                   "; how long it runs is not in the plan, write it here")
    if outside:
        yield held(papers, name, "Running time", f"{runs}, never later than {{limit}}.", "sounder_max_min", "min", f"{runs}.",
                   ("job.times.sounder_min",), MOST)
        yield Check(name, "Light", "Its light starts with it, where it has one, and goes on as planned.", PRACTICE)
        yield from _height(papers, name)
    else:
        yield Check(name, "Running time", f"{runs}.", PRACTICE, "min", ("job.times.inside_sounder_min",))
    if fed_by_wire(papers, [name]):
        yield Check(name, "Own supply", "Its supply taken away, it still sounds.", PRACTICE)
    yield Check(name, "People", f"{capital('next door and ' if outside else '')}household told, hearing protection on, nobody at the ladder's "
                                "top while it can sound.",
                PRACTICE)


def _height(papers: Papers, name: str) -> Iterator[Check]:
    least, asked = limit(papers, "sounder_height_m"), limit(papers, "sounder_insurer_height_m")
    if least:
        insurer = f"; insurers ask for {asked[0]}, from any roof that one can stand on too" if asked else ""
        yield Check(name, "Height", f"{least[0]} or more above the ground{insurer}.", both(least[1], *([asked[1]] if asked else [])), "m",
                    least=float(papers.profile.limits["sounder_height_m"].value))
