"""The words a sheet gives for the day, with this unit's own numbers in them."""
from generator.calc.results import Results
from generator.model.called import opening_name, room_name
from generator.model.lists import list_of
from generator.model.monitoring import Monitoring
from generator.model.papers import Papers
from generator.terms.show import sentence_list


def test_in_words(agreed: Monitoring) -> str:
    """How often and when the system reports that it is alive."""
    if agreed.test_interval_h is None:
        return "not agreed yet"
    return f"every {agreed.test_interval_h} h" + (f" at {agreed.test_at}" if agreed.test_at else "")


def filled(text: str, papers: Papers, results: Results, name: str) -> str:
    """A sheet's text for one unit: {id}, {number}, {zone}, {text}, {serial} and {room} replaced by its own."""
    rows = results.slots.of(name)
    zones = [row for row in rows if row.list == "zones"]
    # What has a list of its own is enrolled there, even if one of its keys reports to a zone.
    rows = [row for row in rows if row.list == list_of(papers.sheet_of[name])]
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    room = place.room if own else papers.room_of(place)
    values = {
        "id": name,
        "number": sentence_list([str(row.number) for row in rows]) or "…",
        "zone": sentence_list([str(row.zone or row.number) for row in zones or rows]) or "…",
        "text": sentence_list([row.text for row in zones or rows if row.text]) or "…",
        "serial": place.serial or "…",
        "room": room_name(papers, room) or "house",
    }
    for key, value in values.items():
        text = text.replace(f"{{{key}}}", value)
    return text
