"""Independent values for the statistics of the catalogue, none by the methods of the product.

Limits of proportions and counts: roots of exact tail sums at 40 digits (mpmath), no beta or gamma quantile.
Detection: hypergeometric mixture in exact fractions. Two by two: noncentral hypergeometric at 40 digits.
Run: python3 statistics.py > statistics.json
"""
import json
from fractions import Fraction
from math import comb

import mpmath
from mpmath import mp, mpf

mp.dps = 40


def halve(f, low, high):
    """Root of f, which rises through 0 between low and high."""
    low, high = mpf(low), mpf(high)
    for _ in range(170):
        middle = (low + high) / 2
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def binomial_tail(x, n, p):
    return mpmath.fsum(comb(n, k) * p**k * (1 - p) ** (n - k) for k in range(x, n + 1))


def exact(x, n, level):
    each = (1 - mpf(level)) / 2
    lower = mpf(0) if x == 0 else halve(lambda p: binomial_tail(x, n, p) - each, 0, 1)
    upper = mpf(1) if x == n else halve(lambda p: binomial_tail(x + 1, n, p) - (1 - each), 0, 1)
    return lower, upper


def wilson(x, n, level):
    """Where the score statistic equals the normal quantile."""
    z = mpmath.sqrt(2) * mpmath.erfinv(mpf(level))
    p = mpf(x) / n
    score = lambda q: (p - q) ** 2 * n - z * z * q * (1 - q)
    lower = mpf(0) if x == 0 else halve(lambda q: -score(q), 0, p)
    upper = mpf(1) if x == n else halve(score, p, 1)
    return lower, upper


def jeffreys(x, n, level):
    each = (1 - mpf(level)) / 2
    cdf = lambda q: mpmath.betainc(x + mpf("0.5"), n - x + mpf("0.5"), 0, q, regularized=True)
    lower = mpf(0) if x == 0 else halve(lambda q: cdf(q) - each, 0, 1)
    upper = mpf(1) if x == n else halve(lambda q: cdf(q) - (1 - each), 0, 1)
    return lower, upper


def poisson(count, level):
    each = (1 - mpf(level)) / 2
    at_most = lambda c, m: mpmath.exp(-m) * mpmath.fsum(m**k / mpmath.factorial(k) for k in range(c + 1))
    far = count + 20 * mpmath.sqrt(count + 1) + 50
    lower = mpf(0) if count == 0 else halve(lambda m: 1 - at_most(count - 1, m) - each, 0, far)
    return lower, halve(lambda m: each - at_most(count, m), 0, far)


def detection(outlets, colonised, sampled, sensitivity):
    s = Fraction(sensitivity)
    total = comb(outlets, sampled)
    missed = sum(
        Fraction(comb(colonised, k) * comb(outlets - colonised, sampled - k), total) * (1 - s) ** k
        for k in range(min(colonised, sampled) + 1)
    )
    return 1 - missed


def smallest_sample(outlets, colonised, sensitivity, confidence):
    for n in range(1, outlets + 1):
        if detection(outlets, colonised, n, sensitivity) >= Fraction(confidence):
            return n
    return None


def largest_hidden(outlets, sampled, sensitivity, level):
    return max(d for d in range(outlets + 1) if detection(outlets, d, sampled, sensitivity) <= Fraction(level))


def two_by_two(a, b, c, d):
    exposed, unexposed, cases = a + b, c + d, a + c
    support = range(max(0, cases - unexposed), min(cases, exposed) + 1)
    weight = {k: comb(exposed, k) * comb(unexposed, cases - k) for k in support}

    def chance(log_odds, share):
        w = {k: weight[k] * mpmath.exp(log_odds * k) for k in support}
        total = mpmath.fsum(w.values())
        own = share * w[a] / total
        above = own + mpmath.fsum(w[k] for k in support if k > a) / total
        below = own + mpmath.fsum(w[k] for k in support if k < a) / total
        mean = mpmath.fsum(k * w[k] for k in support) / total
        return above, below, mean

    each = mpf("0.025")
    out = {}
    for name, share in (("exact", mpf(1)), ("midP", mpf("0.5"))):
        lower = None if a == min(support) else mpmath.exp(halve(lambda t: chance(t, share)[0] - each, -60, 60))
        upper = None if a == max(support) else mpmath.exp(halve(lambda t: each - chance(t, share)[1], -60, 60))
        out[name] = [None if v is None else float(v) for v in (lower, upper)]
    inner = min(support) < a < max(support)
    out["conditional"] = float(mpmath.exp(halve(lambda t: chance(t, 1)[2] - a, -60, 60))) if inner else None
    total = sum(weight.values())
    out["fisherTwoSided"] = float(Fraction(sum(w for w in weight.values() if w <= weight[a]), total))
    above, below, _ = chance(mpf(0), mpf("0.5"))
    out["midP"] = {"interval": out["midP"], "p": float(min(mpf(1), 2 * min(above, below)))}
    return out


def pair(limits):
    return [float(v) for v in limits]


counts = [(0, 1), (1, 1), (1, 7), (3, 10), (0, 37), (37, 37), (12, 90), (1, 1000), (500, 1000), (2, 3)]
out = {
    "tool": f"Python fractions and mpmath {mpmath.__version__}, 40 digits",
    "proportions": [
        {"positive": x, "total": n, "level": level, "wilson": pair(wilson(x, n, level)), "exact": pair(exact(x, n, level)),
         "jeffreys": pair(jeffreys(x, n, level))}
        for x, n in counts for level in (0.8, 0.95, 0.999)
    ],
    "counts": [{"count": c, "level": level, "limits": pair(poisson(c, level))} for c in (0, 1, 2, 7, 23, 150, 800) for level in (0.9, 0.95, 0.99)],
    "detection": [
        {"outlets": n, "colonised": d, "sampled": m, "sensitivity": float(Fraction(s)), "probability": float(detection(n, d, m, s))}
        for n, d, m, s in [(90, 9, 20, "0.75"), (90, 1, 89, "1"), (90, 90, 1, "0.5"), (2000, 17, 350, "0.625"), (5, 3, 3, "1"), (7, 0, 7, "1"), (400, 2, 3, "0.0009765625"), (1, 1, 1, "0.25")]
    ],
    "samples": [
        {"outlets": n, "prevalence": p, "colonised": d, "sensitivity": float(Fraction(s)), "confidence": float(Fraction(c)), "sample": smallest_sample(n, d, s, c)}
        for n, p, d, s, c in [(90, 0.1, 9, "3/4", "19/20"), (90, 0.1, 9, "1", "9/10"), (333, 0.03, 10, "4/5", "99/100"), (12, 0.25, 3, "1", "19/20"), (1200, 0.01, 12, "1/2", "9/10")]
    ],
    "hidden": [
        {"outlets": n, "sampled": m, "sensitivity": float(Fraction(s)), "level": float(Fraction(l)), "upperNumber": largest_hidden(n, m, s, l)}
        for n, m, s, l in [(90, 20, "1", "19/20"), (90, 20, "1/2", "19/20"), (12, 12, "1", "19/20"), (250, 60, "3/4", "99/100"), (40, 0, "1", "19/20")]
    ],
    "tables": [{"cells": cells, **two_by_two(*cells)} for cells in [(10, 0, 3, 18), (3, 1, 1, 3), (2, 10, 15, 3), (43, 11, 3, 18), (0, 5, 5, 5), (120, 380, 60, 440), (1, 200, 1, 300), (30, 2, 1, 40)]],
}
print(json.dumps(out, indent=1))
