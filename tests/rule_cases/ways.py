"""Ways to the station. Row 28 of the trade's list of failures: standby for 12 h, one path, through a router without a battery.

Categories and their paths: EN 50136-1, table 1 (read). Reporting times, by which one with two paths reaches one with a single one:
from memory. 12 h of standby: EN 50131-6 (from memory).
"""
from tests.rule_cases.case import Cases, Said, both, put, with_limit, without_limit
from tests.rule_cases.times import not_monitored

ROUTER = {"kind": "broadband", "router": "true"}
MOBILE = {"kind": "mobile"}
LINE = {"kind": "phone-line"}


def paths(**given):
    return put("job", "monitoring", "paths", value=given)


def asked(category: str | None, given: str | None = None):
    return both(put("job", "monitoring", "category_asked", value=category), put("job", "monitoring", "category_given", value=given))


MUST = "the control unit must carry on for 12 h."
CASES = {
    "path-dies-with-mains": Cases(
        speaks=(Said(paths(first=ROUTER | {"standby_h": "0"}), ("job.monitoring.paths.first.standby_h",),
                     (f"Without mains path first is gone at once, and no other is left; {MUST}",), ("path first 0 h, control unit, at least 12 h",),
                     "Give the router of path first a standby supply for 12 h or more, or add a path"),
                # The longest-lasting one counts, not the first.
                Said(paths(first=ROUTER | {"standby_h": "0"}, second={"kind": "broadband", "standby_h": "2.5"}),
                     ("job.monitoring.paths.second.standby_h",),
                     (f"Without mains path second carries on for 2.5 h, and no other for longer; {MUST}",),
                     ("path first 0 h, path second 2.5 h, control unit, at least 12 h",), "Give the modem of path second"),
                Said(both(with_limit("standby_h", "24"), paths(first=ROUTER | {"standby_h": "12"})), ("job.monitoring.paths.first.standby_h",),
                     ("Without mains path first carries on for 12 h, and no other for longer; the control unit must carry on for 24 h.",),
                     ("path first 12 h, control unit, at least 24 h",))),
        clear=(paths(first=ROUTER | {"standby_h": "12"}), paths(first=ROUTER | {"standby_h": "0"}, second=MOBILE), paths(first=LINE),
               paths(first=ROUTER, second=MOBILE), not_monitored),
        unchecked=((paths(first=ROUTER), "the job file does not say how long the router of path first carries on without mains"),
                   (paths(first=ROUTER | {"standby_h": "0"}, second=ROUTER),
                    "the job file does not say how long the router of path second carries on without mains"),
                   (paths(), "the job file names no path to the station; write paths under monitoring"),
                   (without_limit("standby_h"), "the profile has no limit standby_h"))),
    "category-below": Cases(
        speaks=(Said(asked("DP2", "SP3"), ("job.monitoring.category_given",), ("DP2 is asked for, and SP3 is given.",), ("asked DP2, given SP3",),
                     "Install DP2, DP3 or DP4, or have whoever asks for DP2 agree to SP3 in writing."),
                Said(asked("SP4", "SP3"), ("job.monitoring.category_given",), ("SP4 is asked for, and SP3 is given.",), ("asked SP4, given SP3",),
                     "Install SP4, SP5, SP6, DP3 or DP4"),
                # 90 s asked, 3 min given; two paths do not make up for it.
                Said(asked("SP5", "DP3"), ("job.monitoring.category_given",), ("SP5 is asked for, and DP3 is given.",), ("asked SP5, given DP3",),
                     "Install SP5, SP6 or DP4")),
        clear=(asked("DP2", "DP2"), asked("DP1", "DP4"), asked("SP5", "DP4"), asked("SP2", "DP1"), asked(None), not_monitored),
        unchecked=((asked("DP2"), "the job file does not say which category is given; write category_given under monitoring"),
                   (asked("custom", "DP2"), "what a custom category demands stands in its own papers"),
                   (asked("DP2", "custom"), "what a custom category demands stands in its own papers"),
                   (both(without_limit("report_dp3_min"), asked("SP5", "DP3")), "the profile has no limit for the reporting time of DP3"))),
    "paths-fewer-than-asked": Cases(
        speaks=(Said(both(asked("DP1", "DP1"), paths(first=MOBILE)), ("job.monitoring.paths",),
                     ("DP1 is made of 2 paths; 1 path is planned: mobile network.",), ("paths 1, wanted 2",),
                     "Add one of another kind (broadband, analogue telephone line or radio network), or correct the category."),
                Said(both(asked("SP1", "DP2"), paths(first=MOBILE)), ("job.monitoring.paths",),
                     ("DP2 is made of 2 paths; 1 path is planned: mobile network.",), ("paths 1, wanted 2",)),
                Said(both(asked("SP1", "SP1"), paths()), ("job.monitoring.paths",), ("SP1 is made of 1 path; 0 paths are planned.",),
                     ("paths 0, wanted 1",))),
        clear=(asked("DP4", "DP4"), both(asked("SP6", "SP6"), paths(first=MOBILE)), both(asked(None), paths(first=MOBILE))),
        unchecked=((asked("custom", "DP2"), "what a custom category demands stands in its own papers"),)),
    "paths-share-router": Cases(
        speaks=(Said(paths(first=ROUTER, second=MOBILE | {"router": "true"}), ("job.monitoring.paths",),
                     ("Paths first and second all pass a router of the house: without it no path is left.",),
                     ("paths past the router 0, paths 2",), "Take one path past the router"),),
        clear=(paths(first=ROUTER, second=MOBILE), paths(first=ROUTER), not_monitored)),
}
