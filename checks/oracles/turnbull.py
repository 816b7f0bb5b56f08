"""The likeliest distribution of readings known as values, below, above or between limits: NumPy, without Turnbull's innermost spans.

Every distinct number and every gap between two is a place that may hold mass; the readings' own step is repeated until no place is
pulled by more than 1e-9. Ties are meant: "below" and "above" leave the limit out, "between" holds its lower end only. Shares at the
numbers and gaps are then added up below each limit. Invented readings. Run: python3 turnbull.py > turnbull-places.json
"""
import json

import numpy as np

rng = np.random.default_rng(23)
INF = float("inf")


def study(n, weights):
    spans = []
    for _ in range(n):
        x = float(rng.integers(1, 40))
        kind = rng.choice(4, p=weights)
        limit = float(rng.choice([5, 10, 20]))
        width = float(rng.integers(1, 15))
        spans.append([(x, x), (0.0, limit), (limit, INF), (x, x + width)][kind])
    numbers = sorted({e for s in spans for e in s if e != INF and e > 0})
    edges = [0.0, *numbers, numbers[-1] + 1]
    # a place: (point, is it a number itself)
    places = [(v, True) for v in numbers] + [((a + b) / 2, False) for a, b in zip(edges, edges[1:])]

    def holds(span, place):
        (low, high), (at, itself) = span, place
        if low == high:
            return itself and at == low
        return at > low if high == INF else low <= at < high

    member = np.array([[holds(s, p) for p in places] for s in spans], dtype=float)
    shares = np.full(len(places), 1 / len(places))
    for _ in range(400_000):
        pull = member.T @ (1 / (member @ shares)) / n
        shares = shares * pull
        if pull.max() < 1 + 1e-9 and np.abs(shares * (pull - 1)).sum() < 1e-14:
            break
    assert pull.max() < 1 + 1e-6, pull.max()
    below = [float(sum(s for s, (at, _) in zip(shares, places) if at < v)) for v in numbers]
    return {
        "low": [s[0] for s in spans],
        "high": [None if s[1] == INF else s[1] for s in spans],
        "numbers": numbers,
        "below": below,
        "logLikelihood": float(np.log(member @ shares).sum()),
    }


print(json.dumps({"tool": f"NumPy {np.__version__}", "studies": [
    study(20, [0.5, 0.2, 0.1, 0.2]), study(60, [0.4, 0.3, 0.1, 0.2]), study(35, [0, 0.3, 0.3, 0.4]), study(80, [0.2, 0.5, 0.1, 0.2]), study(12, [0, 0, 0, 1]),
]}))
