//! The figure of every step, and of the tray in its box.
//!
//! Given the document; draws the tray as it is after the step: what moved tinted, where it was dashed, an arrow along its
//! way. Lines that the tray hides are not drawn.

use traywright_document::{Action, Document, Item, Move, Point, Step};
use traywright_look::LineStyle;

use crate::arrows;
use crate::card::Card;
use crate::drawn::{drawn, extent, inner_place};
use crate::figure::{Figure, Label};
use crate::from_below;
use crate::line_styles;
use crate::part_map;
use crate::scene::{Part, Scene};
use crate::section::{Axis, Section};
use crate::sense::Sense;
use crate::small;
use crate::view::View;
use crate::viewpoints::{Shown, views};
use crate::visible::{Seen, Sight, area};
use traywright_document::Stage;

mod into_box;

/// Of panels that move together the best seen ones have arrows, so many.
const MOST_ARROWS: usize = 4;
/// Of panels that move together so many have their letters, and the first the word for its way.
const MOST_LABELS: usize = 5;
/// Arrows reach so far at least, over the diagonal of the figure.
// Source: common practice, none published; chosen by looking at the pages.
const LEAST_REACH: f64 = 0.13;

/// All figures of a tray.
pub(crate) struct Staging<'a> {
    document: &'a Document,
    card: Card<'a>,
    /// The letter of each panel.
    letters: Vec<String>,
    stages: Vec<Stage>,
    views: Vec<View>,
}

/// The figures of one step: one, or the tray before and after it was turned over; and one more where it is turned round
/// first.
pub(crate) struct StepFigure {
    pub(crate) figures: Vec<Figure>,
    /// How each panel moved.
    pub(crate) senses: Vec<Sense>,
    /// The tray on the table before and after it is turned round, where it is seen from another side than in the step
    /// before.
    pub(crate) turned_round: Option<[Figure; 2]>,
    /// Whether hands lift the tray to push panels up from below.
    pub(crate) is_lifted: bool,
}

