"""Before the interface starts, and when it falls: one plain sentence, never a traceback."""

import sys
import traceback
from collections.abc import Mapping
from datetime import datetime
from os import environ
from pathlib import Path
from typing import Protocol, TypeVar

from textual.app import App

Result = TypeVar("Result")

NO_SCREEN_CODE = 2
CRASH_CODE = 1
LOG_NAME = "interface.log"
_DUMB = {"dumb", "unknown"}
_OTHER_WAY = "Everything it computes is on the command line too: coldround audit REGISTER, coldround --help."


class _Stream(Protocol):
    def isatty(self) -> bool: ...


def why_no_screen(
    streams: Mapping[str, _Stream | None] | None = None, env: Mapping[str, str] | None = None
) -> str | None:
    """Return the sentence that says why the interface cannot start here, or None if it can.

    The caller prints it on standard error and ends with exit code ``NO_SCREEN_CODE``. Without arguments
    the streams and the environment of this process are looked at. The interface reads standard input and
    draws on standard error, so all three streams must be a terminal.
    """
    env = environ if env is None else env
    if streams is None:
        streams = {"input": sys.__stdin__, "output": sys.__stdout__, "error output": sys.__stderr__}
    elsewhere = [name for name, stream in streams.items() if stream is None or not stream.isatty()]
    if elsewhere:
        are = "is not one" if len(elsewhere) == 1 else "are not one"
        return f"The interface needs a terminal, but {' and '.join(elsewhere)} {are}. {_OTHER_WAY}"
    term = env.get("TERM", "")
    if term in _DUMB:
        return f"The interface cannot place text on this terminal (TERM={term}). {_OTHER_WAY}"
    return None


def log_folder() -> Path:
    """Return the folder of the log of crashes."""
    from platformdirs import user_log_dir

    return Path(user_log_dir("coldround", appauthor=False))


def note_crash(error: BaseException, folder: Path) -> Path | None:
    """Append the traceback, without the values of variables, and return the file, None if that failed."""
    when = datetime.now().astimezone().isoformat(timespec="seconds")
    text = "".join(traceback.format_exception(error))
    path = folder / LOG_NAME
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with path.open("a", encoding="utf-8", errors="backslashreplace") as log:
            log.write(f"{when}\n{text}\n")
    except OSError:
        return None
    return path


def crash_sentence(path: Path | None) -> str:
    """Return what the person reads after a crash."""
    head = "Coldround had to stop because of an error of its own; what was saved before is kept."
    if path is None:
        return f"{head} The details could not be written to a file."
    return f"{head} The details are in {path}."


class CrashGuard(App[Result]):
    """An application whose fatal errors end in one sentence and exit code 1.

    The toolkit would print a traceback with the values of local variables, among them customers' data.
    Three of its inner methods are overridden for this, so its version is pinned and a test crashes it.
    """

    _crash: str | None = None

    @property
    def crash(self) -> str | None:
        """The sentence about the crash, if there was one."""
        return self._crash

    def _handle_exception(self, error: Exception) -> None:
        self._return_code = CRASH_CODE
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        cause = getattr(error, "error", None)  # a failed worker wraps what happened in it
        path = note_crash(cause if isinstance(cause, BaseException) else error, self.crash_folder())
        self._crash = self._crash or crash_sentence(path)
        self._fatal_error()

    def _fatal_error(self) -> None:
        self._crash = self._crash or crash_sentence(None)
        self._close_messages_no_wait()

    def _print_error_renderables(self) -> None:
        if self._crash is None:
            super()._print_error_renderables()
            return
        self._exit_renderables.clear()
        print(self._crash, file=sys.__stderr__)

    def crash_folder(self) -> Path:
        """Return where a crash is noted."""
        return log_folder()
