//! The rows of the table of keys.
//!
//! Notes are the comments of the job that `start` writes, in lines of at most 120 columns.

use super::{Key, Line, MOST_OPENINGS};
use crate::job_file::place::Place::{
    Board, Caliper, Choice, Condition, Count, Font, Language, Length, Margin, Name, Nicks,
    OpenLength, Overlap, Page, Perforation, Quarters, Sheet, Signed, Style, YesNo,
};
use crate::job_file::values::{BAR, FROM_ZERO, SIGNED, SIZE};
use crate::job_file::write::Value::{Inches, Mm, Text};
use crate::job_file::{board, items, labels, nicks, pages, parts, prints};

const INSIDE: &str = ", measured inside the box";

/// All lines, in the order in which `start` and the writer write them.
// Source: core/CONTRACT.md, "Job file".
pub(crate) const LINES: [Line; 17] = [
    Line::new("tray")
        .required("tray style=\"NAME\"; `traywright styles` lists the names")
        .start(&[
            "The tray's style; `traywright styles` lists them. Add name=\"…\" if it is to have another name than this file,",
            "and height=(mm)30 if the tray is to be lower than its box.",
        ])
        .keys(&[
            Key::new("style", |form| Style(&mut form.job))
                .required("style=\"NAME\"; `traywright styles` lists the names"),
            Key::new("name", |form| Name(&mut form.job.title)),
            Key::new("height", |form| OpenLength(&mut form.job.tray_height, SIZE)),
        ]),
    // Source: the project's plan, "it tells how to measure".
    Line::new("box")
        .required("its inside, as in box length=(mm)182 width=(mm)121 depth=(mm)34")
        .start(&[
            "The box, inside. Measure length (the longer side) and width at the rim and at the floor, at both ends and in",
            "the middle, and write the least. Depth: from the floor to the underside of the closed lid.",
        ])
        .keys(&[
            Key::new("length", |form| Length(&mut form.job.box_size.length, SIZE)).measured(INSIDE),
            Key::new("width", |form| Length(&mut form.job.box_size.width, SIZE)).measured(INSIDE),
            Key::new("depth", |form| Length(&mut form.job.box_size.depth, SIZE)).measured(INSIDE),
            Key::new("corner", |form| Length(&mut form.job.rounding.corner, FROM_ZERO)),
            Key::new("floor-corner", |form| Length(&mut form.job.rounding.floor_corner, FROM_ZERO)),
        ])
        .finish(parts::finish_box),
    Line::new("item")
        .repeating()
        .start(&[
            "What the tray holds, at its largest: along the box's length, along its width, and upright. Where it needs them:",
            "pad=(mm)8 (a pad under it), straight=(mm)20 (the height up to which it keeps its outline, for a dome or a bottle),",
            "cut=\"open\" finger=(mm)16 (an opening of its own kind, with notches to grip it), loose=#true (it may slide).",
        ])
        .argument(
            Key::new("name", |form| Name(&mut form.item.name))
                .required("one in double quotes behind `item`, as in item \"lens\""),
        )
        .keys(&[
            Key::new("length", |form| Length(&mut form.item.length, SIZE)).measured(""),
            Key::new("width", |form| Length(&mut form.item.width, SIZE)).measured(""),
            Key::new("depth", |form| Length(&mut form.item.depth, SIZE)).measured(""),
            Key::new("count", |form| Count(&mut form.count, MOST_OPENINGS)),
            Key::new("shape", |form| Choice(&mut form.item.shape)),
            Key::new("turn", |form| YesNo(&mut form.item.turns)),
            Key::new("pad", |form| Length(&mut form.item.pad, FROM_ZERO)),
            Key::new("straight", |form| OpenLength(&mut form.item.straight, SIZE)),
            Key::new("cut", |form| Choice(&mut form.item.cut)),
            Key::new("finger", |form| OpenLength(&mut form.item.finger, SIZE)),
            Key::new("loose", |form| YesNo(&mut form.item.loose)),
        ])
        .finish(items::finish),
    // Source: ISO 534:2011, abstract: for board the reading of a single sheet is the better one.
    Line::new("board")
        .required(
            "board caliper=(mm)0.3, the thickness of your card, or board \"NAME\"; `traywright boards` lists the names",
        )
        .start(&[
            "The card. Measure one sheet with a caliper, or press ten sheets together, measure them and divide by ten, and",
            "write board caliper=(mm)0.3 with your figure. `traywright boards` lists cards by name; measuring is better.",
            "Its creases are pressed up to 0.6 mm; above that it is taken for solid board, whose creases are cut half through.",
            "Where it is something else, add kind=\"carton\", \"solid\" or \"corrugated\", or crease=\"pressed\" or \"half-cut\".",
        ])
        .like()
        .argument(Key::new("name", |form| Board(&mut form.job.board)))
        .keys(&[
            Key::new("caliper", |form| Caliper(&mut form.job.board)),
            Key::new("hinge", |form| Signed(&mut form.job.board.hinge, SIGNED)),
            Key::new("reading", |form| OpenLength(&mut form.job.board.reading, SIZE)),
            Key::new("tolerance", |form| OpenLength(&mut form.job.board.tolerance, FROM_ZERO)),
            Key::new("sheet", |form| Sheet(&mut form.job.board.sheet)),
            Key::new("grain", |form| Choice(&mut form.job.board.grain)),
            Key::new("kind", |form| Choice(&mut form.job.board.kind)),
            Key::new("crease", |form| Choice(&mut form.job.board.crease)),
        ])
        .finish(board::finish),
    // Source: core/CONTRACT.md, "Job file", for both figures.
    Line::new("tool")
        .start(&[
            "What creases and cuts: \"hand\" (good to 0.5 mm) or \"machine\" (0.1 mm); add accuracy=(mm)0.3 if you know better.",
            "For a machine lines=\"bare\" writes SVG and DXF with nothing but the lines that it cuts and creases.",
        ])
        .like()
        .keys(&[
            Key::new("by", |form| Choice(&mut form.job.tool.by)).starting(Text("hand")),
            Key::new("accuracy", |form| OpenLength(&mut form.job.tool.accuracy, SIZE)),
            Key::new("smallest", |form| OpenLength(&mut form.job.output.machine.smallest, SIZE)),
            Key::new("lines", |form| Choice(&mut form.job.output.machine.lines)),
        ]),
    // Source: core/CONTRACT.md, "Job file" for the defaults, and for inches the trade's round figure.
    Line::new("fit")
        .start(&[
            "How much room is left, in all and not at each side: around the tray in its box, around the item in its opening,",
            "and (play) where folded layers lie in one another.",
        ])
        .like()
        .keys(&[
            Key::new("box", |form| Length(&mut form.job.fit.around_tray, FROM_ZERO))
                .starting_at(Mm(2.0), Some(Inches(0.1))),
            Key::new("item", |form| Length(&mut form.job.fit.around_item, FROM_ZERO))
                .starting_at(Mm(2.0), Some(Inches(0.1))),
            Key::new("play", |form| Length(&mut form.job.fit.play, FROM_ZERO))
                .starting_at(Mm(0.5), None),
        ]),
    Line::new("slot")
        .start(&[
            "The opening: \"cross\" (four flaps hold the item), \"doors\" (two flaps) or \"open\" (cut out clean).",
            "With \"open\" an item that says shape=\"round\" or \"oval\" gets its curve, and finger=(mm)20 adds notches to grip it.",
        ])
        .keys(&[
            Key::new("cut", |form| Choice(&mut form.job.slot.cut)).starting(Text("cross")),
            Key::new("finger", |form| OpenLength(&mut form.job.slot.finger, SIZE)),
        ])
        .finish(parts::finish_slot),
    // Source: core/CONTRACT.md, "Job file": A4 with 6 mm, or Letter with 0.25 in where the box is in inches.
    Line::new("page")
        .start(&["The paper in your printer, and the border that the printer leaves white."])
        .like()
        .argument(
            Key::new("name or size", |form| Page(&mut form.job))
                .starting_at(Text("A4"), Some(Text("Letter"))),
        )
        .keys(&[
            Key::new("margin", |form| Margin(&mut form.job.output.paper))
                .starting_at(Mm(6.0), Some(Inches(0.25))),
            Key::new("font", |form| Font(&mut form.job)),
            Key::new("overlap", |form| Overlap(&mut form.job.output.paper)),
            Key::new("condition", |form| Condition(&mut form.job.output.paper)),
            Key::new("bar-across", |form| OpenLength(&mut form.job.output.paper.page_mut().bar_across, BAR)),
            Key::new("bar-down", |form| OpenLength(&mut form.job.output.paper.page_mut().bar_down, BAR)),
        ])
        .finish(pages::finish),
    Line::new("draw")
        .start(&[
            "The face of the card that carries the lines: \"inside\" hides them in a tray that stands on its walls.",
            "The floor of a tray shows the face inside: draw such a tray on the face \"outside\".",
            "A machine creases carton and solid board from above: draw for it on the face \"outside\" too.",
        ])
        .like()
        .keys(&[
            Key::new("face", |form| Choice(&mut form.job.output.drawn_face)).starting(Text("inside")),
            Key::new("letters", |form| YesNo(&mut form.job.output.letters)),
        ])
        .finish(parts::finish_draw),
    Line::new("print")
        .repeating()
        .keys(&[
            Key::new("image", |form| Name(&mut form.print.image))
                .required("image=\"FILE.png\", named from where the job lies"),
            Key::new("on", |form| Name(&mut form.print.panel))
                .required("on=\"deck\", the name of a panel; `traywright styles NAME --tree` lists them"),
            Key::new("fit", |form| Choice(&mut form.print.fit)),
            Key::new("turn", |form| Quarters(&mut form.print.turn)),
        ])
        .finish(prints::finish),
    Line::new("label")
        .repeating()
        .argument(
            Key::new("text", |form| Name(&mut form.label.text))
                .required("what it says, as in label \"Lens\" on=\"deck\""),
        )
        .keys(&[
            Key::new("on", |form| Name(&mut form.label.panel))
                .required("on=\"deck\", the name of a panel; `traywright styles NAME --tree` lists them"),
            Key::new("size", |form| OpenLength(&mut form.label.size, SIZE)),
            Key::new("turn", |form| Quarters(&mut form.label.turn)),
        ])
        .finish(labels::finish),
    Line::new("words").argument(
        Key::new("language", |form| Language(&mut form.job.output.language))
            .required("one, as in words \"de\""),
    ),
    Line::new("kerf")
        .start_as_comment(&[
            "For a machine that cuts, only if it needs them: what the tool takes away (most machines see to it themselves), gaps",
            "that keep the piece in its sheet, and DXF for an older program.",
        ])
        .like()
        .keys(&[
            Key::new("width", |form| Length(&mut form.job.output.machine.kerf, SIZE))
                .required(
                    "width=(mm)0.2, what the tool takes away; without the line the machine's own program sees to it",
                )
                .starting(Mm(0.2)),
        ]),
    // Source: core/CONTRACT.md, "Job file", whose figures are the defaults (common practice, no source).
    Line::new("nicks")
        .start_as_comment(&[])
        .like()
        .keys(&[
            Key::new("length", |form| Nicks(&mut form.job.output.machine.nicks, |it| &mut it.length))
                .starting(Mm(0.4)),
            Key::new("every", |form| Nicks(&mut form.job.output.machine.nicks, |it| &mut it.every))
                .starting(Mm(60.0)),
        ])
        .finish(nicks::finish),
    // Source: core/CONTRACT.md, "Job file", whose figures are the defaults (common practice, no source).
    Line::new("perforate")
        .start_as_comment(&[
            "For a machine without a creasing tool: short cuts along every crease, with gaps between them.",
        ])
        .like()
        .keys(&[
            Key::new("cut", |form| Perforation(&mut form.job.output.machine.perforation, |it| &mut it.cut))
                .starting(Mm(2.0)),
            Key::new("gap", |form| Perforation(&mut form.job.output.machine.perforation, |it| &mut it.gap))
                .starting(Mm(2.0)),
        ])
        .finish(parts::finish_perforate),
    Line::new("dxf")
        .start_as_comment(&[])
        .like()
        .keys(&[
            Key::new("version", |form| Choice(&mut form.job.output.machine.dxf))
                .required("version=\"R2000\", or version=\"R12\" for an older program")
                .starting(Text("R12")),
        ]),
    Line::new("set").repeating().with_settings().finish(parts::finish_set),
];
