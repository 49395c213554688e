"""The manual's page of commands, read from the parser of the command line itself."""
import argparse
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.pages.page import Page
from generator.procedure.step import Fact
from generator.terms.show import capital, sentence_list

HELP = "--help"


@dataclass(frozen=True)
class ArgumentView:
    """One argument or option: how it is written, what it is, and the words that it can be."""

    name: str
    means: str
    choices: str


@dataclass(frozen=True)
class CommandView:
    """One command."""

    id: str
    usage: str
    does: str
    arguments: tuple[ArgumentView, ...]


@dataclass(frozen=True)
class CommandsView:
    """Every command, and what the program answers with."""

    usage: str
    does: str
    options: tuple[ArgumentView, ...]
    commands: tuple[CommandView, ...]
    codes: tuple[Fact, ...]


def commands_page(parser: argparse.ArgumentParser, codes: Mapping[int, str]) -> Page:
    """The page; `codes` says what each exit code means."""
    commands = tuple(CommandView(name, usage(one), f"{capital(help)}.", tuple(map(_argument, _own(one))))
                     for name, one, help in commands_of(parser))
    return Page("commands.html", "Commands", "manual/commands.html.j2", CommandsView(
        f"{parser.prog} COMMAND", parser.description or "", tuple(map(_argument, _own(parser))), commands,
        tuple(Fact(str(code), f"{capital(means)}.") for code, means in sorted(codes.items()))))


def commands_of(parser: argparse.ArgumentParser) -> Iterator[tuple[str, argparse.ArgumentParser, str]]:
    """Every command: its name, its own parser, and its line of help."""
    group = next(one for one in parser._actions if isinstance(one, argparse._SubParsersAction))
    helps = {one.dest: one.help or "" for one in group._choices_actions}
    for name, one in group.choices.items():
        yield name, one, helps[name]


def usage(command: argparse.ArgumentParser) -> str:
    """The line that a command is called by: what must be given plain, what may be given in brackets.

    The parser's own line is broken to the width of a terminal, which differs from place to place.
    """
    return " ".join((command.prog, *map(_in_usage, _own(command))))


def _own(command: argparse.ArgumentParser) -> list[argparse.Action]:
    """What may be given to it, but the help that every command has, and the commands of the program; options stand last."""
    found = [one for one in command._actions if HELP not in one.option_strings and not isinstance(one, argparse._SubParsersAction)]
    return sorted(found, key=lambda one: bool(one.option_strings))


def _in_usage(action: argparse.Action) -> str:
    name = _name(action)
    return name if action.required and action.nargs != "?" else f"[{name}]"


def _name(action: argparse.Action) -> str:
    value = str(action.metavar or (action.dest.upper() if action.option_strings else action.dest)) if action.nargs != 0 else ""
    return " ".join(filter(None, (*action.option_strings[-1:], value))) + ("..." if action.nargs == "+" else "")


def _argument(action: argparse.Action) -> ArgumentView:
    choices = sentence_list([str(one) for one in action.choices], "or") if action.choices else ""
    return ArgumentView(_name(action), f"{capital(action.help or '')}.", choices)
