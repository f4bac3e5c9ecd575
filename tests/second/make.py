"""Random frames as model folders, each with something of its own. They mean nothing: no frame of anybody's."""
import random
from pathlib import Path

import numpy as np

MATERIALS = """
[materials.steel]
e_mpa = 210000
g_mpa = 81000
density_kg_m3 = 7850
source = "invented"

[materials.sheet]
e_mpa = 70000
g_mpa = 26300
density_kg_m3 = 2700
source = "invented"
"""

# name, free, pieces, lumped, features
FRAMES = [
    ("01-held", False, 1, False, "jitter"),
    ("02-held-lumped", False, 2, True, "jitter"),
    ("03-free", True, 2, False, "jitter"),
    ("04-free-masses", True, 1, False, "jitter masses"),
    ("05-bushed-body", False, 2, False, "jitter masses bushes"),
    ("06-free-rigid-body", True, 2, True, "jitter masses rigid"),
    ("07-panels", False, 1, False, "sheared panels"),
    ("08-free-panels", True, 2, False, "sheared panels masses"),
    ("09-releases-and-springs", False, 2, False, "jitter releases springs"),
    ("10-offsets", False, 1, False, "jitter offsets masses"),
    ("11-everything-free", True, 3, False, "sheared panels masses bushes rigid releases springs offsets"),
    ("12-everything-held", False, 3, True, "sheared panels masses bushes rigid releases springs offsets"),
    ("13-square-tower", False, 2, False, "tower"),
    ("14-free-ring", True, 1, False, "ring"),
    ("15-soft-ground", False, 2, False, "jitter ground masses"),
    ("16-slender-and-stocky", False, 3, False, "jitter uneven"),
]


def csv(path, header, rows):
    text = "\n".join([header] + [",".join(str(cell) for cell in row) for row in rows])
    path.write_text(text + "\n", encoding="utf-8")


