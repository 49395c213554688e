"""Over which repeaters is each unit heard?"""
from collections.abc import Mapping

from generator.model.job import Device


def ways(devices: Mapping[str, Device]) -> dict[str, tuple[str, ...]]:
    """The repeaters from each unit to the control unit, the nearest first; () for one that is heard directly.

    A circle ends where it closes; that one is there is the intake's to say.
    """
    return {name: _way(devices, name) for name in devices}


def _way(devices: Mapping[str, Device], name: str) -> tuple[str, ...]:
    way: list[str] = []
    while (via := devices[name].via) and via not in way and via in devices:
        way.append(via)
        name = via
    return tuple(way)
