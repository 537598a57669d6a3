"""A second way to the crossing day, for comparison: numpy, no shared code.

Reads lines of 12 monthly mean air temperatures (°C) and prints, for each, the
day soil rises through 55 °F and the day it falls through 70 °F, counted from
1.0 = 1 January 0:00, or "never" or "always".

The annual curve comes from a least-squares fit to averages over 24 points a
day instead of integrals in closed form; the lag acts in the frequency domain;
the crossing is looked for on the same hourly points.
"""
import sys
import numpy as np

PER_DAY = 24
MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
N = 365 * PER_DAY
t = (np.arange(N) + 0.5) / PER_DAY  # days from 1 January 0:00
x = 2 * np.pi * t / 365
terms = [np.ones(N)]
for k in range(1, 6):
    terms += [np.cos(k * x), np.sin(k * x)]
terms.append(np.sin(6 * x))
terms = np.array(terms)
month = np.repeat(np.arange(12), np.array(MONTHS) * PER_DAY)
averages = np.array([terms[:, month == m].mean(axis=1) for m in range(12)])
lag = 1 / (1 + 2j * np.pi * np.fft.rfftfreq(N, d=1 / PER_DAY) * 5.0)


def crossing(soil, level, sign):
    y = sign * soil
    level = sign * level
    start = int(np.argmin(y))
    y = np.roll(y, -start)
    if y[0] >= level:
        return "always" if sign > 0 else "never"
    if y.max() < level:
        return "never" if sign > 0 else "always"
    i = int(np.argmax(y >= level))
    frac = (level - y[i - 1]) / (y[i] - y[i - 1])
    at = (start + i - 1 + frac + 0.5) / PER_DAY
    return "%.5f" % (at % 365 + 1)


for line in sys.stdin:
    means = np.array([float(v) for v in line.split()])
    air = np.linalg.lstsq(averages, means, rcond=None)[0] @ terms
    air = np.where(air < 0, 0.3 * air, air)
    soil = np.fft.irfft(np.fft.rfft(air) * lag, n=N) + 1.6
    print(crossing(soil, (55 - 32) / 1.8, 1), crossing(soil, (70 - 32) / 1.8, -1))
