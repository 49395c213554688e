"""What do people call a room or an opening? Its name, else its key's own words."""
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE


def room_name(papers: Papers, key: str | None) -> str:
    """What people call a room: its name, else its key's own words; "outside" for the open air."""
    if key is None or key == OUTSIDE:
        return OUTSIDE if key else ""
    found = papers.rooms().get(key)
    return (found[1].name if found else None) or _words(key)


def opening_name(papers: Papers, key: str) -> str:
    """What people call an opening: its name, else its key's own words."""
    return papers.openings()[key][1].name or _words(key)


def _words(key: str) -> str:
    return key.replace("-", " ").replace("_", " ")
