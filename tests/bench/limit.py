"""What is the least it could cost: bare Jinja over the same views, written to disk? Run as `limit.py OUT`."""
import time

begun = time.perf_counter()

import json
import sys
from pathlib import Path

from generator.publish.render import environment, render, translations
from measured import JOB, packs_of

imported = time.perf_counter()


def write_all(packs: list, out: Path) -> None:
    """Writes every page of every reader, its content and nothing around it."""
    env = environment(translations())
    for pack in packs:
        for page in pack.pages:
            file = out / pack.audience.value / page.path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(render(page, env).html, encoding="utf-8")


if __name__ == "__main__":
    views = packs_of(JOB)
    planned = time.perf_counter()
    write_all(views, Path(sys.argv[1]))
    written = time.perf_counter()
    print(json.dumps({"imports": imported - begun, "views": planned - imported, "render": written - planned}))
