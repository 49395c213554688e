"""Is the standby battery filled again in time?"""
from dataclasses import dataclass

from generator.calc.bounds import positive, within
from generator.calc.power.need import MA_IN_A
from generator.calc.working import Given, Working


@dataclass(frozen=True)
class Recharge:
    """Hours until an empty battery has regained the wanted share, and the largest that regains it in time."""

    hours: float
    most_ah: float
    working: Working


def recharge(capacity_ah: Given, charger_ma: Given, share_percent: Given, in_h: Given) -> Recharge:
    """Time to refill: share × capacity over the charger's current. What charging loses as heat is not counted: no figure."""
    capacity, current = positive(capacity_ah.name, capacity_ah.value), positive(charger_ma.name, charger_ma.value) / MA_IN_A
    positive(share_percent.name, share_percent.value)
    share = within(share_percent.name, share_percent.value, 0, 100) / 100
    hours = share * capacity / current
    working = Working("Time to recharge", "share wanted × capacity / current left for the battery", "t = p / 100 × C / (I_c / 1000)",
                      (share_percent, capacity_ah, charger_ma), "t", hours, "h", in_h, "most",
                      ("From empty, at the charger's full current; what charging loses as heat is not counted, for want of a figure.",))
    return Recharge(hours, positive(in_h.name, in_h.value) * current / share, working)
