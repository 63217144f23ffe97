//! Flat outlines of panels in their own frames, trims and crease allowances included.
//!
//! **Input:** a panel of the graph. **Output:** the polygon of its card. **Does not** join panels.

use std::rc::Rc;
use traywright_document::steady::Steady;

use super::shape::{CornerCut, PanelShape, ShapeCorner, Trimmed, edges_moved_in};
use super::{EvalError, Values};
use crate::finding::SourceError;
use crate::finding::SourceSpan;
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::style::graph::{HingeParent, MemberId};
use crate::style::names::Scope;
use crate::style::text::{HingedEntry, MeasuredOn, PanelEntry, Size, Trim};
use crate::style::written::{Name, Written};

impl<'a> Values<'a> {
    /// The flat outline of a panel in its own frame.
    pub(crate) fn shape(&self, panel: MemberId) -> Result<Rc<PanelShape>, EvalError> {
        self.get_or_compute(&self.memo.shapes, panel, || {
            let entry = self.graph.members[panel].entry;
            let shape = match &self.sheet().panels[entry].1 {
                PanelEntry::Hinged(hinged) => self.hung_shape(panel, hinged)?,
                PanelEntry::Rectangle { length, width } => {
                    self.root_shape(&self.rectangle(length, width)?)
                }
                PanelEntry::Regular { sides, across, .. } => {
                    self.root_shape(&self.regular(*sides, across)?)
                }
                PanelEntry::Polygon { corners, measured } => {
                    self.root_shape(&self.polygon(corners, *measured)?)
                }
            };
            Ok(Rc::new(shape))
        })
    }

    /// The root's shape through its corners, wherever they are.
    fn root_shape(&self, points: &[Point]) -> PanelShape {
        let least = lower_left(points);
        let edges = &self.graph.root().edges;
        let corners = points.iter().zip(edges).map(|(&point, edge)| ShapeCorner {
            at: point + -least,
            edge: Some(edge.clone()),
        });
        PanelShape::through(corners.collect())
    }

    fn rectangle(&self, length: &'a Size, width: &'a Size) -> Result<Vec<Point>, EvalError> {
        let side = |size, ends: [&str; 2]| -> Result<f64, EvalError> {
            let creases = [
                self.hung(HingeParent::Panel(MemberId::ROOT), ends[0])?,
                self.hung(HingeParent::Panel(MemberId::ROOT), ends[1])?,
            ];
            self.flat(size, Scope::Style, &creases)
        };
        let far = Point::new(
            side(length, ["west", "east"])?,
            side(width, ["south", "north"])?,
        );
        Ok(vec![
            Point::ORIGIN,
            Point::new(far.x, 0.0),
            far,
            Point::new(0.0, far.y),
        ])
    }

    fn regular(&self, sides: usize, across: &'a Size) -> Result<Vec<Point>, EvalError> {
        let (written, measured) = match across {
            Size::Outside(written) => (written, MeasuredOn::Outside),
            Size::Inside(written) => (written, MeasuredOn::Inside),
            Size::Flat(written) => (written, MeasuredOn::Flat),
        };
        let across = self.amount(written, Scope::Style)?;
        self.moved_in(&regular_polygon(sides, across), measured, &written.place)
    }

    fn polygon(
        &self,
        corners: &'a [(Name, Written, Written)],
        measured: MeasuredOn,
    ) -> Result<Vec<Point>, EvalError> {
        let points = self.places(corners, Scope::Style)?;
        let place = corners
            .first()
            .map_or(0..0, |(name, _, _)| name.place.clone());
        self.moved_in(&points, measured, &place)
    }

    /// Moves every creased edge of the root by its allowance.
    fn moved_in(
        &self,
        points: &[Point],
        measured: MeasuredOn,
        place: &SourceSpan,
    ) -> Result<Vec<Point>, EvalError> {
        if measured == MeasuredOn::Flat {
            return Ok(points.to_vec());
        }
        let mut inwards = Vec::new();
        let mut sense: Option<f64> = None;
        for edge in &self.graph.root().edges {
            let hung = self.hung(HingeParent::Panel(MemberId::ROOT), edge)?;
            let Some(fold) = self.shared_fold(&hung, place)? else {
                inwards.push(0.0);
                continue;
            };
            if sense.is_some_and(|sense| sense != fold.signum()) {
                let label = "one edge folds up and another down: give its Flat size";
                let message = "a size between unlike folds has no outside";
                return Err(EvalError::fault(SourceError::new(
                    place.clone(),
                    message,
                    label,
                )));
            }
            sense = Some(fold.signum());
            inwards.push(match measured {
                MeasuredOn::Outside => self.outer(fold.abs()),
                MeasuredOn::Inside => -self.inner(fold.abs()),
                MeasuredOn::Flat => 0.0,
            });
        }
        edges_moved_in(points, &inwards).ok_or_else(|| {
            let label = "crease both edges of a straight run, or neither";
            EvalError::fault(SourceError::new(
                place.clone(),
                "two edges in one line move apart",
                label,
            ))
        })
    }

