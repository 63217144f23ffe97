//! Jobs that no reader has made: a caller of the library may put any number into them.
//!
//! Source of every expectation: a length is a number of millimetres, and none is negative but the hinge's.

use traywright_engine::job::{BoxSize, Item, Setting, SettingInput};
use traywright_engine::{Job, Refusal, Style, make};

const STYLE: &str = include_str!("../../../designs/styles/single-slot.ron");

fn plain() -> Job {
    let item = Item {
        place: 3..9,
        ..Item::plain("lens", [96.0, 61.0, 28.0])
    };
    let in_box = BoxSize {
        length: 182.0,
        width: 121.0,
        depth: 34.0,
    };
    Job::plain("single-slot", in_box, 0.29, vec![item])
}

/// Puts a number into a job.
type Put = fn(&mut Job, f64);

const LENGTHS: [(&str, Put); 21] = [
    ("box length", |job, mm| job.box_size.length = mm),
    ("box width", |job, mm| job.box_size.width = mm),
    ("box depth", |job, mm| job.box_size.depth = mm),
    ("box corner", |job, mm| job.rounding.corner = mm),
    ("box floor-corner", |job, mm| job.rounding.floor_corner = mm),
    ("item length", |job, mm| job.items[0].length = mm),
    ("item width", |job, mm| job.items[0].width = mm),
    ("item depth", |job, mm| job.items[0].depth = mm),
    ("board caliper", |job, mm| job.board.caliper = mm),
    ("board tolerance", |job, mm| job.board.tolerance = Some(mm)),
    ("fit box", |job, mm| job.fit.around_tray = mm),
    ("fit item", |job, mm| job.fit.around_item = mm),
    ("fit play", |job, mm| job.fit.play = mm),
    ("slot finger", |job, mm| job.slot.finger = Some(mm)),
    ("page width", |job, mm| {
        job.output.paper.page_mut().width = mm
    }),
    ("page height", |job, mm| {
        job.output.paper.page_mut().height = mm
    }),
    ("page margin", |job, mm| {
        job.output.paper.page_mut().margin = mm
    }),
    ("page overlap", |job, mm| {
        job.output.paper.page_mut().overlap = mm
    }),
    ("page bar-across", |job, mm| {
        job.output.paper.page_mut().bar_across = mm
    }),
    ("page bar-down", |job, mm| {
        job.output.paper.page_mut().bar_down = mm
    }),
    ("kerf width", |job, mm| job.output.machine.kerf = mm),
];

const SIGNED: [(&str, Put); 3] = [
    ("board hinge", |job, mm| job.board.hinge = mm),
    ("set edge-web", |job, mm| {
        job.settings = vec![setting(SettingInput::Length(mm))];
    }),
    ("set edge-web", |job, degrees| {
        job.settings = vec![setting(SettingInput::Angle(degrees))];
    }),
];

fn setting(answer: SettingInput) -> Setting {
    Setting {
        name: "edge-web".to_owned(),
        answer,
        place: 0..0,
    }
}

/// What the engine says of the job with a number in it.
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
fn a_length_that_is_no_number_or_negative_is_an_error_of_the_job() {
    for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -0.5] {
        for (name, put) in LENGTHS {
            let said = refused(put, number);
            let named =
                |words: &String| words.contains(name) && words.contains(&number.to_string());
            assert!(said.iter().any(named), "{name} = {number}: {said:?}");
        }
    }
    for number in [f64::NAN, f64::INFINITY] {
        for (name, put) in SIGNED {
            let said = refused(put, number);
            assert!(
                said.iter().any(|words| words.contains(name)),
                "{name} = {number}: {said:?}"
            );
        }
    }
}

#[test]
fn the_same_job_with_numbers_makes_a_tray() {
    let style = Style::read("single-slot", STYLE).expect("a shipped style is sound");
    assert!(make(&style, &plain()).is_ok());
}
