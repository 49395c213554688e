"""What does a second pack cost in the same process? Run as `second.py FIRST_JOB SECOND_JOB OUT`."""
import contextlib
import io
import json
import sys
import time

from generator.cli import STOPPED, main

# The command imports it when it is first used; the first pack's time is to be that of a pack.
from generator.publish import pack# noqa: F401


def timed(job: str, out: str) -> float:
    """Seconds that `doorpost build` takes for one job."""
    begun = time.perf_counter()
    with contextlib.redirect_stdout(io.StringIO()):
        code = main(["build", job, "--out", out])
    took = time.perf_counter() - begun
    if code > STOPPED:
        raise SystemExit(f"{job} could not be built, exit code {code}")
    return took


if __name__ == "__main__":
    first, other, folder = sys.argv[1:]
    print(json.dumps({"first": timed(first, folder), "second": timed(other, folder)}))
