"""Where is a spot, in words for somebody with a tape?"""
import math

from generator.calc.radio.mend import MendPlace
from generator.geometry.beside import Side, beside
from generator.geometry.house import House
from generator.geometry.shapes import Place, Spot
from generator.model.called import opening_name, room_name
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.terms.show import metres, tenths

SIDES = {"front": "at the front", "back": "at the back", "left": "on the left", "right": "on the right"}
SEEN = "Left, right, front and back are those of the house, as seen by somebody who faces its front."
# What hangs nearer to a corner hangs in it, for somebody who holds a unit there.
IN_CORNER_M = 0.1
NOT_LOOKED_AT = "what it watches from there is not looked at here"


def place_of(papers: Papers, house: House, storey: str, room: str, spot: Spot, opening: str | None = None) -> MendPlace:
    """A spot of a room, or of the open air at a storey, as a place with its words; on the frame of an opening if one is named."""
    # Outside heights count from the floor of the main entrance, as the job's own do.
    height = spot.z - (house.floor_m[storey] if room != OUTSIDE else 0.0)
    at = Place(spot.x, spot.y)
    where = _on_frame(papers, opening, at) if opening else _by_walls(papers, house, storey, room, at)
    over = "the floor" if room != OUTSIDE else "the floor of the main entrance"
    inside = f"in the {room_name(papers, room)}, " if room != OUTSIDE else ""
    return MendPlace(storey, room, spot.x, spot.y, round(height, 2), f"{inside}{where}, {metres(height)} above {over}")


def _by_walls(papers: Papers, house: House, storey: str, room: str, at: Place) -> str:
    found = beside(house, storey, room, at)
    if room == OUTSIDE and found.on:
        off, side = found.off[0][1], found.off[0][0].side
        return f"on the outside wall {SIDES[found.on.side]}, {'at its end' if off < IN_CORNER_M else f'{tenths(off)} from its end'} towards the {side}"
    if found.on:
        side, off = found.off[0]
        return f"on {_wall(papers, found.on)}, {'in its corner' if off < IN_CORNER_M else f'{tenths(off)} from its corner'} with {_wall(papers, side)}"
    return " and ".join(f"{tenths(off)} from {_wall(papers, side)}" for side, off in found.off)


def _on_frame(papers: Papers, opening: str, at: Place) -> str:
    middle = papers.openings()[opening][1].at_m
    x, y = at.x - middle[0], at.y - middle[1]
    side = ("right" if x > 0 else "left") if abs(x) >= abs(y) else ("back" if y > 0 else "front")
    return f"on the frame of the {opening_name(papers, opening)}, {tenths(math.hypot(x, y))} towards the {side} from its middle"


def _wall(papers: Papers, side: Side) -> str:
    if side.behind == OUTSIDE:
        return f"the outside wall {SIDES[side.side]}"
    return f"the wall to the {room_name(papers, side.behind)} {SIDES[side.side]}"
