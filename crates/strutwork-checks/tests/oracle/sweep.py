"""Writes the tables beside this file. `python3 sweep.py`: standard library, fixed seeds."""
import csv
import random
from math import inf, radians, sqrt
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


def walls():
    rng = random.Random(1)
    rows = []

    def add(ct, f_y, alpha, psi):
        limits = local.wall_limits(local.epsilon(f_y), alpha, psi)
        lam, rho = local.reduction(ct, local.epsilon(f_y), psi)
        rows.append(dict(c_over_t=ct, f_y_mpa=f_y, alpha=alpha, psi=psi, limit_1=limits[0], limit_2=limits[1],
                         limit_3=limits[2], wall_class=local.wall_class(ct, limits), k_sigma=local.buckling_factor(psi),
                         lambda_p=lam, rho=rho))

    for f_y in (235, 355):
        for alpha, psi in ((1, 1), (0.5, -1), (0.7, 0), (0.3, -1.5), (0.50001, -0.999)):
            for limit in local.wall_limits(local.epsilon(f_y), alpha, psi):
                for nudge in (-1e-6, 1e-6):
                    add(round(limit * (1 + nudge), 9), f_y, alpha, psi)
    for _ in range(100):
        add(sig(rng.uniform(5, 150)), rng.choice(STEELS), round(rng.uniform(0.05, 1), 3), round(rng.uniform(-2, 1), 3))
    write("walls", rows)


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
        eps = local.epsilon(f_y)
        if s["kind"] == "chs":
            ok = local.round_class(s["h"] / s["t"], eps) <= 2
        else:
            c = max(s["h"], s["b"]) / s["t"] - 3
            ok = c <= 38 * eps
        if not ok:
            continue
        m0 = rng.choice((1.0, 1.0, 1.05, 1.1))
        n_pl = s["A"] * f_y / m0
        m_pl_y, m_pl_z = s["W_pl_y"] * f_y / m0, s["W_pl_z"] * f_y / m0
        n = rng.choice((0, rng.uniform(0, 0.3), rng.uniform(0.3, 0.95), 0.9999))
        n_ed = sig(n * n_pl)
        my = sig(rng.choice((0, rng.uniform(0, 1.1))) * m_pl_y / 1000)
        mz = sig(rng.choice((0, rng.uniform(0, 1.1))) * m_pl_z / 1000)
        t_ed = sig(rng.choice((0, rng.uniform(0, 0.5))) * s["W_t"] * f_y / sqrt(3) / m0 / 1000)
        tau, vz, vy, vtz, vty = resist.shear(s, f_y, m0, t_ed * 1000)
        far = 0.5 if len(rows) < 140 else 0.98
        vz_ed, vy_ed = sig(rng.uniform(0, far) * vtz), sig(rng.uniform(0, far) * vty)
        n = n_ed / n_pl
        mny, mnz, alpha = resist.reduced_by_axial(s, m_pl_y, m_pl_z, n)
        rows.append(dict(
            **size(s, f_y), gamma_m0=m0, n_ed_n=n_ed, vy_ed_n=vy_ed, vz_ed_n=vz_ed, t_ed_nm=t_ed, my_ed_nm=my,
            mz_ed_nm=mz, N_pl_n=n_pl, M_pl_y_nm=m_pl_y / 1000, M_pl_z_nm=m_pl_z / 1000, tau_t_mpa=tau, V_pl_z_n=vz,
            V_pl_y_n=vy, V_T_z_n=vtz, V_T_y_n=vty, rho_z=resist.share_lost(vz_ed, vtz), rho_y=resist.share_lost(vy_ed, vty),
            n=n, M_N_y_nm=mny / 1000, M_N_z_nm=mnz / 1000, alpha=alpha,
            biaxial=(my * 1000 / mny) ** alpha + (mz * 1000 / mnz) ** alpha if mny > 0 else inf))
    write("resistance", rows)


