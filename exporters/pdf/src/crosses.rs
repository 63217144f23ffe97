//! Registration crosses: where neighbouring sheets are joined.
//!
//! Given a grid with its printed sheets and the lines of the blank; gives at least two crosses in the overlap of every two
//! neighbours, far apart and off the lines. Sheets are never joined by the edges of the paper, which are not cut so well.

use traywright_paper::PointMm;

use crate::marks::Cross;
use crate::pieces::Piece;
use crate::search::Spread;
use crate::window::Window;

/// Length of a cross's strokes where the overlap allows it.
// Source: core/CONTRACT.md, "Files: PDF": 2 to 20 mm.
const LONGEST: f64 = 7.0;
/// Between the corner that four sheets may share and the crosses beside it.
const FROM_CORNER: f64 = 3.0;
/// A cross this far from all lines is well placed.
const CLEAR: f64 = 1.5;

/// All crosses, numbered from 1.
pub(crate) fn crosses(spread: &Spread, pieces: &[Piece], words: &[Window]) -> Vec<Cross> {
    let mut crosses: Vec<Cross> = Vec::new();
    for cell in spread.sheets.iter() {
        for (axis, next) in [(0, [cell[0] + 1, cell[1]]), (1, [cell[0], cell[1] + 1])] {
            if !spread.sheets.contains(&next) {
                continue;
            }
            let Some(strip) = spread.grid.window(*cell).common(&spread.grid.window(next)) else {
                continue;
            };
            let size = LONGEST.min(strip.size()[axis]);
            let marks = crosses.iter().map(Cross::window);
            let taken: Vec<Window> = marks.chain(words.iter().copied()).collect();
            for at in places(&strip, 1 - axis, pieces, &taken) {
                crosses.push(Cross {
                    at,
                    size,
                    number: crosses.len() + 1,
                });
            }
        }
    }
    crosses
}

/// Two places in the strip that two sheets share, one near either end of it.
fn places(strip: &Window, along: usize, pieces: &[Piece], taken: &[Window]) -> [PointMm; 2] {
    let length = strip.size()[along];
    let middle = (strip.least[1 - along] + strip.most[1 - along]) / 2.0;
    let place = |offset: f64| {
        let mut place = [middle; 2];
        place[along] = strip.least[along] + offset;
        place
    };
    let size = LONGEST.min(strip.size()[1 - along]);
    let reach = strip.wider(size);
    let near: Vec<Piece> = pieces
        .iter()
        .filter_map(|piece| Some(piece.part(piece.within(&reach)?)))
        .collect();
    let best = |offsets: Vec<f64>| {
        let crowd = |offset: &f64| {
            let square = Window::at(place(*offset)).wider(size / 2.0 + CLEAR);
            let meets = taken.iter().any(|other| other.common(&square).is_some());
            f64::from(u8::from(meets)) * length
                + near
                    .iter()
                    .filter_map(|piece| Some(piece.part(piece.within(&square)?).length()))
                    .sum::<f64>()
        };
        let mut best: Option<(f64, f64)> = None;
        for offset in offsets {
            let crowd = crowd(&offset);
            if best.is_none_or(|(least, _)| crowd < least) {
                best = Some((crowd, offset));
            }
            if crowd == 0.0 {
                break;
            }
        }
        place(best.map_or(length / 2.0, |(_, offset)| offset))
    };
    // From either end towards the middle; the first of equally good offsets is the outermost.
    let from_end = (strip.size()[1 - along] + size / 2.0 + FROM_CORNER).min(length / 4.0);
    let steps = ((length / 2.0 - from_end - size).max(0.0)) as u32;
    let offsets = |from_low: bool| {
        (0..=steps)
            .map(|step| from_end + f64::from(step))
            .map(|offset| if from_low { offset } else { length - offset })
            .collect()
    };
    [best(offsets(true)), best(offsets(false))]
}
