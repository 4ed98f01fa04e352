"""The latch: one writer at a time, whoever died, slept or cleaned up."""

from __future__ import annotations

import contextlib
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.latch import Latch

ROOT = Path(__file__).parents[2]


@contextlib.contextmanager
def holder(path: Path) -> Iterator[subprocess.Popen[bytes]]:
    """A process that holds the latch until it is ended."""
    program = (
        "import sys, time, pathlib\n"
        "from core.records.latch import Latch\n"
        "with Latch(pathlib.Path(sys.argv[1])):\n"
        "    print('held', flush=True)\n"
        "    time.sleep(600)\n"
    )
    command = [sys.executable, "-c", program, str(path)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"held\n"
        try:
            yield process
        finally:
            process.kill()


def test_a_stopped_holder_is_named_when_the_wait_is_over(tmp_path: Path) -> None:
    with holder(tmp_path / "latch") as process:
        process.send_signal(signal.SIGSTOP)
        began = time.monotonic()
        with pytest.raises(StoreUnusable) as caught, Latch(tmp_path / "latch", wait_s=0.2):
            pass
        assert time.monotonic() - began >= 0.2
        says = str(caught.value)
        assert f"process {process.pid} has held the records for over 0.2 s" in says
        assert "nothing was recorded" in says


def test_a_dead_holder_holds_nothing(tmp_path: Path) -> None:
    with holder(tmp_path / "latch") as process:
        process.kill()
        process.wait()
        with Latch(tmp_path / "latch", wait_s=0.2):
            pass


def test_a_waiting_writer_goes_on_when_the_latch_is_free(tmp_path: Path) -> None:
    with holder(tmp_path / "latch") as process:
        threading.Timer(0.1, process.kill).start()
        with Latch(tmp_path / "latch", wait_s=20.0):
            assert process.wait() == -signal.SIGKILL


def test_its_holder_may_enter_again(tmp_path: Path) -> None:
    latch, other = Latch(tmp_path / "latch"), Latch(tmp_path / "latch", wait_s=0.0)
    with latch:
        with latch:
            pass
        with pytest.raises(StoreUnusable), other:
            pass
    with other:
        pass


def test_threads_wait_for_each_other_too(tmp_path: Path) -> None:
    latch = Latch(tmp_path / "latch", wait_s=0.05)
    refused: list[StoreUnusable] = []

    def enter() -> None:
        try:
            with latch:
                pass
        except StoreUnusable as error:
            refused.append(error)

    with latch:
        thread = threading.Thread(target=enter)
        thread.start()
        thread.join()
    assert len(refused) == 1
    with latch:
        pass


def test_a_removed_latch_is_put_back(tmp_path: Path) -> None:
    path = tmp_path / "latch"
    first = Latch(path)
    with first:
        pass
    path.unlink()
    time.sleep(0.06)  # a latch looks for its file twenty times a second
    with first, pytest.raises(StoreUnusable), Latch(path, wait_s=0.0):
        pass


def test_a_latch_that_is_no_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "latch").mkdir()
    with pytest.raises(StoreUnusable, match="a folder stands where a file should be"):
        Latch(tmp_path / "latch").__enter__()


def test_a_holder_of_another_kind_is_not_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def unreadable(*_args: object, **_kwargs: object) -> str:
        raise PermissionError

    monkeypatch.setattr(Path, "read_text", unreadable)
    with Latch(tmp_path / "latch"), pytest.raises(StoreUnusable, match="another process"):
        Latch(tmp_path / "latch", wait_s=0.0).__enter__()
