"""Does every fob and tag belong to one person, and can every person turn the alarm off?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.tables.sources import JOB_FILE, PRACTICE
from generator.terms.show import count, sentence_list

CREDENTIALS = ("fob", "tag")


def _credentials(papers: Papers) -> list[str]:
    return [name for name in papers.job.devices if papers.sheet_of[name].kind in CREDENTIALS]


def _owners(papers: Papers) -> dict[str, list[int]]:
    """The users of each fob and tag, by its name."""
    owners: dict[str, list[int]] = {name: [] for name in _credentials(papers)}
    for number, user in papers.job.users.items():
        for name in filter(None, (user.fob, user.tag)):
            owners[name].append(number)
    return owners


@rule("credential-unassigned", Severity.STOP, source=PRACTICE,
      compares="the fobs and tags of the job with those that its users hold",
      mends="Give each a user under users:, or take it out of the job and do not enrol it.",
      firm="an enrolled fob or tag that belongs to nobody is an open door")
def credential_unassigned(papers: Papers, results: Results) -> Iterator[Hit]:
    """A fob or tag belongs to nobody.

    Once enrolled it turns the alarm off, in whoever's hand it is, and the log names no one.
    """
    owners = _owners(papers)
    loose = [name for name, users in owners.items() if not users]
    if loose:
        lists = papers.sheet_of[papers.job.control_unit.id].control_unit.lists
        kinds = [kind for kind in CREDENTIALS if any(papers.sheet_of[name].kind == kind for name in owners)]
        held = {kind: sum(papers.sheet_of[name].kind == kind for name in owners) for kind in kinds}
        room = [Value(f"{kind}s", f"{held[kind]} of {getattr(lists, kind + 's')}", "", "control unit's sheet") for kind in kinds]
        yield Hit("job.users", f"{count(len(loose), 'credential')} of {len(owners)} without a person: {sentence_list(loose)}.",
                  "Give each a user, or take it out of the job and do not enrol it.",
                  (*(Value("without a person", name, "", f"job.devices.{name}.sheet") for name in loose),
                   Value("with a person", str(len(owners) - len(loose)), "", "job.users"), *room,
                   Value("users", f"{len(papers.job.users)} of {lists.users}", "", "control unit's sheet")))


@rule("credential-shared", Severity.STOP, source=JOB_FILE,
      compares="the fob and tag of each user with those of every other",
      mends="Leave it with one of them, and give the other one of their own.",
      firm="it can be enrolled for one user number only")
def credential_shared(papers: Papers, results: Results) -> Iterator[Hit]:
    """Two users hold the same fob or tag.

    The log names one of them whoever it was, and neither can be taken off the system alone.
    """
    for name, users in _owners(papers).items():
        if len(users) > 1:
            kind = papers.sheet_of[name].kind
            yield Hit(f"job.users.{users[-1]}.{kind}", f"{name} stands at users {sentence_list([str(one) for one in users])}.",
                      "Leave it with one of them.",
                      tuple(Value(f"user {one}", name, "", f"job.users.{one}.{kind}") for one in users))


@rule("user-without-credential", Severity.ASK, source=PRACTICE,
      compares="the users without fob and tag with the keypads of the job",
      mends="Give the user a fob or a tag, or plan a keypad to type at.")
def user_without_credential(papers: Papers, results: Results) -> Iterator[Hit]:
    """A user has nothing to turn the alarm off with.

    With a keypad in the job a user may have a code alone, which no file holds. Without one there is nothing to type it at.
    """
    if any(sheet.kind == "keypad" for sheet in papers.sheet_of.values()):
        return
    for number, user in papers.job.users.items():
        if not user.fob and not user.tag:
            yield Hit(f"job.users.{number}.who", f"User {number} has no fob and no tag, and no keypad is in the job.",
                      "Give a fob or a tag, or plan a keypad. If the control unit has keys of its own, accept this and say so.",
                      (Value("fobs and tags", "none", "", f"job.users.{number}"), Value("keypads", "none", "", "job.devices")))


@rule("fob-number-differs", Severity.NOTE, source=PRACTICE,
      compares="the number of each fob with the number of its user, where both lists reach as far",
      mends="Give the fob its user's number with number:.")
def fob_number_differs(papers: Papers, results: Results) -> Iterator[Hit]:
    """A fob and its user have different numbers.

    Equal numbers let the log be read without a list beside it.
    """
    number_of = {row.device: row.number for row in results.slots.rows if row.list == "fobs"}
    apart = [(number, user.fob) for number, user in papers.job.users.items()
             if number != number_of.get(user.fob, number) and number <= results.slots.length["fobs"]]
    if apart:
        pairs = [f"{fob} has number {number_of[fob]}, its user {number}" for number, fob in apart]
        yield Hit("job.users", f"{'; '.join(pairs)}.",
                  f"Write {sentence_list([f'number: {number} at {fob}' for number, fob in apart])}, if the numbers are still free.",
                  tuple(Value(f"user {number}", f"fob {number_of[fob]}", "", f"job.devices.{fob}") for number, fob in apart))
