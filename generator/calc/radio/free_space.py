"""What does distance alone take from a signal?

The exact form of ITU-R P.525, 20 log (4π d f / c); with the Recommendation's rounded constant of 32.4 it would be 0.05 dB less.
"""
import math

from generator.calc.bounds import positive
from generator.calc.working import Given, Working, of_source
from generator.tables.radio_materials import LIGHT_MPS, P525


def free_space_db(distance_m: float, frequency_mhz: float) -> float:
    """Loss in dB between isotropic antennas. Errors: ValueError for what is no distance or no frequency."""
    positive("distance in m", distance_m)
    positive("frequency in MHz", frequency_mhz)
    return 20 * math.log10(4 * math.pi * distance_m * frequency_mhz * 1e6 / LIGHT_MPS)


def free_space(distance: Given, frequency: Given) -> Working:
    """The same as a working; the numbers in m and MHz."""
    loss = free_space_db(distance.value, frequency.value)
    light = of_source("speed of light", "c", LIGHT_MPS / 1e6, "m·MHz", P525)
    return Working("Free space", "loss that the distance alone brings", "L₀ = 20 log(4π × d × f / c)", (distance, frequency, light), "L₀", loss, "dB",
                   notes=("The exact form; with the rounded constant of the Recommendation, 32.4, it would be 0.05 dB less.",))
