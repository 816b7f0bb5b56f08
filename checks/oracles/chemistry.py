"""Chlorine, killing, mixing and flushing by other means than the product's.

Equilibrium and mixing: Brent's method on the balance. Decay at a wall: the flux through the film solved at each instant, marched by
LSODA to 1e-11. Laminar displacement: quadrature over the parabolic profile. Water: water.py. Published points of killing and scalding
are those of the literature named in reference/, joined by NumPy's interpolation of logarithms.
Run: python3 chemistry.py > chemistry.json
"""
import json
import platform
from math import exp, log10, pi, sqrt

import numpy
import scipy
import water
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

# IUPAC abridged standard atomic weights (2021)
MASS = dict(H=1.008, C=12.011, O=15.999, Na=22.990, S=32.06, Cl=35.45)


def molar(**atoms):
    return sum(MASS[atom] * count for atom, count in atoms.items())


# agent: molar mass, electrons it can give at least and at most; chlorine takes two
AGENTS = {
    "sodium-thiosulfate": (molar(Na=2, S=2, O=3), 1, 8),
    "sodium-thiosulfate-pentahydrate": (molar(Na=2, S=2, O=8, H=10), 1, 8),
    "sodium-bisulfite": (molar(Na=1, H=1, S=1, O=3), 2, 2),
    "sodium-metabisulfite": (molar(Na=2, S=2, O=5), 4, 4),
    "sodium-sulfite": (molar(Na=2, S=1, O=3), 2, 2),
    "ascorbic-acid": (molar(C=6, H=8, O=6), 2, 2),
    "sodium-ascorbate": (molar(C=6, H=7, O=6, Na=1), 2, 2),
}


def dechlorination():
    for agent, (mass, fewest, most) in AGENTS.items():
        yield dict(agent=agent, least=mass * 2 / most / molar(Cl=2), most=mass * 2 / fewest / molar(Cl=2))


def acid_share(ph, celsius):
    kelvin = celsius + 273.15
    ka = 10 ** -(3000 / kelvin - 10.0686 + 0.0253 * kelvin)
    return brentq(lambda a: 10**-ph * (1 - a) - ka * a, 0, 1, xtol=1e-300, rtol=1e-15)


HYPOCHLOROUS = [(0, 20), (14, 20), (7, 0), (7.4, 60), (2, 5), (11.5, 45), (8.25, 33), (6.3, 12), (7.55, 22), (9.1, 59.9), (5, 1), (13, 35)]


def film(bore, celsius, flow, length, still):
    d, nu = bore / 1000, water.kinematic(celsius)
    mu = water.viscosity(celsius + 273.15, water.density(celsius))
    diffusivity = 1.2077e-9 * (celsius + 273.15) / 293.15 * water.viscosity(293.15, water.density(20)) / mu
    re, sc = 4 * flow / 60000 / (pi * d * nu), nu / diffusivity
    if re < 1:
        sh = still
    elif re < 2300:
        y = d / length * re * sc if length else 0
        sh = 3.65 + 0.0668 * y / (1 + 0.04 * y ** (2 / 3))
    else:
        sh = 0.0149 * re**0.88 * sc ** (1 / 3)
    return sh * diffusivity / d * 3600


def decay(c):
    kelvin, reference = c["temperatureC"] + 273.15, c["referenceC"] + 273.15
    energy = c.get("activationKJPerMol")
    warm = 1.1 ** (kelvin - reference) if energy is None else exp(energy * 1000 / 8.314462618 * (1 / reference - 1 / kelvin))
    wall = c["wallMPerHour"]
    kf = film(c["boreMm"], c["temperatureC"], c["flowLPerMin"], c.get("lengthM"), c["standingSherwood"]) if wall else 1

    def slope(_, y):
        at_wall = brentq(lambda w: kf * (y[0] - w) - wall * w, 0, y[0] + 1e-30, xtol=1e-18) if wall else 0
        return [-c["bulkPerHour"] * warm * y[0] - (4000 / c["boreMm"] * wall * at_wall if wall else 0)]

    return solve_ivp(slope, (0, c["hours"]), [c["startMgPerL"]], "LSODA", rtol=1e-11, atol=1e-14).y[0][-1] if c["hours"] else c["startMgPerL"]


def water_case(start, hours, bulk, wall=0.0, bore=13.0, warm=20.0, reference=20.0, flow=0.0, length=None, energy=None, still=3.65):
    case = dict(startMgPerL=start, hours=hours, bulkPerHour=bulk, wallMPerHour=wall, boreMm=bore, temperatureC=warm, referenceC=reference)
    case |= dict(flowLPerMin=flow, standingSherwood=still)
    return case | ({"lengthM": length} if length else {}) | ({"activationKJPerMol": energy} if energy is not None else {})


DECAY = [
    ("bottle at 20 °C", water_case(0.8, 24, 0.02)),
    ("bottle at 0 °C", water_case(2, 72, 0.05, warm=0)),
    ("bottle at 100 °C", water_case(1, 0.1, 0.001, warm=100)),
    ("reference above the water", water_case(1, 10, 0.1, warm=5, reference=25)),
    ("activation 55 kJ/mol at 60 °C", water_case(1, 5, 0.02, warm=60, energy=55)),
    ("activation of nothing", water_case(1, 5, 0.02, warm=60, energy=0)),
    ("standing, small bore, cold", water_case(0.5, 8, 0.01, 0.002, 10, 8)),
    ("standing, hot", water_case(0.5, 2, 0.01, 0.002, 20, 60)),
    ("standing, Sherwood 2", water_case(0.5, 8, 0.0, 0.01, 13, 25, still=2)),
    ("wall takes all", water_case(1, 3, 0.0, 1000, 13, 15)),
    ("wall takes next to nothing", water_case(1, 100, 0.0, 1e-7, 13, 15)),
    ("trickle, laminar, short", water_case(1, 0.5, 0.02, 0.01, 13, 20, flow=0.5, length=2)),
    ("laminar, long", water_case(1, 1, 0.02, 0.01, 20, 45, flow=0.8, length=100)),
    ("turbulent", water_case(1, 0.2, 0.02, 0.05, 20, 12, flow=15, length=30)),
    ("turbulent, hot, wide", water_case(1, 4, 0.1, 0.02, 100, 55, flow=200, length=500)),
    ("no time", water_case(1, 0, 5, 1)),
]


