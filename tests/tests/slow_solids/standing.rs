//! Folded trays as the engine lets them pass: the solids share the bars at their creases and nothing else.

use serde_json::Value;
use traywright_document::Document;

use super::{list, measured, number, other_trays, random_trays, random_trays_of_several};

/// Depth under which solids touch.
// Source: reasoning: far above the rounding of either side, and a hundredth of a thousandth of what card gives way.
const TOUCH_MM: f64 = 1e-6;

#[test]
fn folded_trays_share_the_bars_at_their_creases_and_nothing_else() {
    let shipped = ["single-slot", "double-wall", "lid-lock"];
    let random = shipped.iter().flat_map(|name| random_trays(name, 11, 100));
    let mut documents: Vec<Document> = random.map(|(_, tray)| tray.finish().document()).collect();
    assert_eq!(documents.len(), 100 * shipped.len());
    documents.extend(other_trays().iter().map(|tray| tray.finish().document()));
    documents.extend(
        random_trays_of_several(13, 100)
            .iter()
            .map(|tray| tray.finish().document()),
    );
    let Some(seen) = measured("solids.py", &documents) else {
        return;
    };
    let (mut pairs, mut creases, mut full) = (0, 0, 0);
    for (document, seen) in documents.iter().zip(&seen) {
        let name = format!(
            "{} {:?} {:?}",
            document.style, document.box_size, document.board
        );
        check_outside(document, seen, &name);
        assert!(
            number(&seen["pose_off"]) < 1e-9,
            "{name}: {}",
            seen["pose_off"]
        );
        pairs += number(&seen["pairs"]) as usize;
        for crease in list(&seen["creases"]) {
            creases += 1;
            full += usize::from(check_crease(crease, &name));
        }
        for meeting in list(&seen["meetings"]) {
            assert!(number(&meeting["depth"]) < TOUCH_MM, "{name}: {meeting}");
        }
    }
    println!(
        "{} trays, {pairs} pairs of panels, {creases} of them at a crease, {full} with the whole bar",
        documents.len()
    );
    // A panel that narrows from its crease on has less of it: the tabs, and flaps that are triangles.
    assert!(full * 2 > creases, "{full} of {creases}");
}

/// Whether a parent and its child share the whole bar and not less. They never share more.
// Source: core/GEOMETRY.md, "The bar at a crease": (caliper / 2 - hinge)² times the crease's length at 90°, and nothing
// else; there judged to 1e-6. By the same sketch tan(angle / 2) times that at another angle.
fn check_crease(crease: &Value, name: &str) -> bool {
    let (volume, sliver) = (number(&crease["volume"]), number(&crease["sliver"]));
    let allowed = 1e-6 * sliver + 1e-8;
    assert!(volume < sliver + allowed, "{name}: {crease}");
    assert!(number(&crease["beyond"]) < TOUCH_MM, "{name}: {crease}");
    volume > sliver - allowed
}

/// Source: core/CONTRACT.md, "Trade figures": a tray goes into its box with at least its fit to spare; the figures are
/// those reported.
fn check_outside(document: &Document, seen: &Value, name: &str) {
    let names = ["folded_length", "folded_width", "folded_depth"];
    for (axis, measure) in names.into_iter().enumerate() {
        let told = document.measures.iter().find(|found| found.name == measure);
        let told = told.unwrap_or_else(|| panic!("no {measure}")).value;
        let found = number(&seen["outside"][axis]);
        assert!(
            (found - told).abs() < 1e-9,
            "{name}: {measure} {told}, {found}"
        );
    }
}
