"""The demo register: an invented scenario, made to be looked at.

Every customer, site, person, design temperature, setting and failure in it is our own invention. No
real business, building or machine is meant; addresses of mail end in ``.example``, telephone numbers
are ``555 01xx``, serial numbers are counted up, climates were made up to be plausible for their kind
of place. Each customer's ``note`` says so in the register too.

`demo_files` returns the rows as files would hold them, text cells with units as people type them,
dated back from the day it is made. It is messy as life is, and holds faults on purpose: they are
listed in `seeds_demo.faults.PLANTED`; nothing else in it is meant to be urgent.
`seeds_demo.generator.generate_files` makes the same kind of fleet at any size.
"""

from datetime import date


def demo_files(today: date) -> dict[str, list[dict[str, str]]]:
    """Return the rows of the demo by file name, each row only with its filled cells.

    >>> files = demo_files(date(2027, 1, 15))
    >>> files["customers"][0]["name"]
    'Bramley Fold Dairy'
    """
    from seeds_demo.customers import CUSTOMERS
    from seeds_demo.people import PEOPLE
    from seeds_demo.writing import write_files

    return write_files(PEOPLE, CUSTOMERS, today)


__all__ = ["demo_files"]
