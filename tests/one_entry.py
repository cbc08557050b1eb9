"""hookfold copied beside itself with one entry more in a table, and run there: a new thing is one entry, not new code."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def copied(folder: Path, table: str, entry: str) -> Path:
    """The three parts copied into `folder`/hookfold, with `entry` written behind what `table` says."""
    parts = folder / "hookfold"
    for part in ("charts", "symbols", "cli"):
        shutil.copytree(ROOT / part, parts / part, ignore=shutil.ignore_patterns("__pycache__"))
    page = parts / table
    page.write_text(page.read_text("utf-8") + "\n" + entry, "utf-8")
    return folder


def ran(folder: Path, *commands: tuple[str, ...]) -> list[str]:
    """What each command printed, run one after another in `folder` with the copy; every one must end well."""
    script = (
        "import sys, json\n"
        "from click.testing import CliRunner\n"
        "import hookfold.symbols as symbols\n"
        "from hookfold.cli import main\n"
        "assert symbols.__file__.startswith(sys.argv[1]), symbols.__file__\n"
        "for command in json.loads(sys.argv[2]):\n"
        "    found = CliRunner().invoke(main, command, catch_exceptions=False)\n"
        "    print('exit', found.exit_code, command)\n"
        "    print(found.output)\n"
        "    print('--8<--')\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script, str(folder), json.dumps(commands)], cwd=folder, text=True, capture_output=True,
        env={**os.environ, "PYTHONPATH": str(folder)}, check=False, timeout=120,
    )  # fmt: skip
    assert not run.returncode, run.stderr[-2000:]
    said = run.stdout.split("--8<--\n")[:-1]
    failed = [s for s in said if not s.startswith("exit 0")]
    assert failed == [], "\n".join(failed)
    return said


def value(folder: Path, module: str, expression: str) -> str:
    """What an expression over a module of the copy comes to, as printed."""
    script = f"from hookfold.{module} import *\nprint({expression})"
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=folder, text=True, capture_output=True,
        env={**os.environ, "PYTHONPATH": str(folder)}, check=True, timeout=60,
    )  # fmt: skip
    return run.stdout.strip()
