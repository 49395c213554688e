"""QR codes as pictures in a page: one stroked path on white, with a quiet zone of four modules.

Source of the quiet zone: ISO/IEC 18004 (read second-hand in: the default of the library segno).
"""
from functools import lru_cache
from itertools import groupby

import qrcode
from markupsafe import Markup
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_M, ERROR_CORRECT_Q

from generator.terms.label_code import FITS, QUIET, VERSION


@lru_cache(maxsize=4096)
def qr_svg(payload: str) -> Markup:
    """The code of a payload at level M, the same picture for the same payload, drawn once."""
    return _drawn(qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0), payload)


@lru_cache(maxsize=4096)
def label_qr(payload: str) -> Markup:
    """The code of a label, which must be read through dirt: always of one size, at level H, for a long link at level Q."""
    level = ERROR_CORRECT_H if len(payload.encode()) <= FITS["H"] else ERROR_CORRECT_Q
    return _drawn(qrcode.QRCode(version=VERSION, error_correction=level, border=0), payload)


def _matrix(code: qrcode.QRCode, payload: str) -> list[list[bool]]:
    """The modules of a payload's code, the dark ones true."""
    code.add_data(payload)
    code.make(fit=code.version is None)
    return code.get_matrix()


def _drawn(code: qrcode.QRCode, payload: str) -> Markup:
    matrix = _matrix(code, payload)
    side = len(matrix) + 2 * QUIET
    strokes = "".join(_row(row, line + QUIET) for line, row in enumerate(matrix))
    return Markup(
        f'<svg class="qr" viewBox="0 0 {side} {side}" role="img" aria-label="QR code" shape-rendering="crispEdges">'
        f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{strokes}" stroke="#000" fill="none"/></svg>')


def _row(row: list[bool], line: int) -> str:
    """One row of modules as strokes: a length for each run of dark modules, a move over each run of light ones."""
    runs = [(dark, len(list(run))) for dark, run in groupby(row)]
    last = max((index for index, (dark, _) in enumerate(runs) if dark), default=-1)
    return f"M{QUIET} {line}.5" + "".join(f"h{length}" if dark else f"m{length} 0" for dark, length in runs[:last + 1]) if last >= 0 else ""
