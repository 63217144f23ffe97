//! The text of a new job: every line with a comment that explains it and how to measure for it.
//!
//! **Input:** a draft. **Output:** the file. Never leaves out a line that a maker may want to change.

use traywright_engine::job::Unit;

use super::draft::JobDraft;
use crate::job_file::keys::{Key, LINES, Line, Start};

/// The note for card that is not in the list, and for card so thick that its fold line is unknown.
const STRIP: &str = "// Fold the strip first: `traywright strip` and this file. It takes 5 minutes; write what it says as reading=(mm)….\n";

/// The whole file.
pub fn job(draft: &JobDraft) -> String {
    let mut text = head(draft);
    let takes_slot = draft.shipped_style().is_none_or(|style| style.takes_slot());
    let is_used =
        |line: &&Line| line.start != Start::Nothing && (takes_slot || line.name != "slot");
    for line in LINES.iter().filter(is_used) {
        if !line.note.is_empty() {
            text.push('\n');
        }
        for words in line.note {
            text.push_str(&format!("// {words}\n"));
        }
        if line.name == "board" && draft.wants_strip() {
            text.push_str(STRIP);
        }
        let times = if line.name == "item" {
            draft.items.len()
        } else {
            1
        };
        for written in (0..times).filter_map(|item| written(line, draft, item)) {
            text.push_str(&written);
            text.push('\n');
        }
    }
    text
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

/// The line for a draft; `item` is the index for a line of items.
fn written(line: &Line, draft: &JobDraft, item: usize) -> Option<String> {
    let unit = match draft.unit {
        Unit::Millimetre => 0,
        Unit::Inch => 1,
    };
    let value = |key: &Key| draft.value(line.name, key.name, item).or(key.start[unit]);
    let example = || line.with(|key| value(key).map(|value| value.to_string()));
    let Some(carried) = draft.carried.as_ref().filter(|_| line.like) else {
        return Some(match line.start {
            Start::Comment => format!("// {}", example()),
            Start::Line | Start::Nothing => example(),
        });
    };
    if let Some(written) = carried.line(line.name) {
        return Some(written.to_owned());
    }
    let is_carried =
        |other: &Line| other.start == Start::Comment && carried.line(other.name).is_some();
    let defaults = line.with(Key::default);
    match line.start {
        // The older job has another line of the group, so this one is not needed.
        Start::Comment if LINES.iter().any(is_carried) => None,
        Start::Comment => Some(format!("// {}", example())),
        // A line that the older job left out has its default, in either unit.
        Start::Line | Start::Nothing if defaults != line.name => Some(format!("// {defaults}")),
        Start::Line | Start::Nothing => Some(example()),
    }
}

#[cfg(test)]
mod tests {
    use super::super::draft::{Card, Carried, example};
    use super::*;
    use crate::job_file::read;
    use crate::library::Boards;
    use traywright_engine::job::{BoardKind, DrawnFace, Length, Machine, ToolKind};

    fn mm(number: f64) -> Length {
        Length::known(number)
    }

    fn read_back(text: &str) -> traywright_engine::Job {
        read("new.kdl", text.as_bytes(), &Boards::shipped())
            .unwrap_or_else(|error| panic!("{error:?}\n{text}"))
    }

    // Source: core/GEOMETRY.md, "Single-slot: worked": box 182x121x34, item 96x61x28, card of 0.29 mm.
    #[test]
    fn the_example_is_read_back_as_it_is() {
        let job = read_back(&job(&example(Unit::Millimetre)));
        assert_eq!(
            (job.box_size.length, job.box_size.width, job.box_size.depth),
            (mm(182.0), mm(121.0), mm(34.0))
        );
        let item = &job.items[0];
        assert_eq!(
            (item.length, item.width, item.depth),
            (mm(96.0), mm(61.0), mm(28.0))
        );
        assert_eq!(
            (job.board.caliper, job.output.paper.page().margin, job.unit),
            (mm(0.29), mm(6.0), Unit::Millimetre)
        );
    }

    // Source: core/CONTRACT.md, "Commands": in inches a fit of 0.1 in and Letter with 0.25 in. A box rounded up or an
    // item rounded down would not be the maker's.
    #[test]
    fn the_inch_example_is_a_box_no_larger_and_an_item_no_smaller() {
        let job = read_back(&job(&example(Unit::Inch)));
        assert_eq!(
            (job.unit, job.output.paper.page().name.as_str()),
            (Unit::Inch, "Letter")
        );
        assert!(
            (job.output.paper.page().margin.mm() - 6.35).abs() < 1e-9
                && (job.fit.around_tray.mm() - 2.54).abs() < 1e-9
        );
        let in_box = job.box_size;
        for (inch, metric) in [
            (in_box.length.mm(), 182.0),
            (in_box.width.mm(), 121.0),
            (in_box.depth.mm(), 34.0),
        ] {
            assert!(
                inch <= metric && metric - inch < 25.4 / 16.0,
                "{inch} for {metric}"
            );
        }
        let item = &job.items[0];
        for (inch, metric) in [
            (item.length.mm(), 96.0),
            (item.width.mm(), 61.0),
            (item.depth.mm(), 28.0),
        ] {
            assert!(
                inch >= metric && inch - metric < 25.4 / 16.0,
                "{inch} for {metric}"
            );
        }
    }

    /// Source: core/CONTRACT.md, "Commands": corrugated board is creased on the face inside its folds.
    #[test]
    fn a_machine_draws_on_the_face_that_it_creases() {
        let boards = Boards::shipped();
        let corrugated = boards.all().iter();
        let corrugated = corrugated.filter(|stock| stock.kind == BoardKind::Corrugated);
        let corrugated: Vec<Card> = corrugated
            .map(|stock| Card::Named(stock.name.clone()))
            .collect();
        assert!(!corrugated.is_empty());
        let corrugated = corrugated.into_iter();
        let own = example(Unit::Millimetre).card;
        for (tool, card, face) in [
            (ToolKind::Hand, own.clone(), DrawnFace::Inside),
            (ToolKind::Machine, own, DrawnFace::Outside),
        ]
        .into_iter()
        .chain(corrugated.map(|card| (ToolKind::Machine, card, DrawnFace::Inside)))
        {
            let mut draft = example(Unit::Millimetre);
            (draft.tool, draft.card) = (tool, card);
            let job = read_back(&job(&draft));
            assert_eq!(job.output.drawn_face, face, "{:?}", draft.card);
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
        assert_eq!(
            (
                job.output.paper.page().name.as_str(),
                job.output.paper.page().margin
            ),
            ("Letter", mm(6.35))
        );
        assert_eq!(
            (job.fit.around_tray, job.fit.around_item, job.board.caliper),
            (mm(1.5), mm(2.0), mm(0.31))
        );
        assert_eq!(job.output.machine, Machine::default());
    }
}
