"""What stands on a drawing: heads with their staff step, accidental, ledger lines, stem and beams.

Measured on the drawn lines and shapes of two programs' SVG, ours and the other engraver's.
"""

import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass, field

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
NUMBER = r"-?\d+(?:\.\d+)?"
ACCIDENTALS = {"E260": "flat", "E261": "natural", "E262": "sharp", "E263": "double sharp", "E264": "double flat"}
OURS = {"accidentalFlat": "flat", "accidentalNatural": "natural", "accidentalSharp": "sharp",
        "accidentalDoubleSharp": "double sharp", "accidentalDoubleFlat": "double flat"}


@dataclass
class Head:
    step: int
    accidental: str | None = None
    ledgers: int = 0
    stem: str | None = None
    beams: int = 0
    bar: int = 0
    # Which group of a common beam it belongs to, by the place of the group's first head; none alone.
    group: int | None = None


@dataclass
class Staff:
    """Shapes of one system, in its own units."""

    top: float = 0.0
    space: float = 1.0
    heads: list = field(default_factory=list)  # (x, width, y)
    accidentals: list = field(default_factory=list)  # (x, y, name)
    ledgers: list = field(default_factory=list)  # (left, right)
    stems: list = field(default_factory=list)  # (x, top, bottom)
    beams: list = field(default_factory=list)  # points
    bars: list = field(default_factory=list)  # x


def numbers(text):
    return [float(n) for n in re.findall(NUMBER, text or "")]


def covers(beam, x, slack):
    xs = [p[0] for p in beam]
    return min(xs) - slack <= x <= max(xs) + slack


def height(beam, x):
    """Middle of a beam at a place, between its left and its right edge."""
    middles = {}
    for px in (min(p[0] for p in beam), max(p[0] for p in beam)):
        ys = [p[1] for p in beam if p[0] == px]
        middles[px] = sum(ys) / len(ys)
    (left, a), (right, b) = sorted(middles.items())
    return a + (b - a) * (x - left) / (right - left)


def read(staff, first, first_bar):
    """Heads from left to right; `first` numbers them on from the systems before."""
    heads, stems_of = [], []
    space = staff.space
    found = sorted(staff.heads)
    for x, width, y in found:
        head = Head(step=round((staff.top + 4 * space - y) / (space / 2)))
        head.bar = first_bar + sum(1 for bar in staff.bars if bar < x)
        middle = x + width / 2
        same = [y2 for left, right, y2 in staff.ledgers if left < middle < right]
        # Only lines between the staff and the head are this head's.
        head.ledgers = sum(1 for y2 in same if min(y, staff.top) - 0.1 * space <= y2 <= max(y, staff.top + 4 * space) + 0.1 * space)
        touching = [
            s
            for s in staff.stems
            if x - 0.2 * space <= s[0] <= x + width + 0.2 * space
            and min(abs(s[1] - y), abs(s[2] - y)) < 0.6 * space
        ]
        stem = touching[0] if touching else None
        if stem:
            head.stem = "up" if abs(stem[2] - y) < abs(stem[1] - y) else "down"
        stems_of.append(stem)
        heads.append(head)
    for x, y, name in staff.accidentals:
        near = [i for i, (hx, _, hy) in enumerate(found) if hx > x and abs(hy - y) < 0.3 * space]
        assert near and heads[near[0]].accidental is None, "an accidental without a head"
        heads[near[0]].accidental = name
    groups, levels = {}, [[] for _ in heads]
    for beam in staff.beams:
        on = [i for i, stem in enumerate(stems_of) if stem and covers(beam, stem[0], 0.15 * space)]
        assert on, "a beam without stems"
        for index in on:
            levels[index].append(height(beam, stems_of[index][0]))
            for other in on:
                groups[index] = min(groups.get(index, index), other)
    for head, ys in zip(heads, levels):
        # A beam may be drawn in several pieces that meet at a stem.
        ys.sort()
        head.beams = sum(1 for i, y in enumerate(ys) if i == 0 or y - ys[i - 1] > 0.3 * space)
    # A beam that is joined to another by a stem is of the same group.
    for index in sorted(groups):
        if groups[index] != index:
            groups[index] = groups.get(groups[index], groups[index])
        heads[index].group = first + groups[index]
    return heads


