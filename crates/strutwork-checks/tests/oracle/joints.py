"""Joints of hollow sections, EN 1993-1-8:2005, section 7 (from memory; Tables 7.2, 7.5, 7.10 to 7.14). N, mm, MPa."""
from math import cos, exp, pi, sin, sqrt

from member import chi

SQRT3 = sqrt(3)


def grade(*strengths):
    """7.1.1 (4): 0.9 for yield strengths above 355."""
    return 0.9 if max(strengths) > 355 else 1.0


# -- round on round ------------------------------------------------------------------------------------------------
def k_p(n_p):
    """Chord stress, n_p > 0 in compression."""
    return min(1.0, max(0.0, 1 - 0.3 * n_p * (1 + n_p))) if n_p > 0 else 1.0


def round_face(kind, d0, t0, fy0, d1, theta, n_p, m5, gap=0.0, d_other=None):
    """Chord face of Table 7.2: kind T (and Y), X, K (gap, negative where braces overlap; d1 the brace in compression)."""
    beta, gamma, kp = d1 / d0, d0 / (2 * t0), k_p(n_p)
    base = kp * fy0 * t0**2 / sin(theta)
    if kind == "T":
        return base * gamma**0.2 * (2.8 + 14.2 * beta**2) / m5
    if kind == "X":
        return base * 5.2 / (1 - 0.81 * beta) / m5
    return base * k_g(gamma, gap / t0) * (1.8 + 10.2 * beta) / m5


def k_g(gamma, g_over_t):
    return gamma**0.2 * (1 + 0.024 * gamma**1.2 / (1 + exp(0.5 * g_over_t - 1.33)))


def round_punching(t0, fy0, di, theta, m5):
    """Where d_i <= d_0 - 2 t_0."""
    return fy0 / SQRT3 * t0 * pi * di * (1 + sin(theta)) / (2 * sin(theta) ** 2) / m5


def round_moments(d0, t0, fy0, d1, theta, n_p, m5):
    """((in plane face, punching), (out of plane face, punching)), Table 7.5."""
    beta, gamma, kp, s = d1 / d0, d0 / (2 * t0), k_p(n_p), sin(theta)
    ip = 4.85 * fy0 * t0**2 * d1 / s * sqrt(gamma) * beta * kp / m5
    op = fy0 * t0**2 * d1 / s * 2.7 / (1 - 0.81 * beta) * kp / m5
    punch = fy0 * t0 * d1**2 / SQRT3
    return (ip, punch * (1 + 3 * s) / (4 * s**2) / m5), (op, punch * (3 + s) / (4 * s**2) / m5)


# -- rectangular chords --------------------------------------------------------------------------------------------
def k_n(n, beta):
    return min(1.0, max(0.0, 1.3 - 0.4 * n / beta)) if n > 0 else 1.0


def b_eff(b0, t0, fy0, ti, fyi, bi):
    return min(bi, 10 / (b0 / t0) * fy0 * t0 / (fyi * ti) * bi)


def b_ep(b0, t0, bi):
    return min(bi, 10 / (b0 / t0) * bi)


def side_wall_strength(kind, compression, h0, t0, fy0, theta, curve, e=210000.0):
    """f_b of Table 7.11."""
    if not compression:
        return fy0
    lam = 3.46 * (h0 / t0 - 2) * sqrt(1 / sin(theta)) / (pi * sqrt(e / fy0))
    _, x = chi(lam, curve)
    return x * fy0 if kind == "T" else 0.8 * x * fy0 * sin(theta)


def txy(kind, compression, h0, b0, t0, fy0, h1, b1, t1, fy1, theta, n, m5, curve):
    """Table 7.11 for one rectangular brace: every mode that applies. At beta = 1 an X joint with cos(theta) > h_1/h_0 takes
    the chord's shear where that is less (2 h_0 t_0, Table 7.12)."""
    s = sin(theta)
    beta, eta, gamma = b1 / b0, h1 / b0, b0 / (2 * t0)

    def face(beta):
        return k_n(n, beta) * fy0 * t0**2 / ((1 - beta) * s) * (2 * eta / s + 4 * sqrt(1 - beta)) / m5

    modes = {}
    if beta <= 0.85:
        modes["face"] = face(beta)
    else:
        f_b = side_wall_strength(kind, compression, h0, t0, fy0, theta, curve)
        side = k_n(n, 1.0) * f_b * t0 / s * (2 * h1 / s + 10 * t0) / m5
        if kind == "X" and cos(theta) > h1 / h0:
            side = min(side, fy0 * 2 * h0 * t0 / (SQRT3 * s) / m5)
        at = face(0.85)
        modes["between"] = at + (side - at) * (beta - 0.85) / 0.15
    if beta >= 0.85:
        modes["brace"] = fy1 * t1 * (2 * h1 - 4 * t1 + 2 * b_eff(b0, t0, fy0, t1, fy1, b1)) / m5
    if 0.85 <= beta <= 1 - 1 / gamma:
        modes["punching"] = fy0 * t0 / (SQRT3 * s) * (2 * h1 / s + 2 * b_ep(b0, t0, b1)) / m5
    return {mode: value * grade(fy0, fy1) for mode, value in modes.items()}


