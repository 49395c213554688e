"""Which of the eight masks does a QR code wear? The one that loses the fewest points, as the library counts them, for all eight at once.

Source of the points: ISO/IEC 18004, Table 11 (read second-hand in: the library qrcode, whose own choice the tests hold ours against).
"""
from functools import lru_cache

import numpy as np
import qrcode

MASKS = 8
# What a finder's own pattern is taken for: dark to light as 1 : 1 : 3 : 1 : 1, four light modules before or behind.
LIKE_A_FINDER = (0b10111010000, 0b00001011101)
WINDOW = 11
RUN = 5


class Code(qrcode.QRCode):
    """A QR code that chooses its mask faster than the library does, and the same."""

    def best_mask_pattern(self) -> int:
        """The number of the mask; the first of those that lose the same."""
        self.makeImpl(True, 0)
        return int(np.argmin(_lost(np.array(self.modules, dtype=bool) ^ _flips(self.version))))


@lru_cache(maxsize=40)
def _flips(version: int) -> np.ndarray:
    """The modules that are other than under the first mask, for each mask: the same for every code of a version."""
    code = qrcode.QRCode(version=version)
    code.add_data("")
    under = []
    for mask in range(MASKS):
        code.makeImpl(True, mask)
        under.append(code.modules)
    all_masks = np.array(under, dtype=bool)
    return all_masks ^ all_masks[0]


def _lost(codes: np.ndarray) -> np.ndarray:
    """The points that each of some codes loses; they lie one behind the other, row by row."""
    lines = np.concatenate([codes, codes.transpose(0, 2, 1)], axis=1)
    size = codes.shape[-1]
    same = lines[..., 1:] == lines[..., :-1]
    runs = np.logical_and.reduce([same[..., step:size - RUN + 1 + step] for step in range(RUN - 1)])
    begun = runs[..., 1:] & ~runs[..., :-1]
    blocks = same[:, :size - 1] & same[:, 1:size] & (codes[:, 1:, :-1] == codes[:, :-1, :-1])
    read = sum(lines[..., step:size - WINDOW + 1 + step].astype(np.int16) << (WINDOW - 1 - step) for step in range(WINDOW))
    dark = codes.sum(axis=(1, 2)) / size ** 2
    # Three points for a run of five and one for each module more; three for a block of four; forty for what looks like a finder; ten for
    # each whole twentieth that dark modules are away from half of all.
    return (_count(runs) + 2 * (_count(begun) + _count(runs[..., :1])) + 3 * _count(blocks) + 40 * _count(np.isin(read, LIKE_A_FINDER))
            + 10 * (np.abs(dark * 100 - 50) / 5).astype(int))


def _count(found: np.ndarray) -> np.ndarray:
    return found.sum(axis=(1, 2))
