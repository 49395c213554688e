"""The command that writes the manual."""
from generator import __version__
from generator.cli.codes import CLEAR, MEANS
from generator.pages.page import Site


def manual(given) -> int:
    """Writes the manual."""
    from generator.publish.manual import write_manual

    print(write_manual(manual_site, given.out))
    return CLEAR


def manual_site() -> Site:
    """The manual of this very program."""
    from generator.cli.options import parser
    from generator.intake.profile_reader import profiles_shipped
    from generator.pages.manual import Source, manual as planned
    from generator.publish.ladder import rungs

    return planned(Source(__version__, parser(), MEANS, profiles_shipped(), *rungs()))
