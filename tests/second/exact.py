"""Exact forms by computer algebra: element matrices as integrals of shape functions, roots of frequency equations to 30 digits."""
import mpmath
import sympy as sp

DIGITS = 30
x, L = sp.symbols("x L", positive=True)
# One tube with values that no matrix element shares: E, G in GPa, A, Iy, Iz, J, ρ, length, N at both ends.
TUBE = {
    "e": sp.Integer(210) * 10**9, "g": sp.Integer(81) * 10**9, "a": sp.Rational(241, 10**6), "iy": sp.Rational(31, 10**9),
    "iz": sp.Rational(57, 10**9), "j": sp.Rational(61, 10**9), "rho": sp.Integer(7850), "l": sp.Rational(13, 10),
    "n1": sp.Integer(-1700), "n2": sp.Integer(2300),
}


def rows():
    """u, v, w, θx over the twelve freedoms: linear and cubic."""
    s = x / L
    h = [1 - 3 * s**2 + 2 * s**3, L * (s - 2 * s**2 + s**3), 3 * s**2 - 2 * s**3, L * (s**3 - s**2)]
    u, v, w, t = (sp.zeros(1, 12) for _ in range(4))
    u[0], u[6], t[3], t[9] = 1 - s, s, 1 - s, s
    v[1], v[5], v[7], v[11] = h
    w[2], w[4], w[8], w[10] = h[0], -h[1], h[2], -h[3]
    return u, v, w, t


def element():
    """Stiffness, consistent mass and geometric stiffness of the tube, integrated."""
    u, v, w, t = rows()
    d = lambda row, times=1: row.diff(x, times)
    outer = lambda row: row.T * row
    whole = lambda matrix: matrix.applyfunc(lambda entry: sp.integrate(sp.expand(entry), (x, 0, L)).subs(L, TUBE["l"]))
    p = TUBE
    stiffness = p["e"] * (p["a"] * outer(d(u)) + p["iz"] * outer(d(v, 2)) + p["iy"] * outer(d(w, 2))) + p["g"] * p["j"] * outer(d(t))
    mass = p["rho"] * (p["a"] * (outer(u) + outer(v) + outer(w)) + (p["iy"] + p["iz"]) * outer(t))
    force = p["n1"] + (p["n2"] - p["n1"]) * x / L
    return {"stiffness": whole(stiffness), "mass": whole(mass), "geometric": whole(force * (outer(d(v)) + outer(d(w))))}


def matrices():
    """Every element of the three matrices; exact rationals, rounded once."""
    found = []
    for kind, matrix in element().items():
        found += [(kind, f"{i} {j}", sp.N(matrix[i, j], DIGITS)) for i in range(12) for j in range(i, 12)]
    return found


def cantilever(pieces):
    """Lowest dimensionless ω √(ρAL⁴/EI) of a clamped beam in so many cubic pieces, by 40-digit arithmetic."""
    mpmath.mp.dps = 40
    h = mpmath.mpf(1) / pieces
    size = 2 * pieces + 2
    k, m = mpmath.zeros(size), mpmath.zeros(size)
    own = lambda c, table: [[c * mpmath.mpf(value) * h ** (i % 2 + j % 2) for j, value in enumerate(row)] for i, row in enumerate(table)]
    ke = own(1 / h**3, [[12, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]])
    me = own(h / 420, [[156, 22, 54, -13], [22, 4, 13, -3], [54, 13, 156, -22], [-13, -3, -22, 4]])
    for piece in range(pieces):
        for i in range(4):
            for j in range(4):
                k[2 * piece + i, 2 * piece + j] += ke[i][j]
                m[2 * piece + i, 2 * piece + j] += me[i][j]
    n = size - 2
    k, m = k[2:size, 2:size], m[2:size, 2:size]
    lower = mpmath.cholesky(m)
    inverse = lower**-1
    values = mpmath.eigsy(inverse * k * inverse.T, eigvals_only=True)
    return [mpmath.sqrt(value) for value in sorted(values)[: min(n, 3)]]


# Frequency equations of a beam in bending in βL, and where their first roots lie (Blevins 1979, Table 8-1, from memory; the
# equations by hand). With µ: mass at the tip over the beam's; with κ: spring over EI/L³ or EI/L.
EQUATIONS = {
    "clamped-free": (lambda z: 1 + mpmath.cos(z) * mpmath.cosh(z), [1.8751, 4.694, 7.855]),
    "clamped-clamped": (lambda z: 1 - mpmath.cos(z) * mpmath.cosh(z), [4.73, 7.853, 10.996]),
    "clamped-pinned": (lambda z: mpmath.tan(z) - mpmath.tanh(z), [3.9266, 7.0686, 10.2102]),
    "clamped-guided": (lambda z: mpmath.tan(z) + mpmath.tanh(z), [2.365, 5.4978, 8.6394]),
    "tip mass 1": (
        lambda z: 1 + mpmath.cos(z) * mpmath.cosh(z) + z * (mpmath.cos(z) * mpmath.sinh(z) - mpmath.sin(z) * mpmath.cosh(z)),
        [1.248, 4.031, 7.134],
    ),
    "clamped, tip on spring 10": (
        lambda z: z**3 * (1 + mpmath.cos(z) * mpmath.cosh(z)) + 10 * (mpmath.sin(z) * mpmath.cosh(z) - mpmath.cos(z) * mpmath.sinh(z)),
        [2.64, 4.78, 7.88],
    ),
    "pinned, turning spring 5 at one end": (
        lambda z: 2 * z * mpmath.sin(z) * mpmath.sinh(z) - 5 * (mpmath.cos(z) * mpmath.sinh(z) - mpmath.sin(z) * mpmath.cosh(z)),
        [3.6, 6.7, 9.8],
    ),
}


def roots():
    mpmath.mp.dps = DIGITS + 10
    found = []
    for name, (equation, starts) in EQUATIONS.items():
        for place, start in enumerate(starts):
            root = mpmath.findroot(equation, start)
            assert abs(equation(root)) < mpmath.mpf(10) ** -(DIGITS - 8) and abs(root - start) < 0.4, (name, root)
            found.append((name, place + 1, mpmath.nstr(root, DIGITS)))
    return found


def csv(header, rows_of):
    return "\n".join([header] + [",".join(f"\"{cell}\"" if "," in str(cell) else str(cell) for cell in row) for row in rows_of]) + "\n"


def tables():
    """File by file what the program is held against."""
    beams = [(pieces, i + 1, mpmath.nstr(value, DIGITS)) for pieces in (1, 2, 4) for i, value in enumerate(cantilever(pieces))]
    return {
        "element.csv": csv("matrix,place,value", matrices()),
        "cantilever.csv": csv("pieces,mode,value", beams),
        "roots.csv": csv("equation,root,value", roots()),
    }
