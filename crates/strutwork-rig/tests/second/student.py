"""Quantiles of Student's t and simple regressions by scipy, for tests/suite/line.rs.

    python3 crates/strutwork-rig/tests/second/student.py > crates/strutwork-rig/tests/second/student.csv
"""

import random

import scipy
from scipy import stats

print(f"# scipy {scipy.__version__}: scipy.stats.t.ppf, scipy.stats.linregress; written by student.py")
print("kind,…")
for freedom in (1, 2, 3, 5, 8, 13, 30, 120):
    for confidence in (0.9, 0.95, 0.999):
        print(f"quantile,{freedom},{confidence},{stats.t.ppf(0.5 + confidence / 2, freedom):.15g}")
source = random.Random(20)
for points in (5, 11):
    xs = [150 + 225 * place for place in range(points)]
    ys = [3.2e-6 * x + source.gauss(0, 2e-5) for x in xs]
    flat = ",".join(f"{value!r}" for pair in zip(xs, ys) for value in pair)
    line = stats.linregress(xs, ys)
    print(f"slope,{flat},{line.slope!r}".replace("np.float64(", "").replace(")", ""))
    print(f"error,{flat},{line.stderr!r}".replace("np.float64(", "").replace(")", ""))
