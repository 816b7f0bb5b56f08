"""Firth's penalised logistic model by general optimisation (SciPy), not by modified scores.

Estimates: a downhill search of the penalised likelihood, polished by solving a numerical gradient; limits: Brent's root of the profile.
Invented data. Run: python3 penalised.py > penalised.json
"""
import json

import numpy as np
import scipy
from scipy.optimize import brentq, minimize
from scipy.stats import chi2

rng = np.random.default_rng(7)


def penalised(beta, x, y):
    eta = x @ beta
    ll = -np.sum(np.logaddexp(0, np.where(y == 1, -eta, eta)))
    pi = 1 / (1 + np.exp(-eta))
    sign, det = np.linalg.slogdet(x.T @ (x * (pi * (1 - pi))[:, None]))
    return ll + det / 2 if sign > 0 else -np.inf


def best(x, y, held=None):
    """held: (column, value)"""
    p = x.shape[1]
    free = [j for j in range(p) if held is None or j != held[0]]

    def full(part):
        beta = np.empty(p)
        beta[free] = part
        if held is not None:
            beta[held[0]] = held[1]
        return beta

    if not free:
        return penalised(full([]), x, y), full([])
    at = np.zeros(len(free))
    for _ in range(3):
        at = minimize(lambda b: -penalised(full(b), x, y), at, method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-14, "maxiter": 20000, "maxfev": 20000}).x
    return penalised(full(at), x, y), full(at)


def study(n, p, separated):
    z = np.round(rng.normal(size=(n, p)), 2)
    z[:, 0] = (z[:, 0] > 0.3) * 1.0
    x = np.column_stack([np.ones(n), z])
    y = (rng.uniform(size=n) < 1 / (1 + np.exp(-(x @ np.linspace(-0.6, 1.1, p + 1))))).astype(float)
    if separated:
        y[z[:, 0] == 1] = 1
    top, beta = best(x, y)
    limits = []
    for j in range(p + 1):
        wanted = top - chi2.ppf(0.95, 1) / 2
        f = lambda b: best(x, y, (j, b))[0] - wanted
        step = 1.0
        lo, hi = beta[j] - step, beta[j] + step
        while f(lo) > 0:
            lo -= step
        while f(hi) > 0:
            hi += step
        limits.append([brentq(f, lo, beta[j], xtol=1e-10), brentq(f, beta[j], hi, xtol=1e-10)])
    rows = [{"outcome": int(v), **{f"x{j + 1}": float(r[j]) for j in range(p)}} for v, r in zip(y, z)]
    return {"rows": rows, "estimates": beta.tolist(), "limits": limits, "penalisedLogLikelihood": top}


print(json.dumps({"tool": f"NumPy {np.__version__}, SciPy {scipy.__version__}", "studies": [study(24, 1, True), study(40, 2, False), study(30, 2, True)]}, indent=1))
