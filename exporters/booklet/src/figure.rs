//! A figure before it stands on a page: what is seen, arrows, words, and a ring around what is small.
//!
//! Given what the eye sees, in mm of the card; gives a block of the page of a wanted size, everything scaled to fit. Words
//! take free places: they stand on no line and on no other words.

use traywright_document::steady::Steady;
use traywright_paper::{Block, Font, PointMm};

use crate::detail::Detail;
use crate::free::{Free, leader};
use crate::line_styles;
use crate::picture::{Picture, Scale, run};
use crate::visible::{Region, Seen, bounds, contains};

/// A figure.
#[derive(Clone, Debug, Default)]
pub(crate) struct Figure {
    pub(crate) picture: Picture,
    pub(crate) arrows: Vec<Vec<Seen>>,
    pub(crate) labels: Vec<Label>,
    pub(crate) detail: Option<Detail>,
}

/// Words at a place.
#[derive(Clone, Debug)]
pub(crate) struct Label {
    pub(crate) text: String,
    /// The place that they are about.
    pub(crate) at: Seen,
    /// The region in which they need no line to lead to it.
    pub(crate) within: Vec<Region>,
    /// Whether a line leads from words that stand apart to what they are about.
    pub(crate) leads: bool,
}

/// How a figure is set.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Setting<'a> {
    pub(crate) font: &'a Font,
    /// Height of the capitals of its words.
    pub(crate) capital: f64,
    /// Width and height of its block.
    pub(crate) size: [f64; 2],
}

/// Paper that a figure keeps free along its border.
const BORDER: f64 = 1.5;
/// The largest a figure is drawn, over life size.
const MOST_ENLARGED: f64 = 1.0;
/// Length of an arrow's head and half its width.
// Source: common practice, none published: heads three times as long as half their width.
const HEAD: [f64; 2] = [3.0, 1.1];

impl Figure {
    /// The figure as a block.
    pub(crate) fn block(&self, setting: Setting) -> Block {
        let mut scale = self.scale(self.room(setting));
        if self.detail.is_some_and(|detail| detail.at_left) {
            scale.shift[0] += Detail::room(setting.size);
        }
        let mut block = Block::new(setting.size);
        let mut free = Free::new(setting.size);
        self.picture.draw(scale, &mut block, &mut free);
        if let Some(detail) = &self.detail {
            detail.draw(&self.picture, scale, &mut block, &mut free);
        }
        for arrow in &self.arrows {
            let way: Vec<PointMm> = arrow.iter().map(|&place| scale.on_paper(place)).collect();
            draw_arrow(&way, &mut block);
            free.take_line(&way);
        }
        for label in &self.labels {
            label.draw(setting, scale, &mut block, &mut free);
        }
        block
    }

    /// The height that the figure takes of a block as wide as this.
    pub(crate) fn height(&self, setting: Setting) -> f64 {
        let unbound = Setting {
            size: [setting.size[0], f64::INFINITY],
            ..setting
        };
        let [least, most] = self.bounds();
        let [room, _] = self.room(unbound);
        let factor = (room / (most[0] - least[0]).max(1e-9)).min(MOST_ENLARGED);
        let strip = match self.labels.is_empty() {
            true => 0.0,
            false => 2.2 * setting.capital,
        };
        factor * (most[1] - least[1]) + 2.0 * BORDER + strip
    }

    /// The rectangle around its lines and arrows.
    fn bounds(&self) -> [Seen; 2] {
        let lines = self.picture.lines.iter().map(|(_, line)| line);
        bounds(lines.chain(&self.arrows).flatten().copied())
    }

    /// How large a thing is on paper, over how large it is.
    pub(crate) fn factor(&self, setting: Setting) -> f64 {
        self.scale(self.room(setting)).factor
    }

