"""Properties of hollow sections. mm, mm2, mm3, mm4.

Rectangular: EN 10219-2:2006, Annex B (from memory), corners with an outer radius r_o and an inner one r_i = r_o - t.
Circular: closed forms of the annulus.
"""
from math import pi, sqrt


def rhs(h, b, t, r_o=None):
    """A rectangular tube, h along z (bending about y bends it in the plane of h)."""
    r_o = 2.0 * t if r_o is None else r_o
    r_i = r_o - t

    def corner(r):
        area = (1 - pi / 4) * r * r
        arm = r * (10 - 3 * pi) / (12 - 3 * pi)
        own = (1 / 3 - pi / 16 - 1 / (3 * (12 - 3 * pi))) * r**4
        return area, arm, own

    def about(depth, width):
        (ao, eo, io), (ai, ei, ii) = corner(r_o), corner(r_i)
        d, w = depth - 2 * t, width - 2 * t
        ho, hi = depth / 2 - eo, d / 2 - ei
        inertia = width * depth**3 / 12 - w * d**3 / 12 - 4 * (io + ao * ho**2) + 4 * (ii + ai * hi**2)
        plastic = width * depth**2 / 4 - w * d**2 / 4 - 4 * ao * ho + 4 * ai * hi
        return inertia, plastic

    area = 2 * t * (b + h - 2 * t) - (4 - pi) * (r_o**2 - r_i**2)
    iy, wply = about(h, b)
    iz, wplz = about(b, h)
    r_c = (r_o + r_i) / 2
    line = 2 * ((b - t) + (h - t)) - 2 * r_c * (4 - pi)
    inside = (b - t) * (h - t) - r_c**2 * (4 - pi)
    k = 2 * inside * t / line
    i_t = t**3 * line / 3 + 2 * k * inside
    return dict(kind="rhs", h=h, b=b, t=t, A=area, I_y=iy, I_z=iz, W_el_y=2 * iy / h, W_el_z=2 * iz / b,
                W_pl_y=wply, W_pl_z=wplz, I_t=i_t, W_t=i_t / (t + k / t), i_y=sqrt(iy / area), i_z=sqrt(iz / area))


def chs(d, t):
    e = d - 2 * t
    area = pi * (d * d - e * e) / 4
    i = pi * (d**4 - e**4) / 64
    return dict(kind="chs", h=d, b=d, t=t, A=area, I_y=i, I_z=i, W_el_y=2 * i / d, W_el_z=2 * i / d,
                W_pl_y=(d**3 - e**3) / 6, W_pl_z=(d**3 - e**3) / 6, I_t=2 * i, W_t=4 * i / d,
                i_y=sqrt(i / area), i_z=sqrt(i / area))
