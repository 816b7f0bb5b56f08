"""The same calculations by NumPy and SciPy, each in the quickest form that is still plain work with these libraries.

Run: python3 peer.py JOB INPUTS RUNS. Reads {"inputs": […]}, warms up once, takes the least processor time of RUNS runs (reading, starting
and importing left out) and prints {"seconds", "tool", "results"}.

mpn: one design at a time in plain floats (NumPy's calls cost more than three volumes do); Brent's root for the estimate and each limit.
mpn-together: all designs at once as NumPy arrays, safeguarded Newton on the logarithm for estimate and limits.
two-by-two: log weights of the table once, tails by exp and sum of arrays, Brent's root for estimate, exact and mid-p limits.
firth: Newton on the modified scores with BLAS and LAPACK; limits by one search over all coefficients (Venzon and Moolgavkar 1988).
censored: values by their sums, equal limits counted once; BFGS with the gradient; limits by MINPACK on the two equations of a profile.
alleles: one-byte or two-byte codes, row by row against the later rows, missing left out.
alleles-bits: bit planes of 64 loci and NumPy's count of bits, row by row.
"""
import json
import math
import sys
import time

import numpy as np
import scipy
from scipy.optimize import brentq, minimize, root
from scipy.special import chdtrc, gammaln, log_ndtr, ndtri

Z = float(ndtri(0.975))
FALL = Z * Z / 2


# most probable number


def mpn(design):
    rows = [(w["volumeMl"], w["inoculated"], w["positive"]) for w in design["wells"]]
    pos = sum(x for _, _, x in rows)
    every = sum(n * v for v, n, _ in rows)
    negative = sum((n - x) * v for v, n, x in rows)
    grown = [(v, x) for v, _, x in rows if x > 0]
    expm1, exp, log, log1p = math.expm1, math.exp, math.log, math.log1p

    def slope(lam):
        s = -negative
        for v, x in grown:
            t = exp(-v * lam)
            s += x * v * t / (1 - t) if t < 0.5 else x * v / expm1(v * lam)
        return s

    def loglik(lam):
        s = -negative * lam
        for v, x in grown:
            t = v * lam
            s += x * (log(-expm1(-t)) if t < 0.69 else log1p(-exp(-t)))
        return s

    lam = brentq(slope, pos / every, pos / negative, xtol=1e-14 * pos / every, rtol=1e-14)
    observed = sum(x * v * v * exp(-v * lam) / expm1(-v * lam) ** 2 for v, x in grown)
    expected = sum(n * v * v * exp(-v * lam) / -expm1(-v * lam) for v, n, _ in rows)
    top, half = loglik(lam), Z / (lam * math.sqrt(observed))

    def profile(t):
        return top - loglik(lam * exp(t)) - FALL

    def limit(side):
        far = 1.5 * half
        while profile(side * far) < 0:
            far *= 2
        return lam * exp(brentq(profile, 0, side * far, xtol=1e-13, rtol=1e-13))

    def chance(n, x, v):
        t = v * lam
        s = math.lgamma(n + 1) - math.lgamma(x + 1) - math.lgamma(n - x + 1) - (n - x) * t
        return s + (x * log(-expm1(-t)) if x else 0)

    rarity = sum(chance(n, x, v) - chance(n, min(n, int((n + 1) * -expm1(-v * lam))), v) for v, n, x in rows)
    se = 1 / (lam * math.sqrt(expected))
    return [lam, limit(-1), limit(1), lam * exp(-half), lam * exp(half), half / Z / math.log(10), se / math.log(10), min(1, exp(rarity))]


