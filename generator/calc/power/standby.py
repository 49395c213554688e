"""Does the standby battery carry its loads, does it fit, is it refilled in time, and if not, what would mend it?

Asked once for each thing with a battery of its own: the control unit with all that hangs on it, a repeater for itself.
"""
from collections.abc import Sequence
from dataclasses import dataclass

from generator.calc.bounds import positive, reaches
from generator.calc.power.need import Allowance, Duty, Load, Need, currents_a, need
from generator.calc.power.recharge import Recharge, recharge
from generator.calc.power.runs import runs
from generator.calc.working import Given, Working, of_limit, worked_out
from generator.model.profile import Profile
from generator.terms.show import capital

STOCK, AH = "battery_stock_", "_ah"


@dataclass(frozen=True)
class Box:
    """Where the battery goes, and what fills it: each None if the sheet or the profile does not say."""

    most_ah: Given | None = None
    charger_ma: Given | None = None
    share_percent: Given | None = None
    in_h: Given | None = None


@dataclass(frozen=True)
class Mend:
    """One load less, and the battery that is enough then."""

    load: str
    battery: Given
    need: Need


@dataclass(frozen=True)
class Standby:
    """A battery against what is asked of it.

    `sizes` are those in stock. `fitted` is the one that the job names, None if it names none; `enough` holds it against the need and `runs` says how
    long it would last. `next_size` is the smallest in stock that is large enough, whether it fits or not; `good_sizes` are
    those that are large enough, fit, and are refilled in time. `recharge` is that of the battery fitted, or else of the
    smallest good one, or else of the next size.
    `mends` are the single loads without which the battery fitted would do, or, where no good one is in stock, another
    size; none if nothing has to be mended.
    """

    loads: tuple[Load, ...]
    need: Need
    sizes: tuple[Given, ...]
    fitted: Given | None
    enough: Working | None
    runs: Working | None
    next_size: Given | None
    fits: Working | None
    recharge: Recharge | None
    good_sizes: tuple[Given, ...]
    mends: tuple[Mend, ...]

    @property
    def holds(self) -> bool | None:
        """Whether the battery fitted does, or if none is, one in stock; None if neither is known.

        What could not be asked counts as kept: `fits` and `recharge` are None then.
        """
        if self.fitted is None:
            return bool(self.good_sizes) if self.sizes else None
        asked = (self.enough, self.fits, self.recharge and self.recharge.working)
        return all(one.holds() for one in asked if one)


def standby(loads: Sequence[Load], times: Duty, allowance: Allowance, sizes: Sequence[Given], box: Box,
            fitted: Given | None = None) -> Standby:
    """The battery that a set of loads asks for, held against the one fitted and those in stock (the smallest first).

    Errors: ValueError with the name of a number that cannot be, or if nothing takes any current.
    """
    if fitted:
        positive(fitted.name, fitted.value)
    asked = need(loads, times, allowance)
    next_size = next((one for one in sizes if reaches(one.value, asked.ah)), None)
    good = _good(sizes, asked, box)
    battery = fitted or (good[0] if good else next_size)
    return Standby(
        tuple(loads), asked, tuple(sizes), fitted, _enough(fitted, asked) if fitted else None,
        runs(fitted, loads, times, allowance) if fitted else None, next_size, _fits(battery, box), _refilled(battery, box), good,
        _mends(loads, times, allowance, (*((fitted,) if fitted else ()), *(() if fitted and good else sizes)), box))


def battery_sizes(profile: Profile) -> tuple[Given, ...]:
    """The sizes of standby battery that a profile names as stocked, the smallest first."""
    found = (of_limit(profile, key, "C") for key in profile.limits if key.startswith(STOCK) and key.endswith(AH))
    return tuple(sorted((one for one in found if one), key=lambda one: one.value))


def _good(sizes: Sequence[Given], asked: Need, box: Box) -> tuple[Given, ...]:
    return tuple(one for one in sizes if _does(one, asked, box))


def _does(battery: Given, asked: Need, box: Box) -> bool:
    """Whether a battery is large enough, fits, and is refilled in time, as far as the box is known."""
    fits, refilled = _fits(battery, box), _refilled(battery, box)
    return reaches(battery.value, asked.ah) and (not fits or bool(fits.holds())) and (not refilled or bool(refilled.working.holds()))


def _mends(loads: Sequence[Load], times: Duty, allowance: Allowance, tried: Sequence[Given], box: Box) -> tuple[Mend, ...]:
    """Every single load that may go and without which one of some batteries does, when none does with it."""
    if any(_does(one, need(loads, times, allowance), box) for one in tried):
        return ()
    out = []
    for index, load in enumerate(loads):
        rest = [*loads[:index], *loads[index + 1:]]
        if load.may_go and any(currents_a(rest)):
            less = need(rest, times, allowance)
            out += [Mend(load.name, one, less) for one in tried if _does(one, less, box)][:1]
    return tuple(out)


def _enough(fitted: Given, asked: Need) -> Working:
    return Working("Battery fitted, against the need", "capacity of the battery, held against the larger of the two lines", "C ≥ C_need",
                   (fitted,), "C", fitted.value, "Ah", worked_out(asked.governs), "least",
                   (capital(asked.no_second) + ".",) if asked.no_second else ())


def _fits(battery: Given | None, box: Box) -> Working | None:
    if not battery or not box.most_ah:
        return None
    positive(box.most_ah.name, box.most_ah.value)
    return Working("Battery, against its box", "capacity of the battery, held against the largest that box and charger are made for",
                   "C ≤ C_most", (battery,), "C", battery.value, "Ah", box.most_ah, "most")


def _refilled(battery: Given | None, box: Box) -> Recharge | None:
    if not battery or not box.charger_ma or not box.share_percent or not box.in_h:
        return None
    return recharge(battery, box.charger_ma, box.share_percent, box.in_h)
