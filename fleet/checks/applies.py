"""On which systems and boxes a check is done: a closed list of questions put to the columns.

An empty cell never excludes and never includes by itself: what *excludes* equipment from a check
must be recorded to do so (``critically_charged`` is *yes*), and what a check *is about* must be
recorded to be there (a heater that is fitted). So an empty cell costs a check too many where every
system has the part, and raises no alarm over a part that may not exist (judgement).
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from fleet.dictionary.words import Defrost, Form, Heater, Strategy, Word, YesNo
from fleet.targets.columns import Bools, FleetColumns, Words

Scope = Literal["system", "box"]


@dataclass(frozen=True, slots=True)
class Applies:
    """One question: ``test`` answers it with one value per row of its scope."""

    name: str
    scope: Scope
    words: str
    test: Callable[[FleetColumns], Bools]


def _among(column: Words, words: tuple[Word, ...]) -> Bools:
    return np.isin(column, [word.code for word in words])


def _every_system(fleet: FleetColumns) -> Bools:
    return np.ones(len(fleet), dtype=np.bool_)


def _every_box(fleet: FleetColumns) -> Bools:
    return np.ones(len(fleet.boxes.system), dtype=np.bool_)


def _not_critically_charged(fleet: FleetColumns) -> Bools:
    return ~_among(fleet.systems.critically_charged, (YesNo.YES,))


def _not_self_contained(fleet: FleetColumns) -> Bools:
    return ~_among(fleet.systems.form, (Form.SELF_CONTAINED,))


def _pump_down(fleet: FleetColumns) -> Bools:
    return _among(fleet.systems.strategy, (Strategy.RECYCLING, Strategy.ONE_TIME))


def _rack(fleet: FleetColumns) -> Bools:
    return _among(fleet.systems.strategy, (Strategy.RACK,))


def _heater_fitted(fleet: FleetColumns) -> Bools:
    fitted = _among(fleet.compressors.crankcase_heater, (Heater.WORKING, Heater.FAILED, Heater.OFF))
    answer = np.zeros(len(fleet), dtype=np.bool_)
    answer[fleet.compressors.system[fitted]] = True
    return answer


def _heated_defrost(fleet: FleetColumns) -> Bools:
    return _among(fleet.boxes.defrost_method, (Defrost.ELECTRIC, Defrost.HOT_GAS))


_ALL = (
    Applies("every-system", "system", "every system", _every_system),
    Applies("not-critically-charged", "system", "systems not critically charged", _not_critically_charged),
    Applies("not-self-contained", "system", "systems not self-contained", _not_self_contained),
    Applies("heater-fitted", "system", "systems with a crankcase heater", _heater_fitted),
    Applies("pump-down", "system", "systems that pump down", _pump_down),
    Applies("rack", "system", "remote racks", _rack),
    Applies("every-box", "box", "every box", _every_box),
    Applies("heated-defrost", "box", "boxes with electric or hot-gas defrost", _heated_defrost),
)

APPLIES: dict[str, Applies] = {applies.name: applies for applies in _ALL}


def rows_that_apply(fleet: FleetColumns, name: str, scope: Scope) -> Bools:
    """Return which systems, or with the scope ``box`` which boxes, a question answers with yes.

    A question about systems may be put to boxes: each box then answers for its system. The other way
    round has no answer, and `fleet.checks.editing` refuses such a check.
    """
    question = APPLIES[name]
    answer = question.test(fleet)
    if scope == "box" and question.scope == "system":
        return answer[fleet.boxes.system]
    return answer
