//! The check that the kinds of a formula agree, on all its branches and before any number is known.
//!
//! **Input:** a formula's terms and the kinds of its names. **Output:** the kind of the result. **Errors:** all, but a
//! term whose kind is unknown because of an error inside it causes no further one. `rules` has the rules of kinds,
//! which evaluation uses as well. Evaluates nothing.

pub(super) mod rules;

use super::function::Function;
use super::term::{Chain, Form, Measure, Term};
use super::{Formula, FormulaFault, Kind};
use rules::{Operand, Rules};

/// An unknown name with more hyphens than this is not tested for missing spaces.
// Source: no rule of the trade; longer than any name, and it bounds the tries.
const MOST_HYPHENS: usize = 12;

/// Returns the kind of a name, or the reason why there is none.
type KindOf<'a> = dyn FnMut(&str) -> Result<Kind, String> + 'a;

/// Checks a whole formula.
pub(super) fn check(
    text: &str,
    whole: &Term,
    kind_of: &mut KindOf<'_>,
) -> Result<Kind, Vec<FormulaFault>> {
    let mut check = Check {
        rules: Rules { text },
        kind_of,
        faults: Vec::new(),
    };
    match check.kind(whole) {
        Some(kind) if check.faults.is_empty() => Ok(kind),
        _ => Err(check.faults),
    }
}

struct Check<'a, 'k> {
    rules: Rules<'a>,
    kind_of: &'a mut KindOf<'k>,
    faults: Vec<FormulaFault>,
}

impl Check<'_, '_> {
    /// The kind of a term; none if an error in it leaves the kind open.
    fn kind(&mut self, term: &Term) -> Option<Kind> {
        match &term.form {
            Form::AnyOf(terms) => self.truths("or", terms),
            Form::AllOf(terms) => self.truths("and", terms),
            Form::Not(inner) => self.truths("not", std::slice::from_ref(&**inner)),
            Form::Comparison {
                left,
                relation,
                right,
            } => {
                if let (Some(left), Some(right)) = (self.operand(left), self.operand(right)) {
                    let compared = self.rules.comparison(*relation, left, right);
                    self.keep(compared);
                }
                Some(Kind::Truth)
            }
            Form::Is { name, .. } => {
                if let Some(kind) = self.name(name, term) {
                    let compared = self.rules.is(name, kind, term);
                    self.keep(compared);
                }
                Some(Kind::Truth)
            }
            Form::Sum(chain) | Form::Product(chain) => self.chain(chain),
            Form::Minus(inner) => {
                let operand = self.operand(inner)?;
                let kind = self.rules.minus(operand);
                self.keep(kind)
            }
            Form::Call(function, arguments) => self.call(*function, arguments),
            Form::Constant(_, measure) => Some(measure.kind()),
            Form::Otherwise => Some(Kind::Truth),
            Form::Name(name) => self.name(name, term),
        }
    }

    fn operand<'t>(&mut self, term: &'t Term) -> Option<Operand<'t>> {
        let kind = self.kind(term)?;
        Some(Operand { term, kind })
    }

    fn keep<T>(&mut self, result: Result<T, FormulaFault>) -> Option<T> {
        result.map_err(|fault| self.faults.push(fault)).ok()
    }

    fn truths(&mut self, joiner: &str, terms: &[Term]) -> Option<Kind> {
        for term in terms {
            if let Some(operand) = self.operand(term) {
                let truth = self.rules.truth(joiner, operand);
                self.keep(truth);
            }
        }
        Some(Kind::Truth)
    }

    fn chain(&mut self, chain: &Chain) -> Option<Kind> {
        let mut reached = self.operand(&chain.first);
        for link in &chain.rest {
            let next = self.operand(&link.term);
            reached = match (reached, next) {
                (Some(left), Some(right)) => {
                    let kind = self.rules.reckoned(link.operator, left, right);
                    let term = left.term;
                    self.keep(kind).map(|kind| Operand { term, kind })
                }
                _ => None,
            };
        }
        reached.map(|reached| reached.kind)
    }

    fn call(&mut self, function: Function, arguments: &[Term]) -> Option<Kind> {
        let mut operands = arguments.iter();
        if function == Function::If
            && let Some(operand) = operands.next().and_then(|term| self.operand(term))
        {
            let truth = self.rules.truth("if", operand);
            self.keep(truth);
        }
        let operands: Vec<_> = operands.filter_map(|term| self.operand(term)).collect();
        let first = *operands.first()?;
        for other in &operands[1..] {
            let alike = self.rules.alike(function, first, *other);
            self.keep(alike);
        }
        let kind = self.rules.call(function, first);
        self.keep(kind)
    }

    fn name(&mut self, name: &str, term: &Term) -> Option<Kind> {
        match (self.kind_of)(name) {
            Ok(kind) => Some(kind),
            Err(message) => {
                let expected = match self.with_minus_apart(name) {
                    Some(apart) => format!("a minus stands between spaces: write `{apart}`"),
                    None if name.contains('-') => {
                        "a name that is known here; a minus stands between spaces: `a - b`"
                            .to_owned()
                    }
                    None => "a name of the job, the board or this style".to_owned(),
                };
                let place = term.place.start..term.place.start + name.len();
                self.faults
                    .push(FormulaFault::new(place, message, expected));
                None
            }
        }
    }

    /// `a - b` for the unknown name `a-b`, if `a` and `b` are known.
    fn with_minus_apart(&mut self, name: &str) -> Option<String> {
        let hyphens = name.match_indices('-').map(|(at, _)| at);
        let ends: Vec<_> = hyphens.chain([name.len()]).collect();
        if ends.len() > MOST_HYPHENS {
            return None;
        }
        let mut parts = Vec::new();
        let mut start = 0;
        while start < name.len() {
            let ends = ends.iter().rev().copied().filter(|end| *end > start);
            let end = { ends }.find(|end| self.stands_alone(&name[start..*end]))?;
            parts.push(&name[start..end]);
            start = end + 1;
        }
        Some(parts.join(" - "))
    }

    fn stands_alone(&mut self, part: &str) -> bool {
        match Formula::read(part).map(|formula| formula.whole.form) {
            Ok(Form::Constant(..)) => true,
            Ok(Form::Name(name)) => (self.kind_of)(&name).is_ok(),
            _ => false,
        }
    }
}

impl Measure {
    /// The kind of a number with this unit.
    pub(super) fn kind(self) -> Kind {
        match self {
            Measure::Bare => Kind::Number,
            Measure::Millimetres | Measure::Inches => Kind::Length,
            Measure::Degrees => Kind::Angle,
        }
    }
}
