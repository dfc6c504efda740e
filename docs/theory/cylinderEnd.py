"""Pressure in the middle of the flat end of a long rigid cylinder, over that of the plane wave at that end without it.

Makes the table of src/core/parts/acoustics/cylinderEnd.ts. Boundary elements for rotational symmetry:

    p / 2 = p_i + integral p dG/dn dS,   G = e^{-ikR} / (4 pi R),  n outward, e^{+i omega t}

in collocation, constant elements, finer toward the rim; points inside on the axis, where the sum must vanish, keep it
unique (least squares). On the axis only the part of a plane wave that is even around it matters, J0(kr sin t) e^{-ikz cos t},
so one matrix serves every direction t. The far end is a half sphere; its echo is averaged out over four lengths an eighth
of a wavelength apart. Check: a sphere at ka = 1 gives 1.41846 and 1.06825 against 1.41840 and 1.06812 of the series.
Needs numpy and scipy. Prints ka, Re D, Im D with p / p_i = 2 - D e^{-ika}, and random incidence in dB.
"""
import numpy as np
from scipy.special import j0

GX, GW = np.polynomial.legendre.leggauss(4)
S, SW = np.polynomial.legendre.leggauss(48)
S, SW = (S + 1) / 2, SW / 2
PHI = np.pi * S**3  # angles around the axis, dense near the point
PW = np.pi * 3 * S**2 * SW * 2
COS, HALF = np.cos(PHI), np.sin(PHI / 2)


def rod(length, n):
    points = [(r, 0.0) for r in np.sin(np.linspace(0, 1, n + 1) * np.pi / 2)]
    side = np.linspace(0, 1, int(n * length / 2.2) + 1)[1:]
    points += [(1.0, z) for z in length * side**1.6]
    points += [(np.cos(t), length + np.sin(t)) for t in np.linspace(0, np.pi / 2, n // 2 + 1)[1:]]
    return np.array(points)


def sphere(n):
    t = np.linspace(0, np.pi, n + 1)
    return np.stack([np.sin(t), -np.cos(t)], 1)


def double_layer(rp, zp, a, b, nr, nz, size, k):
    """Integral of dG/dn over rings from a to b, seen from (rp, zp)."""
    t = (GX + 1) / 2
    r = a[:, 0, None] + (b - a)[:, 0, None] * t
    dz = a[:, 1, None] + (b - a)[:, 1, None] * t - zp
    square = ((r - rp) ** 2 + dz**2)[:, :, None] + 4 * r[:, :, None] * rp * HALF**2
    distance = np.sqrt(square)
    slope = ((r[:, :, None] - rp * COS) * nr[:, None, None] + dz[:, :, None] * nz[:, None, None]) / distance
    kernel = -np.exp(-1j * k * distance) * (1 + 1j * k * distance) / (4 * np.pi * square) * slope
    return ((kernel * PW).sum(2) * r * (GW / 2)).sum(1) * size


def row(rp, zp, points, k, own=None):
    a, b = points[:-1], points[1:]
    d = b - a
    size = np.hypot(d[:, 0], d[:, 1])
    nr, nz = d[:, 1] / size, -d[:, 0] / size
    out = double_layer(rp, zp, a, b, nr, nz, size, k)
    if own is None:
        return out
    steps = np.linspace(0, 1, 25)
    for j in range(max(0, own - 1), min(len(size), own + 2)):
        if j == own:
            q = np.concatenate([0.5 - 0.5 * steps[::-1] ** 4, (0.5 + 0.5 * steps**4)[1:]])
        else:
            q = 1 - steps[::-1] ** 3 if j < own else steps**3
        x = a[j] + np.outer(q, d[j])
        e = len(q) - 1
        out[j] = double_layer(rp, zp, x[:-1], x[1:], np.full(e, nr[j]), np.full(e, nz[j]), size[j] * np.diff(q), k).sum()
    return out


def solve(points, inside, k, directions=24):
    """Pressure on every ring: columns are directions, the last one on the axis; and the weights of an average over all."""
    middle = (points[1:] + points[:-1]) / 2
    c, w = np.polynomial.legendre.leggauss(directions)
    c = np.append(c, 1.0)
    incident = lambda r, z: j0(k * r * np.sqrt(1 - c * c)) * np.exp(-1j * k * z * c)
    rows, right = [], []
    for i, (r, z) in enumerate(middle):
        q = -row(r, z, points, k, i)
        q[i] += 0.5
        rows.append(q)
        right.append(incident(r, z))
    for z in inside:
        rows.append(-row(1e-9, z, points, k))
        right.append(incident(0, z))
    return np.linalg.lstsq(np.array(rows), np.array(right), rcond=None)[0], w / 2


def end(ka, n):
    facing, square = [], []
    for j in range(4):
        length = 6 + j * np.pi / (4 * ka)
        p, w = solve(rod(length, n), [z for z in (0.3, 0.77, 1.9, 3.3, 5.7) if z < length], ka)
        facing.append(p[0, -1])
        square.append((np.abs(p[0, :-1]) ** 2 * w).sum())
    d = (2 - np.mean(facing)) * np.exp(1j * ka)
    return d, 10 * np.log10(np.mean(square))


if __name__ == "__main__":
    p, _ = solve(sphere(40), [0.11, 0.37], 1.0)
    print("sphere", abs(p[0, -1]), abs(p[-1, -1]))
    for ka in np.concatenate([np.arange(0.25, 4.01, 0.25), np.arange(4.5, 10.01, 0.5)]):
        d, random = end(ka, 28 if ka < 4 else 44)
        print(f"{ka:.2f} {d.real:.4f} {d.imag:.4f} {random:.3f}", flush=True)
