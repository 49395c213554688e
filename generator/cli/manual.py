"""The command that writes the manual."""
from argparse import ArgumentParser

from generator import __version__
from generator.cli.codes import CLEAR, MEANS
from generator.pages.page import Site


def manual(given) -> int:
    """Writes the manual."""
    from generator.publish.manual import write_manual

    print(write_manual(lambda: manual_site(given.commands), given.out))
    return CLEAR


def manual_site(commands: ArgumentParser) -> Site:
    """The manual of this very program, whose command line is given."""
    from generator.intake.profile_reader import profiles_shipped
    from generator.pages.manual.whole import Source, manual as planned
    from generator.publish.ladder import rungs

    return planned(Source(__version__, commands, MEANS, profiles_shipped(), *rungs()))
