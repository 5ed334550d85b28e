"""What can be done where a window is empty: the usual ways out, by which window and what binds it."""

from fleet.dictionary.words import Strategy
from fleet.targets.bounds import Bind
from fleet.targets.columns import FleetColumns
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure

ONE_TIME = "one-time pump-down (needs a working crankcase heater)"
CALL_DELAY = "a start delay that the call starts, which does not wait for the pressure"
WARM_RECEIVER = "a receiver kept warm: heater, insulation, check valve"
INDOORS = "the condensing unit moved indoors"
THERMOSTAT = "a thermostat with pump-down"
LOCK_OUT = "a control that locks out after a count of trips"
BY_TEMPERATURE = "protection by temperature"
RECORD_LOWEST = "the maker's lowest suction, looked up and recorded"
HIGHER_SUCTION = "a higher suction: a smaller TD, or less line loss"


def ways_out(fleet: FleetColumns, found: LowPressure, judged: Judged, row: int) -> tuple[str, ...]:
    """Return the usual ways out of an empty window; common practice, no source."""
    system = int(judged.owner[row])
    strategy = fleet.systems.strategy[system]
    if judged is not found.cut_in:
        return _of_cut_out(judged, row, strategy)
    if strategy == Strategy.PRESSURE.code:
        return (THERMOSTAT, WARM_RECEIVER, INDOORS)
    if strategy == Strategy.THERMOSTAT.code:
        return (LOCK_OUT, BY_TEMPERATURE)
    by_cold = judged.high_code[row] in {Bind.RESTART_COLD, Bind.RESTART_HELD}
    restart = (CALL_DELAY, WARM_RECEIVER, INDOORS) if by_cold else (CALL_DELAY,)
    return restart if strategy == Strategy.ONE_TIME.code else (ONE_TIME, *restart)


def _of_cut_out(judged: Judged, row: int, strategy: int) -> tuple[str, ...]:
    habit = judged.low_code[row] == Bind.SCROLL_LOWEST
    first = (RECORD_LOWEST,) if habit else ()
    if strategy in {Strategy.THERMOSTAT.code, Strategy.RACK.code}:
        return (*first, LOCK_OUT, BY_TEMPERATURE, HIGHER_SUCTION)
    return (*first, HIGHER_SUCTION)
