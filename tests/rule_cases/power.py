"""Batteries behind mains that are too small, too large, too slow to fill; with numbers worked out by hand beside them."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, without_limit

CU, S1 = ("equipment", "tern-cu32"), ("equipment", "tern-sx")
BATTERY = ("job", "control_unit", "battery_ah")
# Without the room's temperature there is only the line of one factor, which a pencil follows.
no_cold = put("job", "premises", "storeys", "ground", "rooms", "store", "coldest_c", value=None)


def currents(rest: str, alarm: str):
    """What the control unit itself takes; the sounder of the demo takes 6 mA at rest and 320 mA in alarm besides."""
    return both(put(*CU, "power", "quiescent_ma", value=rest), put(*CU, "power", "alarm_ma", value=alarm))


# 0.29 A at rest for 12 h and 0.65 A in alarm for 15 min: 3.48 + 0.1625 = 3.6425 Ah, times 1.25 = 4.553 Ah.
row_8 = both(no_cold, currents("284", "330"), put(*BATTERY, value="2.1"))


def fire(files: Files) -> None:
    """A smoke alarm in a market where fire duties ask for 24 h and 4 min."""
    if "own" not in files["profiles"]:
        without_limit("number_rest_months")(files)
    own = files["profiles"]["own"]["limits"]
    for key, value, unit in (("fire_standby_h", "24", "h"), ("fire_alarm_min", "4", "min")):
        own[key] = {"value": value, "unit": unit, "means": f"{key} of the market", "source": "practice", "known": "common practice"}
    files["equipment"]["tern-smoke"] = files["equipment"]["tern-pir12"] | {"name": "Tern smoke alarm", "kind": "smoke"}
    files["job"]["devices"]["SM1"] = {"sheet": "tern-smoke", "room": "hall", "role": "fire", "text": "SMOKE HALL", "serial": "0080B0"}


def repeater(**power: str):
    """A repeater with mains of its own, through which D3 is heard."""
    def change(files: Files) -> None:
        sheet = files["equipment"]["tern-kp"] | {"name": "Tern repeater", "kind": "repeater", "power": {"kind": "mains", **power}}
        files["equipment"]["tern-rp"] = sheet
        files["job"]["devices"]["R1"] = {"sheet": "tern-rp", "room": "kitchen", "serial": "00AA01"}
        files["job"]["devices"]["D3"]["via"] = "R1"
    return change


socket = put("job", "devices", "R1", "from_socket", value="true")


def behind(files: Files) -> None:
    """D1 and D2 are heard through a second repeater, and that one through the first."""
    files["equipment"]["tern-rp2"] = files["equipment"]["tern-rp"] | {"name": "Tern second repeater", "power": {"kind": "mains", "standby_h": "30"}}
    files["job"]["devices"]["R2"] = {"sheet": "tern-rp2", "room": "hall", "serial": "00AA02", "via": "R1"}
    for name in ("D1", "D2"):
        files["job"]["devices"][name]["via"] = "R2"


NO_LOAD = "the sheet of S1 gives no power.alarm_ma; write power.alarm_ma in the sheet tern-sx"
unknown_load = put(*S1, "power", "alarm_ma", value=None)
NOT_SAID = ("neither the job file nor the control unit's sheet says which battery is fitted; write control_unit.battery_ah")
not_said = put(*CU, "power", "capacity_mah", value=None)
# 0.25 A at rest for 12 h, 0.58 A for 15 min: (3 + 0.145) × 1.25 = 3.931 Ah for a burglar, a stocked 4 Ah is enough; a fire asks
# for 0.25 × 24 + 0.58 × 15 / 60, of the two alarms the longer: 6.145 × 1.25 = 7.681 Ah.
fire_short = both(no_cold, fire, currents("244", "260"), put(*BATTERY, value="4"))

CASES = {
    "standby-short": Cases(
        speaks=(Said(row_8, ("job.control_unit.battery_ah",), ("2.1 Ah fitted, 4.55 Ah needed for 12 h at rest and 15 min in alarm.",),
                     ("fitted 2.1 Ah, needed 4.55 Ah, current at rest 0.29 A, current in alarm 0.65 A, at rest for 12 h, in alarm for 15 min",),
                     # 0.8 × 7 Ah / 0.35 A = 16 h.
                     "Fit 7 Ah; the box takes 7.2 Ah at most; the charger refills 80 % of it in 16 h, 72 h is the longest."),
                # 0.506 × 12 + 0.145 = 6.217, times 1.25 = 7.771 Ah. Without the sounder 1.25 × (0.5 × 12 + 0.065) = 7.581 Ah, still too much.
                Said(both(no_cold, currents("500", "260")), ("job.control_unit.sheet",),
                     ("7 Ah fitted, 7.77 Ah needed for 12 h at rest and 15 min in alarm.",),
                     ("fitted 7 Ah, needed 7.77 Ah, current at rest 0.506 A, current in alarm 0.58 A, at rest for 12 h, in alarm for 15 min",),
                     "12 Ah would be enough, but no box or charger here takes it"),
                # Without the sounder 1.25 × (0.45 × 12 + 0.065) = 6.831 Ah.
                Said(both(no_cold, currents("450", "260"), put(*S1, "power", "quiescent_ma", value="20")), ("job.control_unit.sheet",),
                     ("7 Ah fitted, 7.23 Ah needed for 12 h at rest and 15 min in alarm.",),
                     ("fitted 7 Ah, needed 7.23 Ah, current at rest 0.47 A, current in alarm 0.58 A, at rest for 12 h, in alarm for 15 min",),
                     "take S1 off it: 6.83 Ah is needed then, and 7 Ah does"),
                # (5.006 × 12 + 0.145) × 1.25 = 75.27 Ah: the largest in stock is 55 Ah.
                Said(both(no_cold, currents("5000", "260")), ("job.control_unit.sheet",),
                     ("7 Ah fitted, 75.3 Ah needed for 12 h at rest and 15 min in alarm.",),
                     ("fitted 7 Ah, needed 75.3 Ah, current at rest 5.006 A, current in alarm 0.58 A, at rest for 12 h, in alarm for 15 min",),
                     "No battery in stock is large enough; the largest is 55 Ah")),
        clear=(both(row_8, put(*BATTERY, value="7")), fire_short),
        unchecked=((unknown_load, NO_LOAD), (not_said, NOT_SAID), (without_limit("standby_h"), "the profile has no limit standby_h"),
                   (put(*CU, "power", "kind", value="cell"),
                    "the sheet tern-cu32 says power.kind: cell; a standby battery is asked for behind mains"))),
    "fire-standby-short": Cases(
        speaks=(Said(fire_short, ("job.control_unit.battery_ah",),
                     ("SM1 brings fire duties; without them 3.93 Ah would be enough. "
                      "4 Ah fitted, 7.68 Ah needed for 24 h at rest and 15 min in alarm.",),
                     ("fitted 4 Ah, needed 7.68 Ah, current at rest 0.25 A, current in alarm 0.58 A, at rest for 24 h, in alarm for 15 min",),
                     "12 Ah would be enough, but no box or charger here takes it"),),
        # Enough for both; too small for either; no such times in the market.
        clear=(both(no_cold, fire, currents("100", "260")), both(fire_short, put(*BATTERY, value="2.1")), row_8),
        unchecked=((unknown_load, NO_LOAD), (not_said, NOT_SAID), (without_limit("battery_factor"), "the profile has no limit battery_factor"))),
    "recharge-slow": Cases(
        # 0.8 × 7 Ah / 0.07 A = 80 h. In 72 h the charger refills 72 × 0.07 / 0.8 = 6.3 Ah to 80 %.
        speaks=(Said(put(*CU, "control_unit", "charger", "current_ma", value="70"), ("job.control_unit.sheet",),
                     ("7 Ah is refilled to 80 % in 80 h, 72 h is the longest.",), ("takes 80 h, at most 72 h, current left for the battery 70 mA",),
                     "Fit 3.2 Ah, which is enough and refilled in time. Or: choose a charger that gives more; this one refills 6.3 Ah in time."),),
        # 0.8 × 7 / 72 = 0.07778 A.
        clear=(put(*CU, "control_unit", "charger", "current_ma", value="78"),),
        unchecked=((put(*CU, "control_unit", "charger", value=None), "the sheet of CU gives no control_unit.charger.current_ma; write "
                    "control_unit.charger.current_ma in the sheet tern-cu32"), (not_said, NOT_SAID),
                   (without_limit("recharge_h"), "the profile has no limit recharge_h"))),
    "battery-does-not-fit": Cases(
        speaks=(Said(put(*BATTERY, value="12"), ("job.control_unit.battery_ah",),
                     ("12 Ah fitted, 7.2 Ah is the largest that the box and the charger are made for.",),
                     ("fitted 12 Ah, at most 7.2 Ah",), "Fit 3.2 Ah"),
                # Larger than any in stock.
                Said(put(*BATTERY, value="150"), ("job.control_unit.battery_ah",),
                     ("150 Ah fitted, 7.2 Ah is the largest that the box and the charger are made for.",),
                     ("fitted 150 Ah, at most 7.2 Ah",), "Fit 3.2 Ah")),
        clear=(put(*BATTERY, value="7.2"),),
        unchecked=((put(*CU, "control_unit", "battery_box", value=None), "the sheet of CU gives no control_unit.battery_box.most_ah; write "
                    "control_unit.battery_box.most_ah in the sheet tern-cu32"), (not_said, NOT_SAID))),
    "own-battery-short": Cases(
        speaks=(Said(repeater(standby_h="8"), ("job.devices.R1.sheet",),
                     ("R1 lasts 8 h on its own battery, 12 h is asked for. With it goes 1 unit that is heard through it: D3.",),
                     ("lasts 8 h, at least 12 h, hours that its own battery carries it 8 h, heard through it 1",), "12 h or longer"),
                # 450 mAh / 40 mA = 11.25 h.
                Said(repeater(capacity_mah="450", quiescent_ma="40"), ("job.devices.R1.sheet",),
                     ("R1 lasts 11.2 h on its own battery, 12 h is asked for. With it goes 1 unit that is heard through it: D3.",),
                     ("lasts 11.2 h, at least 12 h, capacity of its own battery 450 mAh, current at rest 40 mA, heard through it 1",)),
                # A socket and no battery; a second repeater hangs behind it, so what that one carries goes too.
                Said(both(repeater(standby_h="0"), behind, socket), ("job.devices.R1.from_socket",),
                     ("R1 hangs on a socket that anybody can switch off or unplug; it has no battery of its own. "
                      "With it go 4 units that are heard through it: D1, D2, D3 and R2.",),
                     ("supply socket, lasts 0 h, at least 12 h, hours that its own battery carries it 0 h, heard through it 4",),
                     "Give it a fixed supply, by a competent person, and take from_socket out. Choose one that lasts 12 h or longer. "
                     "Have the loss of its supply reported."),
                # A battery that lasts is empty on the second day all the same.
                Said(both(repeater(standby_h="30"), socket), ("job.devices.R1.from_socket",),
                     ("R1 hangs on a socket that anybody can switch off or unplug; it lasts 30 h on its own battery. "
                      "With it goes 1 unit that is heard through it: D3.",),
                     ("supply socket, lasts 30 h, at least 12 h, hours that its own battery carries it 30 h, heard through it 1",)),
                Said(both(repeater(), socket), ("job.devices.R1.from_socket",),
                     ("R1 hangs on a socket that anybody can switch off or unplug; how long its own battery carries it is not known. "
                      "With it goes 1 unit that is heard through it: D3.",),
                     ("supply socket, heard through it 1",), "Choose one with a battery of its own")),
        # A socket matters for what others are heard through; a keypad on one falls silent alone, after the hours asked for.
        clear=(repeater(standby_h="12"), repeater(capacity_mah="480", quiescent_ma="40"),
               both(put("equipment", "tern-kp", "power", value={"kind": "mains", "standby_h": "12"}),
                    put("job", "devices", "K1", "from_socket", value="true"))),
        unchecked=((repeater(), "the sheet of R1 gives neither power.standby_h nor power.capacity_mah with power.quiescent_ma; write how long "
                    "its own battery carries it"), (without_limit("standby_h"), "the profile has no limit standby_h"),
                   (repeater(capacity_mah="450", quiescent_ma="0"),
                    "the sheet of R1 gives 0 mA at rest; write power.quiescent_ma as its papers say"))),
}
