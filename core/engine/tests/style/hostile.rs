//! Absurd styles and absurd jobs: never a panic, never a hang, never out of stack.
//!
//! Source of all expectations: reasoning: any text is read or refused with spans inside it, on a stack of 2 MiB, within
//! seconds. The time limit is wide, for tests run unoptimized on busy machines.

use std::sync::mpsc::{self, RecvTimeoutError};
use std::time::Duration;

use traywright_engine::job::{Job, Length};
use traywright_engine::{Refusal, Style, make};

use super::{job, seated, whole};

/// The stack that a thread of a library's user may have.
const STACK_BYTES: usize = 2 * 1024 * 1024;

/// The target is two seconds in an optimized build; unoptimized ten times as long.
const LIMIT: Duration = Duration::from_secs(20);

const DECK: &str =
    r#""deck": Rectangle(length: Outside("tray.length"), width: Outside("tray.width"))"#;

/// The result of a style and a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// The text is not a style, or one of its formulas has no value for this job.
    StyleRefused,
    /// The tray is refused by a finding, or the job by an error of its own.
    TrayRefused,
    /// There is a tray.
    Made,
}

/// Reads a text and, if it is a style, makes a tray of it, on a small stack and within the time limit.
///
/// # Panics
/// If reading or making panics, takes too long, or refuses without a reason.
pub(super) fn survive(text: String, job: Job) -> Outcome {
    let (sender, receiver) = mpsc::channel();
    let running = std::thread::Builder::new()
        .stack_size(STACK_BYTES)
        .spawn(move || {
            // The receiver is gone only after the time limit.
            sender.send(outcome(&text, &job)).ok();
        });
    let running = running.expect("a thread can be started");
    match receiver.recv_timeout(LIMIT) {
        Ok(outcome) => outcome,
        Err(RecvTimeoutError::Timeout) => panic!("no answer after {LIMIT:?}"),
        Err(RecvTimeoutError::Disconnected) => {
            running.join().expect("nothing panics");
            unreachable!("a thread that ends well answers");
        }
    }
}

fn outcome(text: &str, job: &Job) -> Outcome {
    let style = match Style::read("tried", text) {
        Ok(style) => style,
        Err(faults) => {
            assert!(!faults.is_empty());
            for fault in faults {
                assert!(!fault.message.is_empty());
                assert!(text.get(fault.place.clone()).is_some(), "{fault:?}");
            }
            return Outcome::StyleRefused;
        }
    };
    match make(&style, job) {
        Ok(tray) => {
            drop(tray.finish().document());
            Outcome::Made
        }
        Err(Refusal::Tray(report)) => {
            assert!(!report.findings.is_empty());
            Outcome::TrayRefused
        }
        Err(Refusal::Style(faults)) => {
            assert!(!faults.is_empty());
            Outcome::StyleRefused
        }
        Err(Refusal::Job(faults)) => {
            assert!(!faults.is_empty());
            Outcome::TrayRefused
        }
    }
}

/// Like [`survive`], but expects no tray.
fn refused(text: String, job: Job) {
    let head: String = text.chars().take(200).collect();
    assert_ne!(survive(text, job), Outcome::Made, "{head}");
}

fn many(count: usize, one: impl Fn(usize) -> String) -> String {
    (0..count).map(one).collect()
}

#[test]
fn long_chains_and_rings_of_values_end() {
    let values = |values: String| {
        whole(&format!(
            "values: {{{values}}}, panels: {{{DECK}}}, measures: {{\"wall_height\": \"v0\"}}"
        ))
    };
    let link = |from: usize, to: usize| format!("\"v{from}\": \"v{to} + 1mm\",");
    survive(
        values(many(9999, |value| link(value, value + 1)) + "\"v9999\": \"1mm\""),
        job(),
    );
    survive(
        values(
            "\"v9999\": \"1mm\",".to_owned()
                + &many(9999, |value| link(9998 - value, 9999 - value)),
        ),
        job(),
    );
    survive(
        values(many(9999, |value| link(value, (value + 1) % 9999))),
        job(),
    );
    survive(
        values(many(9999, |value| link(value, value + 20000))),
        job(),
    );
    let brackets = |value| {
        format!(
            "\"v{value}\": \"{}v{}{}\",",
            "(".repeat(60),
            value + 1,
            ")".repeat(60)
        )
    };
    survive(values(many(60, brackets) + "\"v60\": \"1mm\""), job());
    let doubled = |value| format!("\"v{value}\": \"v{} + v{}\",", value + 1, value + 1);
    survive(values(many(50, doubled) + "\"v50\": \"1mm\""), job());
}

