# Mean and variance of one Gaussian variable given others, by numpy's solver.
# Reads lines "spread error slope target n t1 d1 ... tn dn", writes the mean in
# kelvins and the explained share of the variance at the target.
import sys
import numpy as np

for line in sys.stdin:
    v = [float(x) for x in line.split()]
    spread, error, slope, target, n = v[:5]
    t, d = np.array(v[5::2]), np.array(v[6::2])
    points = np.append(t, target)
    gap = np.abs(points[:, None] - points[None, :])
    soil = (1.2 * spread * slope) ** 2
    joint = soil * (0.6 * np.exp(-gap / 5) + 0.4 * np.exp(-gap / 50))
    joint += (error * slope) ** 2 * np.exp(-gap / 50)
    prior = joint[-1, -1]
    joint[:-1, :-1] += 0.25 * np.eye(len(t))
    inverse = np.linalg.inv(joint)  # the conditional is read off the precision
    print(repr(float(-inverse[-1, :-1] @ d / inverse[-1, -1])),
          repr(float(1 - 1 / inverse[-1, -1] / prior)))
