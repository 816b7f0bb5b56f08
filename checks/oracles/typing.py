"""Allele differences, trees and the index of discrimination by NumPy and SciPy. Invented profiles with missing loci.

Run: python3 typing.py > typing.json
"""
import json

import numpy as np
import scipy
from scipy.sparse.csgraph import connected_components, minimum_spanning_tree
from scipy.spatial.distance import pdist, squareform

rng = np.random.default_rng(11)


def study(n, loci, alleles, missing):
    base = rng.integers(1, alleles, size=loci)
    x = np.where(rng.uniform(size=(n, loci)) < 0.3, rng.integers(1, alleles, size=(n, loci)), base).astype(float)
    x[rng.uniform(size=x.shape) < missing] = np.nan

    def known(u, v):
        return int(np.sum(~np.isnan(u) & ~np.isnan(v)))

    def differ(u, v):
        both = ~np.isnan(u) & ~np.isnan(v)
        return int(np.sum(u[both] != v[both]))

    d = squareform(pdist(x, differ)).astype(int)
    k = squareform(pdist(x, known)).astype(int)
    # SciPy takes 0 for "no edge": distances go up by one for the tree and down again.
    tree = minimum_spanning_tree(d + 1.0)
    assert connected_components(tree)[0] == 1
    return {
        "profiles": [[None if np.isnan(v) else int(v) for v in row] for row in x],
        "distances": d.tolist(),
        "compared": k.tolist(),
        "treeTotal": int(tree.sum()) - (n - 1),
    }


def index(counts):
    """By listing every pair, not by the formula."""
    types = [t for t, c in enumerate(counts) for _ in range(c)]
    pairs = [(a, b) for i, a in enumerate(types) for b in types[i + 1 :]]
    return sum(a != b for a, b in pairs) / len(pairs)


counts = [[40, 30, 20, 10], [3, 3, 3, 1, 1], [17], [1, 1], [60, 2, 1]]
print(json.dumps({
    "tool": f"NumPy {np.__version__}, SciPy {scipy.__version__}",
    "studies": [study(12, 7, 9, 0.0), study(25, 70, 40, 0.08), study(9, 33, 3, 0.3)],
    "indices": [{"counts": c, "index": index(c)} for c in counts],
}))
