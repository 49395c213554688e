"""Cells that are spent before somebody comes; with numbers worked out by hand beside them."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, without_limit

ROOMS = ("job", "premises", "storeys", "ground", "rooms")
busy = put(*ROOMS, "hall", "traffic", value="busy")
every = "job", "service", "every_months"


def afar(files: Files) -> None:
    """The first service is done from afar: nobody comes before September."""
    files["job"]["service"]["visits"] = [{"on": "2027-03-16", "remote": "true"}]


# D1 in a busy hall: 400 messages and 96 supervision messages a day of 25 mA·s are 3.444 mAh; with 8 µA 0.1515 mA in the mean. In a year
# 1328 mAh and 8 mAh by themselves; 0.85 × 800 / 1336 = 0.5089 years = 185 days from 14 Sep 2026: 18 Mar 2027. Until 31 Mar,
# 198 days, and one more: 680 / 0.5448 − 78.1 = 1170 mAh a year = 461 messages a day.
SPENT = ("The cells of D1 are spent about 18 Mar 2027, 0.51 years after they were fitted, with 496 messages a day; the first visit that could change "
         "them may be as late as 31 Mar 2027.")

CASES = {
    "cell-spent-early": Cases(
        speaks=(Said(busy, ("job.devices.D1.sheet",), (SPENT,), ("spent 18 Mar 2027, first visit 31 Mar 2027, messages a day 496",),
                     "Agree a visit before 18 Mar 2027, under service.visits. Or: let it send 461 times a day at most"),),
        # A day agreed in time; its own traffic in place of its room's; half a year more of life in the usual hall.
        clear=(both(busy, put("job", "service", "visits", value=[{"on": "2027-03-17"}])),
               both(busy, put("job", "devices", "D1", "traffic", value="quiet")), put(every[0], every[1], every[2], value="12")),
        unchecked=((put(*ROOMS, "kitchen", "traffic", value=None), "nothing says how much people move in kitchen; write traffic for that room"),
                   (put("job", "service", value=None), "no services are agreed; write service with every_months"),
                   (put("job", "agreement", value=None), "no day on which the system comes into use is given; write in_use_on under agreement"),
                   (put("equipment", "tern-dc", "power", "sleep_ua", value=None),
                    "the sheet of D1 gives no power.sleep_ua; write power.sleep_ua in the sheet tern-dc"),
                   (without_limit("cell_usable_percent"), "the profile has no limit cell_usable_percent"))),
}
