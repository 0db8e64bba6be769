"""What the phone saw inside: timbers, roves, bilge, floors, deck edge, sea valve, step, engine bed."""
from sheet import H, INK, W, Picture, area, circle, flat, poly, rect, smooth, strakes

LARCH = ["#a87b4b", "#a17344", "#ad8152", "#9b6e41"]
OAK = "#8b6b43"


def planking(p, ys, dark=0.6, slope=0.0):
    """The inside of clinker planking: here each strake lies behind the one above's lower edge."""
    tops = [flat(y, slope) for y in ys]
    strakes(p, tops, LARCH, rivets=False, dark=dark, edge_shadow=20)


def timber(p, x, wide=92, lean=0, colour=OAK, top=-20, low=1220, bend=0):
    """A steamed timber standing across the strakes."""
    pts = [top + (low - top) * k / 8 for k in range(9)]
    off = [lean * (y - 600) / 600 + bend * ((y - 600) / 600) ** 2 for y in pts]
    left = [(x - wide / 2 + o, y) for o, y in zip(off, pts)]
    right = [(x + wide / 2 + o, y) for o, y in zip(off, pts)]
    d = smooth(left) + " L" + smooth(right[::-1])[1:] + " Z"
    p.fill(smooth([(a + wide, b) for a, b in left]) + " L" + smooth([(a + 30, b) for a, b in right][::-1])[1:] + " Z", "#000", 0.0)
    shadow = smooth(right) + " L" + smooth([(a + 34, b) for a, b in right][::-1])[1:] + " Z"
    p.fill(shadow, "#140c06", 0.45, blur=True)
    p.wood(d, colour, 90, 0.75, 0.9, INK, 3, 9)
    p.shade(d, x - wide / 2, 0, x + wide / 2, 0, [(0, "#fff", 0.18), (0.3, "#fff", 0.0), (1, "#000", 0.45)])


def sisters():
    p = Picture(31)
    planking(p, (-60, 180, 420, 660, 900, 1260), 0.55)
    for x in (170, 560, 960, 1400):
        timber(p, x, 88)
    for x in (660, 1060):
        timber(p, x, 84, colour="#b08f5e", top=215, low=1230)
        p.line([(x - 42, 216), (x + 42, 214)], 4, INK)
        for y in (300, 400, 540, 640, 780, 880, 1020, 1120):
            p.rove(x + (y % 3) * 4 - 4, y, 19, 0.1)
    for x in (170, 560, 960, 1400):
        for y in (160, 400, 640, 880, 1110):
            p.rove(x, y - 20, 18, 0.4)
    for x in (560, 960):
        pts = [(x - 46, 800), (x - 12, 776), (x + 8, 812), (x + 46, 784)]
        p.line(pts, 8, "#0f0805", 0.95)
        p.line([(a, b - 6) for a, b in pts], 2.2, "#d9b98a", 0.6)
    p.chalk(470, 150, "15", 54)
    p.chalk(872, 150, "16", 54)
    p.chalk(200, 330, "9", 80)
    p.chalk(200, 570, "8", 80)
    p.note(1130, 300, "sister ends at strake 8", (1066, 222))
    p.note(90, 960, "old crack, clean edges gone", (552, 800))
    p.note(60, 60, "Port, from inside: timbers 15 and 16 with sisters of lighter oak beside them")
    p.light(0.45, 0.4, 0.5)
    return p


def roves():
    p = Picture(32)
    planking(p, (-400, 640, 1600), 0.7)
    timber(p, 330, 330)
    for x, y, slack in ((330, 260, 0), (330, 900, 0), (860, 520, 1), (1300, 535, 1)):
        p.rove(x, y, 92, 0.25 if not slack else 0.75)
        if slack:
            p.line([(x - 96 + 192 * (k / 16), y + 60 + 46 * (1 - ((k - 8) / 8) ** 2)) for k in range(17)], 7, "#0d0705", 0.9, curve=True)
            p.blot(x + 10, y + 150, 60, 130, "#4c9277", 0.5)
    p.add('<g transform="translate(905 590) rotate(38)"><rect x="0" y="-8" width="520" height="16" fill="#cfd2d0" stroke="#2b2622" stroke-width="2"/><rect x="470" y="-34" width="260" height="68" rx="8" fill="#8b8f8d" stroke="#2b2622" stroke-width="2.4"/><text x="250" y="6" font-size="17" font-family="DejaVu Sans">0.40 mm</text></g>')
    p.note(60, 70, "Land of port strakes 9 and 10 between timbers 16 and 17: a gauge of 0.40 mm goes under the rove")
    p.note(60, 1130, "left: roves on timber 16, tight")
    p.light(0.5, 0.4, 0.45)
    return p


