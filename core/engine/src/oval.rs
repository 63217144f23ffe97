//! An ellipse as circular arcs that join tangentially, so that every machine that can cut circles can cut it.
//!
//! **Input:** the two half axes. **Output:** the arcs of a quarter; the other three are its mirror images. The arcs are
//! outside the ellipse by at most [`WIDEST_MM`] and touch it at its four vertices, so that an oval item always fits.
//!
//! A curve is described by its extent in the direction of each unit normal n: that of the ellipse is known, and that of
//! a circle about c with radius r is c · n + r. The difference is the excess; its maximum is the distance of the two
//! curves. The arcs are found from the long vertex to the short one, and stay in a band of [`WIDEST_MM`] outside the
//! ellipse. Each touches the ellipse, rises to the outer edge of the band, and turns back towards the ellipse. Before it
//! would cross the ellipse, the next, larger arc takes over tangentially and touches the ellipse again.
//!
//! ```text
//!    band    ------.-------.-------.---------
//!                /   \   /   \   /   \
//!    ellipse ---'-----\-'-----\-'------`------
//!         long vertex  touch   touch  short vertex
//! ```

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use crate::geometry::{Point, TOUCH_MM, Vector};

/// Maximum distance of the arcs from the ellipse.
// Source: core/CONTRACT.md, "Job file": at most 0.05 mm; what is left of it is for the rounding of files to 0.0001 mm.
const WIDEST_MM: f64 = 0.0495;

/// Maximum number of arcs tried for a quarter.
// Derived: 5000 x 1000 mm takes 16, and the count grows as the third root of the size; the longest length of the
// language, 1e6 mm, stays below 100.
const MOST_ARCS: usize = 200;

/// Bisections of a range of angles or radii. They only place the arcs in the band; touching and joining are exact.
// Derived: 2^-24 of a quarter turn moves the edge of the band by less than 1e-6 of its width.
const HALVINGS: usize = 24;

/// Bisections of the band once the number of arcs is known.
const BAND_HALVINGS: usize = 10;

/// A circle of which a part is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arc {
    pub(crate) centre: Point,
    pub(crate) radius: f64,
}

impl Arc {
    /// The arc that touches the ellipse from outside at a vertex of the first axis.
    fn at_long_vertex(ellipse: &Ellipse, radius: f64) -> Arc {
        Arc {
            centre: Point::new(ellipse.long - radius, 0.0),
            radius,
        }
    }

    /// The arc that touches the ellipse from outside at a vertex of the second axis.
    fn at_short_vertex(ellipse: &Ellipse, radius: f64) -> Arc {
        Arc {
            centre: Point::new(0.0, ellipse.short - radius),
            radius,
        }
    }

    /// The point where it joins the next, larger arc.
    pub(crate) fn meets(&self, next: &Arc) -> Point {
        self.centre + (self.centre - next.centre).unit() * self.radius
    }
}

/// The arcs of the quarter from (`long`, 0) to (0, `short`), the first and the last with their centre on an axis; one
/// arc for a circle. Each is larger than the one before and encloses it.
pub(crate) fn quarter(long: f64, short: f64) -> Vec<Arc> {
    let ellipse = Ellipse { long, short };
    if (long - short).abs() < TOUCH_MM {
        return vec![Arc::at_long_vertex(&ellipse, long)];
    }
    let two = ellipse.two_arcs();
    let peak = ellipse.highest(&two[0], 0.0);
    if peak.is_some_and(|peak| ellipse.excess(&two[0], peak) <= WIDEST_MM) {
        return two;
    }
    let fewest = match ellipse.march(WIDEST_MM, MOST_ARCS) {
        March::Closed(arcs) => arcs.len(),
        March::Past(count) => count + 1,
        March::Short => MOST_ARCS,
    };
    (fewest..MOST_ARCS)
        .find_map(|count| ellipse.closest(count))
        .unwrap_or(two)
}

/// An ellipse about the origin by its half axes, the longer one along x.
struct Ellipse {
    long: f64,
    short: f64,
}

/// The end of a march.
enum March {
    /// At the short vertex, with an arc that touches it.
    Closed(Vec<Arc>),
    /// Beyond the short vertex: the last of this many arcs passes outside it without touching it.
    Past(usize),
    /// Before the short vertex: there were too few arcs.
    Short,
}

impl Ellipse {
    /// The point with this eccentric angle: 0 at the long vertex, a quarter turn at the short one.
    fn place(&self, angle: f64) -> Point {
        let (sin, cos) = angle.steady_sin_cos();
        Point::new(self.long * cos, self.short * sin)
    }

    /// The outward normal there, not of unit length.
    fn outwards(&self, angle: f64) -> Vector {
        let (sin, cos) = angle.steady_sin_cos();
        Vector::new(self.short * cos, self.long * sin)
    }

    /// The radius of curvature there.
    // Source: the ellipse x = a cos t, y = b sin t has the radius (a² sin² t + b² cos² t)^(3/2) / (a b).
    fn radius(&self, angle: f64) -> f64 {
        let length = self.outwards(angle).length();
        length * length * length / (self.long * self.short)
    }

