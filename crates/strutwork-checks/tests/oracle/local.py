"""Classes and effective sections.

EN 1993-1-1:2005, Table 5.2; EN 1993-1-5:2006, 4.4, Table 4.1 (from memory).
"""
from math import sqrt

INFINITE = float("inf")


def epsilon(f_y):
    return sqrt(235.0 / f_y)


def wall_limits(eps, alpha, psi):
    """Greatest c/t of an internal wall for classes 1, 2, 3: alpha the part in compression at full plasticity, psi the
    ratio of the stresses at the ends in the elastic state (compression positive, the larger compression below the line).
    Table 5.2 sheet 1, the columns for bending and for compression being its ends."""
    if alpha > 0.5:
        one, two = 396 * eps / (13 * alpha - 1), 456 * eps / (13 * alpha - 1)
    elif alpha > 0:
        one, two = 36 * eps / alpha, 41.5 * eps / alpha
    else:
        one = two = INFINITE
    three = 42 * eps / (0.67 + 0.33 * psi) if psi > -1 else 62 * eps * (1 - psi) * sqrt(-psi)
    return one, two, three


def wall_class(slenderness, limits):
    """1 to 4."""
    return 1 + sum(slenderness > limit for limit in limits)


def round_class(d_over_t, eps):
    """Table 5.2 sheet 3; 4 means EN 1993-1-6."""
    return wall_class(d_over_t, (50 * eps**2, 70 * eps**2, 90 * eps**2))


def stresses(s, f_y, n, axis):
    """(alpha, psi) of a wall of size h (axis y) or b (axis z) that a moment about the axis bends in its own plane beside the
    compression n: n stays and the moment grows until the section is plastic, or yields at its edge. Tension is not taken
    as a help: not below bending alone."""
    c = (s["h"] if axis == "y" else s["b"]) - 3 * s["t"]
    alpha = 0.5 * (1 + n / (2 * s["t"] * c * f_y))
    psi = 2 * n / (s["A"] * f_y) - 1
    return min(1.0, max(0.5, alpha)), min(1.0, max(-1.0, psi))


def section_class(s, f_y, n, my, mz):
    """Class under compression n (tension negative) and moments, N and N mm. A wall across a moment is compressed evenly where
    n and that moment press it; so are all walls under n alone; a wall that is both takes the harder."""
    eps = epsilon(f_y)
    axial, by, bz = n / s["A"], abs(my) / s["W_el_y"], abs(mz) / s["W_el_z"]
    if s["kind"] == "chs":
        pressed = axial + sqrt(by**2 + bz**2) > 0
        return round_class(s["h"] / s["t"], eps) if pressed else 1
    worst = 1
    for size, in_plane, across, axis in ((s["h"], by, bz, "y"), (s["b"], bz, by, "z")):
        ratio = (size - 3 * s["t"]) / s["t"]
        evenly = (across > 0 and axial + across > 0) or (across == 0 and in_plane == 0 and axial > 0)
        bent = in_plane > 0 and axial + by + bz > 0
        found = []
        if evenly:
            found.append((1.0, 1.0))
        if bent:
            found.append(stresses(s, f_y, n, axis))
        for alpha, psi in found:
            worst = max(worst, wall_class(ratio, wall_limits(eps, alpha, psi)))
    return worst


def buckling_factor(psi):
    """k_sigma of an internal element, Table 4.1."""
    if psi > 0:
        return 8.2 / (1.05 + psi)
    if psi > -1:
        return 7.81 - 6.29 * psi + 9.78 * psi**2
    return 5.98 * (1 - psi) ** 2


def reduction(slenderness, eps, psi):
    """(plate slenderness, rho) of an internal element, 4.4 (2)."""
    lam = slenderness / (28.4 * eps * sqrt(buckling_factor(psi)))
    # 0.085 - 0.055 psi is negative above psi = 1.545 only.
    if lam <= 0.5 + sqrt(0.085 - 0.055 * psi):
        return lam, 1.0
    return lam, min(1.0, (lam - 0.055 * (3 + psi)) / lam**2)


def effective_area(s, f_y):
    """(rho of the walls b, of the walls h, A_eff) of a rectangular tube in uniform compression."""
    eps = epsilon(f_y)
    cb, ch = s["b"] - 3 * s["t"], s["h"] - 3 * s["t"]
    _, rb = reduction(cb / s["t"], eps, 1.0)
    _, rh = reduction(ch / s["t"], eps, 1.0)
    return rb, rh, s["A"] - 2 * s["t"] * ((1 - rb) * cb + (1 - rh) * ch)


def effective_modulus(s, f_y, axis):
    """Effective section in bending about `axis`: the flange in compression first, then the walls along the depth with
    the stress ratio that the effective flange and the whole walls give (4.4 (3)). The strips that are left out lie in the
    middle of the flange and between 0.4 and 0.6 shares of the compressed part of a web.

    Returns dict rho_f, psi, rho_w, W_eff."""
    t = s["t"]
    depth, width = (s["h"], s["b"]) if axis == "y" else (s["b"], s["h"])
    inertia = s["I_" + axis]
    eps = epsilon(f_y)
    cf, cw = width - 3 * t, depth - 3 * t
    _, rho_f = reduction(cf / t, eps, 1.0)
    gone = []  # (area, distance from the middle towards compression, own inertia)
    w = (1 - rho_f) * cf
    gone.append((w * t, (depth - t) / 2, w * t**3 / 12))

    def rest():
        area = s["A"] - sum(g[0] for g in gone)
        first = -sum(g[0] * g[1] for g in gone)
        second = inertia - sum(g[2] + g[0] * g[1] ** 2 for g in gone)
        centre = first / area
        return area, centre, second - area * centre**2

    _, centre, _ = rest()
    top, bottom = cw / 2 - centre, -cw / 2 - centre  # of the flat part, from the neutral axis, compression positive
    psi = bottom / top
    _, rho_w = reduction(cw / t, eps, psi)
    if rho_w < 1:
        compressed = cw / (1 - psi)
        be = rho_w * compressed
        high, low = cw / 2 - 0.4 * be, cw / 2 - compressed + 0.6 * be
        length = high - low
        gone.append((2 * t * length, (high + low) / 2, 2 * t * length**3 / 12))
    area, centre, second = rest()
    return dict(rho_f=rho_f, psi=psi, rho_w=rho_w, W_eff=second / (depth / 2 - centre), W_eff_tension=second / (depth / 2 + centre))
