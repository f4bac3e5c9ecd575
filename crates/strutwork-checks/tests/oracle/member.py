"""Buckling of members, EN 1993-1-1:2005, 6.3.1, 6.3.3 with Annex B (from memory)."""
from math import pi, sqrt

IMPERFECTION = {"a0": 0.13, "a": 0.21, "b": 0.34, "c": 0.49, "d": 0.76}


def chi(lam, curve):
    """(Phi, chi); chi = 1 up to 0.2."""
    a = IMPERFECTION[curve]
    phi = 0.5 * (1 + a * (lam - 0.2) + lam * lam)
    if lam <= 0.2:
        return phi, 1.0
    return phi, min(1.0, 1 / (phi + sqrt(phi * phi - lam * lam)))


def euler(e, i, length):
    return pi**2 * e * i / length**2


def cm_ends(psi):
    """Table B.3, end moments alone."""
    return max(0.4, 0.6 + 0.4 * psi)


def cm_span(m_h, m_s, psi, uniform=True):
    """Table B.3 with a load in the span: m_h the larger end moment by amount, m_s the one at the middle, with signs."""
    if abs(m_s) <= abs(m_h):
        a = m_s / m_h
        if a >= 0:
            return max(0.4, 0.2 + 0.8 * a)
        if psi >= 0:
            return max(0.4, 0.1 - 0.8 * a if uniform else -0.8 * a)
        return max(0.4, 0.1 * (1 - psi) - 0.8 * a if uniform else 0.2 * (-psi) - 0.8 * a)
    a = m_h / m_s
    if a >= 0 or psi >= 0:
        return 0.95 + 0.05 * a if uniform else 0.90 + 0.10 * a
    return 0.95 + 0.05 * a * (1 + 2 * psi) if uniform else 0.90 + 0.10 * a * (1 + 2 * psi)


def interaction(n_ed, my, mz, n_rk, my_rk, mz_rk, m1, chi_y, chi_z, lam_y, lam_z, cmy, cmz, plastic):
    """(n_y, n_z, k_yy, k_zz, k_yz, k_zy, (6.61), (6.62)), Table B.1 for rectangular tubes."""
    ny, nz = n_ed / (chi_y * n_rk / m1), n_ed / (chi_z * n_rk / m1)
    if plastic:
        kyy = min(cmy * (1 + (lam_y - 0.2) * ny), cmy * (1 + 0.8 * ny))
        kzz = min(cmz * (1 + (lam_z - 0.2) * nz), cmz * (1 + 0.8 * nz))
        kyz, kzy = 0.6 * kzz, 0.6 * kyy
    else:
        kyy = min(cmy * (1 + 0.6 * lam_y * ny), cmy * (1 + 0.6 * ny))
        kzz = min(cmz * (1 + 0.6 * lam_z * nz), cmz * (1 + 0.6 * nz))
        kyz, kzy = kzz, 0.8 * kyy
    by, bz = my / (my_rk / m1), mz / (mz_rk / m1)
    return ny, nz, kyy, kzz, kyz, kzy, ny + kyy * by + kyz * bz, nz + kzy * by + kzz * bz
