"""What the tablet saw outside: shell, backbone, keel, rudder, deck, spars."""
from sheet import H, INK, W, Picture, area, circle, flat, poly, rect, sky_and_yard, smooth, strakes

OAK = "#9a7b52"
CREAM = "#e6e0cc"
RED = "#8a3d33"


def broadside():
    p = Picture(1)
    sky_and_yard(p, 790)
    n = 14
    sheer = lambda t: 395 + 150 * (1 - (2 * t - 1) ** 2) * 0.62 - 40 * (1 - t) * 0.5
    keel = lambda t: 905 + 18 * t
    left = lambda s: 150 + 130 * s ** 1.7
    right = lambda s: 1460 - 95 * s ** 1.6

    def at(s, t):
        e = 0.5 - 0.5 * abs(2 * t - 1) ** 2.2
        turn = s + 0.55 * s * (1 - s) * (1 - e * 2) * 0.6
        return left(s) + (right(s) - left(s)) * t, sheer(t) + (keel(t) - sheer(t)) * turn

    ts = [k / 24 for k in range(25)]
    down = [k / 12 for k in range(13)]

    def between(top, low):
        """The side of the hull between two lines, its ends following stem and sternpost."""
        span = [top + (low - top) * d for d in down]
        edge = [at(top, t) for t in ts] + [at(s, 1) for s in span] + [at(low, t) for t in ts[::-1]]
        return poly(*[(round(x, 1), round(y, 1)) for x, y in edge + [at(s, 0) for s in span[::-1]]])

    hull = between(0, 1)
    # keel, iron, sternpost, rudder behind
    p.wood(poly((262, 890), (1390, 915), (1392, 958), (300, 948)), OAK, 1.3, 0.5)
    p.mottle(poly((520, 950), (1160, 955), (1140, 1002), (545, 996)), "#5d4a40", "#8c4a26", 0.02, 0.8)
    after = [at(s, 1) for s in [k / 12 for k in range(13)]]
    post = after + [(1365, 958), (1440, 958)] + [(x + 52, y) for x, y in after[::-1]] + [(1500, 352), (1462, 350)]
    p.wood(poly(*[(round(x, 1), round(y, 1)) for x, y in post]), OAK, 84, 0.5)
    p.wood(poly((1516, 430), (1556, 436), (1582, 700), (1572, 930), (1446, 950), (1482, 800), (1508, 620)), "#7f5a3c", 84, 0.5)
    for y in (520, 700, 880):
        p.fill(rect(1452 - (y - 520) * 0.15, y, 112, 16), "#6f6a52", 1, INK, 2)
    p.mottle(hull, CREAM, "#b0a684", 0.012, 0.5)
    s_water = 0.5
    bottom = between(s_water, 1)
    p.mottle(bottom, RED, "#3c1512", 0.015, 0.5, None)
    for i in range(n + 1):
        s = i / n
        pts = [at(s, t) for t in ts]
        p.line(pts, 2.6 if i in (0, n) else 2.0, INK, 0.85, curve=True)
        if 0 < i < n:
            shadow = area(pts, [(x, y + 8) for x, y in pts])
            p.fill(shadow, "#1b120b", 0.24)
        if i == 1:
            p.fill(area([at(s, t) for t in ts], [(x, y + 15) for x, y in pts]), "#86633f", 1, INK, 2)
    p.shade(hull, 0, 420, 0, 920, [(0, "#fff", 0.18), (0.5, "#000", 0), (1, "#000", 0.42)])
    fore = [at(s, 0) for s in down]
    stem = [(118, 318), (158, 322)] + [(x + 8, y) for x, y in fore] + [(302, 948), (262, 948)]
    stem += [(x - 34, y) for x, y in fore[::-1]]
    p.wood(poly(*[(round(x, 1), round(y, 1)) for x, y in stem]), OAK, 78, 0.5)
    # covering board, cuddy, coaming, samson post, tiller
    p.fill(area([(128, 372)] + [(x, y - 14) for x, y in (at(0, t) for t in ts)], [at(0, t) for t in ts]), "#8b6a45", 1, INK, 2)
    p.mottle(poly((420, 462), (452, 372), (830, 380), (842, 488)), "#d9d3bd", "#8f8a70", 0.02, 0.4)
    p.fill(poly((440, 374), (446, 358), (842, 366), (838, 384)), "#7c5a3a", 1, INK, 2)
    for x in (520, 640, 760):
        p.fill(circle(x, 424, 30, 22), "#3d4a4d", 1, "#8a7446", 6)
    p.fill(poly((842, 446), (1230, 462), (1232, 492), (842, 488)), "#7c5a3a", 1, INK, 2)
    p.wood(rect(290, 318, 26, 92), OAK, 90, 0.5)
    p.line([(1536, 440), (1330, 420)], 10, "#6b4a2e")
    # stands and blocks
    for x, top in ((470, 760), (840, 800), (1190, 770)):
        p.line([(x, top), (x - 46, 1052)], 11, "#4f5656")
        p.line([(x, top), (x + 60, 1052)], 11, "#4f5656")
        p.line([(x - 26, 940), (x + 36, 940)], 7, "#4f5656")
        p.wood(rect(x - 42, top - 16, 84, 20), "#a58558", 0, 0.4)
    for x in (380, 690, 990, 1290):
        for k in range(2):
            p.wood(rect(x - 60, 1004 + k * 32, 120, 30), "#8f7650", 0, 0.6)
    p.blot(820, 1080, 720, 40, "#1d150d", 0.5)
    p.line([(178, 560), (1452, 640)], 1, "#fff", 0.0)
    p.chalk(300, 520, "MARRAM", 34, 6, "#3a3a34", 0.9)
    p.note(60, 80, "Port side, ashore at the yard, first day")
    return p


