"""The house keeps its rules: what gets loaded, how long modules and functions are."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = sorted((ROOT / "conductor").rglob("*.py"))
LONGEST_MODULE = 400
LONGEST_FUNCTION = 60


@pytest.mark.parametrize("verb", ["check", "score", "shape"], ids=["check", "score", "shape"])
@pytest.mark.slow
def test_text_commands_never_load_screen_sound_or_voice(verb: str) -> None:
    argument = "tree" if verb == "shape" else "salutation-a"
    code = (
        "import sys\n"
        "from conductor.cli import cli\n"
        f"try: cli([{verb!r}, {argument!r}])\n"
        "except SystemExit as end: assert not end.code, end.code\n"
        "heavy = {'textual', 'rich', 'miniaudio', 'sounddevice', 'pyttsx3', 'espeakng_loader',"
        " 'asyncio', 'rapidfuzz', 'numpy'}\n"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert done.stderr.splitlines()[-1] == "[]"


def test_the_package_itself_loads_nothing() -> None:
    code = (
        "import sys; before = set(sys.modules); import conductor; print(set(sys.modules) - before)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert done.stdout.strip() == "{'conductor'}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_modules_and_functions_stay_small(path: Path) -> None:
    text = path.read_text("utf-8")
    assert text.count("\n") <= LONGEST_MODULE
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno is not None
            assert node.end_lineno - node.lineno < LONGEST_FUNCTION, node.name
