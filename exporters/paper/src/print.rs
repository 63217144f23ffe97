//! Prints pages into a PDF.
//!
//! **Input:** pages in millimetres, a title and the font of their words. **Output:** the bytes of a PDF. Only this
//! module converts lengths to points, once. It draws the given marks and nothing else.

mod laid;

use std::collections::BTreeSet;
use std::rc::Rc;

use printpdf::serialize::to_lopdf_doc;
use printpdf::{
    DictItem, FontId, Layer as PdfLayer, LayerIntent, LayerInternalId, LayerSubtype, Line,
    LineCapStyle, LineDashPattern, LineJoinStyle, LinePoint, Op, PaintMode, PdfDocument,
    PdfFontHandle, PdfPage, PdfSaveOptions, Point, Polygon, PolygonRing, Pt, Rect, TextItem,
    TextMatrix, WindingOrder,
};

use crate::font::Font;
use crate::inks::OVERPRINT;
use crate::leftwards::{also_set, as_set};
use crate::metadata::finish;
use crate::page::{Kept, Mark, Page, PointMm, Step, StrokePath, Words};
use crate::pictures;
use crate::press::{Printer, name_condition};
use traywright_document::{ExportError, PngFile, ProcessingStep};
use traywright_look::{Colour, Layer, LineStyle};

/// The key of a layer in content.
fn key(layer: Layer) -> String {
    let place = Layer::ALL.iter().position(|other| *other == layer);
    format!("L{}", place.unwrap_or(Layer::ALL.len()))
}

/// Points in a millimetre.
// Source: ISO 32000-1, 8.3.2.3: a unit is 1/72 inch.
pub(crate) const POINTS: f64 = 72.0 / 25.4;

/// The key of the font.
const FONT: &str = "F0";

/// A PDF of pages.
#[derive(Debug)]
pub struct Printed {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// A warning if the font lacks characters of the words on the pages; each is written as U+XXXX.
    pub warning: Option<String>,
}

/// Makes a file of pages, meant for a printing condition if there is a name of one.
///
/// # Refuses
/// A font that cannot be reduced to the letters used, with the reason.
pub fn print(
    title: &str,
    condition: Option<&str>,
    font: &Font,
    pages: &[Page],
) -> Result<Printed, ExportError> {
    let mut file = PdfDocument::new(title);
    let letters: BTreeSet<char> = pages
        .iter()
        .flat_map(|page| &page.marks)
        .flat_map(|(_, mark)| letters(mark))
        .collect();
    let printed = font.printable(&also_set(&letters).iter().collect::<String>());
    let printed: BTreeSet<char> = printed.chars().collect();
    if !printed.is_empty() {
        file.resources
            .fonts
            .map
            .insert(FontId(FONT.to_owned()), font.subset(&printed)?);
    }
    let layers = layers(pages);
    add_layers(&mut file, &layers);
    let pictures = pictures::files(pages);
    let sheets = pages.iter().map(|page| sheet(page, font, &pictures));
    file.pages = sheets.collect();
    let options = PdfSaveOptions {
        optimize: false,
        subset_fonts: false,
        secure: false,
        image_optimization: None,
    };
    let bleeds: Vec<[f32; 4]> = pages
        .iter()
        .map(|page| frames(page)[1].map(|side| side.0))
        .collect();
    let mut written = to_lopdf_doc(&file, &options, &mut Vec::new());
    let printer = Printer::of_all(pages);
    pictures::settle(&mut written, &pictures, printer)?;
    if let Some(condition) = condition {
        name_condition(&mut written, condition);
    }
    Ok(Printed {
        bytes: finish(written, &layers, &bleeds, printer)?,
        warning: font.warning(&letters),
    })
}

/// Adds layers to a file, each by its key.
fn add_layers(file: &mut PdfDocument, layers: &[Layer]) {
    for layer in layers {
        let group = PdfLayer {
            name: layer.name().to_owned(),
            creator: String::new(),
            intent: LayerIntent::View,
            usage: LayerSubtype::Artwork,
        };
        let known = &mut file.resources.layers.map;
        known.insert(LayerInternalId(key(*layer)), group);
    }
}

