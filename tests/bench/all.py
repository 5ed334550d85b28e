"""Every measurement, one after another, as one JSON object: ``python -m tests.bench.all``."""

import json
import subprocess
import sys

PARTS = ("saturation", "startup", "pages", "audit")


def main() -> None:
    """Run each part in a process of its own and print all of them."""
    results = {}
    for part in PARTS:
        ran = subprocess.run(
            [sys.executable, "-m", f"tests.bench.{part}"], capture_output=True, text=True, check=True
        )
        results[part] = json.loads(ran.stdout)
    print(json.dumps(results, indent=1))


if __name__ == "__main__":
    main()
