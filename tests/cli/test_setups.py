"""The set-ups through the command: verdicts as a lead technician would give them (J)."""

import pytest

from tests.cli.setups import arguments, setups, verdict_of, windows

pytestmark = pytest.mark.regression


@pytest.mark.parametrize("setup", setups(), ids=lambda setup: setup["id"])
def test_setup_is_judged_as_the_lead_technician_would(setup: dict[str, str]) -> None:
    found = windows(arguments(setup))
    assert verdict_of(found) == setup["expected"], [
        (w["setting"], w["low"], w["high"], w["recorded"], w["verdict"]) for w in found
    ]
