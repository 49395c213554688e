"""Pictures of two colours as PNG, written without packing: the same bytes on every machine, whatever its library packs like.

Form: Portable Network Graphics, second edition (ISO/IEC 15948); the stored block: RFC 1950 and RFC 1951 (from memory).
"""
import struct
import zlib
from collections.abc import Sequence

Colour = tuple[int, int, int]
SIGNATURE = b"\x89PNG\r\n\x1a\n"
MOST_STORED = 65535


def png(rows: Sequence[Sequence[bool]], dark: Colour = (0, 0, 0), light: Colour = (255, 255, 255)) -> bytes:
    """A picture, a row of pixels each; true is dark. ValueError for a picture without pixels or with rows of unequal length."""
    if not rows or not rows[0] or len({len(row) for row in rows}) > 1:
        raise ValueError("a picture has rows of equal length")
    head = struct.pack(">IIBBBBB", len(rows[0]), len(rows), 1, 3, 0, 0, 0)
    data = b"".join(b"\0" + _bits(row) for row in rows)
    return SIGNATURE + _chunk(b"IHDR", head) + _chunk(b"PLTE", bytes(dark + light)) + _chunk(b"IDAT", _stored(data)) + _chunk(b"IEND", b"")


def _bits(row: Sequence[bool]) -> bytes:
    """Eight pixels a byte from the left, the rest of the last one light."""
    bits = "".join("0" if dark else "1" for dark in row)
    return bytes(int(bits[at:at + 8].ljust(8, "1"), 2) for at in range(0, len(bits), 8))


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _stored(data: bytes) -> bytes:
    parts = [data[at:at + MOST_STORED] for at in range(0, len(data), MOST_STORED)]
    blocks = [struct.pack("<BHH", part is parts[-1], len(part), len(part) ^ 0xFFFF) + part for part in parts]
    return b"\x78\x01" + b"".join(blocks) + struct.pack(">I", zlib.adler32(data))
