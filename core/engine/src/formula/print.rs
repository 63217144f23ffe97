//! Prints a formula's terms.
//!
//! **Input:** terms. **Output:** a text that is read as the same terms. It has brackets only where they are needed, so
//! it nests no deeper than the text that was read.

use super::term::{Chain, Form, Term};

/// Precedence of a term, the lowest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    AnyOf,
    AllOf,
    Not,
    Comparison,
    Sum,
    Product,
    Signed,
    Atom,
}

/// The text of a term.
pub(super) fn printed(term: &Term) -> String {
    let mut out = String::new();
    print(&mut out, term, Rank::AnyOf);
    out
}

/// Prints a term; terms of lower precedence than `least` get brackets.
fn print(out: &mut String, term: &Term, least: Rank) {
    if rank(&term.form) < least {
        out.push('(');
        print_form(out, &term.form);
        out.push(')');
    } else {
        print_form(out, &term.form);
    }
}

fn rank(form: &Form) -> Rank {
    match form {
        Form::AnyOf(_) => Rank::AnyOf,
        Form::AllOf(_) => Rank::AllOf,
        Form::Not(_) => Rank::Not,
        Form::Comparison { .. } | Form::Is { .. } => Rank::Comparison,
        Form::Sum(_) => Rank::Sum,
        Form::Product(_) => Rank::Product,
        Form::Minus(_) => Rank::Signed,
        Form::Call(..) | Form::Constant(..) | Form::Otherwise | Form::Name(_) => Rank::Atom,
    }
}

fn print_form(out: &mut String, form: &Form) {
    match form {
        Form::AnyOf(terms) => print_joined(out, terms, " or ", Rank::AllOf),
        Form::AllOf(terms) => print_joined(out, terms, " and ", Rank::Not),
        Form::Not(inner) => {
            out.push_str("not ");
            print(out, inner, Rank::Not);
        }
        Form::Comparison {
            left,
            relation,
            right,
        } => {
            print(out, left, Rank::Sum);
            out.push(' ');
            out.push_str(relation.sign());
            out.push(' ');
            print(out, right, Rank::Sum);
        }
        Form::Is {
            name,
            negated,
            word,
        } => {
            let is = if *negated { "is not" } else { "is" };
            out.push_str(&format!("{name} {is} {word}"));
        }
        Form::Sum(chain) => print_chain(out, chain, Rank::Product),
        Form::Product(chain) => print_chain(out, chain, Rank::Signed),
        Form::Minus(inner) => {
            out.push('-');
            print(out, inner, Rank::Signed);
        }
        Form::Call(function, arguments) => {
            out.push_str(function.name());
            out.push('(');
            print_joined(out, arguments, ", ", Rank::AnyOf);
            out.push(')');
        }
        Form::Constant(amount, measure) => out.push_str(&format!("{amount}{}", measure.unit())),
        Form::Otherwise => out.push_str("otherwise"),
        Form::Name(name) => out.push_str(name),
    }
}

fn print_joined(out: &mut String, terms: &[Term], between: &str, least: Rank) {
    for (position, term) in terms.iter().enumerate() {
        if position > 0 {
            out.push_str(between);
        }
        print(out, term, least);
    }
}

fn print_chain(out: &mut String, chain: &Chain, least: Rank) {
    print(out, &chain.first, least);
    for link in &chain.rest {
        out.push(' ');
        out.push_str(link.operator.sign());
        out.push(' ');
        print(out, &link.term, least);
    }
}
