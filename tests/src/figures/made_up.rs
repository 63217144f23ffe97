//! Jobs and styles made up for the figures: trays for a batch, combs of many panels, boxes of many vials.

use traywright_engine::Style;
use traywright_engine::job::{Cut, Job, Length};

use crate::jobs::{an_item, job, level, style};

/// A tray of many panels: its style and its job.
pub struct Comb {
    /// The text of the style.
    pub text: String,
    /// The style.
    pub style: Style,
    /// The job.
    pub job: Job,
}

/// Distance from one tooth of a comb to the next on the same side.
const PITCH_MM: f64 = 3.0;

/// A deck with so many panels less one on its two long edges, each a wall of its own.
///
/// # Panics
/// When the style is refused: more panels than a style may have.
pub fn comb(panels: usize) -> Comb {
    let tooth = |tooth: usize| {
        let side = ["south", "north"][tooth % 2];
        let inset = (tooth / 2) as f64 * PITCH_MM + 0.5;
        format!(
            "\"tooth-{tooth}\": Hinged(on: \"deck.{side}\", span: \"2mm\", inset: {{\"west\": \"{inset}mm\"}}, reach: Outside(\"tray.depth\")),"
        )
    };
    let teeth: String = (0..panels - 1).map(tooth).collect();
    let text = format!(
        "Style(language: 1, about: \"A deck between many narrow walls.\", items: 1, stands: RootUp, fills: [Depth],
         panels: {{\"deck\": Rectangle(length: Outside(\"tray.length\"), width: Outside(\"tray.width\")), {teeth}}},
         openings: {{\"seat\": Slot(on: \"deck\")}})"
    );
    let length = panels.div_ceil(2) as f64 * PITCH_MM;
    let mut job = level(job(
        [length.max(40.0) + 2.0, 62.0, 22.0],
        [12.0, 12.0, 18.0],
        0.3,
    ));
    job.slot.cut = Cut::Open;
    job.board.hinge = Some(0.0);
    let style = Style::read("comb", &text).unwrap_or_else(|faults| panic!("{faults:#?}"));
    Comb { text, style, job }
}

/// So many jobs of the style `single-slot`, each of another size, with the opening cut out.
pub fn trays(count: usize) -> Vec<Job> {
    let tray = |number: usize| {
        let more = number as f64 * 0.5;
        let mut job = level(job(
            [182.0 + more, 121.0, 34.0],
            [96.0 + more, 61.0, 28.0],
            0.29,
        ));
        job.slot.cut = Cut::Open;
        job.board.hinge = Some(0.0);
        job
    };
    (0..count).map(tray).collect()
}

/// The style `multi-slot` and a job with so many vials in it.
///
/// # Panics
/// When the style is missing.
pub fn vials(count: usize) -> (Style, Job) {
    let side = (count as f64).sqrt().ceil() * 32.0 + 40.0;
    let mut job = job([side + 20.0, side, 40.0], [20.0, 20.0, 36.0], 0.3);
    job.items = (0..count)
        .map(|number| an_item(&format!("vial {number}"), [20.0, 20.0, 36.0]))
        .collect();
    for item in &mut job.items {
        item.pad = Length::known(2.0);
    }
    job.slot.cut = Cut::Open;
    (style("designs/styles/multi-slot.ron"), job)
}
