"""Every error that Coldround raises on purpose.

::

    ColdroundError
    ├── InputError              what a person typed or a file holds
    │   ├── QuantityError       not a quantity, or of the wrong dimension   kind quantity
    │   ├── UnknownNameError    a name that is not in its list              kind unknown-name
    │   ├── UsageError          options that do not fit together            kind usage
    │   └── ImportRefusedError  files refused as a whole, every cell named  kind import
    ├── OutOfRangeError         outside the validity of a table or formula  kind out-of-range
    └── RegisterError           the register cannot be used as asked
        ├── RegisterMissingError    no such file                            kind register-missing
        ├── NotARegisterError       a file that is something else           kind not-a-register
        ├── RegisterLockedError     another program holds it                kind register-locked
        ├── RegisterNewerError      written by a newer version              kind register-newer
        ├── RegisterReadOnlyError   may not be written                      kind register-read-only
        └── ChangedMeanwhileError   another hand was faster                 kind changed-meanwhile

The command line prints an error as one sentence and ends with exit code 2; with ``--json`` it is
``{"error": {"kind", "message", "where"}}`` on standard error. The kinds above are a closed list.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher, get_close_matches
from itertools import takewhile


class ColdroundError(Exception):
    """The base of the tree: a sentence for a person, a kind for a program, a place to look."""

    kind = "error"

    def __init__(self, message: str, *, where: str | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.where = where

    def as_document(self) -> dict[str, dict[str, str | None]]:
        """Return the error in the shape that ``--json`` prints."""
        return {"error": {"kind": self.kind, "message": self.message, "where": self.where}}


class InputError(ColdroundError):
    """What a person typed or a file holds cannot be accepted."""

    kind = "input"


class QuantityError(InputError):
    """The text is no quantity, has no unit, or has another dimension than is wanted."""

    kind = "quantity"


class UnknownNameError(InputError):
    """A name that is not in its list; the nearest ones are offered."""

    kind = "unknown-name"

    def __init__(self, what: str, name: str, known: Iterable[str], *, where: str | None = None) -> None:
        choices = sorted(known)
        near = nearest_names(name, choices)
        if near:
            hint = f"Nearest: {', '.join(near)}."
        elif not choices:
            hint = "None are known yet."
        elif len(choices) <= 12:
            hint = f"Known: {', '.join(choices)}."
        else:
            hint = f"Known: {', '.join(choices[:8])} and {len(choices) - 8} more."
        super().__init__(f"There is no {what} {name!r}. {hint}", where=where)
        self.near = tuple(near)


class UsageError(InputError):
    """Options that are missing or do not fit together."""

    kind = "usage"


@dataclass(frozen=True, slots=True)
class Problem:
    """One cell that cannot be accepted: where it stands, what it holds, what would be accepted."""

    file: str
    row: int | None
    field: str | None
    value: str | None
    expected: str

    def __str__(self) -> str:
        place = self.file
        if self.row is not None:
            place += f", row {self.row}"
        if self.field is not None:
            place += f", {self.field}"
        held = "" if self.value is None else f" {self.value!r}:"
        return f"{place}:{held} {self.expected}"


class ImportRefusedError(InputError):
    """Files are refused as a whole; nothing was written; every problem is named, the first ones printed."""

    kind = "import"
    PRINTED = 40

    def __init__(self, problems: Sequence[Problem], *, total: int | None = None) -> None:
        self.problems = tuple(problems)
        self.total = len(self.problems) if total is None else total
        head = f"Nothing was imported: {self.total:,} problem{'s' if self.total != 1 else ''}."
        lines = [f"  {problem}" for problem in self.problems[: self.PRINTED]]
        if self.total > len(lines):
            lines.append(f"  and {self.total - len(lines):,} more.")
        where = self.problems[0].file if self.problems else None
        super().__init__("\n".join([head, *lines]), where=where)


class OutOfRangeError(ColdroundError):
    """A value lies outside the validity of a table or a formula."""

    kind = "out-of-range"


class RegisterError(ColdroundError):
    """The register cannot be used as asked."""

    kind = "register"


class RegisterMissingError(RegisterError):
    """There is no register at that place."""

    kind = "register-missing"


class NotARegisterError(RegisterError):
    """The file is something else than a register, or is damaged."""

    kind = "not-a-register"


class RegisterLockedError(RegisterError):
    """Another program holds the register for writing."""

    kind = "register-locked"


class RegisterNewerError(RegisterError):
    """The register was written by a newer version of Coldround."""

    kind = "register-newer"


class RegisterReadOnlyError(RegisterError):
    """The register, or its folder, may not be written."""

    kind = "register-read-only"


class ChangedMeanwhileError(RegisterError):
    """Somebody else changed the same record after it was read; nothing was overwritten."""

    kind = "changed-meanwhile"


def nearest_names(name: str, known: Iterable[str]) -> list[str]:
    """Return up to three known names that look like ``name``, the best first.

    >>> nearest_names("R404", ["R-404A", "R-407A", "R-22"])
    ['R-404A', 'R-407A']
    """
    folded = {candidate.casefold(): candidate for candidate in known}
    wanted = name.casefold()
    close = get_close_matches(wanted, folded, n=12, cutoff=0.6)
    # Of names that are equally alike, the ones that begin alike come first.
    close.sort(key=lambda one: (-SequenceMatcher(None, one, wanted).ratio(), -_same_start(one, wanted)))
    return [folded[candidate] for candidate in close[:3]]


def _same_start(one: str, other: str) -> int:
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))
