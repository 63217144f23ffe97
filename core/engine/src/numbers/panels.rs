//! Sizes and shapes of panels, with the crease rule: what an author measures on the folded tray becomes crease to crease.

use std::rc::Rc;

use super::shape::{CornerCut, PanelShape, ShapeCorner, Trimmed, edges_moved_in};
use super::{Key, Known, Numbers, Stop};
use crate::finding::Fault;
use crate::formula::Value;
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::style::graph::{Carrier, Hang};
use crate::style::names::Scope;
use crate::style::text::{HingedEntry, Inset, Measured, PanelEntry, Sense, Size, Trim};
use crate::style::written::{Name, Written};

impl<'a> Numbers<'a> {
    /// Whether a panel exists in this job: its own condition and that of what carries it.
    pub(crate) fn panel_exists(&mut self, panel: usize) -> Result<bool, Stop> {
        let Some(hang) = self.graph.members[panel].hangs.clone() else {
            return Ok(true);
        };
        let carried = match hang.on {
            Carrier::Panel(parent) => self.panel_exists(parent)?,
            Carrier::Opening(opening) => self.opening_exists(opening)?,
        };
        if !carried {
            return Ok(false);
        }
        let entry = self.hinged(panel);
        let exists = self.figure(Key::PanelExists(panel), |numbers| {
            numbers
                .holds(entry.when.as_ref(), Scope::Style)
                .map(Value::Truth)
        })?;
        Ok(exists == Value::Truth(true))
    }

    /// Angle of a hung panel's finished fold; positive folds the drawn face inwards.
    pub(crate) fn fold_deg(&mut self, panel: usize) -> Result<f64, Stop> {
        let entry = self.hinged(panel);
        let Some(written) = &entry.angle else {
            return Ok(if entry.sense == Sense::Valley {
                90.0
            } else {
                -90.0
            });
        };
        let angle = self.figure(Key::Angle(panel), |numbers| {
            numbers.value(written, Scope::Panel(panel))
        })?;
        let angle = angle
            .angle()
            .expect("kinds were checked when the style was read");
        if angle <= 0.0 || angle >= 180.0 {
            let message = format!("this fold is {angle} degrees");
            let label = "more than 0 and less than 180 degrees";
            return Err(Stop::fault(Fault::new(
                written.place.clone(),
                message,
                label,
            )));
        }
        Ok(if entry.sense == Sense::Valley {
            angle
        } else {
            -angle
        })
    }

    /// Flat size of a hung panel away from its crease.
    pub(crate) fn reach(&mut self, panel: usize) -> Result<f64, Stop> {
        let entry = self.hinged(panel);
        let value = self.figure(Key::Reach(panel), |numbers| {
            match (&entry.reach, &entry.outline) {
                (Some(size), _) => {
                    let creases = [vec![panel], numbers.hung(Carrier::Panel(panel), "far")?];
                    numbers
                        .flat(size, Scope::Panel(panel), &creases)
                        .map(Value::Length)
                }
                (None, outline) => {
                    let corners = outline
                        .as_ref()
                        .expect("a panel without a reach has an outline");
                    let heights = numbers.places(corners, Scope::Panel(panel))?;
                    Ok(Value::Length(
                        heights.iter().map(|point| point.y).fold(0.0, f64::max),
                    ))
                }
            }
        })?;
        Ok(value.length().expect("a reach is a length"))
    }

    /// Where the crease of a hung panel lies on its edge: its start from the edge's first end, and its length.
    pub(crate) fn crease(&mut self, panel: usize) -> Result<(f64, f64), Stop> {
        let known = self.by_need(Key::Crease(panel), |numbers| {
            let edge = numbers.edge_length(panel)?;
            let entry = numbers.hinged(panel);
            let [right, left] = numbers.insets(panel)?;
            let Some(span) = &entry.span else {
                return Ok(Known::Pair(
                    right.unwrap_or(0.0),
                    edge - right.unwrap_or(0.0) - left.unwrap_or(0.0),
                ));
            };
            let span = numbers.amount(span, Scope::Panel(panel))?;
            let start = match (right, left) {
                (Some(right), _) => right,
                (None, Some(left)) => edge - left - span,
                (None, None) => (edge - span) / 2.0,
            };
            Ok(Known::Pair(start, span))
        })?;
        let Known::Pair(start, span) = known else {
            unreachable!("a crease is kept as a pair, not as {known:?}")
        };
        Ok((start, span))
    }

