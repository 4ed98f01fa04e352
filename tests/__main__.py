"""Every check of the project in one command: `python -m tests` (more words go to pytest)."""

from __future__ import annotations

import subprocess
import sys
import sysconfig
from pathlib import Path

ROOT = Path(__file__).parent.parent
SCRIPTS = Path(sysconfig.get_path("scripts"))
PLACES = ["core", "floor", "demo", "tests", "screenshots_spec"]

CHECKS: tuple[tuple[str, list[str]], ...] = (
    ("lint", [sys.executable, "-m", "ruff", "check", *PLACES]),
    ("format", [sys.executable, "-m", "ruff", "format", "--check", *PLACES]),
    ("types", [sys.executable, "-m", "mypy"]),
    ("import contract", [str(SCRIPTS / "lint-imports")]),
    ("tests", [sys.executable, "-m", "pytest", "-n", "auto"]),
)


def main() -> int:
    """Run each check, all of them even when one fails; returns 0 only if every one passed."""
    failed: list[str] = []
    for name, command in CHECKS:
        print(f"== {name}", flush=True)
        extra = sys.argv[1:] if name == "tests" else []
        if subprocess.run([*command, *extra], cwd=ROOT, check=False).returncode:
            failed.append(name)
    if failed:
        print(f"failed: {', '.join(failed)}", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
