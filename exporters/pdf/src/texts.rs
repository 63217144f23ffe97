//! What sheets say, in all its forms, each made once for all sheets and all ways to lay them.
//!
//! Given a tray; gives the forms of its bars and sentences. What differs from sheet to sheet, the name and the map, is not
//! here.

use std::rc::Rc;

use traywright_document::ProcessingStep;
use traywright_look::{
    CREASING, CUTTING, DIMENSIONS, LineStyle, PERFORATING, REVERSE_CREASING, REVERSE_PERFORATING,
};
use traywright_paper::Block;

use crate::forms::{Form, Forms, samples, sentences};
use crate::input::PdfInput;
use crate::marks;
use crate::words_sheet::ScaleAdvice;

/// Widths of the longest sentences where room is short.
const NARROW: [f64; 6] = [90.0, 130.0, 66.0, 50.0, 40.0, 33.0];

impl PdfInput<'_> {
    /// A check bar that runs along the short side of the sheet or not, and climbs or not, with its name.
    pub(crate) fn bar(&self, is_across: bool, climbs: bool) -> &Forms {
        let made = || {
            let name = self.words.bar(is_across, self.document.unit);
            Rc::from([Form::of_block(0.0, self.bar_block(Some(&name), climbs))])
        };
        let kept = &self.texts.bars[usize::from(is_across) + 2 * usize::from(climbs)];
        kept.get_or_init(made)
    }

    /// A check bar with a name or without.
    pub(crate) fn bar_block(&self, name: Option<&str>, climbs: bool) -> Block {
        let bar = marks::bar(name, self.document.unit, self.font);
        if climbs { bar.climbing() } else { bar }
    }

    /// How the bars are read, in one block.
    pub(crate) fn advice(&self) -> &Forms {
        self.texts.advice.get_or_init(|| {
            let ScaleAdvice {
                before,
                causes,
                after,
            } = self.scale_advice();
            let whole = [before, causes, after].concat();
            let small = [90.0, 130.0, 66.0, 50.0, 40.0];
            sentences(&whole, &[120.0, 90.0, 70.0, 55.0], &small)
        })
    }

    /// How the bars are read, in two blocks.
    pub(crate) fn halves_of_advice(&self) -> [&Forms; 2] {
        let halves = || {
            let advice = self.scale_advice();
            [[advice.before, advice.after].concat(), advice.causes]
        };
        [0, 1].map(|half| {
            let made = || sentences(&halves()[half], &[], &NARROW);
            self.texts.halves[half].get_or_init(made)
        })
    }

    /// How the bars are read, in short.
    pub(crate) fn short_advice(&self) -> &Forms {
        self.texts.short.get_or_init(|| {
            let (page, unit) = (self.document.output.paper.page(), self.document.unit);
            let correction = self.words.correction(page, unit).into_iter();
            let short: Vec<String> = correction.chain([self.words.short_advice(unit)]).collect();
            sentences(&short, &[], &[90.0, 60.0, 40.0, 28.0])
        })
    }

    /// How sheets are joined; all sheets of one page size have one overlap.
    pub(crate) fn joining(&self, overlap: f64) -> &Forms {
        self.texts.joining.get_or_init(|| {
            let text = [self.words.joining(overlap, self.document.unit)];
            sentences(&text, &[110.0, 75.0, 50.0], &[75.0, 45.0, 33.0])
        })
    }

    /// The usual cautions.
    pub(crate) fn forms_of_cautions(&self) -> &Forms {
        let made = || sentences(&self.cautions(), &[120.0, 75.0, 50.0], &[75.0, 45.0, 33.0]);
        self.texts.cautions.get_or_init(made)
    }

    /// What the kinds of line ask of the hands.
    pub(crate) fn legend(&self) -> &Forms {
        self.texts.legend.get_or_init(|| {
            let flat = &self.document.flat;
            let has = |wanted: ProcessingStep| match wanted {
                ProcessingStep::Cutting => true,
                ProcessingStep::Dimensions => !flat.dimensions.is_empty(),
                step => {
                    let mut creases = flat.creases.iter();
                    creases.any(|crease| self.document.step_of(crease) == step)
                }
            };
            let kinds = [
                (ProcessingStep::Cutting, CUTTING),
                (ProcessingStep::Creasing, CREASING),
                (ProcessingStep::ReverseCreasing, REVERSE_CREASING),
                (ProcessingStep::Perforating, PERFORATING),
                (ProcessingStep::ReversePerforating, REVERSE_PERFORATING),
                (ProcessingStep::Dimensions, DIMENSIONS),
            ];
            let entries: Vec<(LineStyle, &str)> = kinds
                .into_iter()
                .filter(|(step, _)| has(*step))
                .map(|(step, look)| (look, self.words.drawing.line(step, self.document)))
                .collect();
            samples(&entries, &[110.0, 60.0], &[60.0, 42.0, 31.0])
        })
    }

    /// The pads to cut beside the blank, if there are any.
    pub(crate) fn pads(&self) -> Option<&Forms> {
        let made = || list(&self.words.pads(self.document));
        self.texts.pads.get_or_init(made).as_ref()
    }

    /// What the letters on the blank mean, if it has any.
    pub(crate) fn parts(&self) -> Option<&Forms> {
        let made = || list(&self.words.drawing.parts(self.document));
        self.texts.parts.get_or_init(made).as_ref()
    }

    /// The arrow of the grain, if the card has one.
    pub(crate) fn grain(&self) -> Option<&Forms> {
        let made = || {
            let grain = self.document.board.grain?;
            let words = self.words.grain(self.document.board.kind);
            let arrow = |(worse, length)| {
                Form::of_block(worse, marks::grain(grain, length, (words, self.font)))
            };
            Some(
                [(0.0, 36.0), (100.0, 28.0), (400.0, 22.0)]
                    .map(arrow)
                    .into(),
            )
        };
        self.texts.grain.get_or_init(made).as_ref()
    }

    /// That measures are missing.
    pub(crate) fn lost(&self, count: usize) -> Option<Forms> {
        let text = [self.words.lost(count)?];
        Some(sentences(&text, &[110.0, 60.0], &[45.0]))
    }
}

/// Sentences of a list; none where it is empty.
fn list(list: &[String]) -> Option<Forms> {
    let forms = || sentences(list, &[110.0, 70.0, 50.0], &[60.0, 42.0, 31.0]);
    (!list.is_empty()).then(forms)
}
