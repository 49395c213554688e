"""One reader's pack in a browser, built again whenever a file of the job changes."""
import sys
import tempfile
import threading
from datetime import date
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from generator.pipeline import Compiled, compile_job
from generator.publish.pack import write_pack
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite, JobInvalid

LOOK_EVERY_S = 1.0


class _Quiet(SimpleHTTPRequestHandler):
    """Serves files without a line for each, and asks browsers to keep nothing."""

    def log_message(self, format: str, *arguments: object) -> None:
        pass

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()


def preview(compiled: Compiled, audience: Audience, port: int, lan: bool, as_of: date | None) -> int:
    """Serves the pack until interrupted. Other machines may look only if `lan`. Raises CannotWrite if it cannot."""
    with tempfile.TemporaryDirectory(prefix="doorpost-preview-") as out:
        target = write_pack(compiled, Path(out))
        server = serve(target / audience.value, port, lan)
        shown = "this machine's name" if lan else "127.0.0.1"
        print(f"http://{shown}:{server.server_port}/ shows the {audience.value}'s pack; stop with Ctrl-C.", flush=True)
        if lan:
            print("Everybody on this network can read it.", flush=True)
        stop = threading.Event()
        watcher = threading.Thread(target=_watch, args=(compiled, Path(out), as_of, stop), daemon=True)
        watcher.start()
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            pass
        finally:
            stop.set()
            watcher.join()
            server.server_close()
    return 0


def serve(folder: Path, port: int, lan: bool) -> ThreadingHTTPServer:
    """A server of one folder, not started yet."""
    try:
        return ThreadingHTTPServer(("" if lan else "127.0.0.1", port), partial(_Quiet, directory=str(folder)))
    except OSError as error:
        raise CannotWrite(f"port {port} cannot be used ({error.strerror}). Name another with --port.") from error


def _stamps(compiled: Compiled) -> dict[Path, float]:
    """When each file that the job can depend on was last changed."""
    folder = compiled.read.folder
    files = [*folder.rglob("*.yaml"), *folder.parent.glob("*.yaml"), *folder.parent.glob("equipment/*.yaml"),
             *folder.parent.glob("profiles/*.yaml")]
    return {file: file.stat().st_mtime for file in files if file.exists()}


def _watch(compiled: Compiled, out: Path, as_of: date | None, stop: threading.Event) -> None:
    before = _stamps(compiled)
    while not stop.wait(LOOK_EVERY_S):
        now = _stamps(compiled)
        if now == before:
            continue
        before = now
        try:
            write_pack(compile_job(compiled.read.folder / compiled.read.tree.file, as_of), out)
            print("built again", flush=True)
        except JobInvalid as invalid:
            print("\n".join(problem.one_line() for problem in invalid.problems), file=sys.stderr, flush=True)
        except CannotWrite as error:
            print(f"doorpost: {error}", file=sys.stderr, flush=True)
