"""Odd cases of the statistics, at 50 digits (mpmath) and in whole numbers, none by the methods of the product.

Run: python3 odd-cases.py > odd-cases.json
"""
import json
from math import comb

import mpmath
from mpmath import mp, mpf

mp.dps = 50
rng_state = 20261


def rnd(n):
    """A small generator of its own, so that the cases don't hang on a library's version."""
    global rng_state
    rng_state = (rng_state * 6364136223846793005 + 1442695040888963407) % 2**64
    return (rng_state >> 33) % n


def halve(f, low, high, times=220):
    """Root of f, rising, between low and high."""
    low, high = mpf(low), mpf(high)
    for _ in range(times):
        middle = (low + high) / 2
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def quantile(level):
    return mpmath.sqrt(2) * mpmath.erfinv(mpf(level))


# ---- most probable number: rows of (volume, inoculated, positive)
def ll(wells, lam):
    return mpmath.fsum(
        (p * mpmath.log(-mpmath.expm1(-v * lam)) if p else 0) - (n - p) * v * lam for v, n, p in wells
    )


def mpn(wells, level):
    wells = [(mpf(v), n, p) for v, n, p in wells]
    slope = lambda t: -mpmath.diff(lambda lam: ll(wells, lam), mpmath.exp(t))
    slope = lambda t: mpmath.fsum((n - p) * v for v, n, p in wells) - mpmath.fsum(
        p * v / mpmath.expm1(v * mpmath.exp(t)) for v, n, p in wells if p
    )
    t = halve(slope, -80, 80)
    lam = mpmath.exp(t)
    top = ll(wells, lam)
    fall = quantile(level) ** 2 / 2
    lower = mpmath.exp(halve(lambda u: ll(wells, mpmath.exp(u)) - top + fall, t - 60, t))
    upper = mpmath.exp(halve(lambda u: top - fall - ll(wells, mpmath.exp(u)), t, t + 60))
    # information of ln(lam): by differences of the log-likelihood at high precision, and by its mean over outcomes
    h = mpf(10) ** -15
    observed = -(ll(wells, lam * mpmath.exp(h)) - 2 * top + ll(wells, lam * mpmath.exp(-h))) / h**2
    expected = mpf(0)
    for v, n, _ in wells:
        q = mpmath.exp(-v * lam)
        expected += n * (v * lam) ** 2 * q / (1 - q)
    z = quantile(level)
    cox = lambda info: [float(lam * mpmath.exp(s * z / mpmath.sqrt(info))) for s in (-1, 1)]
    chance = lambda picks: mpmath.fprod(
        mpmath.binomial(n, k) * (-mpmath.expm1(-v * lam)) ** k * mpmath.exp(-v * lam * (n - k)) for (v, n, _), k in zip(wells, picks)
    )
    best = mpmath.fprod(
        max(mpmath.binomial(n, k) * (-mpmath.expm1(-v * lam)) ** k * mpmath.exp(-v * lam * (n - k)) for k in range(n + 1)) for v, n, _ in wells
    )
    return {
        "wells": [{"volumeMl": float(v), "inoculated": n, "positive": p} for v, n, p in wells],
        "level": level,
        "mpnPerMl": float(lam),
        "profile": [float(lower), float(upper)],
        "observed": cox(observed),
        "expected": cox(expected),
        "rarity": float(chance([p for _, _, p in wells]) / best),
    }


WELLS = [
    ([(0.5, 1, 1), (0.25, 1, 0)], 0.95),
    ([(100, 1, 0), (10, 1, 1), (1, 1, 0)], 0.95),
    ([(50, 2, 2), (5, 3, 0), (0.5, 7, 1)], 0.9),
    ([(1.86, 49, 49), (0.186, 48, 3)], 0.95),
    ([(1.86, 49, 1), (0.186, 48, 0)], 0.99),
    ([(10, 5, 0), (1, 5, 0), (0.1, 5, 5)], 0.95),
    ([(0.0001, 96, 95)], 0.95),
    ([(0.02, 384, 1)], 0.8),
    ([(1000, 2, 1), (0.001, 2, 1)], 0.95),
    ([(1, 3, 2), (2, 5, 3), (3, 7, 5), (5, 11, 8), (8, 13, 12)], 0.95),
    ([(0.1, 10, 10), (0.01, 10, 9), (0.001, 10, 4), (0.0001, 10, 1)], 0.68),
    ([(250, 1, 1), (100, 2, 1), (10, 4, 0)], 0.5),
    ([(1, 1000, 999)], 0.999),
    ([(0.1, 90, 45), (0.01, 90, 44), (0.001, 90, 1)], 0.95),
]


