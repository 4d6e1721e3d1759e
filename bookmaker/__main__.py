"""``python -m bookmaker`` is the same as ``bookmaker``."""

from bookmaker.cli import main

if __name__ == "__main__":
    main()
