"""TT - UT1 in seconds, 1900-2150.

Source: F. Espenak, J. Meeus, Five Millennium Canon of Solar Eclipses, NASA 2006: polynomial expressions for delta T.
Coefficients written from memory; test/reference/published.ts holds their published values, which they give.
"""


def espenak_meeus_s(year):
    """`year` with its fraction; each polynomial holds up to the year beside it."""
    if not 1900 <= year < 2150:
        raise ValueError(f"delta T: {year} is outside 1900-2150")
    pieces = [
        (1920, 1900, (-2.79, 1.494119, -0.0598939, 0.0061966, -0.000197)),
        (1941, 1920, (21.20, 0.84493, -0.076100, 0.0020936)),
        (1961, 1950, (29.07, 0.407, -1 / 233, 1 / 2547)),
        (1986, 1975, (45.45, 1.067, -1 / 260, -1 / 718)),
        (2005, 2000, (63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599)),
        (2050, 2000, (62.92, 0.32217, 0.005589)),
    ]
    for end, origin, coefficients in pieces:
        if year < end:
            return sum(c * (year - origin) ** i for i, c in enumerate(coefficients))
    return -20 + 32 * ((year - 1820) / 100) ** 2 - 0.5628 * (2150 - year)
