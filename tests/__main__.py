"""Everything that has to hold: ``python -m tests``. People and CI run the same."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

CHECKS = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy",),
    ("pytest", "-n", "auto"),
)


def main() -> int:
    """Run each check from the top of the project; stop at the first that fails."""
    top = Path(__file__).parent.parent
    for module, *words in CHECKS:
        done = subprocess.run([sys.executable, "-m", module, *words], cwd=top, check=False)
        if done.returncode:
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main())
