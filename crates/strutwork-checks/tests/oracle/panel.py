"""Shear buckling of a flat rectangular panel with hinged edges: tau_cr = k pi^2 E / (12 (1 - nu^2)) (t / b)^2,
k = 5.34 + 4 (b / a)^2, b the shorter side (Timoshenko and Gere, Theory of Elastic Stability, 9.7, from memory)."""
from math import pi


def tau_cr(a, b, t, e, nu):
    short, long = min(a, b), max(a, b)
    k = 5.34 + 4 * (short / long) ** 2
    return k, k * pi**2 * e / (12 * (1 - nu**2)) * (t / short) ** 2
