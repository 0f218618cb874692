#!/usr/bin/env python3
"""Redoes every finding of a deck by hand from the JSON report alone, as a person with the
report and a pocket calculator would: demand, capacity and utilisation from the symbols of the
working that are not results themselves, by the formulas of the standards written out here.
Then it judges the verdicts. Also checks that each log's report names the worst of its
findings, and the report the worst of all.

usage: redo_findings.py BOLEWRIGHT CASE.json...
"""
import json
import math
import pathlib
import subprocess
import sys

AGREE = 1e-9  # the report has 15 digits
PI = math.pi


class Working:
    """Symbols of one finding; a symbol that is not there is a KeyError, which is a fault."""

    def __init__(self, finding):
        self.values = {t["symbol"]: t["value"] for t in finding["working"]}
        self.meanings = {t["symbol"]: t["meaning"] for t in finding["working"]}

    def __call__(self, *symbols):
        found = [self.values[s] for s in symbols]
        return found[0] if len(found) == 1 else found

    def has(self, symbol):
        return symbol in self.values

    def meaning(self, symbol):
        return self.meanings[symbol]


def circle_modulus(d):
    return PI * d ** 3 / 32.0


def circle_area(d):
    return PI * d ** 2 / 4.0


def cut_circle(d, h, key, printed):
    """A circle cut flat below, or above and below alike, by closed forms about its centre:
    area, section modulus and Q / (I b). Which of both it is, one printed value tells."""
    r = d / 2.0

    def above(y):  # area over the height y
        return r * r * math.acos(y / r) - y * math.sqrt(r * r - y * y)

    def second(y):
        root = math.sqrt(r * r - y * y)
        return -y / 2.0 * root ** 3 + r * r / 4.0 * (y * root + r * r * math.asin(y / r))

    def first(y):
        return 2.0 / 3.0 * (r * r - y * y) ** 1.5

    both = []
    for low, high in ((r - h, r), (-h / 2.0, h / 2.0)):
        a = above(low) - above(high)
        middle = (first(low) - first(high)) / a
        inertia = second(high) - second(low) - a * middle ** 2

        def stress(y):  # Q / (I b) at the height y
            q = first(y) - first(high) - middle * (above(y) - above(high))
            return q / (inertia * 2.0 * math.sqrt(r * r - y * y))

        lo, hi = low, high  # the largest, by thirds
        for _ in range(200):
            a1, a2 = lo + (hi - lo) / 3.0, hi - (hi - lo) / 3.0
            lo, hi = (a1, hi) if stress(a1) < stress(a2) else (lo, a2)
        found = {"area": a, "shear": stress((lo + hi) / 2.0),
                 "modulus": inertia / max(high - middle, middle - low)}
        both.append(found)
    return min(both, key=lambda found: abs(found[key] - printed))


# ---- allowable stress: ANSI/AWC NDS 2018 ----

def size_factor(d):
    """6.3.7: side of the square of equal area over 12 in, above 13.5 in of diameter."""
    if d <= 13.5 * 0.0254:
        return 1.0
    return min(1.0, (12.0 * 0.0254 / (d * math.sqrt(PI) / 2.0)) ** (1.0 / 9.0))


def us_bending(w):
    if w.has("b"):  # a sawn board
        return 6.0 * w("M") / (w("b") * w("h") ** 2), w("F_b") * w("C_D")
    d, m, f, c_d = w("D", "M", "F_b", "C_D")
    if w.has("h"):
        left = cut_circle(d, w("h"), "modulus", w("S"))
        return m / left["modulus"], f * c_d * size_factor(d) * w("C_f")
    return m / circle_modulus(d), f * c_d * size_factor(d)


def us_shear(w):
    v, allowed = w("V"), w("F_v") * w("C_D")
    if w.has("b"):
        return 1.5 * v / (w("b") * w("h")), allowed
    if not w.has("h"):
        return 4.0 * v / (3.0 * circle_area(w("D"))), allowed
    left = cut_circle(w("D"), w("h"), "area", w("A"))
    stress = v * left["shear"]
    if w.has("d_n"):  # 3.4.3.2 (b), and 4.4.3: no deeper than a quarter
        stress = max(stress, v / (2.0 / 3.0 * left["area"] * (w("d_n") / w("d")) ** 2))
        too_deep = (1.0 - w("d_n") / w("d")) / 0.25 if w.has("q") else 0.0
        if too_deep > 1.0:
            return stress, 0.0, max(stress / allowed, too_deep)
    return stress, allowed


