//! Reads the text of a formula into its terms.
//!
//! **Input:** the text. **Output:** its terms, the names it uses and the words it compares. **Errors:** the first one.
//! There is one function for each rank of operators, the weakest first:
//!
//! ```text
//! or · and · not · comparison, is · + - · * / · leading minus · number, name, function, brackets
//! ```
//!
//! Knows no kinds: `2mm < 3deg` is read without an error.

mod misread;

use std::ops::Range;

use super::function::Function;
use super::term::{Chain, Form, Link, Operator, Term};
use super::tokens::{Token, What, tokens};
use super::{ComparedWord, FormulaFault, MOST_CHARACTERS, MOST_LEVELS, Relation};

/// Words that are never names.
const RESERVED: [&str; 4] = ["and", "or", "not", "is"];

/// The contents of a formula's text.
pub(super) struct Found {
    pub(super) whole: Term,
    pub(super) levels: usize,
    pub(super) names: Vec<(String, Range<usize>)>,
    pub(super) words: Vec<ComparedWord>,
}

/// Reads a formula.
pub(super) fn read(text: &str) -> Result<Found, FormulaFault> {
    if let Some((excess, _)) = text.char_indices().nth(MOST_CHARACTERS) {
        return Err(FormulaFault::new(
            excess..text.len(),
            format!("the formula has more than {MOST_CHARACTERS} characters"),
            "give parts of it names of their own under `values`",
        ));
    }
    let tokens = tokens(text)?;
    if tokens.len() == 1 {
        return Err(FormulaFault::new(
            0..text.len(),
            "the formula is empty",
            VALUE_EXAMPLES,
        ));
    }
    let mut reader = Reader {
        text,
        tokens,
        next: 0,
        level: 0,
        deepest: 0,
        names: Vec::new(),
        words: Vec::new(),
    };
    let whole = reader.any_of()?;
    if reader.peek() != What::End {
        return Err(reader.left_over());
    }
    Ok(Found {
        whole,
        levels: reader.deepest,
        names: reader.names,
        words: reader.words,
    })
}

const VALUE_EXAMPLES: &str = "a value, such as `6mm`, `box.length` or `(fit.play / 2)`";

struct Reader<'t> {
    text: &'t str,
    tokens: Vec<Token<'t>>,
    next: usize,
    level: usize,
    deepest: usize,
    names: Vec<(String, Range<usize>)>,
    words: Vec<ComparedWord>,
}

impl<'t> Reader<'t> {
    fn any_of(&mut self) -> Result<Term, FormulaFault> {
        let first = self.all_of()?;
        if !self.at_word("or") {
            return Ok(first);
        }
        let mut terms = vec![first];
        while self.take(What::Word("or")) {
            terms.push(self.all_of()?);
        }
        Ok(self.joined(terms, Form::AnyOf))
    }

    fn all_of(&mut self) -> Result<Term, FormulaFault> {
        let first = self.not()?;
        if !self.at_word("and") {
            return Ok(first);
        }
        let mut terms = vec![first];
        while self.take(What::Word("and")) {
            terms.push(self.not()?);
        }
        Ok(self.joined(terms, Form::AllOf))
    }

    fn not(&mut self) -> Result<Term, FormulaFault> {
        let start = self.place().start;
        if !self.take(What::Word("not")) {
            return self.comparison();
        }
        let inner = self.one_level_down(start, Self::not)?;
        Ok(Term {
            place: start..inner.place.end,
            form: Form::Not(Box::new(inner)),
        })
    }

    fn comparison(&mut self) -> Result<Term, FormulaFault> {
        let left = self.sum()?;
        let term = if let Some(relation) = self.relation() {
            self.next += 1;
            let right = self.sum()?;
            Term {
                place: left.place.start..right.place.end,
                form: Form::Comparison {
                    left: Box::new(left),
                    relation,
                    right: Box::new(right),
                },
            }
        } else if self.at_word("is") {
            self.is(left)?
        } else {
            return Ok(left);
        };
        if self.relation().is_some() || self.at_word("is") {
            return Err(self.chained(&term));
        }
        Ok(term)
    }

    fn relation(&self) -> Option<Relation> {
        Relation::ALL
            .into_iter()
            .find(|relation| self.peek() == What::Sign(relation.sign()))
    }

    fn is(&mut self, left: Term) -> Result<Term, FormulaFault> {
        let Form::Name(name) = left.form else {
            return Err(FormulaFault::new(
                left.place,
                "left of `is` stands the name of a choice",
                "numbers and lengths are compared with `==`",
            ));
        };
        self.next += 1;
        let negated = self.take(What::Word("not"));
        let place = self.place();
        let word = match self.peek() {
            What::Word(word) if !RESERVED.contains(&word) => word.to_owned(),
            _ => {
                return Err(FormulaFault::new(
                    place,
                    "right of `is` stands one word of the choice",
                    format!("such as `{name} is closed` or `{name} is not closed`"),
                ));
            }
        };
        self.next += 1;
        self.words.push(ComparedWord {
            name: name.clone(),
            word: word.clone(),
            place: place.clone(),
        });
        Ok(Term {
            place: left.place.start..place.end,
            form: Form::Is {
                name,
                negated,
                word,
            },
        })
    }

    fn sum(&mut self) -> Result<Term, FormulaFault> {
        let operators = [Operator::Plus, Operator::Minus];
        self.chain(operators, Form::Sum, Self::product)
    }

