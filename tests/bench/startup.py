"""Start-up: the help against a bare interpreter, the first screen on many boxes against few.

    python -m tests.bench.startup [--boxes 100000]

Prints one JSON object. The first screen counts from making the application until the list shows rows.
"""

import argparse
import asyncio
import json
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from fleet.desk.auditing import run_audit
from fleet.desk.opened import open_desk
from fleet.tui.app import ColdroundApp
from fleet.tui.windowed_list import WindowedList
from tests.bench.fleet import TODAY, generated_register
from tests.bench.timing import paired

FEW = 100
ROUNDS = 7


def run(*words: str) -> None:
    """Run a clean interpreter."""
    subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)


async def first_screen(register: Path) -> float:
    """Return how long it takes until the first rows are there."""
    desk = open_desk(register, today=TODAY)
    start = time.perf_counter()
    app = ColdroundApp(desk)
    async with app.run_test(size=(80, 24)) as pilot:
        while not app.screen.query(WindowedList) or app.screen.query_one(WindowedList).current is None:
            await pilot.pause(0.001)
        took = time.perf_counter() - start
    desk.close()
    return took


def audited_copy(boxes: int, folder: Path) -> Path:
    """Return a copy of a generated register with its findings written."""
    copy = folder / f"{boxes}.sqlite"
    shutil.copyfile(generated_register(boxes), copy)
    desk = open_desk(copy, today=TODAY)
    run_audit(desk)
    desk.close()
    return copy


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--boxes", type=int, default=100_000)
    asked = parser.parse_args()
    bare, told = paired(lambda: run("-c", "pass"), lambda: run("-m", "fleet", "--help"), 15)
    with tempfile.TemporaryDirectory() as name:
        few, many = audited_copy(FEW, Path(name)), audited_copy(asked.boxes, Path(name))
        asyncio.run(first_screen(few))
        pairs = [(asyncio.run(first_screen(few)), asyncio.run(first_screen(many))) for _ in range(ROUNDS)]
    small, large = (statistics.median(side) for side in zip(*pairs, strict=True))
    print(
        json.dumps(
            {
                "bare_ms": round(1e3 * bare, 1),
                "help_ms": round(1e3 * told, 1),
                "help_ratio": round(told / bare, 2),
                "help_ratio_limit": 7,
                "first_screen_few_ms": round(1e3 * small, 1),
                "first_screen_many_ms": round(1e3 * large, 1),
                "first_screen_ratio": round(large / small, 2),
                "first_screen_ratio_limit": 1.5,
            }
        )
    )


if __name__ == "__main__":
    main()
