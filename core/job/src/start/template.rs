//! The text of a new job: every line with a note that says what it is and how to measure for it.
//!
//! Given a filling, gives the file. Never leaves a line out that a maker may want to change.

use traywright_engine::job::Unit;

use super::draft::{Card, JobDraft, Measures};
use crate::job_file::quoted;
use crate::lengths::in_job;

/// The whole file.
pub fn job(draft: &JobDraft) -> String {
    let parts = [
        head(draft),
        tray(draft),
        in_box(draft),
        item(draft),
        board(draft),
        fit(draft),
        OPENING.to_owned(),
        page(draft),
        draw(draft),
        machine(draft),
    ];
    parts.join("\n")
}

fn head(draft: &JobDraft) -> String {
    let begin = if draft.answered {
        "// A job for traywright.\n"
    } else {
        "// A job for traywright, filled with the measures of an example: put yours in their place.\n"
    };
    let unit = match draft.unit {
        Unit::Millimetre => "(mm)182 or (mm)18.5; inches are written (in)7.25 or (in)\"7 3/16\"",
        Unit::Inch => "(in)7.25 or (in)\"7 3/16\"; millimetres are written (mm)182",
    };
    format!(
        "{begin}// What stands behind two strokes is a note for you; traywright does not read it.\n\
         // Every length has its unit: {unit}.\n"
    )
}

fn tray(draft: &JobDraft) -> String {
    format!(
        "// The tray's style; `traywright styles` lists them. Add name=\"…\" if it is to have another name than this file.\n\
         tray style={}\n",
        quoted(&draft.style)
    )
}

// Source: the project's plan, "it tells how to measure".
fn in_box(draft: &JobDraft) -> String {
    format!(
        "// The box, inside. Measure length (the longer side) and width at the rim and at the floor, at both ends and in\n\
         // the middle, and write the least. Depth: from the floor to the underside of the closed lid.\n\
         box {}\n",
        measures(&draft.in_box)
    )
}

fn item(draft: &JobDraft) -> String {
    format!(
        "// What the tray holds, at its largest: along the box's length, along its width, and upright.\n\
         item {} {}\n",
        quoted(&draft.item_name),
        measures(&draft.item)
    )
}

// Source: ISO 534:2011, abstract: for board the reading of a single sheet is the better one.
fn board(draft: &JobDraft) -> String {
    let line = match (&draft.carried, &draft.card) {
        (Some(carried), _) => carried.board.clone(),
        (None, Card::Named(name)) => format!("board {}", quoted(name)),
        (None, Card::Caliper(caliper)) => format!("board caliper={}", in_job(*caliper)),
    };
    format!(
        "// The card. Measure one sheet with a caliper, or press ten sheets together, measure them and divide by ten, and\n\
         // write board caliper=(mm)0.3 with your figure. `traywright boards` lists cards by name; measuring is better.\n\
         {line}\n"
    )
}

fn fit(draft: &JobDraft) -> String {
    // Source: the contract: its example's defaults, and for inches the trade's round figure.
    let usual = match draft.unit {
        Unit::Millimetre => "fit box=(mm)2 item=(mm)2 play=(mm)0.5",
        Unit::Inch => "fit box=(in)0.1 item=(in)0.1",
    };
    let line = match &draft.carried {
        Some(carried) => carried
            .fit
            .as_deref()
            .unwrap_or("// fit box=(mm)2 item=(mm)2 play=(mm)0.5"),
        None => usual,
    };
    format!(
        "// How much room is left, in all and not at each side: around the tray in its box, around the item in its opening,\n\
         // and (play) where folded layers lie in one another.\n\
         {line}\n"
    )
}

const OPENING: &str = "// The opening: \"cross\" (four flaps hold the item), \"doors\" (two flaps) or \"open\" (cut out clean).\n\
    // With \"open\" an item that says shape=\"round\" or \"oval\" gets its curve, and finger=(mm)20 adds notches to grip it.\n\
    slot cut=\"cross\"\n";

fn page(draft: &JobDraft) -> String {
    let (name, margin) = match draft.unit {
        Unit::Millimetre => ("A4", "(mm)6"),
        Unit::Inch => ("Letter", "(in)0.25"),
    };
    let line = match &draft.carried {
        Some(carried) => carried.page.clone(),
        None => {
            let name = draft.page.as_deref().unwrap_or(name);
            format!("page {} margin={margin}", quoted(name))
        }
    };
    format!("// The paper in your printer, and the border that the printer leaves white.\n{line}\n")
}

