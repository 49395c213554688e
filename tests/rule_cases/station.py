"""Automatic tests, account, line, soak period. Rows 15, 20 and 37 of the trade's list of failures.

The account: four characters in SIA DC-05 (1999.09, read second-hand), 3 to 16 in SIA DC-09 (from memory), digits and letters A to F.
The end of analogue lines, January 2027: NFCC (read). The soak period, 7 to 14 days: from memory.
"""
from tests.rule_cases.case import Cases, Said, both, lacking, put, with_limit
from tests.rule_cases.times import not_monitored

MEANS = "longest time between two automatic tests of a monitored system"


def station(key: str, value):
    return put("job", "monitoring", key, value=value)


def line(on: str = "2026-11-24", kind: str = "phone-line"):
    return both(put("job", "dated", value=on), station("paths", {"first": {"kind": kind}}))


def ends(on: str, verb: str, state: str) -> Said:
    return Said(line(on), ("job.monitoring.paths.first.kind",), (f"Path first goes over an analogue line; such lines {verb} by 31 Jan 2027.",),
                (f"path phone-line, lines end 31 Jan 2027, lines {state}",), "Replace the path, and write to customer and insurer.")


CASES = {
    "test-interval-missing": Cases(
        speaks=(Said(station("test_interval_h", None), ("job.monitoring.test_interval_h",),
                     (f"Lantern Watch is to be told of alarms, and no time between automatic tests is given; 24 h is the {MEANS}.",),
                     ("test interval none, promised 24 h, at most 24 h",), "match the agreement"),),
        clear=(station("test_interval_h", "24"), not_monitored),
        unchecked=lacking("test_interval_h")),
    "test-interval-long": Cases(
        # 7 days are 168 h.
        speaks=(Said(station("test_interval_h", "168"), ("job.monitoring.test_interval_h",),
                     (f"One test every 168 h; the agreement promises one every 24 h and 24 h is the {MEANS}.",),
                     ("test interval 168 h, promised 24 h, at most 24 h",), "Set test_interval_h to 24 or less"),
                Said(station("agreed_test_interval_h", "12"), ("job.monitoring.test_interval_h",),
                     ("One test every 24 h; the agreement promises one every 12 h.",),
                     ("test interval 24 h, promised 12 h, at most 24 h",), "Set test_interval_h to 12 or less"),
                Said(both(station("test_interval_h", "25"), station("agreed_test_interval_h", "25")), ("job.monitoring.test_interval_h",),
                     (f"One test every 25 h; 24 h is the {MEANS}.",), ("test interval 25 h, promised 25 h, at most 24 h",), "24 or less")),
        clear=(station("test_interval_h", "12"), both(station("test_interval_h", "168"), not_monitored)),
        unchecked=((station("agreed_test_interval_h", None), "the job file does not say which test interval the agreement promises"),
                   *lacking("test_interval_h"))),
    "account-form": Cases(
        speaks=(Said(station("account", "4D2750"), ("job.monitoring.account",),
                     ('Account "4D2750" has 6 characters; dc-05 takes 4, digits and letters A to F.',),
                     ("account 4D2750, characters 6, format dc-05, takes 4",), "never pad or cut"),
                Said(station("account", "4G2H"), ("job.monitoring.account",),
                     ('Account "4G2H" has 4 characters and holds “G” and “H”; dc-05 takes 4, digits and letters A to F.',),
                     ("account 4G2H, characters 4, format dc-05, takes 4",)),
                Said(both(station("account", "4D"), station("format", "dc-09")), ("job.monitoring.account",),
                     ('Account "4D" has 2 characters; dc-09 takes 3 to 16, digits and letters A to F.',),
                     ("account 4D, characters 2, format dc-09, at least 3, at most 16",))),
        clear=(station("account", "4d27"), both(station("account", "4D2"), station("format", "dc-09")),
               both(station("account", "0123456789ABCDEF"), station("format", "dc-09"))),
        unchecked=((station("format", None), "the job file does not say in which format events are sent"),
                   *lacking("account_dc05_characters", "account_dc09_least_characters", "account_dc09_most_characters"))),
    "phone-line-ends": Cases(
        speaks=(ends("2026-11-24", "end", "still there"), ends("2027-01-31", "end", "still there"), ends("2027-02-01", "ended", "ended")),
        clear=(line(kind="broadband"), not_monitored),
        unchecked=tuple((both(line(), change), reason) for change, reason in (
            *lacking("analogue_end_year", "analogue_end_month"),
            (with_limit("analogue_end_month", "13"), "the profile's end of analogue lines is no month: month 13: 1 to 12 is wanted")))),
    "soak-time-unusual": Cases(
        speaks=(Said(station("soak_days", "6"), ("job.monitoring.soak_days",), ("6 days agreed; 7 days is the shortest usual soak period.",),
                     ("soak period 6 days, at least 7 days",), "Agree at least 7 days"),
                Said(station("soak_days", "15"), ("job.monitoring.soak_days",), ("15 days agreed; 14 days is the longest usual soak period.",),
                     ("soak period 15 days, at most 14 days",), "Agree at most 14 days")),
        clear=(station("soak_days", "7"), station("soak_days", "14")),
        unchecked=((station("soak_days", None), "the job file does not say how long the soak period is"), *lacking("soak_least_days"))),
}
