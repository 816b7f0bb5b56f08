"""One odds ratio for all groups? Breslow and Day's chi-squared, and Tarone's, by statsmodels' StratifiedTable; risk ratio and its limits too.

The data are open or invented as named. Run: python3 homogeneity.py > homogeneity.json
"""
import json

import numpy as np
import scipy
import statsmodels
from scipy.stats import chi2
from statsmodels.stats.contingency_tables import StratifiedTable

rng = np.random.default_rng(5)


def invented(groups, most):
    return [[int(v) for v in rng.integers(1, most, size=4)] for _ in range(groups)]


# exposed ill, exposed well, unexposed ill, unexposed well
STUDIES = [
    ("admissions of six departments (R datasets, UCBAdmissions), by sex", [[512, 313, 89, 19], [353, 207, 17, 8], [120, 205, 202, 391], [138, 279, 131, 244], [53, 138, 94, 299], [22, 351, 24, 317]]),
    ("smoking of two age bands, invented", [[59, 200, 15, 190], [80, 100, 40, 160]]),
    ("Oswego, vanilla by chocolate (R package epitools)", [[20, 5, 0, 2], [22, 6, 3, 16]]),
    ("four small groups", invented(4, 12)),
    ("twelve groups", invented(12, 40)),
    ("five large groups", invented(5, 5000)),
    ("odds ratio far below one", [[1, 400, 30, 200], [2, 300, 50, 170], [1, 90, 12, 60]]),
    ("odds ratio far above one", [[90, 2, 10, 300], [45, 1, 4, 80], [30, 6, 3, 200]]),
    ("a thin group", [[1, 0, 0, 1], [12, 9, 5, 20], [7, 3, 2, 8]]),
    ("equal odds ratios, so no excess", [[10, 20, 5, 20], [20, 40, 10, 40]]),
]


def number(value):
    return float(value) if np.isfinite(value) else None


def one(name, tables):
    st = StratifiedTable([np.array(t, dtype=float).reshape(2, 2) for t in tables])
    plain, tarone = st.test_equal_odds(adjust=False), st.test_equal_odds(adjust=True)
    null = st.test_null_odds(correction=False)
    return {
        "name": name,
        "tables": tables,
        "oddsRatio": number(st.oddsratio_pooled),
        "interval": [number(v) for v in st.oddsratio_pooled_confint(0.05)],
        "riskRatio": number(st.riskratio_pooled),
        "chiSquared": number(null.statistic),
        "breslowDay": number(plain.statistic),
        "tarone": number(tarone.statistic),
        # its own p value is 1 less the distribution and loses the digits of a small one
        "p": number(chi2.sf(tarone.statistic, len(tables) - 1)),
    }


print(json.dumps({"tool": f"statsmodels {statsmodels.__version__}, SciPy {scipy.__version__}", "studies": [one(*s) for s in STUDIES]}, indent=1))
