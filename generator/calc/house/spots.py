"""Where in the house does each unit hang? A point in three dimensions, or what is missing to know it."""
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.shapes import Place, Spot, holds
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE


def spot_of(papers: Papers, house: House, name: str) -> Spot | Unknown:
    """The point of a unit, the control unit among them. A contact without a place of its own hangs at the opening that it watches."""
    if house.lacks:
        return Unknown(house.lacks)
    own = papers.job.control_unit
    unit = own if name == own.id else papers.job.devices[name]
    watched = papers.openings().get(getattr(unit, "protects", None) or "")
    at = unit.at_m or (watched[1].at_m if watched else None)
    where = f"{'job.control_unit' if unit is own else f'job.devices.{name}'}"
    room = unit.room or (_side(house, watched[1].wall, at) if watched and at else None)
    if at is None:
        return Unknown(f"{name} has no place in the plan; write at_m in {where}")
    if unit.height_m is None:
        return Unknown(f"the height of {name} is not known; write height_m in {where}")
    if room is None or (room != OUTSIDE and room not in house.rooms):
        return Unknown(f"{room or 'the room of ' + name} has no shape in the plan")
    return house.spot(room, Place(*at), unit.height_m, watched[0] if watched else None)


def _side(house: House, wall: list[str], at: list[float]) -> str | None:
    """The side of an opening on which a place lies: the room that holds it, else the first that is no open air."""
    inner = [one for one in wall if one != OUTSIDE]
    return next((one for one in inner if one in house.rooms and holds(house.rooms[one], *at)), inner[0] if inner else None)
