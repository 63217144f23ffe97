//! Figures by name: what a name in a formula stands for in this job.
//!
//! Given a name and where it stands, gives its value, worked out by need. A family gives what its members share.

use super::{EvalError, Key, Known, Values};
use crate::finding::{Advice, Finding, FindingKind, Lack, Level, NoFallback, Place, SourceError};
use crate::formula::{Comparison, Value};
use crate::geometry::TOUCH_MM;
use crate::style::names::{Meaning, OpeningFigure, PanelFigure, Scope, meaning};
use crate::style::written::Written;

impl<'a> Values<'a> {
    /// The value of a name.
    pub(super) fn named(&mut self, scope: Scope, word: &str) -> Result<Value, EvalError> {
        let sheet = self.sheet();
        // A name that the style was read with may be that of a member which only a job with fewer or more items has.
        let meaning =
            meaning(sheet, &self.graph, scope, word).ok_or_else(|| EvalError::absent(word))?;
        match meaning {
            Meaning::Job(figure) => Ok(Value::Length(self.job_figure(figure))),
            Meaning::Item(item, side) => self.item_side(item, side),
            Meaning::SettingEntry(ask) => self.answer(ask),
            Meaning::Value(value) => {
                let written = &sheet.values.0[value].1;
                self.figure(Key::Value(value), |values| {
                    values.value(written, Scope::Style)
                })
            }
            Meaning::Fallback(fallback) => {
                self.figure(Key::Fallback(fallback), |values| values.choose(fallback))
            }
            Meaning::Tongue(tongue, side) => self.tongue(tongue, side),
            Meaning::Panel(panels, figure) => self.like_figures(word, &panels, |values, panel| {
                if !values.panel_exists(panel)? {
                    return Ok(None);
                }
                values.panel_figure(panel, figure).map(Some)
            }),
            Meaning::Opening(openings, figure) => {
                self.like_figures(word, &openings, |values, opening| {
                    if !values.opening_exists(opening)? {
                        return Ok(None);
                    }
                    values.opening_figure(opening, figure).map(Some)
                })
            }
        }
    }

    pub(super) fn figure(
        &mut self,
        key: Key,
        work: impl FnOnce(&mut Self) -> Result<Value, EvalError>,
    ) -> Result<Value, EvalError> {
        match self.get_or_compute(key, |values| work(values).map(Known::Figure))? {
            Known::Figure(value) => Ok(value),
            other => unreachable!("a figure is kept as a figure, not as {other:?}"),
        }
    }

    /// The figure that all members of a family share.
    fn like_figures(
        &mut self,
        word: &str,
        members: &[usize],
        mut figure: impl FnMut(&mut Self, usize) -> Result<Option<f64>, EvalError>,
    ) -> Result<Value, EvalError> {
        let mut shared: Option<(usize, f64)> = None;
        for &member in members {
            let Some(amount) = figure(self, member)? else {
                continue;
            };
            match shared {
                None => shared = Some((member, amount)),
                Some((_, first)) if (first - amount).abs() < TOUCH_MM => {}
                Some((_, first)) => {
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
            .map(|(_, amount)| Value::Length(amount))
            .ok_or_else(|| EvalError::absent(word))
    }

    /// The first option whose condition is true.
    fn choose(&mut self, fallback: usize) -> Result<Value, EvalError> {
        let sheet = self.sheet();
        let (_, options) = &sheet.fallbacks.0[fallback];
        for (option, condition) in options.iter() {
            if self.holds(Some(condition), Scope::Style)? {
                return Ok(Value::Word(option.word.clone()));
            }
        }
        Err(EvalError::NoFallback(Box::new(self.no_fallback(fallback)?)))
    }

    /// The option of a fallback that is taken, counted in its list.
    pub(crate) fn taken(&mut self, fallback: usize) -> Result<usize, EvalError> {
        let (name, options) = &self.sheet().fallbacks.0[fallback];
        let taken = self.named(Scope::Style, &name.word)?;
        let taken = options
            .iter()
            .position(|(option, _)| taken.word() == Some(&option.word));
        taken.ok_or_else(|| EvalError::absent(&name.word))
    }

    /// The finding that no fallback of a list fits, with what each one lacks.
    fn no_fallback(&mut self, fallback: usize) -> Result<Finding, EvalError> {
        let (name, options) = &self.sheet().fallbacks.0[fallback];
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

    /// Names that a formula uses and that a figure of a panel or an opening stands behind: the first of them.
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

    fn panel_figure(&mut self, panel: usize, figure: PanelFigure) -> Result<f64, EvalError> {
        match figure {
            PanelFigure::Reach => self.reach(panel),
            PanelFigure::Span => Ok(self.crease(panel)?.1),
            PanelFigure::Edge => self.edge_length(panel),
            PanelFigure::Across => self.across(panel),
            PanelFigure::Length => Ok(self.shape(panel)?.extent().0),
            PanelFigure::Width => Ok(self.shape(panel)?.extent().1),
        }
    }

    fn opening_figure(&mut self, opening: usize, figure: OpeningFigure) -> Result<f64, EvalError> {
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
