"""Time of a common source from onsets, independently: SciPy's distributions, Brent's minimiser and roots, adaptive quadrature.

Masses are differences of SciPy's cdf or sf; sources that last are integrated by quad; nothing here uses the product's grids or panels.
Onsets are drawn from seeded generators and rounded to what is then given to the product. Times are days from midnight of the first onset's day.
Run: python3 exposure.py > exposure.json
"""
import json
import sys
from datetime import datetime, timedelta

import numpy as np
import scipy
from scipy import integrate, optimize, stats

DAY0 = datetime(2026, 3, 1)
PUBLISHED = {
    "gamma-a": stats.gamma(4.96, scale=1.27),
    "gamma-b": stats.gamma(5.3590725, scale=1 / 0.7300765),
    "gamma-c": stats.gamma(5.1225291, scale=1 / 0.7362183),
}


class ByDay:
    """Counts by full days, spread evenly within each."""

    def __init__(self, cases):
        self.hist = stats.rv_histogram((np.array(cases, float), np.arange(len(cases) + 1.0)), density=False)

    def __getattr__(self, name):
        return getattr(self.hist, name)


def distribution(model):
    family = model["family"]
    if family == "published":
        return PUBLISHED[model["id"]]
    if family == "gamma":
        return stats.gamma(model["shape"], scale=model["scaleDays"])
    if family == "lognormal":
        return stats.lognorm(model["sdLog"], scale=model["medianDays"])
    if family == "weibull":
        return stats.weibull_min(model["shape"], scale=model["scaleDays"])
    if family == "burr":
        return stats.burr12(model["shape"], model["tailShape"], scale=model["scaleDays"])
    return ByDay(model["cases"])


def span(text):
    if len(text) == 10:
        start = (datetime.fromisoformat(text) - DAY0) / timedelta(days=1)
        return start, start + 1
    at = (datetime.fromisoformat(text) - DAY0) / timedelta(days=1)
    return at, at


def log_mass(dist, a, b):
    if b <= 0:
        return -np.inf
    if a == b:
        return dist.logpdf(a)
    a = max(a, 0.0)
    with np.errstate(divide="ignore"):
        return np.log(dist.sf(a) - dist.sf(b)) if a > dist.median() else np.log(dist.cdf(b) - dist.cdf(a))


def one_case(dist, t, onset, duration):
    (a, b), stays = onset
    if duration == 0:
        if stays and not any(s <= t <= e for s, e in stays):
            return -np.inf
        return log_mass(dist, a - t, b - t)
    parts = [(max(s, t), min(e, t + duration)) for s, e in stays] if stays else [(t, t + duration)]
    parts = [(s, e) for s, e in parts if e > s]
    if not parts:
        return -np.inf
    f = lambda u: np.exp(log_mass(dist, a - u, b - u))
    total = sum(
        integrate.quad(f, s, e, points=[p for p in (a, b) if s < p < e] or None, epsabs=0, epsrel=1e-11, limit=400)[0]
        for s, e in parts
    )
    with np.errstate(divide="ignore"):
        return np.log(total) - np.log(sum(e - s for s, e in parts))