def k_gap(h0, b0, t0, fy0, braces, gap, n, m5, a0=None, v_ed=0.0):
    """Table 7.12 for two rectangular braces (h, b, t, fy, theta): a dict of modes for each brace, A_v, and whether the
    chord face alone decides (Table 7.9: square tubes of much the same width, b_0/t_0 >= 15)."""
    (h1, b1, *_), (h2, b2, *_) = braces
    beta, gamma = (b1 + b2 + h1 + h2) / (4 * b0), b0 / (2 * t0)
    kn = k_n(n, beta)
    alpha = sqrt(1 / (1 + 4 * gap**2 / (3 * t0**2)))
    a_v = (2 * h0 + alpha * b0) * t0
    out = []
    for h, b, t, fy, theta in braces:
        s = sin(theta)
        modes = {
            "face": 8.9 * kn * fy0 * t0**2 * sqrt(gamma) / s * beta / m5,
            "shear": fy0 * a_v / (SQRT3 * s) / m5,
            "brace": fy * t * (2 * h - 4 * t + b + b_eff(b0, t0, fy0, t, fy, b)) / m5,
        }
        if beta <= 1 - 1 / gamma:
            modes["punching"] = fy0 * t0 / (SQRT3 * s) * (2 * h / s + b + b_ep(b0, t0, b)) / m5
        out.append({mode: value * grade(fy0, fy) for mode, value in modes.items()})
    mean = (b1 + b2) / 2
    alike = all(h == b and 0.6 <= mean / b <= 1.3 for h, b, *_ in braces)
    return out, a_v, h0 == b0 and alike and b0 / t0 >= 15


def k_overlap(b0, t0, fy0, over, under, overlap, m5):
    """(N_i,Rd of the overlapping brace, efficiency): braces (h, b, t, fy); overlap in per cent."""
    h, b, t, fy = over
    _, bj, tj, fyj = under
    ov = min(b, 10 / (bj / tj) * fyj * tj / (fy * t) * b)
    be = b_eff(b0, t0, fy0, t, fy, b)
    if overlap < 50:
        width = be + ov + 2 * h * overlap / 50 - 4 * t
    elif overlap < 80:
        width = be + ov + 2 * h - 4 * t
    else:
        width = b + ov + 2 * h - 4 * t
    return fy * t * width / m5 * grade(fy0, fy)


def rhs_moments(kind, h0, b0, t0, fy0, h1, b1, t1, fy1, wpl_ip, wpl_op, n, m5):
    """Table 7.14, braces square to the chord: dicts of modes in and out of plane."""
    beta, eta = b1 / b0, h1 / b0
    be = b_eff(b0, t0, fy0, t1, fy1, b1)
    fyk = fy0 if kind == "T" else 0.8 * fy0
    ip, op = {}, {}
    if beta <= 0.85:
        kn = k_n(n, beta)
        ip["face"] = kn * fy0 * t0**2 * h1 * (1 / (2 * eta) + 2 / sqrt(1 - beta) + eta / (1 - beta)) / m5
        op["face"] = kn * fy0 * t0**2 * (h1 * (1 + beta) / (2 * (1 - beta))
                                         + sqrt(2 * b0 * b1 * (1 + beta) / (1 - beta))) / m5
    else:
        ip["side"] = 0.5 * fyk * t0 * (h1 + 5 * t0) ** 2 / m5
        op["side"] = fyk * t0 * (b0 - t0) * (h1 + 5 * t0) / m5
        ip["brace"] = fy1 * (wpl_ip - (1 - be / b1) * b1 * (h1 - t1) * t1) / m5
        op["brace"] = fy1 * (wpl_op - 0.5 * (1 - be / b1) ** 2 * b1**2 * t1) / m5
    if kind == "T":
        op["distortion"] = 2 * fy0 * t0 * (h1 * t0 + sqrt(b0 * h0 * t0 * (b0 + h0))) / m5
    g = grade(fy0, fy1)
    return {mode: value * g for mode, value in ip.items()}, {mode: value * g for mode, value in op.items()}