    /// How much farther an arc's circle extends than the ellipse, along the normal there.
    fn excess(&self, arc: &Arc, angle: f64) -> f64 {
        let normal = self.outwards(angle).unit();
        (arc.centre - self.place(angle)).dot(normal) + arc.radius
    }

    /// Derivative of the excess, per radian of the normal's angle.
    fn slope(&self, arc: &Arc, angle: f64) -> f64 {
        let normal = self.outwards(angle).unit();
        normal.cross(arc.centre - self.place(angle))
    }

    /// The angle after the touching point at which an arc's excess is greatest; none if it grows up to the short
    /// vertex.
    fn highest(&self, arc: &Arc, touch: f64) -> Option<f64> {
        let falls = arc.centre.x > 0.0;
        falls.then(|| halved(touch, FRAC_PI_2, |angle| self.slope(arc, angle) > 0.0).0)
    }

    /// The larger arc that encloses a given one and touches the ellipse where the given one is inside it.
    // Derived: with e the excess of the given arc and e' its slope there, a circle of radius R that touches the ellipse
    // has its centre at distance R - r from the given one when R = r - e / 2 - e'² / (2 e).
    fn embracing(&self, arc: &Arc, angle: f64) -> Arc {
        let (excess, slope) = (self.excess(arc, angle), self.slope(arc, angle));
        let radius = arc.radius - excess / 2.0 - slope * slope / (2.0 * excess);
        Arc {
            centre: self.place(angle) + -self.outwards(angle).unit() * radius,
            radius,
        }
    }

    /// The quarter as two arcs, as near to the ellipse as two can be outside it: the larger one osculates.
    // Derived: radii a² / b and R with (a - R)² + (b - a² / b)² = (a² / b - R)².
    fn two_arcs(&self) -> Vec<Arc> {
        let (long, short) = (self.long, self.short);
        vec![
            Arc::at_long_vertex(self, short * (long + short) / (2.0 * long)),
            Arc::at_short_vertex(self, long * long / short),
        ]
    }

    /// This number of arcs as near to the ellipse as possible; none if the limit needs more arcs.
    fn closest(&self, count: usize) -> Option<Vec<Arc>> {
        let (mut narrow, mut wide) = (0.0, WIDEST_MM);
        let mut closest = None;
        for _ in 0..BAND_HALVINGS {
            let band = (narrow + wide) / 2.0;
            match self.march(band, count) {
                March::Short => narrow = band,
                March::Closed(arcs) if arcs.len() == count => (wide, closest) = (band, Some(arcs)),
                March::Closed(_) | March::Past(_) => wide = band,
            }
        }
        closest
    }

    /// Marches from the long vertex with arcs that each go as far as the band allows.
    fn march(&self, band: f64, most: usize) -> March {
        let mut arc = self.first(band);
        let mut arcs = vec![arc];
        let mut touch = 0.0;
        while arcs.len() < most {
            if self.excess(&arc, FRAC_PI_2) >= 0.0 {
                return March::Past(arcs.len());
            }
            let closing = self.embracing(&arc, FRAC_PI_2).radius;
            if closing >= self.radius(FRAC_PI_2) {
                arcs.push(Arc::at_short_vertex(self, closing));
                return March::Closed(arcs);
            }
            (arc, touch) = self.next(&arc, touch, band);
            arcs.push(arc);
        }
        March::Short
    }

    /// The largest arc around the long vertex that stays in the band.
    fn first(&self, band: f64) -> Arc {
        let least = self.radius(0.0);
        let most = self.two_arcs()[0].radius;
        let stays = |radius: f64| self.stays(&Arc::at_long_vertex(self, radius), 0.0, band);
        Arc::at_long_vertex(self, halved(least, most, stays).0)
    }

    /// The arc after the given one, which touches the ellipse at `touch`, and the angle where it touches.
    fn next(&self, arc: &Arc, touch: f64, band: f64) -> (Arc, f64) {
        let peak = self.highest(arc, touch).unwrap_or(FRAC_PI_2);
        let (crossing, _) = halved(peak, FRAC_PI_2, |angle| self.excess(arc, angle) > 0.0);
        // The nearer to the crossing an arc touches, the larger it is and the higher it rises after that.
        let too_high = |angle: f64| {
            if self.excess(arc, angle) >= 0.0 {
                return true;
            }
            let next = self.embracing(arc, angle);
            next.radius > self.radius(angle) && !self.stays(&next, angle, band)
        };
        let (_, touch) = halved(crossing, FRAC_PI_2, too_high);
        (self.embracing(arc, touch), touch)
    }

    /// Whether an arc rises no higher than the band and comes down again before the short vertex.
    fn stays(&self, arc: &Arc, touch: f64, band: f64) -> bool {
        let peak = self.highest(arc, touch);
        peak.is_some_and(|peak| self.excess(arc, peak) <= band)
    }
}

/// Bisects a range whose start satisfies `holds` and whose end does not: the last that does and the first that does
/// not.
fn halved(from: f64, to: f64, holds: impl Fn(f64) -> bool) -> (f64, f64) {
    let (mut last, mut first) = (from, to);
    for _ in 0..HALVINGS {
        let middle = (last + first) / 2.0;
        if holds(middle) {
            last = middle;
        } else {
            first = middle;
        }
    }
    (last, first)
}

#[cfg(test)]
mod tests;
