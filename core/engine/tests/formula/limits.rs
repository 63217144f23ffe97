//! Maximum length and depth of a formula, and that a small stack suffices for all of them.
//!
//! Formulas at the limit and one step beyond, made by repeating a piece.

use traywright_engine::formula::Value::{Length, Number, Truth};
use traywright_engine::formula::{Formula, MOST_CHARACTERS, MOST_LEVELS};

use super::{faults_of, kind_of, read, worked_out};

// Source: LANGUAGE section 1, the limits.
#[test]
fn the_limits_are_those_of_the_language() {
    assert_eq!((MOST_CHARACTERS, MOST_LEVELS), (4096, 64));
}

// Source: counted by hand; each of the openings is one level.
#[test]
fn sixty_four_levels_are_read_and_one_more_is_not() {
    for (opening, middle, closing) in [
        ("(", "1", ")"),
        ("min(", "1", ")"),
        ("-", "1", ""),
        ("- ", "1", ""),
        ("not ", "otherwise", ""),
        ("if(otherwise, ", "1", ", 2)"),
        ("1 + 2 * (", "1", ")"),
        ("otherwise or otherwise and not (", "otherwise", ")"),
    ] {
        let levels = if opening.contains("not (") { 32 } else { 64 };
        let nested = |count| opening.repeat(count) + middle + &closing.repeat(count);
        let deepest = read(&nested(levels));
        assert!(deepest.check(&mut kind_of).is_ok(), "{opening}");
        assert!(worked_out(&deepest).is_ok(), "{opening}");
        assert_eq!(deepest.levels(), 64, "{opening}");
        let faults = faults_of(&nested(levels + 1));
        assert_eq!(faults.len(), 1, "{opening}");
        assert!(
            faults[0].message.contains("nested deeper than 64"),
            "{opening}"
        );
        let beyond = opening.len() * levels;
        assert!(
            faults[0].place.start >= beyond,
            "{opening}: {:?}",
            faults[0].place
        );
        assert!(Formula::read(&nested(1000)).is_err(), "{opening}");
    }
}

// Source: counted by hand: 1 + 2047 times two characters is 4095.
#[test]
fn a_long_formula_is_read_up_to_the_limit() {
    let longest = format!("1{} ", "+1".repeat(2047));
    assert_eq!(longest.len(), 4096);
    let formula = read(&longest);
    assert_eq!(worked_out(&formula), Ok(Number(2048.0)));
    let faults = faults_of(&format!("{longest} "));
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].place, 4096..4097);
    assert!(faults[0].message.contains("4096"), "{}", faults[0].message);
    // Characters are counted, not bytes: this is refused for its letters, not for its length.
    let foreign = faults_of(&"ö".repeat(4096));
    assert!(
        foreign[0].message.contains("cannot stand in a name"),
        "{}",
        foreign[0].message
    );
}

// Source: reasoning: evenly spaced it would have 8190 characters, and then it could not be read again.
#[test]
fn a_formula_that_would_grow_too_long_is_printed_as_written() {
    let longest = format!("1{}", "+1".repeat(2047));
    assert_eq!(read(&longest).to_string(), longest);
}

/// Stack of a test's or worker's thread unless it requests more.
const THREAD_STACK: usize = 2 * 1024 * 1024;

// Source: reasoning: the worst of each limit, on the stack of an ordinary thread.
#[test]
fn the_worst_formulas_need_no_large_stack() {
    let worst = std::thread::Builder::new()
        .stack_size(THREAD_STACK)
        .spawn(|| {
            let ranks = "not otherwise or otherwise and 1 > 1 - 1 * if(";
            let deep = ranks.repeat(64) + "otherwise" + &", 1, 2)".repeat(64);
            let deepest = read(&deep);
            assert!(deepest.check(&mut kind_of).is_ok());
            assert_eq!(worked_out(&deepest), Ok(Truth(true)));
            assert_eq!(worked_out(&read(&deepest.to_string())), Ok(Truth(true)));
            let functions = "1mm + 1 * min(1mm, ".repeat(64) + "1mm" + &")".repeat(64);
            assert_eq!(worked_out(&read(&functions)), Ok(Length(2.0)));
            for chain in ["1 + ", "1 * ", "1 - ", "1 / "] {
                assert!(worked_out(&read(&(chain.repeat(1000) + "1"))).is_ok());
            }
            let terms = format!("{}1", "1+".repeat(2000));
            assert_eq!(worked_out(&read(&terms)), Ok(Number(2001.0)));
        });
    worst
        .expect("a thread")
        .join()
        .expect("all of them are worked out");
}
