//! The one place where the engine's types become the document's.
//!
//! Given a [`CheckedTray`] and nothing else, gives the [`Document`] that exporters see. When the lines go onto the
//! outside of the card, the whole is seen from the other face: x and z change their sign, so every fold changes its
//! sense and nothing changes its size.

mod measured;

use traywright_document as document;
use traywright_document::{Contour, CreaseLine, Document, Edge, Extent, Flat};

use crate::checked::CheckedTray;
use crate::dimensions::{lay_out, name};
use crate::geometry::{Corner, Outline, Point};
use crate::job::DrawnFace;
use crate::measure::Measure;
use crate::steps::ActionKind;
use crate::tray::Slit;

impl CheckedTray {
    /// The finished tray in plain data.
    pub fn document(&self) -> Document {
        let job = &self.job;
        let flat = self.flat();
        Document {
            title: job.title.clone(),
            style: self.style.clone(),
            board: document::Board {
                name: job.board.name.clone(),
                caliper: job.board.caliper,
                hinge: job.board.hinge,
                grain: job.board.grain,
            },
            box_size: job.box_size,
            items: (0..job.items.len()).map(|item| self.item(item)).collect(),
            unit: job.unit,
            page: job.page.clone(),
            drawn_face: job.drawn_face,
            language: job.language.clone(),
            stands: self.stands,
            hand_step: self.hand_step(),
            flat,
            panels: (0..self.tray.panels.len())
                .map(|panel| self.panel(panel))
                .collect(),
            interlocks: self.interlocks(),
            steps: self.steps(),
            measures: self.report().measures.iter().map(measure).collect(),
            runs: self.runs.clone(),
            machine_options: job.machine_options,
        }
    }

    /// An item as it lies.
    fn item(&self, index: usize) -> document::Item {
        let openings = &self.tray.openings;
        let own = openings.iter().find(|opening| opening.item == Some(index));
        let lies = own.and_then(|opening| opening.item_as_it_lies(&self.job));
        let item = lies.unwrap_or_else(|| self.job.items[index].clone());
        document::Item {
            name: item.name,
            length: item.length,
            width: item.width,
            depth: item.depth,
            shape: item.shape,
            middle: own
                .filter(|opening| opening.panel == 0)
                .map(|opening| self.point(opening.rect.centre)),
            turned: own.is_some_and(|opening| opening.turned),
        }
    }

    /// -1 when the card is seen from its outside, 1 otherwise.
    fn sign(&self) -> f64 {
        if self.job.drawn_face == DrawnFace::Outside {
            -1.0
        } else {
            1.0
        }
    }

    /// A point as it is seen from the drawn face.
    fn point(&self, point: Point) -> Point {
        Point::new(self.sign() * point.x, point.y)
    }

    /// An outline seen from the drawn face, running as it did.
    fn contour(&self, outline: &Outline) -> Contour {
        match self.job.drawn_face {
            DrawnFace::Inside => contour(outline.edges(), true),
            DrawnFace::Outside => contour(self.mirrored(&outline.reversed()).edges(), true),
        }
    }

    /// An outline whose corners are seen from the drawn face.
    fn mirrored(&self, outline: &Outline) -> Outline {
        let mirrored = outline.corners().iter().map(|corner| Corner {
            at: self.point(corner.at),
            bulge: self.sign() * corner.bulge,
        });
        Outline::new(mirrored.collect())
    }

    /// An open run of corners seen from the drawn face.
    fn run(&self, corners: &[Corner]) -> Contour {
        let ends = corners.iter().zip(corners.iter().skip(1));
        let edges = ends.map(|(corner, next)| Edge {
            from: self.point(corner.at),
            to: self.point(next.at),
            bulge: self.sign() * corner.bulge,
        });
        contour(edges, false)
    }

    fn flat(&self) -> Flat {
        let mut flat = self.lines();
        flat.labels = name(&self.named(), &flat);
        flat.dimensions = lay_out(&self.measured(), &flat, self.job.unit);
        flat
    }

    /// The blank without measures.
    pub(crate) fn lines(&self) -> Flat {
        let blank = &self.blank;
        let crease = |crease: &crate::blank::Crease| CreaseLine {
            from: self.point(crease.from),
            to: self.point(crease.to),
            fold_deg: self.sign() * crease.fold_deg,
            panel: crease.panel,
        };
        Flat {
            extent: self.extent(blank.outline.points()),
            outline: self.contour(&blank.outline),
            holes: blank.holes.iter().map(|hole| self.contour(hole)).collect(),
            open_cuts: blank.open_cuts.iter().map(|cut| self.run(cut)).collect(),
            creases: blank.creases.iter().map(crease).collect(),
            labels: Vec::new(),
            dimensions: Vec::new(),
        }
    }

