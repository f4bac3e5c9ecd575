"""Resistance of cross-sections, EN 1993-1-1:2005, 6.2 (from memory). N, mm, MPa, N mm."""
from math import pi, sqrt


def shear_areas(s):
    """Along z (h) and along y (b), 6.2.6 (3) f, g."""
    if s["kind"] == "chs":
        return 2 * s["A"] / pi, 2 * s["A"] / pi
    return s["A"] * s["h"] / (s["b"] + s["h"]), s["A"] * s["b"] / (s["b"] + s["h"])


def shear(s, f_y, m0, t_ed):
    """(tau_t, V_pl,z,Rd, V_pl,y,Rd, V_pl,T,z,Rd, V_pl,T,y,Rd), 6.2.6 and 6.2.7 (9)."""
    tau = t_ed / s["W_t"]
    tau_rd = f_y / sqrt(3) / m0
    vz, vy = (a * tau_rd for a in shear_areas(s))
    left = 1 - tau / tau_rd
    return tau, vz, vy, left * vz, left * vy


def share_lost(v_ed, v_rd):
    """rho of 6.2.8 (3), with V_pl,T,Rd under torsion."""
    ratio = v_ed / v_rd
    return 0.0 if ratio <= 0.5 else (2 * ratio - 1) ** 2


def reduced_by_axial(s, m_pl_y, m_pl_z, n):
    """(M_N,y,Rd, M_N,z,Rd, alpha), 6.2.9.1 (5), (6); round: 1 - n^1.7 with the exponent 2."""
    if s["kind"] == "chs":
        f = max(0.0, 1 - n**1.7)
        return m_pl_y * f, m_pl_z * f, 2.0
    a_w = min(0.5, (s["A"] - 2 * s["b"] * s["t"]) / s["A"])
    a_f = min(0.5, (s["A"] - 2 * s["h"] * s["t"]) / s["A"])
    my = min(m_pl_y, m_pl_y * (1 - n) / (1 - 0.5 * a_w))
    mz = min(m_pl_z, m_pl_z * (1 - n) / (1 - 0.5 * a_f))
    below = 1 - 1.13 * n * n
    return my, mz, (6.0 if below <= 0 else min(6.0, 1.66 / below))
