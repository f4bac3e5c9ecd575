"""Matrices of a model folder: stiffness, mass and geometric stiffness of the frame, from the tables alone.

Written apart from the program and unlike it: element matrices are integrals of shape functions by Gauss quadrature, in the
longest floating point that the machine has; every end of every piece keeps freedoms of its own until the whole is put
together; a mass is a row of numbers that says how its centre moves. Nothing here reads what the program writes.
"""
import csv
import tomllib
from pathlib import Path

import numpy as np

LONG = np.longdouble
DOFS = ["ux", "uy", "uz", "rx", "ry", "rz"]
DEG = LONG(180) / LONG(np.pi)


def number(text):
    return LONG(text.strip()) if text and text.strip() else LONG(0)


def rows(folder, name):
    path = Path(folder) / name
    if not path.exists():
        return []
    with path.open(encoding="utf-8") as file:
        lines = [line for line in file if line.strip() and not line.startswith("#")]
    return list(csv.DictReader(lines))


def gauss(count):
    """Places and weights on 0 … 1, sharpened by Newton's method to the last digit of the long format."""
    x = np.polynomial.legendre.leggauss(count)[0].astype(LONG)
    for _ in range(4):
        p0, p1 = np.ones(count, LONG), x
        for n in range(2, count + 1):
            p0, p1 = p1, ((2 * n - 1) * x * p1 - (n - 1) * p0) / n
        slope = count * (x * p1 - p0) / (x * x - 1)
        x = x - p1 / slope
    return (1 + x) / 2, 1 / ((1 - x * x) * slope * slope)


PLACES, WEIGHTS = gauss(6)


def shapes(s, length):
    """u, v, w, θx of a piece at s, and their derivatives: rows over its twelve freedoms."""
    def rows_of(h, lin):
        u, v, w, t = (np.zeros(12, LONG) for _ in range(4))
        u[[0, 6]], t[[3, 9]] = lin, lin
        v[[1, 5, 7, 11]] = [h[0], length * h[1], h[2], length * h[3]]
        w[[2, 4, 8, 10]] = [h[0], -length * h[1], h[2], -length * h[3]]
        return u, v, w, t
    value = rows_of([1 - 3 * s**2 + 2 * s**3, s - 2 * s**2 + s**3, 3 * s**2 - 2 * s**3, s**3 - s**2], [1 - s, s])
    first = rows_of([6 * s**2 - 6 * s, 1 - 4 * s + 3 * s**2, 6 * s - 6 * s**2, 3 * s**2 - 2 * s], [-1, 1])
    second = rows_of([12 * s - 6, 6 * s - 4, 6 - 12 * s, 6 * s - 2], [0, 0])
    return value, [row / length for row in first], [row / length**2 for row in second]


def element(tube, length, lumped):
    """Stiffness, mass and the geometric stiffness of 1 N, local axes."""
    section, material = tube["section"], tube["material"]
    e, g, rho = material["e"], material["g"], material["rho"]
    area, iy, iz, j = (section[key] for key in ("area", "iy", "iz", "j"))
    k, m, kg = (np.zeros((12, 12), LONG) for _ in range(3))
    for s, weight in zip(PLACES, WEIGHTS):
        (u, v, w, t), (du, dv, dw, dt), (_, ddv, ddw, _) = shapes(s, length)
        part = weight * length
        k += part * (e * area * np.outer(du, du) + g * j * np.outer(dt, dt))
        k += part * (e * iz * np.outer(ddv, ddv) + e * iy * np.outer(ddw, ddw))
        m += part * (rho * area * (np.outer(u, u) + np.outer(v, v) + np.outer(w, w)))
        m += part * rho * (iy + iz) * np.outer(t, t)
        kg += part * (np.outer(dv, dv) + np.outer(dw, dw))
    if lumped:
        half, turn = rho * area * length / 2, rho * area * length**3 / 78
        spin = rho * (iy + iz) * length / 2
        m = np.diag(np.array([half, half, half, spin, turn, turn] * 2, LONG))
    return k, m, kg


def skew(a):
    return np.array([[0, -a[2], a[1]], [a[2], 0, -a[0]], [-a[1], a[0], 0]], LONG)


def carried(arm):
    """Six movements of a point from those of another that it is rigidly joined to; `arm` from there to the point."""
    matrix = np.eye(6, dtype=LONG)
    matrix[:3, 3:] = -skew(arm)
    return matrix


def axes(start, end, roll):
    """Rows are the tube's own x, y, z."""
    along = end - start
    length = np.sqrt((along**2).sum())
    x = along / length
    if np.hypot(x[0], x[1]) < np.sin(LONG(0.1) / DEG):
        up = np.array([-np.sign(x[2]), 0, 0], LONG)
    else:
        up = np.array([0, 0, 1], LONG)
    z = up - x * (up @ x)
    z /= np.sqrt((z**2).sum())
    y = np.cross(z, x)
    c, s = np.cos(roll), np.sin(roll)
    return np.array([x, y * c + z * s, z * c - y * s]), length


