"""The fewest circular arcs for a quarter of an ellipse, apart from the program.

The arcs join without a kink, stay outside the ellipse by at most a band, and touch it at both vertices. Given half axes on
the command line, it prints the count; without any, the table of the engine's own test. It needs Python alone.

An ellipse with half axes a > b reaches h(n) = sqrt(a^2 cos^2 n + b^2 sin^2 n) in the direction n; a circle reaches its
centre's part and r. Along arcs that join without a kink this reach, g, has no step and no kink, and g'' + g = r. So each
arc is a piece of g = r + p cos + q sin, and the excess g - h must stay between 0 and the band. As few arcs as possible
means that each reaches as far as it can: it rises to the edge of the band, and is left where the next arc, which comes
down to the ellipse and touches it, rises to the edge of the band again.
"""

import math
import sys

# Source: core/CONTRACT.md, "Job file": 0.05 mm, less 0.0005 mm for the rounding of files.
BAND = 0.0495
STEPS = 400
HALVINGS = 40


def halved(low, high, is_low):
    """Between two figures: the last for which a test holds, and the first for which it does not."""
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if is_low(middle) else (low, middle)
    return low, high


class Ellipse:
    def __init__(self, long, short):
        self.long, self.short = long, short
        # Directions crowd where the ellipse is flat, so they follow from even steps of the eccentric angle.
        angles = [math.pi / 2 * step / STEPS for step in range(STEPS)]
        self.directions = [math.atan2(long * math.sin(angle), short * math.cos(angle)) for angle in angles] + [math.pi / 2]

    def reach(self, n):
        return math.hypot(self.long * math.cos(n), self.short * math.sin(n))

    def slope(self, n):
        return (self.short**2 - self.long**2) * math.sin(n) * math.cos(n) / self.reach(n)

    def excess(self, arc, n):
        radius, at, value, slope = arc
        return radius + (value - radius) * math.cos(n - at) + slope * math.sin(n - at) - self.reach(n)

    def rate(self, arc, n):
        radius, at, value, slope = arc
        return (radius - value) * math.sin(n - at) + slope * math.cos(n - at) - self.slope(n)

    def turns(self, arc, start, falling):
        """Where the excess first turns from falling to rising after a direction, or from rising to falling."""
        before = start
        for n in self.directions:
            if n <= start:
                continue
            if (self.rate(arc, n) > 0) == falling:
                return halved(before, n, lambda at: (self.rate(arc, at) < 0) == falling)[0]
            before = n
        return None

    def peak(self, arc, start):
        """Where the excess is greatest after a direction from which it rises, and how great it is there."""
        at = self.turns(arc, start, falling=False)
        at = math.pi / 2 if at is None else at
        return at, self.excess(arc, at)

    def next_arc(self, arc, leave):
        """The arc that takes over there and touches the ellipse further on: the arc and where it touches."""
        value = self.excess(arc, leave) + self.reach(leave)
        slope = self.rate(arc, leave) + self.slope(leave)

        def lowest(radius):
            candidate = (radius, leave, value, slope)
            at = self.turns(candidate, leave, falling=True)
            at = math.pi / 2 if at is None else at
            return self.excess(candidate, at), at

        low, high = arc[0], arc[0] * 2
        while lowest(high)[0] < 0:
            high *= 2
        _, radius = halved(low, high, lambda radius: lowest(radius)[0] < 0)
        return (radius, leave, value, slope), lowest(radius)[1]

    def can_end(self, arc):
        """Whether the circle that touches the short vertex and encloses this arc's circle, touching it, is outside there."""
        radius, at, value, slope = arc
        x = (value - radius) * math.cos(at) - slope * math.sin(at)
        y = (value - radius) * math.sin(at) + slope * math.cos(at) - self.short
        if y + radius >= 0:
            return False
        # Circles about (x, y) and (0, -R), of radii r and R, touch inside: x^2 + (y + R)^2 = (R - r)^2.
        last = (radius**2 - x**2 - y**2) / (2 * (y + radius))
        return last >= self.long**2 / self.short

    def fewest(self):
        least = self.short**2 / self.long
        first, _ = halved(least, 1e9, lambda radius: self.peak((radius, 0.0, self.long, 0.0), 0.0)[1] < BAND)
        arc, touch, count = (first, 0.0, self.long, 0.0), 0.0, 1
        while True:
            top, _ = self.peak(arc, touch)
            if top > math.pi / 2 - 1e-9:
                return count + 1
            end, _ = halved(top, math.pi / 2, lambda n: self.excess(arc, n) > 0)
            count += 1
            if self.can_end(arc):
                return count

            def rises_less(leave):
                following, touch = self.next_arc(arc, leave)
                return self.peak(following, touch)[1] < BAND

            leave, _ = halved(top, end, rises_less)
            arc, touch = self.next_arc(arc, leave)


def main():
    table = [(2.5, 2.0), (26.0, 21.0), (49.0, 31.5), (49.0, 8.5), (200.0, 10.0), (2500.0, 500.0)]
    if len(sys.argv) == 3:
        table = [tuple(map(float, sys.argv[1:]))]
    for long, short in table:
        print(long, short, Ellipse(long, short).fewest())


if __name__ == "__main__":
    main()
