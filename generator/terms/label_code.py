"""The code on a label, which must be read through dirt.

ISO/IEC 18004, version 8, 49 modules a side, a quiet zone of four; from memory, held in the tests against two programs that make and read such codes.
Level H mends about 30 % of its codewords, level Q about 25 %.
"""
from collections.abc import Mapping
from types import MappingProxyType

VERSION, MODULES, QUIET = 8, 49, 4
# A link or a reference of so many characters, one byte each, fits at the level.
FITS: Mapping[str, int] = MappingProxyType({"H": 84, "Q": 108})