def spread(at, points):
    """For each point, the 6 × 6 matrix that makes its share of a unit force or moment at `at`."""
    centre = sum(points) / len(points)
    arms = [point - centre for point in points]
    second = sum(((r @ r) * np.eye(3, dtype=LONG) - np.outer(r, r) for r in arms), np.zeros((3, 3), LONG))
    values, vectors = np.linalg.eigh(second.astype(float))
    keep = values > 1e-6 * max(values.max(), 1e-300)
    # The pseudo-inverse; one Newton step carries it into the long format.
    inverse = (vectors[:, keep] / values[keep] @ vectors[:, keep].T).astype(LONG)
    if keep.all():
        inverse = inverse @ (2 * np.eye(3, dtype=LONG) - second @ inverse)
    load = np.hstack([skew(at - centre), np.eye(3, dtype=LONG)])
    turn = inverse @ load
    shares = []
    force = np.hstack([np.eye(3, dtype=LONG), np.zeros((3, 3), LONG)])
    taken = np.zeros((3, 6), LONG)
    for r in arms:
        own = force / len(points) - skew(r) @ turn
        shares.append(own)
        taken += skew(r) @ own
    rest = (load - taken) / len(points)
    return [np.vstack([own, rest]) for own in shares]


class Frame:
    """A model folder with every tube in `pieces`."""

    def __init__(self, folder, pieces=1, lumped=False):
        self.folder = Path(folder)
        with (self.folder / "model.toml").open("rb") as file:
            self.settings = tomllib.load(file)
        self.sections = {name: section(entry) for name, entry in self.settings["sections"].items()}
        self.materials = {
            name: {
                "e": LONG(str(entry["e_mpa"])) * 10**6,
                "g": LONG(str(entry["g_mpa"])) * 10**6,
                "rho": LONG(str(entry["density_kg_m3"])),
            }
            for name, entry in self.settings["materials"].items()
        }
        self.places = []
        self.names = {}
        for row in rows(folder, "joints.csv"):
            self.names[row["joint"]] = self.add([number(row[f"{axis}_mm"]) / 1000 for axis in "xyz"])
        self.tubes = []
        for row in rows(folder, "tubes.csv"):
            self.divide(row, pieces)
        self.read_bodies()
        size = 6 * len(self.places)
        self.k, self.m = np.zeros((size, size), LONG), np.zeros((size, size), LONG)
        self.put_tubes(lumped)
        self.put_bushes()
        self.put_panels()
        self.put_masses()
        self.hold()

    def add(self, at):
        self.places.append(np.array(at, LONG))
        return len(self.places) - 1

    def divide(self, row, pieces):
        ends = [self.names[row[key]] for key in ("from", "to")]
        arms, springs = [], []
        for side in ("from", "to"):
            arms.append(np.array([number(row.get(f"offset_{side}_{axis}_mm")) / 1000 for axis in "xyz"], LONG))
            own = {DOFS.index(word): LONG(0) for word in (row.get(f"release_{side}") or "").split()}
            for dof, unit in [("ux", "n_per_mm"), ("rx", "nm_per_deg"), ("ry", "nm_per_deg"), ("rz", "nm_per_deg")]:
                text = (row.get(f"spring_{side}_{dof}_{unit}") or "").strip()
                if text and DOFS.index(dof) not in own:
                    own[DOFS.index(dof)] = LONG(text) * (1000 if dof == "ux" else DEG)
            springs.append(own)
        corner = [self.places[end] + arm for end, arm in zip(ends, arms)]
        last = ends[0]
        for piece in range(pieces):
            final = piece + 1 == pieces
            at = [corner[0] + (corner[1] - corner[0]) * LONG(place) / pieces for place in (piece, piece + 1)]
            nxt = ends[1] if final else self.add(at[1])
            self.tubes.append({
                "whole": row["tube"],
                "nodes": (last, nxt),
                "at": at,
                "arms": [arms[0] if piece == 0 else 0 * arms[0], arms[1] if final else 0 * arms[1]],
                "springs": [springs[0] if piece == 0 else {}, springs[1] if final else {}],
                "roll": number(row.get("roll_deg")) / DEG,
                "section": self.sections[row["section"]],
                "material": self.materials[row["material"]],
            })
            last = nxt

    def read_bodies(self):
        self.bodies, mounts = {}, {}
        for row in rows(self.folder, "bodies.csv"):
            mounts.setdefault(row["body"], []).append(row)
        self.bushes, self.tied = [], {}
        for name, its in mounts.items():
            at = sum(self.places[self.names[row["joint"]]] for row in its) / len(its)
            body = self.add(at)
            self.bodies[name] = body
            for row in its:
                joint = self.names[row["joint"]]
                moves = [(row.get(f"k{axis}_n_per_mm") or "").strip() or "rigid" for axis in "xyz"]
                default = "rigid" if moves == ["rigid"] * 3 else "free"
                turns = [(row.get(f"kr{axis}_nm_per_deg") or "").strip() or default for axis in "xyz"]
                bonds = moves + turns
                if bonds == ["rigid"] * 6:
                    self.tied[joint] = body
                    continue
                assert "rigid" not in bonds, "mounts here are rigid wholly or not at all"
                stiff = [0 if bond == "free" else LONG(bond) * (1000 if i < 3 else DEG) for i, bond in enumerate(bonds)]
                self.bushes.append((joint, body, np.array(stiff, LONG)))

    def dofs(self, *nodes):
        return np.concatenate([np.arange(6 * node, 6 * node + 6) for node in nodes])

    def put_tubes(self, lumped):
        for tube in self.tubes:
            turn, length = axes(tube["at"][0], tube["at"][1], tube["roll"])
            k, m, tube["kg"] = element(tube, length, lumped)
            to_local = np.kron(np.eye(4, dtype=LONG), turn)
            arms = np.zeros((12, 12), LONG)
            arms[:6, :6], arms[6:, 6:] = carried(tube["arms"][0]), carried(tube["arms"][1])
            follow, stretch = self.ends(k, tube["springs"])
            tube["follow"] = follow @ to_local @ arms
            tube["axial"] = k[6]
            springs = stretch @ to_local @ arms
            place = np.ix_(*[self.dofs(*tube["nodes"])] * 2)
            self.k[place] += tube["follow"].T @ k @ tube["follow"] + springs.T @ springs
            self.m[place] += tube["follow"].T @ m @ tube["follow"]

    @staticmethod
    def ends(k, springs):
        """How the piece's own ends follow the ends of its arms, and √spring times the gaps between them."""
        free = {6 * end + dof: value for end in (0, 1) for dof, value in springs[end].items()}
        follow, stretch = np.eye(12, dtype=LONG), np.zeros((12, 12), LONG)
        if free:
            loose = sorted(free)
            kept = [i for i in range(12) if i not in free]
            spring = np.diag(np.array([free[i] for i in loose], LONG))
            right = np.zeros((len(loose), 12), LONG)
            right[:, kept] = -k[np.ix_(loose, kept)]
            right[:, loose] = spring
            follow[loose] = solve(k[np.ix_(loose, loose)] + spring, right)
            for i in loose:
                stretch[i] = np.sqrt(free[i]) * (follow[i] - np.eye(12, dtype=LONG)[i])
        return follow, stretch

    def put_bushes(self):
        for joint, body, stiff in self.bushes:
            gap = np.hstack([-np.eye(6, dtype=LONG), carried(self.places[joint] - self.places[body])])
            self.k[np.ix_(*[self.dofs(joint, body)] * 2)] += gap.T @ (stiff[:, None] * gap)

    def put_panels(self):
        """A parallelogram in uniform shear: tangential flow q along its edges, lumped at the corners."""
        for row in rows(self.folder, "panels.csv"):
            corners = [self.names[name] for name in row["joints"].split()]
            at = [self.places[corner] for corner in corners]
            material, t = self.materials[row["material"]], number(row["thickness_mm"]) / 1000
            a, b = at[1] - at[0], at[3] - at[0]
            assert np.abs((at[2] - at[1]) - b).max() < 1e-12, "panels here are parallelograms"
            normal = np.cross(a, b)
            area = np.sqrt((normal**2).sum())
            cot = (a @ b) / area
            # Shear and the direct stress that slanting sides need: twice the energy of q = 1 N/m.
            give = area / t * (4 * cot**2 / material["e"] + 1 / material["g"])
            # q of 1 N/m: edges 1–2 and 3–4 run backwards and forwards, 2–3 and 4–1 the other way.
            force = np.zeros(24, LONG)
            for edge in range(4):
                i, j = edge, (edge + 1) % 4
                run = (at[j] - at[i]) * (-1 if edge % 2 == 0 else 1) / 2
                for corner in (i, j):
                    force[6 * corner:6 * corner + 3] += run
            place = np.ix_(*[self.dofs(*corners)] * 2)
            self.k[place] += np.outer(force, force) / give
            weight = material["rho"] * t * area
            second = weight / 12 * (np.outer(a, a) + np.outer(b, b))
            self.carry(weight, np.trace(second) * np.eye(3, dtype=LONG) - second, sum(at) / 4, corners)

    def put_masses(self):
        for row in rows(self.folder, "masses.csv"):
            at = np.array([number(row[f"{axis}_mm"]) / 1000 for axis in "xyz"], LONG)
            inertia = np.diag([number(row.get(f"i{axis}{axis}_kg_m2")) for axis in "xyz"])
            words = row["joints"].strip()
            if words.startswith("body:"):
                body = self.bodies[words[5:].strip()]
                self.carry(number(row["kg"]), inertia, at, [body])
            else:
                self.carry(number(row["kg"]), inertia, at, [self.names[name] for name in words.split()])

    def carry(self, weight, inertia, at, nodes):
        shares = spread(at, [self.places[node] for node in nodes])
        matrix = np.zeros((6, 6), LONG)
        matrix[:3, :3], matrix[3:, 3:] = weight * np.eye(3), inertia
        moves = np.hstack([share.T for share in shares])
        self.m[np.ix_(*[self.dofs(*nodes)] * 2)] += moves.T @ matrix @ moves

    def hold(self):
        """What stays: `self.kept` are the freedoms that are free; those of a rigid bolt follow its body's."""
        size = len(self.k)
        kept = np.ones(size, bool)
        for row in rows(self.folder, "supports.csv"):
            for dof, word in enumerate(row[name].strip() for name in DOFS):
                place = 6 * self.names[row["joint"]] + dof
                if word == "fixed":
                    kept[place] = False
                elif word != "free":
                    self.k[place, place] += LONG(word) * (1000 if dof < 3 else DEG)
        for joint in self.tied:
            assert kept[self.dofs(joint)].all(), "no support stands at a rigid bolt here"
            kept[self.dofs(joint)] = False
        idle = (np.abs(self.k).max(axis=0) == 0) & (np.abs(self.m).max(axis=0) == 0)
        for body in self.tied.values():
            idle[self.dofs(body)] = False
        self.kept = np.flatnonzero(kept & ~idle)

    def passed_on(self, rows_of):
        """Forces at the joints of rigid bolts, row by row, given to their bodies."""
        rows_of = rows_of.copy()
        for joint, body in self.tied.items():
            rows_of[self.dofs(body)] += carried(self.places[joint] - self.places[body]).T @ rows_of[self.dofs(joint)]
        return rows_of

    def over_free(self, matrix):
        matrix = self.passed_on(self.passed_on(matrix).T)
        return matrix[np.ix_(self.kept, self.kept)]

    def moved(self, free):
        """All movements from those that are free."""
        whole = np.zeros(len(self.k), LONG)
        whole[self.kept] = free
        for joint, body in self.tied.items():
            whole[self.dofs(joint)] = carried(self.places[joint] - self.places[body]) @ whole[self.dofs(body)]
        return whole

    def reduced(self):
        """K and M over what is free."""
        return [self.over_free(matrix) for matrix in (self.k, self.m)]

    def load(self, case):
        force = np.zeros(len(self.k), LONG)
        for row in rows(self.folder, "loads.csv"):
            if row["case"] == case:
                word = row["joint"]
                node = self.bodies[word[5:].strip()] if word.startswith("body:") else self.names[word]
                keys = ["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"]
                force[self.dofs(node)] += [number(row[key]) for key in keys]
        return self.passed_on(force)[self.kept]

    def geometric(self, moved):
        """K_g over what is free, of the axial forces in a solved state, and these forces."""
        kg = np.zeros_like(self.k)
        forces = []
        for tube in self.tubes:
            own = tube["follow"] @ moved[self.dofs(*tube["nodes"])]
            n = tube["axial"] @ own
            forces.append(n)
            kg[np.ix_(*[self.dofs(*tube["nodes"])] * 2)] += n * (tube["follow"].T @ tube["kg"] @ tube["follow"])
        return self.over_free(kg), forces


def section(entry):
    """Properties in m."""
    value = lambda key: LONG(str(entry[key]))
    if entry["shape"] == "properties":
        return {"area": value("area_mm2") / 10**6, **{key: value(f"{key}_mm4") / 10**12 for key in ("iy", "iz", "j")}}
    assert entry["shape"] == "round"
    d = value("diameter_mm") / 1000
    inner = d - 2 * value("wall_mm") / 1000
    pi = LONG("3.14159265358979323846264338327950288")
    i = pi * (d**4 - inner**4) / 64
    return {"area": pi * (d**2 - inner**2) / 4, "iy": i, "iz": i, "j": 2 * i}


def solve(matrix, right):
    """A solution, refined against residuals in the long format."""
    a = matrix.astype(float)
    scale = 1 / np.sqrt(np.abs(np.diag(a)))
    inverse = np.linalg.inv(a * scale[:, None] * scale)
    step = lambda r: ((inverse @ (r.astype(float).T * scale).T).T * scale).T.astype(LONG)
    x = step(right)
    for _ in range(4):
        x = x + step(right - matrix @ x)
    return x
