"""Dots out of a preview (bright on black) or a list of holes: places with y upward, and how bright each is."""

import csv

import numpy as np


def dots_of_picture(path, threshold=0.2):
    """x right, y up in pixels from the lower-left corner; summed light as strength; (width, height).

    A dot is a connected patch of pixels brighter than `threshold` of the brightest one, its place the light's centre.
    """
    try:
        from PIL import Image
    except ImportError:
        raise SystemExit("Reading pictures needs Pillow (Debian: python3-pil)")
    Image.MAX_IMAGE_PIXELS = None
    light = np.asarray(Image.open(path).convert("RGB"), float).max(axis=2)
    height, width = light.shape
    rows, columns = np.nonzero(light > threshold * light.max())
    if len(rows) > 2_000_000:
        raise SystemExit(f"{path}: {len(rows)} bright pixels: not a picture of dots on black")
    number = {(r, c): i for i, (r, c) in enumerate(zip(rows.tolist(), columns.tolist()))}
    root = list(range(len(rows)))

    def find(i):
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    for (r, c), i in number.items():
        for neighbour in ((r, c + 1), (r + 1, c - 1), (r + 1, c), (r + 1, c + 1)):
            j = number.get(neighbour)
            if j is not None:
                root[find(j)] = find(i)
    patch = np.unique([find(i) for i in range(len(rows))], return_inverse=True)[1]
    value = light[rows, columns]
    total = np.bincount(patch, value)
    x = np.bincount(patch, value * (columns + 0.5)) / total
    y = height - np.bincount(patch, value * (rows + 0.5)) / total
    return x, y, total, (width, height)


def dots_of_holes(path, x_column, y_column, diameter_column, size):
    """The same from a CSV with a header line; without `size` the box around the holes stands for the picture."""
    with open(path, newline="", encoding="utf-8") as f:
        rows = list(csv.DictReader(f))
    if not rows:
        raise SystemExit(f"{path}: no holes")
    for name in (x_column, y_column, diameter_column):
        if name not in rows[0]:
            raise SystemExit(f"{path}: no column {name}; it has {', '.join(rows[0])}")
    x, y, diameter = (np.array([float(r[n]) for r in rows]) for n in (x_column, y_column, diameter_column))
    if size is None:
        x, y = x - x.min(), y - y.min()
        size = (x.max(), y.max())
    return x, y, diameter**2, size