    fn product(&mut self) -> Result<Term, FormulaFault> {
        let operators = [Operator::Times, Operator::Over];
        self.chain(operators, Form::Product, Self::signed)
    }

    fn chain(
        &mut self,
        operators: [Operator; 2],
        form: fn(Chain) -> Form,
        operand: fn(&mut Self) -> Result<Term, FormulaFault>,
    ) -> Result<Term, FormulaFault> {
        let first = operand(self)?;
        let mut rest: Vec<Link> = Vec::new();
        while let Some(operator) = operators
            .into_iter()
            .find(|operator| self.peek() == What::Sign(operator.sign()))
        {
            self.next += 1;
            let term = operand(self)?;
            rest.push(Link { operator, term });
        }
        let Some(last) = rest.last() else {
            return Ok(first);
        };
        Ok(Term {
            place: first.place.start..last.term.place.end,
            form: form(Chain {
                first: Box::new(first),
                rest,
            }),
        })
    }

    fn signed(&mut self) -> Result<Term, FormulaFault> {
        let start = self.place().start;
        if !self.take(What::Sign("-")) {
            return self.atom();
        }
        let inner = self.one_level_down(start, Self::signed)?;
        Ok(Term {
            place: start..inner.place.end,
            form: Form::Minus(Box::new(inner)),
        })
    }

    fn atom(&mut self) -> Result<Term, FormulaFault> {
        let place = self.place();
        let what = self.peek();
        match what {
            What::Number(amount, measure) => {
                self.next += 1;
                Ok(Term {
                    place,
                    form: Form::Constant(amount, measure),
                })
            }
            What::Sign("(") => self.bracketed(),
            What::Word(word) if !RESERVED.contains(&word) => {
                self.next += 1;
                if self.peek() == What::Sign("(") {
                    return self.call(word, place);
                }
                Ok(self.name(word, place))
            }
            _ => Err(self.value_missing()),
        }
    }

    fn name(&mut self, word: &str, place: Range<usize>) -> Term {
        if word == "otherwise" {
            return Term {
                place,
                form: Form::Otherwise,
            };
        }
        if !self.names.iter().any(|(known, _)| known == word) {
            self.names.push((word.to_owned(), place.clone()));
        }
        Term {
            place,
            form: Form::Name(word.to_owned()),
        }
    }

    fn bracketed(&mut self) -> Result<Term, FormulaFault> {
        let open = self.place();
        self.next += 1;
        let inner = self.one_level_down(open.start, Self::any_of)?;
        let end = self.closing(open.clone())?;
        Ok(Term {
            place: open.start..end,
            form: inner.form,
        })
    }

    fn call(&mut self, name: &str, place: Range<usize>) -> Result<Term, FormulaFault> {
        let Some(function) = Function::named(name) else {
            return Err(misread::unknown_function(name, place));
        };
        let open = self.place();
        self.next += 1;
        let mut arguments = Vec::new();
        if self.peek() != What::Sign(")") {
            arguments.push(self.one_level_down(place.start, Self::any_of)?);
            while self.take(What::Sign(",")) {
                arguments.push(self.one_level_down(place.start, Self::any_of)?);
            }
        }
        let place = place.start..self.closing(open)?;
        if !function.takes().contains(&arguments.len()) {
            return Err(FormulaFault::new(
                place,
                misread::wrong_count(function, arguments.len()),
                format!("write `{}`", function.pattern()),
            ));
        }
        Ok(Term {
            place,
            form: Form::Call(function, arguments),
        })
    }

    /// The end of the bracket that must close here.
    fn closing(&mut self, open: Range<usize>) -> Result<usize, FormulaFault> {
        let end = self.place().end;
        if self.take(What::Sign(")")) {
            return Ok(end);
        }
        if self.peek() == What::End {
            return Err(FormulaFault::new(
                open,
                "this bracket is not closed",
                "a `)` after what belongs inside",
            ));
        }
        Err(self.left_over())
    }

    fn one_level_down(
        &mut self,
        start: usize,
        inner: fn(&mut Self) -> Result<Term, FormulaFault>,
    ) -> Result<Term, FormulaFault> {
        if self.level == MOST_LEVELS {
            return Err(FormulaFault::new(
                start..self.place().start,
                format!("the formula is nested deeper than {MOST_LEVELS} levels"),
                "give the inner part a name of its own under `values`",
            ));
        }
        self.level += 1;
        self.deepest = self.deepest.max(self.level);
        let term = inner(self);
        self.level -= 1;
        term
    }

    /// Joins at least two terms.
    fn joined(&self, terms: Vec<Term>, form: fn(Vec<Term>) -> Form) -> Term {
        let start = terms.first().map_or(0, |term| term.place.start);
        let end = terms.last().map_or(0, |term| term.place.end);
        Term {
            place: start..end,
            form: form(terms),
        }
    }

    fn peek(&self) -> What<'t> {
        self.tokens[self.next].what
    }

    fn at_word(&self, word: &str) -> bool {
        matches!(self.peek(), What::Word(here) if here == word)
    }

    fn place(&self) -> Range<usize> {
        self.tokens[self.next].place.clone()
    }

    fn take(&mut self, what: What<'static>) -> bool {
        let taken = self.peek() == what;
        if taken {
            self.next += 1;
        }
        taken
    }
}