    /// What the border, a strip for words, and an enlarged detail leave of a block.
    fn room(&self, setting: Setting) -> [f64; 2] {
        let strip = if self.labels.is_empty() {
            0.0
        } else {
            2.2 * setting.capital
        };
        let aside = self
            .detail
            .as_ref()
            .map_or(0.0, |_| Detail::room(setting.size));
        [
            setting.size[0] - 2.0 * BORDER - aside,
            setting.size[1] - 2.0 * BORDER - strip,
        ]
    }

    /// Makes a figure fill a room.
    fn scale(&self, room: [f64; 2]) -> Scale {
        let [least, most] = self.bounds();
        let factor = [0, 1]
            .map(|axis| room[axis] / (most[axis] - least[axis]).max(1e-9))
            .into_iter()
            .fold(MOST_ENLARGED, f64::min);
        let shift = [0, 1]
            .map(|axis| BORDER + room[axis] / 2.0 - factor * (least[axis] + most[axis]) / 2.0);
        Scale { factor, shift }
    }
}

impl Label {
    fn draw(&self, setting: Setting, scale: Scale, block: &mut Block, free: &mut Free) {
        let size = [
            setting.font.width(&self.text, setting.capital),
            setting.capital,
        ];
        let anchor = scale.on_paper(self.at);
        let Some(at) = free.find(size, anchor, self.leads) else {
            return;
        };
        free.take_words(at, size);
        let middle = [at[0] + size[0] / 2.0, at[1] + size[1] / 2.0];
        let on_card = [0, 1].map(|axis| (middle[axis] - scale.shift[axis]) / scale.factor);
        let holds = |region: &Region| contains(region.iter().map(Vec::as_slice), on_card);
        let is_within = self.within.iter().any(holds);
        let apart = (0..2).map(|axis| (anchor[axis] - middle[axis]).abs() - size[axis] / 2.0);
        let is_far = apart.fold(f64::NEG_INFINITY, f64::max) > 1.5;
        // Words close beside a region that is known could be read as those of its neighbour.
        if self.leads && (is_far || !self.within.is_empty()) && !is_within {
            let leader = leader(at, size, anchor);
            block.line(line_styles::LEADER, leader[0], leader[1]);
            block.fill(line_styles::LEADER.colour, dot(anchor));
            free.take_line(&leader);
        }
        block.words(&self.text, at, setting.capital);
    }
}

/// Draws an arrow along a way on paper.
fn draw_arrow(way: &[PointMm], block: &mut Block) {
    let Some((tip, before)) = way.split_last() else {
        return;
    };
    // The shaft ends where the head begins, so that the tip is a point.
    let base = before
        .iter()
        .rposition(|place| distance(*place, *tip) >= 0.8 * HEAD[0])
        .unwrap_or(0);
    let from = way[base];
    let length = distance(from, *tip).max(1e-9);
    let along = [0, 1].map(|axis| (tip[axis] - from[axis]) / length);
    let heel = [0, 1].map(|axis| tip[axis] - along[axis] * HEAD[0]);
    let mut shaft: Vec<PointMm> = way[..=base].to_vec();
    shaft.push([0, 1].map(|axis| tip[axis] - along[axis] * 0.8 * HEAD[0]));
    block.run(line_styles::HALO, run(&shaft));
    block.run(line_styles::ARROW, run(&shaft));
    let wing = |side: f64| {
        [
            heel[0] - side * along[1] * HEAD[1],
            heel[1] + side * along[0] * HEAD[1],
        ]
    };
    block.fill(line_styles::ARROW.colour, vec![*tip, wing(1.0), wing(-1.0)]);
}

fn distance(one: PointMm, other: PointMm) -> f64 {
    (one[0] - other[0]).steady_hypot(one[1] - other[1])
}

/// A dot at the end of a line.
fn dot([x, y]: PointMm) -> Vec<PointMm> {
    let corner = |step: u32| {
        let (sin, cos) = (f64::from(step) * std::f64::consts::FRAC_PI_4).steady_sin_cos();
        [x + 0.5 * cos, y + 0.5 * sin]
    };
    (0..8).map(corner).collect()
}
