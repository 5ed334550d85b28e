"""Every low-pressure fault of the list is one by a second computation, and there is no other."""

from collections.abc import Iterator
from itertools import chain

import pytest

from fleet.dictionary import FILE_BY_NAME, SETTING_BY_CODE
from fleet.units import FAHRENHEIT_K, FOOT_M, ZERO_FAHRENHEIT_K, Dimension, Quantity
from seeds_demo.faults import PLANTED
from tests.seeds_demo import by_hand
from tests.seeds_demo.by_hand import PSI_PA, BoxByHand, SystemByHand

Row = dict[str, str]
Files = dict[str, list[Row]]
Found = tuple[str, str, str, str, str, str, str]


def _number(file: str, row: Row, column: str) -> float | None:
    """Return a cell in °F, °F of difference, ft, or psi."""
    found = FILE_BY_NAME[file].column(column)
    if column not in row or found is None:
        return None
    return _plain(found.kind.read(row[column]))


def _plain(quantity: object) -> float:
    assert isinstance(quantity, Quantity)
    value = quantity.value_si
    if quantity.dimension is Dimension.TEMPERATURE:
        return (value - ZERO_FAHRENHEIT_K) / FAHRENHEIT_K
    if quantity.dimension is Dimension.TEMPERATURE_DIFFERENCE:
        return value / FAHRENHEIT_K
    return value / FOOT_M if quantity.dimension is Dimension.LENGTH else value / PSI_PA


class Reader:
    """The demo's rows by system, with the settings as they were last recorded."""

    def __init__(self, files: Files) -> None:
        self.files = files
        self.sites = {(row["customer"], row["site"]): row for row in files["sites"]}
        self.settings: dict[tuple[str, ...], str] = {}
        for row in chain(files["systems"], files["boxes"]):
            for name in set(row) & set(SETTING_BY_CODE):
                self.settings[*_key(row), row.get("box", ""), name] = row[name]
        for row in sorted(files["settings"], key=lambda row: (row["recorded_on"], row["stage"] == "as-left")):
            self.settings[*_key(row), row.get("part", ""), row["setting"]] = row["value"]

    def setting(self, row: Row, part: str, name: str, air: float = 0.0) -> float | None:
        text = self.settings.get((*_key(row), part, name))
        if text is None:
            return None
        quantity = SETTING_BY_CODE[name].kind.read(text)
        absolute = isinstance(quantity, Quantity) and quantity.dimension is Dimension.PRESSURE_ABSOLUTE
        return _plain(quantity) - (air if absolute else 0.0)

    def system(self, row: Row, group: str | None = None) -> SystemByHand:
        site = self.sites[row["customer"], row["site"]]
        compressors = [c for c in self.of(row, "compressors") if "out_of_service" not in c]
        lowest = [_number("compressors", c, "lowest_suction") for c in compressors]
        return SystemByHand(
            refrigerant=row["refrigerant"],
            strategy=row["strategy"],
            boxes=tuple(
                self.box(box)
                for box in self.of(row, "boxes")
                if group is None or box.get("suction_group") == group
            ),
            elevation_ft=_number("sites", site, "elevation") or 0.0,
            sealed=row.get("low_pressure_sensor") == "sealed",
            soak_f=_soak(row, site, "design_cold"),
            soak_extreme_f=_soak(row, site, "extreme_cold"),
            scroll=compressors[0]["kind"] == "scroll",
            lowest_suction_psia=max((one for one in lowest if one is not None), default=None),
            call_delay=row.get("start_delay") == "call",
            coil_above_receiver_ft=_number("systems", row, "coil_above_receiver") or 0.0,
            line_loss_f=2.0 if "line_loss" not in row else _number("systems", row, "line_loss") or 0.0,
        )

    def box(self, row: Row) -> BoxByHand:
        stop, td = self.setting(row, row["box"], "setpoint"), _number("boxes", row, "td")
        assert stop is not None
        assert td is not None
        return BoxByHand(
            kind=row["kind"],
            stored=row["stored"],
            stop_f=stop,
            call_f=stop + (self.setting(row, row["box"], "differential") or 4.0),
            td_f=td,
            regulated=row["regulator"] != "none",
            off_cycle=row["defrost_method"] == "off-cycle",
        )

    def of(self, row: Row, file: str) -> list[Row]:
        return [other for other in self.files[file] if _key(other) == _key(row)]


def _soak(row: Row, site: Row, column: str) -> float:
    held = _number("systems", row, "receiver_hold")
    if held is not None and row.get("receiver_heater") != "failed":
        return held
    soaks = [_number("systems", row, "room_low")]
    if "outdoor" in (row["placement"], row["receiver_place"]):
        soaks.append(_number("sites", site, column))
    return min(soak for soak in soaks if soak is not None)


def _key(row: Row) -> tuple[str, str, str]:
    return row["customer"], row["site"], row["system"]


def _pair(reader: Reader, row: Row) -> Iterator[tuple[str, str, by_hand.Verdict | None]]:
    system = reader.system(row)
    cut_in = reader.setting(row, "", "low_pressure_cut_in", system.sensed_air)
    cut_out = reader.setting(row, "", "low_pressure_cut_out", system.sensed_air)
    if cut_in is not None and cut_out is not None:
        yield "", "low_pressure_cut_in", by_hand.judge_cut_in(system, cut_in)
        yield "", "low_pressure_cut_out", by_hand.judge_cut_out(system, cut_out)
        yield "", "low_pressure_differential", by_hand.judge_differential(system, cut_in, cut_out)


def _rack(reader: Reader, row: Row) -> Iterator[tuple[str, str, by_hand.Verdict | None]]:
    whole = reader.system(row)
    for group in sorted({box["suction_group"] for box in reader.of(row, "boxes")}):
        suction = reader.setting(row, f"group {group}", "group_suction")
        assert suction is not None
        yield f"group {group}", "group_suction", by_hand.judge_group(reader.system(row, group), suction)
    for position in sorted({compressor["position"] for compressor in reader.of(row, "compressors")}):
        cut_out = reader.setting(row, f"compressor {position}", "low_pressure_cut_out")
        assert cut_out is not None
        yield f"compressor {position}", "low_pressure_cut_out", by_hand.judge_cut_out(whole, cut_out)


def _all_found(files: Files) -> set[Found]:
    reader, found = Reader(files), set()
    for row in files["systems"]:
        judged = {"remote-rack": _rack}.get(row.get("strategy", ""), _pair)
        if row["low_pressure_control"] == "none" or not {"strategy", "placement"} <= set(row):
            continue
        for part, setting, verdict in judged(reader, row):
            if verdict is not None:
                found.add((*_key(row), part, setting, *verdict))
    return found


@pytest.mark.independent
def test_low_pressure_faults_are_those_planted(demo: Files) -> None:
    planted = {
        (f.customer, f.site, f.system, f.part, f.setting, f.severity.value_name, f.verdict.value)
        for f in PLANTED
        if f.rule == "low_pressure_window"
    }
    assert _all_found(demo) == planted
