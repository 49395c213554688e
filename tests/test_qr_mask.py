"""Is the mask of a QR code the one that the library qrcode would choose, and is its count of lost points ours?"""
import numpy as np
import pytest
import qrcode
from hypothesis import given, settings, strategies as st
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_L, ERROR_CORRECT_M, ERROR_CORRECT_Q
from qrcode.util import lost_point

from generator.publish.qr_mask import Code, _lost

LEVELS = (ERROR_CORRECT_L, ERROR_CORRECT_M, ERROR_CORRECT_Q, ERROR_CORRECT_H)


def chosen(kind: type[qrcode.QRCode], payload: str, level: int, version: int | None) -> tuple[int, list[list[bool]]]:
    """The mask that a class chooses, and the code that it makes."""
    code = kind(version=version, error_correction=level, border=0)
    code.add_data(payload)
    code.make(fit=version is None)
    made = code.get_matrix()
    return code.best_mask_pattern(), made


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("version", [None, 8])
def test_every_code_is_the_librarys_own(level: int, version: int | None) -> None:
    payloads = ["K-2041", "https://alarms.example/k/K-2041/d/3nrw.html", *(f"https://a.example/{number:05}" for number in range(12))]
    pairs = [(chosen(Code, one, level, version)[1], chosen(qrcode.QRCode, one, level, version)[1]) for one in payloads]
    assert [one for one, _ in pairs] == [other for _, other in pairs]


def test_the_payloads_that_are_tried_wear_different_masks() -> None:
    assert len({chosen(Code, f"https://a.example/{number:05}", ERROR_CORRECT_M, None)[0] for number in range(12)}) > 3


@settings(max_examples=60, deadline=None)
@given(st.integers(11, 30), st.randoms(use_true_random=False), st.floats(0.02, 0.98))
def test_points_of_any_square_are_counted_as_the_library_counts_them(side: int, random, dark: float) -> None:
    square = [[random.random() < dark for _ in range(side)] for _ in range(side)]
    assert _lost(np.array([square]))[0] == lost_point(square)
