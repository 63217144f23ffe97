//! Conversations with makers: typed answers, printed text, and the resulting job.

use traywright_job::job_file::read;
use traywright_job::library::Styles;
use traywright_job::start::draft::example;
use traywright_job::start::template;

use std::sync::LazyLock;

use traywright_engine::job::{ItemShape, ToolKind};

use super::*;

/// The printed text, and the job or the error that results.
fn converse(typed: &str, start: JobDraft) -> (String, Result<String, String>) {
    static STYLES: LazyLock<Vec<StyleChoice>> = LazyLock::new(|| choices(&Styles::shipped()));
    let boards = Boards::shipped();
    let mut said = Vec::new();
    let terminal = Terminal::new(typed.as_bytes(), &mut said);
    let outcome = Prompter::new(terminal, &boards, &STYLES, Settled::default()).fill(start);
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
    let typed = "182\n12,1 cm\n1 3/8 in\n1\nlens\n\n96mm\n2-3/8\"\n28\n\n\n0.29\n\n\n\n";
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
        "7 3/16\n\n4.75\n1 3/8\n1\n\n\n3.75\n2 3/8\n1\n\n\nindex-255\n\n\n\n",
        Unit::Millimetre,
    )]
    .into_iter()
    .chain([(
        "7.1875\n4 3/4\n1.375\n1\n\n\n3 3/4\n2.375\n1\n\n\nindex-255\n\nLetter\n\n",
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
    let typed = "big\n-5\n6 m\n0\n9999\n121\n182\n\n34\n0\n1\n\u{1b}[A\nlens \"no. 2\" \\\nsquare\nrect\n96\n61\n28\nmany\n1\n\
        singel-slot\n\nchipbord\n29\nindex\nindex-255\nknife\nmachine\n\nB4\n210x297\nA3\n\
        ten\n16\n3\n33 mm\n12\n0.3 mm\n\n";
    let (said, text) = converse(typed, example(Unit::Millimetre));
    let text = text.unwrap_or_else(|words| panic!("{words}\n{said}"));
    for words in [
        "That is not a length",
        "at least 0.01 mm",
        "at most 5000 mm",
        "The length is the longer side: length 182 mm, width 121 mm.",
        "no control characters",
        "is too thick for card",
        "index-200",
        "JIS B4",
        "no page size",
        "a number from 1 to 15",
        "a whole number from 1 to 64",
        "rectangle, oval, round",
        "`single-slot`",
        "hand, machine",
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
        "182\n121\n34\n1\n\n\n96\n61\n28\n\n\n0.29\n\n\n1\n100\n\n",
        Unit::Millimetre,
    );
    assert_eq!(
        (job.box_size.length.mm(), job.box_size.width.mm()),
        (121.0, 100.0)
    );
}

#[test]
fn the_end_of_the_answers_ends_it_wherever_it_comes() {
    let whole = "182\n121\n34\n1\nlens\n\n96\n61\n28\n\n\n0.29\n\nA4\n\n";
    for end in 0..whole.len() {
        let (_, outcome) = converse(&whole[..end], example(Unit::Millimetre));
        let words = outcome.expect_err("cut off");
        assert!(words.contains("nothing is written"), "{words}");
    }
    let endless = "x".repeat(100_000);
    let (_, outcome) = converse(&endless, example(Unit::Millimetre));
    assert!(outcome.is_err());
}

// Derived: 34 in are 863.6 mm, deeper than a box of 182 mm is long; 190 is more than 182.
#[test]
fn what_is_unlikely_is_questioned_at_once() {
    let typed = "182\n121\n34 in\n34\n1\nlens\n\n190\n96\n61\n28\n\n\n0.29\n\n\n\n";
    let (said, text) = converse(typed, example(Unit::Millimetre));
    assert!(said.contains("deeper (34 in) than long (182 mm)"), "{said}");
    assert!(
        said.contains("lens would be larger (190 mm) than the box inside (182 mm)"),
        "{said}"
    );
    assert!(text.is_ok(), "{text:?}");
    let job = job(typed, Unit::Millimetre);
    assert_eq!(
        (job.box_size.depth.mm(), job.items[0].length.mm()),
        (34.0, 96.0)
    );
}

// Derived: 7/16 in are 11.1125 mm; the maker meant something else and types it again, in the unit that was in force.
#[test]
fn a_bare_fraction_is_repeated_in_millimetres_and_can_be_taken_back() {
    let typed = "7/16\n182\n121\n1 3/8\n\n1\n\n\n96\n61\n28\n\n\n0.29\n\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    assert!(said.contains("7/16 in is 11.11 mm"), "{said}");
    assert!(
        said.contains("box length, mm: ") && !said.contains(", in: "),
        "{said}"
    );
    let job = job(typed, Unit::Millimetre);
    assert_eq!(
        (job.box_size.length.mm(), job.unit),
        (182.0, Unit::Millimetre)
    );
    assert!((job.box_size.depth.mm() - 34.925).abs() < 1e-9);
}

#[test]
fn back_goes_a_line_back_and_a_question_mark_explains() {
    let typed = "?\n185\nback\n182\n121\n34\n1\n\n\n96\n61\n28\n\n\n0.29\n\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    assert!(
        said.contains("The length is the longer side. A number alone"),
        "{said}"
    );
    assert_eq!(job(typed, Unit::Millimetre).box_size.length.mm(), 182.0);
}

#[test]
fn different_items_have_their_own_name_shape_size_and_count() {
    let typed = "260\n180\n40\n3\nlens\nround\n50\n32\n\n\
        lens\nvial\nround\n20\n34\n4\nbox of labels\n\n60\n40\n32\n\nindex-255\nmachine\n500x400 mm\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    assert!(said.contains("Another item is called lens"), "{said}");
    assert!(said.contains("item 1, diameter, mm"), "{said}");
    let job = job(
        &typed.replacen("32\n\nindex", "32\n\n\nindex", 1),
        Unit::Millimetre,
    );
    assert_eq!((job.style.as_str(), job.items.len()), ("multi-slot", 6));
    assert_eq!(
        (job.items[1].name.as_str(), job.items[4].number),
        ("vial", 4)
    );
    assert_eq!(
        (job.items[0].shape, job.items[0].width.mm()),
        (ItemShape::Round, 50.0)
    );
    assert_eq!(job.tool.by, ToolKind::Machine);
    let bed = job.board.sheet.expect("a machine was asked for its bed");
    assert_eq!((bed.width.mm(), bed.height.mm()), (500.0, 400.0));
}

// Reasoning: who corrects one line of the list has the others right already.
#[test]
fn a_line_of_the_list_keeps_its_value_by_enter_and_by_back() {
    // 15 lines; line 8 is the item's width. It is looked at twice and left, then changed.
    let lines = "182\n121\n34\n1\n\n\n96\n61\n28\n\n\n0.29\n\n\n";
    let typed = format!("{lines}8\n\n8\nback\n8\n62\n\n");
    let (said, _) = converse(&typed, example(Unit::Millimetre));
    assert!(said.contains("item, width, mm [61 mm]: "), "{said}");
    let item = &job(&typed, Unit::Millimetre).items[0];
    assert_eq!(
        (item.length.mm(), item.width.mm(), item.depth.mm()),
        (96.0, 62.0, 28.0)
    );
}

#[test]
fn another_unit_and_an_unlikely_box_are_said_at_once() {
    let typed = "9 1/2 in\n160\n6 1/4\n2 in\n1\n\n\n3\n2\n1\n\n\n0.012\n\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    assert!(
        said.contains("From here on a number alone is in inches"),
        "{said}"
    );
    // Derived: 160 in are 4064 mm.
    assert!(said.contains("160 in is 4064 mm"), "{said}");
    let job = job(typed, Unit::Millimetre);
    assert!((job.box_size.width.mm() - 158.75).abs() < 1e-9, "{said}");
}

#[test]
fn the_beginning_of_two_words_is_no_answer() {
    let typed = "182\n121\n34\n1\n\nr\nro\n60\n28\n\n\n0.29\n\n\n\n";
    let (said, _) = converse(typed, example(Unit::Millimetre));
    assert!(
        said.contains("Type one of these: rectangle, round."),
        "{said}"
    );
    assert_eq!(
        job(typed, Unit::Millimetre).items[0].shape,
        ItemShape::Round
    );
}
