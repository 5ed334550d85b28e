"""The rules of the audit, each with its code, its name on screens, and what it looks at."""

from dataclasses import dataclass

from fleet.errors import UnknownNameError


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: findings carry its code."""

    code: str
    label: str
    about: str


RULES: tuple[Rule, ...] = (
    Rule(
        "low_pressure_window",
        "low-pressure window",
        "a setting of the low-pressure control outside its window",
    ),
    Rule("low_pressure_conflict", "settings contradict", "recorded settings that cannot all be true"),
    Rule("boxes_apart", "boxes apart", "boxes on one suction that want temperatures too far apart"),
    Rule("fans_cycle", "fans cycle", "evaporator fans that stop with a compressor cycled by pressure"),
    Rule("not_recorded", "not recorded", "empty cells without which nothing can be said"),
    Rule("check_overdue", "check overdue", "a preventive check later than its interval and tolerance"),
    Rule("flooded_starts", "flooded starts", "compressors taken out after starting on liquid refrigerant"),
)
RULE_BY_CODE: dict[str, Rule] = {rule.code: rule for rule in RULES}
RULE_CODES: tuple[str, ...] = tuple(RULE_BY_CODE)


def rule(code: str) -> Rule:
    """Return a rule by its code."""
    try:
        return RULE_BY_CODE[code]
    except KeyError:
        raise UnknownNameError("rule", code, RULE_BY_CODE) from None
