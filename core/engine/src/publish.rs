//! The one place where the engine's types become the document's.
//!
//! Given a [`CheckedTray`] and nothing else, gives the [`Document`] that exporters see. When the lines go onto the
//! outside of the card, the whole is seen from the other face: x and z change their sign, so every fold changes its
//! sense and nothing changes its size.

mod measured;

use traywright_document as document;
use traywright_document::{Contour, CreaseLine, Document, Extent, Flat, Segment};

use crate::checked::CheckedTray;
use crate::dimensions::{lay_out, name};
use crate::folded::Motion;
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

    fn point(&self, point: Point) -> document::Point {
        document::Point {
            x: self.sign() * point.x,
            y: point.y,
        }
    }

    /// An outline seen from the drawn face, running as it did.
    fn contour(&self, outline: &Outline) -> Contour {
        if self.job.drawn_face == DrawnFace::Inside {
            return self.run(outline.corners(), true);
        }
        let mirrored = outline.corners().iter().map(|corner| Corner {
            at: Point::new(-corner.at.x, corner.at.y),
            bulge: -corner.bulge,
        });
        let outline = Outline::new(mirrored.collect()).reversed();
        let point = |point: Point| document::Point {
            x: point.x,
            y: point.y,
        };
        contour(outline.corners(), true, point)
    }

    fn run(&self, corners: &[Corner], closed: bool) -> Contour {
        let sign = self.sign();
        let turned: Vec<Corner> = corners
            .iter()
            .map(|corner| Corner {
                at: corner.at,
                bulge: sign * corner.bulge,
            })
            .collect();
        contour(&turned, closed, |point| self.point(point))
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
        let (least, most) = blank.extent();
        let (one, other) = (self.point(least), self.point(most));
        let crease = |crease: &crate::blank::Crease| CreaseLine {
            from: self.point(crease.from),
            to: self.point(crease.to),
            fold_deg: self.sign() * crease.fold_deg,
            panel: crease.panel,
        };
        Flat {
            extent: Extent {
                least: document::Point {
                    x: one.x.min(other.x),
                    y: one.y,
                },
                most: document::Point {
                    x: one.x.max(other.x),
                    y: other.y,
                },
            },
            outline: self.contour(&blank.outline),
            holes: blank.holes.iter().map(|hole| self.contour(hole)).collect(),
            open_cuts: blank
                .open_cuts
                .iter()
                .map(|cut| self.run(cut, false))
                .collect(),
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

    /// The upright rectangle around places, seen from the drawn face.
    fn extent(&self, places: [Point; 4]) -> Extent {
        let places = places.map(|place| self.point(place));
        let least =
            |of: fn(&document::Point) -> f64| places.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&document::Point) -> f64| {
            places.iter().map(of).fold(f64::NEG_INFINITY, f64::max)
        };
        Extent {
            least: document::Point {
                x: least(|place| place.x),
                y: least(|place| place.y),
            },
            most: document::Point {
                x: most(|place| place.x),
                y: most(|place| place.y),
            },
        }
    }

    fn panel(&self, index: usize) -> document::Panel {
        let panel = &self.tray.panels[index];
        let flat = &self.blank.panels[index];
        let line = self.tray.hinge_line(index);
        let hinge = panel
            .hanging
            .as_ref()
            .zip(line)
            .map(|(hanging, (from, to))| document::Hinge {
                parent: hanging.parent,
                line: [self.point(from), self.point(to)],
                fold_deg: self.sign() * hanging.fold_deg,
                height: self.tray.hinge,
            });
        document::Panel {
            name: panel.name.clone(),
            outline: self.contour(&flat.outline),
            holes: flat.holes.iter().map(|hole| self.contour(hole)).collect(),
            hinge,
            pose: self.pose(&self.folded.motions[index]),
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
                tongue: self.run(&tongue, false),
                into: interlock.into,
                slit: corners.map(|corner| self.point(into.place(corner))),
            })
        };
        tray.interlocks.iter().filter_map(publish).collect()
    }

    fn pose(&self, motion: &Motion) -> document::Pose {
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

/// A run of corners as a contour; each corner's bulge belongs to the segment after it.
fn contour(corners: &[Corner], closed: bool, point: impl Fn(Point) -> document::Point) -> Contour {
    let ends = corners
        .iter()
        .skip(1)
        .chain(corners.first().filter(|_| closed));
    let segments = corners
        .iter()
        .zip(ends)
        .map(|(corner, to)| match corner.bulge {
            0.0 => Segment::Line { to: point(to.at) },
            bulge => Segment::Arc {
                to: point(to.at),
                bulge,
            },
        });
    Contour {
        start: point(corners[0].at),
        segments: segments.collect(),
        closed,
    }
}

/// A measure under its promised name.
fn measure(measure: &Measure) -> document::Measure {
    document::Measure {
        name: measure.of.to_string(),
        value: measure.value,
    }
}
