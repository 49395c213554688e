"""Pictures made at build time. Every text in them passes one escape."""
from collections.abc import Iterable, Sequence

from markupsafe import Markup, escape

from generator.pages.installer.slots import Cell

ACROSS, SIDE, GAP = 8, 40, 4


def number_strip(cells: Sequence[Cell]) -> Markup:
    """The zone numbers as squares: taken ones are filled and bear their unit, free ones are dashed and empty but for the number."""
    step = SIDE + GAP
    rows = -(-len(cells) // ACROSS)
    squares = "".join(_square(cell, (index % ACROSS) * step, (index // ACROSS) * step) for index, cell in enumerate(cells))
    taken = sum(cell.taken for cell in cells)
    return Markup(
        f'<svg class="strip" viewBox="-1 -1 {ACROSS * step - GAP + 2} {rows * step - GAP + 2}" role="img" '
        f'aria-label="{taken} of {len(cells)} zone numbers are taken; the table says which">{squares}</svg>')


def _square(cell: Cell, x: int, y: int) -> str:
    kind = "taken" if cell.taken else "free"
    middle, line = x + SIDE // 2, y + SIDE // 2
    unit = f'<tspan x="{middle}" y="{line + 14}">{escape(cut(cell.unit, SIDE))}</tspan>' if cell.unit else ""
    return (f'<g class="{kind}"><title>{escape(cell.text)}</title><rect x="{x}" y="{y}" width="{SIDE}" height="{SIDE}" rx="4"/>'
            f'<text x="{middle}" y="{line - 4 if unit else line + 5}">{cell.number}{unit}</text></g>')


def picture(kind: str, width: float, height: float, says: str, parts: Iterable[Markup]) -> Markup:
    """A whole picture: its kind for the style, its size, what it tells in a sentence, and its parts."""
    return Markup('<svg class="{}" viewBox="0 0 {:g} {:g}" role="img" aria-label="{}">{}</svg>').format(
        kind, width, height, says, Markup("").join(parts))


# How wide a letter of a picture can be, in the picture's own measure: one of the widest, and any other.
WIDEST, WIDE = "MWmw@%—…", 9.0


def cut(text: str, room: float) -> str:
    """The text if it has room, else as much of it as has, and dots. Beside the picture it stands whole."""
    widths = [WIDE * 1.6 if one in WIDEST else WIDE for one in text]
    if sum(widths) <= room:
        return text
    left, kept = room - WIDE * 1.6, 0
    while kept < len(text) and widths[kept] <= left:
        left -= widths[kept]
        kept += 1
    return f"{text[:kept]}…"


def words(x: float, y: float, text: str, anchor: str = "start") -> Markup:
    """Words of a picture, from a place on, up to it ("end") or round it ("middle")."""
    return Markup('<text x="{:g}" y="{:g}" text-anchor="{}">{}</text>').format(round(x, 1), round(y, 1), anchor, text)