def bilge():
    p = Picture(33)
    p.fill(rect(0, 0, W, H), "#4b3721")
    for i in range(6):
        for side in (-1, 1):
            y0 = i * 120
            d = poly((800 + side * (820 - i * 22), y0 - 30), (800 + side * (250 - i * 6), y0 + 320), (800 + side * (250 - i * 6), y0 + 400), (800 + side * (820 - i * 22), y0 + 100))
            p.wood(d, LARCH[i % 4], side * -28, 0.6, 1.2, INK, 2.5, 8)
    hog = poly((560, 260), (1040, 260), (1130, 1210), (470, 1210))
    p.wood(hog, "#6d5334", 90, 0.7, 1, INK, 3, 14)
    water = "M430,640 C600,610 1000,616 1180,650 C1230,760 1250,930 1260,1080 C1000,1120 600,1120 345,1080 C350,930 380,760 430,640 Z"
    p.fill(water, "#26302a", 0.82, INK, 2.5)
    p.shade(water, 0, 640, 0, 1100, [(0, "#b9c9c4", 0.5), (0.3, "#6f827a", 0.12), (1, "#000", 0.3)])
    for y in (720, 840, 990):
        p.line([(520, y), (700, y - 9), (900, y + 5), (1090, y - 6)], 3, "#d7e4df", 0.5, curve=True)
    for y in (330, 620, 1010):
        f = poly((300, y - 40), (1300, y - 40), (1120, y + 66), (480, y + 66))
        p.fill(poly((300, y + 60), (1300, y + 60), (1120, y + 110), (480, y + 110)), "#000", 0.4, blur=True)
        p.wood(f, OAK, 0, 0.75, 1, INK, 3.5, 12)
        p.shade(f, 0, y - 40, 0, y + 66, [(0, "#fff", 0.15), (1, "#000", 0.5)])
    for x, y in ((700, 672), (900, 672)):
        p.fill(f"M{x - 34},{y + 14} L{x - 34},{y - 10} C{x - 30},{y - 40} {x + 30},{y - 40} {x + 34},{y - 10} L{x + 34},{y + 14} Z", "#1a120b", 1, INK, 2.5)
        for _ in range(16):
            a, b = x + p.random.uniform(-32, 32), y + p.random.uniform(-24, 12)
            p.fill(circle(round(a, 1), round(b, 1), round(p.random.uniform(4, 10), 1)), "#5b5138", 0.9)
    for x in (800,):
        p.fill(circle(x, 590, 54, 30), "#6a4a33", 1, INK, 3)
        p.fill(poly((x - 26, 566), (x + 26, 566), (x + 34, 588), (x + 20, 606), (x - 20, 606), (x - 34, 588)), "#7c4a2c", 1, INK, 3)
        p.blot(x, 610, 120, 60, "#a9521f", 0.6)
    p.rule(1150, 820, 60, 4.2, 90, 50)
    p.note(1050, 540, "limber hole stopped with paint flakes", (910, 668))
    p.note(90, 1130, "40 mm of fresh water, standing")
    p.note(60, 60, "Bilge between floors 5 and 7, sole lifted")
    p.light(0.5, 0.5, 0.55)
    return p