def enthalpy(a, b):
    """J/kg from a to b degrees Celsius."""
    return quad(water.heat_capacity, a, b, epsabs=1e-9)[0]


def mixed(hot, cold, q_hot, q_cold):
    def surplus(t):
        return q_hot * water.density(hot) * enthalpy(t, hot) - q_cold * water.density(cold) * enthalpy(cold, t)

    return hot if hot == cold else brentq(surplus, min(hot, cold), max(hot, cold), xtol=1e-12)


MIXED = [(60, 10, 3, 2), (100, 0, 1, 1), (99, 1, 1, 9), (50, 20, 0.2, 11), (38, 38, 1, 1), (70, 4, 7, 3), (10, 60, 1, 1), (65, 12, 1e-6, 1), (80, 5, 1000, 1), (45, 44, 2, 5)]


def old_share(turnovers):
    """Share of laminar outflow that is still old after so many contents: where the parabola is slower than 1/turnovers."""
    edge = sqrt(max(0.0, 1 - 1 / (2 * turnovers)))
    return quad(lambda r: 4 * (1 - r * r) * r, edge, 1, epsabs=1e-14)[0]


HEAT = {
    "Sanden": ([45, 50, 55, 60, 66], [2500, 380, 13.93, 0.74, 0.45]),
    "fastest": ([50, 60], [80, 2]),
    "slowest": ([50, 60], [124, 2]),
    "pooled": ([60], [2]),
    "Dennis": ([50, 54, 58], [111, 27, 6]),
    "Stout": ([60, 70, 80], [25 / 8, 10 / 8, 5 / 8]),
}


def joined(points, at, slope=0.0):
    """Straight in the logarithm between points; beyond them one power of ten for each 1/slope degrees."""
    x, y = points
    inside = min(max(at, x[0]), x[-1])
    return 10 ** (numpy.interp(inside, x, [log10(each) for each in y]) + (inside - at) * slope)


def killing(celsius):
    times = sorted(joined(points, celsius, 1 / 5.29) for points in HEAT.values())
    return dict(celsius=celsius, lower=times[0], central=sqrt(times[2] * times[3]), upper=times[-1])


FREE = [(4 / 2, 7.6, 21), (12 / 6.778, 7.4, 25), (25 / 6.778, 7.4, 25), (15 / 6.778, 7.4, 25)]
COLD = log10(2 * acid_share(7.6, 4) / acid_share(7.6, 21)) / 17


def contact(ph, celsius):
    def hard(p, t):
        t = min(t, 25)
        return 10 ** (COLD * (21 - t)) / acid_share(p, t)

    ct = sorted(k * hard(ph, celsius) / hard(p, t) for k, p, t in FREE)
    return dict(pH=ph, celsius=celsius, lower=ct[0], central=sqrt(ct[1] * ct[2]), upper=ct[3])


PARTIAL = ([45, 47, 48, 49, 51, 55, 60, 66, 68], [7200, 1200, 900, 480, 120, 17, 3, 1.5, 1])
DEEP = ([45, 47, 48, 49, 51, 55, 60, 66, 68], [10800, 2700, 1200, 600, 252, 30, 5, 1.5, 1])
INFANT = ([48.9, 60, 65.6], [240, 1, 0.5])


def scald(celsius):
    adult = joined(PARTIAL, celsius)
    child = min(adult, joined(INFANT, celsius)) if celsius >= 48.9 else adult * 240 / joined(PARTIAL, 48.9)
    return dict(celsius=celsius, adult=adult, deep=joined(DEEP, celsius), child=child)


if __name__ == "__main__":
    made = dict(python=platform.python_version(), scipy=scipy.__version__, numpy=numpy.__version__)
    found = dict(
        made_with=made,
        dechlorination=list(dechlorination()),
        hypochlorous=[dict(pH=p, celsius=t, share=acid_share(p, t)) for p, t in HYPOCHLOROUS],
        decay=[dict(name=name, input=case, left=decay(case)) for name, case in DECAY],
        mixed=[dict(hot=h, cold=c, qHot=a, qCold=b, end=mixed(h, c, a, b)) for h, c, a, b in MIXED],
        displaced=[dict(turnovers=n, old=old_share(n)) for n in [0.5, 0.51, 0.707106781186548, 1, 1.3, 1.58113883, 2.2360679775, 5, 40]],
        killing=[killing(t) for t in [45, 46.3, 50, 52.5, 55, 57.9, 60, 63, 66, 68.2, 70, 74, 80]],
        contact=[contact(p, t) for p, t in [(5, 0), (6.2, 9), (7, 4), (7.5, 20), (8.1, 25), (8.9, 31), (10, 60), (7.6, 100), (9.5, 13)]],
        scald=[scald(t) for t in [45, 45.5, 46.9, 48, 48.89, 48.91, 50, 52, 54.4, 58, 60, 62.8, 65.6, 67, 68, 90]],
    )
    print(json.dumps(found, indent=1))
