"""How many MiB does a command take at its peak? Run as `memory.py COMMAND...`.

It is a process of its own and small: a child's peak counts from the size of the process that it was started by.
"""
import resource
import subprocess
import sys

if __name__ == "__main__":
    code = subprocess.run(sys.argv[1:], check=False, stdout=subprocess.DEVNULL).returncode
    # Linux counts KiB, macOS bytes. With several workers this is the largest of them.
    unit = 1024 * 1024 if sys.platform == "darwin" else 1024
    print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / unit)
    raise SystemExit(code)