    /// How far the crease stays away from both ends of its edge: at the right flank, which is the edge's first end, and
    /// at the left one; none where the style says nothing.
    fn insets(&mut self, panel: usize) -> Result<[Option<f64>; 2], Stop> {
        match &self.hinged(panel).inset {
            Inset::None => Ok([None, None]),
            Inset::Both(inset) => {
                let inset = self.amount(inset, Scope::Panel(panel))?;
                Ok([Some(inset), Some(inset)])
            }
            Inset::ByFlank(insets) => {
                let hang = self.hang(panel);
                let mut at = |flank: &str| {
                    insets
                        .get(flank)
                        .map(|inset| self.amount(inset, Scope::Panel(panel)))
                        .transpose()
                };
                Ok([at(&hang.right)?, at(&hang.left)?])
            }
        }
    }

    /// Length of the edge that a panel hangs on.
    pub(crate) fn edge_length(&mut self, panel: usize) -> Result<f64, Stop> {
        let (from, to) = self.carrying_edge(panel)?;
        Ok((to - from).length())
    }

    /// Size of the carrying opening square to the edge that a panel hangs on.
    pub(super) fn across(&mut self, panel: usize) -> Result<f64, Stop> {
        let hang = self.hang(panel);
        let Carrier::Opening(opening) = hang.on else {
            unreachable!("`across` is only known on an opening's edge")
        };
        let (length, width) = self.opening_size(opening)?;
        let edges = &self.graph.openings[opening].edges;
        Ok(if hang.edge == edges[0] || hang.edge == edges[2] {
            width
        } else {
            length
        })
    }

    /// The edge that a panel hangs on, in the frame of the panel that bears it, with that panel on its left.
    pub(crate) fn carrying_edge(&mut self, panel: usize) -> Result<(Point, Point), Stop> {
        let hang = self.hang(panel);
        match hang.on {
            Carrier::Opening(opening) => self.opening_edge(opening, &hang.edge),
            Carrier::Panel(parent) => {
                let shape = self.shape(parent)?;
                shape.edge(&hang.edge).ok_or_else(|| {
                    let name = &self.sheet().panels.0[self.graph.members[panel].entry].0;
                    let message = format!(
                        "nothing straight is left of the edge that `{}` hangs on",
                        name.word
                    );
                    Stop::fault(Fault::new(
                        name.place.clone(),
                        message,
                        "trim that edge less",
                    ))
                })
            }
        }
    }

    /// The panels that hang on an edge in this job.
    pub(crate) fn hung(&mut self, carrier: Carrier, edge: &str) -> Result<Vec<usize>, Stop> {
        let candidates: Vec<usize> = self.graph.hung_on(carrier, edge).collect();
        let mut hung = Vec::new();
        for panel in candidates {
            if self.panel_exists(panel)? {
                hung.push(panel);
            }
        }
        Ok(hung)
    }

    /// The flat outline of a panel in its own frame.
    pub(crate) fn shape(&mut self, panel: usize) -> Result<Rc<PanelShape>, Stop> {
        let known = self.by_need(Key::Shape(panel), |numbers| {
            let entry = numbers.graph.members[panel].entry;
            let shape = match &numbers.sheet().panels.0[entry].1 {
                PanelEntry::Hinged(hinged) => numbers.hung_shape(panel, hinged)?,
                root => numbers.root_shape(root)?,
            };
            Ok(Known::Shape(Rc::new(shape)))
        })?;
        let Known::Shape(shape) = known else {
            unreachable!("a shape is kept as a shape, not as {known:?}")
        };
        Ok(shape)
    }

