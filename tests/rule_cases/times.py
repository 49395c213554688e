"""Programmed times over the profile's limits."""
from tests.rule_cases.case import Cases, Said, put, without_limit


def time(key: str, value: str):
    return put("job", "times", key, value=value)


CASES = {
    "entry-time-long": Cases(
        speaks=(Said(time("entry_s", "46"), ("job.times.entry_s",), ("46 s programmed, 45 s is the longest entry time.",),
                     ("programmed 46 s, limit 45 s",), "Set entry_s to 45 or less."),),
        clear=(time("entry_s", "45"),),
        unchecked=((without_limit("entry_max_s"), "the profile has no limit entry_max_s"),)),
    "sounder-time-long": Cases(
        speaks=(Said(time("sounder_min", "16"), ("job.times.sounder_min",),
                     ("16 min programmed, 15 min is the longest run of the outside sounder.",),
                     ("programmed 16 min, limit 15 min",), "Set sounder_min to 15 or less."),),
        clear=(time("sounder_min", "15"),),
        unchecked=((without_limit("sounder_max_min"), "the profile has no limit sounder_max_min"),)),
}