def mpn_together(designs):
    most = max(len(d["wells"]) for d in designs)
    v, n, x = (np.array([[w[k] for w in d["wells"]] + [fill] * (most - len(d["wells"])) for d in designs], float)
               for k, fill in (("volumeMl", 1.0), ("inoculated", 0), ("positive", 0)))
    negative = ((n - x) * v).sum(1)

    def slope(log):
        t = v * np.exp(log)[:, None]
        fall = -np.expm1(-t)
        pull = x * t * np.exp(-t) / fall
        lam = np.exp(log)
        return pull.sum(1) - negative * lam, (pull * (1 - t / fall)).sum(1) - negative * lam

    def loglik(log):
        t = v * np.exp(log)[:, None]
        return (x * np.log(-np.expm1(-t))).sum(1) - negative * np.exp(log)

    log = np.log(x.sum(1) / negative) / 2 + np.log(x.sum(1) / (n * v).sum(1)) / 2
    for _ in range(100):
        f, d = slope(log)
        step = np.clip(-f / np.where(d < 0, d, -1.0), -1, 1)
        log = log + step
        if np.abs(step).max() < 1e-13:
            break
    lam = np.exp(log)
    t = v * lam[:, None]
    shrink, fall = np.exp(-t), -np.expm1(-t)
    observed = (x * v * v * shrink / fall**2).sum(1)
    expected = (n * v * v * shrink / fall).sum(1)
    top, half = loglik(log), Z / (lam * np.sqrt(observed))
    limits = []
    for side in (-1, 1):
        at = log + side * half
        for _ in range(100):
            f = top - loglik(at) - FALL
            step = np.clip(f / slope(at)[0], -1, 1)
            at = at + step
            if np.abs(step).max() < 1e-12:
                break
        limits.append(np.exp(at))

    def chance(k):
        t = v * lam[:, None]
        grown = np.where(k > 0, k * np.log(-np.expm1(-t)), 0)
        return gammaln(n + 1) - gammaln(k + 1) - gammaln(n - k + 1) - (n - k) * t + grown

    likeliest = np.minimum(n, np.floor((n + 1) * -np.expm1(-v * lam[:, None])))
    rarity = np.minimum(1, np.exp((chance(x) - chance(likeliest)).sum(1)))
    se = 1 / (lam * np.sqrt(expected))
    columns = [lam, *limits, lam * np.exp(-half), lam * np.exp(half), half / Z / np.log(10), se / np.log(10), rarity]
    return np.stack(columns, 1).tolist()


# 2 × 2


def two_by_two(t):
    a, b, c, d = t["exposedCases"], t["exposedWell"], t["unexposedCases"], t["unexposedWell"]
    n1, n2, m = a + b, c + d, a + c
    lo, hi = max(0, m - n2), min(m, n1)
    k = np.arange(lo, hi + 1)
    weights = -(gammaln(k + 1) + gammaln(n1 - k + 1) + gammaln(m - k + 1) + gammaln(n2 - m + k + 1))
    at = a - lo

    def chances(log):
        w = weights + log * k
        w = np.exp(w - w.max())
        return w / w.sum()

    def above(share):
        def f(log):
            p = chances(log)
            return p[at + 1:].sum() + share * p[at] - 0.025
        return f

    def below(share):
        def f(log):
            p = chances(log)
            return p[:at].sum() + share * p[at] - 0.025
        return f

    near = math.log((a + 0.5) * (d + 0.5) / ((b + 0.5) * (c + 0.5)))
    step = math.sqrt(1 / (a + 0.5) + 1 / (b + 0.5) + 1 / (c + 0.5) + 1 / (d + 0.5))

    def find(f, middle):
        left, right = middle - step, middle + step
        start = f(left) > 0
        falling = f(right) < f(left)
        while (f(left) > 0) != falling:
            left -= 2 * step
        while (f(right) > 0) == falling:
            right += 2 * step
        return math.exp(brentq(f, left, right, xtol=1e-13, rtol=1e-13))

    conditional = find(lambda log: float((chances(log) * (k - a)).sum()), near)
    exact = [find(above(1), near - 2 * step), find(below(1), near + 2 * step)]
    mid = [find(above(0.5), near - 2 * step), find(below(0.5), near + 2 * step)]
    p = chances(0.0)
    fisher = min(1.0, float(p[p <= p[at] * (1 + 1e-7)].sum()))
    tail = min(p[at + 1:].sum(), p[:at].sum()) + p[at] / 2
    rr = a / n1 / (c / n2)
    half = Z * math.sqrt(1 / a - 1 / n1 + 1 / c - 1 / n2)
    return [a * d / (b * c), conditional, *exact, *mid, rr, rr * math.exp(-half), rr * math.exp(half), fisher, min(1.0, float(2 * tail))]


# Firth