/// The layers of a file: those of cuts, creases and dimensions if it has any line, the others only if they are not empty.
fn layers(pages: &[Page]) -> Vec<Layer> {
    let used: BTreeSet<Layer> = pages
        .iter()
        .flat_map(|page| &page.marks)
        .filter_map(|(layer, _)| *layer)
        .collect();
    let is_there = |layer: &Layer| match layer {
        Layer::Step(ProcessingStep::Perforating | ProcessingStep::ReversePerforating)
        | Layer::Bleed
        | Layer::Legend => used.contains(layer),
        Layer::Step(_) => !used.is_empty(),
    };
    Layer::ALL.into_iter().filter(is_there).collect()
}

fn letters(mark: &Mark) -> impl Iterator<Item = char> {
    let text = match mark {
        Mark::Words(words) => words.text.as_str(),
        Mark::Laid(words) => words.text.as_str(),
        Mark::Stroke { .. } | Mark::Fill(..) | Mark::Picture(_) => "",
    };
    text.chars()
}

/// One page; every layer is opened once, so that switching it off hides all of it.
fn sheet(page: &Page, font: &Font, pictures: &[Rc<PngFile>]) -> PdfPage {
    let mut pen = Pen {
        page,
        font,
        held: None,
        layer: None,
        pictures,
    };
    let mut ops = vec![
        Op::SetLineCapStyle {
            cap: LineCapStyle::Butt,
        },
        Op::SetLineJoinStyle {
            join: LineJoinStyle::Round,
        },
    ];
    let of = |wanted: Option<Layer>| {
        page.marks
            .iter()
            .filter(move |(layer, _)| *layer == wanted)
            .map(|(_, mark)| mark)
    };
    of(None).for_each(|mark| pen.draw(mark, &mut ops));
    for layer in Layer::ALL {
        if of(Some(layer)).next().is_some() {
            ops.push(Op::BeginLayer {
                layer_id: LayerInternalId(key(layer)),
            });
            ops.push(Op::Unknown {
                key: "gs".to_owned(),
                value: vec![DictItem::Name(OVERPRINT.into())],
            });
            (pen.held, pen.layer) = (None, Some(layer));
            of(Some(layer)).for_each(|mark| pen.draw(mark, &mut ops));
            ops.push(Op::EndLayer);
        }
    }
    // The library writes a width and a height where the format requires the upper right corner.
    let [frame, _, trimmed] =
        frames(page).map(|[left, foot, right, top]| Rect::from_xywh(left, foot, right, top));
    PdfPage {
        media_box: frame.clone(),
        trim_box: trimmed,
        crop_box: frame,
        ops,
    }
}

/// The boxes of a page: all of it, the printed area, and the trimmed part: left, bottom, right and top of each.
fn frames(page: &Page) -> [[Pt; 4]; 3] {
    let [right, top] = page.size;
    let all = [0.0, 0.0, right, top];
    let on_paper = |place: PointMm, off: f64| {
        [0, 1].map(|axis| page.origin[axis] + place[axis] * page.enlarged[axis] + off)
    };
    let around = |kept: Kept, off: f64| {
        let ([left, foot], [right, top]) = (on_paper(kept.least, -off), on_paper(kept.most, off));
        [left, foot, right, top]
    };
    [
        all,
        page.kept.map_or(all, |kept| around(kept, kept.bleed)),
        page.kept.map_or(all, |kept| around(kept, 0.0)),
    ]
    .map(|sides| sides.map(points))
}

/// The drawing state of one page.
struct Pen<'a> {
    page: &'a Page,
    font: &'a Font,
    /// The current style and phase of lines, so that they are not repeated.
    held: Option<(LineStyle, f64)>,
    /// The open layer.
    layer: Option<Layer>,
    /// The files of all pictures.
    pictures: &'a [Rc<PngFile>],
}

