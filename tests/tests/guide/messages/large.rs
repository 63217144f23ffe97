//! Mistakes that take many entries, or many letters.
//!
//! Given the style `nest` without its steps, gives the message of the page for each, and the text.

const SECOND: &str =
    r#""inner-end": Hinged(on: "bridge.far", reach: Outside("height - caliper")),"#;

/// All of them.
pub(super) fn mistakes(nest: &str) -> Vec<(&'static str, String)> {
    let mut mistakes = entries(nest);
    let formula = |formula: String| {
        let (right, wrong) = ("\"tray.depth - sink\"", format!("\"{formula}\""));
        nest.replacen(right, &wrong, 1)
    };
    let (open, close) = ("(".repeat(70), ")".repeat(70));
    let digits = "9".repeat(300);
    mistakes.extend([
        (
            "the style has … KiB",
            format!("//{}\n{nest}", " ".repeat(300 * 1024)),
        ),
        (
            "the formula has more than 4096 characters",
            formula("1mm + ".repeat(800) + "1mm"),
        ),
        (
            "the formula is nested deeper than 64 levels",
            formula(format!("{open}1mm{close}")),
        ),
        (
            "the number is too large",
            formula(format!("{digits}{digits}mm")),
        ),
        (
            "the result is too large to be a number",
            formula(format!("1mm * {digits} * {digits}")),
        ),
    ]);
    mistakes
}

fn entries(nest: &str) -> Vec<(&'static str, String)> {
    let panels = |panels: String| nest.replacen(SECOND, &format!("{SECOND}{panels}"), 1);
    let on = |from: usize| match from {
        0 => "inner-end.far".to_owned(),
        from => format!("row{}.far", from - 1),
    };
    let panel = |name: String, on: String| {
        format!("\"{name}\": Hinged(on: \"{on}\", reach: Flat(\"1mm\")),")
    };
    let hole = |n: usize| format!("\"h{n}\": Hole(on: \"deck\", size: (\"1mm\", \"1mm\")),");
    let wide = (0..500).map(|n| panel(format!("p{n}"), on(0)));
    let deep = (0..33).map(|n| panel(format!("row{n}"), on(n)));
    let holes: String = (0..401).map(hole).collect();
    vec![
        ("the style has too many panels", panels(wide.collect())),
        (
            "the style has too many openings",
            with(nest, "openings", &holes),
        ),
        ("the tree of panels is too deep", panels(deep.collect())),
        (
            "rows of openings need a panel without an inner corner",
            cornered(nest),
        ),
        ("`…` waits for more than 64 other figures", waiting(nest)),
        ("`…` stands at the end of more than 64 values", row(nest)),
        (
            "this formula and those that wait for it nest too deep",
            nested(nest),
        ),
    ]
}

/// Panels and values in turns, each as large as the next.
fn waiting(nest: &str) -> String {
    let panel = |n: usize| {
        let next = n + 1;
        format!("\"p{n}\": Hinged(on: \"deck.south\", reach: Flat(\"v{next}\")),")
    };
    let panels: String = (0..40).map(panel).collect();
    let values: String = (0..40)
        .map(|n| format!("\"v{n}\": \"p{n}.reach\","))
        .collect();
    let whole = nest.replacen(SECOND, &format!("{SECOND}{panels}"), 1);
    with(&whole, "values", &format!("{values}\"v40\": \"1mm\","))
}

/// Values, each the next.
fn row(nest: &str) -> String {
    let row: String = (0..70)
        .map(|n| format!("\"v{n}\": \"v{}\",", n + 1))
        .collect();
    with(nest, "values", &format!("{row}\"v70\": \"1mm\","))
}

/// Brackets in a formula that waits for brackets in another one.
fn nested(nest: &str) -> String {
    let (open, close) = ("(".repeat(60), ")".repeat(60));
    let values = format!("\"deep\": \"{open}deeper{close}\", \"deeper\": \"{open}1mm{close}\",");
    with(nest, "values", &values).replacen("\"tray.depth - sink\"", "\"deep\"", 1)
}

/// Two openings in rows on a deck with an inner corner.
fn cornered(nest: &str) -> String {
    let deck = "Rectangle(length: Outside(\"tray.length\"), width: Outside(\"tray.width\"))";
    let corners = [
        ("south", 0, 0),
        ("east", 118, 0),
        ("step", 118, 40),
        ("inner", 60, 40),
        ("north", 60, 78),
        ("west", 0, 78),
    ];
    let corner = |(edge, x, y)| format!("(\"{edge}\", \"{x}mm\", \"{y}mm\"),");
    let corners: String = corners.map(corner).concat();
    nest.replacen(deck, &format!("Polygon(corners: [{corners}])"), 1)
        .replacen("Slot(on: \"deck\",", "Slot(on: \"deck\", place: Rows,", 1)
        .replacen("language: 1,", "language: 1, items: 2,", 1)
}

/// The style with more entries in a section.
fn with(nest: &str, section: &str, entries: &str) -> String {
    let head = format!("    {section}: {{");
    nest.replacen(&head, &format!("{head}{entries}"), 1)
}
