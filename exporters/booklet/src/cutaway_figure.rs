//! A cut-away on paper: the box, the card, the item on its pad, and measures beside them.
//!
//! **Input:** a section with its measures in height and the play. **Output:** a block as wide as the page; the drawing takes
//! half of it at most, the words of the measures stand right of it. **Does not** know what a measure means.

use traywright_document::Item;
use traywright_look::LineStyle;
use traywright_paper::{Block, PointMm, StrokePath};

use crate::book::{Book, Grid};
use crate::line_styles as looks;
use crate::measuring::{HEAD, Measure, Play, draw_arrows, rows};
use crate::section::{CutCard, Section};
use crate::visible::Seen;
use crate::zones::Zones;

/// The scales at which a section is drawn, the first that fits.
// Source: ISO 5455, reduction scales (from memory).
const SCALES: [f64; 7] = [1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01];
/// What is seen beside an item and beside a wall at least, on paper.
const BESIDE: f64 = 6.0;
/// Width of the hatched strip around the box.
const HATCH: f64 = 2.4;
/// Paper above and below the box: heads and tails of measures reach so far.
const AROUND: f64 = 2.0 * HEAD + 0.4;
/// Between the lines of a hatch.
const HATCH_STEP: f64 = 1.2;
/// Between two measures side by side, and from the box to the first.
const COLUMN: f64 = 3.4;
const FIRST_COLUMN: f64 = 3.0;
/// From the item's side to the words of its play: the arrow, and white.
const BESIDE_PLAY: f64 = 6.0;
/// Cut card is drawn so thick at least.
// Source: ISO 128-2: the wide line of 0.35 mm (from memory).
const LEAST_CARD: f64 = 0.35;

/// What is drawn.
pub(crate) struct CutawayFigure<'a> {
    pub(crate) section: &'a Section,
    pub(crate) item: &'a Item,
    pub(crate) measures: Vec<Measure>,
    pub(crate) play: Option<Play>,
}

/// The block in the making.
struct Canvas<'a> {
    zones: &'a Zones,
    block: Block,
    /// Where the floor of the box stands on paper, and its left wall.
    origin: PointMm,
    /// The floor of the box in the section.
    floor: f64,
}

impl Canvas<'_> {
    fn up(&self, height: f64) -> f64 {
        self.origin[1] + (height - self.floor) * self.zones.factor
    }

    fn across(&self, along: f64) -> f64 {
        self.origin[0] + self.zones.place(along)
    }

    fn on_paper(&self, [across, height]: Seen) -> PointMm {
        [self.origin[0] + across, self.up(height)]
    }

    /// The parts of a convex polygon that are drawn.
    fn parts(&self, ring: &[Seen]) -> Vec<Vec<PointMm>> {
        let parts = self.zones.polygon(ring).into_iter();
        let on_paper = |part: Vec<Seen>| part.into_iter().map(|place| self.on_paper(place));
        parts.map(|part| on_paper(part).collect()).collect()
    }

    fn line(&mut self, look: LineStyle, ends: [Seen; 2]) {
        for [from, to] in self.zones.line(ends) {
            let (from, to) = (self.on_paper(from), self.on_paper(to));
            self.block.line(look, from, to);
        }
    }

    /// Lines at a slant across a rectangle.
    fn hatch(&mut self, look: LineStyle, least: PointMm, most: PointMm, slant: f64) {
        let [width, height] = [most[0] - least[0], most[1] - least[1]];
        let count = ((width + height) / HATCH_STEP) as usize;
        for step in 1..=count {
            // Counted along the lower edge, the lines begin left of it by the height.
            let foot = step as f64 * HATCH_STEP - height;
            let [start, end] = [
                (-foot).clamp(0.0, height),
                (width - foot).clamp(0.0, height),
            ];
            let place = |up: f64| {
                let across = (foot + up).clamp(0.0, width);
                let across = if slant > 0.0 { across } else { width - across };
                [least[0] + across, least[1] + up]
            };
            if end > start {
                self.block.line(look, place(start), place(end));
            }
        }
    }
}

