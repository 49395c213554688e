"""What every group of keys in a file has in common."""
from pydantic import BaseModel, ConfigDict


class Entry(BaseModel):
    """A group of keys: frozen, and closed to keys that it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", use_attribute_docstrings=True)
