"""Which limit is a unit's link held against? The larger one for what matters most."""
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

USUAL, MAIN, OUTBUILDING, REPEATER = "link_margin_db", "link_margin_main_db", "link_margin_outbuilding_db", "repeater_margin_db"
LIMITS = (USUAL, MAIN, OUTBUILDING, REPEATER)
MAIN_KINDS = ("hold-up", "smoke", "heat", "carbon-monoxide", "repeater")
MAIN_ROLES = ("timed-entry", "hold-up")


def link_limit(papers: Papers, name: str) -> str:
    """The name of the limit of the profile that a unit's link margin is held against: of those that are about it, the largest."""
    kind, device = papers.sheet_of[name].kind, papers.job.devices[name]
    main = kind in MAIN_KINDS or device.role in MAIN_ROLES or (kind == "sounder" and device.room == OUTSIDE)
    storey = papers.storey_of(papers.room_of(device) or OUTSIDE)
    about = [REPEATER] * (kind == "repeater") + [MAIN] * main + [OUTBUILDING] * bool(storey and storey.outbuilding) + [USUAL]
    limits = papers.profile.limits
    return max((one for one in about if one in limits), key=lambda one: limits[one].value)