def us_bearing(w):
    return w("R") / w("A_b"), w("F_cperp") * w("C_b")


def us_end_bearing(w):
    return w("R") / w("A_b"), 0.75 * w("F_c") * w("C_D")


def us_column(w, force):
    """3.7.1: stress and allowed stress, with the two ways in which a post may end sooner."""
    small, length, k_e = w("D_small"), w("l"), w("K_e")
    crushing = w("F_c") * w("C_D")
    if k_e <= 1.0:
        d_c = math.sqrt(small * w("D_large"))
    else:
        large = min(w("D_large"), 4.0 / 3.0 * small)
        d_c = small + (large - small) * (0.30 - 0.15 * (1.0 - small / large))
    slenderness = k_e * length / (d_c * math.sqrt(3.0) / 2.0)
    euler = 0.822 * w("E_min") / slenderness ** 2
    a = (1.0 + euler / crushing) / (2.0 * 0.85)
    c_p = a - math.sqrt(a * a - euler / crushing / 0.85)
    stress, at_small = force / circle_area(d_c), force / circle_area(small)
    worst = max(stress / (crushing * c_p), at_small / crushing)
    if slenderness > 50.0:
        worst = max(worst, slenderness / 50.0)
    return stress, crushing * c_p, worst, stress / euler


def what_governs(stress, allowed, at_small, crushing, worst, too_slender):
    """Demand and capacity of the worst of the three; a post too slender has no capacity."""
    if too_slender:
        return stress, 0.0, worst
    if at_small / crushing > stress / allowed:
        return at_small, crushing, worst
    return stress, allowed, worst


def us_compression(w):
    stress, allowed, worst, _ = us_column(w, w("N"))
    return what_governs(stress, allowed, w("N") / circle_area(w("D_small")),
                        w("F_c") * w("C_D"), worst, w("l_e/d") > 50.0)


def us_combined(w):
    bending, allowed = us_bending(w)
    if w("N") < 0.0:
        tension = -w("N") / circle_area(w("D"))
        return tension / (0.55 * w("F_b") * w("C_D")) + bending / allowed, 1.0
    _, _, u_c, part = us_column(w, w("N"))
    return u_c ** 2 + bending / allowed / max(1e-3, 1.0 - part), 1.0


# ---- fasteners: forces in pounds, lengths in inches, as the equations are printed ----

INCH, PSI = 0.0254, 4.4482216152605 / 0.0254 ** 2
FULL = {"lag screws": 8.0, "bolts, threads kept out of the joint": 0.0}


def yield_modes(d, l_m, l_s, f_em, f_es, f_yb, r_d):
    """Table 12.3.1A, single shear."""
    r_e, r_t, bent = f_em / f_es, l_m / l_s, 2.0 * f_yb / (3.0 * f_em) * d * d
    k_1 = (math.sqrt(r_e + 2.0 * r_e ** 2 * (1.0 + r_t + r_t ** 2) + r_t ** 2 * r_e ** 3) -
           r_e * (1.0 + r_t)) / (1.0 + r_e)
    k_2 = -1.0 + math.sqrt(2.0 * (1.0 + r_e) + bent * (1.0 + 2.0 * r_e) / l_m ** 2)
    k_3 = -1.0 + math.sqrt(2.0 * (1.0 + r_e) / r_e + bent * (2.0 + r_e) / l_s ** 2)
    return min(d * l_m * f_em / r_d[0], d * l_s * f_es / r_d[0], k_1 * d * l_s * f_es / r_d[1],
               k_2 * d * l_m * f_em / ((1.0 + 2.0 * r_e) * r_d[2]),
               k_3 * d * l_s * f_em / ((2.0 + r_e) * r_d[2]),
               d * d / r_d[2] * math.sqrt(2.0 * f_em * f_yb / (3.0 * (1.0 + r_e))))


