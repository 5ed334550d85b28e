"""Where no screen can be had, and after a crash, there is one plain sentence."""

import subprocess
import sys
from pathlib import Path

import pytest

from fleet.tui.frame import FrameApp, FrameScreen
from fleet.tui.guard import CrashGuard, crash_sentence, note_crash, why_no_screen


class Stream:
    def __init__(self, tty: bool) -> None:
        self.tty = tty

    def isatty(self) -> bool:
        return self.tty


TTY, PIPE = Stream(True), Stream(False)
ALL = {"input": TTY, "output": TTY, "error output": TTY}


def test_a_terminal_is_enough() -> None:
    assert why_no_screen(ALL, {"TERM": "xterm-256color"}) is None


@pytest.mark.parametrize("term", ["dumb", "unknown"])
def test_a_terminal_that_cannot_place_text(term: str) -> None:
    assert why_no_screen(ALL, {"TERM": term}) == (
        f"The interface cannot place text on this terminal (TERM={term}). Everything it computes is on the "
        "command line too: coldround audit REGISTER, coldround --help."
    )


@pytest.mark.parametrize("missing", ["input", "output", "error output"])
@pytest.mark.parametrize("stream", [PIPE, None], ids=["pipe", "closed"])
def test_a_pipe_on_any_stream(missing: str, stream: Stream | None) -> None:
    sentence = why_no_screen({**ALL, missing: stream}, {"TERM": "xterm"})
    assert sentence is not None
    assert sentence.startswith(f"The interface needs a terminal, but {missing} is not one. ")
    assert "coldround audit REGISTER" in sentence


def test_a_real_process_without_a_terminal_ends_with_code_2() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.tui.demo"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("The interface needs a terminal")
    assert done.stderr.count("\n") == 1


class Broken(FrameScreen):
    def on_mount(self) -> None:
        secret_customer = "Alder and Finch"
        raise RuntimeError(f"broken after {len(secret_customer)}")


class BrokenInThread(FrameScreen):
    def on_mount(self) -> None:
        self.run_worker(self.fall, thread=True)

    def fall(self) -> None:
        raise ZeroDivisionError("in a thread")


@pytest.mark.parametrize(("screen", "words"), [(Broken, "broken after 15"), (BrokenInThread, "in a thread")])
async def test_a_crash_is_one_sentence_and_code_1(
    screen: type[FrameScreen], words: str, crash_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    app = FrameApp()
    with pytest.raises(Exception, match=words) as caught:  # noqa: PT012 (the toolkit raises it at the end)
        async with app.run_test() as pilot:
            await app.push_screen(screen())
            await pilot.pause()
            await pilot.pause()
    assert caught.value is not None
    assert app.return_code == 1
    log = crash_folder / "interface.log"
    assert app.crash == (
        "Coldround had to stop because of an error of its own; what was saved before is kept. "
        f"The details are in {log}."
    )
    noted = log.read_text(encoding="utf-8")
    assert words in noted
    assert "Traceback" in noted
    assert "Alder and Finch" not in noted.replace('secret_customer = "Alder and Finch"', "")


def test_a_real_crash_prints_no_values_of_variables(tmp_path: Path) -> None:
    program = f"""
import sys
from pathlib import Path
from fleet.tui.guard import CrashGuard

class Falling(CrashGuard[None]):
    def crash_folder(self):
        return Path({str(tmp_path)!r})

    def on_mount(self):
        name = "".join(["Alder", " and ", "Finch"])
        raise KeyError("fallen")

app = Falling()
app.run(headless=True)
sys.exit(app.return_code)
"""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    shown = done.stdout + done.stderr
    assert "Alder and Finch" not in shown
    assert "Traceback" not in shown
    assert done.stderr.splitlines() == [crash_sentence(tmp_path / "interface.log")]
    assert "KeyError: 'fallen'" in (tmp_path / "interface.log").read_text(encoding="utf-8")
    assert "Alder and Finch" not in (tmp_path / "interface.log").read_text(encoding="utf-8")


def test_a_crash_that_cannot_be_noted_says_so(tmp_path: Path) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("x", encoding="utf-8")
    assert note_crash(ValueError("x"), in_the_way / "log") is None
    assert crash_sentence(None).endswith("The details could not be written to a file.")


def test_crashes_are_appended(tmp_path: Path) -> None:
    note_crash(ValueError("first"), tmp_path)
    path = note_crash(ValueError("second"), tmp_path)
    assert path is not None
    text = path.read_text(encoding="utf-8")
    assert "first" in text
    assert "second" in text


def test_the_guard_is_the_root_of_every_application() -> None:
    assert issubclass(FrameApp, CrashGuard)