impl Pen<'_> {
    fn draw(&mut self, mark: &Mark, ops: &mut Vec<Op>) {
        match mark {
            Mark::Stroke { look, phase, run } => self.stroke(*look, *phase, run, ops),
            Mark::Fill(colour, rings) => self.fill(*colour, rings, ops),
            Mark::Words(words) => self.words(words, ops),
            Mark::Laid(words) => self.laid(words, ops),
            Mark::Picture(picture) => self.picture(picture, ops),
        }
    }

    fn place(&self, place: PointMm) -> Point {
        let on_paper =
            |axis: usize| points(self.page.origin[axis] + place[axis] * self.page.enlarged[axis]);
        Point {
            x: on_paper(0),
            y: on_paper(1),
        }
    }

    fn stroke(&mut self, look: LineStyle, phase: f64, run: &StrokePath, ops: &mut Vec<Op>) {
        let phase = if look.dashes.is_empty() { 0.0 } else { phase };
        if self.held.replace((look, phase)) != Some((look, phase)) {
            self.take_up(look, phase, ops);
        }
        let corner = |place, bezier| LinePoint {
            p: self.place(place),
            bezier,
        };
        let mut line = vec![corner(run.start, false)];
        for step in &run.steps {
            match *step {
                Step::To(place) => line.push(corner(place, false)),
                Step::Curve([first, second, end]) => {
                    line.extend([
                        corner(first, true),
                        corner(second, true),
                        corner(end, false),
                    ]);
                }
            }
        }
        ops.push(Op::DrawLine {
            line: Line {
                points: line,
                is_closed: run.closed,
            },
        });
    }

    fn fill(&self, tint: Colour, rings: &[Vec<PointMm>], ops: &mut Vec<Op>) {
        let corner = |place: &PointMm| LinePoint {
            p: self.place(*place),
            bezier: false,
        };
        let ring = |ring: &Vec<PointMm>| PolygonRing {
            points: ring.iter().map(corner).collect(),
        };
        ops.extend(self.fill_colour(tint));
        ops.push(Op::DrawPolygon {
            polygon: Polygon {
                rings: rings.iter().map(ring).collect(),
                mode: PaintMode::Fill,
                winding_order: WindingOrder::NonZero,
            },
        });
    }

    fn words(&self, words: &Words, ops: &mut Vec<Op>) {
        let Point { x, y } = self.place(words.at);
        let [across, up] = self.page.enlarged.map(|factor| factor as f32);
        let matrix = if words.climbing {
            [0.0, up, -across, 0.0, x.0, y.0]
        } else {
            [across, 0.0, 0.0, up, x.0, y.0]
        };
        self.write(&words.text, (words.capital, words.colour), matrix, ops);
    }

    /// Writes a text with a text matrix.
    fn write(
        &self,
        text: &str,
        (capital, tint): (f64, Colour),
        matrix: [f32; 6],
        ops: &mut Vec<Op>,
    ) {
        ops.push(Op::StartTextSection);
        ops.extend(self.fill_colour(tint));
        ops.extend([
            Op::SetFont {
                font: PdfFontHandle::External(FontId(FONT.to_owned())),
                size: points(self.font.size(capital)),
            },
            Op::SetTextMatrix {
                matrix: TextMatrix::Raw(matrix),
            },
            Op::ShowText {
                items: vec![TextItem::Text(as_set(self.font.printable(text)))],
            },
            Op::EndTextSection,
        ]);
    }

    /// Sets colour, width and dashes of the following lines.
    fn take_up(&self, look: LineStyle, phase: f64, ops: &mut Vec<Op>) {
        let dashes: Vec<f32> = look.dashes.iter().map(|length| points(*length).0).collect();
        match self.ink(look.colour) {
            Some(id) => ops.extend([Op::SetColorSpaceStroke { id }, full("SCN")]),
            None => ops.push(Op::SetOutlineColor {
                col: Printer::of(self.page).colour(look.colour),
            }),
        }
        ops.push(Op::SetOutlineThickness {
            pt: points(look.width),
        });
        ops.push(Op::SetLineDashPattern {
            dash: LineDashPattern::new(points(phase).0, &dashes),
        });
    }

    fn fill_colour(&self, tint: Colour) -> Vec<Op> {
        match self.ink(tint) {
            Some(id) => vec![Op::SetColorSpaceFill { id }, full("scn")],
            None => vec![Op::SetFillColor {
                col: Printer::of(self.page).colour(tint),
            }],
        }
    }

    /// The ink of the open layer, for marks in its colour; a legend has one ink for everything.
    fn ink(&self, tint: Colour) -> Option<String> {
        let has_ink = |layer: &Layer| *layer == Layer::Legend || layer.look().colour == tint;
        let layer = self.layer.filter(has_ink)?;
        Some(layer.ink().to_owned())
    }
}

/// An ink at full strength.
fn full(operator: &str) -> Op {
    Op::Unknown {
        key: operator.to_owned(),
        value: vec![DictItem::Real(1.0)],
    }
}

fn points(length: f64) -> Pt {
    Pt((length * POINTS) as f32)
}
