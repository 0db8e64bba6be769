"""The sheet on which the pictures are drawn: wood, metal, rust, lines, notes. Standard library only."""
import math
import random
import re

W, H = 1600, 1200
INK = "#2b2622"


class Picture:
    """A sheet that collects shapes and the filters and clips they need."""

    def __init__(self, seed):
        self.random = random.Random(seed)
        self.defs, self.body, self.notes, self.count = [], [], [], 0

    def name(self, stem):
        self.count += 1
        return f"{stem}{self.count}"

    def add(self, text):
        self.body.append(text)

    # ---- lines and fills

    def line(self, points, width=2.5, colour=INK, opacity=1.0, dash="", curve=False, cap="round"):
        d = smooth(points) if curve else "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in points)
        dash = f' stroke-dasharray="{dash}"' if dash else ""
        self.add(f'<path d="{d}" fill="none" stroke="{colour}" stroke-width="{width}" stroke-linecap="{cap}" '
                 f'stroke-linejoin="round" opacity="{opacity}"{dash} filter="url(#hand)"/>')

    def fill(self, d, colour, opacity=1.0, stroke=None, width=2.5, blur=False):
        edge = f'stroke="{stroke}" stroke-width="{width}" stroke-linejoin="round"' if stroke else ""
        filtered = ' filter="url(#soft)"' if blur else ' filter="url(#hand)"'
        self.add(f'<path d="{d}" fill="{colour}" opacity="{opacity}" {edge}{filtered}/>')

    def shade(self, d, x1, y1, x2, y2, stops):
        """A gradient over a shape; stops are (offset, colour, opacity)."""
        g = self.name("g")
        inner = "".join(f'<stop offset="{o}" stop-color="{c}" stop-opacity="{a}"/>' for o, c, a in stops)
        self.defs.append(f'<linearGradient id="{g}" gradientUnits="userSpaceOnUse" x1="{x1}" y1="{y1}" '
                         f'x2="{x2}" y2="{y2}">{inner}</linearGradient>')
        self.add(f'<path d="{d}" fill="url(#{g})"/>')

    def blot(self, x, y, rx, ry, colour, opacity=0.6, turn=0):
        """A soft-edged stain."""
        g = self.name("b")
        self.defs.append(f'<radialGradient id="{g}"><stop offset="0" stop-color="{colour}" stop-opacity="{opacity}"/>'
                         f'<stop offset="0.55" stop-color="{colour}" stop-opacity="{opacity * 0.6:.3f}"/>'
                         f'<stop offset="1" stop-color="{colour}" stop-opacity="0"/></radialGradient>')
        self.add(f'<ellipse cx="{x}" cy="{y}" rx="{rx}" ry="{ry}" fill="url(#{g})" transform="rotate({turn} {x} {y})" '
                 f'filter="url(#ragged)"/>')

    # ---- materials

    def wood(self, d, colour, angle=0.0, dark=0.5, scale=1.0, edge=INK, width=2.5, figure=14):
        """A piece of wood: base colour, fine grain along `angle` degrees, a few cathedral lines."""
        x0, y0, x1, y1 = box(d)
        clip, grain = self.name("c"), self.name("w")
        seed = self.random.randrange(1, 9999)
        fx, fy = 0.0022 / scale, 0.075 / scale
        self.defs.append(f'<clipPath id="{clip}"><path d="{d}"/></clipPath>')
        self.defs.append(
            f'<filter id="{grain}" x="0" y="0" width="100%" height="100%" color-interpolation-filters="sRGB">'
            f'<feTurbulence type="fractalNoise" baseFrequency="{fx:.5f} {fy:.5f}" numOctaves="3" seed="{seed}"/>'
            f'<feColorMatrix values="0 0 0 0 0.20  0 0 0 0 0.11  0 0 0 0 0.05  2.6 0 0 0 -1.02"/></filter>')
        cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
        r = math.hypot(x1 - x0, y1 - y0) / 2 + 20
        self.add(f'<path d="{d}" fill="{colour}" filter="url(#hand)"/>')
        self.add(f'<g clip-path="url(#{clip})"><g transform="rotate({angle} {cx:.1f} {cy:.1f})">'
                 f'<rect x="{cx - r:.1f}" y="{cy - r:.1f}" width="{2 * r:.1f}" height="{2 * r:.1f}" '
                 f'filter="url(#{grain})" opacity="{dark}"/>')
        across = abs((y1 - y0) * math.cos(math.radians(angle))) + abs((x1 - x0) * math.sin(math.radians(angle)))
        for i in range(figure):
            y = cy - across / 2 + across * (i + self.random.random()) / max(figure, 1)
            pts, wander = [], self.random.uniform(-6, 6)
            for k in range(0, 13):
                x = cx - r + 2 * r * k / 12
                pts.append((x, y + wander * math.sin(k * 0.55 + i) + self.random.uniform(-1.5, 1.5)))
            self.add(f'<path d="{smooth(pts)}" fill="none" stroke="#3a2415" stroke-width="{self.random.uniform(0.7, 1.9):.2f}" '
                     f'opacity="{self.random.uniform(0.12, 0.34):.2f}"/>')
        self.add("</g></g>")
        if edge:
            self.add(f'<path d="{d}" fill="none" stroke="{edge}" stroke-width="{width}" stroke-linejoin="round" '
                     f'filter="url(#hand)"/>')

    def mottle(self, d, colour, dark="#000000", frequency=0.02, strength=0.35, edge=INK, width=2.5):
        """A painted, rusty or concrete surface: base colour with uneven patches."""
        clip, noise = self.name("c"), self.name("m")
        seed = self.random.randrange(1, 9999)
        x0, y0, x1, y1 = box(d)
        r, g, b = (int(dark[i:i + 2], 16) / 255 for i in (1, 3, 5))
        self.defs.append(f'<clipPath id="{clip}"><path d="{d}"/></clipPath>')
        self.defs.append(
            f'<filter id="{noise}" x="0" y="0" width="100%" height="100%" color-interpolation-filters="sRGB">'
            f'<feTurbulence type="fractalNoise" baseFrequency="{frequency}" numOctaves="3" seed="{seed}"/>'
            f'<feColorMatrix values="0 0 0 0 {r:.3f}  0 0 0 0 {g:.3f}  0 0 0 0 {b:.3f}  3.2 0 0 0 -1.4"/></filter>')
        self.add(f'<path d="{d}" fill="{colour}" filter="url(#hand)"/>')
        self.add(f'<g clip-path="url(#{clip})"><rect x="{x0:.1f}" y="{y0:.1f}" width="{x1 - x0:.1f}" '
                 f'height="{y1 - y0:.1f}" filter="url(#{noise})" opacity="{strength}"/></g>')
        if edge:
            self.add(f'<path d="{d}" fill="none" stroke="{edge}" stroke-width="{width}" stroke-linejoin="round" '
                     f'filter="url(#hand)"/>')

    # ---- things

    def rivet(self, x, y, size=9, colour="#8a6a4a", green=0.0):
        """The square head of a copper boat nail."""
        a = self.random.uniform(-12, 12)
        self.blot(x + 2, y + 3, size * 1.7, size * 1.6, "#20150d", 0.35)
        if green:
            self.blot(x, y + size, size * 2.2, size * 2.8, "#4f8a72", green)
        self.add(f'<rect x="{x - size / 2:.1f}" y="{y - size / 2:.1f}" width="{size}" height="{size}" rx="{size * 0.25:.1f}" '
                 f'fill="{colour}" stroke="{INK}" stroke-width="{max(1.2, size * 0.12):.1f}" transform="rotate({a:.1f} {x} {y})"/>')
        self.add(f'<circle cx="{x - size * 0.14:.1f}" cy="{y - size * 0.16:.1f}" r="{size * 0.16:.1f}" fill="#e7cfae" opacity="0.7"/>')

    def rove(self, x, y, r, green=0.25, tail=True):
        """A dished copper rove with the nail's end riveted over it."""
        self.add(f'<ellipse cx="{x + r * 0.2:.1f}" cy="{y + r * 0.28:.1f}" rx="{r * 1.15:.1f}" ry="{r * 1.1:.1f}" fill="#1d140d" opacity="0.35" filter="url(#soft)"/>')
        g = self.name("r")
        self.defs.append(f'<radialGradient id="{g}" cx="0.36" cy="0.32" r="0.8"><stop offset="0" stop-color="#e0a877"/>'
                         f'<stop offset="0.5" stop-color="#a86a3f"/><stop offset="1" stop-color="#5b3722"/></radialGradient>')
        self.add(f'<circle cx="{x}" cy="{y}" r="{r}" fill="url(#{g})" stroke="{INK}" stroke-width="{max(1.5, r * 0.06):.1f}" filter="url(#hand)"/>')
        if green:
            self.blot(x + r * 0.2, y + r * 0.25, r * 0.95, r * 0.85, "#4c9277", green, 20)
        if tail:
            self.add(f'<circle cx="{x}" cy="{y}" r="{r * 0.34:.1f}" fill="#c58a5a" stroke="{INK}" stroke-width="{max(1.2, r * 0.05):.1f}" filter="url(#hand)"/>')
            self.add(f'<circle cx="{x - r * 0.1:.1f}" cy="{y - r * 0.1:.1f}" r="{r * 0.1:.1f}" fill="#f4d9b8" opacity="0.8"/>')

    def rule(self, x, y, mm, px_per_mm, angle=0, high=58):
        """A steel rule with millimetre marks, numbered every ten."""
        t = [f'<g transform="translate({x} {y}) rotate({angle})">']
        w = mm * px_per_mm
        t.append(f'<rect x="6" y="8" width="{w:.1f}" height="{high}" fill="#000" opacity="0.3" filter="url(#soft)"/>')
        t.append(f'<rect width="{w:.1f}" height="{high}" fill="#cfd2cf" stroke="{INK}" stroke-width="2"/>')
        t.append(f'<rect width="{w:.1f}" height="{high * 0.45:.1f}" fill="#e8eae7" opacity="0.7"/>')
        for i in range(int(mm) + 1):
            long = 0.5 if i % 10 == 0 else 0.36 if i % 5 == 0 else 0.22
            t.append(f'<line x1="{i * px_per_mm:.1f}" y1="0" x2="{i * px_per_mm:.1f}" y2="{high * long:.1f}" stroke="{INK}" stroke-width="{2 if i % 10 == 0 else 1.1}"/>')
            if i % 10 == 0 and 0 < i < mm - 2:
                t.append(f'<text x="{i * px_per_mm:.1f}" y="{high * 0.88:.1f}" font-size="{high * 0.36:.0f}" text-anchor="middle" font-family="DejaVu Sans, sans-serif" fill="{INK}">{i}</text>')
        t.append("</g>")
        self.add("".join(t))

    def knife(self, x, y, angle=0, length=420, sunk=0):
        """A surveyor's spike-bladed knife; its point at (x, y), `sunk` pixels of it in the wood."""
        self.add(f'<g transform="translate({x} {y}) rotate({angle})">'
                 f'<path d="M{sunk},0 L{length * 0.42},-13 L{length * 0.42},13 Z" fill="#000" opacity="0.28" transform="translate(8 14)" filter="url(#soft)"/>'
                 f'<path d="M{sunk},{-sunk * 0.07:.1f} L{length * 0.42},-13 L{length * 0.42},13 L{sunk},{sunk * 0.07:.1f} Z" fill="#b9bdbb" stroke="{INK}" stroke-width="2.2"/>'
                 f'<path d="M{sunk},0 L{length * 0.42},-12 L{length * 0.42},-2 Z" fill="#eef0ee" opacity="0.9"/>'
                 f'<rect x="{length * 0.41}" y="-19" width="22" height="38" rx="4" fill="#9a7b3c" stroke="{INK}" stroke-width="2.2"/>'
                 f'<path d="M{length * 0.46},-24 C{length * 0.6},-40 {length * 0.85},-34 {length},-20 C{length * 1.03},0 {length * 1.03},10 {length},22 C{length * 0.85},36 {length * 0.6},38 {length * 0.46},24 Z" fill="#7a4327" stroke="{INK}" stroke-width="2.4"/>'
                 f'<path d="M{length * 0.5},-14 C{length * 0.62},-26 {length * 0.84},-22 {length * 0.96},-10" fill="none" stroke="#c98f63" stroke-width="5" opacity="0.55"/></g>')

    def chalk(self, x, y, text, size=40, angle=0, colour="#f7f3e6", opacity=0.92):
        self.add(f'<text x="{x}" y="{y}" font-size="{size}" font-family="DejaVu Serif, serif" font-style="italic" '
                 f'fill="{colour}" opacity="{opacity}" transform="rotate({angle} {x} {y})" filter="url(#chalk)">{text}</text>')

    def note(self, x, y, text, to=None, size=27, anchor="start"):
        """A draughtsman's note on the sheet, with a leader."""
        w = len(text) * size * 0.55 + 22
        x0 = x - 11 if anchor == "start" else x - w / 2 if anchor == "middle" else x - w + 11
        if to:
            edge = x0 if to[0] < x0 else x0 + w if to[0] > x0 + w else max(x0 + 20, min(to[0], x0 + w - 20))
            start = f'x1="{edge:.0f}" y1="{y - size * 0.35:.0f}" x2="{to[0]}" y2="{to[1]}"'
            self.notes.append(f'<line {start} stroke="#fdfbf4" stroke-width="6" opacity="0.8"/>'
                              f'<line {start} stroke="{INK}" stroke-width="1.8"/>'
                              f'<circle cx="{to[0]}" cy="{to[1]}" r="4.5" fill="{INK}"/>')
        self.notes.append(
            f'<rect x="{x0:.0f}" y="{y - size * 1.08:.0f}" width="{w:.0f}" height="{size * 1.5:.0f}" fill="#fbf8ef" opacity="0.93" stroke="{INK}" stroke-width="1.2"/>'
            f'<text x="{x0 + w / 2:.0f}" y="{y}" font-size="{size}" text-anchor="middle" font-family="DejaVu Sans, sans-serif" fill="{INK}">{text}</text>')

    def light(self, x=0.38, y=0.3, dark=0.5):
        """Light falling off towards the corners, as from a hand lamp."""
        g = self.name("l")
        self.defs.append(f'<radialGradient id="{g}" cx="{x}" cy="{y}" r="0.85"><stop offset="0" stop-color="#fff3d6" stop-opacity="0.16"/>'
                         f'<stop offset="0.5" stop-color="#000" stop-opacity="0"/><stop offset="1" stop-color="#000" stop-opacity="{dark}"/></radialGradient>')
        self.add(f'<rect width="{W}" height="{H}" fill="url(#{g})"/>')

    def svg(self):
        shared = (
            '<filter id="hand" x="-5%" y="-5%" width="110%" height="110%"><feTurbulence type="fractalNoise" baseFrequency="0.018" numOctaves="2" seed="7" result="n"/><feDisplacementMap in="SourceGraphic" in2="n" scale="4.5"/></filter>'
            '<filter id="ragged" x="-20%" y="-20%" width="140%" height="140%"><feTurbulence type="fractalNoise" baseFrequency="0.03" numOctaves="3" seed="3" result="n"/><feDisplacementMap in="SourceGraphic" in2="n" scale="34"/></filter>'
            '<filter id="soft" x="-20%" y="-20%" width="140%" height="140%"><feGaussianBlur stdDeviation="7"/></filter>'
            '<filter id="chalk" x="-10%" y="-30%" width="120%" height="160%"><feTurbulence type="fractalNoise" baseFrequency="0.35" numOctaves="2" seed="5" result="n"/><feColorMatrix in="n" values="0 0 0 0 0  0 0 0 0 0  0 0 0 0 0  0 0 0 -3.4 2.6" result="m"/><feComposite in="SourceGraphic" in2="m" operator="in"/></filter>')
        label = (f'<rect x="{W - 318}" y="{H - 48}" width="304" height="36" fill="#fbf8ef" opacity="0.93" stroke="{INK}" stroke-width="1.2"/>'
                 f'<text x="{W - 166}" y="{H - 23}" font-size="23" text-anchor="middle" font-family="DejaVu Sans, sans-serif" fill="{INK}">Marram: drawn, invented</text>')
        frame = f'<rect x="6" y="6" width="{W - 12}" height="{H - 12}" fill="none" stroke="{INK}" stroke-width="5"/>'
        return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{W}" height="{H}" viewBox="0 0 {W} {H}"><defs>{shared}{"".join(self.defs)}</defs>'
                f'<rect width="{W}" height="{H}" fill="#d9d2c1"/>{"".join(self.body)}{"".join(self.notes)}{frame}{label}</svg>')


