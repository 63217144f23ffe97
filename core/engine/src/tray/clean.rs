//! The line along which an opening without flaps is cut out: a rectangle or a curve, with finger notches or without.
//!
//! **Input:** the rectangle that an opening fills and its [`Form`]. **Output:** one outline, counter-clockwise, in the
//! frame of the rectangle. The opening and its notches are symmetrical along and across, so only a quarter is computed:
//! from the middle of a short edge round to the middle of a long one. Arcs stay arcs up to the exporters; only solids, the
//! flat check, FOLD and glTF use chords.
//!
//! ```text
//!               .--.
//!      +-------'    '-------+          notch: on a straight edge a half circle; on a curve the outer part of a
//!      |         ·          |  <-      circle about the curve's middle, which cuts the curve
//!      +-------.    .-------+
//!               '--'
//! ```

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use crate::geometry::{Corner, Frame, Outline, Point, TOUCH_MM, Vector};
use crate::oval::{self, Arc};
use crate::values::{Form, Rect, lies_along};

/// The outline of the opening.
pub(super) fn outline(rect: &Rect, form: Form) -> Outline {
    let lies_along = lies_along(rect.length, rect.width);
    let half = if lies_along {
        Vector::new(rect.length / 2.0, rect.width / 2.0)
    } else {
        Vector::new(rect.width / 2.0, rect.length / 2.0)
    };
    let drawn = match form {
        // A size of 0 is refused later, or is a slit.
        _ if half.y < TOUCH_MM => return Outline::straight(rect.corners()),
        Form {
            curved: true,
            finger,
        } => curve(half, finger),
        Form {
            finger: Some(finger),
            ..
        } => rectangle(half, finger / 2.0).mirrored(),
        Form { finger: None, .. } => return Outline::straight(rect.corners()),
    };
    let x_axis = if lies_along {
        Vector::new(1.0, 0.0)
    } else {
        Vector::new(0.0, 1.0)
    };
    drawn.placed(&Frame {
        origin: rect.centre,
        x_axis,
    })
}

/// The oval that fills a rectangle.
pub(crate) fn oval_in(rect: &Rect) -> Outline {
    let form = Form {
        curved: true,
        finger: None,
    };
    outline(rect, form)
}

/// A quarter of an outline with two axes of symmetry, from the first axis to the second.
struct Quarter {
    corners: Vec<Point>,
    /// The angles of its arcs: to the first corner, between corners, and from the last one to the second axis.
    swept: Vec<f64>,
}

impl Quarter {
    /// The whole outline.
    fn mirrored(mut self) -> Outline {
        let last = self.corners.len();
        // An arc that crosses an axis continues as far on the other side.
        self.swept[0] *= 2.0;
        self.swept[last] *= 2.0;
        let corner = |at: Point, swept: f64| Corner {
            at,
            bulge: (swept / 4.0).steady_tan(),
        };
        let right = self.corners.iter().zip(&self.swept[1..]);
        let right = right.map(|(&at, &after)| corner(at, after));
        let left = self.corners.iter().zip(&self.swept[..last]).rev();
        let left = left.map(|(at, &before)| corner(Point::new(-at.x, at.y), before));
        let upper: Vec<Corner> = right.chain(left).collect();
        let lower = upper.iter().map(|corner| Corner {
            at: Point::new(-corner.at.x, -corner.at.y),
            ..*corner
        });
        Outline::new(upper.iter().copied().chain(lower).collect())
    }
}

/// A rectangle with notches of that radius.
fn rectangle(half: Vector, radius: f64) -> Quarter {
    let corner = Point::new(half.x, half.y);
    let notch = Point::new(radius, half.y);
    if corner.touches(notch) {
        return Quarter {
            corners: vec![notch],
            swept: vec![0.0, FRAC_PI_2],
        };
    }
    Quarter {
        corners: vec![corner, notch],
        swept: vec![0.0, 0.0, FRAC_PI_2],
    }
}

/// An ellipse with or without notches.
fn curve(half: Vector, finger: Option<f64>) -> Outline {
    let arcs = oval::quarter(half.x, half.y);
    if let Some(notched) = finger.and_then(|finger| notched(&arcs, half, finger / 2.0)) {
        return notched.mirrored();
    }
    if arcs.len() > 1 {
        return along(&arcs, half.x, Point::new(0.0, half.y)).mirrored();
    }
    // A circle is divided only into two halves, each with the tangent of a quarter of 180 degrees.
    let side = |x: f64| Corner {
        at: Point::new(x, 0.0),
        bulge: 1.0,
    };
    Outline::new(vec![side(half.x), side(-half.x)])
}

/// The curve up to the circle about its top, then the circle; none if the whole quarter lies in the circle.
fn notched(arcs: &[Arc], half: Vector, radius: f64) -> Option<Quarter> {
    let top = Point::new(0.0, half.y);
    // Along its length the curve only comes nearer to the top.
    let starts = starts(arcs, half.x);
    let cut = starts
        .iter()
        .rposition(|&start| (start - top).length() > radius)?;
    let arc = arcs[cut];
    // Derived: for the place top + q on both circles, with d the unit way from the arc's centre to the top and D its
    // length, q · d = (r² - D² - radius²) / (2 D), and q is as long as the radius.
    let way = top - arc.centre;
    let (unit, length) = (way.unit(), way.length());
    let towards =
        ((arc.radius - length) * (arc.radius + length) - radius * radius) / (2.0 * length);
    let aside = (radius * radius - towards * towards).max(0.0).sqrt();
    let meet = top + unit * towards + unit.right() * aside;
    let mut quarter = along(&arcs[..=cut], half.x, meet);
    quarter.corners.push(meet);
    quarter.swept.push(meet.x.steady_atan2(meet.y - top.y));
    Some(quarter)
}

/// The arcs one after the other, from (`long`, 0) to a point on the last of them.
fn along(arcs: &[Arc], long: f64, end: Point) -> Quarter {
    let starts = starts(arcs, long);
    let ends = starts.iter().skip(1).chain([&end]);
    let swept = arcs.iter().zip(&starts).zip(ends).map(|((arc, from), to)| {
        let (from, to) = (*from - arc.centre, *to - arc.centre);
        from.cross(to).steady_atan2(from.dot(to))
    });
    Quarter {
        swept: swept.collect(),
        corners: starts[1..].to_vec(),
    }
}

/// The start of each arc.
fn starts(arcs: &[Arc], long: f64) -> Vec<Point> {
    let joints = arcs.windows(2).map(|pair| pair[0].meets(&pair[1]));
    std::iter::once(Point::new(long, 0.0))
        .chain(joints)
        .collect()
}
