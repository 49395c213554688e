"""Runs of cable on which a load has too little voltage; with numbers worked out by hand beside them."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, without_limit

S1 = ("equipment", "tern-sx", "power")


def cable(**keys: str):
    """The demo's run to the sounder with other keys; a size of 0 mm² stands for none."""
    def change(files: Files) -> None:
        run = files["job"]["cables"]["sounder-run"]
        run["loads"][0]["at_m"] = keys.pop("at_m", "12")
        run.update(keys)
    return change


def second(files: Files) -> None:
    """Two sounders on one run, the second at 30 m."""
    files["job"]["devices"]["S2"] = files["job"]["devices"]["S1"] | {"serial": "00D0FF"}
    files["job"]["cables"]["sounder-run"]["loads"].append({"unit": "S2", "at_m": "30"})


def by_gauge(files: Files) -> None:
    run = files["job"]["cables"]["sounder-run"]
    del run["size_mm2"]
    run.update(awg="24", build="solid")
    run["loads"][0]["at_m"] = "40"


# 40 m of 0.22 mm², 0.45 A, 9.0 V. Copper at 20 °C: 0.017241 / 0.22 = 0.07837 Ω/m; two cores of 40 m are 6.269 Ω; at 0.45 A
# they take 2.821 V of 10.5 V, and 7.679 V are left.
row_7 = both(cable(size_mm2="0.22", at_m="40"), put(*S1, "alarm_ma", value="450"))

CASES = {
    "cable-drop": Cases(
        speaks=(Said(row_7, ("job.cables.sounder-run.loads.0.at_m",),
                     ("S1 has 7.68 V at the end of 40 m of 0.22 mm² stranded when all sound; it needs 9 V. Of 10.5 V the cable takes 2.82 V.",),
                     ("voltage 7.68 V, needed 9 V, length 40 m, conductor 0.22 mm², current 450 mA, supply 10.5 V",),
                     # 36 Ω/km: 10.5 − 2 × 40 × 0.036 × 0.45 = 9.204 V. Half the length: 10.5 − 1.411 = 9.089 V.
                     # 1.5 V / 6.269 Ω = 0.2393 A.
                     "0.5 mm² stranded: 9.2 V at S1, which needs 9 V. Or: half the length, 20 m: 9.09 V at S1, which needs 9 V. Or: units with a "
                     "battery of their own that draw no more than 239 mA together over this cable."),
                # 24 AWG: 0.127 × 92^(12/39) = 0.5105 mm, 0.2047 mm², 0.08422 Ω/m; 2 × 40 × 0.08422 × 0.32 = 2.156 V.
                Said(by_gauge, ("job.cables.sounder-run.loads.0.at_m",),
                     ("S1 has 8.34 V at the end of 40 m of 24 AWG solid when all sound; it needs 9 V. Of 10.5 V the cable takes 2.16 V.",),
                     ("voltage 8.34 V, needed 9 V, length 40 m, conductor 24 AWG, current 320 mA, supply 10.5 V",), "22 AWG solid"),
                # Two of 0.32 A: 2 × 12 × 0.07837 × 0.64 = 1.204 V to the first, 2 × 18 × 0.07837 × 0.32 = 0.903 V on: 9.296 V and 8.393 V.
                # 0.5 mm²: 2 × 12 × 0.036 × 0.64 + 2 × 18 × 0.036 × 0.32 = 0.968 V.
                Said(both(cable(size_mm2="0.22"), second), ("job.cables.sounder-run.loads.1.at_m",),
                     ("S2 has 8.39 V at the end of 30 m of 0.22 mm² stranded when all sound; it needs 9 V. Of 10.5 V the cable takes 2.11 V.",),
                     ("voltage 8.39 V, needed 9 V, length 30 m, conductor 0.22 mm², current 320 mA, supply 10.5 V",),
                     "0.5 mm² stranded: 9.53 V at S2")),
        # At 20 °C 0.5 mm² carries 0.45 A over 40 m; one metre further than a size lets it, it does not.
        clear=(both(row_7, cable(size_mm2="0.5", at_m="40")), both(cable(size_mm2="0.22", at_m="12"))),
        unchecked=((put(*S1, "alarm_ma", value=None), "the sheet of S1 gives no power.alarm_ma; write power.alarm_ma in the sheet tern-sx"),
                   (put(*S1, "least_v", value=None), "the sheet of S1 gives no power.least_v; write power.least_v there"),
                   (put("job", "cables", value=None), "no run under cables feeds S1, which is wired; write its cable with its length"),
                   (put(*S1, "kind", value="cell"), "the sheet of S1 says power.kind: cell, and a run feeds it; write wired "
                    "there, or take it out of the run"),
                   (without_limit("discharge_end_v"), "the profile has no limit discharge_end_v"))),
}
