"""Monthly means to the day soil crosses a level, with numpy and scipy.

usage: months.py MODE FOLDER THREADS RUNS

MODE is air, for air itself, or soil, with freezing, a lag and an offset. FOLDER
holds months.f32, 12 rows of °C, and offsets.f32, 5 rows of K, a column a cell;
days.f32 is written there: days from 1.0 on 1 January 0:00, 0 for none.
"""
import sys
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import scipy
from scipy.signal import lfilter

from best import best, tell

YEAR, LEVEL = 365, np.float32(115 / 9)  # 55 °F
LAG, FROZEN, RUN_UP = 5.0, np.float32(0.3), 110
BLOCK = 4096  # cells; the days of a block stay in the cache
DAYS = np.arange(YEAR)


def harmonics(t, orders):
    x = 2 * np.pi * np.asarray(t) / YEAR
    return np.stack([np.ones_like(x)] + [f(k * x) for k in orders for f in (np.cos, np.sin)])


def daily_of_months():
    """The matrix from 12 means to 365 days: the polynomial 1, cos kx, sin kx
    for k = 1..5 and sin 6x whose integral over each month is the month's mean."""
    ends = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    k = np.arange(1, 7)
    w = 2 * np.pi * k / YEAR
    sines = np.sin(np.outer(ends, w)) / w
    cosines = -np.cos(np.outer(ends, w)) / w
    months = np.diff(ends)[:, None]
    ones = np.ones((12, 1))
    means = np.hstack([ones, np.diff(sines, axis=0)[:, :5] / months, np.diff(cosines, axis=0) / months])
    angle = np.outer(DAYS, w)
    days = np.hstack([np.ones((YEAR, 1)), np.cos(angle)[:, :5], np.sin(angle)])
    return (days @ np.linalg.inv(means)).astype(np.float32)


TO_DAYS = daily_of_months().T.copy()
SEASONS = harmonics(DAYS, (1, 2)).astype(np.float32)
DECAY = np.exp(-1 / LAG)
RISE = LAG * (1 - DECAY)
# y' = (x - y) / lag, exact for input that is straight from day to day.
LAG_B = np.array([1 - RISE, RISE - DECAY], np.float32)
LAG_A = np.array([1, -DECAY], np.float32)


def to_soil(year, offsets):
    np.multiply(year, FROZEN, out=year, where=year < 0)
    longer = np.concatenate([year[:, -RUN_UP:], year], axis=1)
    return lfilter(LAG_B, LAG_A, longer, axis=1)[:, RUN_UP:] + offsets.T @ SEASONS


def crossing(year):
    """The first day from the coldest on at which the year is at or past LEVEL."""
    rows = np.arange(len(year))
    reached = year >= LEVEL
    up = np.empty_like(reached)  # between a day and the next
    np.greater(reached[:, 1:], reached[:, :-1], out=up[:, :-1])
    np.greater(reached[:, 0], reached[:, -1], out=up[:, -1])
    coldest = year.argmin(1)
    after = up & (DAYS >= coldest[:, None])
    i = after.argmax(1)
    wrapped = ~after[rows, i]
    i[wrapped] = up[wrapped].argmax(1)
    here, next_ = year[rows, i], year[rows, (i + 1) % YEAR]
    with np.errstate(invalid="ignore", divide="ignore"):
        day = (i + (LEVEL - here) / (next_ - here)) % YEAR + 1
    day[~up[rows, i]] = 0  # never, or always
    return day


def main():
    mode, folder, threads, runs = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    months = np.fromfile(folder + "/months.f32", np.float32).reshape(12, -1)
    offsets = np.fromfile(folder + "/offsets.f32", np.float32).reshape(5, -1)
    cells = months.shape[1]
    days = np.empty(cells, np.float32)

    def block(first):
        part = slice(first, first + BLOCK)
        year = months[:, part].T @ TO_DAYS
        if mode == "soil":
            year = to_soil(year, offsets[:, part])
        days[part] = crossing(year)

    with ThreadPoolExecutor(threads) as pool:
        wall, cpu, _ = best(runs, lambda: list(pool.map(block, range(0, cells, BLOCK))))
    days.tofile(folder + "/days.f32")
    tell(wall, cpu, tools=f"numpy {np.__version__}, scipy {scipy.__version__}")


main()
