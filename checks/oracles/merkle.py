"""Merkle trees after RFC 6962, section 2.1, by nothing but hashlib: roots, inclusion and consistency proofs.

Run in this folder: python3 merkle.py > merkle.json
The eight leaves are those of the public reference tests of certificate transparency; nothing here uses the product.
Method: the recursive definitions of the RFC over lists, no shared code, no incremental form.
"""
import hashlib
import json
import platform

LEAVES = [bytes.fromhex(text) for text in (
    "", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")]


def split(n):
    k = 1
    while k << 1 < n:
        k <<= 1
    return k


def mth(d):
    if not d:
        return hashlib.sha256(b"").digest()
    if len(d) == 1:
        return hashlib.sha256(b"\x00" + d[0]).digest()
    k = split(len(d))
    return hashlib.sha256(b"\x01" + mth(d[:k]) + mth(d[k:])).digest()


def path(m, d):
    if len(d) == 1:
        return []
    k = split(len(d))
    return path(m, d[:k]) + [mth(d[k:])] if m < k else path(m - k, d[k:]) + [mth(d[:k])]


def subproof(m, d, whole):
    if m == len(d):
        return [] if whole else [mth(d)]
    k = split(len(d))
    if m <= k:
        return subproof(m, d[:k], whole) + [mth(d[k:])]
    return subproof(m - k, d[k:], False) + [mth(d[:k])]


SIZES = range(0, len(LEAVES) + 1)
print(json.dumps({
    "script": "merkle.py",
    "python": platform.python_version(),
    "leaves": [leaf.hex() for leaf in LEAVES],
    "leafHashes": [mth([leaf]).hex() for leaf in LEAVES],
    "roots": [mth(LEAVES[:n]).hex() for n in SIZES],
    "inclusion": [{"index": m, "size": n, "path": [h.hex() for h in path(m, LEAVES[:n])]} for n in SIZES for m in range(n)],
    "consistency": [{"earlier": m, "size": n, "path": [h.hex() for h in subproof(m, LEAVES[:n], True)]}
                    for n in SIZES for m in range(1, n + 1)],
}, indent=1))
