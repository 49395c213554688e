"""What does a wall, a floor or a door leaf take from a signal, on a typical and on a bad day?

What the company measured counts before everything. Else, typically, the dry layers by ITU-R P.2040; on a bad day whichever is more,
that or layer by layer what was measured on walls of fresh concrete, brick and timber. Metal lets nothing pass straight: what
arrives has come round it, so a layer of metal takes what the trade finds behind one, between the ends that the profile gives.

typical = slab + (low + high) / 2 of metal; bad day = max(slab, measured layer by layer) + high of metal.
"""
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.calc.radio.measured_walls import measured_db
from generator.calc.radio.slab import Slice, in_range, loss_db, permittivity
from generator.calc.unknown import Unknown
from generator.model.construction import Construction, Layer
from generator.model.profile import Profile
from generator.tables.radio_materials import FOIL_UP_TO_MM, GRAZING_DEG, MATERIALS
from generator.terms.show import amount, day, figure, sentence_list

FOIL, COATED, SHEET, THING = "foil_loss", "coated_glass_loss", "metal_sheet_loss", "metal_thing_loss"
LOW, HIGH = "_low_db", "_high_db"
LIMITS = ("foil_loss_low_db", "foil_loss_high_db", "coated_glass_loss_low_db", "coated_glass_loss_high_db", "metal_sheet_loss_low_db",
          "metal_sheet_loss_high_db", "metal_thing_loss_low_db", "metal_thing_loss_high_db")
METAL_IS = {FOIL: "foil", COATED: "a metal coating on glass", SHEET: "metal sheet", THING: "large metal"}


@dataclass(frozen=True)
class Loss:
    """Loss in dB on both kinds of day, in whole sentences what must be known of it, and the materials whose figures are extrapolated."""

    typical_db: float
    bad_db: float
    notes: tuple[str, ...] = ()
    beyond: tuple[str, ...] = ()


def metal_loss(profile: Profile, kind: str) -> Loss | Unknown:
    """What metal of a kind takes: typically the middle between the profile's ends, on a bad day the upper one."""
    ends = [profile.limits.get(kind + end) for end in (LOW, HIGH)]
    if None in ends:
        return Unknown(f"the profile has no limit {kind}{LOW if ends[0] is None else HIGH}")
    low, high = (one.value for one in ends)
    return Loss((low + high) / 2, high, (f"No radio passes {METAL_IS[kind]} straight; what comes round it was found to be {amount(low, '')} to "
                                         f"{amount(high, 'dB')} weaker.",))


def loss_of(construction: Construction, frequency_mhz: float, angle_deg: float, metal: Mapping[str, Loss | Unknown]) -> Loss | Unknown:
    """What one construction takes from a signal that meets it at an angle to its normal.

    `metal` is what metal takes by its kind. Errors: ValueError for what is no frequency.
    """
    angle = min(angle_deg, GRAZING_DEG)
    notes = [] if angle_deg <= GRAZING_DEG else [f"Met at {figure(angle_deg, '°', 2)}, almost along it; worked out for {figure(GRAZING_DEG, '°')}."]
    plain = [one for one in construction.layers if one.material != "metal"]
    if construction.measured:
        return _measured(construction, plain, frequency_mhz, angle, notes)
    dry = _dry(plain, frequency_mhz, angle)
    wet = sum(max(measured_db(one.material, one.thickness_mm, frequency_mhz, angle) or 0.0, dry if len(plain) == 1 else _dry([one], frequency_mhz, angle))
              for one in plain)
    beyond = tuple(sorted({one.material for one in plain if not in_range(MATERIALS[one.material], frequency_mhz)}))
    found = Loss(dry, max(dry, wet), tuple(notes), beyond)
    if len(plain) == len(construction.layers):
        return found
    behind = metal[kind_of_metal(construction)]
    if isinstance(behind, Unknown):
        return behind
    return Loss(found.typical_db + behind.typical_db, found.bad_db + behind.bad_db, behind.notes + found.notes, beyond)


def kind_of_metal(construction: Construction) -> str:
    """What its metal is: a coating where there is glass, else foil or sheet by its thickness."""
    if any(one.material == "glass" for one in construction.layers):
        return COATED
    return FOIL if max(one.thickness_mm for one in construction.layers if one.material == "metal") <= FOIL_UP_TO_MM else SHEET


def _measured(construction: Construction, plain: Sequence[Layer], frequency_mhz: float, angle: float, notes: list[str]) -> Loss:
    """What was measured squarely, and what the slant adds to dry layers; a slant that takes less is not credited."""
    own = construction.measured
    slant = max(0.0, _dry(plain, frequency_mhz, angle) - _dry(plain, frequency_mhz, 0))
    said = f"Measured by the company, {day(own.on)}: {figure(own.loss_db, 'dB')} at {figure(own.frequency_mhz, 'MHz')}, {own.how}."
    other = [f"The unit uses {figure(frequency_mhz, 'MHz')}, not the frequency of that measurement."] if own.frequency_mhz != frequency_mhz else []
    return Loss(own.loss_db + slant, own.loss_db + slant, (said, *other, *notes))


def _dry(layers: Sequence[Layer], frequency_mhz: float, angle: float) -> float:
    slices = [Slice(permittivity(MATERIALS[one.material], frequency_mhz), one.thickness_mm / 1000) for one in layers]
    return max(0.0, loss_db(slices, frequency_mhz, angle))


def extrapolated(materials: Iterable[str], frequency_mhz: float) -> str:
    """The sentence that names the materials for which the table has no figures at a frequency; "" if there are none."""
    names = sorted(set(materials))
    if not names:
        return ""
    return (f"Extrapolated: at {figure(frequency_mhz, 'MHz')} the table of ITU-R P.2040 has no figures for {sentence_list(names)}; those nearest in "
            "frequency are taken.")