def folder(root, index, name, free, pieces, lumped, features):
    rng = random.Random(7000 + index)
    has = set(features.split()).__contains__
    path = Path(root) / name
    path.mkdir(parents=True, exist_ok=True)
    r = lambda low, high, digits=3: round(rng.uniform(low, high), digits)
    sections = ""
    for section in ("thick", "thin", "flat"):
        wide = {"thick": 1.6, "thin": 0.5 if has("uneven") else 1.0, "flat": 0.8}[section]
        sections += f"\n[sections.{section}]\nshape = \"properties\"\narea_mm2 = {r(200, 300) * wide:.3f}\n"
        iy, iz = (40000, 40000) if has("tower") or has("ring") else (r(2e4, 6e4), r(2e4, 9e4))
        sections += f"iy_mm4 = {iy * wide**2:.3f}\niz_mm4 = {iz * wide**2:.3f}\nj_mm4 = {r(4e4, 8e4) * wide**2:.3f}\n"
    sections += f"\n[sections.round]\nshape = \"round\"\ndiameter_mm = {r(24, 40, 1)}\nwall_mm = {r(1.2, 2.4, 1)}\n"
    (path / "model.toml").write_text(
        f"title = \"{name}: a random frame\"\n\n[options]\nself_weight = false\n{sections}{MATERIALS}", encoding="utf-8"
    )

    places, tubes = [], []
    if has("ring"):
        places = [(900 * np.cos(2 * np.pi * i / 8), 900 * np.sin(2 * np.pi * i / 8), 0.0) for i in range(8)]
        tubes = [(i, (i + 1) % 8) for i in range(8)]
    else:
        count = (2, 2, 5) if has("tower") else (3, 2, 2)
        step = (500, 500, 400) if has("tower") else (520, 610, 450)
        shear = np.eye(3)
        if has("sheared"):
            shear += np.array([[r(-0.1, 0.1) for _ in range(3)] for _ in range(3)])
        index_of = {}
        for x in range(count[0]):
            for y in range(count[1]):
                for z in range(count[2]):
                    at = np.array([x * step[0], y * step[1], z * step[2]], float)
                    if has("jitter"):
                        at += [r(-90, 90, 1) for _ in range(3)]
                    index_of[x, y, z] = len(places)
                    places.append(tuple(shear @ at))
        for (x, y, z), start in index_of.items():
            for dx, dy, dz in [(1, 0, 0), (0, 1, 0), (0, 0, 1)]:
                end = index_of.get((x + dx, y + dy, z + dz))
                if end is not None:
                    tubes.append((start, end))
            if not has("tower"):
                for dx, dy, dz in [(1, 1, 0), (1, 0, 1), (0, 1, 1)]:
                    end = index_of.get((x + dx, y + dy, z + dz))
                    if end is not None and rng.random() < 0.45:
                        tubes.append((start, end))
    joints = len(places)
    uniform = has("tower") or has("ring")

    bodies, tied = [], set()
    if has("rigid"):
        for joint in (0, 1, 2, 3):
            tied.add(joint)
            bodies.append(["block", f"j{joint}", "", "", "", "", "", ""])
    if has("bushes"):
        for joint in (joints - 1, joints - 2, joints - 4, joints - 3):
            bodies.append(["module", f"j{joint}", r(300, 2000), r(300, 2000), r(300, 2000), "free", r(1, 9), "free"])
    if bodies:
        csv(path / "bodies.csv", "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krx_nm_per_deg,kry_nm_per_deg,krz_nm_per_deg", bodies)

    text = lambda value: repr(float(round(value, 6)))
    csv(path / "joints.csv", "joint,x_mm,y_mm,z_mm", [[f"j{i}", *map(text, at)] for i, at in enumerate(places)])
    header = "tube,from,to,section,material,roll_deg"
    extra = []
    if has("releases"):
        extra += ["release_from", "release_to"]
    if has("offsets"):
        extra += [f"offset_{side}_{axis}_mm" for side in ("from", "to") for axis in "xyz"]
    if has("springs"):
        extra += ["spring_from_ry_nm_per_deg", "spring_to_rz_nm_per_deg", "spring_to_rx_nm_per_deg"]
    lines = []
    for i, (start, end) in enumerate(tubes):
        kind = "thick" if uniform else rng.choice(["thick", "thin", "flat", "round"])
        line = [f"t{i}", f"j{start}", f"j{end}", kind, "steel", 0 if uniform else r(-180, 180, 1)]
        hinged = has("releases") and rng.random() < 0.3
        for key in extra:
            if key == "release_from":
                line.append(rng.choice(["ry rz", "ry", "rx ry rz", "ux"]) if hinged else "")
            elif key == "release_to":
                line.append("rz" if hinged and rng.random() < 0.4 else "")
            elif key.startswith("offset"):
                line.append(r(-25, 25, 1) if i % 4 == 1 else "")
            else:
                line.append(r(5, 400, 1) if i % 5 == 2 and not hinged else "")
        lines.append(line)
    csv(path / "tubes.csv", ",".join([header] + extra), lines)

    if has("panels"):
        panels = []
        for x, z in [(0, 0), (1, 0), (0, 1)]:
            corners = [index_of[x, 0, z], index_of[x + 1, 0, z], index_of[x + 1, 1, z], index_of[x, 1, z]]
            panels.append([f"p{x}{z}", " ".join(f"j{c}" for c in corners), "sheet", r(0.8, 2.0, 1)])
        csv(path / "panels.csv", "panel,joints,material,thickness_mm", panels)

    masses = []
    if has("masses"):
        near = lambda joint: [text(value + r(-60, 60, 1)) for value in places[joint]]
        masses.append(["point", r(3, 9), *map(text, places[5]), "j5", "", "", ""])
        masses.append(["arm", r(3, 9), *near(6), "j6", r(0.1, 0.3), r(0.2, 0.4), r(0.2, 0.4)])
        masses.append(["two", r(8, 20), *near(7), "j4 j7", r(0.1, 0.3), r(0.2, 0.4), r(0.2, 0.4)])
        masses.append(["four", r(30, 60), *near(8), "j4 j5 j8 j9", r(1, 2), r(1, 2), r(1, 2)])
    for body, joint in [("block", 0), ("module", joints - 1)]:
        if any(row[0] == body for row in bodies):
            at = [text(value + r(-80, 80, 1)) for value in places[joint]]
            masses.append([f"of {body}", r(20, 50), *at, f"body: {body}", r(1, 2), r(1, 2), r(1, 2)])
    if masses:
        csv(path / "masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints,ixx_kg_m2,iyy_kg_m2,izz_kg_m2", masses)

    if not free:
        held = [i for i in ((0, 1, 2, 3) if has("tower") else (0, 2, 4, 8)) if i not in tied]
        if has("tower"):
            held = [index_of[x, y, 0] for x in (0, 1) for y in (0, 1)]
        word = lambda: rng.choice(["free", "fixed"]) if has("jitter") and not has("ground") else "fixed"
        support = []
        for place, joint in enumerate(held or [joints - 5]):
            if has("ground"):
                support.append([f"j{joint}"] + [r(200, 4000) for _ in range(3)] + ["free", "free", r(1, 20)])
            else:
                support.append([f"j{joint}"] + ["fixed"] * 3 + ([word() for _ in range(3)] if place else ["fixed"] * 3))
        if len(support) < 3:
            support += [[f"j{joint}"] + ["fixed"] * 6 for joint in (joints - 5, joints - 6)]
        csv(path / "supports.csv", "joint,ux,uy,uz,rx,ry,rz", support)
        on = [i for i in range(joints) if f"j{i}" not in {row[0] for row in support} and i not in tied]
        loads = []
        for case in ("push", "pull"):
            for joint in rng.sample(on, 4):
                loads.append([case, f"j{joint}"] + [r(-9000, 9000, 1) for _ in range(3)] + [r(-90, 90, 1) for _ in range(3)])
        if has("bushes"):
            loads.append(["pull", "body: module", r(-9000, 9000, 1), 0, -4000, 100, 0, 0])
        csv(path / "loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm", loads)
    (path / "expected").mkdir(exist_ok=True)
    csv(path / "expected" / "how.csv", "pieces,lumped", [[pieces, "yes" if lumped else "no"]])
    return path


def all_folders(root):
    for index, (name, free, pieces, lumped, features) in enumerate(FRAMES):
        folder(root, index, name, free, pieces, lumped, features)