def wood_under_dowel(g, d, angle):
    if d < 0.25 - 1e-9:
        return 16600.0 * g ** 1.84
    p, q = 11200.0 * g, 6100.0 * g ** 1.45 / math.sqrt(d)
    return p * q / (p * math.sin(angle) ** 2 + q * math.cos(angle) ** 2)


def us_joint(w):
    d, root = w("D") / INCH, w("D_r") / INCH
    th_m = PI / 2.0 if w.has("C_eg") else w("th_m")
    k_th = 1.0 + 0.25 * max(w("th_s"), th_m) / (PI / 2.0)
    r_d = [4.0 * k_th, 3.6 * k_th, 3.2 * k_th]
    if root < 0.25 - 1e-9:
        k_d = 2.2 if root <= 0.17 else 10.0 * root + 0.5
        r_d = [k_d * (1.0 if d < 0.25 - 1e-9 else k_th)] * 3
    l_m, full = w("l_m") / INCH, FULL.get(w.meaning("n"), 10.0) * d
    args = (w("l_s") / INCH, wood_under_dowel(w("G_m"), d, th_m),
            wood_under_dowel(w("G_s"), d, w("th_s")), w("F_yb") / PSI, r_d)
    z = yield_modes(root, l_m, *args)
    if l_m < full:
        z = min(z, yield_modes(root, full, *args) * l_m / full)
    allowed = w("n") * z * 4.4482216152605 * w("C_D") * w("C_M") * w("C_g") * w("C_delta")
    allowed *= (w("C_eg") if w.has("C_eg") else 1.0) * (w("C_sp") if w.has("C_sp") else 1.0)
    allowed *= w("C_tn") if w.has("C_tn") else 1.0
    return placed(w, w("R"), allowed)


def placed(w, demand, allowed):
    """Too near to an end or an edge, or not deep enough: nothing is allowed."""
    q = w("q")
    return (demand, allowed) if q <= 1.0 else (demand, 0.0, max(demand / allowed, q))


def us_split(w):
    return (w("V") / (2.0 / 3.0 * w("A_e") * (w("d_e") / w("d")) ** 2),
            w("F_v") * w("C_D"))


def us_lift(w):
    up = max(0.0, w("T") + max(-w("G"), 0.0) - 0.6 * max(w("G"), 0.0))
    if w.has("A_w"):
        return placed(w, up, w("n") * w("A_w") * w("F_cperp"))
    toe = w("C_tn") if w.has("C_tn") else 1.0
    one = min(w("W") * w("p_t") * w("C_eg") * toe, w("W_H")) * w("C_M") * w("C_D")
    return placed(w, up, w("n") * one)


def us_angle(w):
    p, q = w("F_c") * w("C_D"), w("F_cperp")
    return w("R") / w("A"), p * q / (p * math.sin(w("th")) ** 2 + q * math.cos(w("th")) ** 2)


def us_deflection(w):
    return w("Delta"), w("L") / w("limit")


def us_sag(w):
    return 2.0 * w("Delta_LT") + w("Delta_ST"), w("L") / w("limit")


def us_buckling(w):
    return 1.0, w("lambda") * w("E_min/E")


# ---- limit states: EN 1995-1-1 ----

def ec_design(w, strength):
    return w(strength) * w("k_mod") / w("gamma_M")


def ec_bending(w):
    if w.has("b"):
        return 6.0 * w("M_d") / (w("b") * w("h") ** 2), ec_design(w, "f_m,k")
    if w.has("h"):
        left = cut_circle(w("D"), w("h"), "modulus", w("W"))
        return w("M_d") / left["modulus"], ec_design(w, "f_m,k") * w("C_f")
    return w("M_d") / circle_modulus(w("D")), ec_design(w, "f_m,k")


def ec_shear(w):
    v, k_cr, allowed = w("V_d"), w("k_cr"), ec_design(w, "f_v,k")
    if w.has("b"):
        return 1.5 * v / (w("b") * w("h") * k_cr), allowed
    if not w.has("h"):
        return 4.0 * v / (3.0 * circle_area(w("D")) * k_cr), allowed
    left = cut_circle(w("D"), w("h"), "area", w("A"))
    if not w.has("h_ef"):
        return v * left["shear"] / k_cr, allowed
    h, x, alpha = w("h_0"), w("x"), w("h_ef") / w("h_0")  # 6.5.2, a square cut
    split = math.sqrt(alpha * (1.0 - alpha)) + 0.8 * x / h * math.sqrt(1.0 / alpha - alpha ** 2)
    k_v = min(1.0, 5.0 / (math.sqrt(h * 1e3) * split))
    return v * max(left["shear"], 1.5 / left["area"]) / k_cr, k_v * allowed


