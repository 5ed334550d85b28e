"""The cautions that accompany every piece of advice."""

CAUTIONS: tuple[str, ...] = (
    "The data plate, the maker's manual and local code prevail over every number here.",
    "Confirm with calibrated gauges and a thermometer before leaving; change one thing at a time.",
    "A control's scale is approximate: set by gauge, then watch one full pump-down and restart.",
    "Lock out and tag out every supply; capacitors and trapped liquid keep energy.",
    "Refrigerant displaces air: ventilate, and leave on an alarm.",
    "Only certified people handle and recover refrigerant; flammable ones need rated tools and no flame.",
    "Never jumper a safety and walk away; never run a compressor in a deep vacuum.",
    "Do not release product on a program's word.",
)
"""In the order of how often they are needed. Lock-out: 29 CFR 1910.147; handling: US Clean Air Act
section 608, EU F-gas certificate; the rest common practice, no source."""
