"""`serve` that does not come to serving: each time one clear sentence."""

from __future__ import annotations

import builtins
import errno
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from floor.main import main
from floor.serve.listening import Listening, refused


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.delenv("BUNCHBOOK_TOKEN", raising=False)
    return str(tmp_path / "data")


def says(capsys: pytest.CaptureFixture[str], *words: str, code: int = 2) -> str:
    assert main(["serve", *words]) == code
    out, err = capsys.readouterr()
    assert out == ""
    return err


@pytest.mark.parametrize("port", ["", "http", "-1", "65536", "8e3", "٨٠١٧"])
def test_a_port_is_a_number(port: str, data: str, capsys: pytest.CaptureFixture[str]) -> None:
    err = says(capsys, f"--port={port}", "--data", data)
    assert err == f'--port expects a number from 0 to 65535, found "{port}"\n'


@pytest.mark.parametrize("sessions", ["0", "65", "many"])
def test_so_many_at_once(sessions: str, data: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "--sessions expects a number from 1 to 64" in says(
        capsys, "--sessions", sessions, "--data", data
    )


@pytest.mark.parametrize("address", ["", "galera.example", "127.0.0.1:8017", "300.1.1.1"])
def test_an_address_is_an_ip_address(
    address: str, data: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "--address expects an IP address of this machine" in says(
        capsys, f"--address={address}", "--data", data
    )


def test_a_port_that_is_taken(data: str, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        err = says(capsys, "--port", str(port), "--data", data)
    assert f"port {port} is taken by another program" in err


def test_an_address_of_another_machine(data: str, capsys: pytest.CaptureFixture[str]) -> None:
    """192.0.2.0/24 is nobody's (RFC 5737)."""
    err = says(capsys, "--address", "192.0.2.1", "--port", "0", "--data", data)
    assert "this machine has no address 192.0.2.1" in err


def test_a_port_of_the_administrators() -> None:
    error = OSError(errno.EACCES, "Permission denied")
    assert "port 80 is kept for the system's administrator" in str(
        refused(Listening("127.0.0.1", 80), error)
    )


def test_whatever_else_the_system_says_is_passed_on() -> None:
    error = OSError(errno.ENOBUFS, "No buffer space available")
    assert str(refused(Listening("::1", 8017), error)) == (
        "cannot listen at ::1, port 8017: No buffer space available"
    )


def test_a_weak_token(data: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "--token expects 12 or more" in says(capsys, "--token", "1234", "--data", data)


def test_a_weak_token_of_the_environment(
    data: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BUNCHBOOK_TOKEN", "1234")
    assert "--token expects 12 or more" in says(capsys, "--data", data)


def test_a_data_folder_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "a file"
    file.write_text("no folder")
    err = says(capsys, "--port", "0", "--data", str(file), code=3)
    assert str(file) in err
    assert err.count("\n") == 1


def test_without_the_library(
    data: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = builtins.__import__

    def without(name: str, *more: object) -> object:
        if name.partition(".")[0] == "textual_serve":
            raise ModuleNotFoundError(f"No module named {name!r}", name="textual_serve")
        return usual(name, *more)  # type: ignore[arg-type]

    for name in [n for n in sys.modules if n.startswith(("floor.serve", "textual_serve"))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", without)
    assert 'pip install "bunchbook[serve]"' in says(capsys, "--data", data)


@pytest.mark.parametrize("room", ["floor.commands.card", "floor.commands.serve", "floor.app"])
def test_nobody_else_waits_for_the_web_library(room: str) -> None:
    run = subprocess.run(
        [sys.executable, "-c", f"import sys, {room}; print(*sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = {name.partition(".")[0] for name in run.stdout.split()}
    assert "core" in loaded
    assert not loaded & {"textual_serve", "aiohttp", "aiohttp_jinja2", "jinja2"}
