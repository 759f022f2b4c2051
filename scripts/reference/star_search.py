"""Finds the part of the sky that a set of dots shows, knowing nothing but the kind of projection.

A camera frame is (left, up, forward), right-handed, looking out at the sky: x of a picture seen from below counts to
the right, so left is -x. In a mirrored picture left is +x. With that, and a scale, dots become directions and only
a turn is unknown. For each scale tried and both parities, pairs of bright dots are laid on pairs of bright stars
at the same distance; each such turn is scored by how many other bright dots fall near some bright star. The best
are refined by least squares (turn, scale, and where asked the projection's centre) on the brightest hundred dots.
"""

from dataclasses import dataclass

import numpy as np

# Radial law f and its inverse: distance from the centre = unitsPerRadian * f(angle from the aim).
RADIAL = {
    "gnomonic": (np.tan, np.arctan, 3.0e-2),
    "stereographic": (lambda z: 2 * np.tan(z / 2), lambda r: 2 * np.arctan(r / 2), 1.5e-2),
    "equalArea": (lambda z: 2 * np.sin(z / 2), lambda r: 2 * np.arcsin(np.minimum(r / 2, 1)), 1.5e-2),
    "equidistant": (lambda z: z, lambda r: np.minimum(r, np.pi), 1.5e-2),
    "orthographic": (np.sin, lambda r: np.arcsin(np.minimum(r, 1)), 1.0e-2),
}  # last: step of the scan, relative; a step off moves no dot by more than about half a degree
SPANS_DEG = {
    "gnomonic": (50, 155),
    "stereographic": (50, 300),
    "equalArea": (50, 355),
    "equidistant": (50, 355),
    "orthographic": (50, 180),
}
PARITIES = {"seen-from-below": -1.0, "mirrored": 1.0}
PAIR_DOTS = 14  # dots that pairs are made of
TEST_DOTS = 30  # dots that score a turn
FIRST_DOTS, FIRST_HITS = 14, 5  # the pair's own two included
FIT_DOTS = 100  # dots that refine and judge
NEAR_DEG = 0.8
KEPT = 40  # turns kept from each scale and parity


@dataclass
class Solution:
    kind: str
    parity: str
    turn: np.ndarray  # columns left, up, forward in J2000 axes
    units_per_radian: float
    centre: np.ndarray  # the projection's centre, from the picture's lower-left corner
    matched: int = 0
    of: int = 0
    rms: float = np.inf


def camera_directions(kind, parity, units_per_radian, centre, x, y):
    """Unit vectors (left, up, forward); NaN where the projection has none."""
    dx, dy = (x - centre[0]) * PARITIES[parity], y - centre[1]
    r = np.hypot(dx, dy)
    limit = {"orthographic": 1.0, "equalArea": 2.0, "equidistant": np.pi}.get(kind, np.inf)
    z = RADIAL[kind][1](r / units_per_radian)
    s = np.where(r > 0, np.sin(z) / np.maximum(r, 1e-12), 0)
    v = np.stack([s * dx, s * dy, np.cos(z)], axis=-1)
    v[r > limit * units_per_radian] = np.nan
    return v


def to_picture(solution, stars):
    """Where J2000 directions fall in the picture; NaN behind it."""
    v = stars @ solution.turn
    z = np.arccos(np.clip(v[:, 2], -1, 1))
    f = RADIAL[solution.kind][0]
    if solution.kind in ("gnomonic", "orthographic"):
        z = np.where(z < np.pi / 2 - 1e-6, z, np.nan)
    flat = np.hypot(v[:, 0], v[:, 1])
    s = solution.units_per_radian * f(z) / np.maximum(flat, 1e-12)
    x = solution.centre[0] + PARITIES[solution.parity] * s * v[:, 0]
    return np.stack([x, solution.centre[1] + s * v[:, 1]], axis=-1)


class NearStar:
    """Answers at once whether a direction lies near one of the stars: a grid of cells around the unit sphere."""

    CELLS = 256

    def __init__(self, stars, near_deg):
        g = self.CELLS
        self.grid = np.zeros((g, g, g), bool)
        reach = np.radians(near_deg)
        n = int(np.ceil(reach * g / 2)) + 1
        offsets = np.stack(np.meshgrid(*[np.arange(-n, n + 1)] * 3, indexing="ij"), -1).reshape(-1, 3)
        for star in stars:
            cells = np.floor((star + 1) / 2 * g).astype(int) + offsets
            centres = (cells + 0.5) / g * 2 - 1
            good = (np.linalg.norm(centres - star, axis=1) < reach) & (cells >= 0).all(1) & (cells < g).all(1)
            self.grid[tuple(cells[good].T)] = True
        self.flat = self.grid.ravel()

    def __call__(self, v):
        g = self.CELLS
        # Truncation is floor here, for nothing lies under -1; where there is no direction (NaN), a cell at the cube's
        # middle is asked, and no star lies there.
        cells = np.minimum((np.where(np.isnan(v), 0, v) + 1) * (g / 2), g - 1).astype(np.int32)
        return self.flat[(cells[..., 0] * g + cells[..., 1]) * g + cells[..., 2]]


