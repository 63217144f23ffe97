//! Words and pictures that lie on something, in the operators of a PDF.
//!
//! **Input:** a page, and marks of it. **Output:** operators that show the mark where its plane is seen, and nothing of it
//! outside the part that shows.

use printpdf::{
    CurTransMat, DictItem, LinePoint, Op, PaintMode, Point, Polygon, PolygonRing, WindingOrder,
};

use super::{Pen, points};
use crate::page::{LaidPicture, LaidWords, PointMm};
use crate::pictures;

impl Pen<'_> {
    pub(super) fn laid(&self, words: &LaidWords, ops: &mut Vec<Op>) {
        let half = self.font.width(&words.text, words.capital) / 2.0;
        let start = [0, 1].map(|axis| words.at[axis] - half * words.along[axis]);
        let Point { x, y } = self.place(start);
        let on_paper =
            |way: PointMm| [0, 1].map(|axis| (way[axis] * self.page.enlarged[axis]) as f32);
        let ([a, b], [c, d]) = (on_paper(words.along), on_paper(words.up));
        if let Some(corners) = words.shown {
            ops.push(Op::SaveGraphicsState);
            ops.push(self.clip_to(corners));
        }
        self.write(
            &words.text,
            (words.capital, words.colour),
            [a, b, c, d, x.0, y.0],
            ops,
        );
        if words.shown.is_some() {
            ops.push(Op::RestoreGraphicsState);
        }
    }

    /// Shows nothing outside a rectangle from now on.
    fn clip_to(&self, [[left, foot], [right, top]]: [PointMm; 2]) -> Op {
        self.clip(&[vec![[left, foot], [right, foot], [right, top], [left, top]]])
    }

    /// Shows nothing from now on but what lies in an odd number of rings.
    fn clip(&self, rings: &[Vec<PointMm>]) -> Op {
        let corner = |place: &PointMm| LinePoint {
            p: self.place(*place),
            bezier: false,
        };
        let ring = |ring: &Vec<PointMm>| PolygonRing {
            points: ring.iter().map(corner).collect(),
        };
        Op::DrawPolygon {
            polygon: Polygon {
                rings: rings.iter().map(ring).collect(),
                mode: PaintMode::Clip,
                winding_order: WindingOrder::EvenOdd,
            },
        }
    }

    pub(super) fn picture(&self, picture: &LaidPicture, ops: &mut Vec<Op>) {
        let Some(number) = self.pictures.iter().position(|it| *it == picture.file) else {
            return;
        };
        let Point { x, y } = self.place(picture.at);
        let on_paper =
            |way: PointMm| [0, 1].map(|axis| points(way[axis] * self.page.enlarged[axis]).0);
        let ([a, b], [c, d]) = (on_paper(picture.across), on_paper(picture.up));
        ops.push(Op::SaveGraphicsState);
        ops.extend(picture.window.map(|corners| self.clip_to(corners)));
        ops.push(self.clip(&picture.shown));
        ops.extend([
            Op::SetTransformationMatrix {
                matrix: CurTransMat::Raw([a, b, c, d, x.0, y.0]),
            },
            Op::Unknown {
                key: "Do".to_owned(),
                value: vec![DictItem::Name(pictures::key(number).into_bytes())],
            },
            Op::RestoreGraphicsState,
        ]);
    }
}
