"""The command that writes the manual."""
from generator import __version__
from generator.cli.codes import CLEAR, MEANS
from generator.intake.profile_reader import profiles_shipped
from generator.pages.manual import Source, manual as pages_of


def manual(given) -> int:
    """Writes the manual."""
    from generator.cli.options import parser
    from generator.publish.ladder import rungs
    from generator.publish.manual import write_manual

    print(write_manual(pages_of(Source(__version__, parser(), MEANS, profiles_shipped(), *rungs())), given.out))
    return CLEAR
