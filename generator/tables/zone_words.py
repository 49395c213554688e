"""The words of zone texts: how the trade shortens them, and which of them name a person's room.

All of it is common practice, no source: short forms that installers and operators read without a key. English, as the
zone texts of the profiles that come along; a text in another language is shortened by its vowels alone.
"""

# Words said together, and the one that stands for them. The longer ones first.
STOREYS = ((("LOWER", "GROUND", "FLOOR"), "LGF"), (("GROUND", "FLOOR"), "GF"), (("FIRST", "FLOOR"), "FF"),
           (("SECOND", "FLOOR"), "2F"), (("THIRD", "FLOOR"), "3F"), (("TOP", "FLOOR"), "TOP"), (("UPSTAIRS",), "UP"),
           (("DOWNSTAIRS",), "DN"))
# Words that tell nobody where to go.
FILLERS = frozenset(("THE", "A", "AN", "OF", "AT", "IN", "ON", "TO", "BY", "FOR", "AND", "ZONE", "SENSOR", "DETECTOR", "CONTACT"))
# Left out behind a word that says which: DINING ROOM is DINING.
ROOM_WORDS = frozenset(("ROOM", "AREA"))
# What is watched.
THINGS = {"DOOR": "DR", "DOORS": "DRS", "WINDOW": "WDW", "WINDOWS": "WDWS", "MOVEMENT": "MOVE", "SHUTTER": "SHTR", "GLASS": "GLS",
          "CABINET": "CAB", "CUPBOARD": "CPBD", "ROOFLIGHT": "RFLT", "SKYLIGHT": "SKYLT"}
# A word that says by itself which thing is meant: PATIO DOOR is PATIO.
SPEAKS_FOR = {"PATIO": ("DR", "DRS"), "FRENCH": ("DR", "DRS"), "PORCH": ("DR",)}
# Where it is.
PLACES = {"KITCHEN": "KIT", "BEDROOM": "BED", "BATHROOM": "BATH", "LIVING": "LIV", "DINING": "DIN", "LOUNGE": "LNGE",
          "CONSERVATORY": "CONS", "UTILITY": "UTIL", "LANDING": "LDG", "GARAGE": "GAR", "HALLWAY": "HALL", "STAIRCASE": "STAIR",
          "CORRIDOR": "CORR", "BASEMENT": "BSMT", "ENTRANCE": "ENT", "RECEPTION": "RECEP", "FRONT": "FRT", "MASTER": "MSTR",
          "OUTBUILDING": "OUTB", "WORKSHOP": "WKSP", "LAUNDRY": "LDRY", "NORTH": "N", "SOUTH": "S", "EAST": "E", "WEST": "W",
          "LEFT": "LH", "RIGHT": "RH"}
VOWELS = frozenset("AEIOU")
# A word as short as this keeps its vowels: nothing would be left to read.
KEPT_WHOLE = 3
# How a word is joined to the next where the blank cannot be shown.
JOINTS = (" ", "-", "/", ".", "")
# Letters that do not fall apart into a letter and an accent.
PLAIN = {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "Æ": "AE", "Œ": "OE", "Ø": "O", "Ł": "L", "Đ": "D",
         "–": "-", "—": "-", "’": "", "'": "", "&": " AND ", "+": " AND "}

# Words that give away where a child sleeps, each in the forms that a zone's text may have.
CHILD_WORDS = frozenset(("CHILD", "CHILDS", "CHILDREN", "CHILDRENS", "KID", "KIDS", "BABY", "BABYS", "BABIES", "NURSERY", "INFANT",
                         "TODDLER", "BOY", "BOYS", "GIRL", "GIRLS", "DAUGHTER", "DAUGHTERS", "SON", "SONS", "TEEN", "TEENS"))
# Words of houses that are surnames too.
HOUSE_WORDS = frozenset(("HALL", "PORCH", "GARDEN", "STORE", "SHED", "GATE", "BARN", "LODGE", "CELLAR", "ATTIC", "LOFT", "STUDY",
                         "OFFICE", "BACK", "REAR", "SIDE", "BAY", "COTTAGE", "HOUSE", "TOWER", "LANE", "STABLE", "WELL", "WOOD"))
# Titles and joining words that stand in names and name nobody.
NO_NAMES = frozenset(("MISS", "MRS", "SIR", "THE", "AND", "FAMILY", "HOUSEHOLD", "VAN", "DER", "VON", "DEN", "JUNIOR", "SENIOR"))
SHORTEST_NAME = 3


def ordinary_words() -> frozenset[str]:
    """The words that a zone's text holds anyway: whoever is called so gives nothing away by them."""
    storeys = {word for words, _ in STOREYS for word in words}
    return frozenset({*storeys, *HOUSE_WORDS, *FILLERS, *ROOM_WORDS, *THINGS, *THINGS.values(), *SPEAKS_FOR, *PLACES, *PLACES.values()})
