"""How is each construction drawn? By a look of its own: solid, hollow, or with cells of its own length, so that it needs no colour.

A wall is a broad line as thick as it is, and upon it a narrower one of the ground, whole or in cells.
"""
LEAST, MOST = 4.0, 9.0
# Cells: how long one is, and how far it is to the next. Index 0 of the looks is solid, 1 hollow; the cells come after those.
CELLS = ((9, 3), (3, 3), (16, 3), (3, 9), (9, 9), (16, 9), (3, 16), (9, 16), (16, 16))


def thick(thickness_m: float | None, scale: float) -> float:
    """How broad a wall is drawn: to scale, within what can be told apart."""
    return LEAST if thickness_m is None else round(min(MOST, max(LEAST, thickness_m * scale)), 1)


def cells(look: int | None) -> str | None:
    """The dashes of the narrow line: "" for a whole one, None for none at all."""
    if look is None or look == 0:
        return None
    if look == 1:
        return ""
    own = look - 2
    return "{} {}".format(*CELLS[own]) if own < len(CELLS) else f"{own * 3} {3 + own % 3}"
