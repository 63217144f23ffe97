//! Figures of items with heights computed by hand.

use super::*;
use traywright_document::ItemShape;

/// A clock on its pad, held by the edge of the deck along the box and by flaps across it.
// Derived: box 58 deep, tray 56; pad 8 and clock 49 end at 57, so 1 above the deck and 1 below the lid.
fn clock() -> Item {
    let edge = Stop {
        by: Holder::Edge,
        heights: [55.0, 56.0],
        travel: 3.0,
        firm: true,
    };
    let flaps = Stop {
        by: Holder::Flaps,
        heights: [9.0, 55.5],
        firm: true,
        ..edge
    };
    Item {
        name: "clock".to_owned(),
        kind: 0,
        number: 1,
        length: 104.0,
        width: 90.0,
        depth: 49.0,
        middle: None,
        panel: 0,
        shape: ItemShape::Rectangle,
        rest: 8.0,
        pad: 8.0,
        straight: None,
        loose: false,
        turned: false,
        held: Some(Held {
            along: edge,
            across: flaps,
            rise: 1.0,
            deck: Some(56.0),
            pads: None,
        }),
    }
}

fn drawn(item: Item) -> String {
    let around = Around {
        unit: Unit::Millimetre,
        stands: Orientation::RootUp,
        crease: CreaseKind::Pressed,
        depth: 58.0,
    };
    figure(&[item], around).expect("the item has a place")
}

#[test]
fn an_item_on_a_pad_stands_between_the_edges_of_the_deck() {
    let expected = "  clock
  -----------------------------------  lid
  |                                 |  1 mm free above the item
  |         +-------------+         |
  |         | 49 mm deep  |         |  top 1 mm above the deck
  |======== |             | ========|  deck: held by its edge (1 mm of it)
  |         |             |         |
  |         +-------------+         |
  |         xxxxxxxxxxxxxxx         |  pad 8 mm
  |_________________________________|  floor of the box
  Across the box it is held by 46.5 mm of flap.
";
    assert_eq!(drawn(clock()), expected);
}

#[test]
fn flaps_hang_from_the_deck_and_end_where_they_end() {
    // Derived: the top lies 56 - 49 = 7 below the deck and 9 below the lid; the flaps end 16 above the floor.
    let mut item = clock();
    (item.pad, item.rest) = (0.0, 0.0);
    let held = item.held.as_mut().expect("the clock is held");
    (held.rise, held.across.firm) = (9.0, false);
    held.across.heights = [16.0, 49.0];
    held.along = held.across;
    let expected = "  clock
  -----------------------------------  lid
  |                                 |  9 mm free above the item
  |========                 ========|  deck
  |       |                 |       |  top 7 mm below the deck
  |       | +-------------+ |       |
  |       | | 49 mm deep  | |       |  held by 33 mm of flap, springy
  |         |             |         |
  |_________+-------------+_________|  floor of the box
";
    assert_eq!(drawn(item), expected);
}

#[test]
fn a_figure_has_at_most_twelve_lines_of_eighty_columns() {
    // Source: the report is made for the plainest terminal; with all levels apart the figure is as high as it gets.
    let mut item = clock();
    (item.pad, item.rest) = (8.0, 8.35);
    let held = item.held.as_mut().expect("the clock is held");
    held.along = Stop {
        by: Holder::Panel,
        heights: [20.0, 40.0],
        ..held.along
    };
    held.deck = Some(60.0);
    let figure = drawn(item);
    assert!((10..=12).contains(&figure.lines().count()), "{figure}");
    assert!(
        figure.lines().all(|line| line.chars().count() <= 80),
        "{figure}"
    );
    assert!(
        figure.contains("floor of the box, 0.35 mm of card on it"),
        "{figure}"
    );
}
