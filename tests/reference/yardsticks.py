"""Writes ../data/yardsticks.json: exact sequential tests and binomial intervals, computed independently of the tests.

    pip install -r requirements.txt && python yardsticks.py
"""

import json
from pathlib import Path

import numpy as np
from scipy.stats import binomtest, norm

SOURCE = (
    "Computed by tests/reference/yardsticks.py with numpy 2.4.6 and scipy 1.17.1. sequential: Wald's test of a chance by a "
    "Markov chain over (trials, clean), summed to 1e-15. intervals: scipy.stats.binomtest(...).proportion_ci."
)


def sequential(bad, good, alpha, beta, chance):
    upper, lower = np.log((1 - beta) / alpha), np.log(beta / (1 - alpha))
    alive, trials, decides_good, n = {0: 1.0}, 0.0, 0.0, 0
    while sum(alive.values()) > 1e-15:
        n += 1
        reached = {}
        for clean, weight in alive.items():
            reached[clean] = reached.get(clean, 0.0) + weight * (1 - chance)
            reached[clean + 1] = reached.get(clean + 1, 0.0) + weight * chance
        alive = {}
        for clean, weight in reached.items():
            ratio = clean * np.log(good / bad) + (n - clean) * np.log((1 - good) / (1 - bad))
            if lower < ratio < upper:
                alive[clean] = weight
            else:
                trials += n * weight
                decides_good += weight if ratio >= upper else 0.0
    keys = ["bad", "good", "alpha", "beta", "chance", "trials", "decides_good"]
    return dict(zip(keys, map(float, [bad, good, alpha, beta, chance, trials, decides_good])))


def interval(count, of, level):
    test = binomtest(count, of)
    wilson, exact = (test.proportion_ci(level, method) for method in ("wilson", "exact"))
    z = float(norm.ppf(0.5 + level / 2))
    both = {"wilson": [float(wilson.low), float(wilson.high)], "exact": [float(exact.low), float(exact.high)]}
    return {"count": count, "of": of, "level": level, "z": z, **both}


def main():
    plans = [(0.6, 0.9, 0.1, 0.1, p) for p in (0.5, 0.6, 0.7, 0.8, 0.9, 0.95)]
    plans += [(0.5, 0.9, 0.05, 0.05, p) for p in (0.5, 0.9)] + [(0.01, 0.10, 0.05, 0.10, p) for p in (0.01, 0.10)]
    counts = [(0, 3), (3, 3), (4, 5), (5, 5), (8, 10), (9, 10), (10, 10), (19, 20), (20, 20), (4, 20), (26, 200)]
    document = {
        "source": SOURCE,
        "sequential": [sequential(*plan) for plan in plans],
        "intervals": [interval(*count, level) for count in counts for level in (0.9, 0.95)],
    }
    (Path(__file__).parent.parent / "data" / "yardsticks.json").write_text(json.dumps(document, indent=1) + "\n")


main()
