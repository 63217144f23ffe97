//! The pads of a job, as parts to cut.
//!
//! **Input:** a checked job. **Output:** a line for each kind of item on a pad. **Does not** compute which pad an item needs:
//! the engine does.

use traywright_engine::job::{Item, ItemShape, Job};
use traywright_engine::wording::{length, size};

use super::sentence::paragraph;
use crate::checked_job::CheckedJob;

/// A line for each kind of pad and where the pads go, or nothing.
pub fn to_cut(checked_job: &CheckedJob) -> String {
    let floor = match checked_job.has_floor {
        true => "tray",
        false => "box",
    };
    let lines = parts(&checked_job.job);
    match lines.is_empty() {
        true => lines,
        false => format!("{lines}Stick each pad to the floor of the {floor}, below its item.\n"),
    }
}

/// A line for each kind of pad.
fn parts(job: &Job) -> String {
    let kinds = job.items.chunk_by(|_, next| next.number > 1);
    let padded = kinds.filter(|kind| kind[0].pad.mm() > 0.0);
    let lines = padded.map(|kind| paragraph("", &line(job, &kind[0], kind.len())));
    lines.collect()
}

fn line(job: &Job, item: &Item, count: usize) -> String {
    let written = |mm: f64| length(mm, job.unit);
    let many = match count {
        1 => "a pad".to_owned(),
        _ => format!("{count} pads"),
    };
    let outline = match item.shape {
        ItemShape::Round => format!("round, {} across", written(item.length.mm())),
        ItemShape::Oval => format!(
            "oval, {}",
            size(&[item.length.mm(), item.width.mm()], job.unit)
        ),
        _ => size(&[item.length.mm(), item.width.mm()], job.unit),
    };
    let thick = written(item.pad.mm());
    format!("Cut {many} for {}: {outline}, {thick} thick.", item.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job_file::read;
    use crate::library::Boards;

    #[test]
    fn each_kind_of_pad_is_named_once_with_its_size() {
        // Derived by hand from the lines of the job; an item without a pad has no line.
        let text = "tray style=\"multi-slot\"\nbox length=(mm)200 width=(mm)100 depth=(mm)40\n\
            item \"clock\" length=(mm)104 width=(mm)90 depth=(mm)30 pad=(mm)8\n\
            item \"lens\" shape=\"round\" length=(mm)20 width=(mm)20 depth=(mm)35 pad=(mm)2.5 count=3\n\
            item \"key\" length=(mm)10 width=(mm)20 depth=(mm)38\nboard caliper=(mm)0.3\n";
        let job = read("pads.kdl", text.as_bytes(), &Boards::shipped()).expect("a sound job");
        assert_eq!(
            parts(&job),
            "Cut a pad for clock: 104 × 90 mm, 8 mm thick.\n\
             Cut 3 pads for lens: round, 20 mm across, 2.5 mm thick.\n"
        );
    }
}
