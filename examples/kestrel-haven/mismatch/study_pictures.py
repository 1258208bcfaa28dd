"""The mismatch study's curves as SVG: a figure over the weld's strength, one line for each
softening of the heat-affected zone, face bend on the left, root bend on the right. Draws the
rows that run-study gathered; computes nothing."""

# Told apart by every kind of colour vision (Okabe & Ito, "Color universal design", 2008), and
# by shape of the points.
LOOKS = {"1.00": ("#222222", "circle"), "0.90": ("#0072B2", "square"),
         "0.80": ("#D55E00", "diamond"), "0.70": ("#009E73", "triangle")}
INK, GRID = "#222222", "#DDDDDD"
WIDTH, HEIGHT = 860, 400
TOP, BOTTOM = 78, 336
PANELS = {"face": (74, 428), "root": (484, 838)}
LOWEST, HIGHEST = 0.65, 1.55  # weld / plate


def line(x1, y1, x2, y2, colour=GRID, width=1.0):
    return (f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{colour}" '
            f'stroke-width="{width}"/>')


def text(x, y, words, anchor="start", size=13, turn=""):
    return (f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" text-anchor="{anchor}" '
            f'fill="{INK}"{turn}>{words}</text>')


def mark(x, y, colour, shape):
    r = 4.2
    if shape == "circle":
        return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{r}" fill="{colour}"/>'
    corners = {"square": [(-r, -r), (r, -r), (r, r), (-r, r)],
               "diamond": [(0, -1.4 * r), (1.4 * r, 0), (0, 1.4 * r), (-1.4 * r, 0)],
               "triangle": [(-1.2 * r, r), (1.2 * r, r), (0, -1.3 * r)]}[shape]
    points = " ".join(f"{x + dx:.1f},{y + dy:.1f}" for dx, dy in corners)
    return f'<polygon points="{points}" fill="{colour}"/>'


class Scale:
    """From values to pixels; ticks at whole multiples of a step."""

    def __init__(self, low, high, step, decimals):
        self.low, self.high, self.step, self.decimals = low, high, step, decimals

    def y(self, value):
        return BOTTOM - (BOTTOM - TOP) * (value - self.low) / (self.high - self.low)

    def ticks(self):
        count = round((self.high - self.low) / self.step)
        return [self.low + k * self.step for k in range(count + 1)]


def scale_for(values):
    """A scale of up to 8 steps that holds all of the values and 0."""
    low, high = min(0.0, *values), max(0.0, *values)
    if low == high:
        high = 1.0
    for size in (0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10, 20):
        first, last = int(low // size), -int(-high // size)
        if last - first <= 8:
            decimals = 2 if size in (0.05, 0.25) else 1 if size < 1 else 0
            return Scale(first * size, last * size, size, decimals)
    raise ValueError(f"no scale holds {low} to {high}")


def panel(bend, rows, head, scale):
    left, right = PANELS[bend]

    def x(ratio):
        return left + (right - left) * (ratio - LOWEST) / (HIGHEST - LOWEST)

    out = [text((left + right) / 2, TOP - 10, f"{bend} bend", "middle", 14)]
    for value in scale.ticks():
        zero = abs(value) < 1e-9
        out += [line(left, scale.y(value), right, scale.y(value), INK if zero else GRID),
                text(left - 8, scale.y(value) + 4, f"{0 if zero else value:.{scale.decimals}f}", "end")]
    for ratio in (0.7, 0.9, 1.1, 1.3, 1.5):
        out += [line(x(ratio), TOP, x(ratio), BOTTOM), text(x(ratio), BOTTOM + 18, f"{ratio:.1f}", "middle")]
    out += [line(x(1), TOP, x(1), BOTTOM, INK),
            text((left + right) / 2, BOTTOM + 38, "flow stress of the weld / of the plate", "middle")]
    for haz, (colour, shape) in LOOKS.items():
        points = sorted((x(float(row["weld / plate"])), scale.y(float(row[head])))
                        for row in rows if row["bend"] == bend and row["HAZ / plate"] == haz)
        if points:
            way = " ".join(f"{px:.1f},{py:.1f}" for px, py in points)
            out.append(f'<polyline points="{way}" fill="none" stroke="{colour}" stroke-width="1.8"/>')
            out += [mark(px, py, colour, shape) for px, py in points]
    return out


def legend(rows):
    out, x = [text(PANELS["face"][0], 46, "HAZ / plate:")], PANELS["face"][0] + 96
    for haz, (colour, shape) in LOOKS.items():
        if any(row["HAZ / plate"] == haz for row in rows):
            out += [line(x, 42, x + 26, 42, colour, 1.8), mark(x + 13, 42, colour, shape),
                    text(x + 32, 46, haz)]
            x += 84
    return out


def picture(title, rows, head):
    scale = scale_for([float(row[head]) for row in rows])
    body = [text(PANELS["face"][0], 22, title, size=16)] + legend(rows)
    for bend in PANELS:
        body += panel(bend, rows, head, scale)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
            f'font-family="sans-serif"><rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>\n'
            + "\n".join(body) + "\n</svg>\n")


def pictures(rows):
    """File name and SVG of each picture."""
    centred = [row for row in rows if not row["weld offset [mm]"]]
    off = [row for row in rows if row["weld offset [mm]"]]
    drawn = {}
    if centred:
        drawn = {
            "peak.svg": picture("Largest strain of the convex face, over that of the even coupon", centred,
                                "over even coupon [-]"),
            "place.svg": picture("Where it is: distance from the weld's centre [mm]", centred,
                                 "from weld centre [mm]"),
            "force.svg": picture("Largest ram force [kN]", centred, "peak force [kN]"),
        }
    if off:
        drawn["walk.svg"] = picture(f"Walk of a coupon whose weld is {off[0]['weld offset [mm]']} mm "
                                    "right of its centre [mm]", off, "walk [mm]")
    return drawn