def beam_end():
    p = Picture(34)
    planking(p, (200, 640, 1000, 1300), 0.6)
    p.mottle(rect(-10, -10, W + 20, 150), "#b9b09a", "#5f563f", 0.02, 0.6)
    timber(p, 430, 92, top=110)
    timber(p, 1230, 92, top=110)
    shelf = poly((-10, 300), (1610, 318), (1610, 500), (-10, 486))
    p.fill(poly((-10, 486), (1610, 500), (1610, 556), (-10, 540)), "#000", 0.45, blur=True)
    p.wood(shelf, "#937046", 0.6, 0.75, 1.3, INK, 3.5, 16)
    p.blot(820, 390, 430, 120, "#21140a", 0.75)
    beam = poly((690, 118), (960, 118), (990, 600), (650, 600))
    p.wood(poly((700, 118), (940, 118), (940, 330), (700, 330)), "#8f6d44", 90, 0.7, 1, INK, 3.5, 10)
    p.wood(poly((660, 330), (980, 330), (1010, 740), (630, 740)), "#9a774b", 90, 0.7, 1, INK, 3.5, 14)
    p.shade(poly((660, 330), (980, 330), (1010, 740), (630, 740)), 0, 330, 0, 740, [(0, "#000", 0.45), (0.5, "#000", 0), (1, "#fff", 0.1)])
    p.blot(820, 330, 210, 130, "#170d06", 0.8)
    for x in (690, 780, 905):
        p.line([(x, 150), (x + 6, 260), (x - 4, 360), (x + 3, 430)], 7, "#120a05", 0.6, curve=True)
        p.line([(x + 2, 150), (x + 7, 350)], 2, "#cfdad6", 0.5)
    p.fill("M760,440 C764,470 776,470 780,440 C776,424 766,424 760,440 Z", "#b9cbc6", 0.85, INK, 1.5)
    for x in (560, 1120):
        for y in (210,):
            p.fill(circle(x, y, 12), "#cfd8c8", 0.8)
    p.blot(1100, 250, 110, 40, "#d9dccb", 0.6)
    for x in (430, 1230):
        for y in (250, 700, 900, 1100):
            p.rove(x, y, 19, 0.4)
    p.knife(900, 378, -18, 560, 40)
    p.note(60, 1120, "Starboard, beam 8 on the shelf, morning after rain: a drop hangs; soft 10 mm deep")
    p.light(0.5, 0.35, 0.55)
    return p


def seacock():
    p = Picture(35)
    planking(p, (-100, 250, 620, 960, 1300), 0.6)
    timber(p, 180, 110)
    timber(p, 1450, 110)
    pad = poly((520, 700), (1080, 700), (1080, 1110), (520, 1110))
    p.wood(pad, "#84633b", 0, 0.75, 1, INK, 3.5, 14)
    p.blot(800, 960, 250, 130, "#2e5a49", 0.5)
    p.fill(poly((690, 840), (910, 840), (940, 950), (660, 950)), "#8d7743", 1, INK, 3.5)
    p.fill(rect(730, 560, 140, 290), "#9b8550", 1, INK, 3.5)
    p.shade(rect(730, 560, 140, 290), 730, 0, 870, 0, [(0, "#fff", 0.35), (0.4, "#000", 0), (1, "#000", 0.5)])
    p.fill(poly((690, 620), (910, 620), (930, 700), (910, 780), (690, 780), (670, 700)), "#8a7442", 1, INK, 3.5)
    p.fill(rect(910, 676, 150, 46), "#87713f", 1, INK, 3)
    p.fill(circle(1110, 700, 92, 92), "#7a2f28", 1, INK, 4)
    p.fill(circle(1110, 700, 60, 60), "#8d6b43", 1, INK, 3)
    for a in (0, 1, 2):
        p.line([(1110, 700), (1110 + 84 * [0, 0.87, -0.87][a], 700 + 84 * [-1, 0.5, 0.5][a])], 14, "#7a2f28")
    p.blot(790, 690, 120, 110, "#4f9a7c", 0.7)
    p.blot(905, 690, 70, 50, "#5fae8d", 0.7)
    hose = "M722,570 C712,420 700,330 560,230 C470,170 330,140 -20,150 L-20,300 C300,290 420,310 500,360 C600,430 640,470 668,570 Z"
    hose = "M700,580 C690,430 640,330 520,270 C400,215 200,205 -20,215 L-20,90 C220,80 450,95 590,165 C760,250 890,400 900,580 Z"
    p.mottle(hose, "#3b3d3b", "#0f100f", 0.03, 0.6, INK, 4)
    p.shade(hose, 0, 80, 0, 580, [(0, "#fff", 0.22), (0.5, "#000", 0), (1, "#000", 0.3)])
    for k in range(7):
        x, y = 180 + k * 80, 110 + k * k * 4
        p.line([(x, y), (x + 26, y + 34), (x + 20, y + 66)], 3, "#0a0b0a", 0.9)
    p.mottle(poly((690, 470), (912, 470), (912, 522), (694, 522)), "#8f8a82", "#9c5226", 0.05, 0.9, INK, 3)
    p.fill(rect(868, 456, 66, 76), "#7d7770", 1, INK, 3)
    p.note(1010, 480, "one clip, rusted", (905, 496))
    p.note(1150, 900, "gate valve, would not turn by hand", (1120, 780), anchor="middle")
    p.note(60, 1130, "Galley inlet, port, timber 12")
    p.light(0.5, 0.5, 0.45)
    return p