def ec_lift(w):
    return (max(0.0, w("T_d") + max(-w("G"), 0.0) - 0.9 * max(w("G"), 0.0)),
            w("k_mod") * w("n") ** 0.9 * w("F_ax,Rk") / w("gamma_M"))


def ec_angle(w):
    along, across = ec_design(w, "f_c,0,k"), ec_design(w, "f_c,90,k")
    s, c = math.sin(w("alpha")), math.cos(w("alpha"))
    return w("F_d") / w("A"), along / (along / across * s * s + c * c)


def ec_bearing(w):
    spread = w("l_ef") / w("l") if w.has("l") else 1.0
    return w("F_d") / (w("A") * spread), w("k_c,90") * ec_design(w, "f_c,90,k")


def ec_end_bearing(w):
    return w("F_d") / w("A"), ec_design(w, "f_c,0,k")


def ec_column(w):
    """6.3.2 with beta_c = 0.2 of solid timber."""
    strength = ec_design(w, "f_c,0,k")
    slenderness = w("K_e") * w("l") / (w("D_c") / 4.0)
    rel = slenderness / PI * math.sqrt(w("f_c,0,k") / w("E_0,05"))
    k = 0.5 * (1.0 + 0.2 * (rel - 0.3) + rel ** 2)
    k_c = 1.0 if rel <= 0.3 else 1.0 / (k + math.sqrt(k * k - rel * rel))
    stress = w("N_d") / circle_area(w("D_c"))
    worst = max(stress / (k_c * strength), w("N_d") / circle_area(w("D_small")) / strength)
    if slenderness > w("lambda_max"):
        worst = max(worst, slenderness / w("lambda_max"))
    return stress, k_c * strength, worst, rel


def ec_compression(w):
    stress, allowed, worst, _ = ec_column(w)
    return what_governs(stress, allowed, w("N_d") / circle_area(w("D_small")),
                        ec_design(w, "f_c,0,k"), worst, w("lambda") > w("lambda_max"))


def ec_combined(w):
    bending, allowed = ec_bending(w)
    if w("N_d") < 0.0:
        tension = -w("N_d") / circle_area(w("D"))
        return tension / w("f_t,0,d") + bending / allowed, 1.0
    _, _, u_c, rel = ec_column(w)
    return (u_c ** 2 if rel <= 0.3 else u_c) + bending / allowed, 1.0


def ec_deflection(w):
    return w("w_inst,G") + w("w_inst,Q"), w("L") / w("limit")


def ec_sag(w):
    return (w("w_inst,G") * (1.0 + w("k_def")) +
            w("w_inst,Q") * (1.0 + w("psi_2") * w("k_def")), w("L") / w("limit"))


def ec_buckling(w):
    return 1.0, w("lambda") * w("E_0,05/E") / w("gamma_M")


# ---- ground: IBC 1806 and 1807.3 ----

def hole(w):
    """1807.3.2.1 as demand and capacity in force: S1 at a third of the depth."""
    v, m, d, b = w("V", "M", "d", "b")
    s_1 = w("k") * w("p") * min(d, 12.0 * 0.3048) / 3.0
    return v + 1.09 * m / d, s_1 * b * d / 2.34


def footing(w):
    return w("N") / w("A"), w("q_a")


def uplift(w):
    dead = w("D")
    return w("T") + max(-dead, 0.0), w("s") * (max(dead, 0.0) + w("W"))


GROUND = {"hole": hole, "footing": footing, "uplift": uplift}
BASES = {
    "us_asd": {"bending": us_bending, "shear": us_shear, "bearing": us_bearing,
               "end_bearing": us_end_bearing, "compression": us_compression,
               "combined": us_combined, "deflection": us_deflection, "sag": us_sag,
               "buckling": us_buckling, "joint": us_joint, "split": us_split,
               "lift": us_lift, "angle_bearing": us_angle, **GROUND},
    "eurocode": {"bending": ec_bending, "shear": ec_shear, "bearing": ec_bearing,
                 "end_bearing": ec_end_bearing, "compression": ec_compression,
                 "combined": ec_combined, "deflection": ec_deflection, "sag": ec_sag,
                 "buckling": ec_buckling, "lift": ec_lift, "angle_bearing": ec_angle,
                 **GROUND},
}