    /// Turns a size into crease to crease. `creases` are the panels that hang at its two ends, if any.
    fn flat(&mut self, size: &'a Size, scope: Scope, creases: &[Vec<usize>]) -> Result<f64, Stop> {
        let (written, allowance): (&Written, fn(&Self, f64) -> f64) = match size {
            Size::Flat(written) => return self.amount(written, scope),
            Size::Outside(written) => (written, |numbers, angle| -numbers.outer(angle)),
            Size::Inside(written) => (written, |numbers, angle| numbers.inner(angle)),
        };
        let mut length = self.amount(written, scope)?;
        let mut sense: Option<f64> = None;
        for end in creases {
            let Some(fold_deg) = self.shared_fold(end, written)? else {
                continue;
            };
            if sense.is_some_and(|sense| sense != fold_deg.signum()) {
                let label = "one end folds up and the other down: give its Flat size";
                return Err(Stop::fault(Fault::new(
                    written.place.clone(),
                    "a size between unlike folds has no outside",
                    label,
                )));
            }
            sense = Some(fold_deg.signum());
            length += allowance(self, fold_deg.abs());
        }
        Ok(length)
    }

    /// Turns a size that has a crease at one end into crease to edge.
    pub(crate) fn flat_with_crease(
        &mut self,
        size: &'a Size,
        scope: Scope,
        angle_deg: f64,
    ) -> Result<f64, Stop> {
        let (Size::Outside(written) | Size::Inside(written) | Size::Flat(written)) = size;
        let length = self.amount(written, scope)?;
        Ok(match size {
            Size::Outside(_) => length - self.outer(angle_deg),
            Size::Inside(_) => length + self.inner(angle_deg),
            Size::Flat(_) => length,
        })
    }

    /// The fold that all panels at one end of a size share, if there are any.
    fn shared_fold(&mut self, panels: &[usize], written: &Written) -> Result<Option<f64>, Stop> {
        let mut shared = None;
        for &panel in panels {
            let fold_deg = self.fold_deg(panel)?;
            if shared.is_some_and(|shared| shared != fold_deg) {
                let label = "the panels at one end fold by unlike angles: give its Flat size";
                return Err(Stop::fault(Fault::new(
                    written.place.clone(),
                    "this size has no one outside",
                    label,
                )));
            }
            shared = Some(fold_deg);
        }
        Ok(shared)
    }

    fn root_shape(&mut self, root: &'a PanelEntry) -> Result<PanelShape, Stop> {
        let edges = self.graph.members[0].edges.clone();
        let points = match root {
            PanelEntry::Rectangle { length, width } => {
                let side = |numbers: &mut Self, size, ends: [&str; 2]| -> Result<f64, Stop> {
                    let creases = [
                        numbers.hung(Carrier::Panel(0), ends[0])?,
                        numbers.hung(Carrier::Panel(0), ends[1])?,
                    ];
                    numbers.flat(size, Scope::Style, &creases)
                };
                let far = Point::new(
                    side(self, length, ["west", "east"])?,
                    side(self, width, ["south", "north"])?,
                );
                vec![
                    Point::ORIGIN,
                    Point::new(far.x, 0.0),
                    far,
                    Point::new(0.0, far.y),
                ]
            }
            PanelEntry::Regular { sides, across, .. } => {
                let (written, measured) = match across {
                    Size::Outside(written) => (written, Measured::Outside),
                    Size::Inside(written) => (written, Measured::Inside),
                    Size::Flat(written) => (written, Measured::Flat),
                };
                let across = self.amount(written, Scope::Style)?;
                self.moved_in(&regular(*sides, across), &edges, measured, &written.place)?
            }
            PanelEntry::Polygon { corners, measured } => {
                let points = self.places(corners, Scope::Style)?;
                let place = corners
                    .first()
                    .map_or(0..0, |(name, _, _)| name.place.clone());
                self.moved_in(&points, &edges, *measured, &place)?
            }
            PanelEntry::Hinged(_) => unreachable!("the root hangs on nothing"),
        };
        let least = points
            .iter()
            .fold(Vector::new(f64::INFINITY, f64::INFINITY), |least, point| {
                Vector::new(least.x.min(point.x), least.y.min(point.y))
            });
        let corners = points.iter().zip(edges).map(|(&point, edge)| ShapeCorner {
            at: point + -least,
            edge: Some(edge),
        });
        Ok(PanelShape::through(corners.collect()))
    }

