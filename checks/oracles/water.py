"""Liquid water by other formulations than the product's: IAPWS-IF97 region 1 (volume, heat capacity) and IAPWS R12-08 (viscosity).

Coefficients from memory; the script refuses to run unless the releases' own verification values come out to every digit printed.
Run: python3 water.py > water.json
"""
import json
import platform
from math import exp, sqrt

IF97 = """0 -2 0.14632971213167;0 -1 -0.84548187169114;0 0 -3.7563603672040;0 1 3.3855169168385;0 2 -0.95791963387872;
0 3 0.15772038513228;0 4 -0.16616417199501e-1;0 5 0.81214629983568e-3;1 -9 0.28319080123804e-3;1 -7 -0.60706301565874e-3;
1 -1 -0.18990068218419e-1;1 0 -0.32529748770505e-1;1 1 -0.21841717175414e-1;1 3 -0.52838357969930e-4;2 -3 -0.47184321073267e-3;
2 0 -0.30001780793026e-3;2 1 0.47661393906987e-4;2 3 -0.44141845330846e-5;2 17 -0.72694996297594e-15;3 -4 -0.31679644845054e-4;
3 0 -0.28270797985312e-5;3 6 -0.85205128120103e-9;4 -5 -0.22425281908000e-5;4 -2 -0.65171222895601e-6;4 10 -0.14341729937924e-12;
5 -8 -0.40516996860117e-6;8 -11 -0.12734301741641e-8;8 -6 -0.17424871230634e-9;21 -29 -0.68762131295531e-18;
23 -31 0.14478307828521e-19;29 -38 0.26335781662795e-22;30 -39 -0.11947622640071e-22;31 -40 0.18228094581404e-23;
32 -41 -0.93537087292458e-25"""
TERMS = [(int(i), int(j), float(n)) for i, j, n in (row.split() for row in IF97.replace("\n", "").split(";"))]
GAS = 461.526
ATMOSPHERE_MPA = 0.101325


def volume_and_heat(kelvin, mpa=ATMOSPHERE_MPA):
    """m3/kg and J/(kg K)."""
    p, t = mpa / 16.53, 1386 / kelvin
    slope = sum(-n * i * (7.1 - p) ** (i - 1) * (t - 1.222) ** j for i, j, n in TERMS if i)
    bend = sum(n * (7.1 - p) ** i * j * (j - 1) * (t - 1.222) ** (j - 2) for i, j, n in TERMS)
    return p * slope * GAS * kelvin / (mpa * 1e6), -t * t * bend * GAS


VISCOSITY = {
    (0, 0): 0.520094, (1, 0): 0.0850895, (2, 0): -1.08374, (3, 0): -0.289555, (0, 1): 0.222531, (1, 1): 0.999115,
    (2, 1): 1.88797, (3, 1): 1.26613, (5, 1): 0.120573, (0, 2): -0.281378, (1, 2): -0.906851, (2, 2): -0.772479,
    (3, 2): -0.489837, (4, 2): -0.257040, (0, 3): 0.161913, (1, 3): 0.257399, (0, 4): -0.0325372, (3, 4): 0.0698452,
    (4, 5): 0.00872102, (3, 6): -0.00435673, (5, 6): -0.000593264,
}  # fmt: skip


def viscosity(kelvin, density):
    """Pa s."""
    t, r = kelvin / 647.096, density / 322
    thin = 100 * sqrt(t) / sum(h / t**i for i, h in enumerate([1.67752, 2.20462, 0.6366564, -0.241605]))
    return thin * exp(r * sum(h * (1 / t - 1) ** i * (r - 1) ** j for (i, j), h in VISCOSITY.items())) * 1e-6


def density(celsius):
    return 1 / volume_and_heat(celsius + 273.15)[0]


def heat_capacity(celsius):
    return volume_and_heat(celsius + 273.15)[1]


def kinematic(celsius):
    """m2/s."""
    return viscosity(celsius + 273.15, density(celsius)) / density(celsius)


def verified():
    """Verification values as printed in the releases."""
    v, cp = volume_and_heat(300, 3)
    dense, hard = volume_and_heat(300, 80)
    return [
        (f"{v:.11f}", "0.00100215168"),
        (f"{cp / 1000:.8f}", "4.17301218"),
        (f"{dense:.12f}", "0.000971180894"),
        (f"{hard / 1000:.8f}", "4.01008987"),
        (f"{viscosity(298.15, 998) * 1e6:.6f}", "889.735100"),
        (f"{viscosity(298.15, 1200) * 1e6:.6f}", "1437.649467"),
        (f"{viscosity(373.15, 1000) * 1e6:.6f}", "307.883622"),
    ]


assert all(got == want for got, want in verified()), verified()

if __name__ == "__main__":
    table = [
        dict(celsius=c, density=density(c), heat=heat_capacity(c), viscosity=viscosity(c + 273.15, density(c)) * 1000, kinematic=kinematic(c) * 1e6)
        for c in [0, 0.5, 2, 4, 7, 12, 17, 23, 33, 43, 48, 58, 63, 68, 75, 85, 92, 99]
    ]
    print(json.dumps(dict(made_with=dict(python=platform.python_version()), liquid=table), indent=1))