    fn hung_shape(&self, panel: MemberId, entry: &'a HingedEntry) -> Result<PanelShape, EvalError> {
        let span = self.crease(panel)?.span;
        let half = span / 2.0;
        let Some(corners) = &entry.outline else {
            return self.trimmed_shape(panel, entry, span);
        };
        let places = self.places(corners, Scope::Panel(panel))?;
        let mut shape = vec![ShapeCorner {
            at: Point::new(-half, 0.0),
            edge: Some("near".to_owned()),
        }];
        shape.push(ShapeCorner {
            at: Point::new(half, 0.0),
            edge: None,
        });
        // Each written corner ends the edge it names when run clockwise; counter-clockwise that edge begins there.
        for ((name, _, _), at) in corners.iter().zip(places).rev() {
            shape.push(ShapeCorner {
                at,
                edge: Some(name.word.clone()),
            });
        }
        Ok(PanelShape::through(shape))
    }

    fn trimmed_shape(
        &self,
        panel: MemberId,
        entry: &'a HingedEntry,
        span: f64,
    ) -> Result<PanelShape, EvalError> {
        let scope = Scope::Panel(panel);
        let reach = self.reach(panel)?;
        let overhang = entry
            .overhang
            .as_ref()
            .map_or(Ok(0.0), |overhang| self.amount(overhang, scope))?;
        let (hang, _) = self.hinge(panel);
        let flanks = [hang.right.as_str(), hang.left.as_str()];
        let mut tapers = [0.0; 2];
        let mut cuts = [CornerCut::default(); 2];
        for (place, trim) in entry.trim.iter() {
            for side in 0..2 {
                let here = is_at(&place.word, flanks[side]);
                match trim {
                    _ if !here => {}
                    Trim::Taper(by) => tapers[side] = self.amount(by, scope)?,
                    Trim::Chamfer(by) => {
                        let by = self.amount(by, scope)?;
                        cuts[side] = CornerCut {
                            along: by,
                            down: by,
                            notch: false,
                        };
                    }
                    Trim::Notch(along, out) => {
                        cuts[side] = CornerCut {
                            along: self.amount(along, scope)?,
                            down: self.amount(out, scope)?,
                            notch: true,
                        };
                    }
                }
            }
        }
        Ok(Trimmed {
            span,
            reach,
            overhang,
            tapers,
            cuts,
            flanks,
        }
        .shape())
    }

    pub(super) fn places(
        &self,
        corners: &'a [(Name, Written, Written)],
        scope: Scope,
    ) -> Result<Vec<Point>, EvalError> {
        corners
            .iter()
            .map(|(_, x, y)| Ok(Point::new(self.amount(x, scope)?, self.amount(y, scope)?)))
            .collect()
    }
}

/// Whether a trim's `at` means this flank, its far corner or both far corners.
fn is_at(place: &str, flank: &str) -> bool {
    place == "far" || place.strip_prefix("far ").unwrap_or(place) == flank
}

/// The lower left corner of the extent of points.
fn lower_left(points: &[Point]) -> Vector {
    let start = Vector::new(f64::INFINITY, f64::INFINITY);
    points.iter().fold(start, |least, point| {
        Vector::new(least.x.min(point.x), least.y.min(point.y))
    })
}

/// A regular polygon with its first edge at the bottom and the given distance between opposite edges.
fn regular_polygon(sides: usize, across: f64) -> Vec<Point> {
    let step = std::f64::consts::TAU / sides as f64;
    // Derived: the corner lies on the circle whose radius is the apothem over the cosine of half a step.
    let radius = across / 2.0 / (step / 2.0).steady_cos();
    let first = -std::f64::consts::FRAC_PI_2 - step / 2.0;
    (0..sides)
        .map(|corner| {
            let (sin, cos) = (first + step * corner as f64).steady_sin_cos();
            let snap = |value: f64| if value.abs() < TOUCH_MM { 0.0 } else { value };
            Point::new(snap(radius * cos), snap(radius * sin))
        })
        .collect()
}
