//! A common job for any style: the first of a few simple ones that the style can make.
//!
//! **Input:** any style. **Output:** a job's text with its tray, to be printed as an example and a picture. Knows no
//! style by name: it tries boxes and items of common sizes, those of the shipped example first.

use traywright_engine::{CheckedTray, Job, Level, Style, make};

use crate::job_file::{self, Value, line};
use crate::library::Boards;

/// Boxes to try: length, width and depth in mm.
// Source: common practice, none published; the first is that of the shipped example.
const BOXES: [[f64; 3]; 6] = [
    [182.0, 121.0, 34.0],
    [240.0, 180.0, 60.0],
    [150.0, 150.0, 40.0],
    [300.0, 220.0, 50.0],
    [120.0, 90.0, 25.0],
    [160.0, 110.0, 80.0],
];

/// Length and width of the items as parts of the box's, and how much lower than the box they are, in mm.
// Source: common practice, none published; the first gives the item of the shipped example.
const ITEMS: [(f64, f64, f64); 4] = [
    (0.53, 0.5, 6.0),
    (0.4, 0.4, 6.0),
    (0.3, 0.3, 15.0),
    (0.65, 0.65, 6.0),
];

/// Number of items for a style that takes several.
// Source: common practice, none published: enough to show how they are set out.
const SEVERAL: usize = 3;

/// A job and its result.
#[derive(Debug)]
pub struct ExampleJob {
    /// As a maker would write it.
    pub text: String,
    /// The job read from the text.
    pub job: Job,
    /// The tray; none if no common job suits the style.
    pub tray: Option<CheckedTray>,
}

impl ExampleJob {
    /// The first job of which the style makes a tray without a warning, else the first that it makes at all, else the
    /// first.
    pub fn of(style: &Style) -> ExampleJob {
        let boards = Boards::shipped();
        let mut made: Option<ExampleJob> = None;
        let texts = BOXES
            .iter()
            .flat_map(|in_box| ITEMS.iter().map(|item| text(style, *in_box, *item)));
        let mut first: Option<ExampleJob> = None;
        for text in texts {
            let job = job_file::read("usual", text.as_bytes(), &boards)
                .expect("an example job is a sound job");
            let tray = make(style, &job).ok();
            let usual = ExampleJob { text, job, tray };
            match &usual.tray {
                Some(tray) if !warns(tray) => return usual,
                Some(_) if made.is_none() => made = Some(usual),
                None if first.is_none() => first = Some(usual),
                _ => {}
            }
        }
        made.or(first).expect("there are jobs to try")
    }
}

fn warns(tray: &CheckedTray) -> bool {
    let findings = tray.report().findings.iter();
    findings
        .filter(|finding| finding.level == Level::Warning)
        .count()
        > 0
}

fn text(style: &Style, [length, width, depth]: [f64; 3], item: (f64, f64, f64)) -> String {
    let (least, most) = style.items();
    let board = line("board", &[("name", Value::Text("index-255"))]);
    if most == 0 {
        let tray = line("tray", &[("style", Value::Text(style.name()))]);
        return format!("{tray}\n{board}\n");
    }
    let count = most.min(SEVERAL).max(least);
    let name = if count == 1 { "barometer" } else { "seed vial" };
    // Several items are side by side along the box.
    let item_length = (length * item.0 / count as f64).round();
    let item_width = (width * item.1).ceil();
    let item_depth = depth - item.2;
    let mut item = vec![
        ("name", Value::Text(name)),
        ("length", Value::Mm(item_length)),
        ("width", Value::Mm(item_width)),
        ("depth", Value::Mm(item_depth)),
    ];
    if count > 1 {
        item.push(("count", Value::Count(count)));
    }
    let in_box = [
        ("length", Value::Mm(length)),
        ("width", Value::Mm(width)),
        ("depth", Value::Mm(depth)),
    ];
    let lines = [
        line("tray", &[("style", Value::Text(style.name()))]),
        line("box", &in_box),
        line("item", &item),
        board,
    ];
    lines.join("\n") + "\n"
}
