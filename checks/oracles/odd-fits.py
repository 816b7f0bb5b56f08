"""Odd fits at 50 digits (mpmath): Firth's penalised logistic model and the lognormal with open readings, with profile limits.

Tops: roots of numerical slopes of the penalised (or plain) log-likelihood itself; no score formula, no leverages. Limits: roots of the
slopes in the other parameters together with the wanted height. Every case is invented. Run: python3 odd-fits.py > odd-fits.json
"""
import json

import mpmath
from mpmath import mp, mpf

mp.dps = 50


def slopes(f, at, which):
    h = mpf(10) ** -9

    def one(j):
        up, down = list(at), list(at)
        up[j] += h
        down[j] -= h
        up2, down2 = list(at), list(at)
        up2[j] += 2 * h
        down2[j] -= 2 * h
        return (8 * (f(up) - f(down)) - (f(up2) - f(down2))) / (12 * h)

    return [one(j) for j in which]


def top(f, start):
    """Newton with numerical slopes, halved until it climbs, then polished."""
    at = [mpf(v) for v in start]
    p = len(at)
    for _ in range(80):
        g = slopes(f, at, range(p))
        if max(abs(v) for v in g) < mpf(10) ** -15:
            break
        h = mpf(10) ** -6
        H = mpmath.matrix(p, p)
        for j in range(p):
            up, down = list(at), list(at)
            up[j] += h
            down[j] -= h
            gu, gd = slopes(f, up, range(p)), slopes(f, down, range(p))
            for k in range(p):
                H[k, j] = (gu[k] - gd[k]) / (2 * h)
        try:
            d = mpmath.lu_solve(H, mpmath.matrix([-v for v in g]))
        except (ZeroDivisionError, TypeError):
            d = mpmath.matrix(g)
        if sum(d[j] * g[j] for j in range(p)) <= 0 or max(abs(d[j]) for j in range(p)) > 1e6:
            d = mpmath.matrix(g)
        new = at
        size, here = min(mpf(1), 1 / max(abs(d[j]) for j in range(p))), f(at)  # no leap past a flat stretch
        while size > mpf(10) ** -12:
            new = [a + size * d[j] for j, a in enumerate(at)]
            try:
                value = f(new)
            except (TypeError, ValueError, ZeroDivisionError):
                value = mpf('-inf')
            if mpmath.im(value) == 0 and value >= here - mpf(10) ** -24:
                break
            size /= 2
        at = new
    return at


def limits(f, best, j, fall):
    """Held parameter moved outwards by halving, the others at their top."""
    high = f(best)
    out = []
    for side in (-1, 1):
        near = list(best)

        def drop(value):
            nonlocal near
            others = [k for k in range(len(best)) if k != j]
            full = lambda part: [value if k == j else part[others.index(k)] for k in range(len(best))]
            part = top(lambda q: f(full(q)), [near[k] for k in others]) if others else []
            near = full(part)
            return high - f(near) - fall

        inner, step = best[j], mpf(1)
        outer = best[j] + side * step
        while drop(outer) < 0:
            inner, step = outer, step * 2
            outer += side * step
        a, b = inner, outer
        fa, fb = (drop(a) if a != best[j] else -fall), drop(b)
        for _ in range(60):  # Illinois
            c = b - fb * (b - a) / (fb - fa)
            fc = drop(c)
            if fc * fb < 0:
                a, fa = b, fb
            else:
                fa /= 2
            b, fb = c, fc
            if abs(fc) < mpf(10) ** -16:
                break
        out.append(float(b))
    return out


def firth(names, rows, level):
    y = [r[0] for r in rows]
    scale = [mpf(1), *(max(abs(mpf(r[j])) for r in rows) for j in range(1, len(rows[0])))]
    x = [[v / c for v, c in zip([mpf(1), *map(mpf, r[1:])], scale)] for r in rows]
    p = len(x[0])

    def penalised(beta):
        total = mpf(0)
        info = mpmath.matrix(p, p)
        for yi, xi in zip(y, x):
            eta = mpmath.fdot(beta, xi)
            total -= mpmath.log(1 + mpmath.exp(-eta if yi else eta))
            pi = 1 / (1 + mpmath.exp(-eta))
            for a in range(p):
                for b in range(p):
                    info[a, b] += pi * (1 - pi) * xi[a] * xi[b]
        return total + mpmath.log(mpmath.det(info)) / 2

    best = top(penalised, [0] * p)
    fall = mpmath.erfinv(mpf(level)) ** 2
    return {
        "rows": [{"outcome": r[0], **dict(zip(names, r[1:]))} for r in rows],
        "level": level,
        "estimates": [float(v / c) for v, c in zip(best, scale)],
        "limits": [[v / float(scale[j]) for v in limits(penalised, best, j, fall)] for j in range(p)],
        "penalisedLogLikelihood": float(penalised(best) + mpmath.fsum(mpmath.log(c) for c in scale)),
    }


