//! Jobs from callers other than the reader, which may put any number into the values that may be negative.
//!
//! Source of every expectation: a hinge and a setting are finite numbers. A number that is not a length cannot be put
//! into a job at all; the tests of `Length` check that.

use traywright_engine::job::{BoxSize, Item, Length, Setting, SettingInput};
use traywright_engine::{Job, Refusal, Style, make};

const STYLE: &str = include_str!("../../../designs/styles/single-slot.ron");

fn plain() -> Job {
    let item = Item {
        place: 3..9,
        ..Item::plain("lens", [96.0, 61.0, 28.0].map(Length::known))
    };
    let in_box = BoxSize {
        length: Length::known(182.0),
        width: Length::known(121.0),
        depth: Length::known(34.0),
    };
    Job::plain("single-slot", in_box, Length::known(0.29), vec![item])
}

/// Puts a number into a job.
type Put = fn(&mut Job, f64);

const SIGNED: [(&str, Put); 4] = [
    ("board hinge", |job, mm| job.board.hinge = Some(mm)),
    ("set edge-web", |job, mm| {
        job.settings = vec![setting(SettingInput::Length(mm))];
    }),
    ("set edge-web", |job, degrees| {
        job.settings = vec![setting(SettingInput::Angle(degrees))];
    }),
    ("set edge-web", |job, number| {
        job.settings = vec![setting(SettingInput::Number(number))];
    }),
];

fn setting(answer: SettingInput) -> Setting {
    Setting {
        name: "edge-web".to_owned(),
        answer,
        place: 0..0,
    }
}

/// The engine's errors about the job with this number in it.
fn refused(put: Put, number: f64) -> Vec<String> {
    let style = Style::read("single-slot", STYLE).expect("a shipped style is sound");
    let mut job = plain();
    put(&mut job, number);
    match make(&style, &job) {
        Err(Refusal::Job(errors)) => errors.into_iter().map(|error| error.message).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn a_value_that_is_no_number_is_an_error_of_the_job() {
    for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for (name, put) in SIGNED {
            let said = refused(put, number);
            let expected = format!("`{name}` is {number}");
            assert!(said.contains(&expected), "{expected}: {said:?}");
        }
    }
}

#[test]
fn the_same_job_with_numbers_makes_a_tray() {
    let style = Style::read("single-slot", STYLE).expect("a shipped style is sound");
    assert!(make(&style, &plain()).is_ok());
}