def solve(case):
    onsets = []
    for o in case["onsets"]:
        a = span(o["from"])
        b = span(o.get("to", o["from"]))
        onsets.append(((a[0], b[1]), tuple((span(p["from"])[0], span(p["to"])[1]) for p in o.get("present", []))))
    first = np.floor(min(a for (a, _), _ in onsets))
    grouped = {}
    for o in onsets:
        grouped[o] = grouped.get(o, 0) + 1
    duration = case.get("durationDays", 0)
    level = case.get("level", 0.95)
    cut = stats.chi2.ppf(level, 1) / 2

    def likelihood(dist):
        def ll(t):
            total = 0.0
            for o, times in grouped.items():
                one = one_case(dist, t, o, duration)
                if not one > -np.inf:
                    return -np.inf
                total += times * one
            return total

        return ll

    latest = min(b for (_, b), _ in onsets)
    grid = np.arange(latest - case.get("back", 30), latest, case.get("step", 0.05))

    def explore(ll):
        values = np.array([ll(t) for t in grid])
        best = int(np.argmax(values))
        low, high = grid[max(0, best - 1)], grid[min(len(grid) - 1, best + 1)]
        found = optimize.minimize_scalar(lambda t: -ll(t), bounds=(low, high), method="bounded", options={"xatol": 1e-11})
        at, top = found.x, -found.fun
        for end in (low, high):
            if ll(end) > top:
                at, top = end, ll(end)
        above = lambda t: max(ll(t), -1e9) - top + cut
        inside = np.where(values > top - cut)[0]
        i, j = (inside[0], inside[-1]) if len(inside) else (best, best)
        lower = optimize.brentq(above, grid[i - 1], min(grid[i], at), xtol=1e-12) if i > 0 else None
        beyond = grid[j + 1] if j + 1 < len(grid) else latest
        upper = optimize.brentq(above, max(grid[j], at), beyond, xtol=1e-12) if above(beyond) < 0 else beyond
        live = grid[values > top - 40]
        edges = [live[0] - 0.05, *np.arange(np.ceil(live[0]), live[-1] + 0.05, 1.0), at, min(latest, live[-1] + 0.05)]
        edges = sorted(set(edges))
        area = lambda s, e: integrate.quad(lambda t: np.exp(ll(t) - top), s, e, epsrel=1e-9, epsabs=1e-13, limit=200)[0]
        return at, top, lower, upper, [(s, e, area(s, e)) for s, e in zip(edges, edges[1:])]

    dists = [distribution(m) for m in case["models"]]
    lls = [likelihood(d) for d in dists]
    solved = [explore(ll) for ll in lls]
    logs = np.array([top + np.log(sum(x for _, _, x in pieces)) for _, top, _, _, pieces in solved])
    weights = np.exp(logs - np.logaddexp.reduce(logs))
    joint = lambda t: np.logaddexp.reduce([ll(t) for ll in lls]) - np.log(len(lls))
    at, top, lower, upper, pieces = explore(joint) if len(lls) > 1 else solved[0]
    total = sum(x for _, _, x in pieces)
    by_day = {}
    for s, e, x in pieces:
        day = int(np.floor((s + e) / 2 - first))
        by_day[day] = by_day.get(day, 0.0) + x / total

    n = len(onsets)
    apart = max(a for (a, _), _ in onsets) - min(b for (_, b), _ in onsets)
    spread = None
    if n > 1 and not any(s for _, s in onsets) and not isinstance(dists[0], ByDay):
        d = dists[0]
        if duration == 0:
            cdf, pdf = d.cdf, d.pdf
        else:
            cdf = lambda x: integrate.quad(d.cdf, max(0, x - duration), max(0, x), epsabs=1e-12)[0] / duration
            pdf = lambda x: (d.cdf(x) - d.cdf(max(0, x - duration))) / duration
        g = lambda x: n * pdf(x) * (cdf(x + apart) - cdf(x)) ** (n - 1)
        spread = 1.0 if apart <= 0 else 1 - sum(
            integrate.quad(g, s, s + 1, epsabs=1e-12, limit=200)[0] for s in range(0, 60)
        )
    asked = {k: v for k, v in case.items() if k not in ("name", "back", "step")}
    return {
        "name": case["name"],
        "input": asked,
        "mostLikelyDays": at - first,
        "lower": None if lower is None else lower - first,
        "upper": upper - first,
        "logLikelihoods": [top for _, top, _, _, _ in solved],
        "eachMostLikelyDays": [x - first for x, *_ in solved],
        "weights": list(weights),
        "days": {str(k): v for k, v in sorted(by_day.items()) if v > 1e-3},
        "chanceOfSpread": spread,
    }


def day(n):
    return (DAY0 + timedelta(days=int(n))).strftime("%Y-%m-%d")


def moment(x):
    return (DAY0 + timedelta(minutes=round(x * 1440))).strftime("%Y-%m-%dT%H:%M")


def pub(*ids):
    return [{"family": "published", "id": i} for i in ids]


