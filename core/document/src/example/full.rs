//! A document with a value in every field, for tests of its transfer to an exporter.

use crate::*;

/// A document with a value of every kind. It takes its numbers one after the other.
pub fn full(mut number: impl FnMut() -> f64) -> Document {
    let number: &mut dyn FnMut() -> f64 = &mut number;
    Document {
        title: "Barometer \"keepsake\" box\u{1}\u{0}, \u{1d11e} żółć".to_owned(),
        style: "by hand".to_owned(),
        board: Board {
            name: Some("index-255".to_owned()),
            caliper: number(),
            kind: BoardKind::Solid,
            crease: CreaseKind::HalfCut,
            hinge: number(),
            wants_strip: true,
            grain: Some(Grain::Width),
        },
        tool: Tool {
            by: ToolKind::Machine,
            accuracy: number(),
        },
        box_size: BoxSize {
            length: length(number),
            width: length(number),
            depth: length(number),
        },
        items: vec![item(number)],
        unit: Unit::Inch,
        output: Output {
            paper: Paper::Whole {
                bleed: length(number),
                condition: Some("FOGRA51".to_owned()),
                page: page(number),
            },
            drawn_face: DrawnFace::Outside,
            letters: false,
            language: "de".to_owned(),
            machine: machine(number),
        },
        stands: Orientation::RootDown,
        hand_step: Some(number()),
        flat: flat(number),
        panels: vec![panel(number)],
        interlocks: Vec::new(),
        friction: true,
        warnings: vec!["the item lies deep below the deck".to_owned()],
        steps: steps(number),
        measures: vec![measure(number)],
        toolpaths: toolpaths(number),
        nested: Vec::new(),
    }
}

fn measure(number: &mut dyn FnMut() -> f64) -> Measure {
    Measure {
        name: "deck_length".to_owned(),
        value: number(),
    }
}

/// The next number without its sign, because a length has none.
fn length(number: &mut dyn FnMut() -> f64) -> Length {
    Length::known(number().abs())
}

fn item(number: &mut dyn FnMut() -> f64) -> Item {
    Item {
        name: "barometer.2".to_owned(),
        kind: 0,
        number: 2,
        length: number(),
        width: number(),
        depth: number(),
        middle: Some(point(number)),
        shape: ItemShape::Oval,
        panel: 1,
        rest: number(),
        pad: number(),
        straight: Some(number()),
        loose: true,
        turned: true,
        held: Some(held(number)),
    }
}

fn held(number: &mut dyn FnMut() -> f64) -> Held {
    let stop = |by, number: &mut dyn FnMut() -> f64| Stop {
        by,
        heights: [number(), number()],
        travel: number(),
        firm: by == Holder::Edge,
    };
    Held {
        along: stop(Holder::Edge, number),
        across: stop(Holder::Flaps, number),
        rise: number(),
        deck: Some(number()),
        pads: Some(Pads {
            least: number(),
            most: number(),
            named: Some(number()),
        }),
    }
}

fn machine(number: &mut dyn FnMut() -> f64) -> Machine {
    Machine {
        kerf: length(number),
        nicks: Some(Nicks {
            length: length(number),
            every: length(number),
        }),
        perforation: Some(Perforation {
            cut: length(number),
            gap: length(number),
        }),
        dxf: DxfVersion::R12,
        lines: FileLines::Bare,
        smallest: Some(length(number)),
    }
}

fn toolpaths(number: &mut dyn FnMut() -> f64) -> Vec<Toolpath> {
    [
        Part::Crease { panel: 1 },
        Part::Slit,
        Part::Hole,
        Part::Outline,
    ]
    .map(|part| Toolpath {
        step: ProcessingStep::Cutting,
        part,
        contour: contour(number, part != Part::Slit),
    })
    .into()
}

fn page(number: &mut dyn FnMut() -> f64) -> Page {
    Page {
        name: "210x297 mm".to_owned(),
        width: length(number),
        height: length(number),
        margin: length(number),
        overlap: length(number),
        bar_across: Some(length(number)),
        bar_down: Some(length(number)),
        font: Some("hand.ttf".to_owned()),
    }
}

fn flat(number: &mut dyn FnMut() -> f64) -> Flat {
    Flat {
        extent: Extent {
            least: point(number),
            most: point(number),
        },
        outline: contour(number, true),
        holes: vec![contour(number, true)],
        open_cuts: vec![contour(number, false)],
        creases: vec![CreaseLine {
            from: point(number),
            to: point(number),
            fold_deg: number(),
            panel: usize::MAX,
        }],
        labels: vec![Label {
            text: "barometer.2".to_owned(),
            at: point(number),
            height: number(),
        }],
        letters: vec![Label {
            text: "B".to_owned(),
            at: point(number),
            height: number(),
        }],
        panel_pictures: vec![panel_picture(number)],
        panel_labels: vec![PanelLabel {
            text: "Barometer".to_owned(),
            panel: 0,
            at: point(number),
            up: Vector::new(number(), number()),
            height: number(),
            width: number(),
            printed_on: PrintedFace::Far,
        }],
        dimensions: vec![Dimension {
            text: "7 3/16 in".to_owned(),
            text_at: point(number),
            text_height: number(),
            line: [point(number), point(number)],
            extensions: vec![[point(number), point(number)]],
        }],
    }
}

/// A PNG file of one red pixel.
// Source: PNG (Third Edition): signature, IHDR, IDAT and IEND; written by Python's zlib.
const RED_POINT: [u8; 69] = [
    137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 0, 1, 0, 0, 0, 1, 8, 2, 0,
    0, 0, 144, 119, 83, 222, 0, 0, 0, 12, 73, 68, 65, 84, 120, 218, 99, 56, 97, 99, 4, 0, 3, 6, 1,
    55, 160, 35, 143, 218, 0, 0, 0, 0, 73, 69, 78, 68, 174, 66, 96, 130,
];

fn panel_picture(number: &mut dyn FnMut() -> f64) -> PanelPicture {
    PanelPicture {
        file: PngFile(RED_POINT.to_vec()),
        panel: 0,
        at: point(number),
        up: Vector::new(number(), number()),
        size: [number(), number()],
        printed_on: PrintedFace::Drawn,
        shown: vec![vec![point(number)]],
    }
}

fn panel(number: &mut dyn FnMut() -> f64) -> Panel {
    Panel {
        name: "card".to_owned(),
        part: "wall".to_owned(),
        outline: contour(number, true),
        holes: vec![contour(number, true)],
        hinge: Some(Hinge {
            parent: 0,
            line: [point(number), point(number)],
            fold_deg: number(),
            height: number(),
        }),
        pose: Pose {
            rows: [(); 3].map(|()| [number(), number(), number()]),
            shift: [number(), number(), number()],
        },
    }
}

fn steps(number: &mut dyn FnMut() -> f64) -> Vec<Step> {
    let fold = Action::Fold(vec![Move {
        panel: 0,
        to_deg: number(),
    }]);
    [fold, Action::Turn, Action::Place]
        .map(|action| Step {
            words: "fold the wall".to_owned(),
            why: "it stands first".to_owned(),
            stands: matches!(action, Action::Fold(_)),
            tongues: 0,
            action,
        })
        .into()
}

fn contour(number: &mut dyn FnMut() -> f64, closed: bool) -> Contour {
    let line = Segment::Line { to: point(number) };
    let arc = Segment::Arc {
        to: point(number),
        bulge: number(),
    };
    Contour {
        start: point(number),
        segments: vec![line, arc],
        closed,
    }
}

fn point(number: &mut dyn FnMut() -> f64) -> Point {
    Point::new(number(), number())
}
