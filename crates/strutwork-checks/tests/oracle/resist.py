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


MOST = 1000.0


def over(acting, resistance):
    """At most a thousand, as the program tells it."""
    if acting <= 0:
        return 0.0
    return MOST if resistance <= 0 else min(MOST, acting / resistance)


def check(s, f_y, m0, n_ed, vy, vz, t_ed, my, mz):
    """Class 1 and 2 under everything, all as magnitudes: a dict of steps and the utilisation. A shear above half of
    V_pl,T,Rd lowers the strength of the whole section (6.2.8 (3), 6.2.10 (3), on the safe side of "the shear area"); on a round
    tube the resultants act."""
    tau, v_z, v_y, vt_z, vt_y = shear(s, f_y, m0, t_ed)
    used = [over(t_ed, s["W_t"] * f_y / sqrt(3) / m0)]
    if s["kind"] == "chs":
        shears = [(sqrt(vy**2 + vz**2), vt_z)]
    else:
        shears = [(vy, vt_y), (vz, vt_z)]
    used += [over(*pair) for pair in shears]
    rho = max(share_lost(min(v, r), r) for v, r in shears)
    f = (1 - rho) * f_y / m0
    n_rd, m_y, m_z = s["A"] * f, s["W_pl_y"] * f, s["W_pl_z"] * f
    n = over(n_ed, n_rd)
    used.append(n)
    mn_y, mn_z, alpha = reduced_by_axial(s, m_y, m_z, min(n, 1.0))
    if s["kind"] == "chs":
        m = sqrt(my**2 + mz**2)
        used += [over(m, m_y)]
        together = over(m, mn_y)
    else:
        r_y, r_z = over(my, mn_y), over(mz, mn_z)
        used += [over(my, m_y), over(mz, m_z), r_y, r_z]
        # (6.41) is for moments about both axes.
        together = min(MOST, r_y**alpha + r_z**alpha) if r_y > 0 and r_z > 0 else max(r_y, r_z)
    used.append(together)
    return dict(V_pl_z=v_z, V_pl_y=v_y, V_T_z=vt_z, V_T_y=vt_y, rho=rho, N_pl=n_rd, M_pl_y=m_y, M_pl_z=m_z, n=n, M_N_y=mn_y,
                M_N_z=mn_z, alpha=alpha, together=together, U=max(used))
