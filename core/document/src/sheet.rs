//! A sheet of stock with several blanks, as a document whose lines are those of the blanks, moved.
//!
//! **Input:** the documents of finished trays, and where each blank lies. **Output:** one [`Document`] for the exporters
//! of lines: its outline is the edge of the stock, which nobody cuts. Lines are turned by whole quarters and moved;
//! none is computed anew, so an arc stays an arc. **Does not** choose where a blank lies.

use serde::{Deserialize, Serialize};

use crate::board::Grain;
use crate::cutting::{Part, Toolpath};
use crate::edge::Chords;
use crate::flat::{Contour, CreaseLine, Dimension, Flat, Label, Segment};
use crate::length::Length;
use crate::output::Paper;
use crate::panel_label::PanelLabel;
use crate::picture::PanelPicture;
use crate::plane::{Extent, Point, Vector};
use crate::{BoxSize, Document, ProcessingStep};

mod naming;

/// Height of the figures of both sides of the stock, and how far their lines stand off it.
// Source: ISO 3098-1, nominal sizes of lettering (from memory).
const FIGURE: f64 = 5.0;
const BESIDE: f64 = 8.0;
/// How far the ends of the blanks' names are looked for: chords at most this far from an arc.
const CHORDS: Chords = Chords::Within(0.1);
/// The panel of a crease on a sheet, which has no panels.
const NO_PANEL: usize = u32::MAX as usize;

/// A turn by whole quarters, counter-clockwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// As the blank is drawn.
    #[default]
    None,
    /// By 90°.
    Quarter,
    /// By 180°.
    Half,
    /// By 270°.
    ThreeQuarters,
}

/// Where a blank lies on a sheet: turned about the origin of its flat frame, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// The turn.
    pub turn: Turn,
    /// How far it is moved, in mm.
    pub shift: Vector,
}

/// Blanks of one tray on a sheet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NestedBlank {
    /// The tray's name.
    pub title: String,
    /// How many of them lie there.
    pub count: usize,
}

/// A blank on a sheet.
#[derive(Clone, Copy, Debug)]
pub struct LaidBlank<'a> {
    /// Its tray.
    pub tray: &'a Document,
    /// Where it lies; the lower left corner of the stock is the origin.
    pub placement: Placement,
}

impl Turn {
    /// All turns, the smallest first.
    pub const ALL: [Turn; 4] = [Turn::None, Turn::Quarter, Turn::Half, Turn::ThreeQuarters];

    /// A vector after the turn, exactly.
    pub fn of(self, way: Vector) -> Vector {
        match self {
            Turn::None => way,
            Turn::Quarter => way.left(),
            Turn::Half => -way,
            Turn::ThreeQuarters => way.right(),
        }
    }

    /// The same turn the other way.
    pub fn reversed(self) -> Turn {
        match self {
            Turn::Quarter => Turn::ThreeQuarters,
            Turn::ThreeQuarters => Turn::Quarter,
            same => same,
        }
    }

    /// The number of quarters.
    pub fn quarters(self) -> usize {
        self as usize
    }

    /// Whether what lay along one side of the sheet lies along the other now.
    pub fn is_across(self) -> bool {
        matches!(self, Turn::Quarter | Turn::ThreeQuarters)
    }
}

impl Placement {
    /// A point of the blank on the sheet.
    pub fn point(&self, point: Point) -> Point {
        Point::ORIGIN + self.turn.of(point - Point::ORIGIN) + self.shift
    }

    /// A picture of the blank on the sheet, which has no panels.
    pub fn panel_picture(&self, picture: &PanelPicture) -> PanelPicture {
        let ring = |ring: &Vec<Point>| ring.iter().map(|at| self.point(*at)).collect();
        PanelPicture {
            panel: NO_PANEL,
            at: self.point(picture.at),
            up: self.turn.of(picture.up),
            shown: picture.shown.iter().map(ring).collect(),
            ..picture.clone()
        }
    }

    /// A label of the blank on the sheet, which has no panels.
    pub fn panel_label(&self, label: &PanelLabel) -> PanelLabel {
        PanelLabel {
            panel: NO_PANEL,
            at: self.point(label.at),
            up: self.turn.of(label.up),
            ..label.clone()
        }
    }