def firth(study):
    names = [name for name in study["rows"][0] if name != "outcome"]
    x = np.array([[1.0, *(row[name] for name in names)] for row in study["rows"]])
    y = np.array([row["outcome"] for row in study["rows"]], float)
    p = x.shape[1]

    def point(beta):
        eta = x @ beta
        pi = 1 / (1 + np.exp(-eta))
        w = pi * (1 - pi)
        xw = x * w[:, None]
        info = x.T @ xw
        cov = np.linalg.inv(info)
        hat = np.einsum("ij,ij->i", xw @ cov, x)
        value = -np.logaddexp(0, np.where(y == 1, -eta, eta)).sum() + np.linalg.slogdet(info)[1] / 2
        return value, x.T @ (y - pi + hat * (0.5 - pi)), info

    def climb(beta, free):
        beta = beta.copy()
        value, score, info = point(beta)
        grid = np.ix_(free, free)
        for _ in range(100):
            if not len(free):
                break
            step = np.linalg.solve(info[grid], score[free])
            if score[free] @ step < 1e-22:
                break
            size = min(1.0, 5 / np.abs(step).max())
            while True:
                trial = beta.copy()
                trial[free] += size * step
                found = point(trial)
                if found[0] >= value - 1e-10 or size < 1e-10:
                    break
                size /= 2
            beta, (value, score, info) = trial, found
        return beta, value, score, info

    every = np.arange(p)
    beta, top, _, info = climb(np.zeros(p), every)
    none = climb(np.zeros(p), every[:1])[1]
    se = np.sqrt(np.diag(np.linalg.inv(info)))
    out = [top, chdtrc(p - 1, max(0.0, 2 * (top - none)))]
    for j in range(p):
        free = every[every != j]
        limits = []
        unit = np.eye(p)[j]
        for side in (-1, 1):
            at, value, score, around = beta, top, np.zeros(p), info
            for _ in range(100):
                both = np.linalg.solve(around, np.column_stack([score, unit]))
                room = max(0.0, value + score @ both[:, 0] / 2 - (top - FALL))
                step = both[:, 0] + side * math.sqrt(2 * room / both[j, 1]) * both[:, 1]
                at = at + step
                if np.abs(step / se).max() < 1e-9:
                    break
                value, score, around = point(at)
            limits.append(at[j])
        at = beta.copy()
        at[j] = 0
        out += [beta[j], *limits, chdtrc(1, 2 * max(0.0, top - climb(at, free)[1]))]
    return [float(v) for v in out]


# censored


def censored(values):
    known = np.log([v for v in values if not isinstance(v, dict)])
    n, s1, s2 = len(known), float(known.sum()), float((known**2).sum())
    spans = {}
    for v in values:
        if isinstance(v, dict):
            key = (0.0, float(v["below"])) if "below" in v else tuple(map(float, v["between"]))
            spans[key] = spans.get(key, 0) + 1
    low = np.array([math.log(a) if a > 0 else -np.inf for a, _ in spans])
    high = np.array([math.log(b) for _, b in spans])
    count = np.array(list(spans.values()), float)
    shut = low > -np.inf
    low = np.where(shut, low, 0.0)
    root2pi = math.log(2 * math.pi) / 2

    def loglik(m, ls):
        """Value and gradient in the mean and the logarithm of the spread."""
        s = math.exp(ls)
        a, b = (low - m) / s, (high - m) / s
        fa, fb = np.where(shut, log_ndtr(a), -np.inf), log_ndtr(b)
        # The upper tail of a span keeps its digits from the other side.
        flip = shut & (a > 0)
        la, lb = np.where(flip, log_ndtr(-b), fa), np.where(flip, log_ndtr(-a), fb)
        between = lb + np.log(-np.expm1(la - lb))
        ga = np.where(shut, np.exp(-a * a / 2 - root2pi - between), 0)
        gb = np.exp(-b * b / 2 - root2pi - between)
        q = s2 - 2 * m * s1 + n * m * m
        value = -n * (ls + root2pi) - q / (2 * s * s) - s1 + float(count @ between)
        dm = (s1 - n * m) / (s * s) - float(count @ (gb - ga)) / s
        ds = -n + q / (s * s) - float(count @ (b * gb - a * ga))
        return value, dm, ds

    def down(p):
        value, dm, ds = loglik(*p)
        return -value, np.array([-dm, -ds])

    start = [float(np.mean(known)), math.log(float(np.std(known)))]
    best = minimize(down, start, jac=True, method="BFGS", options={"gtol": 1e-7})
    m, ls = best.x
    cov = best.hess_inv
    top = -best.fun

    def limits(figure, error, at, free_slope):
        out = []
        for side in (-1, 1):
            def equations(p):
                mm, ll = at(*p)
                value, dm, ds = loglik(mm, ll)
                return [top - value - FALL, free_slope(mm, ll, dm, ds)]
            sd = math.sqrt(cov[1, 1])
            for stretch in (1, 1.4, 0.7):
                found = root(equations, [figure[0] + side * Z * error * stretch, figure[1] + side * figure[2] * Z * sd], tol=1e-11)
                if found.success and side * (found.x[0] - figure[0]) > 0:
                    break
            out.append(float(found.x[0]))
        return out

    s = math.exp(ls)
    error = math.sqrt(cov[0, 0])
    # Along the profile of the geometric mean: the slope in the spread is nothing. Of the mean: m = figure − s²/2.
    gm = limits((m, ls, 0), error, lambda f, l: (f, l), lambda mm, ll, dm, ds: ds)
    mean_error = math.sqrt(cov[0, 0] + 2 * s * s * cov[0, 1] + s**4 * cov[1, 1])
    mean = limits((m + s * s / 2, ls, 1), mean_error, lambda f, l: (f - math.exp(2 * l) / 2, l), lambda mm, ll, dm, ds: ds - math.exp(2 * ll) * dm)
    gsd = limits((ls, m, 0), math.sqrt(cov[1, 1]), lambda f, l: (l, f), lambda mm, ll, dm, ds: dm)
    return [m, s, top, *map(math.exp, mean), *map(math.exp, gm), *[math.exp(math.exp(g)) for g in gsd]]


