"""Who reads a pack. Each reader gets a build of their own."""
from enum import StrEnum


class Audience(StrEnum):
    """A reader; the value is the name of their folder."""

    INSTALLER = "installer"
    HOMEOWNER = "homeowner"
    STATION = "station"
    RECORD = "record"
