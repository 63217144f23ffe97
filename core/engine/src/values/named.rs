//! Values by name: the meaning of a name in a formula for this job.
//!
//! **Input:** a name and its scope. **Output:** its value, evaluated on demand. A family gives the value its members
//! share.

use super::{EvalError, Values};
use crate::finding::{Advice, Finding, FindingKind, Lack, Level, NoFallback, Place, SourceError};
use crate::formula::{Comparison, Value};
use crate::geometry::TOUCH_MM;
use crate::ids::Id;
use crate::style::graph::{MemberId, OpeningMemberId};
use crate::style::names::{Meaning, OpeningFigure, PanelFigure, Scope, meaning};
use crate::style::text::FallbackId;
use crate::style::written::Written;

impl<'a> Values<'a> {
    /// The value of a name.
    pub(super) fn named(&self, scope: Scope, word: &str) -> Result<Value, EvalError> {
        let sheet = self.sheet();
        // A name known to the style may be that of a member that exists only in a job with fewer or more items.
        let meaning =
            meaning(sheet, &self.graph, scope, word).ok_or_else(|| EvalError::absent(word))?;
        match meaning {
            Meaning::Job(figure) => Ok(Value::Length(self.job_figure(figure))),
            Meaning::Item(item, side) => self.item_figure(item, side),
            Meaning::Setting(setting) => self.answer(setting),
            Meaning::Value(value) => {
                let written = &sheet.values[value].1;
                self.get_or_compute(&self.memo.values, value, || {
                    self.value(written, Scope::Style)
                })
            }
            Meaning::Fallback(fallback) => {
                let options = &sheet.fallbacks[fallback].1;
                let taken = self.taken(fallback)?;
                Ok(Value::Word(options[taken].0.word.clone()))
            }
            Meaning::Tongue(tongue, side) => self.tongue_side(tongue, side).map(Value::Length),
            Meaning::Panel(panels, figure) => self.shared(word, &panels, |panel| {
                if !self.panel_exists(panel)? {
                    return Ok(None);
                }
                self.panel_figure(panel, figure).map(Some)
            }),
            Meaning::Opening(openings, figure) => self.shared(word, &openings, |opening| {
                if !self.opening_exists(opening)? {
                    return Ok(None);
                }
                self.opening_figure(opening, figure).map(Some)
            }),
        }
    }

    /// The value that all members of a family share.
    fn shared<Id: Copy>(
        &self,
        word: &str,
        members: &[Id],
        figure: impl Fn(Id) -> Result<Option<f64>, EvalError>,
    ) -> Result<Value, EvalError> {
        let mut shared: Option<f64> = None;
        for &member in members {
            let Some(amount) = figure(member)? else {
                continue;
            };
            match shared {
                None => shared = Some(amount),
                Some(first) if (first - amount).abs() < TOUCH_MM => {}
                Some(first) => {
                    let message = format!(
                        "`{word}` is {first:.4} mm at one and {amount:.4} mm at another of the family"
                    );
                    return Err(EvalError::fault(SourceError::new(
                        0..0,
                        message,
                        "name one of them with its suffix",
                    )));
                }
            }
        }
        shared
            .map(Value::Length)
            .ok_or_else(|| EvalError::absent(word))
    }

    /// The chosen option of a fallback: the first whose condition is true.
    pub(crate) fn taken(&self, fallback: FallbackId) -> Result<Id<Written>, EvalError> {
        self.get_or_compute(&self.memo.fallbacks, fallback, || {
            let (_, options) = &self.sheet().fallbacks[fallback];
            for (option, _, condition) in options.enumerated() {
                if self.holds(Some(condition), Scope::Style)? {
                    return Ok(option);
                }
            }
            Err(EvalError::NoFallback(Box::new(self.no_fallback(fallback)?)))
        })
    }

    /// The finding that no option of a fallback fits, with the reason for each.
    fn no_fallback(&self, fallback: FallbackId) -> Result<Finding, EvalError> {
        let (name, options) = &self.sheet().fallbacks[fallback];
        let mut lacks = Vec::new();
        for (option, condition) in options.iter() {
            let reached = match Values::comparison(condition) {
                Some(Comparison { left, .. }) => {
                    Some((left.text().to_owned(), self.side(condition, left)?))
                }
                None => None,
            };
            lacks.push(Lack {
                fallback: option.word.clone(),
                needs: condition.formula().text().to_owned(),
                reached,
            });
        }
        let code = format!("no-{}", name.word);
        Ok(Finding {
            level: Level::Error,
            place: Place::Fallbacks(name.word.clone()),
            kind: FindingKind::NoFallback(NoFallback { code, lacks }),
            fix: Some(Advice::OneOfTheFallbacks.into()),
            value: None,
            limit: None,
        })
    }

    /// The panel, opening or tongue of the first name in a formula that stands for a value of one.
    pub(crate) fn first_part(&self, written: &Written) -> Option<String> {
        written.formula().names().find_map(|(name, _)| {
            let (key, _) = name.rsplit_once('.')?;
            match meaning(self.sheet(), &self.graph, Scope::Style, name)? {
                Meaning::Panel(..) | Meaning::Opening(..) | Meaning::Tongue(..) => {
                    Some(key.to_owned())
                }
                _ => None,
            }
        })
    }

    fn panel_figure(&self, panel: MemberId, figure: PanelFigure) -> Result<f64, EvalError> {
        match figure {
            PanelFigure::Reach => self.reach(panel),
            PanelFigure::Span => Ok(self.crease(panel)?.span),
            PanelFigure::Edge => self.edge_length(panel),
            PanelFigure::Length => Ok(self.shape(panel)?.extent().0),
            PanelFigure::Width => Ok(self.shape(panel)?.extent().1),
        }
    }

    fn opening_figure(
        &self,
        opening: OpeningMemberId,
        figure: OpeningFigure,
    ) -> Result<f64, EvalError> {
        match figure {
            OpeningFigure::Length => Ok(self.opening_size(opening)?.0),
            OpeningFigure::Width => Ok(self.opening_size(opening)?.1),
            OpeningFigure::X | OpeningFigure::Y => {
                let offset_of = self.offset_of(opening)?;
                Ok(if figure == OpeningFigure::X {
                    offset_of.x
                } else {
                    offset_of.y
                })
            }
            OpeningFigure::Web => self.web(opening),
        }
    }
}
