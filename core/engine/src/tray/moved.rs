//! The tray that results from drawing the corners of its blank at other positions.
//!
//! **Input:** a tray and the new position of a point in the flat frame. **Output:** the tray whose blank has every corner,
//! and both ends of every crease, at its new position. A round edge keeps its bulge between its new ends; a closed
//! curve moves as a whole to its middle's new position. Panels stay flat and creases straight, but walls may come out
//! of square; the stages check the effect of that.

use super::{EdgeDetour, Hanging, Opening, OpeningCut, PanelId, Slit, Tray};
use crate::geometry::{Corner, Frame, Outline, Point};
use crate::ids::IdVec;

/// How a point in a panel's frame moves: out into the flat frame, to its new position, and back into the panel's new
/// frame.
struct Moves<'r> {
    before: Frame,
    after: Frame,
    to: &'r dyn Fn(Point) -> Point,
}

impl Tray {
    /// The tray with every corner at its new position.
    pub(crate) fn moved(&self, to: &dyn Fn(Point) -> Point) -> Tray {
        let mut tray = self.clone();
        tray.frames = IdVec::default();
        for (id, panel) in self.panels.ids().zip(&mut tray.panels) {
            let frame = match &mut panel.hanging {
                None => Frame::SAME,
                Some(hanging) => {
                    let parent = tray.frames[hanging.parent];
                    let moves = Moves {
                        before: self.frames[hanging.parent],
                        after: parent,
                        to,
                    };
                    let (from, to) = hanging.crease;
                    hanging.crease = (moves.place(from), moves.place(to));
                    parent.then(&Hanging::frame(hanging))
                }
            };
            tray.frames.push(frame);
            let moves = Moves {
                before: self.frames[id],
                after: frame,
                to,
            };
            for corner in &mut panel.shape.corners {
                corner.at = moves.place(corner.at);
            }
            for run in panel.tongues.iter_mut().chain(&mut panel.edge_cutouts) {
                moves.run(run);
            }
        }
        let moves = |panel: PanelId| Moves {
            before: self.frames[panel],
            after: tray.frames[panel],
            to,
        };
        for opening in &mut tray.openings {
            moves(opening.panel).opening(opening);
        }
        for interlock in &mut tray.interlocks {
            let moves = moves(interlock.into);
            if let Slit::Hole { corners, .. } | Slit::EdgeCutout { corners, .. } =
                &mut interlock.slit
            {
                *corners = corners.map(|corner| moves.place(corner));
            }
        }
        tray
    }
}

impl Moves<'_> {
    fn place(&self, place: Point) -> Point {
        self.after.from_outside((self.to)(self.before.place(place)))
    }

    fn run(&self, run: &mut EdgeDetour) {
        for corner in &mut run.corners {
            corner.at = self.place(corner.at);
        }
    }

    fn outline(&self, outline: &Outline) -> Outline {
        let corners = outline.corners().iter().map(|corner| Corner {
            at: self.place(corner.at),
            bulge: corner.bulge,
        });
        Outline::new(corners.collect())
    }

    /// A curve is drawn about its middle and keeps its size.
    fn curve(&self, opening: &mut Opening) {
        let before = opening.rect.centre;
        opening.rect.centre = self.place(before);
        let shift = opening.rect.centre - before;
        if let OpeningCut::Clean(outline) = &mut opening.cut {
            let corners = outline.corners().iter().map(|corner| Corner {
                at: corner.at + shift,
                bulge: corner.bulge,
            });
            *outline = Outline::new(corners.collect());
        }
    }

    fn opening(&self, opening: &mut Opening) {
        if opening.form.curved {
            return self.curve(opening);
        }
        // In a frame slanted by that, the corners form no upright rectangle; the clear size lies within all four.
        let corners = opening.rect.corners().map(|corner| self.place(corner));
        let low = Point::new(
            corners[0].x.max(corners[3].x),
            corners[0].y.max(corners[1].y),
        );
        let high = Point::new(
            corners[1].x.min(corners[2].x),
            corners[2].y.min(corners[3].y),
        );
        opening.rect.centre = low.middle(high);
        opening.rect.length = high.x - low.x;
        opening.rect.width = high.y - low.y;
        match &mut opening.cut {
            OpeningCut::Flaps(plan) => {
                for hole in &mut plan.holes {
                    *hole = self.outline(hole);
                }
                for (from, to) in &mut plan.cuts {
                    (*from, *to) = (self.place(*from), self.place(*to));
                }
            }
            OpeningCut::Clean(outline) => *outline = self.outline(outline),
            OpeningCut::Uncut | OpeningCut::EdgeCutout => {}
        }
    }
}
