"""Heat of pipes by other means than the product's.

Surface temperature: Brent's method on the heat balance. Cooling and loops: implicit Runge-Kutta (Radau) in time or length, to 1e-9.
Water: a spline through IF97 values at 101.325 kPa; air: a spline through a handbook table of dry air at one atmosphere
(Incropera, Fundamentals of heat and mass transfer, table A.4; memory). Only the correlation of Churchill and Chu is shared.
The "odd" cases are another matter: there air is that of the U.S. Standard Atmosphere 1976, written out anew, and water that of water.py,
so that only the solving and the arithmetic differ, and what is left between the two is rounding and the formulation of water.
Run: python3 heat.py > heat.json
"""
import json
import platform
from math import log, pi, sqrt

import scipy
import water as liquid
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



def standard_air(kelvin):
    """Kinematic viscosity, conductivity, Prandtl number."""
    mu = 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)
    k = 2.64638e-3 * kelvin**1.5 / (kelvin + 245.4 * 10 ** (-12 / kelvin))
    gas = 8.31432 / 0.0289644
    return mu * gas * kelvin / 101325, k, mu * 3.5 * gas / k


def convection(diameter, surface, air, height):
    """W/(m2 K). An upright pipe by Popiel, but never above the level one."""
    nu, k, pr = standard_air((surface + air) / 2 + 273.15)
    grashof = 9.80665 / ((surface + air) / 2 + 273.15) * abs(surface - air) / nu**2
    level = (0.60 + 0.387 * (grashof * diameter**3 * pr) ** (1 / 6) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)) ** 2 * k / diameter
    if not height or grashof == 0:
        return level
    tall = grashof * height**3
    plate = (0.825 + 0.387 * (tall * pr) ** (1 / 6) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
    b = 0.0571322 + 0.20305 * pr**-0.43
    c = 0.9165 - 0.0043 * sqrt(pr) + 0.01333 * log(pr) + 0.0004809 / pr
    return min(level, plate * (1 + b * (sqrt(32) / tall**0.25 * height / diameter) ** c) * k / height)


CONDUCTS = {"copper": 380, "steel": 50, "stainless-steel": 17, "pex": 0.35, "pp-r": 0.22, "pvc": 0.17}


def odd_loss(p, water, air):
    wrapped = (p["od"] + 2 * p["ins"]) / 1000
    layers = log(p["od"] / p["bore"]) / (2 * pi * CONDUCTS[p["material"]])
    if p["ins"] > 0:
        layers += log(wrapped * 1000 / p["od"]) / (2 * pi * p["k"])

    def out(surface):
        radiated = p["e"] * 5.670374419e-8 * ((surface + 273.15) ** 4 - (air + 273.15) ** 4)
        return pi * wrapped * (convection(wrapped, surface, air, p.get("high")) * (surface - air) + radiated)

    if water == air:
        return 0.0, water
    low, high = min(water, air), max(water, air)
    surface = water if layers == 0 else brentq(lambda s: (water - s) / layers - out(s), low, high, xtol=1e-13, rtol=1e-15)
    return out(surface), surface


def odd_heat(p, water):
    held = pi / 4 * 1e-6 * p["bore"] ** 2 * liquid.density(water) * liquid.heat_capacity(water)
    solid = {"copper": 8900 * 380, "steel": 7800 * 450, "stainless-steel": 7900 * 460, "pex": 940 * 2000, "pp-r": 910 * 1800, "pvc": 1390 * 900}
    wall = (p["od"] ** 2 - p["bore"] ** 2) * solid[p["material"]]
    coat = ((p["od"] + 2 * p["ins"]) ** 2 - p["od"] ** 2) * 50 * 1000 / 2
    return held + pi / 4 * 1e-6 * (wall + coat)


def march(slope, start, span):
    return solve_ivp(lambda _, t: [slope(t[0])], (0, span), [start], "LSODA", rtol=1e-11, atol=1e-11).y[0][-1] if span else start


def odd_standing(p, start, air, minutes):
    return march(lambda t: -60 * odd_loss(p, t, air)[0] / odd_heat(p, t), start, minutes)


def odd_segment(p, start, air, metres, flow, dense=None):
    mass = flow / 60000 * (dense or liquid.density(start))
    return march(lambda t: -odd_loss(p, t, air)[0] / (mass * liquid.heat_capacity(t)), start, metres)


def tube(material, bore, od, ins=0.0, k=0.04, e=0.9, high=None):
    return dict(material=material, bore=bore, od=od, ins=ins, k=k, e=e, **({"high": high} if high else {}))


COPPER = tube("copper", 20, 22)
ODD_LOSS = [
    ("bare dull copper", COPPER, 60, 22),
    ("bare bright copper", tube("copper", 20, 22, e=0.05), 60, 22),
    ("no radiation at all", tube("copper", 20, 22, e=0.0), 60, 22),
    ("black", tube("copper", 20, 22, e=1.0), 60, 22),
    ("boiling in the coldest air", COPPER, 100, -40),
    ("ice water in the hottest air", COPPER, 0, 80),
    ("a millikelvin", COPPER, 22.001, 22),
    ("a millikelvin the other way", COPPER, 21.999, 22),
    ("equal", COPPER, 22, 22),
    ("a capillary of 1 mm", tube("copper", 0.5, 1), 60, 22),
    ("three metres wide", tube("steel", 2980, 3000), 60, 22),
    ("half a metre of wool", tube("copper", 50, 54, 500, 0.035), 60, 22),
    ("a tenth of a millimetre", tube("copper", 20, 22, 0.1, 0.035), 60, 22),
    ("insulation that conducts like steel", tube("copper", 20, 22, 10, 50), 60, 22),
    ("vacuum-like insulation", tube("copper", 20, 22, 10, 0.001), 60, 22),
    ("below the critical radius, bright", tube("copper", 4, 6, 2, 0.2, e=0.05), 60, 22),
    ("thick plastic, cold water in a warm shaft", tube("pp-r", 18, 25), 9, 31),
    ("pvc, lagged", tube("pvc", 27, 32, 13, 0.037), 12, 28),
    ("stainless steel", tube("stainless-steel", 19.6, 22, 19, 0.033, 0.3), 65, 18),
    ("riser of a storey, bare", tube("copper", 20, 22, high=3), 60, 22),
    ("riser of a storey, lagged", tube("copper", 39.6, 42, 30, 0.037, high=2.7), 57.5, 27),
    ("riser of ten storeys, bright", tube("copper", 50, 54, e=0.05, high=30), 70, 15),
    ("cold riser in a hot shaft", tube("steel", 41.9, 48.3, high=3), 8, 35),
    ("short and wide upright", tube("steel", 290, 300, high=0.5), 60, 20),
    ("riser as warm as the air, nearly", tube("copper", 20, 22, high=3), 22.01, 22),
]
ODD_STANDING = [
    ("bare dull", COPPER, 60, 22, 37),
    ("bare bright, overnight", tube("copper", 20, 22, e=0.05), 60, 22, 480),
    ("boiling, icy air", COPPER, 99, 0, 20),
    ("ice water heats in hot air", COPPER, 0, 80, 25),
    ("cold in a warm shaft", tube("pex", 14.4, 20, 13, 0.04), 12, 28, 120),
    ("half a minute", tube("copper", 13, 15), 60, 22, 0.5),
    ("a week in thick wool", tube("steel", 260.4, 273, 100, 0.04), 60, 10, 10080),
    ("riser", tube("copper", 25, 28, 20, 0.035, high=3), 60, 22, 240),
    ("bare riser", tube("copper", 20, 22, high=12), 70, 30, 30),
    ("two kelvin apart", COPPER, 24, 22, 60),
    ("steel, bare", tube("steel", 16, 21.3), 55, 5, 45),
    ("plastic, thick", tube("pp-r", 60, 90, 9, 0.05), 65, 20, 600),
]
ODD_SEGMENT = [
    ("a trickle", COPPER, 60, 22, 20, 0.05),
    ("laminar", tube("copper", 13, 15, 13, 0.04), 60, 22, 30, 0.4),
    ("a gush", COPPER, 60, 22, 30, 40),
    ("two kilometres", tube("steel", 102, 108, 50, 0.037), 75, 10, 2000, 120),
    ("bright", tube("copper", 26, 28, e=0.05), 60, 22, 80, 6),
    ("ice water heats", COPPER, 0, 40, 60, 2),
    ("cold main through a boiler room", tube("pex", 20.4, 26, 9, 0.04), 9, 38, 15, 1.5),
    ("boiling", COPPER, 100, 0, 10, 5),
    ("riser", tube("copper", 20, 22, 20, 0.035, high=3), 60, 25, 60, 3),
    ("no length", COPPER, 60, 22, 0, 3),
    ("a thousandth of a kelvin", COPPER, 22.001, 22, 10, 3),
    ("thin plastic tube", tube("pex", 6, 8), 55, 21, 12, 1),
]


def two_branches():
    """Flow splits 3 : 1 over two branches of unlike pipe, meets again and returns."""
    main, near, far, back = tube("copper", 25, 28, 20, 0.035), tube("pex", 14.4, 20), tube("copper", 13, 15, e=0.05), tube("copper", 20, 22, 13, 0.04)
    dense = liquid.density(62)
    first = odd_segment(main, 62, 20, 25, 4, dense)
    one, two = odd_segment(near, first, 26, 18, 3, dense), odd_segment(far, first, 12, 40, 1, dense)
    return dict(main=main, near=near, far=far, back=back, first=first, one=one, two=two, end=odd_segment(back, (3 * one + two) / 4, 20, 33, 4, dense))


print(
    json.dumps(
        dict(
            made_with=dict(python=platform.python_version(), scipy=scipy.__version__),
            odd_loss=[dict(name=n, pipe=p, water=w, air=a, watts=odd_loss(p, w, a)[0], surface=odd_loss(p, w, a)[1]) for n, p, w, a in ODD_LOSS],
            odd_standing=[dict(name=n, pipe=p, start=s, air=a, minutes=m, end=odd_standing(p, s, a, m)) for n, p, s, a, m in ODD_STANDING],
            odd_segment=[dict(name=n, pipe=p, start=s, air=a, metres=m, flow=f, end=odd_segment(p, s, a, m, f)) for n, p, s, a, m, f in ODD_SEGMENT],
            two_branches=two_branches(),
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
