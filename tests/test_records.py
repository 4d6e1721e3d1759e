"""What certificates and records say, and what they never say."""

from __future__ import annotations

from pathlib import Path

from bookmaker.records import as_seen_from


def test_a_file_inside_is_told_from_the_folder_on(tmp_path: Path) -> None:
    assert as_seen_from(tmp_path, tmp_path / "out" / "x.pdf") == "out/x.pdf"


def test_a_file_elsewhere_is_told_by_its_name_alone(tmp_path: Path) -> None:
    assert as_seen_from(tmp_path / "a" / "b", tmp_path / "out" / "x.pdf") == "x.pdf"
    assert as_seen_from(tmp_path, Path("/elsewhere/x.pdf")) == "x.pdf"
