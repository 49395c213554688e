"""A short name for what the files say, so that paper and phone can be compared on site."""
import hashlib
import json
from datetime import date
from typing import Any

from pydantic import BaseModel

from generator.model.papers import Papers


def normal(value: Any) -> Any:
    """A value as plain JSON data, without what is not there.

    Groups whose names the writer chose become lists of pairs, since their order carries meaning: rooms as listed are
    the walking order, units as listed are the order of pages.
    """
    if isinstance(value, BaseModel):
        fields = {name: normal(getattr(value, name)) for name in type(value).model_fields}
        return {name: inner for name, inner in fields.items() if inner not in (None, [], {})}
    if isinstance(value, dict):
        return [[str(name), normal(inner)] for name, inner in value.items()]
    if isinstance(value, (list, tuple)):
        return [normal(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value


def fingerprint(papers: Papers) -> str:
    """SHA-256 of the papers as canonical JSON, in hex. People's data and the tool's version are not in it."""
    document = {
        "job": normal(papers.job),
        "sheets": normal(dict(papers.sheet_of)),
        "company": normal(papers.company),
        "profile": normal(papers.profile),
        **({"spare": normal(dict(papers.spare))} if papers.spare else {}),
    }
    text = json.dumps(document, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()