fn draw(draft: &JobDraft) -> String {
    let carried = draft
        .carried
        .as_ref()
        .and_then(|carried| carried.draw.as_deref());
    format!(
        "// The face of the card that carries the lines: \"inside\" hides them in the finished tray, \"outside\" shows them.\n\
         {}\n",
        carried.unwrap_or("draw face=\"inside\"")
    )
}

fn machine(draft: &JobDraft) -> String {
    let usual = [
        "kerf width=(mm)0.2",
        "nicks length=(mm)0.4 every=(mm)60",
        "dxf version=\"R12\"",
    ];
    let carried = draft.carried.as_ref().map(|carried| &carried.machine);
    let lines = match carried.filter(|carried| !carried.is_empty()) {
        Some(carried) => carried.clone(),
        None => usual.map(|line| format!("// {line}")).to_vec(),
    };
    format!(
        "// For a machine that cuts, only if it needs them: what the tool takes away (most machines see to it themselves), gaps\n\
         // that keep the piece in its sheet, and DXF for an older program.\n\
         {}\n",
        lines.join("\n")
    )
}

fn measures(measures: &Measures) -> String {
    format!(
        "length={} width={} depth={}",
        in_job(measures.length),
        in_job(measures.width),
        in_job(measures.depth)
    )
}

#[cfg(test)]
mod tests {
    use super::super::draft::{Carried, example};
    use super::*;
    use crate::job_file::read;
    use crate::library::Boards;
    use traywright_engine::job::MachineOptions;

    fn read_back(text: &str) -> traywright_engine::Job {
        read("new.kdl", text.as_bytes(), &Boards::shipped())
            .unwrap_or_else(|error| panic!("{error:?}\n{text}"))
    }

    // Source: the project's issue names the example: box 182x121x34, item 96x61x28, card of 0.29 mm.
    #[test]
    fn the_example_is_read_back_as_it_is() {
        let job = read_back(&job(&example(Unit::Millimetre)));
        assert_eq!(
            (job.box_size.length, job.box_size.width, job.box_size.depth),
            (182.0, 121.0, 34.0)
        );
        let item = &job.items[0];
        assert_eq!((item.length, item.width, item.depth), (96.0, 61.0, 28.0));
        assert_eq!(
            (job.board.caliper, job.page.margin, job.unit),
            (0.29, 6.0, Unit::Millimetre)
        );
    }

    // Source: the contract: in inches a fit of 0.1 in and Letter with 0.25 in. A box rounded up or an item rounded down
    // would not be the maker's.
    #[test]
    fn the_inch_example_is_a_box_no_larger_and_an_item_no_smaller() {
        let job = read_back(&job(&example(Unit::Inch)));
        assert_eq!((job.unit, job.page.name.as_str()), (Unit::Inch, "Letter"));
        assert!((job.page.margin - 6.35).abs() < 1e-9 && (job.fit.around_tray - 2.54).abs() < 1e-9);
        let in_box = job.box_size;
        for (inch, metric) in [
            (in_box.length, 182.0),
            (in_box.width, 121.0),
            (in_box.depth, 34.0),
        ] {
            assert!(
                inch <= metric && metric - inch < 25.4 / 16.0,
                "{inch} for {metric}"
            );
        }
        let item = &job.items[0];
        for (inch, metric) in [(item.length, 96.0), (item.width, 61.0), (item.depth, 28.0)] {
            assert!(
                inch >= metric && inch - metric < 25.4 / 16.0,
                "{inch} for {metric}"
            );
        }
    }

    #[test]
    fn a_job_that_worked_hands_its_lines_on() {
        let old = "tray style=\"single-slot\"\nbox length=(in)8 width=(in)5 depth=(in)2\n\
            board caliper=(mm)0.31 grain=\"width\" // bought in spring\nfit box=(mm)1.5\n";
        let mut draft = example(Unit::Millimetre);
        draft.carried = Some(Carried::new(old, &read_back(old)));
        let text = job(&draft);
        assert!(
            text.contains("\nboard caliper=(mm)0.31 grain=\"width\" // bought in spring\n"),
            "{text}"
        );
        assert!(text.contains("\nfit box=(mm)1.5\n"), "{text}");
        // The old job did not name its page, which came from its inches.
        let job = read_back(&text);
        assert_eq!((job.page.name.as_str(), job.page.margin), ("Letter", 6.35));
        assert_eq!(
            (job.fit.around_tray, job.fit.around_item, job.board.caliper),
            (1.5, 2.0, 0.31)
        );
        assert_eq!(job.machine_options, MachineOptions::default());
    }
}