def bow():
    p = Picture(2)
    sky_and_yard(p, 860)
    cx = 800
    for side in (-1, 1):
        prev = None
        for i in range(13, -1, -1):
            f, g = i / 14, (i + 1) / 14
            curve = lambda s, k: (cx + side * (26 + (k ** 1.05) * (30 + 590 * (1 - s ** 2.3) ** 0.8)), 300 + 640 * s - 70 * k * (1 - s) + 26 * k * s)
            ks = [k / 10 for k in range(11)]
            up, lo = [curve(f, k) for k in ks], [curve(g, k) for k in ks]
            up = [(x, y - 8) for x, y in up]
            d = area(up, lo)
            colour = CREAM if i < 7 else RED
            p.mottle(d, colour, "#9c9276" if i < 7 else "#3c1512", 0.014, 0.5, INK, 2.2)
            p.shade(d, cx, 0, cx + side * 640, 0, [(0, "#000", 0.28 if side > 0 else 0.1), (0.4, "#fff", 0.06), (1, "#000", 0.42 if side > 0 else 0.25)])
            prev = curve
            for k in (0.045, 0.085):
                x, y = curve(g, k)
                p.rivet(x, y - 16 - 10 * (1 - k), 7, "#9b8a6d")
    stem = poly((cx - 30, 150), (cx + 32, 150), (cx + 28, 990), (cx - 26, 990))
    p.wood(stem, OAK, 90, 0.65, 0.8, INK, 3.5, 10)
    p.shade(stem, cx - 30, 0, cx + 32, 0, [(0, "#fff", 0.18), (0.5, "#000", 0), (1, "#000", 0.4)])
    p.fill(poly((cx - 8, 300), (cx + 8, 300), (cx + 7, 980), (cx - 7, 980)), "#8d7a45", 1, INK, 2)
    for y in range(340, 980, 92):
        p.fill(circle(cx, y, 5), "#5d4f2c", 1, INK, 1.2)
    for pts, w in (([(cx - 20, 210), (cx - 17, 300), (cx - 21, 420), (cx - 16, 540), (cx - 19, 640)], 6), ([(cx + 20, 260), (cx + 18, 360), (cx + 22, 480), (cx + 19, 560)], 4)):
        p.line(pts, w, "#1a110a", 0.95, curve=True)
        p.line([(x + 3, y) for x, y in pts], 1.6, "#d9b98a", 0.6, curve=True)
    p.fill(circle(cx, 148, 31, 12), "#8a6c45", 1, INK, 2.5)
    for r in (7, 13, 20, 26):
        p.line([(cx + r * 1.0 * c, 148 + r * 0.38 * s) for c, s in ((1, 0), (.7, .7), (0, 1), (-.7, .7), (-1, 0), (-.7, -.7), (0, -1), (.7, -.7), (1, 0))], 1.3, "#3a2415", 0.7, curve=True)
    p.fill(circle(cx, 148, 3), "#24160c")
    for side in (-1, 1):
        pts = [(cx + side * 30, 292)] + [(cx + side * (30 + 620 * k), 292 - 72 * k) for k in (0.25, 0.5, 0.75, 1)]
        p.line(pts, 22, "#7a5a39", 1, curve=True)
        p.line(pts, 2, INK, 0.8, curve=True)
    p.note(1010, 120, "pith in the end grain: boxed heart", (804, 147))
    p.note(240, 160, "check A, port", (779, 420), anchor="middle")
    p.note(1180, 640, "check B, starboard", (822, 500))
    return p


def stem_check():
    p = Picture(3)
    d = rect(-20, -20, W + 40, H + 40)
    p.wood(d, "#9d7d53", 91, 0.8, 1.6, None, 2, 40)
    p.shade(d, 0, 0, W, 0, [(0, "#000", 0.35), (0.4, "#fff", 0.08), (1, "#000", 0.4)])
    left = [(700, -20), (708, 160), (690, 330), (684, 520), (698, 700), (706, 860), (716, 980), (722, 1060)]
    right = [(706, -20), (722, 160), (722, 330), (728, 520), (732, 700), (728, 860), (724, 980), (722, 1060)]
    poly_d = smooth(left) + " L" + smooth(right[::-1])[1:] + " Z"
    p.blot(712, 520, 130, 620, "#2c1b0e", 0.35)
    p.fill(poly_d, "#120b06", 1, "#2a1a0e", 3)
    p.line([(x - 5, y) for x, y in left], 2.5, "#dcbf92", 0.55, curve=True)
    p.line([(x + 8, y) for x, y in right], 3, "#dcbf92", 0.35, curve=True)
    for dx, y0, y1 in ((-190, 90, 420), (240, 600, 980), (-90, 700, 960), (130, 60, 260)):
        p.line([(712 + dx, y0), (716 + dx, (y0 + y1) / 2), (710 + dx, y1)], 2, "#2a1a0e", 0.7, curve=True)
    # feeler gauge in the check
    p.add('<g transform="translate(706 520) rotate(-14)">')
    p.fill(poly((0, -11), (470, -17), (470, 17), (0, 11)), "#c4c8c6", 1, INK, 2)
    p.fill(poly((0, -11), (470, -17), (470, -6), (0, -4)), "#eef0ee", 0.8)
    p.add(f'<text x="300" y="9" font-size="26" font-family="DejaVu Sans" fill="{INK}">1.00 mm</text>')
    p.fill(rect(440, -30, 330, 60), "#8b8f8d", 1, INK, 2.5)
    p.fill(rect(452, -18, 300, 9), "#c9cdca", 0.8)
    p.fill(circle(745, 0, 15), "#6c706e", 1, INK, 2)
    p.add("</g>")
    p.rule(560, 700, 30, 10, 0, 66)
    p.note(70, 1120, "Stem, port face: check A, 4.5 mm at the mouth, clean walls along the grain")
    p.chalk(250, 260, "A", 110)
    p.light()
    return p


