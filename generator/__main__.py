"""Lets `python -m generator` reach the commands."""
from generator.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
