"""Was a file of ours changed by hand? Its last line is the checksum of everything above it."""
import hashlib

CHECK = "check: "


def check_line(above: str) -> str:
    """The last line for a file: SHA-256, in hex, of the text above it."""
    return f"{CHECK}{hashlib.sha256(above.encode()).hexdigest()}\n"
