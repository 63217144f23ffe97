//! The card as figures need it: panels with their edges as chords, divided into cut stretches and creased ones.
//!
//! Given the document; gives for every panel its rings in the flat frame, the stretches of them that are cut, and the side
//! of its crease on which it lies. An edge that is a crease belongs to the panel that it moves, once.

use traywright_document::space::{Vec3, between, minus, plus};
use traywright_document::{
    self as document, Chords, Contour, Document, Hinge, Point, Pose, Stage, Vector,
};

/// How closely the chords of a figure follow an arc.
// Source: common practice, none published: 48 chords of a circle are seen as round on paper.
pub(crate) const CHORDS: Chords = Chords::Spanning(7.5);

/// A contour as corners, arcs as chords.
pub(crate) fn chords(contour: &Contour) -> Vec<Point> {
    contour.corners(CHORDS)
}

/// All panels.
#[derive(Clone, Debug)]
pub(crate) struct Card<'d> {
    document: &'d Document,
    pub(crate) panels: Vec<Panel>,
}

/// One panel.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    /// Its outline, then its holes.
    pub(crate) rings: Vec<Vec<Point>>,
    /// What is cut of its rings.
    pub(crate) cuts: Vec<[Point; 2]>,
    /// Its crease; none for the root.
    pub(crate) hinge: Option<Hinge>,
    /// How far it reaches from its crease.
    pub(crate) reach: f64,
}

impl<'d> Card<'d> {
    /// Whether other panels hang on the far half of a panel, so that it carries them outwards.
    pub(crate) fn carries_outwards(&self, panel: usize) -> bool {
        let Some(own) = self.panels[panel].hinge else {
            return false;
        };
        let half = self.panels[panel].reach / 2.0;
        let mut others = self.panels.iter().filter_map(|panel| panel.hinge);
        others.any(|other| {
            let far = |end: Point| own.beyond(end) > half;
            other.parent == panel && other.line.into_iter().all(far)
        })
    }

    /// The document whose card it is.
    pub(crate) fn document(&self) -> &'d Document {
        self.document
    }

    /// The card of a document.
    pub(crate) fn of(document: &'d Document) -> Card<'d> {
        let panel = |(index, panel): (usize, &document::Panel)| {
            let rings: Vec<Vec<Point>> = panel.contours().map(chords).collect();
            let reach = panel.hinge.map_or(0.0, |hinge| {
                let beyond = rings[0].iter().map(|&point| hinge.beyond(point));
                beyond.fold(0.0, f64::max)
            });
            Panel {
                rings,
                cuts: document.cut_edges(index, CHORDS),
                hinge: panel.hinge,
                reach,
            }
        };
        Card {
            document,
            panels: document.panels.iter().enumerate().map(panel).collect(),
        }
    }

    /// Where every panel stands at a stage.
    pub(crate) fn poses(&self, stage: &Stage) -> Vec<Pose> {
        stage.poses(&self.document.panels)
    }
}

impl Panel {
    /// The first axis of its own frame in the flat frame, one long: along its crease. Items lie along it.
    pub(crate) fn first_axis(&self) -> Vector {
        let [from, to] = match self.hinge {
            Some(hinge) => hinge.line,
            None => return Vector::new(1.0, 0.0),
        };
        (to - from).unit()
    }

    /// The middle of its crease, or of its outline.
    pub(crate) fn root(&self) -> Vec3 {
        match self.hinge {
            Some(hinge) => {
                let [from, to] = hinge.line.map(Point::in_space);
                between(from, to, 0.5)
            }
            None => {
                let count = self.rings[0].len() as f64;
                let sum = self.rings[0]
                    .iter()
                    .fold([0.0; 3], |sum, &point| plus(sum, point.in_space(), 1.0));
                sum.map(|part| part / count)
            }
        }
    }
}

impl Panel {
    /// Whether a place on its plane lies within the rectangle around its outline, when it stands so.
    pub(crate) fn frames(&self, pose: &Pose, place: Vec3) -> bool {
        let own = pose.turn_back(minus(place, pose.shift));
        let within = |at: f64, side: fn(&Point) -> f64| {
            let sides = self.rings[0].iter().map(side);
            let least = sides.clone().fold(f64::INFINITY, f64::min);
            (least..=sides.fold(f64::NEG_INFINITY, f64::max)).contains(&at)
        };
        within(own[0], |point| point.x) && within(own[1], |point| point.y)
    }
}