# alleles


def codes_of(study):
    rows = [[-1 if v is None else v for v in profile["alleles"]] for profile in study["profiles"]]
    return np.array(rows, np.int16)


def alleles(x):
    n, loci = x.shape
    known = x >= 0
    whole = bool(known.all())
    distances, compared = np.zeros((n, n), np.int32), np.full((n, n), loci, np.int32)
    for i in range(n):
        differ = x[i + 1:] != x[i]
        if not whole:
            both = known[i + 1:] & known[i]
            differ &= both
            compared[i, i + 1:] = compared[i + 1:, i] = np.count_nonzero(both, axis=1)
            compared[i, i] = np.count_nonzero(known[i])
        distances[i, i + 1:] = distances[i + 1:, i] = np.count_nonzero(differ, axis=1)
    return distances, compared


def alleles_bits(x):
    n, loci = x.shape
    known = x >= 0
    pad = -loci % 64
    bits = int(x.max()).bit_length()

    def packed(flags):
        return np.packbits(np.pad(flags, ((0, 0), (0, pad))), axis=1).view(np.uint64)

    mask = packed(known)
    planes = [packed(known & ((x >> k) & 1).astype(bool)) for k in range(bits)]
    distances, compared = np.zeros((n, n), np.int32), np.zeros((n, n), np.int32)
    for i in range(n):
        differ = planes[0][i:] ^ planes[0][i]
        for plane in planes[1:]:
            differ |= plane[i:] ^ plane[i]
        both = mask[i:] & mask[i]
        differ &= both
        compared[i, i:] = compared[i:, i] = np.bitwise_count(both).sum(axis=1, dtype=np.int32)
        distances[i, i:] = distances[i:, i] = np.bitwise_count(differ).sum(axis=1, dtype=np.int32)
    return distances, compared


def each(one):
    return lambda inputs: [one(given) for given in inputs]




def main():
    job, path, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
    with open(path) as file:
        inputs = json.load(file)["inputs"]
    work = {
        "mpn": each(mpn), "mpn-together": mpn_together, "two-by-two": each(two_by_two), "firth": each(firth),
        "censored": each(lambda given: censored(given["values"])), "alleles": alleles, "alleles-bits": alleles_bits,
    }[job]
    if job.startswith("alleles"):
        inputs = codes_of(inputs[0])
    results, seconds = work(inputs), []
    for _ in range(runs):
        began = time.process_time()
        results = work(inputs)
        seconds.append(time.process_time() - began)
    if job.startswith("alleles"):
        # Sums say whether two matrices are the same without writing millions of numbers.
        row = np.arange(1, len(inputs) + 1, dtype=np.int64)
        results = [[int(m.sum(dtype=np.int64)), int(row @ m @ row)] for m in results]
    print(json.dumps({"seconds": min(seconds), "tool": f"NumPy {np.__version__}, SciPy {scipy.__version__}", "results": results}))


main()