# Of the shortest load in a combination, by what its title names: NDS 2018, Table 2.3.2, and
# EN 1995-1-1, Table 3.1, service class 3. The first that is named counts.
DURATIONS = {
    "C_D": (("slow rider", 1.0), ("rider", 1.6), ("machine", 1.25), ("snow", 1.15),
            ("crowd", 1.0), ("dead", 0.9)),
    "k_mod": (("slow rider", 0.70), ("rider", 0.90), ("machine", 0.70), ("snow", 0.65),
              ("crowd", 0.65), ("dead", 0.50)),
}


def differs(found, wanted):
    return not abs(found - wanted) <= AGREE * abs(wanted)


def wrong_duration(finding):
    """Whether its duration is another than that of its combination."""
    values = Working(finding).values
    for symbol, durations in DURATIONS.items():
        if symbol in values:
            by_rule = next(v for name, v in durations if name in finding["combination"])
            return differs(values[symbol], by_rule)
    return False


def redo(finding, checks):
    """What is wrong with the finding, as a list of words."""
    where = f"{finding['member']}, {finding['check']}"
    if finding["check"] not in checks:
        return [f"{where}: no formula here; add it"]
    try:
        result = checks[finding["check"]](Working(finding))
    except KeyError as missing:
        return [f"{where}: the working lacks {missing}"]
    demand, capacity = result[:2]
    utilisation = result[2] if len(result) > 2 else demand / capacity
    wrong = [f"{where}: {name} {finding[name]!r}, by hand {value!r}"
             for name, value in (("demand", demand), ("capacity", capacity),
                                 ("utilisation", utilisation))
             if differs(finding[name], value)]
    verdict = "within limits" if utilisation <= 1.0 + 1e-9 else "over"
    if wrong_duration(finding):
        wrong.append(f"{where}: not the duration of {finding['combination']}")
    if finding["verdict"] != verdict:
        wrong.append(f"{where}: said {finding['verdict']}, by hand {verdict}")
    return wrong


def judge(report):
    """The worst of each member, of all, and the verdict."""
    wrong, worst, n = [], 0.0, 0
    for member in report["members"]:
        most = max((f["utilisation"] for f in member["findings"]), default=0.0)
        if differs(member["utilisation"] or 0.0, most):
            wrong.append(f"{member['name']}: {member['utilisation']}, by hand {most}")
        worst, n = max(worst, most), n + len(member["findings"])
    if differs(report["governing"]["utilisation"], worst):
        wrong.append(f"governing {report['governing']['utilisation']}, by hand {worst}")
    verdict = "within limits" if worst <= 1.0 + 1e-9 else "over"
    if report["verdict"] != verdict or n == 0:
        wrong.append(f"verdict {report['verdict']}, by hand {verdict} of {n} findings")
    return wrong, n


def main():
    program, cases = sys.argv[1], [pathlib.Path(c) for c in sys.argv[2:]]
    wrong, redone, governed = [], 0, 0
    for case in cases:
        run = subprocess.run([program, "check", str(case), "--json", "-"], check=False,
                             capture_output=True, text=True)
        if run.returncode == 4:  # cannot be analysed: there is nothing to redo
            continue
        report = json.loads(run.stdout)
        checks = BASES[report["basis"]]
        for finding in [report["governing"]] + [f for m in report["members"]
                                                for f in m["findings"]]:
            wrong += [f"{case.name}: {w}" for w in redo(finding, checks)]
        faults, n = judge(report)
        wrong += [f"{case.name}: {w}" for w in faults]
        redone, governed = redone + n, governed + 1
    for line in wrong[:40]:
        print(line)
    print(f"{redone} findings of {governed} cases redone, {len(wrong)} faults")
    return 0 if not wrong and governed > 0 else 1


if __name__ == "__main__":
    sys.exit(main())
