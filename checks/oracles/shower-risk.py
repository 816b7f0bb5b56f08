"""Quantiles of dose and risk of a shower without any simulation: distributions are folded by Fourier transforms.

The dose is a product, so its logarithm is a sum; each part's logarithm is put on one fine grid (from its distribution function)
and the grids are folded. Water in the air is a sum of ten lognormals and deposition a sum of ten uniforms: folded on linear grids
first, as are the lognormal showers of a year. Risk is 1 - exp(-r dose), so its quantiles follow from those of r dose.
Each quantile comes with what the standard error of its logarithm is for one draw, sqrt(p(1-p))/density.

Parameters are written out here again, from the same published code, not read from the product.
Also: Spearman's rank correlation of a fixed list with ties, by scipy.

Run: python3 shower-risk.py > shower-risk.json
"""
import json
import sys

import numpy as np
import scipy
from scipy import stats
from scipy.signal import fftconvolve

HEADS = {
    "conventional": [(17.5, 0.30), (17.5, 0.17)] + [(19.4, 0.35)] * 3 + [(20.0, 0.31)] * 5,
    "water-efficient": [(18.1, 0.57), (17.9, 0.64)] + [(18.7, 0.52)] * 3 + [(18.3, 0.14)] * 5,
}
SHARES = np.array([17.5, 16.39, 15.56, 6.67, 3.89, 2.5, 2.78, 5.00, 5.28, 3.89]) / 100
DEPOSITED = [(0.23, 0.25), (0.40, 0.53), (0.36, 0.62), (0.29, 0.61), (0.19, 0.52),
             (0.10, 0.40), (0.06, 0.29), (0.03, 0.19), (0.01, 0.12), (0.01, 0.06)]
AIR = {"50-61": (0.013, 0.017), "16-21": (0.012, 0.016)}
RISK = {"infection": (-2.93, 0.49), "clinicalSeverity": (-9.69, 0.30)}

STEP = 2e-4  # of natural logarithm


class Log:
    """Masses of a logarithm at start + k STEP."""

    def __init__(self, start, mass):
        self.start, self.mass = start, mass / mass.sum()

    @classmethod
    def of_cdf(cls, cdf, low, high):
        at = np.arange(round(low / STEP), round(high / STEP) + 1) * STEP
        edges = np.append(at - STEP / 2, at[-1] + STEP / 2)
        return cls(at[0], np.diff(cdf(edges)))

    @classmethod
    def point(cls, logarithm):
        return cls(logarithm, np.ones(1))

    def __add__(self, other):
        mass = np.clip(fftconvolve(self.mass, other.mass), 0, None)
        keep = np.flatnonzero(mass > 1e-18)
        return Log(self.start + other.start + keep[0] * STEP, mass[keep[0]: keep[-1] + 1])

    def quantiles(self, shares):
        cumulative = np.cumsum(self.mass)
        edges = self.start + (np.arange(len(self.mass)) + 0.5) * STEP
        at = np.interp(shares, cumulative, edges)
        density = np.interp(at, self.start + np.arange(len(self.mass)) * STEP, self.mass / STEP)
        return at, np.sqrt(shares * (1 - shares)) / density


def linear_sum(cdfs, top, cells=2**20):
    """Distribution function of a sum of independent positive parts, each folded on a linear grid of whole cells."""
    width = top / cells
    transform = 1.0
    for cdf in cdfs:
        edges = np.concatenate([[0], (np.arange(cells) + 0.5) * width])
        transform = transform * np.fft.rfft(np.diff(cdf(edges)), 2 * cells)
    mass = np.clip(np.fft.irfft(transform, 2 * cells)[:cells], 0, None)
    cumulative = np.cumsum(mass)
    upper = (np.arange(cells) + 0.5) * width
    return lambda x: np.interp(x, upper, cumulative / cumulative[-1], left=0, right=1)


def normal_log(mean, sd):
    return Log.of_cdf(lambda x: stats.norm.cdf(x, mean, sd), mean - 8 * sd, mean + 8 * sd)


def airborne(head):
    parts = []
    for size, (mean, sd) in enumerate(HEADS[head], start=1):
        volume = 4 / 3 * np.pi * (size / 2 * 1e-6) ** 3
        parts.append((np.exp(mean) * volume, sd))
    cdf = linear_sum([lambda x, m=m, s=s: stats.lognorm.cdf(x, s, scale=m) for m, s in parts], top=2.5e-6)
    middle = np.log(sum(m for m, _ in parts))
    return Log.of_cdf(lambda x: cdf(np.exp(x)), middle - 1.5, min(middle + 1.5, np.log(2.49e-6)))


def deposited():
    ends = [(f * a, f * b) for f, (a, b) in zip(SHARES, DEPOSITED)]
    least = sum(a for a, _ in ends)
    width = sum(b - a for a, b in ends)
    cdf = linear_sum([lambda x, w=b - a: stats.uniform.cdf(x, 0, w) for a, b in ends], top=width * 1.01)
    return Log.of_cdf(lambda x: cdf(np.exp(x) - least), np.log(least), np.log(least + width))