    /// A line of the blank on the sheet.
    pub fn contour(&self, contour: &Contour) -> Contour {
        let segment = |segment: &Segment| match *segment {
            Segment::Line { to } => Segment::Line { to: self.point(to) },
            Segment::Arc { to, bulge } => Segment::Arc {
                to: self.point(to),
                bulge,
            },
        };
        Contour {
            start: self.point(contour.start),
            segments: contour.segments.iter().map(segment).collect(),
            closed: contour.closed,
        }
    }
}

/// The document of a sheet. What the files say of card, tool, face, machine and language is that of the first blank;
/// a sheet without blanks has none.
pub fn document(title: String, stock: [Length; 2], laid: &[LaidBlank]) -> Option<Document> {
    let first = laid.first()?.tray;
    let laid = in_order(laid);
    let mut output = first.output.clone();
    output.letters = false;
    let mut page = output.paper.page().clone();
    page.name = "stock".to_owned();
    [page.width, page.height] = stock;
    output.paper = Paper::Whole {
        bleed: Length::ZERO,
        condition: None,
        page,
    };
    let flat = flat(stock.map(Length::mm), &laid, first);
    let mut board = first.board.clone();
    if let (Some(grain), true) = (board.grain, laid[0].placement.turn.is_across()) {
        board.grain = Some(match grain {
            Grain::Length => Grain::Width,
            Grain::Width => Grain::Length,
        });
    }
    Some(Document {
        title,
        style: styles(&laid),
        board,
        tool: first.tool,
        box_size: BoxSize::NONE,
        items: Vec::new(),
        unit: first.unit,
        output,
        stands: first.stands,
        hand_step: None,
        flat,
        panels: Vec::new(),
        interlocks: Vec::new(),
        friction: false,
        warnings: Vec::new(),
        steps: Vec::new(),
        measures: Vec::new(),
        toolpaths: toolpaths(&laid),
        nested: counted(&laid),
    })
}

/// The blanks in the order of the work: from the lower left corner always on to the nearest.
fn in_order<'a>(laid: &[LaidBlank<'a>]) -> Vec<LaidBlank<'a>> {
    let mut left: Vec<(Point, LaidBlank)> = laid
        .iter()
        .map(|blank| (blank.placement.point(middle(blank.tray)), *blank))
        .collect();
    let mut ordered = Vec::new();
    let mut at = Point::ORIGIN;
    while !left.is_empty() {
        let far = |(place, _): &(Point, LaidBlank)| (*place - at).dot(*place - at);
        let nearest =
            (0..left.len()).min_by(|&one, &other| far(&left[one]).total_cmp(&far(&left[other])));
        let (place, blank) = left.remove(nearest.unwrap_or(0));
        at = place;
        ordered.push(blank);
    }
    ordered
}

fn middle(tray: &Document) -> Point {
    tray.flat.extent.least.middle(tray.flat.extent.most)
}

/// The names of the styles, each once.
fn styles(laid: &[LaidBlank]) -> String {
    let mut styles: Vec<&str> = laid.iter().map(|blank| blank.tray.style.as_str()).collect();
    styles.sort_unstable();
    styles.dedup();
    styles.join(", ")
}

fn counted(laid: &[LaidBlank]) -> Vec<NestedBlank> {
    let mut counted: Vec<NestedBlank> = Vec::new();
    for blank in laid {
        match counted
            .iter_mut()
            .find(|known| known.title == blank.tray.title)
        {
            Some(known) => known.count += 1,
            None => counted.push(NestedBlank {
                title: blank.tray.title.clone(),
                count: 1,
            }),
        }
    }
    counted
}

/// All creases of the sheet first, so that a machine changes its tool once, then the cuts of one blank after the other.
fn toolpaths(laid: &[LaidBlank]) -> Vec<Toolpath> {
    let moved = laid.iter().flat_map(|blank| {
        let paths = blank.tray.all_toolpaths().into_iter();
        paths.map(|path| Toolpath {
            contour: blank.placement.contour(&path.contour),
            ..path
        })
    });
    let (creases, cuts): (Vec<Toolpath>, Vec<Toolpath>) =
        moved.partition(|path| path.step != ProcessingStep::Cutting);
    // The index of a crease's panel counts the panels of its tray, and a sheet has none.
    let creases = creases.into_iter().map(|path| match path.part {
        Part::Crease { .. } => Toolpath {
            part: Part::Crease { panel: NO_PANEL },
            ..path
        },
        _ => path,
    });
    creases.chain(cuts).collect()
}

