"""QR codes as pictures in a page: one stroked path on white, with a quiet zone of four modules.

Source of the quiet zone: ISO/IEC 18004 (read second-hand in: the default of the library segno).
"""
from functools import lru_cache

import qrcode
from markupsafe import Markup
from qrcode.constants import ERROR_CORRECT_M

from generator.publish.png import data_address, png

QUIET = 4
# CSS pixels of a module where a code is a picture: whole ones, so that no line of modules is wider than another.
PIXELS = 4


@lru_cache(maxsize=4096)
def _matrix(payload: str) -> list[list[bool]]:
    """The modules of a payload's code at level M, the dark ones true; worked out once."""
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(payload)
    code.make(fit=True)
    return code.get_matrix()


@lru_cache(maxsize=4096)
def qr_svg(payload: str) -> Markup:
    """The code of a payload at level M, the same picture for the same payload, drawn once."""
    matrix = _matrix(payload)
    side = len(matrix) + 2 * QUIET
    strokes = "".join(_row(row, line + QUIET) for line, row in enumerate(matrix))
    return Markup(
        f'<svg class="qr" viewBox="0 0 {side} {side}" role="img" aria-label="QR code" shape-rendering="crispEdges">'
        f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{strokes}" stroke="#000" fill="none"/></svg>')


def qr_image(payload: str) -> Markup:
    """The same code as a picture of pixels, a sixth as long: for a file in which many must find room."""
    matrix = _matrix(payload)
    blank = [False] * (len(matrix) + 2 * QUIET)
    rows = [blank] * QUIET + [[False] * QUIET + row + [False] * QUIET for row in matrix] + [blank] * QUIET
    side = PIXELS * len(rows)
    return Markup(f'<img class="qr" alt="QR code" width="{side}" height="{side}" src="{data_address(png(rows))}">')


def _row(row: list[bool], line: int) -> str:
    """One row of modules as strokes: a move and a length for each run of dark modules."""
    out, column = [], 0
    while column < len(row):
        if not row[column]:
            column += 1
            continue
        end = column
        while end < len(row) and row[end]:
            end += 1
        out.append(f"M{column + QUIET} {line}.5h{end - column}")
        column = end
    return "".join(out)
