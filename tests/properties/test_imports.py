"""What importing and looking up costs: no CoolProp, no SciPy, no toolkit."""

import subprocess
import sys

HEAVY = ("CoolProp", "scipy", "teqp", "sqlalchemy", "alembic", "textual", "rich", "click")

SCRIPT = f"""
import sys
import numpy as np
import fleet.properties as properties
properties.state_at_temperature("R-448A", 260.0)
properties.state_at_pressure("R-744", 2e6)
properties.glide_k(np.array([0, 5, -1]), np.array([250.0, 260.0, 270.0]))
properties.bridged_nodes()
print(sorted({{name.split(".")[0] for name in sys.modules}} & set({HEAVY!r})))
"""


def test_look_ups_import_nothing_heavy() -> None:
    """A clean interpreter, after every kind of look-up."""
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert done.stdout.strip() == "[]"
