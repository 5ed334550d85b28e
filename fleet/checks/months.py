"""Calendar months over whole columns of days."""

import numpy as np
import numpy.typing as npt

from fleet.targets.columns import Floats


def add_months(day: npt.ArrayLike, months: npt.ArrayLike) -> Floats:
    """Return the day so many calendar months on, at the month's end where the day does not exist.

    Parameters
    ----------
    day
        Days since 1970-01-01, whole; NaN where no day is known.
    months
        Whole calendar months, negative to go back; one for all days or one for each.

    Returns
    -------
    Floats
        Days since 1970-01-01, NaN where ``day`` is NaN.

    Notes
    -----
    Proleptic Gregorian calendar, any year. 31 January and one month is 28 or 29 February; a day is
    moved in one step, since moving it month by month would lose the 31st for good. Definition:
    calendar months that clip at the month's end, as `dateutil.relativedelta` counts them.

    Examples
    --------
    >>> int(add_months(19753, 1)), int(add_months(19753, 2))  # 31 January 2024: 29 February, 31 March
    (19782, 19813)
    """
    days = np.asarray(day, dtype=np.float64)
    known = np.isfinite(days)
    dates = np.where(known, days, 0.0).astype(np.int64).astype("datetime64[D]")
    month = dates.astype("datetime64[M]")
    days_into_month = dates - month.astype("datetime64[D]")
    target = month + np.asarray(months, dtype=np.int64).astype("timedelta64[M]")
    first = target.astype("datetime64[D]")
    one_day = np.timedelta64(1, "D")
    last_of_month = (target + np.timedelta64(1, "M")).astype("datetime64[D]") - first - one_day
    moved = (first + np.minimum(days_into_month, last_of_month)).astype(np.int64)
    return np.where(known, moved.astype(np.float64), np.nan)