def loose_planks():
    p = Picture(4)
    p.fill(rect(0, 0, W, H), "#8f6c43")
    tops = [flat(y, 0.012) for y in (-10, 210, 450, 700, 950, 1230)]
    strakes(p, tops, ["#c9c2aa", "#c4bda5", "#cdc6af", "#c7c0a8", "#c2bba2"], spacing=98, dark=0.16, size=13, bare=(3, 440, 1200))
    for x in range(240, 1500, 294):
        for y in (380, 625, 870):
            p.rivet(x, y - 60, 12, "#a58e6a")
            p.rivet(x + 6, y - 118, 12, "#a58e6a")
    gap = area([(430, 701), (640, 704), (860, 707), (1090, 704), (1260, 703)], [(430, 704), (640, 716), (860, 721), (1090, 715), (1260, 706)])
    p.fill(gap, "#0e0805")
    for x in (470, 568, 664, 762, 860, 958, 1056, 1154):
        y = tops[3](x) - 15
        p.blot(x, y + 14, 30, 36, "#4f8a72", 0.5)
        p.line([(x + 4, y + 10), (x + 7, y + 46)], 4, "#54806c", 0.45)
        p.rivet(x, y, 14, "#8c7350")
    for x0, x1, y in ((430, 1260, 470), (430, 1260, 945)):
        p.line([(x0, y), ((x0 + x1) / 2, y + 10), (x1, y + 4)], 8, "#f4f0e0", 0.75, curve=True)
    p.line([(430, 470), (424, 720), (430, 945)], 8, "#f4f0e0", 0.75, curve=True)
    p.line([(1260, 474), (1268, 720), (1260, 949)], 8, "#f4f0e0", 0.75, curve=True)
    p.chalk(520, 590, "10   dull", 62)
    p.chalk(520, 830, "9   dull, firm, moves", 62)
    for x, t in ((430, "14"), (725, "15"), (1010, "17"), (1260, "19")):
        p.chalk(x - 24, 440, t, 44)
    p.line([(1180, 800), (980, 716)], 0)
    p.add('<g transform="translate(905 716) rotate(24)"><rect x="0" y="-9" width="520" height="20" fill="#9ea3a1" stroke="#2b2622" stroke-width="2.4"/><rect x="0" y="-7" width="520" height="6" fill="#e2e5e3"/><rect x="500" y="-22" width="200" height="46" rx="14" fill="#5f4029" stroke="#2b2622" stroke-width="2.4"/></g>')
    p.note(60, 70, "Port strakes 9 and 10, timbers 14 to 19: the land opens under a thin lever")
    p.light(0.5, 0.5, 0.35)
    return p


def drawn_rivets():
    p = Picture(5)
    p.mottle(rect(-10, -10, W + 20, H + 20), "#e4ddca", "#a99c7c", 0.012, 0.5, None)
    for k in range(16):
        p.line([(0, 70 * k), (1600, 70 * k + 8)], 1.2, "#b7a987", 0.45)
    p.rule(150, 880, 65, 20, 0, 110)
    waists = [0.62, 0.95, 0.55, 0.9, 0.98, 0.68]
    for i, w in enumerate(waists):
        x = 250 + i * 215
        top, half = 190, 40
        length = 560
        p.fill(rect(x - 10, top + 30, 90, length), "#000", 0.22, blur=True)
        neck = top + length * 0.52
        left = [(x - half, top + 40), (x - half + 1, neck - 90), (x - half * w, neck), (x - half + 2, neck + 90), (x - half + 6, top + length)]
        right = [(2 * x - a, b) for a, b in left]
        d = smooth(left) + " L" + smooth(right[::-1])[1:] + " Z"
        p.mottle(d, "#b47a4c", "#5c3320", 0.05, 0.6)
        p.shade(d, x - half, 0, x + half, 0, [(0, "#fff", 0.3), (0.4, "#fff", 0.0), (1, "#000", 0.45)])
        p.blot(x, neck, 46, 80, "#3f8a6e", 0.75 if w < 0.8 else 0.3)
        p.fill(poly((x - 70, top + 8), (x + 70, top), (x + 74, top + 40), (x - 74, top + 46)), "#a56d42", 1, INK, 3)
        p.fill(poly((x - 70, top + 8), (x + 70, top), (x + 71, top + 12), (x - 71, top + 19)), "#dba678", 0.8)
        p.fill(poly((x - 84, top + length - 10), (x + 84, top + length - 4), (x + 60, top + length + 34), (x - 60, top + length + 30)), "#9a6239", 1, INK, 3)
        p.fill(circle(x, top + length + 44, 30, 18), "#c08a5c", 1, INK, 2.5)
        p.chalk(x - 14, 150, str(i + 1), 54, 0, INK)
    p.note(60, 70, "Six land rivets drawn, port strakes 9 and 10: 1, 3 and 6 necked where the planks meet")
    p.note(60, 1120, "Thickness to the rule, length shortened")
    return p


