//! Labels on trays written by hand.

use traywright_document::example::{flat, panel, run};
use traywright_document::{
    Hinge, Orientation, Panel, PanelLabel, Point, PrintedFace, Turn, Vector,
};

use super::{DrawnTray, place};
use crate::finding::SourceError;
use crate::job::{DrawnFace, Label, Length, Unit};

/// A deck of 100 by 60 mm, and a wall 20 mm high that is folded down at its lower edge.
fn panels() -> Vec<Panel> {
    let hinge = Hinge {
        parent: 0,
        line: [Point::new(0.0, 0.0), Point::new(100.0, 0.0)],
        fold_deg: 90.0,
        height: 0.0,
    };
    let deck = run(
        &[[0.0, 0.0], [100.0, 0.0], [100.0, 60.0], [0.0, 60.0]],
        true,
    );
    let wall = run(
        &[[0.0, -20.0], [100.0, -20.0], [100.0, 0.0], [0.0, 0.0]],
        true,
    );
    let mut wall = panel("wall", wall, Some(hinge));
    wall.pose = hinge.fold(90.0);
    vec![panel("deck", deck, None), wall]
}

fn placed(labels: &[Label]) -> Result<Vec<PanelLabel>, Vec<SourceError>> {
    let outline = run(
        &[[0.0, -20.0], [100.0, -20.0], [100.0, 60.0], [0.0, 60.0]],
        true,
    );
    let tray = DrawnTray {
        flat: &flat(outline),
        panels: &panels(),
        stands: Orientation::RootUp,
        drawn_face: DrawnFace::Inside,
        caliper: 0.0,
    };
    place(tray, labels, Unit::Millimetre)
}

// Source: by hand: the inside is drawn and the deck is on top, so it is read from its other face; the wall hangs from the
// lower edge and is folded down, so its top is at the deck.
#[test]
fn a_label_stands_in_the_middle_of_its_panel_with_its_top_to_the_north_or_up() {
    let labels = [Label::plain("HH", "deck"), Label::plain("HH", "wall")];
    let placed = placed(&labels).expect("both fit");
    for (label, middle) in placed.iter().zip([[50.0, 30.0], [50.0, -10.0]]) {
        assert_eq!([label.at.x, label.at.y], middle);
        assert_eq!(label.up, Vector::new(0.0, 1.0));
        assert_eq!(label.printed_on, PrintedFace::Far);
        assert_eq!(label.along(), Vector::new(-1.0, 0.0));
    }
    // Derived: 60 mm less 2 mm on both sides hold 33.6 mm, more than the largest usual size; 16 / (5/3) = 9.6.
    assert_eq!([placed[0].height, placed[1].height], [10.0, 7.0]);
}

// Source: by hand: through the card a turn to the left is one to the right.
#[test]
fn words_turn_counter_clockwise_as_they_are_read() {
    let label = Label {
        turn: Turn::Quarter,
        ..Label::plain("HH", "deck")
    };
    let placed = placed(&[label]).expect("it fits");
    assert_eq!(placed[0].up, Vector::new(1.0, 0.0));
}

// Source: by hand: 16 mm hold capitals of 9.6 mm with a third of their height above and below.
#[test]
fn a_label_that_is_too_large_is_refused_with_the_largest_size() {
    let sized = |size: f64| Label {
        size: Some(Length::new(size).expect("a length")),
        ..Label::plain("HH", "wall")
    };
    assert!(placed(&[sized(9.6)]).is_ok());
    let faults = placed(&[sized(9.7)]).expect_err("it is too high");
    assert!(faults[0].label.contains("size=(mm)9.6 "), "{faults:?}");
    // Two of 9.6 mm stand beside each other, five do not: each is 2.2 times as wide as high and keeps 2 mm.
    let three = placed(&[sized(9.6), sized(9.6), sized(9.6), sized(9.6), sized(9.6)]);
    let faults = three.expect_err("they overlap");
    assert!(faults[0].message.contains("would overlap"), "{faults:?}");
}
