"""Contrast of every pair of colours that meet in the record, in the light and in the dark, by
the definition of WCAG 2.1 (W3C Recommendation 2018, "relative luminance" and "contrast ratio",
MEMORY; checked here against the ratio of black on white, 21, and of #777 on white, 4.48).
Text needs 4.5 (1.4.3, level AA), lines and patterns 3 (1.4.11). Which colours meet is read from
the style itself, so that a new colour cannot be forgotten.

usage: contrast.py BOLEWRIGHT CASE.json
"""
import re
import subprocess
import sys

TEXT, LINES = 4.5, 3.0
RULES = {"line"}  # colours of rules between rows of tables and of guide lines: nothing is lost


def luminance(colour):
    digits = colour.lstrip("#")
    digits = "".join(2 * d for d in digits) if len(digits) == 3 else digits
    parts = [int(digits[i:i + 2], 16) / 255.0 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear))


def contrast(a, b):
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def named(text):
    return dict(re.findall(r"--(\w+):(#[0-9a-f]+)", text))


def rules(style):
    """Selector, declarations: media queries are opened up."""
    flat = re.sub(r"@media[^{]*\{", "", style)
    return [(s.strip(), d) for s, d in re.findall(r"([^{}]+)\{([^{}]*)\}", flat)]


def uses(style):
    """Colours of text, of what text may stand on, and of lines."""
    text, ground, lines = set(), set(), set()
    for selector, declared in rules(style):
        for key, name in re.findall(r"([\w-]+):[^;]*var\(--(\w+)\)", declared):
            is_text = key == "color" or (key == "fill" and "text" in selector)
            if is_text:
                text.add(name)
            elif key in ("background", "fill"):
                ground.add(name)
            elif key == "stroke" and "text" not in selector:
                lines.add(name)
    return text, ground - text, lines - RULES


def main():
    assert abs(contrast("#000", "#fff") - 21.0) < 1e-9
    assert abs(contrast("#777", "#ffffff") - 4.48) < 0.005
    page = subprocess.run([sys.argv[1], "report", sys.argv[2], "-o", "-"], check=False,
                          capture_output=True, text=True).stdout
    style = re.search(r"<style>(.*?)</style>", page, re.S)[1]
    light = named(re.search(r":root\{(.*?)\}", style, re.S)[1])
    dark = named(re.search(r"prefers-color-scheme:dark\)\{:root\{(.*?)\}", style, re.S)[1])
    text, ground, lines = uses(style)
    faults = [] if set(light) == set(dark) else ["the dark mode lacks colours"]
    unknown = set(re.findall(r"var\(--(\w+)\)", style)) - set(light)
    faults += [f"the colour {name} has no value" for name in unknown]
    worst, pairs = 99.0, 0
    for mode, value in (("light", light), ("dark", dark)):
        # captions and terms (soft) stand on the paper and in the box of the verdict only
        met = [(t, g, TEXT) for t in text for g in ground
               if t == "ink" or g in ("paper", "tint")]
        met += [(s, "paper", LINES) for s in lines] + [("ink", g, LINES) for g in ground]
        for a, b, needed in met:
            if a != b:
                ratio = contrast(value[a], value[b])
                worst, pairs = min(worst, ratio), pairs + 1
                if ratio < needed:
                    faults.append(f"{mode}: {a} on {b} is {ratio:.2f}, needs {needed}")
    print("\n".join(faults))
    print(f"{pairs} pairs of {sorted(text)} and {sorted(lines)} on {sorted(ground)}, "
          f"the least {worst:.2f}, {len(faults)} faults")
    return 1 if faults or pairs < 20 or "ink" not in text or "paper" not in ground else 0


if __name__ == "__main__":
    sys.exit(main())
