"""The Nu HTML Checker, asked about files. A Java that is missing is a failure, never a skip."""
import json
import shutil
import subprocess
from pathlib import Path

CHECKER = Path(__file__).resolve().parent / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"


# What the checker does not know: vector-effect is a property of styles by Scalable Vector Graphics 2, section 8.11 (from memory), and every browser heeds it.
UNKNOWN_TO_IT = ("Property “vector-effect” doesn't exist.",)


def faults(files: list[Path], *options: str) -> list[str]:
    """What the checker says against files, warnings too; its guess at the language of a text is no check."""
    java = shutil.which("java")
    assert java, "the program java is not there; tests/browser/install.sh installs it"
    assert files and CHECKER.is_file()
    # It runs for seconds only: a thorough compiler and several collectors would cost more than they save.
    command = [java, "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss4m", "-jar", CHECKER, "--stdout",
               "--format", "json", "--no-langdetect", *options, *files]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.stdout, done.stderr
    return [f"{one.get('url', '').rpartition('/')[2]}:{one.get('lastLine')}: {one['message']}"
            for one in json.loads(done.stdout)["messages"] if not one["message"].endswith(UNKNOWN_TO_IT)]
