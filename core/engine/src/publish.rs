//! The conversion of the engine's types into those of the document.
//!
//! **Input:** only a [`FinishedTray`]. **Output:** the [`Document`] for exporters. If the lines are on the outside of
//! the card, the document shows the other face: x and z change sign, so every fold changes direction, but no size
//! changes.

mod measured;

use traywright_document as document;
use traywright_document::{Document, Extent, Flat, PanelLabel, PanelPicture, Vector, seen};

use crate::blank::{Blank, DrawnView};
use crate::checked::Lock;
use crate::dimensions::{lay_out, letters, name};
use crate::finding::SourceError;
use crate::geometry::Corner;
use crate::holding::{HeldItem, Holder};
use crate::job::{DrawnFace, Item, ItemId, Job, Length};
use crate::labelling::{DrawnTray, place, place_pictures};
use crate::measure::Measure;
use crate::order::ActionKind;
use crate::rounding::FinishedTray;
use crate::tray::{Hanging, PanelId, Slit, Tray};

/// How far pictures reach beyond cuts where the page is not a print shop's, in mm: a cut may miss its line by half of it.
// Source: a choice of this project: twice the accuracy of a hand.
const BLEED: f64 = 1.0;

impl FinishedTray<'_> {
    /// The finished tray in plain data.
    pub fn document(&self) -> Document {
        let mut document = self.without_letters();
        if document.output.has_letters_on_blank() {
            document.flat.letters = letters(&document);
        }
        document
    }

    /// The document before its parts have letters, which depend on all else that is written on the blank.
    fn without_letters(&self) -> Document {
        let drawn = self.checked.drawn();
        let job = &drawn.job;
        let flat = self.flat();
        Document {
            title: seen(&job.title),
            style: drawn.style.name.clone(),
            board: document::Board {
                name: job.board.name.as_deref().map(seen),
                caliper: job.board.caliper.mm(),
                kind: job.board.kind(),
                crease: job.board.crease(),
                hinge: job.board.hinge(),
                wants_strip: job.has_box() && job.board.wants_strip(),
                grain: job.board.grain,
            },
            tool: document::Tool {
                by: job.tool.by,
                accuracy: job.tool.accuracy(),
            },
            box_size: job.box_size,
            items: job
                .items
                .iter()
                .zip(ItemId::up_to(job.items.len()))
                .map(|(item, id)| self.item(item, id))
                .collect(),
            unit: job.unit,
            output: job.output.clone(),
            stands: drawn.style.orientation,
            hand_step: self.hand_step,
            flat,
            panels: self.panels(),
            interlocks: self.interlocks(),
            friction: Lock::all(self.checked.folded())
                .iter()
                .any(|lock| lock.is_friction(job)),
            warnings: self.warnings(),
            steps: self.steps(),
            measures: self.checked.report().measures.iter().map(measure).collect(),
            toolpaths: self.checked.cut().toolpaths.clone(),
            nested: Vec::new(),
        }
    }

    /// The warnings of the check.
    fn warnings(&self) -> Vec<String> {
        let points = self.checked.report().watch_points().into_iter();
        points.map(seen).collect()
    }

    fn tray(&self) -> &Tray {
        &self.checked.drawn().tray
    }

    fn blank(&self) -> &Blank {
        &self.checked.laid().blank
    }

    fn job(&self) -> &Job {
        &self.checked.drawn().job
    }

    fn view(&self) -> DrawnView {
        DrawnView(self.job().output.drawn_face)
    }

    /// An item in its orientation in the tray.
    fn item(&self, item: &Item, id: ItemId) -> document::Item {
        let openings = &self.tray().openings;
        let own = openings.iter().find(|opening| opening.item == Some(id));
        let held = self.checked.held().items.iter().find(|held| held.id == id);
        let lies = own.and_then(|opening| opening.item_as_it_lies(self.job()));
        let item = lies.unwrap_or_else(|| item.clone());
        // The first axis of a panel hinged to the side of another is across the box, and the item lies along that axis.
        let across = own.is_some_and(|opening| {
            let along = self.tray().frames[opening.panel].turn(Vector::new(1.0, 0.0));
            along.x.abs() < along.y.abs()
        });
        let [length, width] = if across {
            [item.width, item.length]
        } else {
            [item.length, item.width]
        };
        document::Item {
            name: seen(&item.name),
            kind: self.job().kind_of(id),
            number: item.number,
            length: length.mm(),
            width: width.mm(),
            depth: item.depth.mm(),
            shape: item.shape,
            middle: own.map(|opening| {
                let frame = self.blank().panels[opening.panel].frame;
                self.view().point(frame.place(opening.rect.centre))
            }),
            panel: own.map_or(0, |opening| opening.panel.index()),
            pad: item.pad.mm(),
            straight: item.straight.map(Length::mm),
            loose: item.loose,
            rest: held.map_or(0.0, |held| held.rest),
            held: held.map(of_held),
            turned: own.is_some_and(|opening| opening.turned) != across,
        }
    }

    fn flat(&self) -> Flat {
        let mut flat = self.view().lines(self.blank());
        flat.panel_pictures = self.panel_pictures(&flat).unwrap_or_default();
        flat.panel_labels = self.panel_labels(&flat).unwrap_or_default();
        flat.labels = name(&self.named(), &flat);
        flat.dimensions = lay_out(&self.measured(), &flat, self.job().unit);
        flat
    }

    /// Checks that the pictures and the labels of the job can be printed.
    ///
    /// # Errors
    /// Those of all pictures and labels, with their places in the job.
    pub fn check_labels(&self) -> Result<(), Vec<SourceError>> {
        if self.job().labels.is_empty() && self.job().prints.is_empty() {
            return Ok(());
        }
        let flat = self.view().lines(self.blank());
        let pictures = self.panel_pictures(&flat).err().unwrap_or_default();
        let labels = self.panel_labels(&flat).err().unwrap_or_default();
        let faults = [pictures, labels].concat();
        if faults.is_empty() {
            Ok(())
        } else {
            Err(faults)
        }
    }

    /// The labels of the job on their panels.
    fn panel_labels(&self, flat: &Flat) -> Result<Vec<PanelLabel>, Vec<SourceError>> {
        let job = self.job();
        let panels = self.panels();
        place(self.as_drawn(flat, &panels), &job.labels, job.unit)
    }

    /// The pictures of the job on their panels.
    fn panel_pictures(&self, flat: &Flat) -> Result<Vec<PanelPicture>, Vec<SourceError>> {
        let job = self.job();
        let panels = self.panels();
        let bleed = job.output.paper.bleed().map_or(BLEED, Length::mm);
        place_pictures(self.as_drawn(flat, &panels), &job.prints, bleed)
    }

    fn as_drawn<'a>(&self, flat: &'a Flat, panels: &'a [document::Panel]) -> DrawnTray<'a> {
        let job = self.job();
        DrawnTray {
            flat,
            panels,
            stands: self.checked.drawn().style.orientation,
            drawn_face: job.output.drawn_face,
            caliper: job.board.caliper.mm(),
        }
    }

    fn panels(&self) -> Vec<document::Panel> {
        let panels = self.tray().panels.ids();
        panels.map(|panel| self.panel(panel)).collect()
    }

    /// The items' names with their openings, if there are several to distinguish.
    fn named(&self) -> Vec<(String, Extent)> {
        let named: Vec<(String, Extent)> = self
            .tray()
            .openings
            .iter()
            .filter_map(|opening| {
                let name = seen(&self.job().item(opening.item?)?.name);
                let frame = self.blank().panels[opening.panel].frame;
                let corners = opening.rect.corners().map(|corner| frame.place(corner));
                Some((name, self.view().extent(corners)))
            })
            .collect();
        if named.len() > 1 { named } else { Vec::new() }
    }

    fn panel(&self, id: PanelId) -> document::Panel {
        let panel = &self.tray().panels[id];
        let flat = &self.blank().panels[id];
        document::Panel {
            name: panel.name.clone(),
            part: panel.part.clone(),
            outline: self.view().contour(&flat.outline),
            holes: flat
                .holes
                .iter()
                .map(|hole| self.view().contour(hole))
                .collect(),
            hinge: panel.hanging.as_ref().map(|hanging| self.hinge(hanging)),
            pose: self.pose(&self.checked.folded().folded.motions[id]),
        }
    }

    /// A hinge as seen from the drawn face; its panel stays on the right of its line.
    fn hinge(&self, hanging: &Hanging) -> document::Hinge {
        let hinge = self.tray().hinge_of(hanging);
        let [from, to] = hinge.line.map(|end| self.view().point(end));
        document::Hinge {
            line: match self.job().output.drawn_face {
                DrawnFace::Inside => [from, to],
                DrawnFace::Outside => [to, from],
            },
            fold_deg: self.view().sign() * hinge.fold_deg,
            ..hinge
        }
    }

    fn interlocks(&self) -> Vec<document::Interlock> {
        let tray = self.tray();
        let publish = |interlock: &crate::tray::Interlock| {
            let (Slit::Hole { corners, .. } | Slit::EdgeCutout { corners, .. }) = &interlock.slit
            else {
                return None;
            };
            let (from, into) = (&tray.frames[interlock.panel], &tray.frames[interlock.into]);
            let run = &tray.panels[interlock.panel].tongues[interlock.tongue];
            let tongue: Vec<Corner> = run
                .corners
                .iter()
                .map(|corner| Corner::sharp(from.place(corner.at)))
                .collect();
            Some(document::Interlock {
                name: interlock.name.clone(),
                panel: interlock.panel.index(),
                tongue: self.view().run(&tongue),
                into: interlock.into.index(),
                slit: corners.map(|corner| self.view().point(into.place(corner))),
            })
        };
        tray.interlocks.iter().filter_map(publish).collect()
    }

    fn pose(&self, motion: &document::Pose) -> document::Pose {
        let signs = [self.view().sign(), 1.0, self.view().sign()];
        let rows = std::array::from_fn(|row| {
            std::array::from_fn(|column| signs[row] * motion.rows[row][column] * signs[column])
        });
        document::Pose {
            rows,
            shift: std::array::from_fn(|row| signs[row] * motion.shift[row]),
        }
    }

    fn steps(&self) -> Vec<document::Step> {
        let fold = |&panel: &PanelId| {
            let to_deg = self.tray().panels[panel]
                .hanging
                .as_ref()
                .map_or(0.0, |hanging| self.view().sign() * hanging.fold_deg);
            let panel = panel.index();
            document::Move { panel, to_deg }
        };
        let stands = self.checked.ordered().stands_after();
        let step = |(number, action): (usize, &crate::order::Action)| document::Step {
            words: seen(&action.words),
            why: seen(&action.why),
            action: match &action.kind {
                ActionKind::Fold(panels) => {
                    document::Action::Fold(panels.iter().map(fold).collect())
                }
                ActionKind::Turn => document::Action::Turn,
                ActionKind::Place => document::Action::Place,
            },
            stands: stands == Some(number),
            tongues: self.tongues_of(action),
        };
        self.checked
            .ordered()
            .order
            .actions
            .iter()
            .enumerate()
            .map(step)
            .collect()
    }

    /// Number of tongues in their slits after an action.
    fn tongues_of(&self, action: &crate::order::Action) -> usize {
        let ActionKind::Fold(panels) = &action.kind else {
            return 0;
        };
        let panels = panels.iter().map(|&panel| &self.tray().panels[panel]);
        panels.map(|panel| panel.tongues.len()).sum()
    }
}

/// How an item is held, in plain data.
fn of_held(held: &HeldItem) -> document::Held {
    let [along, across] = held.holds.each_ref().map(|hold| document::Stop {
        by: match &hold.by {
            _ if !hold.is_within_play() => document::Holder::Nothing,
            Holder::Edge => document::Holder::Edge,
            Holder::Flaps => document::Holder::Flaps,
            Holder::Fences => document::Holder::Fences,
            Holder::Panel(_) => document::Holder::Panel,
            Holder::Box => document::Holder::Box,
        },
        heights: hold.heights,
        travel: hold.travel,
        firm: hold.firm,
    });
    document::Held {
        along,
        across,
        rise: held.rise,
        deck: held.deck,
        pads: held.pads.map(|pads| document::Pads {
            least: pads.least,
            most: pads.most,
            named: pads.named,
        }),
    }
}

/// A measure under the contract's name.
fn measure(measure: &Measure) -> document::Measure {
    document::Measure {
        name: seen(&measure.of.to_string()),
        value: measure.value,
    }
}
