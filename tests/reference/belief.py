"""Writes ../data/belief.json: what `method/belief.rs` and `method/hazard.rs` compute, computed otherwise.

    python belief.py        (Python 3.11, the standard library alone)

Posteriors: the likelihood of a verdict is even + by_chance * exp(-(sum of the played hazards)), so that of a sequence is a sum
of exponentials, one for each subset of the verdicts. Under independent gamma priors each of them has a closed form; the sum
over all subsets is exact, in rational arithmetic but for the powers. Nothing is learned and nothing fades here.

Tails of the gamma density: composite Simpson rule over its logarithm, a million intervals.
"""

import json
import math
from itertools import product
from pathlib import Path

# Two onsets in one hand: the first onset, the way, the second onset.
MEANS = [0.06, 0.17, 0.06]
STEPS = {"1": [0], "2": [2], "1-2": [0, 1, 2]}
SHAPE = 1.5
LEVELS = [(0.5, 0.3), (1.0, 0.4), (2.2, 0.3)]
SEQUENCES = [
    [("1", 1), ("1", 1), ("2", 1), ("1-2", 1)],
    [("1-2", 0)],
    [("1", 1), ("1-2", 0), ("1-2", 1)],
    [("1-2", 0), ("1-2", 0), ("1", 1), ("1", 1), ("1-2", 1)],
    [("2", 1), ("2", 0), ("1-2", 0), ("1-2", 1), ("1-2", 1), ("1-2", 1), ("1", 1)],
    [("1-2", 0), ("1-2", 1), ("1-2", 0), ("1-2", 1), ("1-2", 0), ("1-2", 1), ("1-2", 1), ("1-2", 1)],
]
TAILS = [(0.05, 0.001, 0.1), (0.2, 0.02, 0.223), (0.2, 0.02, 0.6), (1.0, 2.0, 0.223), (0.3, 0.001, 0.223), (0.02, 0.004, 0.223)]


def evidence(sequence, level, slip):
    """The exact probability of the whole sequence of verdicts."""
    total = 0.0
    for kept in product([0, 1], repeat=len(sequence)):
        term, rates = 1.0, [SHAPE / (mean * level) for mean in MEANS]
        shifted = list(rates)
        for (step, clean), with_music in zip(sequence, kept):
            even, by_chance = (slip, 1 - 2 * slip) if clean else (1 - slip, 2 * slip - 1)
            term *= by_chance if with_music else even
            if with_music:
                for place in STEPS[step]:
                    shifted[place] += 1.0
        for before, after in zip(rates, shifted):
            term *= (before / after) ** SHAPE
        total += term
    return total


def next_clean(sequence, step, slip):
    """The exact chance that `step` is judged clean after `sequence`."""
    likely = lambda verdicts: sum(share * evidence(verdicts, level, slip) for level, share in LEVELS)
    return likely(sequence + [(step, 1)]) / likely(sequence)


def at_most(mean, variance, limit, intervals=1_000_000):
    shape, rate = mean * mean / variance, mean / variance
    low, high = math.log(limit) - 60.0 / min(shape, 1.0) , math.log(limit)
    density = lambda t: math.exp(shape * (t + math.log(rate)) - rate * math.exp(t) - math.lgamma(shape))
    width = (high - low) / intervals
    inner = sum((4 if i % 2 else 2) * density(low + i * width) for i in range(1, intervals))
    return (density(low) + density(high) + inner) * width / 3


posteriors = [
    {"slip": slip, "heard": sequence, "next": {step: next_clean(sequence, step, slip) for step in STEPS}}
    for slip in (0.0, 0.02)
    for sequence in SEQUENCES
]
tails = [{"mean": m, "variance": v, "limit": x, "at_most": at_most(m, v, x)} for m, v, x in TAILS]
source = "Written by tests/reference/belief.py (Python 3.11, standard library): exact sums over all subsets of the verdicts."
Path(__file__).parent.parent.joinpath("data/belief.json").write_text(
    json.dumps({"source": source, "posteriors": posteriors, "tails": tails}, indent=1) + "\n"
)
