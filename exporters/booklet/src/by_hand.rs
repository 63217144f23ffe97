//! The pages for ruler and pencil: the blank on squares, numbered points, their places, and how they are joined.
//!
//! **Input:** the document. **Output:** coordinates rounded to the coarsest step at which the checked tray still folds
//! and fits, in groups that a page can show; if there is no such step, one sentence that says so.

use traywright_document::{Document, Unit};
use traywright_look::filled;
use traywright_paper::{Block, Font, Line};

use crate::blank::{About, LATER, figure};
use crate::book::{Book, Grid, stacked};
use crate::coordinates;
use crate::figure::{Figure, Label, Setting};
use crate::grouping::{Groups, extent};
use crate::line_styles;
use crate::points::{PointRun, Points, RunKind, is_relief};
use crate::tray::BookletInput;
use crate::visible::Seen;

/// Side of a square of card behind the blank, in mm and for those who measure in inches.
const SQUARES: [f64; 2] = [5.0, 25.4 / 4.0];
/// Height of the figure of a group of points over the width of the page: at least, and usually.
const FIGURE: [f64; 2] = [0.45, 0.62];
/// Beyond the height at which it is as wide as the page, white around a figure takes so much of it at most.
const MOST_HEIGHT: f64 = 1.6;
const FIGURE_OF_PATCH: [f64; 2] = [0.3, 0.42];
/// And so high at least, so that its numbers can be read.
const LEAST_FIGURE: f64 = 0.4;
/// What takes less than this share of the blank's length is a patch, shown by itself beside a map of so much of the width.
const PATCH: f64 = 0.5;
const MAP: f64 = 0.2;
/// Half the cross at a needle, in mm of card.
const NEEDLE: f64 = 1.5;

/// Writes them.
pub(crate) fn pages(book: &mut Book, tray: &BookletInput) {
    let (words, document) = (&tray.words().by_hand, tray.document);
    let Some(step) = document.hand_step else {
        let finest = tray.step_words(document.unit.ruler_steps()[1]);
        if document.has_box() {
            book.words(&filled(&words.not_rounded, &[("step", &finest)]));
        }
        return;
    };
    book.title(&words.title);
    let blank = tray.lengths().size(&tray.sheet());
    book.words(&filled(&words.about, &[("blank", &blank)]));
    let told = tray.step_words(step);
    book.words(&filled(&words.rounded, &[("step", &told)]));
    let points = Groups::of(Points::of(&document.flat, Some(step)));
    let off_marks = |place: &Seen| place.iter().any(|&side| !tray.is_on_mark(side));
    if points.places.iter().any(off_marks) {
        book.words(&words.on_curves);
    }
    if tray.document.flat.holes.iter().any(is_relief) {
        book.words(&words.reliefs);
    }
    book.list(&words.order, true);
    overview(book, tray);
    let mut told = vec![false; points.places.len()];
    for runs in &points.groups {
        group(book, tray, &points, runs, &mut told);
    }
}

/// The whole blank on squares, made to fit the page.
fn overview(book: &mut Book, tray: &BookletInput) {
    let words = &tray.words().by_hand;
    let mut whole = figure(&tray.document.flat, About::All);
    whole.picture.lines.splice(0..0, squares(tray.document));
    let blank = tray.blank();
    let (grid, font) = (book.grid, book.font);
    let width = grid.width();
    let setting = move |height: f64| Setting {
        font,
        capital: grid.words,
        size: [width, height],
    };
    let square = tray.lengths().say(square(tray.document));
    let caption = filled(&words.squares, &[("square", &square)]);
    let caption = move |percent: f64, reduced: &str| {
        let percent = format!("{percent:.0}");
        format!("{caption} {}", filled(reduced, &[("percent", &percent)]))
    };
    let reduced = words.reduced.clone();
    let below = 2.0 * grid.words;
    let usual = width * blank[1] / blank[0] + 4.0;
    let heights = [0.6, 1.0, 1.0].map(|part| part * usual + below);
    book.put_elastic(heights, move |height| {
        let setting = setting(height - below);
        let words = caption(100.0 * whole.factor(setting), &reduced);
        let line = Line {
            text: words,
            capital: 0.85 * grid.words,
            sample: None,
        };
        let mut block = Block::new([width, height]);
        block.hold(whole.block(setting), [0.0, below]);
        block.hold(Block::of_lines(font, &[line], width), [0.0, 0.0]);
        block
    });
}

fn square(document: &Document) -> f64 {
    SQUARES[usize::from(document.unit == Unit::Inch)]
}