    /// The items' names with their openings, where there are several to be told apart.
    fn named(&self) -> Vec<(String, Extent)> {
        let named: Vec<(String, Extent)> = self
            .tray
            .openings
            .iter()
            .filter_map(|opening| {
                let name = self.job.items[opening.item?].name.clone();
                let frame = self.blank.panels[opening.panel].frame;
                let corners = opening.rect.corners().map(|corner| frame.place(corner));
                Some((name, self.extent(corners)))
            })
            .collect();
        if named.len() > 1 { named } else { Vec::new() }
    }

    /// The upright rectangle around points, seen from the drawn face.
    fn extent(&self, points: impl IntoIterator<Item = Point>) -> Extent {
        Extent::around(points.into_iter().map(|point| self.point(point)))
    }

    fn panel(&self, index: usize) -> document::Panel {
        let panel = &self.tray.panels[index];
        let flat = &self.blank.panels[index];
        document::Panel {
            name: panel.name.clone(),
            outline: self.contour(&flat.outline),
            holes: flat.holes.iter().map(|hole| self.contour(hole)).collect(),
            hinge: self.tray.hinge_of(index).map(|hinge| self.hinge(hinge)),
            pose: self.pose(&self.folded.motions[index]),
        }
    }

    /// A hinge seen from the drawn face; its panel stays on the right of its line.
    fn hinge(&self, hinge: document::Hinge) -> document::Hinge {
        let [from, to] = hinge.line.map(|end| self.point(end));
        document::Hinge {
            line: match self.job.drawn_face {
                DrawnFace::Inside => [from, to],
                DrawnFace::Outside => [to, from],
            },
            fold_deg: self.sign() * hinge.fold_deg,
            ..hinge
        }
    }

    fn interlocks(&self) -> Vec<document::Interlock> {
        let tray = &self.tray;
        let publish = |interlock: &crate::tray::Interlock| {
            let (Slit::Hole { corners, .. } | Slit::Bite { corners, .. }) = &interlock.slit else {
                return None;
            };
            let (from, into) = (&tray.frames[interlock.panel], &tray.frames[interlock.into]);
            let run = &tray.panels[interlock.panel].tongues[interlock.tongue];
            let tongue: Vec<Corner> = run
                .corners
                .iter()
                .map(|corner| Corner::sharp(from.place(corner.at)))
                .collect();
            Some(document::Interlock {
                name: interlock.name.clone(),
                panel: interlock.panel,
                tongue: self.run(&tongue),
                into: interlock.into,
                slit: corners.map(|corner| self.point(into.place(corner))),
            })
        };
        tray.interlocks.iter().filter_map(publish).collect()
    }

    fn pose(&self, motion: &document::Pose) -> document::Pose {
        let signs = [self.sign(), 1.0, self.sign()];
        let rows = std::array::from_fn(|row| {
            std::array::from_fn(|column| signs[row] * motion.rows[row][column] * signs[column])
        });
        document::Pose {
            rows,
            shift: std::array::from_fn(|row| signs[row] * motion.shift[row]),
        }
    }

    fn steps(&self) -> Vec<document::Step> {
        let fold = |&panel: &usize| {
            let to_deg = self.tray.panels[panel]
                .hanging
                .as_ref()
                .map_or(0.0, |hanging| self.sign() * hanging.fold_deg);
            document::Move { panel, to_deg }
        };
        let step = |action: &crate::steps::Action| document::Step {
            words: action.words.clone(),
            why: action.why.clone(),
            action: match &action.kind {
                ActionKind::Fold(panels) => {
                    document::Action::Fold(panels.iter().map(fold).collect())
                }
                ActionKind::Turn => document::Action::Turn,
                ActionKind::Place => document::Action::Place,
            },
        };
        self.order.actions.iter().map(step).collect()
    }
}

/// Edges as a contour.
fn contour(edges: impl IntoIterator<Item = Edge>, closed: bool) -> Contour {
    Contour::of_edges(edges, closed).expect("a panel, a hole and a cut have edges")
}

/// A measure under its promised name.
fn measure(measure: &Measure) -> document::Measure {
    document::Measure {
        name: measure.of.to_string(),
        value: measure.value,
    }
}
