"""What a bare machine lacks is brought there in the way of its system; a wheel lacks nothing."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from bookmaker import install


def on_a_system_with(programs: set[str]) -> Callable[[str], str | None]:
    return lambda name: f"/usr/bin/{name}" if name in programs else None


@pytest.mark.parametrize(
    ("user", "programs", "starts"),
    [
        (0, {"apt-get"}, [["apt-get", "update"], ["apt-get", "install"]]),
        (0, {"apt-get", "sudo"}, [["apt-get", "update"], ["apt-get", "install"]]),
        (1000, {"apt-get", "sudo"}, [["sudo", "apt-get"], ["sudo", "apt-get"]]),
        (1000, {"apt-get"}, []),
        (1000, {"brew"}, [["brew", "install"]]),
        (0, set(), []),
    ],
)
def test_sudo_stands_only_where_there_is_one_and_one_is_not_root(
    monkeypatch: pytest.MonkeyPatch, user: int, programs: set[str], starts: list[list[str]]
) -> None:
    monkeypatch.setattr(install.shutil, "which", on_a_system_with(programs))
    monkeypatch.setattr(os, "geteuid", lambda: user)
    commands = list(install.system_commands(["venv", "cairo"]))
    assert [command[:2] for command in commands] == starts
    if "apt-get" in programs and commands:
        assert {"python3-venv", "libcairo2"} <= set(commands[-1])


def test_only_what_lacks_is_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(install.shutil, "which", on_a_system_with({"apt-get"}))
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    assert list(install.system_commands([])) == []
    assert "libcairo2" not in list(install.system_commands(["venv"]))[-1]


def test_it_needs_nothing_but_the_standard_library(project: Path, tmp_path: Path) -> None:
    """An isolated interpreter without site-packages imports it, from its file alone."""
    code = f"import runpy; runpy.run_path({str(project / 'bookmaker' / 'install.py')!r})"
    done = subprocess.run([sys.executable, "-I", "-S", "-c", code], cwd=tmp_path, check=False)
    assert done.returncode == 0
    assert not list(tmp_path.iterdir())


def test_a_copy_that_is_not_the_project_is_told_so(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(install, "PROJECT", tmp_path)
    assert install.main([]) == install.PART_MISSING
    assert "no copy of the project" in capsys.readouterr().err


def test_a_python_that_cannot_make_environments_is_told_so(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(install, "lacking", lambda: ["venv"])
    monkeypatch.setattr(install.shutil, "which", on_a_system_with(set()))
    assert install.main([]) == install.PART_MISSING
    assert "virtual environment" in capsys.readouterr().err


@pytest.mark.slow
def test_a_wheel_makes_a_book_outside_the_project(project: Path, tmp_path: Path) -> None:
    """As README has it: build a wheel, install it alone, work in a folder of one's own."""
    wheels, home, books = tmp_path / "wheels", tmp_path / "home", tmp_path / "books"
    pip = ("-m", "pip", "--quiet", "--disable-pip-version-check")
    _run(sys.executable, *pip, "wheel", "--no-deps", "--wheel-dir", wheels, project, cwd=tmp_path)
    (wheel,) = wheels.iterdir()
    assert _files_to_ship(project) <= set(zipfile.ZipFile(wheel).namelist())
    _run(sys.executable, "-m", "venv", home, cwd=tmp_path)
    python = home / ("Scripts" if os.name == "nt" else "bin") / "python"
    _run(python, *pip, "install", wheel, cwd=tmp_path)
    books.mkdir()
    (books / "newt.svg").write_bytes((project / "art" / "salamander.svg").read_bytes())
    (books / "pond.toml").write_text(
        'title = "The pond"\n[[page]]\nname = "Newt"\nart = "newt.svg"\nspots = 5\n', "utf-8"
    )
    for language in ("en", "fr"):
        book = f'title = "Pond"\nlanguage = "{language}"\nchapters = ["pond.toml"]\n'
        (books / "book.toml").write_text(book, "utf-8")
        _run(python, "-m", "bookmaker", "build", "book.toml", "--out", language, cwd=books)
        assert (books / language / "books.pdf").read_bytes().startswith(b"%PDF-")
    found = _run(python, "-c", "import bookmaker; print(bookmaker.__file__)", cwd=books)
    assert str(home) in found


def _files_to_ship(project: Path) -> set[str]:
    files = (file for file in (project / "bookmaker").rglob("*") if file.is_file())
    shipped = (file for file in files if file.suffix not in (".pyc", ".md"))
    return {file.relative_to(project).as_posix() for file in shipped}


def _run(*words: str | Path, cwd: Path) -> str:
    command = [str(word) for word in words]
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    done = subprocess.run(
        command, cwd=cwd, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout
