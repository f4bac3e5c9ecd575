"""Natural frequencies and load factors of a frame by general-purpose solvers, with a count that none is missing."""
import numpy as np
from scipy.linalg import eigh, ldl
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import LinearOperator, eigsh, splu

from frame import LONG, Frame, rows, solve

MODES = 24
POSITIVE, NEGATIVE = 6, 4


def scaled(*matrices):
    """Float copies with rows and columns brought to like size by the first one's diagonal, and the scale."""
    scale = 1 / np.sqrt(np.abs(np.diag(matrices[0]).astype(float)))
    return [(matrix.astype(float) * scale[:, None]) * scale for matrix in matrices], scale


def negative(matrix):
    """How many eigenvalues of a symmetric matrix are negative: those of D in L D Lᵀ, whose blocks are one or two wide."""
    _, d, _ = ldl((matrix + matrix.T) / 2)
    count, i = 0, 0
    while i < len(d):
        wide = 2 if i + 1 < len(d) and d[i, i + 1] != 0 else 1
        count += int((np.linalg.eigvalsh(d[i:i + wide, i:i + wide]) < 0).sum())
        i += wide
    return count


def ritz(a, b, vectors):
    """Values a : b in the space of the vectors, with products in the long format: their error is that of the vectors squared."""
    x = vectors.astype(LONG)
    small_a, small_b = x.T @ (a @ x), x.T @ (b @ x)
    size = 1 / np.sqrt(np.abs(np.diag(small_b)))
    small_a, small_b = (matrix * size[:, None] * size for matrix in (small_a, small_b))
    return eigh(small_a.astype(float), small_b.astype(float), eigvals_only=True)


def whole_group(values, count):
    """The place of the last of `count` values, or of those that equal it."""
    inner = range(count - 1, len(values) - 1)
    return next((i for i in inner if values[i + 1] > values[i] * (1 + 1e-5)), len(values) - 1)


def frequencies(frame, free):
    """The lowest frequencies besides rigid motions, Hz."""
    k, m = frame.reduced()
    (fk, fm), scale = scaled(k, m)
    rigid = 6 if free else 0
    wanted = min(MODES + rigid + 4, len(fk) - 2)
    shift = -((2 * np.pi * 3.0) ** 2) if free else 0.0
    basis = min(len(fk) - 1, 4 * wanted)
    _, vectors = eigsh(csc_matrix(fk), wanted, csc_matrix(fm), sigma=shift, which="LM", ncv=basis, v0=np.ones(len(fk)))
    vectors = vectors * scale[:, None]
    values = ritz(k, m, vectors)
    assert (np.abs(values[:rigid]) < 1e-6 * values[rigid]).all(), values[: rigid + 1]
    values = values[rigid:]
    last = whole_group(values, MODES)
    edge = values[last] * (1 + 5e-6)
    counted = negative(fk - edge * fm)
    assert counted == last + 1 + rigid, f"{frame.folder}: counted {counted}, found {last + 1} and {rigid} rigid"
    if not free:
        # The other way round, dense: mass may be none in places, stiffness never is.
        dense = 1 / eigh(fm, fk, eigvals_only=True)[::-1][: last + 1]
        assert np.allclose(dense, values[: last + 1], rtol=1e-6), np.abs(dense / values[: last + 1] - 1).max()
    return np.sqrt(values[: last + 1]) / (2 * np.pi)


def factors(frame, case):
    """The lowest positive and negative load factors of a case."""
    k, _ = frame.reduced()
    moved = frame.moved(solve(k, frame.load(case)[:, None])[:, 0])
    kg, forces = frame.geometric(moved)
    (fk, fg), scale = scaled(k, kg)
    lu = splu(csc_matrix(fk))
    inverse = LinearOperator(fk.shape, lu.solve)
    sides = []
    for which, sign, count in [("LA", 1, POSITIVE), ("SA", -1, NEGATIVE)]:
        wanted = count + 4
        options = {"Minv": inverse, "which": which, "ncv": min(len(fk) - 1, 60), "v0": np.ones(len(fk))}
        theta, vectors = eigsh(csc_matrix(-fg), wanted, csc_matrix(fk), **options)
        vectors = vectors[:, np.sign(theta) == sign] * scale[:, None]
        theta = np.sort(sign * ritz(-kg, k, vectors))[::-1]
        theta = theta[theta > 1e-9 * theta[0]] if len(theta) else theta
        lowest = sign / theta
        lowest = lowest[: whole_group(np.abs(lowest), count) + 1]
        counted = negative(fk + lowest[-1] * (1 + 5e-6) * fg)
        assert counted == len(lowest), f"{frame.folder} {case}: counted {counted}, found {lowest}"
        sides.append(lowest)
    tension = sum(1 for n in forces if n > 0)
    assert 0 < tension < len(forces), "a case has tension and compression"
    return sides


def answers(folder, pieces, lumped):
    """Everything that is compared: lists of rows (kind, case, place, value)."""
    frame = Frame(folder, pieces, lumped)
    free = not rows(folder, "supports.csv")
    found = [("frequency_hz", "", i + 1, f) for i, f in enumerate(frequencies(frame, free))]
    for case in sorted({row["case"] for row in rows(folder, "loads.csv")}):
        positive, negative_ones = factors(frame, case)
        found += [("load_factor", case, i + 1, f) for i, f in enumerate(positive)]
        found += [("load_factor_reversed", case, i + 1, f) for i, f in enumerate(negative_ones)]
    return found