fn flat([length, width]: [f64; 2], laid: &[LaidBlank], first: &Document) -> Flat {
    let corners = [[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]];
    let corners = corners.map(|[x, y]| Point::new(x, y));
    let side = |to: Point| Segment::Line { to };
    let mut flat = Flat {
        extent: Extent::around(corners),
        outline: Contour {
            start: corners[0],
            segments: [corners[1], corners[2], corners[3], corners[0]]
                .map(side)
                .into(),
            closed: true,
        },
        holes: Vec::new(),
        open_cuts: Vec::new(),
        creases: Vec::new(),
        labels: Vec::new(),
        letters: Vec::new(),
        panel_pictures: Vec::new(),
        panel_labels: Vec::new(),
        dimensions: sides([length, width], first),
    };
    for LaidBlank { tray, placement } in laid {
        let closed = std::iter::once(&tray.flat.outline).chain(&tray.flat.holes);
        flat.holes
            .extend(closed.map(|line| placement.contour(line)));
        let open = tray.flat.open_cuts.iter();
        flat.open_cuts
            .extend(open.map(|line| placement.contour(line)));
        flat.creases
            .extend(tray.flat.creases.iter().map(|crease| CreaseLine {
                from: placement.point(crease.from),
                to: placement.point(crease.to),
                panel: NO_PANEL,
                ..*crease
            }));
        let pictures = tray.flat.panel_pictures.iter();
        flat.panel_pictures
            .extend(pictures.map(|picture| placement.panel_picture(picture)));
        let labels = tray.flat.panel_labels.iter();
        flat.panel_labels
            .extend(labels.map(|label| placement.panel_label(label)));
        // A face that shows in the finished tray stays clean.
        if tray.output.has_letters_on_blank() {
            flat.labels.extend(name(tray, placement));
        }
    }
    flat
}

/// The name of a blank where it touches no line.
fn name(tray: &Document, placement: &Placement) -> Option<Label> {
    let flat = &tray.flat;
    let closed = std::iter::once(&flat.outline).chain(&flat.holes);
    let lines: Vec<Vec<Point>> = closed
        .chain(&flat.open_cuts)
        .map(|line| {
            let mut corners = placement.contour(line).corners(CHORDS);
            corners.extend(line.closed.then(|| placement.point(line.start)));
            corners
        })
        .chain(
            flat.creases
                .iter()
                .map(|crease| vec![placement.point(crease.from), placement.point(crease.to)]),
        )
        .chain(printed(flat, placement))
        .collect();
    naming::label(&tray.title, &lines, 1 + flat.holes.len())
}

/// The edges of what is printed on the drawn face.
fn printed(flat: &Flat, placement: &Placement) -> impl Iterator<Item = Vec<Point>> {
    let labels = flat.panel_labels.iter().filter(|label| label.is_drawn());
    labels.map(|label| {
        let [a, b, c, d] = label.corners().map(|corner| placement.point(corner));
        vec![a, b, c, d, a]
    })
}

/// Both sides of the stock; the lines that lead to their figures are the edges of the stock.
fn sides([length, width]: [f64; 2], first: &Document) -> Vec<Dimension> {
    let point = Point::new;
    let below = -BESIDE;
    let aside = -BESIDE;
    let dimension =
        |figure: f64, at: Point, line: [Point; 2], extensions: Vec<[Point; 2]>| Dimension {
            text: first.unit.figure(figure),
            text_at: at,
            text_height: FIGURE,
            line,
            extensions,
        };
    vec![
        dimension(
            length,
            point(length / 2.0, below - 1.5 * FIGURE),
            [point(0.0, below), point(length, below)],
            vec![
                [point(0.0, width), point(0.0, below - FIGURE / 2.0)],
                [point(length, width), point(length, below - FIGURE / 2.0)],
            ],
        ),
        dimension(
            width,
            point(aside - 3.0 * FIGURE, width / 2.0),
            [point(aside, 0.0), point(aside, width)],
            vec![
                [point(length, 0.0), point(aside - FIGURE / 2.0, 0.0)],
                [point(length, width), point(aside - FIGURE / 2.0, width)],
            ],
        ),
    ]
}