def lognormal(values, level):
    """values: number, or (low, high) with 0 and None for open ends"""
    spans = [(v, v) if not isinstance(v, tuple) else v for v in values]
    phi = lambda z: mpmath.ncdf(z)

    def loglik(at):
        m, log_s = at
        s = mpmath.exp(log_s)
        total = mpf(0)
        for low, high in spans:
            if low == high:
                t = mpmath.log(mpf(low))
                total += -((t - m) ** 2) / (2 * s * s) - log_s - t - mpmath.log(2 * mpmath.pi) / 2
            else:
                lo = phi((mpmath.log(mpf(low)) - m) / s) if low else mpf(0)
                total += mpmath.log((phi((mpmath.log(mpf(high)) - m) / s) if high is not None else mpf(1)) - lo)
        return total

    rough = [mpmath.log(mpf(low or high if low != high else low)) for low, high in spans]
    m0 = mpmath.fsum(rough) / len(rough)
    s0 = mpmath.sqrt(mpmath.fsum((r - m0) ** 2 for r in rough) / len(rough))
    best = top(loglik, [m0, mpmath.log(s0)])
    m, s = best[0], mpmath.exp(best[1])
    fall = mpmath.erfinv(mpf(level)) ** 2
    mean = lambda at: loglik([at[0] - mpmath.exp(2 * at[1]) / 2, at[1]])
    number = lambda v: {"below": v[1]} if v[0] == 0 else {"above": v[0]} if v[1] is None else {"between": list(v)}
    exp = lambda pair: [float(mpmath.exp(v)) for v in pair]
    return {
        "values": [number(v) if isinstance(v, tuple) else v for v in values],
        "level": level,
        "meanLog": float(m),
        "sdLog": float(s),
        "logLikelihood": float(loglik(best)),
        "geometricMean": exp(limits(loglik, best, 0, fall)),
        "geometricSd": [float(mpmath.exp(mpmath.exp(v))) for v in limits(loglik, best, 1, fall)],
        "mean": exp(limits(mean, [m + s * s / 2, best[1]], 0, fall)),
    }


FIRTH = [
    (["x"], [(1, 1)] * 3 + [(0, 0)] * 4, 0.95),
    (["x"], [(1, 1), (0, 0)], 0.95),
    ([], [(1,)] * 5, 0.95),
    ([], [(0,)] * 9 + [(1,)], 0.8),
    (["age"], [(1, 81), (1, 64), (0, 43), (1, 77), (0, 22), (0, 64), (0, 39), (1, 70), (0, 58)], 0.95),
    (["ward", "shower"], [(1, 1, 1), (1, 0, 1), (1, 1, 1), (1, 0, 1), (0, 1, 0), (0, 0, 0), (0, 1, 1), (0, 0, 0), (0, 1, 0), (0, 0, 0)], 0.9),
    (["litres"], [(1, 1200.5), (1, 90000), (0, 3), (0, 17), (1, 40), (0, 800), (0, 2)], 0.99),
    (["tiny"], [(1, 1e-6), (0, 2e-6), (0, -4e-6), (1, 7e-6), (0, 1e-6), (1, 3e-6)], 0.95),
    (["rare"], [(1, 1)] + [(0, 0)] * 7 + [(1, 0)] * 3, 0.95),
]
LOGNORMAL = [
    ([5, 8], 0.95),
    ([3, 4, (0, 1), (0, 10), (0, 100)], 0.95),
    ([1200, (0, 100), (0, 100), (0, 100), (0, 100), (0, 100), 150], 0.95),
    ([(1, 10), (10, 100), (10, 100), (100, 1000), (0, 1)], 0.95),
    ([20, 30, (100, None), (100, None), (0, 10), 55], 0.9),
    ([1e-3, 2e6, 40, (0, 50), (1e3, None)], 0.95),
    ([100, 101, 102, 103, (0, 100.5)], 0.95),
    ([(2, 3), 2.5, 2.6, (0, 2.55), (2.4, None), 7], 0.68),
]
print(json.dumps({
    "tool": f"mpmath {mpmath.__version__}, 50 digits",
    "firth": [firth(*case) for case in FIRTH],
    "lognormal": [lognormal(*case) for case in LOGNORMAL],
}))
