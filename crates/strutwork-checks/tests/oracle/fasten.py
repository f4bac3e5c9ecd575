"""Welds and bolts, EN 1993-1-8:2005, 4.5, Table 3.4 (from memory). N, mm, MPa."""
from math import pi, sqrt


def weld_simplified(a, f_u, beta_w, m2):
    """F_w,Rd, N/mm, 4.5.3.3."""
    return f_u / (sqrt(3) * beta_w * m2) * a


def weld_directional(s_perp, t_perp, t_par, f_u, beta_w, m2):
    """(von Mises, its limit, limit of sigma_perp, utilisation), 4.5.3.2."""
    mises = sqrt(s_perp**2 + 3 * (t_perp**2 + t_par**2))
    limit, limit_s = f_u / (beta_w * m2), 0.9 * f_u / m2
    return mises, limit, limit_s, max(mises / limit, abs(s_perp) / limit_s)


def bolt_shear(f_ub, area, alpha_v, m2):
    return alpha_v * f_ub * area / m2


def bolt_tension(f_ub, a_s, m2, k2=0.9):
    return k2 * f_ub * a_s / m2


def bolt_bearing(e1, e2, d, d0, t, f_u, f_ub, m2, p1=None, p2=None):
    """(alpha_b, k_1, F_b,Rd)."""
    alpha = min(e1 / (3 * d0), f_ub / f_u, 1.0, *([p1 / (3 * d0) - 0.25] if p1 else []))
    k1 = min(2.8 * e2 / d0 - 1.7, 2.5, *([1.4 * p2 / d0 - 1.7] if p2 else []))
    return alpha, k1, k1 * alpha * f_u * d * t / m2


def punching(d_m, t_p, f_u, m2):
    return 0.6 * pi * d_m * t_p * f_u / m2


def combined(f_v, f_t, v_rd, t_rd):
    return f_v / v_rd + f_t / (1.4 * t_rd)
