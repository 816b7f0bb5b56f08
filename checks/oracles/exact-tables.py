"""Matched sets and large 2 x 2 tables at 40 digits, none by the methods of the product.

Matched sets: the generating polynomial of the number of exposed cases in exact integers, roots by halving.
Large tables: noncentral hypergeometric weights from log-gammas over a wide window.
Run: python3 exact-tables.py > exact-tables.json
"""
import json

import mpmath
from mpmath import mp, mpf

mp.dps = 40


def halve(f, low, high):
    low, high = mpf(low), mpf(high)
    for _ in range(160):
        middle = (low + high) / 2
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def matched(sets):
    """sets: (case exposed, controls, controls exposed)"""
    poly, seen = [1], 0
    for exposed_case, controls, exposed_controls in sets:
        m = exposed_controls + exposed_case
        u = controls + 1 - m
        if m == 0 or u == 0:
            continue
        seen += exposed_case
        new = [0] * (len(poly) + 1)
        for i, c in enumerate(poly):
            new[i] += c * u
            new[i + 1] += c * m
        poly = new
    n = len(poly) - 1

    def chances(log):
        w = [mpf(c) * mpmath.exp(log * i) for i, c in enumerate(poly)]
        total = mpmath.fsum(w)
        return [x / total for x in w]

    def above(log, share):
        p = chances(log)
        return mpmath.fsum(p[seen + 1 :]) + share * p[seen]

    def below(log, share):
        p = chances(log)
        return mpmath.fsum(p[:seen]) + share * p[seen]

    each, half = mpf("0.025"), mpf("0.5")
    limits = lambda share: [
        0.0 if seen == 0 else float(mpmath.exp(halve(lambda t: above(t, share) - each, -60, 60))),
        None if seen == n else float(mpmath.exp(halve(lambda t: each - below(t, share), -60, 60))),
    ]
    if 0 < seen < n:
        estimate = halve(lambda t: mpmath.fsum(i * p for i, p in enumerate(chances(t))) - seen, -60, 60)
    elif seen == n:
        estimate = halve(lambda t: above(t, 1) - half, -60, 60)
    else:
        estimate = halve(lambda t: half - below(t, 1), -60, 60)
    zero = mpf(0)
    return {
        "sets": [{"caseExposed": bool(a), "controls": b, "controlsExposed": c} for a, b, c in sets],
        "oddsRatio": float(mpmath.exp(estimate)),
        "exact": limits(mpf(1)),
        "midP": limits(half),
        "p": float(min(mpf(1), 2 * min(above(zero, 1), below(zero, 1)))),
    }


def large(a, b, c, d, window):
    n1, n2, m = a + b, c + d, a + c
    lo, hi = max(0, m - n2, a - window), min(m, n1, a + window)
    ks = range(lo, hi + 1)
    lg = mpmath.loggamma
    first = -(lg(lo + 1) + lg(n1 - lo + 1) + lg(m - lo + 1) + lg(n2 - m + lo + 1))
    ratios = [mpf((n1 - k) * (m - k)) / ((k + 1) * (n2 - m + k + 1)) for k in ks[:-1]]

    def tails(log, share):
        odds = mpmath.exp(log)
        w, value = [mpf(1)], mpf(1)
        for r in ratios:
            value *= r * odds
            w.append(value)
        total = mpmath.fsum(w)
        own = share * w[a - lo] / total
        return mpmath.fsum(w[a - lo + 1 :]) / total + own, mpmath.fsum(w[: a - lo]) / total + own

    near = mpmath.log(mpf(a + 1) * (d + 1) / (mpf(b + 1) * (c + 1)))
    step = 8 * mpmath.sqrt(mpf(1) / (a + 1) + mpf(1) / (b + 1) + mpf(1) / (c + 1) + mpf(1) / (d + 1))
    each = mpf("0.025")

    def few(f):
        """Secant inside a bracket: each evaluation is dear."""
        return mpmath.findroot(f, (near - step / 8, near + step / 8), solver="secant", tol=mpf(10) ** -30)

    return {
        "cells": [a, b, c, d],
        "exact": [float(mpmath.exp(few(lambda t: tails(t, 1)[0] - each))), float(mpmath.exp(few(lambda t: tails(t, 1)[1] - each)))],
        "midP": [
            float(mpmath.exp(few(lambda t: tails(t, mpf("0.5"))[0] - each))),
            float(mpmath.exp(few(lambda t: tails(t, mpf("0.5"))[1] - each))),
        ],
    }


studies = [
    [(1, 2, 0)] * 5,
    [(0, 1, 1)] * 4 + [(1, 1, 1)],
    [(1, 2, 0)] * 9 + [(1, 2, 1)] * 6 + [(0, 2, 1)] * 4 + [(0, 2, 2)] * 2 + [(0, 2, 0)] * 8,
    [(1, 1, 0)] * 12 + [(0, 1, 1)] * 3 + [(1, 1, 1)] * 7,
    [(1, 4, k) for k in (0, 0, 1, 2, 3)] + [(0, 4, k) for k in (1, 1, 2, 4)],
    [(i % 2, 1 + i % 4, i % 2) for i in range(60)],
]
out = {
    "tool": f"Python integers and mpmath {mpmath.__version__}, 40 digits",
    "matched": [matched(s) for s in studies],
    "large": [large(1000, 99000, 800, 99200, 900), large(20000, 80000, 19500, 80500, 2500), large(30, 999970, 12, 999988, 60)],
}
print(json.dumps(out, indent=1))
