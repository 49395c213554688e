"""The commands that speak of rules: rules, explain."""
import json
import sys
from pathlib import Path

from generator.cli.codes import CLEAR, USAGE
from generator.intake.profile_reader import profiles_known
from generator.model.fields import nearest
from generator.pages.rule_text import explained, explained_document, rule_list, rule_list_document
from generator.rules.all_rules import RULE_OF


def rules(given) -> int:
    """Lists every rule."""
    print(_json(rule_list_document()) if given.format == "json" else rule_list())
    return CLEAR


def explain(given) -> int:
    """Tells what a rule is about."""
    profiles = profiles_known(Path.cwd())
    for name, known in ((given.rule, RULE_OF), (given.profile, profiles)):
        if name is not None and name not in known:
            what = "rule" if known is RULE_OF else "profile"
            print(f'doorpost: there is no {what} "{name}". {nearest(name, list(known))}Known: {", ".join(known)}.', file=sys.stderr)
            return USAGE
    shown = {given.profile: profiles[given.profile]} if given.profile else profiles
    print(_json(explained_document(RULE_OF[given.rule], shown)) if given.format == "json" else explained(RULE_OF[given.rule], shown))
    return CLEAR


def _json(document: dict) -> str:
    return json.dumps(document, ensure_ascii=False, indent=1)