/// Squares of card behind the blank, from its left and lower edge.
fn squares(document: &Document) -> Vec<(traywright_look::LineStyle, Vec<Seen>)> {
    let extent = document.flat.extent;
    let (least, most) = (
        [extent.least.x, extent.least.y],
        [extent.most.x, extent.most.y],
    );
    let square = square(document);
    let count = |axis: usize| ((most[axis] - least[axis]) / square).floor() as usize;
    let at = |axis: usize, step: usize| least[axis] + square * step as f64;
    let upright = (0..=count(0)).map(|step| vec![[at(0, step), least[1]], [at(0, step), most[1]]]);
    let level = (0..=count(1)).map(|step| vec![[least[0], at(1, step)], [most[0], at(1, step)]]);
    upright
        .chain(level)
        .map(|line| (line_styles::GRID, line))
        .collect()
}

/// A figure with numbers, the places of its points, and how they are joined.
fn group(
    book: &mut Book,
    tray: &BookletInput,
    points: &Groups,
    runs: &[PointRun],
    told: &mut [bool],
) {
    let mut new: Vec<usize> = runs.iter().flat_map(PointRun::all_points).collect();
    new.retain(|&point| !std::mem::replace(&mut told[point], true));
    let white = || Block::new([0.0, book.grid.between()]);
    let alike = |kind| {
        runs.iter()
            .filter(|run| run.kind == kind)
            .collect::<Vec<_>>()
    };
    let joined = RunKind::ALL
        .into_iter()
        .flat_map(|kind| joined(tray, kind, &alike(kind)));
    let sentences: Vec<Block> = joined
        .map(|words| book.lines(&words, book.grid.words, book.grid.width()))
        .flat_map(|words| [white(), words])
        .collect();
    let below = stacked(
        coordinates::table(book, tray, &points.places, &new)
            .into_iter()
            .chain(sentences.iter().cloned()),
    );
    let picture = GroupFigure::of(book, tray, points, runs);
    let width = book.grid.width();
    let white = book.grid.between();
    let left = book.grid.height() - below.size[1] - white;
    let [least, usual, most] = picture.heights();
    if left > LEAST_FIGURE * width {
        // Whoever looks a number up wants its place beside it.
        let heights = [least, usual, most].map(|high| high.min(left) + white + below.size[1]);
        book.put_elastic(heights, move |height| {
            let figure = picture.block(height - white - below.size[1]);
            stacked([figure, Block::new([0.0, white]), below.clone()])
        });
        return;
    }
    book.put_elastic([least, usual, most], move |height| picture.block(height));
    coordinates::put(book, tray, &points.places, &new);
    book.put(stacked(sentences));
}

/// The figure of a group: with the outline around it, or a patch beside a map.
struct GroupFigure<'a> {
    figure: Figure,
    map: Option<Figure>,
    font: &'a Font,
    grid: Grid,
}

impl<'a> GroupFigure<'a> {
    fn of(
        book: &Book<'a>,
        tray: &BookletInput,
        points: &Groups,
        runs: &[PointRun],
    ) -> GroupFigure<'a> {
        let mut figure = numbered(points, runs);
        let within = extent(runs);
        let is_outline = runs.iter().all(|run| run.kind == RunKind::Outline);
        let is_patch = !is_outline && within[1][0] - within[0][0] <= PATCH * tray.blank()[0];
        if !is_outline && !is_patch {
            figure.picture.lines.splice(0..0, outline(points));
        }
        GroupFigure {
            figure,
            map: is_patch.then(|| map(points, within)),
            font: book.font,
            grid: book.grid,
        }
    }

    /// Its least, usual and greatest height.
    fn heights(&self) -> [f64; 3] {
        let width = self.grid.width();
        let [least, usual] = match self.map {
            Some(_) => FIGURE_OF_PATCH,
            None => FIGURE,
        };
        let most = self.figure.height(self.setting(self.width(), 0.0));
        let most = MOST_HEIGHT * most.max(usual * width);
        [least * width, usual * width, most]
    }

    /// What a patch leaves beside its map, or the whole width.
    fn width(&self) -> f64 {
        let share = if self.map.is_some() { 1.0 - MAP } else { 1.0 };
        share * self.grid.width()
    }

    fn setting(&self, width: f64, height: f64) -> Setting<'a> {
        Setting {
            font: self.font,
            capital: 0.75 * self.grid.words,
            size: [width, height],
        }
    }

    fn block(&self, height: f64) -> Block {
        let drawn = self.figure.block(self.setting(self.width(), height));
        let Some(map) = &self.map else { return drawn };
        let side = MAP * self.grid.width();
        let map = map.block(self.setting(side, side));
        let mut both = Block::new([self.grid.width(), height]);
        both.hold(drawn, [0.0, 0.0]);
        both.hold(map, [self.width(), height - side]);
        both
    }
}

