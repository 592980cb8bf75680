"""Writes ../data/retention.json: forgetting over a player's snippets, computed independently of the program.

    pip install -r requirements.txt && python retention.py

The full model by adaptive quadrature (scipy.integrate.quad) over the player's level and each snippet's half-life; nothing
is put on a grid. The quantiles are roots of the integrals. The half-life table is that of ebisu 2.2.0 (public domain),
whose posteriors were checked by quadrature of the binomial update to 1e-9.
"""

import json
import warnings
from functools import lru_cache
from pathlib import Path

import numpy as np
from scipy.integrate import IntegrationWarning, quad
from scipy.optimize import brentq
from scipy.stats import norm

COMMON, BETWEEN_PLAYERS, BETWEEN_SNIPPETS, GROWTH = np.log(10.0), 0.8, 0.7, 2.0
# Per snippet: days of gap, whether the cold try was kept, the chance that practice left after it. The first has no try.
PLAYERS = {
    "one snippet": [[(None, None, 0.9), (1.0, 1, 0.9), (2.0, 1, 0.95), (4.5, 0, 0.8), (1.0, 1, 0.9)]],
    "nothing heard": [[(None, None, 0.8)]],
    "three snippets": [
        [(None, None, 0.7), (1.0, 0, 0.8), (1.0, 0, 0.8), (2.0, 1, 0.9)],
        [(None, None, 1.0), (3.0, 1, 1.0), (9.0, 1, 1.0), (20.0, 1, 0.95)],
        [(None, None, 0.85)],
    ],
}
LATER = [0.5, 1.0, 3.0, 7.0, 14.0, 42.0]
HALF_LIFE_TABLE = [
    # a, b, days; clean, tries, gap in days; chance before; posterior a, b, days. Hours in ebisu's table, days here.
    (3, 3, 24, 1, 1, 24, 0.5, 3.032106, 3.032106, 30.434448),
    (3, 3, 24, 0, 1, 24, 0.5, 3.932077, 3.932077, 19.225906),
    (4, 4, 48, 1, 1, 12, 0.830831643, 4.011427, 4.011427, 50.359600),
    (4, 4, 48, 0, 1, 12, 0.830831643, 4.969770, 4.969770, 38.279869),
    (2, 2, 24, 3, 4, 72, 0.2, 3.047513, 3.047513, 79.657701),
    (3.5, 3.5, 168, 1, 1, 336, 0.28125, 3.555792, 3.555792, 243.654432),
    (3.5, 3.5, 168, 0, 1, 24, 0.897463630, 4.470999, 4.470999, 128.508820),
]


def history(snippet, log_first):
    """How likely what was heard is where the first half-life is this, and what the half-life is now."""
    likely, half_life, evening = 1.0, np.exp(log_first), None
    for gap, kept, after in snippet:
        if gap is not None:
            clean = evening * 2.0 ** (-gap / half_life)
            likely *= clean if kept else 1.0 - clean
            if kept:
                half_life *= 1.0 + GROWTH * (1.0 - 2.0 ** (-gap / half_life))
        evening = after
    return likely, half_life, evening


def integral(function, centre, spread, upper=np.inf):
    low, high = centre - 9 * spread, min(centre + 9 * spread, upper)
    return quad(function, low, high, epsabs=1e-13, epsrel=1e-11, limit=400)[0] if low < high else 0.0


def row(player, index):
    snippet = player[index]

    @lru_cache(maxsize=None)
    def beside(level):
        others = norm.pdf(level, COMMON, BETWEEN_PLAYERS)
        for other, tries in enumerate(player):
            if other != index:
                likely = lambda x: norm.pdf(x, level, BETWEEN_SNIPPETS) * history(tries, x)[0]
                others *= integral(likely, level, BETWEEN_SNIPPETS)
        return others

    def total(weight, upper=np.inf):
        def at(level):
            inner = lambda x: norm.pdf(x, level, BETWEEN_SNIPPETS) * history(snippet, x)[0] * weight(x)
            return beside(level) * integral(inner, level, BETWEEN_SNIPPETS, upper)
        return integral(at, COMMON, BETWEEN_PLAYERS)

    everything = total(lambda x: 1.0)
    left = lambda x, gap: history(snippet, x)[2] * 2.0 ** (-gap / history(snippet, x)[1])
    mean = [total(lambda x: left(x, gap)) / everything for gap in LATER]
    below = lambda x: total(lambda _: 1.0, upper=x) / everything
    quantiles = [brentq(lambda x: below(x) - share, -3.0, 9.0, xtol=1e-6) for share in (0.1, 0.9)]
    bands = [[left(quantile, gap) for quantile in quantiles] for gap in LATER]
    return {"mean": mean, "low": [b[0] for b in bands], "high": [b[1] for b in bands]}


def main():
    warnings.simplefilter("ignore", IntegrationWarning)
    players = []
    for name, player in PLAYERS.items():
        rows = [row(player, index) for index in range(len(player))]
        players.append({"name": name, "snippets": player, "later": LATER, "expected": rows})
    names = ["a", "b", "days", "clean", "tries", "gap", "before", "to_a", "to_b", "to_days"]
    table = [
        dict(zip(names, [a, b, t / 24, k, n, gap / 24, before, to_a, to_b, to_t / 24]))
        for a, b, t, k, n, gap, before, to_a, to_b, to_t in HALF_LIFE_TABLE
    ]
    source = (
        "Computed by tests/reference/retention.py with scipy 1.17.1 (quad over the player's level and the half-life); "
        "half_lives are the posteriors of ebisu 2.2.0 (pip install ebisu), a chance that is Beta(a, b) after so many days."
    )
    lines = lambda rows: ",\n".join(json.dumps(row, separators=(",", ":")) for row in rows)
    text = f'{{"source":{json.dumps(source)},\n"players":[\n{lines(players)}],\n"half_lives":[\n{lines(table)}]}}\n'
    (Path(__file__).parent / "../data/retention.json").write_text(text)


main()
