"""QR codes as pictures in a page: one stroked path on white, with a quiet zone of four modules.

Source of the quiet zone: ISO/IEC 18004 (read second-hand in: the default of the library segno).
"""
from functools import lru_cache

import qrcode
from markupsafe import Markup
from qrcode.constants import ERROR_CORRECT_M

QUIET = 4


@lru_cache(maxsize=4096)
def qr_svg(payload: str) -> Markup:
    """The code of a payload at level M, the same picture for the same payload, drawn once."""
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(payload)
    code.make(fit=True)
    matrix = code.get_matrix()
    side = len(matrix) + 2 * QUIET
    strokes = "".join(_row(row, line + QUIET) for line, row in enumerate(matrix))
    return Markup(
        f'<svg class="qr" viewBox="0 0 {side} {side}" role="img" aria-label="QR code" shape-rendering="crispEdges">'
        f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{strokes}" stroke="#000" fill="none"/></svg>')


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