impl CutawayFigure<'_> {
    /// The scale, and which stretches of the section are drawn, for a share of the page's width and height at most.
    pub(crate) fn zones(&self, grid: Grid, share: [f64; 2]) -> Zones {
        let section = self.section;
        let [left, right] = section.walls;
        let height = section.heights[1] - section.heights[0];
        let widest = share[0] * grid.size[0] - 2.0 * HATCH;
        let at = |factor: f64| {
            let beside = BESIDE / factor;
            let needed = [
                [left, left + beside],
                [
                    (section.item[0] - beside).max(left),
                    (section.item[1] + beside).min(right),
                ],
                [right - beside, right],
            ];
            let zones = Zones::of(section.walls, &needed, factor, widest)?;
            (height * factor <= share[1] * grid.size[1]).then_some(zones)
        };
        let found = SCALES.into_iter().find_map(at);
        found.unwrap_or_else(|| {
            let factor = widest / (right - left);
            Zones::of(section.walls, &[section.walls; 3], factor, f64::INFINITY)
                .expect("there is room without end")
        })
    }

    /// The figure.
    pub(crate) fn block(&self, book: &Book, zones: &Zones) -> Block {
        let capital = 0.9 * book.grid.words;
        let [floor, lid] = self.section.heights;
        let inside = (lid - floor) * zones.factor;
        let columns = self.measures.len() as f64;
        let words_left = 2.0 * HATCH + zones.width() + FIRST_COLUMN + (columns + 0.5) * COLUMN;
        let words: Vec<Block> = self
            .measures
            .iter()
            .map(|measure| book.lines(&measure.text, capital, book.grid.width() - words_left))
            .collect();
        let words_height: f64 = words.iter().map(|words| words.size[1]).sum();
        let more = (words_height - inside - 2.0 * AROUND).max(0.0);
        let play = self.play.as_ref().map(|play| {
            let left = HATCH + zones.place(self.section.item[0]) + BESIDE_PLAY;
            (
                play,
                book.lines(&play.text, capital, book.grid.width() - left),
            )
        });
        let row = play.as_ref().map_or(0.0, |(_, words)| words.size[1] + 1.0);
        let height = more + inside + 2.0 * AROUND;
        let mut canvas = Canvas {
            zones,
            block: Block::new([book.grid.width(), height + row]),
            origin: [HATCH, more / 2.0 + AROUND],
            floor,
        };
        self.draw_box(&mut canvas);
        for line in &self.section.behind {
            canvas.line(looks::BEHIND, *line);
        }
        self.draw_item(&mut canvas);
        for card in &self.section.cards {
            for part in canvas.parts(&outline(card, zones.factor)) {
                canvas.block.fill(looks::EDGE.colour, part);
            }
        }
        draw_breaks(&mut canvas, inside);
        self.draw_measures(&mut canvas, words, [words_left, height]);
        if let Some((play, words)) = play {
            self.draw_play(&mut canvas, play, words);
        }
        canvas.block
    }

    /// Floor, walls and lid, hatched outside.
    fn draw_box(&self, canvas: &mut Canvas) {
        let [floor, lid] = self.section.heights.map(|height| canvas.up(height));
        let stretches: Vec<[f64; 2]> = canvas.zones.stretches().collect();
        let (mut left, mut right) = (f64::INFINITY, 0.0_f64);
        let half = looks::BOX_LINE.width / 2.0;
        for stretch in stretches {
            let [from, to] = stretch.map(|side| canvas.origin[0] + side);
            (left, right) = (left.min(from), right.max(to));
            canvas.hatch(looks::HATCH, [from, floor - HATCH], [to, floor], 1.0);
            canvas.hatch(looks::HATCH, [from, lid], [to, lid + HATCH], 1.0);
            for up in [floor - half, lid + half] {
                canvas.block.line(looks::BOX_LINE, [from, up], [to, up]);
            }
        }
        for (from, to, wall) in [
            (left - HATCH, left, left - half),
            (right, right + HATCH, right + half),
        ] {
            canvas.hatch(looks::HATCH, [from, floor], [to, lid], 1.0);
            let (low, high) = (floor - 2.0 * half, lid + 2.0 * half);
            canvas
                .block
                .line(looks::BOX_LINE, [wall, low], [wall, high]);
        }
    }

    /// The item on its pad; above the height up to which it keeps its outline, that is dashed.
    fn draw_item(&self, canvas: &mut Canvas) {
        let item = self.item;
        let [left, right] = self.section.item.map(|side| canvas.across(side));
        let rectangle =
            |low: f64, high: f64| [[left, low], [right, low], [right, high], [left, high]].to_vec();
        let top = item.rest + item.depth;
        let upright = item.rest + item.straight.unwrap_or(item.depth);
        let [under, foot, straight, top] =
            [item.rest - item.pad, item.rest, upright, top].map(|height| canvas.up(height));
        if item.pad > 0.0 {
            canvas.block.fill(looks::PAD_TINT, rectangle(under, foot));
            for slant in [1.0, -1.0] {
                canvas.hatch(looks::HATCH, [left, under], [right, foot], slant);
            }
            let ring = StrokePath::ring(&rectangle(under, foot));
            canvas.block.run(looks::HATCH, ring);
        }
        canvas
            .block
            .fill(looks::ITEM_CUT, rectangle(foot, straight));
        let ring = StrokePath::ring(&rectangle(foot, straight));
        canvas.block.run(looks::ITEM_LINE, ring);
        if top > straight {
            let ring = StrokePath::ring(&rectangle(straight, top));
            canvas.block.run(looks::UNFOLDED, ring);
        }
    }

    /// The measures in height, the shorter ones nearer to the box, and their words in a column.
    fn draw_measures(&self, canvas: &mut Canvas, words: Vec<Block>, corner: PointMm) {
        let [words_left, height] = corner;
        let mut order: Vec<usize> = (0..self.measures.len()).collect();
        let length = |index: &usize| self.measures[*index].ends[1] - self.measures[*index].ends[0];
        order.sort_by(|one, other| length(one).total_cmp(&length(other)));
        let right = canvas.origin[0] + canvas.zones.width() + HATCH;
        let feature = canvas.across(self.section.item[1]);
        let middle = |index: usize| {
            let ends = self.measures[index].ends;
            canvas.up((ends[0] + ends[1]) / 2.0)
        };
        let wanted: Vec<(f64, f64)> = (0..words.len())
            .map(|index| (middle(index), words[index].size[1]))
            .collect();
        let rows = rows(&wanted, height);
        for (column, &index) in order.iter().enumerate() {
            let measure = &self.measures[index];
            let across = right + FIRST_COLUMN + column as f64 * COLUMN;
            let ends = measure.ends.map(|height| [across, canvas.up(height)]);
            for [_, up] in ends {
                let from = [feature + 0.6, up];
                canvas
                    .block
                    .line(looks::EXTENSION, from, [across + 1.0, up]);
            }
            draw_arrows(&mut canvas.block, measure.pen.look(), ends);
            let from = [across, (ends[0][1] + ends[1][1]) / 2.0];
            let to = [words_left - 0.9, rows[index]];
            canvas.block.line(looks::LEADER, from, to);
        }
        for (words, row) in words.into_iter().zip(rows) {
            let low = row - words.size[1] / 2.0;
            canvas.block.hold(words, [words_left, low]);
        }
    }

    /// The play, over the lid.
    fn draw_play(&self, canvas: &mut Canvas, play: &Play, words: Block) {
        let item = self.section.item[0];
        let ends = [item - play.length, item].map(|along| canvas.across(along));
        let low = canvas.block.size[1] - words.size[1];
        let up = low + words.size[1] / 2.0;
        let from = canvas.up(self.item.rest + self.item.depth) + 0.6;
        for across in ends {
            canvas
                .block
                .line(looks::EXTENSION, [across, from], [across, up + 1.0]);
        }
        draw_arrows(
            &mut canvas.block,
            looks::MEASURE,
            ends.map(|across| [across, up]),
        );
        canvas.block.hold(words, [ends[1] + BESIDE_PLAY, low]);
    }
}