def floor_bolt():
    p = Picture(36)
    p.fill(rect(0, 0, W, H), "#3d2c1a")
    planking(p, (-200, 120, 500), 0.6)
    f = poly((-10, 380), (1610, 360), (1610, 900), (-10, 930))
    p.wood(f, "#7d5d38", -0.6, 0.8, 1.4, INK, 4, 26)
    p.shade(f, 0, 370, 0, 920, [(0, "#fff", 0.12), (0.5, "#000", 0), (1, "#000", 0.5)])
    p.mottle(poly((-10, 930), (1610, 900), (1610, 1210), (-10, 1210)), "#2f352d", "#0e120f", 0.012, 0.6)
    p.blot(820, 590, 430, 230, "#14100e", 0.8)
    p.blot(820, 610, 260, 150, "#5a2a12", 0.75)
    w = "M600,560 C660,470 980,470 1040,556 C1060,640 980,700 820,704 C660,700 580,640 600,560 Z"
    p.mottle(w, "#6d4630", "#a8562a", 0.03, 0.9, INK, 4)
    n = poly((690, 470), (820, 430), (950, 470), (960, 590), (820, 640), (684, 590))
    p.mottle(n, "#77503a", "#b0602c", 0.03, 0.9, INK, 4)
    p.fill(poly((690, 470), (820, 430), (950, 470), (820, 512)), "#9a6a48", 0.55, INK, 3)
    p.fill(circle(820, 470, 62, 24), "#5d3c2a", 1, INK, 3)
    for x, y in ((620, 520), (1000, 610), (760, 690), (950, 540)):
        p.fill(poly((x, y), (x + 42, y - 10), (x + 50, y + 18), (x + 8, y + 26)), "#8d5632", 0.9, INK, 2)
    for x0 in (430, 1120, 1180):
        p.line([(x0, 540), (x0 + 60, 556), (x0 + 130, 548)], 4, "#0f0a07", 0.8, curve=True)
    p.knife(1075, 660, 16, 520, 30)
    p.note(60, 70, "Floor 7 at keel bolt 7: oak black and soft 8 mm round the washer, rust in flakes")
    p.light(0.5, 0.5, 0.5)
    return p


def mast_step():
    p = Picture(37)
    p.fill(rect(0, 0, W, H), "#403019")
    planking(p, (-260, 60, 380, 700), 0.55)
    for x in (150, 1450):
        timber(p, x, 100)
    step = poly((180, 640), (1420, 640), (1500, 960), (100, 960))
    p.wood(step, "#8b6a42", 0, 0.8, 1.4, INK, 4, 24)
    p.wood(poly((100, 960), (1500, 960), (1480, 1090), (120, 1090)), "#6b5031", 0, 0.7, 1.4, INK, 4, 12)
    hole = poly((660, 730), (950, 730), (970, 860), (640, 860))
    p.fill(hole, "#150d07", 1, INK, 4)
    p.fill(poly((640, 830), (970, 830), (970, 860), (640, 860)), "#3a2817", 1, INK, 2)
    p.blot(800, 800, 340, 100, "#22150a", 0.6)
    for x in (300, 480, 1120, 1300):
        p.fill(circle(x, 800, 30, 18), "#7d6a3f", 1, INK, 3)
        p.fill(circle(x, 796, 14, 8), "#a18e5c", 1, INK, 2)
    p.line([(950, 800), (1060, 806), (1180, 800)], 4, "#1b1008", 0.85, curve=True)
    p.knife(700, 890, 58, 300, 4)
    p.note(60, 70, "Mast step: damp round the mortice, firm under the knife, one short check")
    p.light(0.5, 0.6, 0.5)
    return p


