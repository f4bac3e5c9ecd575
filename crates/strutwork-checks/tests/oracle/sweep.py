"""Writes the tables beside this file. `python3 sweep.py`: standard library, fixed seeds."""
import csv
import random
from math import inf, pi, radians, sqrt
from pathlib import Path

import fasten
import fatigue
import joints
import local
import member
import panel
import resist
import sections

HERE = Path(__file__).parent
E = 210000.0
RHS = [(20, 20, 1.5), (25, 25, 1.5), (25, 25, 2), (30, 20, 2), (40, 20, 1.5), (40, 40, 2), (50, 25, 1.5), (50, 30, 2),
       (50, 50, 3), (60, 40, 2), (60, 60, 1.5), (70, 30, 2.5), (80, 40, 2), (80, 80, 5), (100, 50, 2), (100, 100, 2),
       (120, 40, 2), (120, 60, 2.5)]
CHS = [(20, 1.5), (25.4, 1.6), (30, 2), (38, 2.5), (40, 2), (45, 2.5), (50, 1.5), (60.3, 2.9), (76.1, 1.5), (100, 1.5)]
THIN = [(60, 30, 1), (100, 60, 1), (50, 50, 1), (150, 50, 1.5), (80, 80, 1.5), (90, 30, 1.2), (120, 120, 2), (40, 120, 2),
        (200, 40, 1.5), (200, 100, 1.5)]
STEELS = [235, 275, 355, 460, 700]


def shape(rng):
    if rng.random() < 0.3:
        return sections.chs(*rng.choice(CHS))
    return sections.rhs(*rng.choice(RHS))


def sig(value, digits=4):
    """Few digits, so that a table stays small; the number itself is what both sides then use."""
    return float(f"{value:.{digits}g}")