/// Cut card as a polygon, never thinner than a wide line.
fn outline(card: &CutCard, factor: f64) -> Vec<Seen> {
    let [across, up] = card.half;
    let half = (across * across + up * up).sqrt().max(1e-9);
    let more = (LEAST_CARD / 2.0 / factor / half).max(1.0);
    let [from, to] = card.drawn;
    let beside =
        |place: Seen, sign: f64| [place[0] + sign * more * across, place[1] + sign * more * up];
    vec![
        beside(from, 1.0),
        beside(to, 1.0),
        beside(to, -1.0),
        beside(from, -1.0),
    ]
}

/// Zigzags where the deck is shortened.
// Source: ISO 128-2, line 01.2: a narrow line with zigzags for the limits of interrupted views (from memory).
fn draw_breaks(canvas: &mut Canvas, inside: f64) {
    let stretches: Vec<[f64; 2]> = canvas.zones.stretches().collect();
    let [low, high] = [canvas.origin[1] - HATCH, canvas.origin[1] + inside + HATCH];
    let middle = (low + high) / 2.0;
    for pair in stretches.windows(2) {
        for across in [pair[0][1], pair[1][0]] {
            let across = canvas.origin[0] + across;
            let zigzag = [
                [across, low],
                [across, middle - 1.2],
                [across - 0.9, middle - 0.4],
                [across + 0.9, middle + 0.4],
                [across, middle + 1.2],
                [across, high],
            ];
            canvas
                .block
                .run(looks::EXTENSION, crate::picture::run(&zigzag));
        }
    }
}