def engine_cement():
    p = Picture(38)
    p.fill(rect(0, 0, W, H), "#3a2b1a")
    planking(p, (-200, 130, 430), 0.55)
    for x in (240, 800, 1360):
        timber(p, x, 96, low=640)
    cement = "M-10,640 C300,600 600,660 900,630 C1200,610 1400,650 1610,620 L1610,1210 L-10,1210 Z"
    p.mottle(cement, "#9b978b", "#55524a", 0.02, 0.6, INK, 4)
    p.mottle(cement, "#9b978b", "#1f1a14", 0.006, 0.0, INK, 3)
    p.blot(820, 900, 500, 190, "#1a130c", 0.7)
    crack = [(200, 660), (330, 760), (290, 860), (430, 960), (410, 1080), (520, 1200)]
    p.line(crack, 6, "#15110c", 0.95)
    p.line(crack[1:3] + [(180, 930)], 4, "#15110c", 0.9)
    for x in (330, 1090):
        b = poly((x, 500), (x + 190, 500), (x + 230, 1210), (x - 40, 1210))
        p.wood(b, "#6f5232", 90, 0.8, 1.2, INK, 4, 12)
        p.shade(b, x, 0, x + 200, 0, [(0, "#fff", 0.12), (1, "#000", 0.5)])
        p.fill(circle(x + 95, 640, 40, 26), "#77716a", 1, INK, 3)
        p.fill(poly((x + 68, 632), (x + 95, 618), (x + 122, 632), (x + 120, 648), (x + 95, 660), (x + 70, 648)), "#908a82", 1, INK, 2.5)
    e = poly((560, 120), (1040, 120), (1060, 560), (960, 720), (640, 720), (540, 560))
    p.mottle(e, "#59706a", "#20302c", 0.02, 0.6, INK, 4)
    p.fill(poly((500, 560), (1100, 560), (1100, 620), (500, 620)), "#3e4d49", 1, INK, 3)
    for x in (610, 720, 830, 940):
        p.fill(circle(x, 240, 36), "#465a55", 1, INK, 3)
        p.fill(rect(x - 20, 300, 40, 150), "#4d625c", 1, INK, 2.5)
    p.fill(circle(800, 640, 52), "#2d3936", 1, INK, 3)
    p.note(950, 1110, "cement over keel and floors 8 to 10", (880, 1010), anchor="middle")
    p.note(60, 70, "Engine bed from forward: what lies under the cement was not seen")
    p.light(0.5, 0.45, 0.5)
    return p


def moisture():
    p = Picture(39)
    planking(p, (-260, 260, 780, 1320), 0.65)
    timber(p, 240, 130)
    timber(p, 1420, 130)
    for x in (240, 1420):
        for y in (180, 700, 1150):
            p.rove(x, y, 26, 0.3)
    p.add('<g transform="translate(560 330) rotate(-6)">'
          '<rect x="16" y="24" width="440" height="620" rx="36" fill="#000" opacity="0.35" filter="url(#soft)"/>'
          f'<rect width="440" height="620" rx="36" fill="#d8a23a" stroke="{INK}" stroke-width="4"/>'
          f'<rect x="26" y="26" width="388" height="568" rx="24" fill="#3d4143" stroke="{INK}" stroke-width="3"/>'
          f'<rect x="60" y="70" width="320" height="180" rx="10" fill="#b9c4a6" stroke="{INK}" stroke-width="3"/>'
          '<text x="90" y="200" font-size="112" font-family="DejaVu Sans Mono, monospace" fill="#1c2418">21.5</text>'
          '<text x="345" y="112" font-size="30" font-family="DejaVu Sans" fill="#1c2418">%</text>'
          '<text x="76" y="236" font-size="24" font-family="DejaVu Sans" fill="#1c2418">larch  12 °C</text>'
          '<circle cx="130" cy="350" r="42" fill="#6f7678"/><circle cx="310" cy="350" r="42" fill="#6f7678"/>'
          '<rect x="90" y="440" width="260" height="60" rx="20" fill="#6f7678"/></g>')
    p.line([(800, 960), (900, 1060), (1050, 1000), (1150, 760)], 12, "#22201d", 1, curve=True)
    p.add(f'<g transform="translate(1150 620)"><rect x="-44" y="-60" width="88" height="190" rx="22" fill="#34383a" stroke="{INK}" stroke-width="3"/>'
          '<rect x="-26" y="-96" width="7" height="50" fill="#cfd2d0"/><rect x="19" y="-96" width="7" height="50" fill="#cfd2d0"/></g>')
    p.note(60, 70, "Port strake 11, inside, timber 22: the meter as shown, before any correction")
    p.light(0.45, 0.45, 0.4)
    return p


PICTURES = {
    "sisters": sisters, "roves": roves, "bilge": bilge, "beam-end": beam_end, "seacock": seacock,
    "floor-bolt": floor_bolt, "mast-step": mast_step, "engine-cement": engine_cement, "moisture": moisture,
}