def ours(paths, line):
    """Heads of a line from the pages of a sheet."""
    heads, bars = [], 0
    for path in paths:
        root = ElementTree.parse(path).getroot()
        for block in root.iter(f"{SVG}g"):
            if block.get("data-line") != str(line) or block.get("role") != "img":
                continue
            staff = our_staff(block)
            heads += read(staff, len(heads), bars)
            bars += len(staff.bars)
    return heads


def our_staff(block):
    staff, lines = Staff(), []
    for element in block:
        kind = element.get("class")
        if element.tag == f"{SVG}use":
            x, y, scale = numbers(element.get("transform"))
            name = element.get("href")[1:]
            if kind == "head":
                width = 1.688 if name == "noteheadWhole" else 1.18
                staff.heads.append((x, width * scale, y))
            elif kind == "accidental":
                staff.accidentals.append((x, y, OURS[name]))
        elif element.tag == f"{SVG}path":
            points = numbers(element.get("d"))
            pairs = list(zip(points[::2], points[1::2]))
            if kind == "staff-line":
                lines.append(pairs[0][1])
            elif kind == "ledger-line":
                staff.ledgers.append((pairs[0][0], pairs[1][0], pairs[0][1]))
            elif kind == "stem":
                ys = [p[1] for p in pairs]
                staff.stems.append((pairs[0][0], min(ys), max(ys)))
            elif kind == "beam":
                staff.beams.append(pairs)
            elif kind == "bar-line":
                staff.bars.append(pairs[0][0])
    staff.top, staff.space = min(lines), (max(lines) - min(lines)) / 4
    # Double bar lines are one.
    staff.bars.sort()
    staff.bars = [x for i, x in enumerate(staff.bars) if i == 0 or x - staff.bars[i - 1] > staff.space]
    return staff


def others(svg):
    """Heads of a line from the other engraver's drawing, which is one long system."""
    root = ElementTree.fromstring(svg)
    staff, lines = Staff(), []
    named = lambda element, name: name in (element.get("class") or "").split()
    for element in root.iter(f"{SVG}g"):
        if named(element, "staff"):
            lines += [numbers(p.get("d"))[1] for p in element.findall(f"{SVG}path")]
        elif named(element, "notehead"):
            for use in element.iter(f"{SVG}use"):
                x, y, scale, _ = numbers(use.get("transform"))
                whole = use.get(HREF).startswith("#E0A2")
                staff.heads.append((x, (422 if whole else 295) * scale, y))
        elif named(element, "accid"):
            for use in element.iter(f"{SVG}use"):
                x, y, _, _ = numbers(use.get("transform"))
                staff.accidentals.append((x, y, ACCIDENTALS[use.get(HREF)[1:5]]))
        elif named(element, "ledgerLines"):
            for path in element.iter(f"{SVG}path"):
                left, y, right, _ = numbers(path.get("d"))
                staff.ledgers.append((left, right, y))
        elif named(element, "stem"):
            for path in element.findall(f"{SVG}path"):
                x, one, _, other = numbers(path.get("d"))
                staff.stems.append((x, min(one, other), max(one, other)))
        elif named(element, "beam"):
            for shape in element.findall(f"{SVG}polygon"):
                points = numbers(shape.get("points"))
                staff.beams.append(list(zip(points[::2], points[1::2])))
        elif named(element, "barLine"):
            paths = element.findall(f"{SVG}path")
            if paths:
                staff.bars.append(numbers(paths[0].get("d"))[0])
    ys = sorted(set(lines))
    staff.top, staff.space = ys[0], (ys[-1] - ys[0]) / 4
    staff.bars.sort()
    return read(staff, 0, 0)