def pair_frames(a, b):
    """Matrices with columns a, a x b, and the third, made orthonormal; shape (n, 3, 3)."""
    normal = np.cross(a, b)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    return np.stack([a, normal, np.cross(a, normal)], axis=-1)


class StarPairs:
    """All pairs of the brightest stars in both orders, sorted by distance."""

    def __init__(self, stars):
        i, j = np.nonzero(~np.eye(len(stars), dtype=bool))
        self.distance = np.arccos(np.clip(np.einsum("ij,ij->i", stars[i], stars[j]), -1, 1))
        keep = (self.distance > np.radians(8)) & (self.distance < np.radians(172))
        order = np.argsort(self.distance[keep])
        self.distance = self.distance[keep][order]
        self.frames = pair_frames(stars[i[keep][order]], stars[j[keep][order]]).astype(np.float32)

    def about(self, distance, tolerance):
        lo, hi = np.searchsorted(self.distance, [distance - tolerance, distance + tolerance])
        return self.frames[lo:hi]


def solid_angle(kind, units_per_radian, centre, size):
    """Of the picture's rectangle, in steradians, by a grid; half the sky at most, for a horizon hides the rest."""
    gx, gy = np.meshgrid((np.arange(60) + 0.5) / 60 * size[0], (np.arange(60) + 0.5) / 60 * size[1])
    r = np.hypot(gx - centre[0], gy - centre[1]) / units_per_radian
    inverse, h = RADIAL[kind][1], 1e-4
    slope = (np.cos(inverse(np.maximum(r - h, 0))) - np.cos(inverse(r + h))) / (np.minimum(r, h) + h)
    per_area = slope / np.maximum(r, h) / units_per_radian**2
    return min(float(per_area.sum()) * size[0] * size[1] / 3600, 2 * np.pi)


class Sky:
    """The stars, brightest first, with pairs and near-star grids for round numbers of them, made when asked for."""

    def __init__(self, unit_vectors, v_mag):
        order = np.argsort(v_mag, kind="stable")
        self.toward, self.v_mag = unit_vectors[order], v_mag[order]
        self.made = {}

    def _round(self, wanted, steps):
        return next((n for n in steps if n >= wanted), steps[-1])

    def pairs(self, wanted):
        n = self._round(wanted, (40, 70, 110, 170, 260))
        return self.made.setdefault(("pairs", n), None) or self._make(("pairs", n), lambda: StarPairs(self.toward[:n]))

    def near(self, wanted):
        n = self._round(wanted, (120, 200, 350, 600, 1000))
        return self.made.setdefault(("near", n), None) or self._make(
            ("near", n), lambda: NearStar(self.toward[:n], NEAR_DEG)
        )

    def _make(self, key, make):
        self.made[key] = make()
        return self.made[key]


def rank_with_ties(strength, n):
    """How many dots are about as bright as the n-th, or brighter: fibres come in a few sizes only."""
    return int((strength >= 0.85 * strength[min(n, len(strength)) - 1]).sum())


def hits_of(frames, in_pair, near):
    """For each frame, how many of the dots (given in their own pair's frame) it puts near a star."""
    turned_dots = frames.reshape(-1, 3) @ in_pair.T.astype(frames.dtype)
    return near(turned_dots.reshape(len(frames), 3, -1).transpose(0, 2, 1)).sum(axis=1)


def candidates(kind, sky, x, y, strength, size, centre, spans_deg, report):
    """Turns that put many bright dots on bright stars, best first; dots come brightest first."""
    f, _, step = RADIAL[kind]
    half = max(size) / 2
    first, last = (half / f(np.radians(s) / 2) for s in (spans_deg[1], spans_deg[0]))
    scales = np.exp(np.arange(np.log(first), np.log(last) + step, step)) if last > first * (1 + step) else [first]
    test = slice(0, TEST_DOTS)
    found, tried = [], 0
    for scale in scales:
        whole_sky = 4 * np.pi / solid_angle(kind, scale, centre, size)
        pairs = sky.pairs(1.5 * PAIR_DOTS * whole_sky + 10)
        near = sky.near(1.5 * rank_with_ties(strength, TEST_DOTS) * whole_sky)
        for parity in PARITIES:
            dots = camera_directions(kind, parity, scale, centre, x[test], y[test])
            best = []
            for i in range(min(PAIR_DOTS, len(dots))):
                for j in range(i + 1, min(PAIR_DOTS, len(dots))):
                    a, b = dots[i], dots[j]
                    distance = np.arccos(np.clip(a @ b, -1, 1))
                    if not np.radians(10) < distance < np.radians(170):
                        continue
                    frames = pairs.about(distance, np.radians(NEAR_DEG))
                    if not len(frames):
                        continue
                    own = pair_frames(a, b)
                    tried += len(frames)
                    in_pair = dots @ own
                    # The brightest few first: a turn that puts fewer than five of them near a star goes no further.
                    frames = frames[hits_of(frames, in_pair[:FIRST_DOTS], near) >= FIRST_HITS]
                    if not len(frames):
                        continue
                    hits = hits_of(frames, in_pair, near)
                    for k in np.argsort(hits)[-3:]:
                        best.append((int(hits[k]), frames[k].astype(float) @ own.T))
            best.sort(key=lambda t: -t[0])
            found += [(h, Solution(kind, parity, turn, scale, np.array(centre, float))) for h, turn in best[:KEPT]]
    found.sort(key=lambda t: -t[0])
    report(f"{len(scales)} scales, {tried} turns tried, best {found[0][0]} of {TEST_DOTS} dots near a star")
    return found


