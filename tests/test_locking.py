"""One run at a time in a folder."""

import multiprocessing
import time
from pathlib import Path

import pytest

from bookmaker.locking import LOCK, Held, alone_in, held


def test_the_second_run_is_told_once_and_gives_up_in_the_end(tmp_path: Path) -> None:
    told: list[str] = []
    with alone_in(tmp_path, lambda: told.append("first")):
        second = alone_in(tmp_path, lambda: told.append("second"), 0.3)
        with pytest.raises(Held):
            second.__enter__()
    assert told == ["second"]
    with alone_in(tmp_path, lambda: told.append("third"), 0.0):
        assert told == ["second"]


def add_one(folder: str) -> None:
    for _ in range(20):
        with alone_in(Path(folder), lambda: None, 60.0):
            count = int((Path(folder) / "n").read_text())
            time.sleep(0.001)
            (Path(folder) / "n").write_text(str(count + 1))


def test_no_row_is_lost_by_runs_that_meet(tmp_path: Path) -> None:
    (tmp_path / "n").write_text("0")
    context = multiprocessing.get_context("spawn")
    runs = [context.Process(target=add_one, args=(str(tmp_path),)) for _ in range(3)]
    for run in runs:
        run.start()
    for run in runs:
        run.join(60)
    assert (tmp_path / "n").read_text() == "60"


def test_a_folder_that_can_t_be_written_stops_nobody(tmp_path: Path) -> None:
    with alone_in(tmp_path / "none", lambda: None, 0.0):
        pass


def test_the_lock_goes_with_whoever_held_it(tmp_path: Path) -> None:
    with held(tmp_path / LOCK):
        pass
    with held(tmp_path / LOCK):
        pass