def smooth(points):
    """A curve through points (Catmull-Rom)."""
    d = f"M{points[0][0]:.1f},{points[0][1]:.1f}"
    for i in range(len(points) - 1):
        p0, p1, p2, p3 = points[max(i - 1, 0)], points[i], points[i + 1], points[min(i + 2, len(points) - 1)]
        d += (f" C{p1[0] + (p2[0] - p0[0]) / 6:.1f},{p1[1] + (p2[1] - p0[1]) / 6:.1f} "
              f"{p2[0] - (p3[0] - p1[0]) / 6:.1f},{p2[1] - (p3[1] - p1[1]) / 6:.1f} {p2[0]:.1f},{p2[1]:.1f}")
    return d


def area(upper, lower):
    """A closed shape between two curves given left to right."""
    return smooth(upper) + " L" + smooth(lower[::-1])[1:] + " Z"


def poly(*points):
    return "M" + " L".join(f"{x},{y}" for x, y in points) + " Z"


def rect(x, y, w, h):
    return poly((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def circle(x, y, r, ry=None):
    ry = ry or r
    return f"M{x - r},{y} A{r},{ry} 0 1 0 {x + r},{y} A{r},{ry} 0 1 0 {x - r},{y} Z"


def box(d):
    """Bounds of the numbers in a path (end and control points)."""
    if " A" in d:
        x, y = map(float, re.findall(r"M(-?[\d.]+),(-?[\d.]+)", d)[0])
        rx, ry = map(float, re.findall(r"A(-?[\d.]+),(-?[\d.]+)", d)[0])
        return x, y - ry, x + 2 * rx, y + ry
    pairs = re.findall(r"(-?[\d.]+),(-?[\d.]+)", d)
    xs, ys = [float(a) for a, _ in pairs], [float(b) for _, b in pairs]
    return min(xs), min(ys), max(xs), max(ys)


# --------------------------------------------------------------------------------------------- shared scenery

def sky_and_yard(p, horizon=760):
    p.shade(rect(0, 0, W, horizon), 0, 0, 0, horizon, [(0, "#c3cdd2", 1), (1, "#e6e6df", 1)])
    p.mottle(rect(-10, horizon, W + 20, H - horizon + 10), "#b0a48e", "#5b4f3d", 0.03, 0.5, None)
    far = [(-20, horizon - 30), (220, horizon - 66), (470, horizon - 40), (760, horizon - 74), (1100, horizon - 46), (1380, horizon - 82), (1640, horizon - 50)]
    p.fill(area(far, [(-20, horizon + 4), (1640, horizon + 4)]), "#93a09a", 0.8)
    p.line(far, 2, "#5d665f", 0.6, curve=True)


def strakes(p, tops, colours, rivets=True, spacing=74, x0=-40, x1=1640, wood_angle=0.0, dark=0.35, edge_shadow=26, size=9,
            bare=None):
    """Clinker strakes seen close, lowest last; `tops` are functions x -> y of each strake's lower edge, top down.
    `bare` leaves out the rivets of one strake between two x."""
    xs = [x0 + (x1 - x0) * k / 16 for k in range(17)]
    for i in range(len(tops) - 1, 0, -1):
        upper = [(x, tops[i - 1](x) - 30) for x in xs]
        lower = [(x, tops[i](x)) for x in xs]
        d = area(upper, lower)
        p.wood(d, colours[(i - 1) % len(colours)], wood_angle, dark, 1.4, INK, 3)
        mid = sum(t(800) for t in (tops[i - 1], tops[i])) / 2
        p.shade(d, 800, tops[i - 1](800) - 30, 800, tops[i](800), [(0, "#000", 0.0), (0.5, "#fff", 0.10), (0.86, "#fff", 0.05), (1, "#000", 0.28)])
        band = area([(x, tops[i - 1](x)) for x in xs], [(x, tops[i - 1](x) + edge_shadow) for x in xs])
        p.shade(band, 800, tops[i - 1](800), 800, tops[i - 1](800) + edge_shadow, [(0, "#120b06", 0.75), (0.35, "#120b06", 0.4), (1, "#120b06", 0)])
        if rivets:
            x = x0 + 30 + p.random.uniform(0, 20)
            while x < x1:
                if not (bare and bare[0] == i and bare[1] < x < bare[2]):
                    p.rivet(x, tops[i](x) - 15, size)
                x += spacing + p.random.uniform(-5, 5)


def flat(y, slope=0.0, sag=0.0):
    return lambda x: y + slope * (x - 800) + sag * ((x - 800) / 800) ** 2