impl<'a> Staging<'a> {
    /// Sets the stage and chooses the views.
    pub(crate) fn of(document: &'a Document) -> Staging<'a> {
        let mut staging = Staging {
            document,
            card: Card::of(document),
            letters: part_map::letters(document),
            stages: document.stages(),
            views: Vec::new(),
        };
        let shown: Vec<Option<Shown>> = (0..document.steps.len())
            .map(|step| staging.shown(step))
            .collect();
        staging.views = views(&shown);
        staging
    }

    /// Whether panels hang where an item goes, so that it pushes them down: fences, cut out of the card around it, do not.
    pub(crate) fn has_flaps(&self) -> bool {
        let hung = self
            .card
            .panels
            .iter()
            .filter(|panel| panel.hinge.is_some());
        let mut middles = hung.map(|panel| middle(&panel.rings[0]));
        middles.any(|at| {
            self.document.items.iter().any(|item| {
                item.middle.is_some_and(|middle| {
                    (at.x - middle.x).abs() < item.length / 2.0
                        && (at.y - middle.y).abs() < item.width / 2.0
                })
            })
        })
    }

    /// What stands there in the figure of every step, in those of the tray turned round, and in that of the tray in its
    /// box, with where it is seen from.
    pub(crate) fn scenes(&self) -> Vec<(Scene, View)> {
        let steps = 0..self.document.steps.len();
        let shown = steps.clone().map(|step| {
            let stage = &self.stages[step + 1];
            let scene = match self.document.steps[step].action {
                Action::Place => self.lifted(stage).0,
                _ => self.after(step),
            };
            (scene, self.views[step])
        });
        let turned = steps.filter_map(|step| {
            let views = self.turn_before(step)?;
            Some((self.on_turntable(step), views[1]))
        });
        shown
            .chain(turned)
            .chain([(self.boxed(), View::FIRST)])
            .collect()
    }

    /// The figures of a step, with the words for what moved.
    pub(crate) fn step(&self, step: usize, words: &dyn Fn(Sense) -> String) -> StepFigure {
        let (figures, senses) = match &self.document.steps[step].action {
            Action::Fold(moves) => self.fold(step, moves, words),
            Action::Turn => (self.turn(step), Vec::new()),
            Action::Place => (vec![self.place(step)], Vec::new()),
            _ => (vec![self.as_it_stands(step)], Vec::new()),
        };
        StepFigure {
            figures,
            senses,
            turned_round: self.turn_round(step),
            is_lifted: from_below::is_pushed(&self.card, moves(&self.document.steps[step])),
        }
    }

    /// The tray as it stands before a step, seen as in the step before and as in this one; none where both see it from
    /// the same side. What will move is tinted, so that the eye finds it again.
    fn turn_round(&self, step: usize) -> Option<[Figure; 2]> {
        let views = self.turn_before(step)?;
        let scene = self.on_turntable(step);
        let moves = moves(&self.document.steps[step]);
        let moved = |part: Part| moves.iter().any(|one| part == Part::Panel(one.panel));
        let [mut before, after] = views.map(|view| drawn(&Sight::of(&scene, view), &moved));
        let way = arrows::round(&scene, views);
        let way = way.into_iter().map(|place| views[0].on_plane(place));
        before.arrows.push(way.collect());
        Some([before, after])
    }

    /// From where the tray is seen before it is turned round for a step, and after.
    fn turn_before(&self, step: usize) -> Option<[View; 2]> {
        let views = [*self.views.get(step.checked_sub(1)?)?, self.views[step]];
        (views[0].turn_to(views[1]) != 0.0).then_some(views)
    }

    /// What stands on the table at a stage: the tray, and the items once they are in.
    fn standing(&self, stage: &Stage) -> Scene {
        let mut scene = Scene::of(&self.card, stage);
        if stage.placed {
            scene.add_items(&self.card, stage, 0.0);
        }
        scene
    }

    /// What stands there after a step, over the table where hands lift it to push panels up from below.
    fn after(&self, step: usize) -> Scene {
        let mut scene = self.standing(&self.stages[step + 1]);
        if from_below::is_pushed(&self.card, moves(&self.document.steps[step])) {
            from_below::add_table(&mut scene);
        }
        scene
    }

    fn on_turntable(&self, step: usize) -> Scene {
        let mut scene = self.standing(&self.stages[step]);
        scene.add_turntable(0.0);
        scene
    }

    /// How each panel of a fold moves.
    pub(crate) fn senses(&self, step: usize, moves: &[Move]) -> Vec<Sense> {
        let (before, after) = (&self.stages[step], &self.stages[step + 1]);
        let sense = |one: &Move| Sense::of(&self.card, before, after, one.panel);
        moves.iter().map(sense).collect()
    }

    /// How much of what moves in a step each view shows; none where nothing is folded.
    fn shown(&self, step: usize) -> Option<Shown> {
        let Action::Fold(moves) = &self.document.steps[step].action else {
            return None;
        };
        let scene = self.standing(&self.stages[step + 1]);
        Some(View::ALL.map(|view| {
            let sight = Sight::of(&scene, view);
            moves.iter().map(|one| sight.area(one.panel)).sum()
        }))
    }

    fn fold(
        &self,
        step: usize,
        moves: &[Move],
        words: &dyn Fn(Sense) -> String,
    ) -> (Vec<Figure>, Vec<Sense>) {
        let (before, after) = (&self.stages[step], &self.stages[step + 1]);
        let view = self.views[step];
        let scene = self.after(step);
        let sight = Sight::of(&scene, view);
        let moved = |part: Part| moves.iter().any(|one| part == Part::Panel(one.panel));
        let mut figure = drawn(&sight, &moved);
        let was = Scene::of(&self.card, before);
        figure.picture.lines.extend(ghost(&sight, &was, &moved));
        let senses = self.senses(step, moves);
        let told = most_seen_first(&sight, moves.iter().zip(&senses).collect());
        figure.detail = small::detail(&self.card, after, &sight, moves);
        // Beside a ring around small things one arrow is enough.
        let most = figure.detail.map_or(MOST_ARROWS, |_| 1);
        let diagonal = extent(&figure);
        let reach = LEAST_REACH * diagonal;
        for (one, sense) in told {
            let arc = arrows::path(&self.card, [before, after], one.panel, reach);
            let way: Vec<Seen> = arc.iter().map(|&place| view.on_plane(place)).collect();
            if figure.labels.len() < MOST_LABELS {
                figure.labels.extend(self.label(&sight, one.panel));
            }
            if figure.arrows.is_empty() {
                figure.labels.push(Label {
                    text: words(*sense),
                    at: way[way.len() / 2],
                    within: Vec::new(),
                    leads: false,
                });
            }
            let mut others = figure.arrows.iter();
            if figure.arrows.len() < most
                && others.all(|other| arrows::are_apart(&way, other, diagonal))
            {
                figure.arrows.push(way);
            }
        }
        if from_below::is_pushed(&self.card, moves) {
            let lifted = self.standing(after);
            figure.arrows.push(from_below::way_up(&lifted, view));
        }
        (vec![figure], senses)
    }

    /// The letter of a panel at the place where most of it is seen.
    fn label(&self, sight: &Sight, panel: usize) -> Option<Label> {
        let within = sight.region(panel);
        let largest = within
            .iter()
            .max_by(|one, other| area(one).total_cmp(&area(other)))?;
        Some(Label {
            text: self.letters[panel].clone(),
            at: inner_place(largest)?,
            within,
            leads: true,
        })
    }

    /// The tray before and after it was turned over. What will move next is tinted, so that the eye finds it again.
    fn turn(&self, step: usize) -> Vec<Figure> {
        let view = self.views[step];
        let moved = |part: Part| {
            let next = self.document.steps.get(step + 1);
            let moves = next.map_or(&[][..], moves);
            moves.iter().any(|one| part == Part::Panel(one.panel))
        };
        let scenes = [step, step + 1].map(|at| self.standing(&self.stages[at]));
        let [mut before, after] = [0, 1].map(|at| drawn(&Sight::of(&scenes[at], view), &moved));
        let way = arrows::over(&scenes[0], view).into_iter();
        before
            .arrows
            .push(way.map(|place| view.on_plane(place)).collect());
        vec![before, after]
    }

    /// The tray after a step of which no more is known than its words.
    fn as_it_stands(&self, step: usize) -> Figure {
        let scene = self.standing(&self.stages[step + 1]);
        drawn(&Sight::of(&scene, self.views[step]), &|_| false)
    }

    /// The items over their places, and their way down.
    fn place(&self, step: usize) -> Figure {
        self.items_going_in(&self.stages[step + 1], self.views[step])
    }

    /// The tray at a stage and the items over it, lifted by so much.
    fn lifted(&self, stage: &Stage) -> (Scene, f64) {
        let mut scene = Scene::of(&self.card, stage);
        let [least, most] = scene.reach();
        let lifted = 1.15 * (most[2] - least[2]);
        scene.add_items(&self.card, stage, lifted);
        (scene, lifted)
    }

    fn items_going_in(&self, stage: &Stage, view: View) -> Figure {
        let (scene, lifted) = self.lifted(stage);
        let sight = Sight::of(&scene, view);
        let mut figure = drawn(&sight, &|part| part == Part::Item);
        let mut surfaces = scene.surfaces.iter();
        // One arrow for all: from the foot of the first item down.
        if let Some(surface) = surfaces.find(|surface| surface.part == Part::Item) {
            let ring = &surface.rings[0];
            let corner = ring.iter().fold(
                ring[0],
                |low, corner| if corner[2] < low[2] { *corner } else { low },
            );
            let end = [corner[0], corner[1], corner[2] - 0.8 * lifted];
            figure
                .arrows
                .push(vec![view.on_plane(corner), view.on_plane(end)]);
        }
        figure
    }

    /// The finished tray cut through an item.
    pub(crate) fn section(&self, item: &Item, axis: Axis) -> Option<Section> {
        Section::of(&self.card, self.last(), item, axis)
    }

    /// The view of the last step, so that the tray need not be rotated to see it go into its box.
    fn last_view(&self) -> View {
        self.views.last().copied().unwrap_or(View::FIRST)
    }

    fn last(&self) -> &Stage {
        self.stages
            .last()
            .expect("there is a stage before any step")
    }
}

/// Dashes where what moved was before, as far as the tray does not hide them now.
fn ghost(sight: &Sight, was: &Scene, moved: &dyn Fn(Part) -> bool) -> Vec<(LineStyle, Vec<Seen>)> {
    let surfaces = was.surfaces.iter().filter(|surface| moved(surface.part));
    surfaces
        .flat_map(|surface| surface.outline())
        .flat_map(|edge| sight.stretches(&edge))
        .map(|line| (line_styles::BEFORE, line.to_vec()))
        .collect()
}

/// What a step folds.
fn moves(step: &Step) -> &[Move] {
    match &step.action {
        Action::Fold(moves) => moves,
        _ => &[],
    }
}

/// The middle of the corners of a panel.
fn middle(ring: &[Point]) -> Point {
    let count = ring.len() as f64;
    Point {
        x: ring.iter().map(|corner| corner.x).sum::<f64>() / count,
        y: ring.iter().map(|corner| corner.y).sum::<f64>() / count,
    }
}

/// Moves in the order of how much of their panels is seen, the most first.
fn most_seen_first<'m>(
    sight: &Sight,
    mut told: Vec<(&'m Move, &'m Sense)>,
) -> Vec<(&'m Move, &'m Sense)> {
    let seen = |told: &(&Move, &Sense)| sight.area(told.0.panel);
    told.sort_by(|one, other| seen(other).total_cmp(&seen(one)));
    told
}