rng = np.random.default_rng(20260301)
draw = lambda d, n: d.rvs(n, random_state=rng)
A, B = PUBLISHED["gamma-a"], PUBLISHED["gamma-b"]
days_of = lambda xs: [{"from": day(np.floor(x))} for x in xs]
BURR = {"family": "burr", "shape": 3.2, "tailShape": 1.6, "scaleDays": 7.5}
COUNTS = [0, 2, 7, 12, 15, 15, 13, 11, 8, 6, 4, 3, 2, 1, 1]

cases = [
    {"name": "one onset", "onsets": [{"from": "2026-03-20"}], "models": pub("gamma-b"), "back": 60},
    {"name": "twelve days, gamma-a", "onsets": days_of(draw(A, 12) + 3.4), "models": pub("gamma-a")},
    {"name": "two hundred days, gamma-b, level 0.99", "onsets": days_of(draw(B, 200) + 2.7), "models": pub("gamma-b"), "level": 0.99},
    {"name": "one thousand days, gamma-a", "onsets": days_of(draw(A, 1000) + 5.3), "models": pub("gamma-a"), "step": 0.01, "back": 6},
    {"name": "moments", "onsets": [{"from": moment(x + 4.25)} for x in draw(A, 9)], "models": pub("gamma-c"), "level": 0.5},
    {"name": "days uncertain by one to four", "models": pub("gamma-a"),
     "onsets": [{"from": day(np.floor(x) - k % 2), "to": day(np.floor(x) + k % 4)} for k, x in enumerate(draw(A, 15) + 6.1)]},
    {"name": "ties", "onsets": [{"from": "2026-03-09"}] * 6 + [{"from": "2026-03-11"}] * 3, "models": pub("gamma-a")},
    {"name": "three published models together", "onsets": days_of(draw(B, 25) + 4.6), "models": pub("gamma-a", "gamma-b", "gamma-c")},
    {"name": "five families together", "onsets": days_of(draw(A, 18) + 4.6), "models": [
        {"family": "gamma", "shape": 3.1, "scaleDays": 2.2}, {"family": "lognormal", "medianDays": 6.2, "sdLog": 0.45},
        {"family": "weibull", "shape": 2.3, "scaleDays": 7.3}, BURR, *pub("gamma-a")]},
    {"name": "burr alone", "onsets": days_of(draw(A, 7) + 4.6), "models": [BURR], "back": 60},
    {"name": "counted by day", "onsets": [{"from": moment(x + 3.3), "to": moment(x + 4.1)} for x in draw(A, 4)], "models": [{"family": "by-day", "cases": COUNTS}], "step": 0.02},
    {"name": "a source of five days", "onsets": days_of(draw(A, 14) + rng.uniform(0, 5, 14) + 3), "models": pub("gamma-a"), "durationDays": 5},
    {"name": "a source of three days, one case there for two", "models": pub("gamma-a"), "durationDays": 3,
     "onsets": [*days_of(draw(A, 6) + 6), {"from": "2026-03-14", "present": [{"from": "2026-03-04T12:00", "to": "2026-03-08T12:00"}]}]},
    {"name": "stays that overlap", "models": pub("gamma-a"), "onsets": [
        {"from": "2026-03-12", "present": [{"from": "2026-03-03", "to": "2026-03-09"}]},
        {"from": "2026-03-13", "present": [{"from": "2026-03-05T18:00", "to": "2026-03-10T09:00"}]},
        {"from": "2026-03-15"}]},
    {"name": "a source of two days, onsets to the minute and over a week", "models": pub("gamma-a"), "durationDays": 2, "onsets": [
        {"from": "2026-03-09T07:30"}, {"from": "2026-03-11T22:15"}, {"from": "2026-03-08", "to": "2026-03-15"}]},
]

json.dump(
    {
        "made": {"python": sys.version.split()[0], "scipy": scipy.__version__, "numpy": np.__version__, "seed": 20260301},
        "cases": [solve(c) for c in cases],
    },
    sys.stdout,
    indent=1,
)
print()
