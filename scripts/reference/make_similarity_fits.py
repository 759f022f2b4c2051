"""Writes test/reference/similarity-fits.json: best similarity fits of point sets in a plane, by two ways that share no code with Lacunar.

1. Umeyama's algorithm as printed (IEEE PAMI 13, 1991, p. 376, eqs. 34 to 43) with numpy's singular value decomposition.
2. scipy.spatial.procrustes: its disparity is what remains of the squares after both sets are centred and scaled to 1.

Needs numpy and scipy. Run: python3 scripts/reference/make_similarity_fits.py
"""

import json
import pathlib

import numpy as np
from scipy.spatial import procrustes

rng = np.random.default_rng(19910410)


def umeyama(p, q):
    n = len(p)
    pc, qc = p - p.mean(axis=0), q - q.mean(axis=0)
    u, d, vt = np.linalg.svd(qc.T @ pc / n)
    s = np.eye(2)
    if np.linalg.det(u) * np.linalg.det(vt) < 0:
        s[1, 1] = -1
    rotation = u @ s @ vt
    scale = np.trace(np.diag(d) @ s) / ((pc**2).sum() / n)
    left = qc - scale * pc @ rotation.T
    return scale, float(np.degrees(np.arctan2(rotation[1, 0], rotation[0, 0]))), float(np.sqrt((left**2).sum() / n))


cases = []
for n, noise in [(4, 0.0), (4, 5.0), (5, 20.0), (7, 8.0), (12, 40.0), (30, 3.0)]:
    p = rng.uniform(0, 600, (n, 2))
    angle, size = rng.uniform(-np.pi, np.pi), rng.uniform(0.5, 2)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    q = size * p @ turn.T + rng.uniform(-1000, 1000, 2) + rng.normal(0, noise, (n, 2)) if noise else size * p @ turn.T
    p, q = p.round(3), q.round(3)
    scale, turn_deg, rms = umeyama(p, q)
    cases.append(
        {
            "from": p.tolist(),
            "to": q.tolist(),
            "scale": scale,
            "turnDeg": turn_deg,
            "rms": rms,
            "disparity": float(procrustes(q, p)[2]),
        }
    )

# A mirrored set: no turn makes it fit, and none must be made up.
p = np.array([[0, 0], [300, 0], [300, 200], [0, 120]], float)
q = p * [-1, 1]
scale, turn_deg, rms = umeyama(p, q)
cases.append({"from": p.tolist(), "to": q.tolist(), "scale": scale, "turnDeg": turn_deg, "rms": rms, "disparity": None})

path = pathlib.Path(__file__).parents[2] / "test/reference/similarity-fits.json"
path.write_text(json.dumps(cases) + "\n")
print(f"{len(cases)} fits, numpy {np.__version__}")
