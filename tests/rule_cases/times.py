"""Programmed times outside the profile's limits.

The numbers of the North American market are those of ANSI/SIA CP-01: entry 30 s to
4 min, exit 45 to 255 s, abort window 15 to 45 s, entry and abort together 60 s, 1 to 6 trips of one zone (from memory).
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put, with_limit


def time(key: str, value: str):
    return put("job", "times", key, value=value)


def not_monitored(files: Files) -> None:
    del files["job"]["monitoring"]


def no_sounder(files: Files) -> None:
    del files["job"]["devices"]["S1"]
    del files["job"]["cables"]


def said(key: str, value: str, unit: str, limit: str, means: str, do: str, *more) -> Said:
    return Said(both(time(key, value), *more), (f"job.times.{key}",), (f"{value} {unit} programmed, {limit} is the {means}.".replace("  ", " "),),
                (f"programmed {value} {unit}, limit {limit}".replace(" ,", ","),), do)


CASES = {
    "entry-time-long": Cases(
        speaks=(said("entry_s", "46", "s", "45 s", "longest entry time", "Set entry_s to 45 or less."),),
        clear=(time("entry_s", "45"),),
        unchecked=lacking("entry_max_s")),
    "entry-time-short": Cases(
        speaks=(said("entry_s", "29", "s", "30 s", "shortest entry time", "Set entry_s to 30 or more."),),
        clear=(time("entry_s", "30"),),
        unchecked=lacking("entry_min_s")),
    "exit-time-outside": Cases(
        speaks=(said("exit_s", "44", "s", "45 s", "shortest exit time", "Set exit_s to 45 or more."),
                said("exit_s", "256", "s", "255 s", "longest exit time", "Set exit_s to 255 or less.")),
        clear=(time("exit_s", "45"), time("exit_s", "255")),
        unchecked=lacking("exit_min_s", "exit_max_s")),
    "exit-time-unusual": Cases(
        speaks=(said("exit_s", "29", "s", "30 s", "shortest usual exit time (the standard gives none)", "30 or more"),
                said("exit_s", "61", "s", "60 s", "longest usual exit time (the standard gives none)", "60 or less")),
        clear=(time("exit_s", "30"), time("exit_s", "60")),
        unchecked=lacking("exit_usual_min_s", "exit_usual_max_s")),
    "abort-time-outside": Cases(
        speaks=(said("abort_s", "14", "s", "15 s", "shortest abort window, where there is one", "15 or more"),
                said("abort_s", "46", "s", "45 s", "longest abort window", "45 or less")),
        # The window may be left out.
        clear=(time("abort_s", "15"), time("abort_s", "45"), time("abort_s", "0")),
        unchecked=tuple((both(time("abort_s", "30"), change), reason) for change, reason in lacking("abort_min_s", "abort_max_s"))),
    "entry-and-abort-long": Cases(
        # 40 + 25 = 65, and 60 - 40 = 20 would be left.
        speaks=(Said(both(time("entry_s", "40"), time("abort_s", "25")), ("job.times.abort_s",),
                     ("40 s and 25 s are 65 s, 60 s is the longest entry time and abort window together in a listed system.",),
                     ("entry 40 s, abort 25 s, together 65 s, limit 60 s",), "Set abort_s to 20 or less, or shorten entry_s."),),
        clear=(both(time("entry_s", "30"), time("abort_s", "30")), time("entry_s", "45")),
        unchecked=tuple((both(time("abort_s", "30"), change), reason) for change, reason in lacking("entry_abort_max_s"))),
    "report-too-soon": Cases(
        speaks=(said("report_delay_s", "29", "s", "30 s", "least time of local warning, entry time over, before anything is reported",
                     "Set report_delay_s to 30 or more."),),
        clear=(time("report_delay_s", "30"), both(time("report_delay_s", "0"), not_monitored)),
        unchecked=((time("report_delay_s", None), "the job file does not say how long the report of an alarm on entry is held"),
                   *lacking("remote_hold_s"))),
    "trips-outside": Cases(
        speaks=(Said(time("trips", "7"), ("job.times.trips",), ("7 programmed, 6 is the largest repeated-trip limit.",),
                     ("programmed 7, limit 6",), "Set trips to 6 or less."),
                Said(both(time("trips", "1"), with_limit("trip_limit_least", "2")), ("job.times.trips",),
                     ("1 programmed, 2 is the smallest repeated-trip limit.",), ("programmed 1, limit 2",), "Set trips to 2 or more.")),
        clear=(time("trips", "1"), time("trips", "6")),
        unchecked=tuple((both(time("trips", "2"), change), reason) for change, reason in lacking("trip_limit_least", "trip_limit_most"))),
    "sounder-time-long": Cases(
        # Row 25 of the trade's list of failures: 30 min where 20 are allowed.
        speaks=(said("sounder_min", "16", "min", "15 min", "longest run of the outside sounder", "Set sounder_min to 15 or less."),
                said("sounder_min", "30", "min", "20 min", "longest run of the outside sounder", "Set sounder_min to 20 or less.",
                     with_limit("sounder_max_min", "20"))),
        clear=(time("sounder_min", "15"),),
        unchecked=lacking("sounder_max_min")),
    "inside-sounder-time-long": Cases(
        speaks=(said("inside_sounder_min", "16", "min", "15 min", "longest run of the outside sounder", "Set inside_sounder_min to 15 or less."),),
        clear=(time("inside_sounder_min", "15"),),
        unchecked=tuple((both(time("inside_sounder_min", "5"), change), reason) for change, reason in lacking("sounder_max_min"))),
    "sounder-time-short": Cases(
        # 1 min is 60 s; the first whole minute that is 90 s or more is the second.
        speaks=(Said(time("sounder_min", "1"), ("job.times.sounder_min",), ("1 min programmed, 90 s is the shortest run of a sounder.",),
                     ("programmed 1 min, limit 90 s",), "Set sounder_min to 2 or more."),
                Said(time("inside_sounder_min", "0"), ("job.times.inside_sounder_min",),
                     ("0 min programmed, 90 s is the shortest run of a sounder.",), ("programmed 0 min, limit 90 s",), "2 or more")),
        clear=(both(time("sounder_min", "2"), time("inside_sounder_min", "2")), both(time("sounder_min", "0"), no_sounder)),
        unchecked=lacking("sounder_least_s")),
}