    /// Moves every creased edge of the root by its allowance.
    fn moved_in(
        &mut self,
        points: &[Point],
        edges: &[String],
        measured: Measured,
        place: &std::ops::Range<usize>,
    ) -> Result<Vec<Point>, Stop> {
        if measured == Measured::Flat {
            return Ok(points.to_vec());
        }
        let mut inwards = Vec::new();
        for edge in edges {
            let hung = self.hung(Carrier::Panel(0), edge)?;
            let fold = hung
                .first()
                .map(|&panel| self.fold_deg(panel))
                .transpose()?;
            inwards.push(match (fold, measured) {
                (None, _) | (_, Measured::Flat) => 0.0,
                (Some(fold), Measured::Outside) => self.outer(fold.abs()),
                (Some(fold), Measured::Inside) => -self.inner(fold.abs()),
            });
        }
        edges_moved_in(points, &inwards).ok_or_else(|| {
            let label = "crease both edges of a straight run, or neither";
            Stop::fault(Fault::new(
                place.clone(),
                "two edges in one line move apart",
                label,
            ))
        })
    }

    fn hung_shape(&mut self, panel: usize, entry: &'a HingedEntry) -> Result<PanelShape, Stop> {
        let (_, span) = self.crease(panel)?;
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
        &mut self,
        panel: usize,
        entry: &'a HingedEntry,
        span: f64,
    ) -> Result<PanelShape, Stop> {
        let scope = Scope::Panel(panel);
        let reach = self.reach(panel)?;
        let wider = entry
            .wider
            .as_ref()
            .map_or(Ok(0.0), |wider| self.amount(wider, scope))?;
        let hang = self.hang(panel);
        let flanks = [hang.right.as_str(), hang.left.as_str()];
        let mut tapers = [0.0; 2];
        let mut cuts = [CornerCut::default(); 2];
        for (place, trim) in entry.trim.iter() {
            for side in 0..2 {
                let here = place.word == "far"
                    || place.word == flanks[side]
                    || place.word == format!("far {}", flanks[side]);
                match trim {
                    _ if !here => {}
                    Trim::Taper(by) => tapers[side] = self.amount(by, scope)?,
                    Trim::Bevel(by) => {
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
            wider,
            tapers,
            cuts,
            flanks,
        }
        .shape())
    }

    fn places(
        &mut self,
        corners: &'a [(Name, Written, Written)],
        scope: Scope,
    ) -> Result<Vec<Point>, Stop> {
        corners
            .iter()
            .map(|(_, x, y)| Ok(Point::new(self.amount(x, scope)?, self.amount(y, scope)?)))
            .collect()
    }

    /// The entry of a hung panel.
    pub(crate) fn hinged(&self, panel: usize) -> &'a HingedEntry {
        match &self.sheet().panels.0[self.graph.members[panel].entry].1 {
            PanelEntry::Hinged(hinged) => hinged,
            _ => unreachable!("only the root hangs on nothing"),
        }
    }

    pub(crate) fn hang(&self, panel: usize) -> Hang {
        self.graph.members[panel]
            .hangs
            .clone()
            .expect("only the root hangs on nothing")
    }
}

/// A regular polygon, its first edge the lowest, so far from one edge to the opposite one.
fn regular(sides: usize, across: f64) -> Vec<Point> {
    let step = std::f64::consts::TAU / sides as f64;
    // Derived: the corner lies on the circle whose radius is the apothem over the cosine of half a step.
    let radius = across / 2.0 / (step / 2.0).cos();
    let first = -std::f64::consts::FRAC_PI_2 - step / 2.0;
    (0..sides)
        .map(|corner| {
            let (sin, cos) = (first + step * corner as f64).sin_cos();
            let snap = |value: f64| if value.abs() < TOUCH_MM { 0.0 } else { value };
            Point::new(snap(radius * cos), snap(radius * sin))
        })
        .collect()
}
