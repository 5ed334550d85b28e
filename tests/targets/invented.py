"""Invented systems, drawn at random from a seed; wild on purpose, so that every branch is met."""

from random import Random

from tests.targets.reference import Box, Compressor, System

MEDIUM_KINDS = ("walk-in-cooler", "reach-in-cooler", "display-case-medium", "preparation-room")
LOW_KINDS = ("walk-in-freezer", "reach-in-freezer", "display-case-low")
STRATEGIES = ("recycling-pump-down", "one-time-pump-down", "pressure-cycling", "thermostat-cycling")
REFRIGERANTS = ("R-404A", "R-404A", "R-134a", "R-22", "R-744", "R-290", "R-448A", "R-454C")


def _maybe(random: Random, share: float, low: float, high: float) -> float | None:
    return round(random.uniform(low, high), 1) if random.random() < share else None


def invented_box(random: Random, tag: str, *, low: bool, group: str | None = None) -> Box:
    kind = random.choice(LOW_KINDS if low else MEDIUM_KINDS)
    setpoint = random.uniform(-12, 5) if low else random.uniform(30, 52)
    band = random.random() < 0.2
    return Box(
        tag=tag,
        kind=kind,
        stored=random.choice((None, "general", "produce", "flowers", "beverages", "meat")),
        suction_group=group,
        setpoint=round(setpoint, 1),
        differential=_maybe(random, 0.85, 1, 8),
        td=_maybe(random, 0.7, 6, 22),
        td_low=8.0 if band else None,
        td_high=16.0 if band else None,
        td_basis=random.choice((None, None, "dew", "mean")),
        td_source=random.choice((None, "design", "measured")),
        thermostat_scale=random.choice((None, "stops-at", "stops-at", "starts-at", "centred")),
        defrost_method=random.choice((None, "off-cycle", "timed-off-cycle", "electric", "hot-gas", "none")),
        regulator=random.choice((None, None, "none", "evaporator")),
    )


def invented_compressor(random: Random) -> Compressor:
    kind = random.choice((None, "semi-hermetic", "hermetic-reciprocating", "scroll", "scroll"))
    return Compressor(kind, _maybe(random, 0.2, 8, 35), _maybe(random, 0.8, 0, 40))


def invented(random: Random) -> System:
    low = random.random() < 0.3
    refrigerant = random.choice(REFRIGERANTS)
    cut_in = _maybe(random, 0.92, 2, 60)
    cut_out = None if random.random() < 0.1 else round(random.uniform(-6, 30), 1)
    if refrigerant == "R-744":
        cut_in = None if cut_in is None else cut_in * 5 + 100
        cut_out = None if cut_out is None else cut_out * 5 + 90
    stated = None
    if cut_in is not None and cut_out is not None:
        stated = random.choice((None, None, cut_in - cut_out, cut_in - cut_out + 1.5))
    return System(
        refrigerant=refrigerant,
        strategy=random.choice(STRATEGIES),
        control=random.choice((None, "fitted", "fitted", "fitted", "fitted", "fitted", "lock-out", "none")),
        sensor=random.choice((None, "vented", "vented", "sealed", "absolute")),
        elevation_ft=random.choice((0.0, 0.0, 1000.0, 5000.0, 7500.0)),
        placement=random.choice(
            (None, *("outdoor",) * 6, "indoor-unheated", "indoor-unheated", "indoor-heated")
        ),
        receiver_place=random.choice((None, None, None, "outdoor", "indoor")),
        design_cold=_maybe(random, 0.92, -25, 60),
        extreme_cold=_maybe(random, 0.6, -45, -10),
        room_low=_maybe(random, 0.6, 35, 72),
        receiver_hold=_maybe(random, 0.15, 30, 70),
        coil_above_ft=_maybe(random, 0.15, -10, 15),
        line_loss=_maybe(random, 0.6, 0, 4),
        start_delay=random.choice((None, None, "none", "call", "compressor")),
        cut_in=cut_in,
        cut_out=cut_out,
        lp_differential=stated,
        boxes=tuple(
            invented_box(random, f"B{n}", low=low and n == 1 if random.random() < 0.1 else low)
            for n in range(1, random.choice((2, 2, 2, 3, 4)))
        ),
        compressors=tuple(invented_compressor(random) for _ in range(random.choice((0, 1, 1, 1, 2)))),
    )


def invented_rack(random: Random) -> System:
    """A rack with a medium and, often, a low group, some boxes behind a regulator."""
    groups = ("A", "B") if random.random() < 0.6 else ("A",)
    boxes = []
    for group in groups:
        low = group == "B"
        free = invented_box(random, f"{group}0", low=low, group=group)
        boxes.append(Box(**{**free.__dict__, "regulator": None}))
        boxes.extend(
            invented_box(random, f"{group}{n}", low=low, group=group) for n in range(1, random.randint(1, 4))
        )
    return System(
        refrigerant=random.choice(("R-404A", "R-448A", "R-22", "R-290")),
        strategy="remote-rack",
        sensor=random.choice((None, "sealed", "absolute")),
        elevation_ft=random.choice((0.0, 3000.0, 6000.0)),
        line_loss=_maybe(random, 0.6, 0, 4),
        boxes=tuple(boxes),
        compressors=tuple(invented_compressor(random) for _ in range(random.randint(1, 4))),
        group_suction={group: round(random.uniform(5, 70), 1) for group in groups if random.random() < 0.9},
    )
