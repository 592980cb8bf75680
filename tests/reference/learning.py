"""Writes ../data/learning.json: the learning curve of Smith et al. 2004 computed independently of the program.

    pip install -r requirements.txt && python learning.py

A forward-backward pass over a dense grid of the logit (pitch 0.02 on +-16), in plain numpy; hmmlearn's CategoricalHMM on
the same grid must give the same posterior means, or nothing is written.
"""

import json
from pathlib import Path

import numpy as np
from hmmlearn.hmm import CategoricalHMM
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq, minimize_scalar
from scipy.special import expit, logit
from scipy.stats import norm

X = np.arange(-800, 801) * 0.02
# The example sequence printed in A. C. Smith's public MATLAB scripts; the two others are invented.
S1 = [0, 0, 0, 0, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1, 0, 1, 0, 1, 1, 0, 1] + [1] * 20
S2 = [0, 0, 1, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1]
S3 = [1, 1, 1, 1, 1, 1, 0, 0, 0, 1, 0, 1, 1, 1, 1]
CASES = [
    ("S1", S1, logit(0.25), 0.0, 0.4, 0.1, 0.25),
    ("S2", S2, 0.0, 0.0, 1.0, 0.1, 0.5),
    ("S3", S3, 0.0, 0.0, 1.0, 0.25, 0.5),
]
SOURCE = (
    "Computed for the model of Smith et al. 2004 (J Neurosci 24(2):447-461) by tests/reference/learning.py: a dense-grid "
    "forward-backward pass (pitch 0.02 on +-16 logits), checked against hmmlearn 0.3.3 CategoricalHMM on the same grid. S1 "
    "is the example sequence printed in A. C. Smith's public MATLAB scripts; S2 and S3 are invented."
)
MODEL = (
    "x_1 ~ N(m1, v1); x_k = x_{k-1} + N(0, q); p_k = logistic(mu + x_k); n_k ~ Bernoulli(p_k). learning_trial counts from "
    "1, at certainty 0.95. walk: the log-likelihood of S1 for other variances q of the walk, everything else as in case "
    "S1, and the variance for which it is highest."
)


def model(mu, m1, v1, q):
    """Start, transition and chance of a clean trial at every grid point."""
    start = norm.pdf(X, m1, np.sqrt(v1))
    walk = norm.pdf(X[None, :], X[:, None], np.sqrt(q))
    return start / start.sum(), walk / walk.sum(axis=1, keepdims=True), expit(mu + X)


def forward(start, walk, clean, trials):
    filtered, log_likelihood, expected = [], 0.0, start
    for trial in trials:
        joint = expected * (clean if trial else 1.0 - clean)
        log_likelihood += np.log(joint.sum())
        filtered.append(joint / joint.sum())
        expected = filtered[-1] @ walk
    return filtered, log_likelihood


def backward(filtered, walk, clean, trials):
    later, smoothed = np.ones_like(X), []
    for belief, trial in zip(reversed(filtered), reversed(trials)):
        joint = belief * later
        smoothed.append(joint / joint.sum())
        later = walk @ (later * (clean if trial else 1.0 - clean))
        later /= later.max()
    return smoothed[::-1]


def distribution(belief):
    """The distribution function, as the integral of a cubic spline through the density."""
    return CubicSpline(X, belief / 0.02).antiderivative()


def above(belief, mu, chance):
    return float(1.0 - distribution(belief)(logit(chance) - mu))


def row(belief, mu, chance):
    below = distribution(belief)
    quantiles = [brentq(lambda x: below(x) - share, X[0], X[-1], xtol=1e-13) for share in (0.05, 0.5, 0.95)]
    return [float(belief @ expit(mu + X)), *(float(expit(mu + x)) for x in quantiles), above(belief, mu, chance)]


def check_with_hmmlearn(start, walk, clean, trials, smoothed):
    other = CategoricalHMM(n_components=len(X), init_params="", params="")
    other.startprob_, other.transmat_ = start, walk
    other.emissionprob_ = np.column_stack([1.0 - clean, clean])
    posterior = other.predict_proba(np.array(trials).reshape(-1, 1))
    worst = np.abs(posterior @ clean - np.array(smoothed) @ clean).max()
    assert worst < 1e-10, worst


def case(name, trials, mu, m1, v1, q, chance):
    start, walk, clean = model(mu, m1, v1, q)
    filtered, log_likelihood = forward(start, walk, clean, trials)
    smoothed = backward(filtered, walk, clean, trials)
    check_with_hmmlearn(start, walk, clean, trials, smoothed)
    unsure = [k for k, belief in enumerate(smoothed) if above(belief, mu, chance) <= 0.95]
    first = unsure[-1] + 2 if unsure else 1
    return {
        "name": name,
        "verdicts": trials,
        "mu": float(mu),
        "m1": m1,
        "v1": v1,
        "q": q,
        "chance": chance,
        "log_likelihood": float(log_likelihood),
        "learning_trial": first if first <= len(trials) else None,
        "columns": ["mean", "p05", "p50", "p95", "above_chance"],
        "filtered": [row(belief, mu, chance) for belief in filtered],
        "smoothed": [row(belief, mu, chance) for belief in smoothed],
    }


def walk_of_s1():
    """How likely S1 is for other variances of the walk."""

    def likely(q):
        return float(forward(*model(logit(0.25), 0.0, 0.4, q), S1)[1])

    best = minimize_scalar(lambda log_q: -likely(np.exp(log_q)), bounds=(np.log(0.05), np.log(4.0)), method="bounded")
    tried = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3]
    return {"tried": [[q, likely(q)] for q in tried], "most_likely": float(np.exp(best.x)), "log_likelihood": float(-best.fun)}


def main():
    document = {"source": SOURCE, "model": MODEL, "cases": [case(*each) for each in CASES], "walk": walk_of_s1()}
    target = Path(__file__).parent.parent / "data" / "learning.json"
    target.write_text(json.dumps(document, indent=1) + "\n")


main()