#[test]
fn panels_without_end_are_refused() {
    let panels = |panels: String| whole(&format!("panels: {{{DECK}, {panels}}}"));
    let hung = |name: usize, on: String| {
        format!("\"p{name}\": Hinged(on: \"{on}\", reach: Flat(\"2mm\")),")
    };
    refused(
        panels(many(3000, |name| hung(name + 1, format!("p{name}.far")))),
        job(),
    );
    refused(
        panels(
            hung(0, "deck.west".to_owned())
                + &many(3000, |name| hung(name + 1, format!("p{name}.far"))),
        ),
        job(),
    );
    refused(
        panels(
            many(100, |name| hung(name, format!("p{}.far", name + 1)))
                + &hung(100, "deck.west".to_owned()),
        ),
        job(),
    );
    refused(
        panels(many(140, |name| {
            hung(name, format!("p{}.far", (name + 1) % 140))
        })),
        job(),
    );
    refused(
        panels(
            hung(0, "deck.edges".to_owned())
                + &many(20, |name| hung(name + 1, format!("p{name}.edges"))),
        ),
        job(),
    );
    refused(
        panels(many(140, |name| hung(name, "dick.west".to_owned()))),
        job(),
    );
}

#[test]
fn edges_and_corners_without_end_are_refused() {
    let edges = many(8000, |_| "\"deck.edges\",".to_owned());
    refused(
        whole(&format!(
            "panels: {{{DECK}, \"p\": Hinged(on: [{edges}], reach: Flat(\"2mm\"))}}"
        )),
        job(),
    );
    let corners = many(5000, |corner| {
        format!(
            "(\"e{corner}\", \"{corner}mm\", \"{}mm\"),",
            corner * corner % 977
        )
    });
    refused(
        whole(&format!(
            "panels: {{\"deck\": Polygon(corners: [{corners}])}}"
        )),
        job(),
    );
}

#[test]
fn many_panels_are_judged_in_time_and_too_many_are_refused() {
    let tooth = |tooth: usize| {
        let side = ["south", "north"][tooth % 2];
        let inset = (tooth / 2) as f64 * 1.2;
        format!(
            "\"p{tooth}\": Hinged(on: \"deck.{side}\", span: \"1mm\", inset: {{\"west\": \"{inset}mm\"}}, reach: Flat(\"20mm\")),"
        )
    };
    let mut thin = job();
    thin.board.caliper = Length::known(0.2);
    thin.board.hinge = Some(0.0);
    let comb = |teeth| {
        whole(&format!(
            "panels: {{\"deck\": Rectangle(length: Flat(\"90mm\"), width: Flat(\"60mm\")), {}}}",
            many(teeth, tooth)
        ))
    };
    survive(comb(499), thin);
    let faults = Style::read("tried", &comb(501)).expect_err("too many");
    assert_eq!(faults.len(), 1);
    assert!(faults[0].label.contains("more than 500"), "{faults:?}");
}

#[test]
fn openings_and_items_without_end_are_refused() {
    let slots = |count| {
        let slots = many(count, |slot| {
            format!("\"s{slot}\": Slot(on: \"deck\", cut: Open),")
        });
        whole(&format!(
            "items: (1, 64), panels: {{{DECK}}}, openings: {{{slots}}}"
        ))
    };
    let mut crowded = job();
    crowded.items = (0..64)
        .map(|number| super::item(&format!("vial{number}"), [2.0, 2.0, 2.0]))
        .collect();
    refused(slots(5000), job());
    refused(slots(7), crowded.clone());
    refused(slots(1), crowded);
    refused(slots(390), job());
    let steps = many(8000, |step| format!("\"p{step}\": \"x\","));
    refused(
        whole(&format!(
            "panels: {{{DECK}}}, steps: [Fold(panels: {{{steps}}})]"
        )),
        job(),
    );
}