def covering_board():
    p = Picture(6)
    deck = rect(-10, -10, W + 20, 520)
    p.mottle(deck, "#b9b59f", "#6c6850", 0.02, 0.55, None)
    for y in range(-5, 520, 17):
        p.line([(0, y), (1600, y + 6)], 0.8, "#7d7860", 0.28)
    for x in range(-5, 1600, 17):
        p.line([(x, 0), (x + 3, 520)], 0.8, "#7d7860", 0.22)
    crack = [(0, 470), (180, 462), (390, 476), (620, 464), (840, 478), (1080, 466), (1330, 474), (1600, 462)]
    p.blot(820, 470, 620, 60, "#2e2416", 0.55)
    p.line(crack, 7, "#1b130b", 0.95, curve=True)
    p.line([(x, y - 8) for x, y in crack], 3, "#e6e1cd", 0.7, curve=True)
    for x in (310, 700, 760, 1190):
        p.line([(x, 470), (x - 30, 400), (x + 10, 330), (x - 20, 270)], 3, "#2a2116", 0.8, curve=True)
    toe = poly((-10, 500), (1610, 506), (1610, 596), (-10, 588))
    p.wood(toe, "#86623c", 0.4, 0.6)
    p.shade(toe, 0, 500, 0, 596, [(0, "#fff", 0.2), (0.4, "#000", 0), (1, "#000", 0.5)])
    for x in range(120, 1600, 330):
        p.fill(circle(x, 546, 15), "#6b4c2d", 1, INK, 2)
    board = poly((-10, 588), (1610, 596), (1610, 905), (-10, 890))
    p.wood(board, "#a37b4d", 0.4, 0.7, 1.5, INK, 3, 22)
    p.blot(880, 690, 470, 130, "#2b1a0c", 0.75)
    p.blot(800, 660, 250, 60, "#0f0905", 0.55)
    joint = area([(780, 590), (800, 700), (772, 800), (790, 900)], [(786, 590), (812, 700), (786, 800), (797, 900)])
    p.fill("M780,592 C800,660 804,720 776,800 C770,840 780,870 788,898 L800,898 C790,866 786,836 796,800 C818,720 812,660 790,592 Z", "#110a05", 1, INK, 2)
    p.fill(poly((-10, 890), (1610, 905), (1610, 985), (-10, 968)), "#7c5a3a", 1, INK, 2.5)
    side = poly((-10, 968), (1610, 985), (1610, 1210), (-10, 1210))
    p.mottle(side, "#e0dac6", "#8f866a", 0.016, 0.6)
    p.shade(side, 0, 968, 0, 1100, [(0, "#000", 0.55), (0.4, "#000", 0.12), (1, "#000", 0.1)])
    p.blot(850, 1040, 250, 90, "#5d452a", 0.5)
    p.rivet(300, 1150, 14)
    p.rivet(640, 1154, 14)
    p.rivet(1330, 1158, 14)
    p.knife(846, 742, -38, 620, 46)
    p.note(60, 70, "Starboard covering board over timber 21: scarph open, knife goes in 12 mm")
    p.note(70, 420, "canvas cracked along the toe-rail", (390, 474))
    p.light(0.5, 0.55, 0.35)
    return p


def sheer_strake():
    p = Picture(7)
    p.fill(rect(0, 0, W, H), "#7d5d3a")
    p.wood(rect(-10, -10, W + 20, 130), "#94704a", 0, 0.6)
    p.shade(rect(-10, 110, W + 20, 60), 0, 110, 0, 170, [(0, "#000", 0.8), (1, "#000", 0)])
    tops = [flat(130), flat(520, 0.01), flat(880, 0.014), flat(1240, 0.016)]
    strakes(p, tops, ["#ddd6c0", "#d8d1bb", "#dbd4be"], spacing=128, dark=0.15, size=15)
    p.blot(840, 300, 440, 150, "#4a3722", 0.6)
    p.blot(800, 260, 280, 90, "#22160b", 0.6)
    for pts in ([(560, 220), (590, 262), (560, 300), (610, 350)], [(940, 210), (900, 260), (950, 330)], [(700, 190), (740, 230), (700, 262)]):
        p.line(pts, 4, "#2a1d10", 0.85, curve=True)
    flake = "M690,236 C760,214 880,222 950,252 C990,280 960,330 900,344 C820,360 720,350 684,316 C664,290 664,256 690,236 Z"
    p.wood(flake, "#6e4f2f", 2, 0.9, 0.8, INK, 3, 16)
    for x in range(700, 960, 44):
        p.line([(x, 244), (x + 4, 340)], 2.4, "#1e1209", 0.8)
    p.knife(842, 286, -26, 660, 60)
    p.chalk(240, 430, "14", 80, 0, "#34424a")
    p.chalk(560, 470, "20", 60, 0, "#34424a")
    p.chalk(1120, 470, "23", 60, 0, "#34424a")
    p.note(60, 1120, "Starboard sheer strake under the leaking joint, timbers 20 to 23: breaks in short cubes")
    p.light(0.5, 0.3, 0.4)
    return p


