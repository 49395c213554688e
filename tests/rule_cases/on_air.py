"""Time on air and radiated power. 868.0 to 868.6 MHz: 1 % of an hour, 36 s, and 25 mW e.r.p. (ERC/REC 70-03, Annex 1; from memory).

25 mW are 10 × log10(25) = 13.98 dBm against a dipole, 16.13 dBm e.i.r.p. (a dipole's 2.15 dB; from memory).
"""
from tests.rule_cases.case import Cases, Said, both, put, with_limit
from tests.rule_cases.radio import repeaters


def radio(sheet: str, key: str, value: str | None):
    return put("equipment", sheet, "radio", key, value=value)


CASES = {
    "air-time-long": Cases(
        # Every 15 min four messages an hour: 4 × 9100 ms are 36.4 s. Three would do: 27.3 s, one every 20 min.
        speaks=(Said(radio("tern-pir12", "message_ms", "9100"), ("job.devices.D2.sheet",),
                     ("D2 is on air for 36.4 s in the worst 1 h; 36 s is the most in its band: 4 messages of 9100 ms.",),
                     ("on air 36.4 s, at most 36 s, message 9100 ms, messages 4",),
                     "whose message takes 9000 ms or less, or one that checks in every 20 min or less often"),
                # A repeater sends its own four and the four of D2; the one that only sends its own keeps the limit to the second.
                Said(both(repeaters, radio("tern-rp", "message_ms", "9000")), ("job.devices.R1.sheet",),
                     ("R1 is on air for 72 s in the worst 1 h; 36 s is the most in its band: 8 messages of 9000 ms, those that it passes on for D2 counted.",),
                     ("on air 72 s, at most 36 s, message 9000 ms, messages 8",), "takes 4500 ms or less, or let fewer units be heard over it"),
                Said(radio("tern-cu32", "message_ms", "10000"), ("job.control_unit.sheet",),
                     ("CU is on air for 40 s in the worst 1 h; 36 s is the most in its band: 4 messages of 10000 ms.",),
                     ("on air 40 s, at most 36 s, message 10000 ms, messages 4",))),
        clear=(radio("tern-pir12", "message_ms", "9000"), radio("tern-fob", "message_ms", "60000")),
        unchecked=((radio("tern-pir12", "message_ms", None), "the sheet of D2 gives no message_ms"),
                   (radio("tern-pir12", "supervision_min", None), "the sheet of D2 gives no supervision_min"),
                   (with_limit("duty_period_h", "0"), "the limit duty_period_h is 0 h, and in no time nothing can be counted"),
                   (radio("tern-pir12", "frequency_mhz", "500"), "500 MHz lies in no band of the profile European grade 2"))),
    "power-over-band": Cases(
        speaks=(Said(radio("tern-sx", "tx_power_dbm", "17"), ("job.devices.S1.sheet",), ("S1 radiates 17 dBm; 16.1 dBm is the most at 868.3 MHz.",),
                     ("radiates 17 dBm, at most 16.1 dBm",), "radiates 16.1 dBm or less there"),
                # Told apart where both round to the same.
                Said(radio("tern-sx", "tx_power_dbm", "16.13"), ("job.devices.S1.sheet",),
                     ("S1 radiates 16.13 dBm; 16.129 dBm is the most at 868.3 MHz.",), ("radiates 16.13 dBm, at most 16.129 dBm",))),
        clear=(radio("tern-sx", "tx_power_dbm", "16.12"),),
        unchecked=((radio("tern-pir12", "tx_power_dbm", None), "the sheet of D2 gives no tx_power_dbm"),)),
}
