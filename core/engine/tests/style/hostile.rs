//! Styles that nobody would write and jobs that no box has: never a panic, never a hang, never out of stack.
//!
//! Source of all expectations: reasoning: whatever the text, it is read or refused with places inside it, on a stack of
//! 2 MiB, within seconds. The limit of time is wide, for tests run unoptimized on busy machines.

use std::time::{Duration, Instant};

use traywright_engine::job::Job;
use traywright_engine::{Refusal, Style, make};

use super::{item, job, whole};

/// The stack that a thread of a library's user may have.
const STACK_BYTES: usize = 2 * 1024 * 1024;

/// Two seconds are the aim in an optimized build; unoptimized ten times as long.
const LIMIT: Duration = Duration::from_secs(20);

const DECK: &str =
    r#""deck": Rectangle(length: Outside("tray.length"), width: Outside("tray.width"))"#;

/// Reads a text and makes a tray of it if it is a style, on a small stack.
pub(super) fn survive(text: String, job: Job) {
    let start = Instant::now();
    let running = std::thread::Builder::new()
        .stack_size(STACK_BYTES)
        .spawn(move || {
            let style = match Style::read("tried", &text) {
                Ok(style) => style,
                Err(faults) => {
                    assert!(!faults.is_empty());
                    for fault in faults {
                        assert!(!fault.message.is_empty());
                        assert!(text.get(fault.place.clone()).is_some(), "{fault:?}");
                    }
                    return;
                }
            };
            match make(&style, &job) {
                Ok(tray) => drop(tray.document()),
                Err(Refusal::Tray(report)) => assert!(!report.findings.is_empty()),
                Err(Refusal::Style(faults) | Refusal::Job(faults)) => assert!(!faults.is_empty()),
            }
        });
    running
        .expect("a thread can be started")
        .join()
        .expect("nothing panics");
    assert!(start.elapsed() < LIMIT, "it took {:?}", start.elapsed());
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
    survive(
        panels(many(3000, |name| hung(name + 1, format!("p{name}.far")))),
        job(),
    );
    survive(
        panels(
            hung(0, "deck.west".to_owned())
                + &many(3000, |name| hung(name + 1, format!("p{name}.far"))),
        ),
        job(),
    );
    survive(
        panels(
            many(100, |name| hung(name, format!("p{}.far", name + 1)))
                + &hung(100, "deck.west".to_owned()),
        ),
        job(),
    );
    survive(
        panels(many(140, |name| {
            hung(name, format!("p{}.far", (name + 1) % 140))
        })),
        job(),
    );
    survive(
        panels(
            hung(0, "deck.edges".to_owned())
                + &many(20, |name| hung(name + 1, format!("p{name}.edges"))),
        ),
        job(),
    );
    survive(
        panels(many(140, |name| hung(name, "dick.west".to_owned()))),
        job(),
    );
}

#[test]
fn edges_and_corners_without_end_are_refused() {
    let edges = many(8000, |_| "\"deck.edges\",".to_owned());
    survive(
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
    survive(
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
    thin.board.caliper = 0.2;
    thin.board.hinge = 0.0;
    let comb = |teeth| {
        whole(&format!(
            "panels: {{\"deck\": Rectangle(length: Flat(\"90mm\"), width: Flat(\"60mm\")), {}}}",
            many(teeth, tooth)
        ))
    };
    survive(comb(50), thin);
    let faults = Style::read("tried", &comb(151)).expect_err("too many");
    assert_eq!(faults.len(), 1);
    assert!(faults[0].label.contains("more than 150"), "{faults:?}");
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
        .map(|number| item(&format!("vial{number}"), [2.0, 2.0, 2.0]))
        .collect();
    survive(slots(5000), job());
    survive(slots(7), crowded.clone());
    survive(slots(1), crowded);
    survive(slots(390), job());
    let steps = many(8000, |step| format!("\"p{step}\": \"x\","));
    survive(
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
            survive(sign.repeat(count), job());
            survive(
                whole(&format!("panels: {}", sign.repeat(count.min(60_000)))),
                job(),
            );
        }
    }
    survive(String::new(), job());
    survive("x".repeat(300 * 1024), job());
    survive(
        whole(&format!(
            "values: {{\"{}\": \"1mm\"}}, panels: {{{DECK}}}",
            "a".repeat(200_000)
        )),
        job(),
    );
    survive(
        whole(&format!(
            "values: {{\"a\": \"{}\"}}, panels: {{{DECK}}}",
            "1mm+".repeat(60_000)
        )),
        job(),
    );
}

#[test]
fn figures_without_measure_are_refused() {
    for formula in [
        "99999999999999999999999999mm",
        "-99999999999mm",
        "0mm",
        "-1mm",
        "0.0000001mm",
        "1mm * tan(89.9999999deg)",
        "1mm / (caliper - caliper)",
        "sqrt(-1mm * 1mm)",
        "flex(5000mm)",
        "outer(178.9999deg)",
        "min(span, edge)",
        "0mm / 3",
    ] {
        let wall = format!(
            "panels: {{{DECK}, \"wall\": Hinged(on: \"deck.sides\", reach: Outside(\"{formula}\"), wider: \"1mm\")}}"
        );
        survive(whole(&wall), job());
        survive(
            whole(&wall.replace("wider: \"1mm\"", &format!("span: \"{formula}\""))),
            job(),
        );
        survive(
            whole(&wall.replace("wider: \"1mm\"", &format!("inset: \"{formula}\""))),
            job(),
        );
        survive(
            whole(&wall.replace(
                "wider: \"1mm\"",
                &format!("trim: {{\"far\": Bevel(\"{formula}\"), \"west\": Taper(\"{formula}\")}}"),
            )),
            job(),
        );
        survive(whole(&wall.replace("tray.length", formula)), job());
        let hole =
            format!("openings: {{\"hole\": Hole(on: \"deck\", size: (\"{formula}\", \"1mm\"))}}");
        survive(
            whole(&format!("{}, {hole}", wall.replace(formula, "9mm"))),
            job(),
        );
    }
}
