"""Heat of pipes by other means than the product's.

Surface temperature: Brent's method on the heat balance. Cooling and loops: implicit Runge-Kutta (Radau) in time or length, to 1e-9.
Water: a spline through IF97 values at 101.325 kPa; air: a spline through a handbook table of dry air at one atmosphere
(Incropera, Fundamentals of heat and mass transfer, table A.4; memory). Only the correlation of Churchill and Chu is shared.
Run: python3 heat.py > heat.json
"""
import json
import platform
from math import log, pi

import scipy
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

C = [5, 10, 20, 30, 40, 50, 60, 70, 80]
RHO = CubicSpline(C, [999.967, 999.702, 998.206, 995.652, 992.224, 988.048, 983.211, 977.779, 971.803])
CP = CubicSpline(C, [4204.9, 4195.4, 4184.8, 4180.0, 4178.6, 4179.6, 4182.8, 4188.1, 4195.5])
# K: kinematic viscosity 1e-6 m2/s, conductivity 1e-3 W/(m K), Prandtl number
K = [250, 300, 350, 400]
NU = CubicSpline(K, [11.44, 15.89, 20.92, 26.41])
KA = CubicSpline(K, [22.3, 26.3, 30.0, 33.8])
PR = CubicSpline(K, [0.720, 0.707, 0.700, 0.690])
SOLID = {"copper": (380, 8900 * 380), "pex": (0.35, 940 * 2000), "steel": (50, 7800 * 450)}


def loss(pipe, water, air):
    """W/m, positive out of the pipe."""
    wrapped = (pipe["od"] + 2 * pipe["ins"]) / 1000
    layers = log(pipe["od"] / pipe["bore"]) / (2 * pi * SOLID[pipe["material"]][0])
    if pipe["ins"] > 0:
        layers += log(wrapped * 1000 / pipe["od"]) / (2 * pi * pipe["k"])

    def out(surface):
        film = (surface + air) / 2 + 273.15
        nu, conductivity, pr = NU(film) * 1e-6, KA(film) * 1e-3, PR(film)
        rayleigh = 9.81 / film * abs(surface - air) * wrapped**3 / nu**2 * pr
        nusselt = (0.6 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
        radiated = pipe["e"] * 5.67e-8 * ((surface + 273.15) ** 4 - (air + 273.15) ** 4)
        return pi * wrapped * (nusselt * conductivity / wrapped * (surface - air) + radiated)

    if water == air:
        return 0.0
    surface = brentq(lambda s: (water - s) / layers - out(s), min(water, air), max(water, air), xtol=1e-12)
    return out(surface)


def heat(pipe, water):
    wrapped = pipe["od"] + 2 * pipe["ins"]
    solid = (pipe["od"] ** 2 - pipe["bore"] ** 2) * SOLID[pipe["material"]][1]
    coat = (wrapped**2 - pipe["od"] ** 2) * 50 * 1000 / 2
    return pi / 4 * 1e-6 * (pipe["bore"] ** 2 * RHO(water) * CP(water) + solid + coat)


def standing(pipe, start, air, minutes):
    run = solve_ivp(
        lambda _, t: [-60 * loss(pipe, t[0], air) / heat(pipe, t[0])], (0, minutes), [start], "Radau", rtol=1e-9, atol=1e-9
    )
    return run.y[0][-1]


def segment(pipe, start, air, metres, flow):
    mass = flow / 60000 * RHO(start)
    run = solve_ivp(lambda _, t: [-loss(pipe, t[0], air) / (mass * CP(t[0]))], (0, metres), [start], "Radau", rtol=1e-9, atol=1e-9)
    return run.y[0][-1]


PIPES = [
    dict(material="copper", bore=13, od=15, ins=0, k=0.04, e=0.9),
    dict(material="copper", bore=20, od=22, ins=0, k=0.04, e=0.05),
    dict(material="copper", bore=39.6, od=42, ins=40, k=0.037, e=0.9),
    dict(material="pex", bore=11.6, od=16, ins=9, k=0.04, e=0.9),
    dict(material="steel", bore=105.3, od=114.3, ins=30, k=0.045, e=0.3),
    dict(material="steel", bore=260.4, od=273, ins=0, k=0.04, e=0.8),
]
CASES = [(60, 22), (70, 35), (55, 10), (8, 30)]

print(
    json.dumps(
        dict(
            made_with=dict(python=platform.python_version(), scipy=scipy.__version__),
            loss=[dict(pipe=p, water=w, air=a, watts=loss(p, w, a)) for p in PIPES for w, a in CASES],
            standing=[
                dict(pipe=p, start=w, air=a, minutes=m, end=standing(p, w, a, m)) for p in PIPES for w, a in CASES for m in (15, 180)
            ],
            segment=[
                dict(pipe=p, start=w, air=a, metres=80, flow=f, end=segment(p, w, a, 80, f)) for p in PIPES[:4] for w, a in CASES for f in (1, 8)
            ],
        ),
        indent=1,
    )
)