def split_land():
    p = Picture(8)
    tops = [flat(y, -0.02) for y in (-60, 330, 720, 1260)]
    strakes(p, tops, ["#8e4339", "#873e35", "#92473c"], spacing=150, dark=0.25, size=17, bare=(2, 100, 1420))
    for i in (1,):
        y = lambda x: 720 - 0.02 * (x - 800) - 22
        pts = [(150 + k * 32, y(150 + k * 32) + p.random.uniform(-5, 5)) for k in range(41)]
        p.line(pts, 6, "#120805", 0.95, curve=True)
        p.line([(a, b - 5) for a, b in pts], 2, "#d88f7d", 0.5, curve=True)
        p.line([(a + 20, b - 30 + p.random.uniform(-4, 4)) for a, b in pts[9:26]], 3, "#1b0d08", 0.75, curve=True)
        for k in range(9):
            x = 170 + k * 150
            p.rivet(x, y(x) + 2, 19, "#8a6a4a", 0.35)
    p.blot(800, 760, 640, 60, "#200f0a", 0.4)
    p.rule(470, 850, 210, 2.6, -1, 62)
    p.chalk(160, 600, "7", 90)
    p.chalk(160, 1010, "6", 90)
    p.chalk(370, 660, "24", 50)
    p.chalk(1290, 640, "28", 50)
    p.note(60, 70, "Starboard: lower edge of strake 7 split along its rivets, timbers 24 to 28")
    p.light(0.5, 0.55, 0.4)
    return p


def keel_joint():
    p = Picture(9)
    up = poly((-10, -10), (1610, -10), (1610, 300), (-10, 320))
    p.mottle(up, RED, "#35120f", 0.014, 0.6)
    p.shade(up, 0, 0, 0, 320, [(0, "#000", 0.0), (1, "#000", 0.6)])
    wood = poly((-10, 320), (1610, 300), (1610, 630), (-10, 640))
    p.wood(wood, "#6f5236", -0.6, 0.8, 1.3, INK, 3, 24)
    p.mottle(poly((-10, 320), (1610, 300), (1610, 630), (-10, 640)), "#7c352c", "#2b100d", 0.012, 0.6, None)
    p.body[-3:] = p.body[-3:]
    iron = poly((-10, 652), (1610, 640), (1610, 1010), (-10, 1010))
    p.mottle(iron, "#54433a", "#a3552a", 0.022, 0.9)
    p.mottle(poly((-10, 652), (1610, 640), (1610, 1010), (-10, 1010)), "#54433a", "#1b1411", 0.07, 0.5, None)
    p.shade(iron, 0, 640, 0, 1010, [(0, "#fff", 0.08), (0.5, "#000", 0.0), (1, "#000", 0.55)])
    gap = area([(-10, 640), (400, 637), (800, 632), (1200, 630), (1610, 628)], [(-10, 646), (400, 644), (800, 650), (1200, 652), (1610, 640)])
    p.fill(gap, "#0c0806")
    for x in (420, 445, 905, 930, 1180, 1215, 1235):
        L = p.random.uniform(70, 230)
        p.line([(x, 648), (x + 5, 648 + L * 0.5), (x - 3, 648 + L)], p.random.uniform(8, 20), "#b5622c", 0.7, curve=True)
        p.line([(x + 2, 648), (x + 3, 648 + L * 0.7)], 4, "#d98846", 0.7)
    p.blot(930, 650, 190, 60, "#a9521f", 0.6)
    p.mottle(rect(-10, 1010, W + 20, 200), "#8d8069", "#4b4030", 0.03, 0.6, None)
    p.wood(rect(150, 1010, 330, 200), "#8f7650", 0, 0.7)
    p.add('<g transform="translate(1000 642) rotate(9)"><rect x="-30" y="-7" width="440" height="14" fill="#cfd2d0" stroke="#2b2622" stroke-width="2"/><rect x="380" y="-26" width="260" height="52" rx="6" fill="#8b8f8d" stroke="#2b2622" stroke-width="2.4"/></g>')
    p.chalk(855, 560, "7", 100)
    p.note(60, 70, "Joint of wood keel and iron by keel bolt 7: 1.5 mm open, rust weeping")
    p.light(0.55, 0.5, 0.4)
    return p


