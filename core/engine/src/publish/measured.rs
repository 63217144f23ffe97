//! The lengths that a maker checks on the card with a ruler.
//!
//! **Input:** a [`CheckedTray`]. **Output:** lengths of its blank with both ends, as seen from the drawn face: the
//! whole, the root, one panel of each family, and the openings of the root. **Does not** place the text of dimensions.

use traywright_document::Extent;

use crate::dimensions::{Axis, DimensionInput};
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::job::DrawnFace;
use crate::rounding::FinishedTray;
use crate::style::text::PanelEntryId;
use crate::tray::{Opening, PanelId};
use crate::values::lies_along;

impl FinishedTray<'_> {
    /// The lengths to check with a ruler: the whole, the root, one panel of each family, and the openings.
    pub(super) fn measured(&self) -> Vec<DimensionInput> {
        let Extent { least, most } = self.blank().extent();
        let (root_length, root_width) = self.tray().panels[PanelId::ROOT].shape.extent();
        let corner = Point::new(root_length, root_width);
        let mut measured = self.sides(least, most);
        measured.extend(self.sides(Point::ORIGIN, corner));
        let mut told: Vec<Option<PanelEntryId>> = Vec::new();
        for (id, panel) in self.tray().panels.enumerated() {
            let Some(hanging) = panel
                .hanging
                .as_ref()
                .filter(|_| !told.contains(&panel.entry))
            else {
                continue;
            };
            let frame = self.blank().panels[id].frame;
            let (from, _) = hanging.crease;
            let from = self.blank().panels[hanging.parent].frame.place(from);
            let to = from + frame.turn(Vector::new(0.0, panel.shape.extent().1));
            if panel.entry.is_some() {
                told.push(panel.entry);
                measured.extend(self.between(from, to));
            }
        }
        let on_root = |opening: &&Opening| opening.panel == PanelId::ROOT;
        for opening in self.tray().openings.iter().filter(on_root) {
            measured.extend(self.of_opening(opening));
        }
        // All notches are equal, so one dimension is enough.
        let mut openings = self.tray().openings.iter().filter(on_root);
        measured.extend(openings.find_map(|opening| self.of_notch(opening)));
        measured
    }

    /// Size and position of an opening in the root.
    fn of_opening(&self, opening: &Opening) -> Vec<DimensionInput> {
        if opening.form.curved {
            return self.of_curve(opening);
        }
        let [low, _, high, _] = opening.rect.corners();
        let mut measured = self.sides(low, high);
        measured.extend(self.between(Point::new(0.0, low.y), low));
        measured.extend(self.between(Point::new(low.x, 0.0), low));
        measured
    }

    /// The width of an opening's finger notches, across the middle of one.
    fn of_notch(&self, opening: &Opening) -> Option<DimensionInput> {
        let (rect, half) = (opening.rect, opening.form.finger? / 2.0);
        let [low, right, _, left] = rect.corners();
        let (from, to) = if lies_along(rect.length, rect.width) {
            (low, right)
        } else {
            (low, left)
        };
        let (middle, along) = (from.middle(to), (to - from).unit());
        let across = self.between(middle + along * -half, middle + along * half)?;
        Some(DimensionInput {
            diameter: true,
            ..across
        })
    }

    /// From side to side of a curve, finger notches included, because a ruler finds these points. A circle is
    /// dimensioned by its diameter.
    fn of_curve(&self, opening: &Opening) -> Vec<DimensionInput> {
        let (around, rect) = (opening.extent(), opening.rect);
        let aside = Vector::new(around.length / 2.0, 0.0);
        let up = Vector::new(0.0, around.width / 2.0);
        let (west, south) = (around.centre + -aside, around.centre + -up);
        let round = (rect.length - rect.width).abs() < TOUCH_MM;
        let told = |across: DimensionInput| DimensionInput {
            diameter: round && (across.length - rect.length).abs() < TOUCH_MM,
            ..across
        };
        let along = self.between(west, around.centre + aside).map(told);
        let across = self.between(south, around.centre + up).map(told);
        // One diameter is enough for a plain circle.
        let across = across.filter(|across| !across.diameter);
        let places = [
            self.between(Point::new(0.0, around.centre.y), west),
            self.between(Point::new(around.centre.x, 0.0), south),
        ];
        let sizes = [along, across].into_iter().flatten();
        sizes.chain(places.into_iter().flatten()).collect()
    }

    /// Both sides of an upright rectangle, the vertical one on the right as seen from the drawn face.
    fn sides(&self, least: Point, most: Point) -> Vec<DimensionInput> {
        let right = if self.job().output.drawn_face == DrawnFace::Outside {
            least.x
        } else {
            most.x
        };
        let along = self.between(least, Point::new(most.x, least.y));
        let up = self.between(Point::new(right, least.y), Point::new(right, most.y));
        [along, up].into_iter().flatten().collect()
    }

    /// The distance between two points on a line parallel to an axis.
    fn between(&self, from: Point, to: Point) -> Option<DimensionInput> {
        let way = to - from;
        let axis = match (way.x.abs() > TOUCH_MM, way.y.abs() > TOUCH_MM) {
            (true, false) => Axis::AlongX,
            (false, true) => Axis::AlongY,
            _ => return None,
        };
        Some(DimensionInput {
            from: self.view().point(from),
            to: self.view().point(to),
            axis,
            length: way.length(),
            diameter: false,
        })
    }
}
