//! What a case expects of a run of the program, and what the run lacks of it.
//!
//! An expectation is a text: comment lines with `#` (the source of the expectation), then `exit N`, then phrases, one a
//! line, that the program must say in this order, first on standard error and then on standard output. Phrases may run
//! over line ends.

use crate::Outcome;

/// What an outcome lacks of what is expected; nothing if all is there.
pub fn complaints(expected: &str, outcome: &Outcome) -> Vec<String> {
    let mut lines = expected
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    let mut complaints = Vec::new();
    match lines.next() {
        Some(wanted) if wanted == format!("exit {}", outcome.code) => {}
        wanted => complaints.push(format!("code {} instead of {wanted:?}", outcome.code)),
    }
    let said = one_line(&format!("{}\n{}", outcome.stderr, outcome.stdout));
    let mut rest = said.as_str();
    let mut phrases = 0;
    for phrase in lines.map(one_line) {
        phrases += 1;
        match rest.split_once(&phrase) {
            Some((_, after)) => rest = after,
            None => complaints.push(format!("it does not say `{phrase}` where it should")),
        }
    }
    if phrases == 0 {
        complaints.push("the case expects no words".to_owned());
    }
    if said.contains("panicked") {
        complaints.push("the program panicked".to_owned());
    }
    complaints
}

/// The words alone, so that a sentence may be broken anywhere.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_case_that_is_not_met_is_noticed() {
        // Source: reasoning: each of the four ways to miss an expectation must be a complaint.
        let outcome = Outcome {
            code: 2,
            stdout: String::new(),
            stderr: "job.kdl:2:1 the box\nis too small".to_owned(),
        };
        assert!(complaints("exit 2\njob.kdl:2:1\nbox is too small", &outcome).is_empty());
        for wrong in [
            "exit 1\nthe box",
            "exit 2\nthe lid",
            "exit 2\ntoo small\nthe box",
            "exit 2",
        ] {
            assert_eq!(complaints(wrong, &outcome).len(), 1, "{wrong}");
        }
    }
}