def keel_bolts():
    p = Picture(10)
    p.wood(rect(-10, -10, W + 20, H + 20), "#c0a173", 0, 0.35, 2, None, 2, 30)
    for y in (400, 800):
        p.line([(0, y), (1600, y + 4)], 4, "#5a4021", 0.7)
    px = 3.35

    def bolt(y, diameters, label):
        x0, n = 150, len(diameters)
        xs = [x0 + 1290 * i / (n - 1) for i in range(n)]
        up = [(x, y - d * px * 1.8) for x, d in zip(xs, diameters)]
        lo = [(x, y + d * px * 1.8) for x, d in zip(xs, diameters)]
        d = area(up, lo)
        p.fill(area([(a + 8, b + 26) for a, b in up], [(a + 8, b + 30) for a, b in lo]), "#000", 0.28, blur=True)
        p.mottle(d, "#6a5344", "#a85a2b", 0.03, 0.85)
        p.shade(d, 0, y - 70, 0, y + 70, [(0, "#fff", 0.3), (0.35, "#fff", 0.02), (1, "#000", 0.55)])
        head = poly((x0 - 66, y - 84), (x0 + 6, y - 88), (x0 + 6, y + 88), (x0 - 66, y + 84))
        p.mottle(head, "#5d4839", "#9c5226", 0.03, 0.85)
        for k in range(14):
            x = xs[-1] - 8 - k * 14
            p.line([(x, y - 60), (x - 8, y + 60)], 3, "#2a1c14", 0.75)
        p.chalk(x0 - 40, y - 112, label, 64, 0, INK)

    bolt(330, [19.05, 18.9, 18.8, 18.6, 18.0, 17.6, 17.9, 18.5, 18.8, 18.9, 19.0, 19.0], "3")
    bolt(740, [19.05, 18.8, 18.4, 17.8, 15.6, 13.8, 14.6, 17.2, 18.3, 18.6, 18.9, 18.9], "7")
    p.rule(150, 960, 100, 12.06, 0, 80)
    p.note(600, 505, "17.6 mm at the least", (735, 392))
    p.note(600, 905, "13.8 mm at the joint of keel and iron", (735, 790))
    p.note(60, 1150, "Keel bolts 3 and 7 drawn, 19.05 mm as new; thickness to the rule, length shortened")
    p.light(0.4, 0.3, 0.3)
    return p


def rudder():
    p = Picture(11)
    sky_and_yard(p, 900)
    d = area([(-10, 60 + 4 * k) for k in range(1)] + [(300, 110), (620, 190), (760, 260)], [(-10, 980), (300, 960), (600, 900), (740, 840)])
    p.mottle(d, RED, "#35120f", 0.014, 0.6)
    for i in range(1, 10):
        t = i / 10
        pts = [(-10, 60 + 920 * t), (300, 110 + 850 * t), (620, 190 + 690 * t), (752, 260 + 570 * t)]
        p.line(pts, 3, INK, 0.9, curve=True)
        p.fill(area(pts, [(x, y + 14) for x, y in pts]), "#120805", 0.35)
        for x in (640, 690, 735):
            f = (x - 620) / 132
            y = (190 + 690 * t) * (1 - f) + (260 + 570 * t) * f
            p.rivet(x, y - 14, 10)
    post = poly((748, 90), (838, 90), (820, 1010), (708, 1010))
    p.wood(post, OAK, 91, 0.7, 1, INK, 3.5)
    blade = poly((862, 120), (1010, 110), (1075, 420), (1150, 700), (1120, 960), (838, 1000))
    p.wood(blade, "#87603d", 88, 0.7, 1.2, INK, 3.5, 20)
    for pts in ([(930, 120), (950, 500), (968, 985)], [(1000, 118), (1040, 520), (1056, 970)]):
        p.line(pts, 3, "#2a1a0e", 0.9, curve=True)
    p.line([(948, 520), (954, 640), (950, 760), (962, 900), (966, 980)], 9, "#0f0805", 0.95, curve=True)
    p.line([(942, 520), (947, 640), (943, 760), (955, 900)], 2, "#d9b98a", 0.5, curve=True)
    for y in (230, 560, 900):
        p.fill(poly((690, y), (870, y - 6), (870, y + 40), (690, y + 42)), "#7a6d45", 1, INK, 3)
        p.fill(poly((830, y + 52), (1060, y + 46), (1060, y + 84), (830, y + 92)), "#84764c", 1, INK, 3)
        p.fill(rect(838, y - 30, 26, 140), "#a2935f", 1, INK, 2.5)
        for x in (716, 772, 900, 960, 1030):
            p.fill(circle(x, y + (20 if x < 800 else 68), 8), "#c2b27a", 1, INK, 1.6)
    p.line([(875, 596), (875, 612)], 5, "#0f0805")
    p.note(1080, 420, "middle pintle: 2 mm worn", (858, 610))
    p.note(1130, 830, "after board split 480 mm up", (962, 900))
    p.note(60, 80, "Rudder and sternpost from port quarter")
    p.light(0.6, 0.4, 0.3)
    return p