def write(name, rows):
    def text(value):
        if isinstance(value, str):
            return value
        if isinstance(value, float) and value in (inf, -inf):
            return "inf"
        return f"{value:.13g}"

    with open(HERE / f"{name}.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(rows[0].keys())
        for row in rows:
            assert row.keys() == rows[0].keys()
            out.writerow([text(v) for v in row.values()])
    print(name, len(rows), (HERE / f"{name}.csv").stat().st_size)


def size(s, f_y):
    return dict(shape=s["kind"], h_mm=s["h"], b_mm=s["b"], t_mm=s["t"], f_y_mpa=f_y)


def class_limits():
    """A rectangular tube with one pair of walls just below and just above each limit, the other pair stocky."""
    rows = []
    for f_y in STEELS:
        eps = local.epsilon(f_y)
        for force, across, alpha, psi in (("n", False, 1, 1), ("m", True, 1, 1), ("m", False, 0.5, -1)):
            for limit in local.wall_limits(eps, alpha, psi):
                for nudge in (-1e-6, 1e-6):
                    t = 2.0
                    slender, stocky = round(t * (limit * (1 + nudge) + 3), 9), 24.0
                    # The slender walls stand along z and are bent in their plane by M_y, or lie across it.
                    h, b = (stocky, slender) if across else (slender, stocky)
                    s = sections.rhs(h, b, t)
                    n = sig(0.3 * s["A"] * f_y) if force == "n" else 0.0
                    my = sig(0.3 * s["W_el_y"] * f_y / 1000) if force == "m" else 0.0
                    rows.append(dict(**size(s, f_y), compression_n=n, my_ed_nm=my,
                                     section_class=local.section_class(s, f_y, n, my * 1000, 0)))
    write("class_limits", rows)


def effective():
    rows = []
    for f_y in (235, 355, 700):
        for h, b, t in RHS + THIN:
            s = sections.rhs(h, b, t)
            cb, ch = (b - 3 * t) / t, (h - 3 * t) / t
            limits = local.wall_limits(local.epsilon(f_y), 1, 1)
            worst = max(local.wall_class(cb, limits), local.wall_class(ch, limits))
            rb, rh, a_eff = local.effective_area(s, f_y)
            y, z = local.effective_modulus(s, f_y, "y"), local.effective_modulus(s, f_y, "z")
            if worst < 3 and rb == rh == 1:
                continue
            rows.append(dict(**size(s, f_y), class_compression=worst, rho_b=rb, rho_h=rh, A_eff_mm2=a_eff,
                             psi_y=y["psi"], rho_web_y=y["rho_w"], W_eff_y_mm3=y["W_eff"],
                             psi_z=z["psi"], rho_web_z=z["rho_w"], W_eff_z_mm3=z["W_eff"]))
    write("effective", rows)


def classes():
    rows = []
    for f_y in STEELS:
        eps = local.epsilon(f_y)
        for d, t in CHS:
            rows.append(dict(d_over_t=d / t, f_y_mpa=f_y, wall_class=local.round_class(d / t, eps)))
        for limit in (50, 70, 90):
            for nudge in (-1e-6, 1e-6):
                ratio = round(limit * eps**2 * (1 + nudge), 9)
                rows.append(dict(d_over_t=ratio, f_y_mpa=f_y, wall_class=local.round_class(ratio, eps)))
    write("round_classes", rows)


def resistance():
    """Cross-sections of class 1 and 2 in compression, so that the class is the same for every stress."""
    rng = random.Random(2)
    rows = []
    while len(rows) < 200:
        s, f_y = shape(rng), rng.choice(STEELS)
        if local.section_class(s, f_y, 1.0, 0, 0) > 2:
            continue
        m0 = rng.choice((1.0, 1.0, 1.05, 1.1))
        n_ed = sig(rng.choice((0, rng.uniform(0, 0.3), rng.uniform(0.3, 0.95), 0.9999)) * s["A"] * f_y / m0)
        my, mz = (sig(rng.choice((0, rng.uniform(0, 1.1))) * s["W_pl_" + a] * f_y / m0 / 1000) for a in "yz")
        t_ed = sig(rng.choice((0, rng.uniform(0, 0.5))) * s["W_t"] * f_y / sqrt(3) / m0 / 1000)
        _, _, _, vtz, vty = resist.shear(s, f_y, m0, t_ed * 1000)
        far = 0.35 if len(rows) < 140 else 0.98
        vz_ed, vy_ed = sig(rng.uniform(0, far) * vtz), sig(rng.uniform(0, far) * vty)
        out = resist.check(s, f_y, m0, n_ed, vy_ed, vz_ed, t_ed * 1000, my * 1000, mz * 1000)
        rows.append(dict(
            **size(s, f_y), gamma_m0=m0, n_ed_n=n_ed, vy_ed_n=vy_ed, vz_ed_n=vz_ed, t_ed_nm=t_ed, my_ed_nm=my, mz_ed_nm=mz,
            V_pl_z_n=out["V_pl_z"], V_pl_y_n=out["V_pl_y"], V_T_z_n=out["V_T_z"], V_T_y_n=out["V_T_y"], rho=out["rho"],
            N_pl_n=out["N_pl"], M_pl_y_nm=out["M_pl_y"] / 1000, M_pl_z_nm=out["M_pl_z"] / 1000, n=out["n"],
            M_N_y_nm=out["M_N_y"] / 1000, M_N_z_nm=out["M_N_z"] / 1000, alpha=out["alpha"], together=out["together"],
            U=out["U"]))
    write("resistance", rows)


def combined():
    """Slender sections: the class under all forces, and what each force and their sum use."""
    rng = random.Random(14)
    rows = []
    while len(rows) < 160:
        f_y = rng.choice(STEELS)
        if rng.random() < 0.2:
            s = sections.chs(*rng.choice(CHS))
            if local.round_class(s["h"] / s["t"], local.epsilon(f_y)) == 4:
                continue
        else:
            s = sections.rhs(*rng.choice(RHS + THIN))
        pull = rng.random() < 0.3
        n = sig((-1 if pull else 1) * rng.choice((0, rng.uniform(0.01, 0.9))) * s["A"] * f_y)
        my, mz = (sig(rng.choice((0, rng.uniform(0.01, 0.8))) * s["W_el_" + a] * f_y / 1000) for a in "yz")
        kind = local.section_class(s, f_y, n, my * 1000, mz * 1000)

        def moduli(kind):
            if kind <= 2:
                return s["W_pl_y"], s["W_pl_z"]
            if kind == 3:
                return s["W_el_y"], s["W_el_z"]
            return tuple(local.effective_modulus(s, f_y, a)["W_eff"] for a in "yz")

        def area(kind):
            return local.effective_area(s, f_y)[2] if kind == 4 and n > 0 else s["A"]

        alone_n = local.section_class(s, f_y, n, 0, 0)
        row = dict(**size(s, f_y), compression_n=n, my_ed_nm=my, mz_ed_nm=mz, section_class=kind,
                   u_N=abs(n) / (area(alone_n) * f_y))
        if s["kind"] == "chs":
            m = sqrt(my**2 + mz**2) * 1000
            bent = local.section_class(s, f_y, 0, m, 0)
            row |= dict(u_My=m / (moduli(bent)[0] * f_y), u_Mz=0.0)
            linear = abs(n) / (s["A"] * f_y) + m / (moduli(kind)[0] * f_y)
        else:
            for at, (axis, m) in enumerate((("y", my), ("z", mz))):
                bent = local.section_class(s, f_y, 0, m * (axis == "y"), m * (axis == "z"))
                row["u_M" + axis] = m * 1000 / (moduli(bent)[at] * f_y)
            wy, wz = moduli(kind)
            linear = abs(n) / (area(kind) * f_y) + my * 1000 / (wy * f_y) + mz * 1000 / (wz * f_y)
        # One moment alone has no sum.
        several = (my or mz) and (n or (s["kind"] == "rhs" and my and mz))
        row["sum"] = linear if kind > 2 and several else ""
        rows.append(row)
    write("combined", rows)


def members():
    """6.3.1 by the class under N alone, 6.3.3 by that under all forces; end moments alone, so C_m = 0.6 + 0.4 psi."""
    rng = random.Random(3)
    rows = []
    while len(rows) < 180:
        s, f_y = shape(rng), rng.choice(STEELS)
        if rng.random() < 0.2:
            s = sections.rhs(*rng.choice(THIN))
        curve = rng.choice(("c", "c", "a", "a0"))
        m1 = rng.choice((1.0, 1.0, 1.1))
        ly, lz = (sig(rng.uniform(0.05, 2.5) * 94 * local.epsilon(f_y) * s["i_" + a], 3) for a in "yz")
        alone = local.section_class(s, f_y, 1.0, 0, 0)
        if s["kind"] == "chs" and alone == 4:
            continue
        ncr = [member.euler(E, s["I_" + a], length) for a, length in (("y", ly), ("z", lz))]

        def area(kind):
            return local.effective_area(s, f_y)[2] if kind == 4 else s["A"]

        def reduced(kind):
            lam = [sqrt(area(kind) * f_y / n) for n in ncr]
            return lam, [member.chi(x, curve)[1] for x in lam]

        _, chi = reduced(alone)
        n_b = [x * area(alone) * f_y / m1 for x in chi]
        n_ed = sig(rng.uniform(0.05, 1.0) * min(n_b))
        my, mz = (sig(rng.choice((0, rng.uniform(0.01, 0.8))) * s["W_el_" + a] * f_y / 1000) for a in "yz")
        psi_y, psi_z = (round(rng.uniform(-1, 1), 3) for _ in range(2))
        kind = local.section_class(s, f_y, n_ed, my * 1000, mz * 1000)
        row = dict(**size(s, f_y), curve=curve, gamma_m1=m1, l_cr_y_mm=ly, l_cr_z_mm=lz, n_ed_n=n_ed, my_ed_nm=my,
                   mz_ed_nm=mz, psi_y=psi_y, psi_z=psi_z, N_cr_y_n=ncr[0], N_cr_z_n=ncr[1], N_b_y_n=n_b[0], N_b_z_n=n_b[1],
                   section_class=kind)
        lam, chi = reduced(kind)
        if kind <= 2:
            w = [s["W_pl_y"], s["W_pl_z"]]
        elif kind == 3 or s["kind"] == "chs":
            w = [s["W_el_y"], s["W_el_z"]]
        else:
            w = [local.effective_modulus(s, f_y, a)["W_eff"] for a in "yz"]
        n_rk, m_rk = area(kind) * f_y, [x * f_y for x in w]
        # No moment about an axis: its C_m is 1, and k_yy or k_zz then goes with nothing.
        cm = [member.cm_ends(p) if m else 1.0 for p, m in ((psi_y, my), (psi_z, mz))]
        out = member.interaction(n_ed, my * 1000, mz * 1000, n_rk, *m_rk, m1, *chi, *lam, *cm, kind <= 2)
        names = ("N_Rk_n", "M_y_Rk_nm", "M_z_Rk_nm", "lambda_y", "lambda_z", "chi_y", "chi_z", "k_yy", "k_zz", "k_yz", "k_zy",
                 "eq_661", "eq_662")
        values = (n_rk, m_rk[0] / 1000, m_rk[1] / 1000, *lam, *chi, *out[2:])
        row |= {name: value if my or mz else "" for name, value in zip(names, values)}
        row["U"] = max(n_ed / n_b[0], n_ed / n_b[1], *(out[6:] if my or mz else ()))
        rows.append(row)
    write("members", rows)


def equivalent_moments():
    rng = random.Random(4)
    rows = [dict(psi=p, m_h_nm=1, m_s_nm="", load="none", C_m=member.cm_ends(p))
            for p in (-1, -0.75, -0.5, -0.49, 0, 0.5, 1)]
    for load in ("uniform", "point"):
        for _ in range(25):
            psi = rng.choice((-1.0, 1.0, 0.0, round(rng.uniform(-1, 1), 3)))
            m_h = sig(rng.uniform(-50, 50), 3)
            m_s = sig(rng.choice((m_h * rng.uniform(-1, 1), rng.uniform(-60, 60))), 3)
            rows.append(dict(psi=psi, m_h_nm=m_h, m_s_nm=m_s, load=load,
                             C_m=member.cm_span(m_h, m_s, psi, load == "uniform")))
    write("equivalent_moments", rows)


def rect_joints():
    rng = random.Random(5)
    rows = []
    while len(rows) < 200:
        h0, b0, t0 = rng.choice(RHS)
        if max(h0, b0) / t0 > 35:
            continue
        t1 = rng.choice((1.5, 2, 2.5, 3))
        b1 = rng.choice((0.25, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.85, 0.86, 0.9, 0.95, 1.0, 1.0)) * b0
        h1 = b1 * rng.choice((1, 1, 0.5, 1.5, 2))
        f0, f1 = rng.choice(STEELS[:4]), rng.choice(STEELS[:4])
        angle = rng.choice((30, 45, 60, 75, 90, 90))
        kind = "T" if rng.random() < 0.6 else "X"
        n = rng.choice((0.0, -0.5, round(rng.uniform(0, 1), 2)))
        m5 = rng.choice((1.0, 1.0, 1.1))
        pressed = rng.random() < 0.5
        curve = rng.choice("ca")
        if b0 - b1 < 0:
            continue
        modes = joints.txy(kind, pressed, h0, b0, t0, f0, h1, b1, t1, f1, radians(angle), n, m5, curve)
        rows.append(dict(
            kind=kind, pressed="yes" if pressed else "no", h0_mm=h0, b0_mm=b0, t0_mm=t0, f_y0_mpa=f0, h1_mm=h1, b1_mm=b1,
            t1_mm=t1, f_y1_mpa=f1, theta_deg=angle, n=n, gamma_m5=m5, curve=curve, k_n=joints.k_n(n, b1 / b0),
            face_n=modes.get("face", ""), between_n=modes.get("between", ""), brace_n=modes.get("brace", ""),
            punching_n=modes.get("punching", ""), N_Rd_n=min(modes.values())))
    write("joints_rectangular", rows)


def gap_joints():
    rng = random.Random(6)
    rows = []
    while len(rows) < 120:
        h0, b0, t0 = rng.choice(RHS)
        if max(h0, b0) / t0 > 35:
            continue
        f0 = rng.choice(STEELS[:4])
        braces = []
        for _ in range(2):
            b = round(rng.uniform(0.4, 0.95) * b0, 1)
            braces.append((b if rng.random() < 0.6 else round(b * rng.uniform(0.5, 2), 1), b, rng.choice((1.5, 2, 3)),
                           rng.choice(STEELS[:4]), rng.choice((30, 40, 45, 60, 90))))
        gap = round(rng.uniform(4, 30), 1)
        n = rng.choice((0.0, -0.3, round(rng.uniform(0, 1), 2)))
        m5 = rng.choice((1.0, 1.1))
        radian = [(*b[:4], radians(b[4])) for b in braces]
        (one, two), a_v, face_alone = joints.k_gap(h0, b0, t0, f0, radian, gap, n, m5)
        row = dict(h0_mm=h0, b0_mm=b0, t0_mm=t0, f_y0_mpa=f0)
        for i, b in enumerate(braces, 1):
            row |= {f"h{i}_mm": b[0], f"b{i}_mm": b[1], f"t{i}_mm": b[2], f"f_y{i}_mpa": b[3], f"theta{i}_deg": b[4]}
        row |= dict(gap_mm=gap, n=n, gamma_m5=m5, A_v_mm2=a_v, face_alone="yes" if face_alone else "no")
        for i, modes in enumerate((one, two), 1):
            for mode in ("face", "shear", "brace", "punching"):
                row[f"{mode}{i}_n"] = modes.get(mode, "")
        rows.append(row)
    write("joints_gap", rows)


def overlap_joints():
    rng = random.Random(7)
    rows = []
    for at in range(100):
        h0, b0, t0 = rng.choice([r for r in RHS if max(r[:2]) / r[2] <= 35])
        b1, bj = (round(rng.uniform(0.4, 0.95) * b0, 1) for _ in range(2))
        h1 = b1 if rng.random() < 0.6 else round(b1 * rng.uniform(0.6, 1.6), 1)
        t1, tj = rng.choice((1.5, 2, 3)), rng.choice((1.5, 2, 3))
        f0, f1, fj = (rng.choice(STEELS[:4]) for _ in range(3))
        overlap = [25, 49.999, 50, 79.999, 80, 100][at] if at < 6 else round(rng.uniform(25, 100), 1)
        m5 = rng.choice((1.0, 1.1))
        out = joints.k_overlap(b0, t0, f0, (h1, b1, t1, f1), (bj, bj, tj, fj), overlap, m5)
        rows.append(dict(b0_mm=b0, h0_mm=h0, t0_mm=t0, f_y0_mpa=f0, h1_mm=h1, b1_mm=b1, t1_mm=t1, f_y1_mpa=f1, bj_mm=bj,
                         tj_mm=tj, f_yj_mpa=fj, overlap_pct=overlap, gamma_m5=m5, N_i_Rd_n=out))
    write("joints_overlap", rows)


def round_joints():
    rng = random.Random(8)
    rows = []
    for _ in range(180):
        d0, t0 = rng.choice([c for c in CHS if 10 <= c[0] / c[1] <= 50])
        d1 = sig(rng.choice((0.2, rng.uniform(0.3, 1.0), rng.uniform(0.3, 1.0), 1.0)) * d0, 3)
        f0 = rng.choice(STEELS[:4])
        angle = rng.choice((30, 45, 60, 90))
        kind = rng.choice("TXKK")
        gap = round(rng.uniform(-20, 40), 1) if kind == "K" else 0.0
        n_p = rng.choice((0.0, -0.4, round(rng.uniform(0, 1), 2)))
        m5 = rng.choice((1.0, 1.1))
        th = radians(angle)
        g = joints.grade(f0)
        face = g * joints.round_face(kind, d0, t0, f0, d1, th, n_p, m5, gap)
        punch = g * joints.round_punching(t0, f0, d1, th, m5) if d1 <= d0 - 2 * t0 else ""
        (ip, ipp), (op, opp) = ([g * m for m in pair] for pair in joints.round_moments(d0, t0, f0, d1, th, n_p, m5))
        rows.append(dict(kind=kind, d0_mm=d0, t0_mm=t0, f_y0_mpa=f0, d1_mm=d1, theta_deg=angle, gap_mm=gap, n_p=n_p,
                         gamma_m5=m5, k_p=joints.k_p(n_p), face_n=face, punching_n=punch, M_ip_face_nm=ip / 1000,
                         M_ip_punching_nm=ipp / 1000, M_op_face_nm=op / 1000, M_op_punching_nm=opp / 1000))
    write("joints_round", rows)


def joint_moments():
    rng = random.Random(9)
    rows = []
    while len(rows) < 120:
        h0, b0, t0 = rng.choice([r for r in RHS if max(r[:2]) / r[2] <= 35])
        t1 = rng.choice((1.5, 2, 2.5))
        b1 = round(rng.choice((0.3, 0.5, 0.7, 0.85, 0.9, 1.0)) * b0, 2)
        h1 = round(b1 * rng.choice((1, 1, 1.5, 0.7)), 2)
        if min(b1, h1) < 6 * t1:
            continue
        f0, f1 = rng.choice(STEELS[:4]), rng.choice(STEELS[:4])
        kind = rng.choice("TX")
        n = rng.choice((0.0, round(rng.uniform(0, 1), 2)))
        m5 = rng.choice((1.0, 1.1))
        # In plane bends the brace about the axis across the chord: its depth h1 runs along the chord.
        s = sections.rhs(h1, b1, t1)
        ip, op = joints.rhs_moments(kind, h0, b0, t0, f0, h1, b1, t1, f1, s["W_pl_y"], s["W_pl_z"], n, m5)
        row = dict(kind=kind, h0_mm=h0, b0_mm=b0, t0_mm=t0, f_y0_mpa=f0, h1_mm=h1, b1_mm=b1, t1_mm=t1, f_y1_mpa=f1, n=n,
                   gamma_m5=m5, W_pl_ip_mm3=s["W_pl_y"], W_pl_op_mm3=s["W_pl_z"])
        for mode in ("face", "side", "brace"):
            row[f"M_ip_{mode}_nm"] = ip[mode] / 1000 if mode in ip else ""
        for mode in ("face", "side", "brace", "distortion"):
            row[f"M_op_{mode}_nm"] = op[mode] / 1000 if mode in op else ""
        rows.append(row)
    write("joints_moments", rows)


def welds():
    """Fillets all round a tube's end."""
    rng = random.Random(10)
    rows = []
    for _ in range(120):
        f_u, beta = rng.choice(((360, 0.8), (430, 0.85), (410, 0.85), (510, 0.9), (470, 0.9), (540, 1.0)))
        m2, a = rng.choice((1.25, 1.25, 1.0)), rng.choice((1, 1.5, 2, 3, 4))
        kind = rng.choice(("rhs", "rhs", "chs"))
        depth, width, t = rng.choice(RHS)
        corner = rng.choice((0.0, 2 * t)) if kind == "rhs" else 0.0
        angle = rng.choice((30, 45, 60, 90, 90))
        acting = [sig(rng.choice((0, rng.uniform(0, x)))) for x in (20000, 5000, 5000, 200, 300, 300)]
        n, v_ip, v_op, t_nm, m_ip, m_op = acting
        p, q = fasten.perimeter(kind, depth, width, corner, pi / 2 if angle == 90 else radians(angle), a, n, v_ip, v_op,
                                t_nm * 1000, m_ip * 1000, m_op * 1000)
        mises, limit, limit_s, u = fasten.weld_directional(p / (sqrt(2) * a), p / (sqrt(2) * a), q / a, f_u, beta, m2)
        rows.append(dict(
            shape=kind, depth_mm=depth, width_mm=width, corner_mm=corner, theta_deg=angle, a_mm=a, f_u_mpa=f_u, beta_w=beta,
            gamma_m2=m2, n_n=n, v_ip_n=v_ip, v_op_n=v_op, t_nm=t_nm, m_ip_nm=m_ip, m_op_nm=m_op, p_n_per_mm=p, q_n_per_mm=q,
            mises_mpa=mises, limit_mpa=limit, limit_sigma_mpa=limit_s, directional=u,
            simplified=sqrt(p * p + q * q) / fasten.weld_simplified(a, f_u, beta, m2)))
    write("welds", rows)


def bolts():
    """One bolt through a plate, its axis known."""
    rng = random.Random(11)
    sizes = {"M6": (6, 20.1), "M8": (8, 36.6), "M10": (10, 58.0), "M12": (12, 84.3), "M16": (16, 157), "M20": (20, 245)}
    rows = []
    for _ in range(110):
        d, a_s = sizes[rng.choice(list(sizes))]
        grade, f_ub, alpha_v = rng.choice((("4.6", 400, 0.6), ("5.6", 500, 0.6), ("8.8", 800, 0.6), ("10.9", 1000, 0.5)))
        loose = d == 12 and rng.random() < 0.5
        d0 = d + (1 if d < 12 or (d == 12 and not loose) else 2)
        planes = rng.choice((1, 1, 2))
        t, f_u = rng.choice((1.5, 2, 3, 5, 10)), rng.choice((360, 430, 510))
        e1, e2 = (round(rng.uniform(1.2, 4) * d0, 1) for _ in range(2))
        m2 = rng.choice((1.25, 1.25, 1.0))
        # 3.6.1 (5): M12 in holes 2 mm larger, but for classes 4.6 and 5.6.
        v_rd = planes * fasten.bolt_shear(f_ub, a_s, alpha_v, m2) * (0.85 if loose and f_ub > 500 else 1)
        t_rd = fasten.bolt_tension(f_ub, a_s, m2)
        alpha_b, k1, b_rd = fasten.bolt_bearing(e1, e2, d, d0, t, f_u, f_ub, m2, one_lap=planes == 1)
        v, n = sig(rng.uniform(0, 1.1) * v_rd), sig(rng.choice((0, rng.uniform(0, 1.1))) * t_rd)
        flats = round(1.5 * d)
        pull = fasten.punching(flats * (1 + 2 / sqrt(3)) / 2, t, f_u, m2)
        both = fasten.combined(v, n, v_rd, t_rd)
        rows.append(dict(
            d_mm=d, A_s_mm2=a_s, grade=grade, d0_mm=d0, planes=planes, flats_mm=flats, t_mm=t, f_u_mpa=f_u, e1_mm=e1, e2_mm=e2,
            gamma_m2=m2, f_v_n=v, f_t_n=n, F_v_Rd_n=v_rd, F_t_Rd_n=t_rd, alpha_b=alpha_b, k_1=k1, F_b_Rd_n=b_rd, B_p_Rd_n=pull,
            combined=both, U=max(v / v_rd, n / t_rd, both, v / b_rd, n / pull)))
    write("bolts", rows)


def fatigues():
    rng = random.Random(12)
    rows = []
    for _ in range(100):
        category = rng.choice((36, 40, 45, 50, 56, 63, 71, 80, 90))
        m_f = rng.choice((1.0, 1.15, 1.35))
        curve = rng.choice(("plain", "plain", "lattice"))
        life = fatigue.life if curve == "plain" else fatigue.life_lattice
        spectrum = [(sig(10 ** rng.uniform(0.9, 2.6), 3), float(f"{10 ** rng.uniform(3, 8):.2g}")) for _ in range(2)]
        row = dict(category=category, gamma_mf=m_f, curve=curve, range1_mpa=spectrum[0][0], cycles1=spectrum[0][1],
                   range2_mpa=spectrum[1][0], cycles2=spectrum[1][1])
        row |= {f"N_R{i}": life(s, category, m_f) for i, (s, _) in enumerate(spectrum, 1)}
        row["D"] = fatigue.damage(spectrum, category, m_f, life)
        rows.append(row)
    write("fatigue", rows)


def panels():
    rng = random.Random(13)
    rows = []
    for _ in range(20):
        e, nu = rng.choice(((210000, 0.3), (70000, 0.33), (7000, 0.3)))
        a, b, t = (sig(rng.uniform(100, 1200), 3) for _ in range(2)), None, rng.choice((0.7, 0.9, 1.0, 1.5, 3))
        a, b = a
        k, cr = panel.tau_cr(a, b, t, e, nu)
        rows.append(dict(a_mm=max(a, b), b_mm=min(a, b), t_mm=t, e_mpa=e, nu=nu, k_tau=k, tau_cr_mpa=cr))
    write("panels", rows)


if __name__ == "__main__":
    for table in (class_limits, classes, effective, resistance, combined, members, equivalent_moments, rect_joints, gap_joints,
                  overlap_joints, round_joints, joint_moments, welds, bolts, fatigues, panels):
        table()