#[test]
fn deep_and_endless_signs_are_refused() {
    for sign in [
        "(", "[", "{", "\"", "/*", "//\n", ",", "\\", "Style(", "\"a\":{", "é", "\u{feff}", "\0",
    ] {
        for count in [1, 2, 300, 250_000 / sign.len()] {
            refused(sign.repeat(count), job());
            refused(
                whole(&format!("panels: {}", sign.repeat(count.min(60_000)))),
                job(),
            );
        }
    }
    refused(String::new(), job());
    refused("x".repeat(300 * 1024), job());
    // A long name is valid.
    survive(
        whole(&format!(
            "values: {{\"{}\": \"1mm\"}}, panels: {{{DECK}}}",
            "a".repeat(200_000)
        )),
        job(),
    );
    refused(
        whole(&format!(
            "values: {{\"a\": \"{}\"}}, panels: {{{DECK}}}",
            "1mm+".repeat(60_000)
        )),
        job(),
    );
}

/// Uses of a formula for a length in a small style: six styles in which it decides one value.
const USES: [fn(&str) -> String; 6] = [
    |formula| wall(&format!("reach: Outside(\"{formula}\")")),
    |formula| wall(&format!("reach: Outside(\"9mm\"), span: \"{formula}\"")),
    |formula| {
        whole(&seated(&format!(
            "panels: {{\"deck\": Rectangle(length: Outside(\"{formula}\"), width: Outside(\"tray.width\"))}}"
        )))
    },
    |formula| wall(&format!("reach: Outside(\"9mm\"), inset: \"{formula}\"")),
    |formula| {
        wall(&format!(
            "reach: Outside(\"9mm\"), trim: {{\"far\": Chamfer(\"{formula}\"), \"west\": Taper(\"{formula}\")}}"
        ))
    },
    |formula| {
        whole(&format!(
            "panels: {{{DECK}}}, openings: {{\"hole\": Hole(on: \"deck\", size: (\"{formula}\", \"1mm\")),
            \"seat\": Slot(on: \"deck\", cut: Open, at: (\"25mm\", \"0mm\"))}}"
        ))
    },
];

/// A valid size for each of [`USES`]: a root must be longer than its opening of 32 mm.
const PLAIN: [&str; 6] = ["1mm", "1mm", "60mm", "1mm", "1mm", "1mm"];

/// How many of [`USES`], from the first, are sizes of panels.
const SIZES: usize = 3;

fn wall(keys: &str) -> String {
    whole(&seated(&format!(
        "panels: {{{DECK}, \"wall\": Hinged(on: \"deck.sides\", {keys})}}"
    )))
}

#[test]
fn figures_without_measure_are_refused() {
    // Reasoning: a plain size gives a tray in each style, so only the formula can be the reason.
    for (use_it, plain) in USES.into_iter().zip(PLAIN) {
        let text = use_it(plain);
        assert_eq!(survive(text.clone(), job()), Outcome::Made, "{text}");
    }
    // Reasoning: these have no value, or one that no length of a tray has.
    for formula in [
        "99999999999999999999999999mm",
        "-99999999999mm",
        "1mm * tan(89.9999999deg)",
        "1mm / (caliper - caliper)",
        "sqrt(-1mm * 1mm)",
        "flex(5000mm)",
    ] {
        for use_it in USES {
            let text = use_it(formula);
            assert_eq!(
                survive(text.clone(), job()),
                Outcome::StyleRefused,
                "{text}"
            );
        }
    }
    // Reasoning: a panel of no size or of less is none; a size below 0 is none of anything.
    for (formula, uses) in [
        ("0mm", SIZES),
        ("0mm / 3", SIZES),
        ("0.0000001mm", SIZES),
        ("-1mm", USES.len()),
    ] {
        for use_it in &USES[..uses] {
            let text = use_it(formula);
            assert_eq!(survive(text.clone(), job()), Outcome::TrayRefused, "{text}");
        }
    }
    // Reasoning: a wall of 85.9 mm stands out of a box 32 mm deep.
    // Derived: outer(a) = (t / 2 + h) tan(a / 2), here 0.75 mm times 114.58.
    let text = USES[0]("outer(178.9999deg)");
    assert_eq!(survive(text, job()), Outcome::TrayRefused);
}