def propeller():
    p = Picture(12)
    p.mottle(rect(-10, -10, W + 20, H + 20), "#7d362c", "#2b0f0c", 0.012, 0.6, None)
    p.shade(rect(0, 0, W, H), 0, 0, 0, H, [(0, "#000", 0.5), (0.4, "#000", 0.05), (1, "#000", 0.4)])
    p.wood(poly((560, -10), (900, -10), (880, 1210), (600, 1210)), "#6d5337", 90, 0.8, 1, INK, 4)
    p.mottle(poly((560, -10), (900, -10), (880, 1210), (600, 1210)), "#74322a", "#2b0f0c", 0.012, 0.7, INK, 4)
    p.fill(rect(0, 0, 0, 0), "#000")
    cx, cy = 760, 600
    p.fill(circle(cx, cy, 150), "#77663f", 1, INK, 4)
    p.fill(circle(cx, cy, 120), "#3a3022", 1, INK, 3)
    for a in (200, 320, 80):
        g = f'<g transform="rotate({a} {cx} {cy})">'
        p.add(g)
        d = f"M{cx + 50},{cy - 50} C{cx + 180},{cy - 190} {cx + 400},{cy - 190} {cx + 450},{cy - 40} C{cx + 470},{cy + 70} {cx + 300},{cy + 130} {cx + 60},{cy + 60} Z"
        p.mottle(d, "#b39a5b", "#5d4c25", 0.018, 0.6, INK, 4)
        p.shade(d, cx, cy - 180, cx, cy + 120, [(0, "#fff", 0.35), (0.5, "#000", 0), (1, "#000", 0.45)])
        p.blot(cx + 390, cy - 40, 70, 110, "#c8705a", 0.85)
        p.add("</g>")
    p.fill(circle(cx, cy, 86), "#a88f52", 1, INK, 4)
    p.fill(poly((cx - 44, cy - 40), (cx + 44, cy - 40), (cx + 60, cy), (cx + 44, cy + 40), (cx - 44, cy + 40), (cx - 60, cy)), "#8a7442", 1, INK, 3)
    p.line([(cx - 30, cy + 6), (cx + 34, cy - 6)], 7, "#c9ccca")
    anode = "M1180,900 C1240,870 1400,874 1440,910 C1456,960 1440,1010 1400,1030 C1320,1050 1220,1040 1186,1010 C1166,980 1164,930 1180,900 Z"
    p.mottle(anode, "#b8bab5", "#6a6d68", 0.035, 0.9, INK, 3.5)
    for x in (1250, 1370):
        p.fill(circle(x, 955, 24), "#8a5b3a", 1, INK, 2.5)
    p.note(1090, 250, "pink, scrapes to copper colour", (1010, 330))
    p.note(1010, 1120, "anode: about 4 parts in 10 left", (1300, 1020))
    p.note(60, 80, "Propeller, bronze by its look, not analysed")
    p.light(0.5, 0.5, 0.45)
    return p


def hood_ends():
    p = Picture(13)
    p.fill(rect(0, 0, W, H), "#6b2c24")
    n = 7
    for i in range(n - 1, -1, -1):
        y0, y1 = -40 + i * 185, -40 + (i + 1) * 185
        up = [(-20, y0 - 16 - 40), (500, y0 - 16 - 10), (1120, y0 - 16 + 30)]
        lo = [(-20, y1 - 40), (500, y1 - 10), (1120, y1 + 30)]
        d = area(up, lo)
        p.wood(d, "#8a4036", 3, 0.3, 1.3, INK, 3, 8)
        p.shade(d, 0, y0, 0, y1, [(0, "#000", 0.05), (0.6, "#fff", 0.1), (1, "#000", 0.35)])
        band = area([(x, y) for x, y in lo], [(x, y + 24) for x, y in lo])
        if i < n - 1:
            p.shade(band, 0, y1, 0, y1 + 26, [(0, "#000", 0.75), (1, "#000", 0)])
        for x in (880, 965, 1050):
            p.rivet(x, y0 + 80 + (x - 500) * 0.05, 17)
            p.rivet(x + 14, y0 + 132 + (x - 500) * 0.05, 17)
        for x in range(80, 860, 150):
            p.rivet(x, y1 - 24 - 30 + x * 0.055, 14)
    p.fill(poly((1112, -10), (1132, -10), (1120, 1210), (1096, 1210)), "#140a06", 1)
    post = poly((1130, -10), (1420, -10), (1390, 1210), (1116, 1210))
    p.wood(post, OAK, 91, 0.7, 1, INK, 4, 18)
    p.shade(post, 1120, 0, 1420, 0, [(0, "#000", 0.4), (0.3, "#fff", 0.1), (1, "#000", 0.35)])
    p.mottle(poly((1420, -10), (1610, -10), (1610, 1210), (1392, 1210)), "#a7a08c", "#6c6654", 0.02, 0.6)
    p.note(60, 80, "After hood ends, port: fair in the rabbet, none moves, heads tight")
    p.light(0.45, 0.45, 0.4)
    return p


def scarph():
    p = Picture(14)
    tops = [flat(y, 0.015) for y in (-120, 330, 790, 1300)]
    strakes(p, tops, ["#8a4036", "#84392f", "#8e4439"], spacing=150, dark=0.3, size=16)
    p.line([(560, 345), (600, 470), (575, 600), (610, 760)], 3.5, "#20140b", 0.95, curve=True)
    p.line([(567, 345), (607, 470), (582, 600), (617, 760)], 2, "#e1bd88", 0.5, curve=True)
    for y in (420, 520, 620, 710):
        for x in (480, 700):
            p.rivet(x + (y % 3) * 4, y, 15, "#8d6c48")
    p.chalk(980, 590, "rings", 74)
    p.chalk(980, 680, "ref. 1", 60)
    p.line([(860, 500), (1320, 492), (1330, 720), (870, 730), (858, 500)], 7, "#f7f3e6", 0.7, curve=True)
    p.add('<g transform="translate(1190 330) rotate(28)"><rect x="-22" y="0" width="36" height="520" rx="15" fill="#a57c4c" stroke="#2b2622" stroke-width="2.6"/><path d="M-104,-52 L92,-52 L112,-28 L92,-4 L-80,-4 C-116,-12 -120,-44 -104,-52 Z" fill="#6d7170" stroke="#2b2622" stroke-width="3"/><path d="M-96,-44 L90,-44 L100,-36 L-98,-34 Z" fill="#b9bdbb" opacity="0.8"/></g>')
    p.note(60, 80, "Starboard strake 5, scarph by timber 12: closed; beside it a place used to compare blows")
    p.light(0.4, 0.45, 0.35)
    return p


