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

    def __call__(self, *symbols):
        found = [self.values[s] for s in symbols]
        return found[0] if len(found) == 1 else found

    def has(self, symbol):
        return symbol in self.values


def circle_modulus(d):
    return PI * d ** 3 / 32.0


def circle_area(d):
    return PI * d ** 2 / 4.0


# ---- allowable stress: ANSI/AWC NDS 2018 ----

def size_factor(d):
    """6.3.7: side of the square of equal area over 12 in, above 13.5 in of diameter."""
    if d <= 13.5 * 0.0254:
        return 1.0
    return min(1.0, (12.0 * 0.0254 / (d * math.sqrt(PI) / 2.0)) ** (1.0 / 9.0))


def us_bending(w):
    d, m, f, c_d = w("D", "M", "F_b", "C_D")
    return m / circle_modulus(d), f * c_d * size_factor(d)


def us_shear(w):
    d, v, f, c_d = w("D", "V", "F_v", "C_D")
    return 4.0 * v / (3.0 * circle_area(d)), f * c_d


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
    return w("M_d") / circle_modulus(w("D")), ec_design(w, "f_m,k")


def ec_shear(w):
    return (4.0 * w("V_d") / (3.0 * circle_area(w("D")) * w("k_cr")),
            ec_design(w, "f_v,k"))


def ec_bearing(w):
    return (w("F_d") / (w("A") * w("l_ef") / w("l")),
            w("k_c,90") * ec_design(w, "f_c,90,k"))


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
               "buckling": us_buckling, **GROUND},
    "eurocode": {"bending": ec_bending, "shear": ec_shear, "bearing": ec_bearing,
                 "end_bearing": ec_end_bearing, "compression": ec_compression,
                 "combined": ec_combined, "deflection": ec_deflection, "sag": ec_sag,
                 "buckling": ec_buckling, **GROUND},
}


def differs(found, wanted):
    return not abs(found - wanted) <= AGREE * abs(wanted)


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