def members():
    rng = random.Random(3)
    rows = []
    while len(rows) < 180:
        s, f_y = shape(rng), rng.choice(STEELS)
        eps = local.epsilon(f_y)
        curve = rng.choice(("c", "c", "a", "a0"))
        m1 = rng.choice((1.0, 1.0, 1.1))
        ly, lz = (sig(rng.uniform(0.05, 2.5) * 76.4 * eps * 1.23 * s["i_" + a], 3) for a in "yz")
        if s["kind"] == "chs":
            kind = local.round_class(s["h"] / s["t"], eps)
            if kind == 4:
                continue
            area = s["A"]
        else:
            limits = local.wall_limits(eps, 1, 1)
            kind = max(local.wall_class(s["h"] / s["t"] - 3, limits), local.wall_class(s["b"] / s["t"] - 3, limits))
            area = local.effective_area(s, f_y)[2] if kind == 4 else s["A"]
        if kind <= 2:
            wy, wz = s["W_pl_y"], s["W_pl_z"]
        elif kind == 3:
            wy, wz = s["W_el_y"], s["W_el_z"]
        else:
            wy, wz = (local.effective_modulus(s, f_y, a)["W_eff"] for a in "yz")
        n_rk, my_rk, mz_rk = area * f_y, wy * f_y, wz * f_y
        ncr_y, ncr_z = member.euler(E, s["I_y"], ly), member.euler(E, s["I_z"], lz)
        lam_y, lam_z = sqrt(n_rk / ncr_y), sqrt(n_rk / ncr_z)
        (phi_y, chi_y), (phi_z, chi_z) = member.chi(lam_y, curve), member.chi(lam_z, curve)
        n_ed = sig(rng.uniform(0.05, 1.0) * min(chi_y, chi_z) * n_rk / m1)
        my = sig(rng.choice((0, rng.uniform(0, 0.8))) * my_rk / 1000)
        mz = sig(rng.choice((0, rng.uniform(0, 0.8))) * mz_rk / 1000)
        cmy, cmz = (round(rng.uniform(0.4, 1.0), 3) for _ in range(2))
        out = member.interaction(n_ed, my * 1000, mz * 1000, n_rk, my_rk, mz_rk, m1, chi_y, chi_z, lam_y, lam_z,
                                 cmy, cmz, kind <= 2)
        rows.append(dict(
            **size(s, f_y), section_class=kind, curve=curve, gamma_m1=m1, l_cr_y_mm=ly, l_cr_z_mm=lz, n_ed_n=n_ed,
            my_ed_nm=my, mz_ed_nm=mz, c_my=cmy, c_mz=cmz, N_Rk_n=n_rk, M_y_Rk_nm=my_rk / 1000, M_z_Rk_nm=mz_rk / 1000,
            N_cr_y_n=ncr_y, N_cr_z_n=ncr_z, lambda_y=lam_y, lambda_z=lam_z, chi_y=chi_y, chi_z=chi_z,
            k_yy=out[2], k_zz=out[3], k_yz=out[4], k_zy=out[5], eq_661=out[6], eq_662=out[7]))
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
        (one, two), a_v = joints.k_gap(h0, b0, t0, f0, radian, gap, n, m5)
        row = dict(h0_mm=h0, b0_mm=b0, t0_mm=t0, f_y0_mpa=f0)
        for i, b in enumerate(braces, 1):
            row |= {f"h{i}_mm": b[0], f"b{i}_mm": b[1], f"t{i}_mm": b[2], f"f_y{i}_mpa": b[3], f"theta{i}_deg": b[4]}
        row |= dict(gap_mm=gap, n=n, gamma_m5=m5, A_v_mm2=a_v)
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
        face = joints.round_face(kind, d0, t0, f0, d1, th, n_p, m5, gap)
        punch = joints.round_punching(t0, f0, d1, th, m5) if d1 <= d0 - 2 * t0 else ""
        (ip, ipp), (op, opp) = joints.round_moments(d0, t0, f0, d1, th, n_p, m5)
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
    rng = random.Random(10)
    rows = []
    for _ in range(100):
        f_u, beta = rng.choice(((360, 0.8), (430, 0.85), (410, 0.85), (510, 0.9), (470, 0.9), (540, 1.0)))
        m2, a = rng.choice((1.25, 1.25, 1.0)), rng.choice((1, 1.5, 2, 3, 4))
        sp, tp, tl = (sig(rng.choice((0, rng.uniform(-300, 300)))) for _ in range(3))
        mises, limit, limit_s, u = fasten.weld_directional(sp, tp, tl, f_u, beta, m2)
        # The force on a unit length that has these stresses on the throat.
        force = a * sqrt(sp**2 + tp**2 + tl**2)
        capacity = fasten.weld_simplified(a, f_u, beta, m2)
        rows.append(dict(f_u_mpa=f_u, beta_w=beta, gamma_m2=m2, a_mm=a, sigma_perp_mpa=sp, tau_perp_mpa=tp, tau_par_mpa=tl,
                         mises_mpa=mises, limit_mpa=limit, limit_sigma_mpa=limit_s, directional=u,
                         F_w_Ed_n_per_mm=force, F_w_Rd_n_per_mm=capacity, simplified=force / capacity))
    write("welds", rows)


def bolts():
    rng = random.Random(11)
    sizes = {"M6": (6, 20.1), "M8": (8, 36.6), "M10": (10, 58.0), "M12": (12, 84.3), "M16": (16, 157), "M20": (20, 245)}
    rows = []
    for _ in range(100):
        name = rng.choice(list(sizes))
        d, a_s = sizes[name]
        grade, f_ub, alpha_v = rng.choice((("4.6", 400, 0.6), ("5.6", 500, 0.6), ("8.8", 800, 0.6), ("10.9", 1000, 0.5)))
        d0 = d + (1 if d <= 14 else 2)
        t, f_u = rng.choice((1.5, 2, 3, 5, 10)), rng.choice((360, 430, 510))
        e1, e2 = (round(rng.uniform(1.2, 4) * d0, 1) for _ in range(2))
        m2 = rng.choice((1.25, 1.25, 1.0))
        v_rd, t_rd = fasten.bolt_shear(f_ub, a_s, alpha_v, m2), fasten.bolt_tension(f_ub, a_s, m2)
        alpha_b, k1, b_rd = fasten.bolt_bearing(e1, e2, d, d0, t, f_u, f_ub, m2)
        v, n = sig(rng.uniform(0, 1.1) * v_rd), sig(rng.choice((0, rng.uniform(0, 1.1))) * t_rd)
        rows.append(dict(size=name, grade=grade, d0_mm=d0, t_mm=t, f_u_mpa=f_u, e1_mm=e1, e2_mm=e2, gamma_m2=m2, f_v_n=v,
                         f_t_n=n, F_v_Rd_n=v_rd, F_t_Rd_n=t_rd, alpha_b=alpha_b, k_1=k1, F_b_Rd_n=b_rd,
                         combined=fasten.combined(v, n, v_rd, t_rd)))
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
        rows.append(dict(a_mm=a, b_mm=b, t_mm=t, e_mpa=e, nu=nu, k_tau=k, tau_cr_mpa=cr))
    write("panels", rows)


if __name__ == "__main__":
    for table in (walls, classes, effective, resistance, members, equivalent_moments, rect_joints, gap_joints,
                  overlap_joints, round_joints, joint_moments, welds, bolts, fatigues, panels):
        table()