def breathed(age):
    low, high = AIR[age]
    return Log.of_cdf(lambda x: stats.uniform.cdf(np.exp(x), low, high - low), np.log(low) - 0.01, np.log(high) + 0.01)


def gamma_log(shape, rate):
    low = np.log(stats.gamma.ppf(1e-9, shape) / rate)
    high = np.log(stats.gamma.isf(1e-12, shape) / rate)
    return Log.of_cdf(lambda x: stats.gamma.cdf(np.exp(x) * rate, shape), low, high)


def lognormal_sum(median, gsd, count):
    sd = np.log(gsd)
    mean = median * np.exp(sd * sd / 2)
    top = count * mean * 12
    one = lambda x: stats.lognorm.cdf(x, sd, scale=median)
    cdf = linear_sum([one] * count, top, cells=2**21)
    return Log.of_cdf(lambda x: cdf(np.exp(x)), np.log(count * median) - 4, np.log(top * 0.98))


def concentration(given, n):
    """Logarithm of the level in one shower, and of the sum over the n showers of a year."""
    if "cfuPerL" in given:
        level = np.log(given["cfuPerL"])
        return Log.point(level), Log.point(level + np.log(n))
    d = given["distribution"]
    once = d.get("spread", "unknown-level") == "unknown-level"
    if d["kind"] == "lognormal":
        one = normal_log(np.log(d["medianCfuPerL"]), np.log(d["geometricSd"]))
        year = None if once else lognormal_sum(d["medianCfuPerL"], d["geometricSd"], n)
    elif d["kind"] == "gamma":
        one = gamma_log(d["shape"], d["rateLPerCfu"])
        year = None if once else gamma_log(n * d["shape"], d["rateLPerCfu"])
    elif d["kind"] == "counts":
        one, year = gamma_log(d["colonies"] + 0.5, d["examinedMl"] / 1000), None
    else:
        one = Log.of_cdf(lambda x: np.minimum(np.exp(x) / d["below"], 1), np.log(d["below"]) - 23, np.log(d["below"]))
        year = None
    return one, year if year is not None else Log(one.start + np.log(n), one.mass)


def told(log, shown):
    at, error = log.quantiles(np.array([0.05, 0.5, 0.95]))
    return {name: {"value": float(shown(np.exp(x))), "logStandardErrorOfOneDraw": float(e)}
            for name, x, e in zip(("p5", "median", "p95"), at, error)}


def case(name, given):
    litres = airborne(given["showerHead"]) + deposited() + breathed(given["age"]) + Log.point(
        np.log(given["minutes"] * 1000))
    one, year = concentration(given, given["perYear"])
    risk = lambda x: -np.expm1(-x)
    doses = {"perEvent": litres + one, "perYear": litres + year}
    out = {"name": name, "input": given, "dose": told(doses["perEvent"], lambda x: x)}
    for end, (mean, sd) in RISK.items():
        out[end + "Risk"] = {per: told(normal_log(mean, sd) + dose, risk) for per, dose in doses.items()}
    return out


BASE = {"minutes": 7.8, "perYear": 365, "showerHead": "conventional", "age": "50-61"}
CASES = [
    ("known level", {**BASE, "cfuPerL": 1000}),
    ("water-efficient head, young", {**BASE, "cfuPerL": 1000, "showerHead": "water-efficient", "age": "16-21"}),
    ("near certain", {**BASE, "cfuPerL": 2e6, "perYear": 2}),
    ("lognormal, unknown level", {**BASE, "distribution": {
        "kind": "lognormal", "medianCfuPerL": 300, "geometricSd": 3, "spread": "unknown-level"}}),
    ("lognormal, between 30 showers", {**BASE, "perYear": 30, "distribution": {
        "kind": "lognormal", "medianCfuPerL": 300, "geometricSd": 2.2, "spread": "between-showers"}}),
    ("gamma of hot first draws, between 50 showers", {**BASE, "perYear": 50, "distribution": {
        "kind": "gamma", "shape": 0.386, "rateLPerCfu": 1.29e-4, "spread": "between-showers"}}),
    ("gamma of cold first draws, unknown level", {**BASE, "perYear": 50, "distribution": {
        "kind": "gamma", "shape": 0.67, "rateLPerCfu": 5.9e-5, "spread": "unknown-level"}}),
    ("seven colonies in 30 mL", {**BASE, "distribution": {"kind": "counts", "colonies": 7, "examinedMl": 30}}),
    ("no colony in a litre", {**BASE, "distribution": {"kind": "counts", "colonies": 0, "examinedMl": 1000}}),
    ("below 10 CFU/L", {**BASE, "distribution": {"kind": "below", "below": 10}}),
]

RANKED = {"a": [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5], "b": [2, 7, 1, 8, 2, 8, 1, 8, 2, 8, 4]}

json.dump({
    "made": {"python": sys.version.split()[0], "numpy": np.__version__, "scipy": scipy.__version__},
    "cases": [case(*each) for each in CASES],
    "rankCorrelation": {**RANKED, "value": float(stats.spearmanr(RANKED["a"], RANKED["b"]).statistic)},
}, sys.stdout, indent=1)
print()