# ---- two by two at other levels
def two_by_two(a, b, c, d, level):
    exposed, unexposed, cases = a + b, c + d, a + c
    support = range(max(0, cases - unexposed), min(cases, exposed) + 1)
    weight = {k: comb(exposed, k) * comb(unexposed, cases - k) for k in support}
    each = (1 - mpf(level)) / 2

    def chance(log_odds, share):
        w = {k: weight[k] * mpmath.exp(log_odds * (k - a)) for k in support}
        total = mpmath.fsum(w.values())
        own = share * w[a] / total
        return own + mpmath.fsum(w[k] for k in support if k > a) / total, own + mpmath.fsum(w[k] for k in support if k < a) / total, mpmath.fsum(k * w[k] for k in support) / total

    def limits(share):
        lower = 0 if a == min(support) else mpmath.exp(halve(lambda t: chance(t, share)[0] - each, -80, 80))
        upper = None if a == max(support) else mpmath.exp(halve(lambda t: each - chance(t, share)[1], -80, 80))
        return [float(lower), None if upper is None else float(upper)]

    total = sum(weight.values())
    above, below, _ = chance(mpf(0), mpf("0.5"))
    inner = min(support) < a < max(support)
    risk = None
    if a and c:
        rr = mpf(a) / exposed / (mpf(c) / unexposed)
        half = quantile(level) * mpmath.sqrt(mpf(1) / a - mpf(1) / exposed + mpf(1) / c - mpf(1) / unexposed)
        risk = [float(v) for v in (rr, rr * mpmath.exp(-half), rr * mpmath.exp(half))]
    return {
        "cells": [a, b, c, d],
        "level": level,
        "conditional": float(mpmath.exp(halve(lambda t: chance(t, 1)[2] - a, -80, 80))) if inner else (0 if a == min(support) else None),
        "exact": limits(mpf(1)),
        "midP": limits(mpf("0.5")),
        # the least likely tables, minimum likelihood, in whole numbers
        "fisher": float(mpf(sum(w for w in weight.values() if w <= weight[a])) / total),
        "midPValue": float(min(mpf(1), 2 * min(above, below))),
        "risk": risk,
    }


TABLES = [
    (1, 1, 1, 1, 0.95), (2, 0, 0, 2, 0.95), (0, 7, 9, 1, 0.9), (7, 5, 5, 7, 0.99), (12, 3, 0, 40, 0.95), (1, 0, 0, 1, 0.5), (1, 999, 1, 999, 0.95),
    (300, 2, 250, 7, 0.8), (3, 300, 9, 250, 0.999), (50, 50, 50, 50, 0.95), (99, 1, 1, 99, 0.95), (4, 0, 11, 3, 0.95), (6, 60, 600, 6000, 0.95), (17, 4, 8, 22, 0.68),
]


# ---- detection with every number of positives listed, in whole numbers
def missed(outlets, colonised, sampled, s):
    total = mpf(comb(outlets, sampled))
    return mpmath.fsum(comb(colonised, k) * comb(outlets - colonised, sampled - k) * (1 - mpf(s)) ** k for k in range(min(colonised, sampled) + 1)) / total


def hidden(outlets, sampled, s, level):
    """The most colonised outlets under which nothing found still has a chance of 1 - level or more, by trying all."""
    return max(d for d in range(outlets + 1) if missed(outlets, d, sampled, s) >= 1 - mpf(level))


DESIGNS = [(37, 5, 0.3), (37, 36, 0.9), (37, 37, 0.125), (180, 14, 0.5), (180, 90, 0.9), (451, 60, 0.75), (3, 1, 0.5), (1, 1, 0.25), (1, 1, 1), (64, 32, 1)]
detection = []
for outlets, sampled, s in DESIGNS:
    d = rnd(outlets + 1)
    detection.append({
        "outlets": outlets, "sampled": sampled, "sensitivity": s, "colonised": d,
        "probability": float(1 - missed(outlets, d, sampled, s)),
        "hidden": [{"level": level, "upperNumber": hidden(outlets, sampled, s, level)} for level in (0.5, 0.9, 0.95, 0.999)],
    })


# ---- colonies, all picked or some: limits by recovered variances, from tail sums
def poisson(count, level):
    each = (1 - mpf(level)) / 2
    at_most = lambda c, m: mpmath.gammainc(c + 1, m, mpmath.inf, regularized=True)
    lower = mpf(0) if count == 0 else halve(lambda m: 1 - at_most(count - 1, m) - each, 0, 10 * count + 100)
    return lower, halve(lambda m: each - at_most(count, m), 0, 10 * count + 100)