def match(solution, sky, x, y, strength, size, reach):
    """For each of the brightest dots the nearest expected star within reach: (dot indices, star indices, distances)."""
    n = min(FIT_DOTS, len(x))
    at = to_picture(solution, sky.toward[:6000])
    inside = np.flatnonzero(
        (at[:, 0] > -0.02 * size[0]) & (at[:, 0] < 1.02 * size[0]) & (at[:, 1] > -0.02 * size[1]) & (at[:, 1] < 1.02 * size[1])
    )
    expected = inside[: int(1.6 * rank_with_ties(strength, n)) + 5]
    if not len(expected):
        return np.array([], int), expected, np.array([])
    d = np.hypot(at[expected, 0][None] - x[:n, None], at[expected, 1][None] - y[:n, None])
    nearest = d.argmin(axis=1)
    # One star for one dot: where two dots claim a star, the nearer has it.
    mine = d.argmin(axis=0)[nearest] == np.arange(n)
    distance = d[np.arange(n), nearest]
    good = np.flatnonzero(mine & (distance < reach))
    return good, expected[nearest[good]], distance[good]


def turned(turn, w):
    angle = np.linalg.norm(w)
    if angle == 0:
        return turn
    k = np.array([[0, -w[2], w[1]], [w[2], 0, -w[0]], [-w[1], w[0], 0]]) / angle
    return (np.eye(3) + np.sin(angle) * k + (1 - np.cos(angle)) * k @ k) @ turn


def with_step(s, p):
    centre = s.centre + p[4:6] * s.units_per_radian if len(p) > 4 else s.centre
    return Solution(s.kind, s.parity, turned(s.turn, p[:3]), s.units_per_radian * np.exp(p[3]), centre)


def refine(solution, sky, x, y, strength, size, free_centre, reaches_deg):
    """Gauss-Newton with a narrowing reach; the derivative by differences."""
    for reach_deg in reaches_deg:
        for _ in range(3):
            reach = np.radians(reach_deg) * solution.units_per_radian
            dots, stars, _ = match(solution, sky, x, y, strength, size, reach)
            parameters = 6 if free_centre else 4
            if len(dots) < parameters + 2:
                solution.matched = 0
                return solution
            there = np.stack([x[dots], y[dots]], -1)
            residual = lambda p: (to_picture(with_step(solution, p), sky.toward[stars]) - there).ravel()
            zero = residual(np.zeros(parameters))
            slope = np.stack([(residual(e) - zero) / 1e-6 for e in np.eye(parameters) * 1e-6], -1)
            # Holes moved off battens lie far out: weigh by Huber's rule about the median.
            size_of = np.repeat(np.hypot(*zero.reshape(-1, 2).T), 2)
            knee = 2 * np.median(size_of) + 1e-9
            weight = np.sqrt(np.where(size_of < knee, 1, knee / np.maximum(size_of, 1e-12)))
            step = np.linalg.lstsq(slope * weight[:, None], -zero * weight, rcond=None)[0]
            solution = with_step(solution, step)
    reach = np.radians(reaches_deg[-1]) * solution.units_per_radian
    dots, _, distance = match(solution, sky, x, y, strength, size, reach)
    solution.matched, solution.of = len(dots), min(FIT_DOTS, len(x))
    solution.rms = float(np.sqrt(np.mean(distance**2))) if len(dots) else np.inf
    return solution


def solve(kind, sky, x, y, strength, size, centre, spans_deg, free_centre=False, report=lambda words: None):
    """(best, best of the other parity): compare their `matched`."""
    order = np.argsort(-strength, kind="stable")
    x, y, strength = x[order], y[order], strength[order]
    found = candidates(kind, sky, x, y, strength, size, centre, spans_deg, report)
    best = {}
    for parity in PARITIES:
        of_parity = [s for _, s in found if s.parity == parity][:300]
        for s in of_parity:
            fitted = refine(s, sky, x, y, strength, size, False, (1.2, 0.6))
            if fitted.matched > getattr(best.get(parity), "matched", -1):
                best[parity] = fitted
    for parity, s in best.items():
        best[parity] = refine(s, sky, x, y, strength, size, free_centre, (0.8, 0.5, 0.35))
    first, second = sorted(best.values(), key=lambda s: -s.matched)
    return first, second
