//! The marks that are neither lines of the blank nor sentences: check bars, crosses, the small map, the grain's arrow.
//!
//! Given what they stand for; gives blocks to be put anywhere, and crosses at places of the blank. All of it lies outside
//! the line layers.

use traywright_document::{Grain, Unit};
use traywright_look::{Colour, INK, LineStyle};
use traywright_paper::{Block, Font, Page, PointMm, StrokePath, Words};

use crate::pieces::Piece;
use crate::spread::{Cell, Grid};
use crate::window::Window;

/// The bar itself; its ends are square, so that it is as long as it says.
const BAR_LOOK: LineStyle = thin(0.5);
const TICK_LOOK: LineStyle = thin(0.15);
const CROSS_LOOK: LineStyle = thin(0.18);
/// The neighbour's edge; faint, for nobody cuts along it.
pub(crate) const FAINT: LineStyle = LineStyle {
    colour: Colour([0xBB, 0xBB, 0xBB]),
    width: 0.18,
    dashes: &[],
};
/// This sheet on the map.
const SHADE: Colour = Colour([0xD0, 0xD0, 0xD0]);
/// The map of more sheets than this shows only their common frame.
const MOST_ON_MAP: usize = 60;
/// Between the bar and its ticks, so that nothing lengthens the bar.
const TICKS_OFF: f64 = 0.6;
/// Room for half a number beyond the end of the bar.
const BEYOND: f64 = 2.6;
/// Between a tick and its number.
const NUMBER_OFF: f64 = 0.6;
/// Capitals of numbers at ticks.
const NUMBER: f64 = 1.6;
/// Length of a millimetre's, a half and a whole centimetre's tick.
const TICKS: [f64; 3] = [1.0, 1.6, 2.2];

const fn thin(width: f64) -> LineStyle {
    LineStyle {
        colour: INK,
        width,
        dashes: &[],
    }
}

/// The ticks above a bar.
struct Division {
    /// From tick to tick.
    step: f64,
    count: u32,
    /// Every so many ticks one is longer, and every so many has a number.
    longer: u32,
    numbered: u32,
    /// The number is that of ticks over this.
    unit: u32,
}

/// Millimetres, numbered at every tenth.
const MILLIMETRES: Division = Division {
    step: 1.0,
    count: 100,
    longer: 5,
    numbered: 10,
    unit: 1,
};

/// Sixteenths of an inch of 25.4 mm exactly, numbered at every inch.
const SIXTEENTHS: Division = Division {
    step: 25.4 / 16.0,
    count: 64,
    longer: 4,
    numbered: 16,
    unit: 16,
};

/// A check bar that runs to the right, with a division above it and words below, if any.
pub(crate) fn bar(words: Option<&str>, unit: Unit, font: &Font) -> Block {
    let above = TICKS_OFF + TICKS[2] + NUMBER_OFF + NUMBER;
    let (length, foot) = (unit.check_bar(), 0.9 + words.map_or(0.0, |_| 3.2));
    let mut block = Block::new([2.0 * BEYOND + length, foot + above + 0.3]);
    block.line(BAR_LOOK, [BEYOND, foot], [BEYOND + length, foot]);
    match unit {
        Unit::Millimetre => MILLIMETRES.draw(&mut block, foot, font),
        Unit::Inch => SIXTEENTHS.draw(&mut block, foot, font),
    }
    if let Some(words) = words {
        block.words(words, [BEYOND, 0.7], 2.0);
    }
    block
}

impl Division {
    fn draw(&self, block: &mut Block, foot: f64, font: &Font) {
        let numbers = foot + TICKS_OFF + TICKS[2] + NUMBER_OFF;
        for tick in 0..=self.count {
            let x = BEYOND + f64::from(tick) * self.step;
            let size = match tick {
                _ if tick % self.numbered == 0 => 2,
                _ if tick % self.longer == 0 => 1,
                _ => 0,
            };
            let at = |off: f64| [x, foot + off];
            block.line(TICK_LOOK, at(TICKS_OFF), at(TICKS_OFF + TICKS[size]));
            if size == 2 {
                number(block, tick / self.unit, [x, numbers], font);
            }
        }
    }
}

fn number(block: &mut Block, value: u32, middle: PointMm, font: &Font) {
    let text = value.to_string();
    let half = font.width(&text, NUMBER) / 2.0;
    block.words(&text, [middle[0] - half, middle[1]], NUMBER);
}

/// Where the sheets lie, this one shaded, with the blank over them.
pub(crate) fn map(
    grid: &Grid,
    sheets: &[Cell],
    this: Cell,
    outline: &[Piece],
    size: [f64; 2],
) -> Block {
    let windows: Vec<Window> = sheets.iter().map(|cell| grid.window(*cell)).collect();
    let all = Window::around(windows.iter().flat_map(Window::corners));
    let scale = (0..2)
        .map(|axis| size[axis] / all.size()[axis])
        .fold(f64::INFINITY, f64::min);
    let small = |place: PointMm| [0, 1].map(|axis| (place[axis] - all.least[axis]) * scale);
    let mut block = Block::new(all.size().map(|side| side * scale));
    block.fill(SHADE, grid.window(this).corners().map(small).to_vec());
    let drawn = if windows.len() > MOST_ON_MAP {
        std::slice::from_ref(&all)
    } else {
        &windows
    };
    for window in drawn {
        block.run(
            LineStyle {
                colour: Colour([0x99; 3]),
                ..thin(0.12)
            },
            StrokePath::ring(&window.corners().map(small)),
        );
    }
    for piece in outline {
        block.line(thin(0.2), small(piece.from), small(piece.to));
    }
    block
}

/// A cross that neighbours share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Cross {
    /// Where its strokes meet, on the blank.
    pub(crate) at: PointMm,
    /// Length of its strokes.
    pub(crate) size: f64,
    /// The number beside it.
    pub(crate) number: usize,
}

impl Cross {
    /// The square around it.
    pub(crate) fn window(&self) -> Window {
        Window {
            least: self.at,
            most: self.at,
        }
        .wider(self.size / 2.0)
    }

    /// Draws it with its number in its upper right quarter.
    pub(crate) fn draw(&self, page: &mut Page) {
        let Window { least, most } = self.window();
        page.line(CROSS_LOOK, [least[0], self.at[1]], [most[0], self.at[1]]);
        page.line(CROSS_LOOK, [self.at[0], least[1]], [self.at[0], most[1]]);
        let capital = (0.28 * self.size).min(1.8);
        let words = Words {
            text: self.number.to_string(),
            at: [self.at[0] + 0.15 * self.size, self.at[1] + 0.15 * self.size],
            capital,
            colour: INK,
            climbing: false,
        };
        page.write(words);
    }
}

/// The way the grain runs: an arrow of that length with a head at both ends, and its word.
pub(crate) fn grain(grain: Grain, length: f64, (text, font): (&str, &Font)) -> Block {
    const HEIGHT: f64 = 5.0;
    let mut block = Block::new([length, HEIGHT]);
    let y = 1.0;
    block.line(thin(0.25), [0.5, y], [length - 0.5, y]);
    for (tip, way) in [(0.0, 1.0), (length, -1.0)] {
        block.fill(
            INK,
            vec![
                [tip, y],
                [tip + way * 3.0, y + 0.8],
                [tip + way * 3.0, y - 0.8],
            ],
        );
    }
    block.words(text, [(length - font.width(text, 2.0)) / 2.0, 2.6], 2.0);
    match grain {
        Grain::Length => block,
        Grain::Width => block.climbing(),
    }
}