/// Runs with the numbers of their points.
fn numbered(points: &Groups, runs: &[PointRun]) -> Figure {
    let mut figure = Figure::default();
    let mut numbers = Vec::new();
    for run in runs {
        let look = match run.kind {
            RunKind::Inwards => traywright_look::CREASING,
            RunKind::Outwards => traywright_look::REVERSE_CREASING,
            _ => line_styles::EDGE,
        };
        figure.picture.lines.push((look, run.line.clone()));
        for arc in &run.arcs {
            let cross = needle(points.places[arc.about]);
            figure
                .picture
                .lines
                .extend(cross.map(|line| (line_styles::LEADER, line)));
        }
        numbers.extend(run.all_points());
    }
    numbers.sort_unstable();
    numbers.dedup();
    let labels = numbers
        .into_iter()
        .map(|point| number(point, points.places[point]));
    figure.labels = labels.collect();
    figure
}

/// A small cross where the needle of the compasses stands.
fn needle([x, y]: Seen) -> [Vec<Seen>; 2] {
    [
        vec![[x - NEEDLE, y], [x + NEEDLE, y]],
        vec![[x, y - NEEDLE], [x, y + NEEDLE]],
    ]
}

/// The outline, as what is not yet drawn.
fn outline(points: &Groups) -> impl Iterator<Item = (traywright_look::LineStyle, Vec<Seen>)> {
    points.groups[0].iter().map(|run| (LATER, run.line.clone()))
}

/// Where in the blank a patch lies.
fn map(points: &Groups, [least, most]: [Seen; 2]) -> Figure {
    let around = vec![least, [most[0], least[1]], most, [least[0], most[1]], least];
    let mut figure = Figure::default();
    figure.picture.lines = outline(points)
        .chain([(line_styles::EDGE, around)])
        .collect();
    figure
}

fn number(point: usize, at: Seen) -> Label {
    Label {
        text: (point + 1).to_string(),
        at,
        within: Vec::new(),
        leads: true,
    }
}

/// How the points of runs of one kind are joined, and what of them is drawn with compasses.
fn joined(tray: &BookletInput, kind: RunKind, runs: &[&PointRun]) -> Vec<String> {
    let words = &tray.words().by_hand.joined;
    let sentence = match kind {
        RunKind::Outline => &words.outline,
        RunKind::Hole => &words.hole,
        RunKind::Cut => &words.cut,
        RunKind::Inwards => &words.inwards,
        RunKind::Outwards => &words.outwards,
    };
    let straight = runs.iter().filter(|run| run.points.len() > run.arcs.len());
    let arcs = || runs.iter().flat_map(|run| &run.arcs);
    let told = |point: usize| (point + 1).to_string();
    let circles = arcs().filter(|arc| arc.between.is_none()).map(|arc| {
        let radius = tray.lengths().say(arc.radius);
        filled(
            &words.circle,
            &[("about", &told(arc.about)), ("radius", &radius)],
        )
    });
    let arcs = arcs().filter_map(|arc| {
        let [from, to] = arc.between?.map(told);
        let (about, radius) = (told(arc.about), tray.lengths().say(arc.radius));
        let figures = [
            ("from", &*from),
            ("to", &to),
            ("about", &about),
            ("radius", &radius),
        ];
        Some(filled(&words.arc, &figures))
    });
    let lists = [
        (
            sentence,
            "points",
            straight.map(|run| numbers(&run.points)).collect::<Vec<_>>(),
        ),
        (&words.circles, "circles", circles.collect()),
        (&words.arcs, "arcs", arcs.collect()),
    ];
    lists
        .into_iter()
        .filter(|(.., list)| !list.is_empty())
        .map(|(sentence, name, list)| filled(sentence, &[(name, &list.join(", "))]))
        .collect()
}

/// The numbers of a run's points, with what lies between left out where they follow each other.
fn numbers(points: &[usize]) -> String {
    let numbers: Vec<String> = points.iter().map(|point| (point + 1).to_string()).collect();
    let in_order = points.windows(2).all(|pair| pair[1] == pair[0] + 1);
    match (
        in_order && points.len() > 2,
        numbers.first(),
        numbers.last(),
    ) {
        (true, Some(first), Some(last)) => format!("{first}\u{a0}…\u{a0}{last}"),
        _ => numbers.join("\u{a0}–\u{a0}"),
    }
}

impl BookletInput<'_> {
    /// A step as a maker says it.
    fn step_words(&self, step: f64) -> String {
        match self.document.unit {
            Unit::Millimetre => self.lengths().say(step),
            Unit::Inch => format!("1/{:.0}\u{a0}in", 25.4 / step),
        }
    }
}
