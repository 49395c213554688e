"""How long does a command take as a process of its own, and what does it print?"""
import os
import subprocess
import tempfile
import time
from collections.abc import Sequence

# Compiled modules of all that is measured stand in one folder of this run, whatever the surroundings say of them: else packages that pip
# compiled are compared with a checkout that is compiled anew at each start, which nobody who installed it waits for.
COMPILED = tempfile.TemporaryDirectory()
# The theme greets with a long notice otherwise. An empty text is as good as unset.
SURROUNDINGS = os.environ | {"NO_MKDOCS_2_WARNING": "1", "PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": COMPILED.name}


class Failed(Exception):
    """A command that was to be measured did not do its work."""


def run(command: Sequence[str], good: tuple[int, ...] = (0,)) -> tuple[float, str]:
    """Seconds from start to end, and the output. Raises Failed for any exit code that is not good."""
    begun = time.perf_counter()
    done = subprocess.run(command, check=False, capture_output=True, text=True, env=SURROUNDINGS)
    took = time.perf_counter() - begun
    if done.returncode not in good:
        raise Failed(f"{' '.join(command)}\nexit code {done.returncode}\n{done.stderr[-2000:]}")
    return took, done.stdout
