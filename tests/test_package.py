"""The package as people get it: a wheel in a clean environment, and an editable checkout."""

import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PLANS = sorted(path.name for path in (ROOT / "plans").glob("*.yaml"))


def run(*command: object, cwd: Path) -> str:
    done = subprocess.run(
        [str(part) for part in command], cwd=cwd, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", out, cwd=ROOT)
    (built,) = out.glob("*.whl")
    return built


@pytest.mark.slow
def test_the_wheel_carries_plans_sounds_styles_and_data(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {f"conductor/_shipped/plans/{name}" for name in PLANS} <= names
    assert "conductor/_shipped/sounds/bell.wav" in names
    assert "conductor/screens/conductor.tcss" in names
    assert "conductor/shapes/data/cautions.json" in names
    assert not any(name.startswith("tests") for name in names)


@pytest.mark.slow
def test_the_wheel_works_in_a_clean_environment_from_another_folder(
    wheel: Path, tmp_path: Path
) -> None:
    home = tmp_path / "env"
    run(sys.executable, "-m", "venv", "--without-pip", home, cwd=tmp_path)
    python = home / "bin" / "python"
    site = Path(
        run(python, "-c", "import site; print(site.getsitepackages()[0])", cwd=tmp_path).strip()
    )
    # only the dependencies of this environment are lent; path files in a lent folder are not read
    (site / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    run(sys.executable, "-m", "pip", "--python", python, "install", "-q", "--no-deps",
        "--no-index", wheel, cwd=tmp_path)  # fmt: skip
    where = run(python, "-c", "import conductor; print(conductor.__file__)", cwd=tmp_path)
    assert where.startswith(str(home))
    conductor = home / "bin" / "conductor"
    assert "Counted Salutation A" in run(conductor, "plans", cwd=tmp_path)
    told = run(
        conductor, "lead", "salutation-a", "--plain", "--speed", "60", "--no-journal", cwd=tmp_path
    )
    assert "The class is over." in told


def test_the_checkout_finds_its_own_plans_from_another_folder(tmp_path: Path) -> None:
    told = run(sys.executable, "-m", "conductor", "plans", cwd=tmp_path)
    assert "Counted Salutation A" in told
