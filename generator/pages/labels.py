"""Labels with a code, to print."""
from dataclasses import dataclass


@dataclass(frozen=True)
class Label:
    """One printed label: it goes inside the lid, never on the face."""

    short: str
    payload: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class LabelsView:
    """The label sheet."""

    labels: tuple[Label, ...]
    title: str
    hint: str
