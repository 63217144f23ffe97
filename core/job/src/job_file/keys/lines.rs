//! The rows of the table of keys.
//!
//! Notes are the comments of the job that `start` writes, in lines of at most 120 columns.

use super::{Absent, Key, Kind, Line, MOST_OPENINGS};
use crate::job_file::values::{BAR, CALIPER, FROM_ZERO, SIGNED, SIZE};
use crate::job_file::write::Value;

const INSIDE: &str = ", measured inside the box";

/// All lines, in the order in which `start` and the writer write them.
// Source: core/CONTRACT.md, "Job file".
pub(crate) const LINES: [Line; 13] = [
    Line::new("tray")
        .required("tray style=\"NAME\"; `traywright styles` lists the names")
        .start(&[
            "The tray's style; `traywright styles` lists them. Add name=\"…\" if it is to have another name than this file.",
        ])
        .keys(&[
            Key::required("style", "style=\"NAME\"; `traywright styles` lists the names"),
            Key::open("name", Kind::Text),
        ]),
    // Source: the project's plan, "it tells how to measure".
    Line::new("box")
        .required("its inside, as in box length=(mm)182 width=(mm)121 depth=(mm)34")
        .start(&[
            "The box, inside. Measure length (the longer side) and width at the rim and at the floor, at both ends and in",
            "the middle, and write the least. Depth: from the floor to the underside of the closed lid.",
        ])
        .keys(&[
            Key::size("length", INSIDE),
            Key::size("width", INSIDE),
            Key::size("depth", INSIDE),
            Key::length("corner", FROM_ZERO, 0.0),
            Key::length("floor-corner", FROM_ZERO, 0.0),
        ]),
    Line::new("item")
        .repeating()
        .start(&[
            "What the tray holds, at its largest: along the box's length, along its width, and upright.",
        ])
        .argument(Key::required("name", "one in double quotes behind `item`, as in item \"lens\""))
        .keys(&[
            Key::size("length", ""),
            Key::size("width", ""),
            Key::size("depth", ""),
            Key::new("count", Kind::Count(MOST_OPENINGS), Absent::Default(Value::Count(1))),
            Key::text("shape", "rectangle"),
            Key::new("turn", Kind::YesNo, Absent::Default(Value::YesNo(false))),
        ]),
    // Source: ISO 534:2011, abstract: for board the reading of a single sheet is the better one.
    Line::new("board")
        .required(
            "board caliper=(mm)0.3, the thickness of your card, or board \"NAME\"; `traywright boards` lists the names",
        )
        .start(&[
            "The card. Measure one sheet with a caliper, or press ten sheets together, measure them and divide by ten, and",
            "write board caliper=(mm)0.3 with your figure. `traywright boards` lists cards by name; measuring is better.",
        ])
        .like()
        .argument(Key::open("name", Kind::Text))
        .keys(&[
            Key::open("caliper", Kind::Length(CALIPER)),
            Key::length("hinge", SIGNED, 0.0),
            Key::open("tolerance", Kind::Length(FROM_ZERO)),
            Key::open("sheet", Kind::Text),
            Key::open("grain", Kind::Text),
        ]),
    // Source: core/CONTRACT.md, "Job file" for the defaults, and for inches the trade's round figure.
    Line::new("fit")
        .start(&[
            "How much room is left, in all and not at each side: around the tray in its box, around the item in its opening,",
            "and (play) where folded layers lie in one another.",
        ])
        .like()
        .keys(&[
            Key::length("box", FROM_ZERO, 2.0).starting_at(2.0, Some(0.1)),
            Key::length("item", FROM_ZERO, 2.0).starting_at(2.0, Some(0.1)),
            Key::length("play", FROM_ZERO, 0.5).starting_at(0.5, None),
        ]),
    Line::new("slot")
        .start(&[
            "The opening: \"cross\" (four flaps hold the item), \"doors\" (two flaps) or \"open\" (cut out clean).",
            "With \"open\" an item that says shape=\"round\" or \"oval\" gets its curve, and finger=(mm)20 adds notches to grip it.",
        ])
        .keys(&[
            Key::text("cut", "cross").starting(Value::Text("cross")),
            Key::open("finger", Kind::Length(SIZE)),
        ]),
    // Source: core/CONTRACT.md, "Job file": A4 with 6 mm, or Letter with 0.25 in where the box is in inches.
    Line::new("page")
        .start(&["The paper in your printer, and the border that the printer leaves white."])
        .like()
        .argument(Key {
            start: [Some(Value::Text("A4")), Some(Value::Text("Letter"))],
            ..Key::open("name or size", Kind::Text)
        })
        .keys(&[
            Key::open("margin", Kind::Length(FROM_ZERO)).starting_at(6.0, Some(0.25)),
            Key::open("font", Kind::Text),
            // Common practice, no source.
            Key::length("overlap", FROM_ZERO, 10.0),
            Key::length("bar-across", BAR, 100.0),
            Key::length("bar-down", BAR, 100.0),
        ]),
    Line::new("draw")
        .start(&[
            "The face of the card that carries the lines: \"inside\" hides them in the finished tray, \"outside\" shows them.",
        ])
        .like()
        .keys(&[Key::required("face", "face=\"inside\" or face=\"outside\"")
            .starting(Value::Text("inside"))]),
    Line::new("words").argument(Key::required("language", "one, as in words \"de\"")),
    Line::new("kerf")
        .start_as_comment(&[
            "For a machine that cuts, only if it needs them: what the tool takes away (most machines see to it themselves), gaps",
            "that keep the piece in its sheet, and DXF for an older program.",
        ])
        .like()
        .keys(&[Key {
            kind: Kind::Length(SIZE),
            ..Key::required(
                "width",
                "width=(mm)0.2, what the tool takes away; without the line the machine's own program sees to it",
            )
        }
        .starting(Value::Mm(0.2))]),
    // Source: core/CONTRACT.md, "Job file", whose figures are the defaults (common practice, no source).
    Line::new("nicks").start_as_comment(&[]).like().keys(&[
        Key::length("length", SIZE, 0.4).starting(Value::Mm(0.4)),
        Key::length("every", SIZE, 60.0).starting(Value::Mm(60.0)),
    ]),
    Line::new("dxf").start_as_comment(&[]).like().keys(&[Key::required(
        "version",
        "version=\"R2000\", or version=\"R12\" for an older program",
    )
    .starting(Value::Text("R12"))]),
    Line::new("set").repeating().with_settings(),
];
