"""The pictures in a folder."""

from __future__ import annotations

from pathlib import Path

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from bookmaker.pictures.folder import MAKER, pictures_in


def files(folder: Path, *names: str) -> None:
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(b"x")


def test_pictures_come_in_the_order_of_their_names_and_numbers(tmp_path: Path) -> None:
    files(tmp_path, "newt 10.jpg", "newt 2.jpg", "Newt 1.JPG", "ant.svg", "zebra.heic")
    names = [art.name for art in pictures_in(tmp_path, deep=False).pictures]
    assert names == ["ant.svg", "Newt 1.JPG", "newt 2.jpg", "newt 10.jpg", "zebra.heic"]


def test_hidden_files_and_manifests_are_passed_over_and_others_named(tmp_path: Path) -> None:
    files(tmp_path, "._newt.jpg", ".DS_Store", "book.toml", "notes.txt", "newt", ".git/a.png")
    found = pictures_in(tmp_path, deep=True)
    assert found.pictures == ()
    assert found.left == ("newt", "notes.txt")


def test_folders_inside_are_counted_or_gone_into(tmp_path: Path) -> None:
    files(tmp_path, "ant.png", "birds/owl.png", "birds/night/owl 2.png", "birds/notes.txt")
    shallow, deep = (pictures_in(tmp_path, deep) for deep in (False, True))
    assert (len(shallow.pictures), shallow.inside) == (1, 2)
    assert [art.relative_to(tmp_path).as_posix() for art in deep.pictures] == [
        "ant.png",
        "birds/night/owl 2.png",
        "birds/owl.png",
    ]


def test_a_link_to_a_folder_leads_nowhere(tmp_path: Path) -> None:
    files(tmp_path, "ant.png")
    (tmp_path / "again").symlink_to(tmp_path)
    assert len(pictures_in(tmp_path, deep=True).pictures) == 1


def test_proofs_of_ours_are_no_art(tmp_path: Path) -> None:
    note = PngInfo()
    note.add_text("Software", MAKER)
    Image.new("L", (4, 4)).save(tmp_path / "newt.png", pnginfo=note)
    Image.new("L", (4, 4)).save(tmp_path / "ant.png")
    assert [art.name for art in pictures_in(tmp_path, deep=False).pictures] == ["ant.png"]