def plates(rows, level):
    """rows: colonies, plated, concentration, treatment factor, picked, confirmed"""
    litres = mpf(0)
    counted = confirmed = mpf(0)
    picked = 0
    for n, v, f, t, k, m in rows:
        litres += mpf(v) * mpf(f) * mpf(t) / 1000
        share = mpf(m) / k if k else mpf(1)
        confirmed += n * share
        partly = bool(k) and k < n
        counted += n if partly else n * share
        picked += k if partly else 0
    full = poisson(confirmed, level)
    lower, upper = full
    if picked:
        p = confirmed / counted
        z = quantile(level)
        score = lambda q: (p - q) ** 2 * picked - z * z * q * (1 - q)
        low = mpf(0) if p == 0 else halve(lambda q: -score(q), 0, p)
        high = mpf(1) if p == 1 else halve(score, p, 1)
        cl, cu = poisson(counted, level)
        lower = max(mpf(0), min(confirmed - mpmath.hypot(p * (counted - cl), counted * (p - low)), full[0]))
        upper = max(confirmed + mpmath.hypot(p * (cu - counted), counted * (high - p)), full[1])
    return {
        "plates": [{"colonies": n, "platedMl": v, "concentrationFactor": f, "treatmentFactor": t, **({"confirmedOf": k, "confirmed": m} if k else {})} for n, v, f, t, k, m in rows],
        "level": level,
        "cfuPerL": float(confirmed / litres),
        "interval": [float(lower / litres), float(upper / litres)],
    }


PLATES = [
    ([(17, 0.2, 200, 1, 0, 0)], 0.95),
    ([(240, 0.1, 100, 0.5, 5, 5)], 0.95),
    ([(240, 0.1, 100, 0.5, 5, 1)], 0.95),
    ([(31, 0.5, 1, 1, 7, 3), (4, 0.05, 1, 1, 4, 3)], 0.9),
    ([(0, 0.1, 100, 1, 0, 0), (1, 0.1, 100, 1, 1, 1), (0, 0.5, 100, 1, 0, 0)], 0.99),
    ([(12, 100, 1, 1, 5, 0)], 0.95),
    ([(180, 0.1, 10, 1, 0, 0), (21, 0.1, 1, 1, 0, 0), (1, 0.1, 0.1, 1, 0, 0)], 0.95),
    ([(900, 0.3, 33.3, 0.9, 10, 9)], 0.8),
]

# ---- plates of which only the least number of colonies is known, beside counted ones
def crowded(counted, least, level):
    """counted: (colonies, mL); least: (at least so many, mL). Likelihood from sums of Poisson terms."""
    def loglik(t):
        lam = mpmath.exp(t)
        total = mpmath.fsum(c * t - lam * mpf(v) for c, v in counted)
        for c, v in least:
            m = lam * mpf(v)
            if m > c:
                total += mpmath.log(1 - mpmath.exp(-m) * mpmath.fsum(m**k / mpmath.factorial(k) for k in range(c)))
            else:  # the terms from c up, until they no longer count
                total += c * mpmath.log(m) - m - mpmath.loggamma(c + 1)
                total += mpmath.log(mpmath.fsum(m**k * mpmath.factorial(c) / mpmath.factorial(c + k) for k in range(600)))
        return total

    h = mpf(10) ** -12
    t = halve(lambda u: -(loglik(u + h) - loglik(u - h)), -12, 22, 60)
    fall, top = quantile(level) ** 2 / 2, loglik(t)
    lower = mpmath.exp(halve(lambda u: loglik(u) - top + fall, t - 8, t, 60))
    upper = mpmath.exp(halve(lambda u: top - fall - loglik(u), t, t + 8, 60))
    plate = lambda c, v, more: {"colonies": c, "platedMl": v, "concentrationFactor": 1, **more}
    return {
        "plates": [plate(c, v, {}) for c, v in counted] + [plate(c, v, {"overgrown": "by-legionella"}) for c, v in least],
        "level": level,
        "cfuPerL": float(1000 * mpmath.exp(t)),
        "interval": [float(1000 * lower), float(1000 * upper)],
    }


CROWDED = [
    ([(28, 0.001), (20, 0.001)], [(300, 0.01), (250, 0.01)], 0.95),
    ([(0, 0.01)], [(300, 1)], 0.95),
    ([(3, 0.1)], [(10, 1)], 0.9),
    ([(80, 0.1), (9, 0.01)], [(1, 1)], 0.95),
    ([(5, 1)], [(100, 1)], 0.99),
]

print(json.dumps({
    "tool": f"Python and mpmath {mpmath.__version__}, 50 digits",
    "wells": [mpn(*w) for w in WELLS],
    "tables": [two_by_two(*t) for t in TABLES],
    "detection": detection,
    "plates": [plates(*p) for p in PLATES],
    "crowded": [crowded(*c) for c in CROWDED],
}))
