"""Serials. Row 5 of the trade's list of failures: one serial at two numbers."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put

HEX = "0123456789ABCDEF"


def serial(device: str, value: str | None):
    return put("job", "devices", device, "serial", value=value)


def eight(files: Files) -> None:
    """The serials of contacts and detectors have eight characters."""
    for name, device in files["job"]["devices"].items():
        if name.startswith("D"):
            files["equipment"][device["sheet"]]["serial"] = {"least": "8", "most": "8", "alphabet": HEX}
            device["serial"] = f"00{device['serial']}"


CASES = {
    "serial-twice": Cases(
        speaks=(Said(both(eight, serial("D1", "00A3F17C"), serial("D2", "00A3F17C")), ("job.devices.D2.serial",),
                     ("Serial 00A3F17C stands at D1 and at D2.",), ("serial 00A3F17C, serial 00A3F17C",),
                     "Read both plates again. Easily mistaken:"),),
        clear=(both(eight, serial("D1", "00A3F17C"), serial("D2", "00A3F1C7")),)),
    "serial-form": Cases(
        speaks=(Said(serial("D1", "00A4F3C"), ("job.devices.D1.serial",), ("Serial 00A4F3C has 7 characters; its sheet says 6.",),
                     ("serial 00A4F3C, characters 7, in the sheet 6",)),
                Said(serial("D1", "O0A4F3"), ("job.devices.D1.serial",),
                     ("Serial O0A4F3 holds “O”, which no such unit has in its serial.",),
                     (f"serial O0A4F3, characters in the sheet {HEX}",), "Perhaps it says 00A4F3."),
                Said(serial("D1", "X0A4F3"), ("job.devices.D1.serial",),
                     ("Serial X0A4F3 holds “X”, which no such unit has in its serial.",),
                     (f"serial X0A4F3, characters in the sheet {HEX}",), "O or 0")),
        clear=(serial("D1", "00-A4 F3"), put("equipment", "tern-dc", "serial", value={"least": "5", "most": "8"}),
               serial("D1", None)),
        unchecked=((put("equipment", "tern-dc", "serial", value=None), "the sheet tern-dc gives no form of serial"),)),
    "serial-not-captured": Cases(
        speaks=(Said(both(serial("D1", None), serial("K1", None)), ("job.devices",), ("No serial yet: D1 and K1.",),
                     ("without a serial 2",), "Read them"),),
        clear=(lambda files: None,)),
}
