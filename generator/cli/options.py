"""What may stand on the command line."""
import argparse
from datetime import date
from pathlib import Path

from generator import __version__
from generator.cli.codes import MEANS
from generator.cli.files import migrate, new, schema
from generator.cli.found import results
from generator.cli.jobs import build, check, issue, plan, preview
from generator.cli.manual import manual
from generator.cli.rules import explain, rules
from generator.model.schema import WRITTEN
from generator.record.starter import HOUSES
from generator.terms.audience import Audience


def parser() -> argparse.ArgumentParser:
    """The command line."""
    top = argparse.ArgumentParser(prog="doorpost", description="One job file in, one offline pack for each reader out.",
                                  epilog=f"Exit codes: {'; '.join(f'{code} {means}' for code, means in MEANS.items())}.")
    top.add_argument("--version", action="version", version=f"doorpost {__version__}")
    commands = top.add_subparsers(required=True, metavar="COMMAND")
    one = commands.add_parser("new", help="write starter files for a job into a new folder")
    one.add_argument("folder", type=Path, metavar="DIR", help="the folder to make")
    one.add_argument("--house", choices=HOUSES, default=HOUSES[0],
                     help="how the house is given: by a plan with measures, or by a radio path for each unit (plan)")
    one.set_defaults(run=new)
    one = _job_command(commands, "check", "read jobs and tell what is wrong and what was found", check)
    one.add_argument("--format", choices=("text", "json", "github"), default="text",
                       help="for people, for programs, or as annotations for what checks a repository on each change (text)")
    one.add_argument("--how-to-accept", action="store_true", help="say for each finding what to write to accept it")
    one = _job_command(commands, "build", "build the packs of jobs", build)
    one.add_argument("--out", type=Path, required=True, metavar="DIR", help="where the packs go: DIR/<reference>/")
    one = commands.add_parser("issue", help="freeze a job's numbers and put its packs into one file for the archive")
    one.add_argument("job", type=Path, metavar="JOB", help="a job.yaml or its folder")
    one.add_argument("--on", type=_day, metavar="DATE", help="the day of issue (today)")
    one.add_argument("--out", type=Path, required=True, metavar="DIR", help="where the archive goes: DIR/<reference>-r<revision>.zip")
    one.set_defaults(run=issue)
    _job_command(commands, "plan", "print slots, findings and fingerprints of a job as JSON", plan)
    one = commands.add_parser("results", help="take in what phones wrote on site: appended under site/ beside the job file, shown in the record")
    one.add_argument("job", type=Path, metavar="JOB", help="a job.yaml or its folder")
    one.add_argument("files", nargs="+", type=Path, metavar="FILE", help="files of results as phones export them, REFERENCE-PHONE.txt; all are taken in or none")
    one.add_argument("--earlier", action="store_true", help="take in what was written in the pack of an earlier revision too")
    one.set_defaults(run=results)
    one = commands.add_parser("schema", help="print what may stand in a kind of file, as a JSON Schema for editors")
    one.add_argument("kind", choices=(*WRITTEN, "all"), metavar="KIND", help=f"{', '.join(WRITTEN)}, or all with --out")
    one.add_argument("--out", type=Path, metavar="DIR", help="write DIR/KIND.schema.json instead of printing")
    one.set_defaults(run=schema)
    one = commands.add_parser("migrate", help="show what an earlier format's files would be in the current one, and change them")
    one.add_argument("jobs", nargs="+", type=Path, metavar="JOB", help="a job.yaml, its folder, or a folder of job folders")
    one.add_argument("--write", action="store_true", help="change the files")
    one.set_defaults(run=migrate)
    one = _job_command(commands, "preview", "build a job's packs and show one reader's in a browser", preview)
    one.add_argument("--audience", choices=[one.value for one in Audience], default="installer", help="whose (installer)")
    one.add_argument("--port", type=int, default=8000, help="port to serve at (8000)")
    one.add_argument("--lan", action="store_true", help="let other machines of this network look too")
    one = commands.add_parser("rules", help="list every rule")
    _text_or_json(one, rules)
    one = commands.add_parser("explain", help="tell why a rule speaks, what it compares and what mends it")
    one.add_argument("rule", metavar="ID", help="the rule, as `doorpost check` names it")
    one.add_argument("--profile", metavar="NAME", help="the profile whose limits to show (every one that is found)")
    _text_or_json(one, explain)
    one = commands.add_parser("manual", help="write the manual of this very program as pages to be read without a network")
    one.add_argument("--out", type=Path, required=True, metavar="DIR", help="the folder of the manual: new, empty, or that of an earlier one")
    one.set_defaults(run=manual, commands=top)
    return top


def _job_command(commands, name: str, help: str, run) -> argparse.ArgumentParser:
    one = commands.add_parser(name, help=help)
    one.add_argument("jobs", nargs="+" if name in ("check", "build") else 1, type=Path, metavar="JOB",
                     help="a job.yaml, its folder, or a folder of job folders")
    one.add_argument("--as-of", type=_day, metavar="DATE", help="the day for which dates are worked out (the job's `dated`)")
    one.set_defaults(run=run)
    return one


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is not a date; write year-month-day, for example 2026-09-14')


def _text_or_json(command: argparse.ArgumentParser, run) -> None:
    command.add_argument("--format", choices=("text", "json"), default="text", help="how to print (text)")
    command.set_defaults(run=run)
