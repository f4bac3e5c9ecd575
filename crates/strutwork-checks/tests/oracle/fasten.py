"""Welds and bolts, EN 1993-1-8:2005, 4.5, Table 3.4 (from memory). N, mm, MPa."""
from math import cos, pi, sin, sqrt


def weld_simplified(a, f_u, beta_w, m2):
    """F_w,Rd, N/mm, 4.5.3.3."""
    return f_u / (sqrt(3) * beta_w * m2) * a


def weld_directional(s_perp, t_perp, t_par, f_u, beta_w, m2):
    """(von Mises, its limit, limit of sigma_perp, utilisation), 4.5.3.2."""
    mises = sqrt(s_perp**2 + 3 * (t_perp**2 + t_par**2))
    limit, limit_s = f_u / (beta_w * m2), 0.9 * f_u / m2
    return mises, limit, limit_s, max(mises / limit, abs(s_perp) / limit_s)


def around(shape, depth, width, corner, theta):
    """(u, v, L, W_ip, W_op, A_m) of the closed line in which a tube meets a face at theta: u in the plane of tube and face
    normal. Rounded corners shorten each side by a quarter of what they take off the outline; of a round tube's ellipse lower
    bounds, from ds >= (u sin^2 + v cos^2)/2: L = pi (u + v)/2, W_ip = pi u (u + 3 v)/16, exact for the circle."""
    if shape == "chs":
        u, v = depth / sin(theta), depth
        return u, v, pi * (u + v) / 2, pi * u * (u + 3 * v) / 16, pi * v * (3 * u + v) / 16, pi * u * v / 4
    less = (2 - pi / 2) * corner
    u, v = (depth - less) / sin(theta), width - less
    # I of a rectangle of lines about its middle, over the far side.
    i_ip = 2 * v * (u / 2) ** 2 + 2 * u**3 / 12
    i_op = 2 * u * (v / 2) ** 2 + 2 * v**3 / 12
    return u, v, 2 * (u + v), i_ip / (u / 2), i_op / (v / 2), u * v


def perimeter(shape, depth, width, corner, theta, a, n, v_ip, v_op, t, m_ip, m_op):
    """(p, q) on a unit length: square to the face and along the weld, everything acting the same way. Magnitudes in the tube's
    axes; N, N mm. A right angle has no cosine."""
    s, c = sin(theta), (0.0 if theta >= pi / 2 else cos(theta))
    u, v, length, w_ip, w_op, area = around(shape, depth, width, corner, theta)
    normal, along, across = n * s + v_ip * c, n * c + v_ip * s, v_op
    out, twist = m_op * s + t * c, t * s + m_op * c
    p = normal / length + m_ip / w_ip + out / w_op
    if shape == "chs":
        # On an ellipse no point has both at their greatest: the greatest of x cos + y sin.
        p = normal / length + sqrt((m_ip / w_ip) ** 2 + (out / w_op) ** 2)
        q = 2 * sqrt(along**2 + across**2) / (pi * depth)
    else:
        q = max(along / (2 * u), across / (2 * v))
    return p, q + twist / (2 * area)


def bolt_shear(f_ub, area, alpha_v, m2):
    return alpha_v * f_ub * area / m2


def bolt_tension(f_ub, a_s, m2, k2=0.9):
    return k2 * f_ub * a_s / m2


def bolt_bearing(e1, e2, d, d0, t, f_u, f_ub, m2, p1=None, p2=None, one_lap=False):
    """(alpha_b, k_1, F_b,Rd); in a single lap with one row of bolts at most 1.5 f_u d t (3.6.1 (10))."""
    alpha = min(e1 / (3 * d0), f_ub / f_u, 1.0, *([p1 / (3 * d0) - 0.25] if p1 else []))
    k1 = min(2.8 * e2 / d0 - 1.7, 2.5, *([1.4 * p2 / d0 - 1.7] if p2 else []))
    return alpha, k1, (min(1.5, k1 * alpha) if one_lap else k1 * alpha) * f_u * d * t / m2


def punching(d_m, t_p, f_u, m2):
    return 0.6 * pi * d_m * t_p * f_u / m2


def combined(f_v, f_t, v_rd, t_rd):
    return f_v / v_rd + f_t / (1.4 * t_rd)