def deck():
    p = Picture(15)
    p.mottle(rect(-10, -10, W + 20, H + 20), "#a9a48c", "#6b674f", 0.016, 0.55, None)
    for y in range(0, 1200, 15):
        p.line([(0, y), (1600, y + 4)], 0.8, "#726d55", 0.25)
    for x in range(0, 1600, 15):
        p.line([(x, 0), (x + 3, 1200)], 0.8, "#726d55", 0.2)
    house = poly((-10, -10), (620, -10), (560, 1210), (-10, 1210))
    p.wood(poly((470, -10), (660, -10), (600, 1210), (420, 1210)), "#7c5532", 92, 0.65, 1, INK, 3.5)
    p.mottle(poly((-10, -10), (480, -10), (430, 1210), (-10, 1210)), "#d5cfba", "#8f8a70", 0.016, 0.5)
    p.shade(poly((650, -10), (760, -10), (700, 1210), (596, 1210)), 640, 0, 740, 0, [(0, "#000", 0.6), (1, "#000", 0)])
    for i in range(22):
        x, y = p.random.uniform(760, 1380), p.random.uniform(60, 1100)
        pts = [(x, y)]
        for _ in range(4):
            x += p.random.uniform(-70, 70)
            y += p.random.uniform(20, 70)
            pts.append((x, y))
        p.line(pts, p.random.uniform(1.5, 3.5), "#2f2a1d", 0.7, curve=True)
    p.blot(1180, 700, 200, 380, "#3e3826", 0.4)
    tape = poly((1330, 120), (1440, 128), (1400, 1120), (1290, 1110))
    p.mottle(tape, "#4a4d4b", "#1d1f1e", 0.02, 0.6)
    p.wood(poly((1440, -10), (1520, -10), (1470, 1210), (1390, 1210)), "#86623c", 92, 0.6)
    p.mottle(poly((1520, -10), (1610, -10), (1610, 1210), (1470, 1210)), "#9d7748", "#4d3720", 0.02, 0.6)
    for pts in ([(900, 300), (980, 420), (960, 520)],):
        p.fill(circle(930, 400, 70, 26), "#6f7a7c", 0.55, INK, 1.5)
        p.fill(circle(915, 392, 30, 8), "#e8ecea", 0.6)
    p.note(700, 80, "Starboard side deck, second day after rain: canvas crazed")
    p.note(830, 1000, "rubber compound brushed over the edge", (1345, 800))
    p.light(0.5, 0.4, 0.3)
    return p


def mast():
    p = Picture(16)
    sky_and_yard(p, 700)
    for x in (330, 1190):
        for dx in (-90, 90):
            p.line([(x, 640), (x + dx, 1080)], 20, "#7a5f3d")
            p.line([(x, 640), (x + dx, 1080)], 2, INK, 0.6)
        p.line([(x - 60, 900), (x + 60, 900)], 12, "#7a5f3d")
        p.wood(rect(x - 110, 610, 220, 34), "#8f7650", 0, 0.5)
    spar = area([(-20, 500), (800, 508), (1620, 522)], [(-20, 622), (800, 616), (1620, 604)])
    p.wood(spar, "#c79a5c", 0.4, 0.6, 1.8, INK, 3.5, 12)
    p.shade(spar, 0, 498, 0, 622, [(0, "#fff", 0.5), (0.35, "#fff", 0.05), (1, "#000", 0.6)])
    p.line([(220, 560), (420, 566), (640, 562), (860, 570), (1010, 567)], 4.5, "#3a2415", 0.9, curve=True)
    p.line([(520, 540), (700, 545), (820, 543)], 2.5, "#3a2415", 0.7, curve=True)
    band = poly((1320, 512), (1400, 514), (1400, 612), (1320, 614))
    p.mottle(band, "#83807a", "#4b4844", 0.03, 0.6)
    p.fill(circle(1360, 500, 22), "#6d6a64", 1, INK, 3)
    p.line([(1360, 500), (1500, 760), (1580, 1000)], 6, "#70706c", 0.9, curve=True)
    p.line([(1360, 500), (1440, 770), (1470, 1020)], 6, "#70706c", 0.9, curve=True)
    p.blot(760, 1090, 700, 36, "#1d150d", 0.45)
    p.note(60, 80, "Mast on trestles: one long shake, along the grain, does not wind round")
    return p


PICTURES = {
    "broadside": broadside, "bow": bow, "stem-check": stem_check, "loose-planks": loose_planks,
    "drawn-rivets": drawn_rivets, "covering-board": covering_board, "sheer-strake": sheer_strake,
    "split-land": split_land, "keel-joint": keel_joint, "keel-bolts": keel_bolts, "rudder": rudder,
    "propeller": propeller, "hood-ends": hood_ends, "scarph": scarph, "deck": deck, "mast": mast,
}
