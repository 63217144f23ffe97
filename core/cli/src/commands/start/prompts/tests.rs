//! Conversations with makers: what they type, what they are told, what goes into the job.

use traywright_job::job_file::read;
use traywright_job::start::draft::example;
use traywright_job::start::template;

use super::*;

/// What was said, and the job or the trouble that came of it.
fn converse(typed: &str, start: JobDraft) -> (String, Result<String, String>) {
    let boards = Boards::shipped();
    let mut said = Vec::new();
    let outcome = Prompter::new(typed.as_bytes(), &mut said, &boards).fill(start);
    let outcome = match outcome {
        Ok(draft) => Ok(template::job(&draft)),
        Err(CliError::Sentence(words)) => Err(words),
        Err(other) => panic!("{other:?}"),
    };
    (String::from_utf8(said).expect("words"), outcome)
}

fn job(typed: &str, unit: Unit) -> traywright_engine::Job {
    let (said, text) = converse(typed, example(unit));
    let text = text.unwrap_or_else(|words| panic!("{words}\n{said}"));
    read("shelf/new.kdl", text.as_bytes(), &Boards::shipped())
        .unwrap_or_else(|error| panic!("{error:?}\n{text}"))
}

// Source: 1 in = 25.4 mm exactly, 10 mm to the cm; products by hand.
#[test]
fn lengths_are_taken_as_people_write_them_and_repeated() {
    let typed = "182\n12,1 cm\n1 3/8 in\nlens\n96mm\n2-3/8\"\n28\n0.29\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    for repeated in [
        "= 182 mm",
        "= 121 mm",
        "= 1 3/8 in",
        "= lens",
        "= 96 mm",
        "= 2 3/8 in",
        "= 0.29 mm thick",
        "= A4",
    ] {
        assert!(said.contains(repeated), "{repeated} is not in\n{said}");
    }
    let job = job(typed, Unit::Millimetre);
    assert_eq!(
        (job.box_size.length.mm(), job.box_size.width.mm()),
        (182.0, 121.0)
    );
    assert!((job.box_size.depth.mm() - 34.925).abs() < 1e-9);
    assert_eq!((job.items.len(), job.items[0].name.as_str()), (1, "lens"));
    assert!((job.items[0].width.mm() - 60.325).abs() < 1e-9);
    assert_eq!((job.board.name, job.board.caliper.mm()), (None, 0.29));
    assert_eq!(
        (job.output.paper.page().name.as_str(), job.unit),
        ("A4", Unit::Millimetre)
    );
}

#[test]
fn a_box_in_inches_makes_an_inch_job() {
    for (typed, unit) in [(
        "7 3/16\n4.75\n1 3/8\n\n3.75\n2 3/8\n1\nindex-255\n\n\n",
        Unit::Millimetre,
    )]
    .into_iter()
    .chain([(
        "7.1875\n4 3/4\n1.375\n\n3 3/4\n2.375\n1\nindex-255\nLetter\n\n",
        Unit::Inch,
    )]) {
        let job = job(typed, unit);
        assert!(
            (job.box_size.length.mm() - 182.5625).abs() < 1e-9,
            "{typed}"
        );
        assert!((job.box_size.width.mm() - 120.65).abs() < 1e-9, "{typed}");
        assert_eq!(
            (job.output.paper.page().name.as_str(), job.unit),
            ("Letter", Unit::Inch),
            "{typed}"
        );
        // Source: core/CONTRACT.md, "Commands": 0.1 in, the trade's round figure.
        assert!(
            (job.fit.around_tray.mm() - 2.54).abs() < 1e-9
                && (job.fit.around_item.mm() - 2.54).abs() < 1e-9
        );
        assert_eq!(job.items[0].name, "item");
    }
}

#[test]
fn slips_are_asked_again_and_any_line_can_be_changed() {
    let typed = "big\n-5\n6 m\n0\n9999\n121\n182\n\n34\n\u{1b}[A\nlens \"no. 2\" \\\n96\n61\n28\n\
        chipbord\n29\nindex\nindex-255\nB4\n210x297\nA3\n\
        ten\n12\n3\n33 mm\n8\n0.3 mm\n\n";
    let (said, text) = converse(typed, example(Unit::Millimetre));
    let text = text.unwrap_or_else(|words| panic!("{words}\n{said}"));
    for words in [
        "That is no length",
        "at least 0.01 mm",
        "5000 mm is the most",
        "The length is the longer side: length 182 mm, width 121 mm.",
        "no control characters",
        "is no card any more",
        "index-200",
        "JIS B4",
        "no page size",
        "a number from 1 to 9",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    let job = read("new.kdl", text.as_bytes(), &Boards::shipped())
        .unwrap_or_else(|error| panic!("{error:?}"));
    assert_eq!(
        (
            job.box_size.length.mm(),
            job.box_size.width.mm(),
            job.box_size.depth.mm()
        ),
        (182.0, 121.0, 33.0)
    );
    assert_eq!(job.items[0].name, "lens \"no. 2\" \\");
    assert_eq!(
        (
            job.board.name,
            job.board.caliper.mm(),
            job.output.paper.page().name.as_str()
        ),
        (None, 0.3, "A3")
    );
}

#[test]
fn changing_the_length_keeps_the_width() {
    let job = job(
        "182\n121\n34\n\n96\n61\n28\n0.29\n\n1\n100\n\n",
        Unit::Millimetre,
    );
    assert_eq!(
        (job.box_size.length.mm(), job.box_size.width.mm()),
        (121.0, 100.0)
    );
}

#[test]
fn the_end_of_the_answers_ends_it_wherever_it_comes() {
    let whole = "182\n121\n34\nlens\n96\n61\n28\n0.29\nA4\n\n";
    for end in 0..whole.len() {
        let (_, outcome) = converse(&whole[..end], example(Unit::Millimetre));
        let words = outcome.expect_err("cut off");
        assert!(words.contains("nothing is written"), "{words}");
    }
    let endless = "x".repeat(100_000);
    let (_, outcome) = converse(&endless, example(Unit::Millimetre));
    assert!(outcome.is_err());
}
