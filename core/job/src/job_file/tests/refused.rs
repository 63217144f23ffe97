//! Errors of jobs: each at its position, with its fix. Source of all: core/CONTRACT.md, "Job file".

use super::*;

/// All errors, each as line, column and words.
fn faults(text: &str) -> Vec<(usize, usize, String)> {
    let boards = Boards::shipped();
    let Err(InputError::Text {
        path,
        text: kept,
        faults,
    }) = read("job.kdl", text.as_bytes(), &boards)
    else {
        panic!("not refused: {text}");
    };
    assert_eq!((path.as_str(), kept.as_str()), ("job.kdl", text));
    assert!(!faults.is_empty());
    let placed = |fault: &SourceError| {
        let before = &text[..fault.place.start];
        let line = before.matches('\n').count() + 1;
        let column = before
            .rsplit('\n')
            .next()
            .unwrap_or_default()
            .chars()
            .count()
            + 1;
        let hint = fault.hint.as_deref().unwrap_or_default();
        (
            line,
            column,
            format!("{} / {} / {hint}", fault.message, fault.label),
        )
    };
    faults.iter().map(placed).collect()
}

/// The errors of a job are these, in this order: position, and a part of the message.
fn refused(text: &str, expected: &[(usize, usize, &str)]) {
    let found = faults(text);
    let places = |(line, column, _): &(usize, usize, String)| (*line, *column);
    let wanted: Vec<(usize, usize)> = expected
        .iter()
        .map(|(line, column, _)| (*line, *column))
        .collect();
    assert_eq!(
        found.iter().map(places).collect::<Vec<_>>(),
        wanted,
        "{text}\n{found:#?}"
    );
    for ((_, _, said), (_, _, fragment)) in found.iter().zip(expected) {
        assert!(said.contains(fragment), "`{fragment}` is not in: {said}");
    }
}

fn box_refused(line: &str, expected: &[(usize, usize, &str)]) {
    refused(&format!("{TRAY}{line}\n{ITEM}{BOARD}"), expected);
}

fn extra_refused(line: &str, expected: &[(usize, usize, &str)]) {
    refused(&format!("{TRAY}{BOX}{ITEM}{BOARD}{line}\n"), expected);
}

#[test]
fn lengths_that_are_none() {
    box_refused(
        "box length=182 width=(cm)12.1 depth=(mm)34",
        &[(2, 5, "(mm)182"), (2, 16, "write width=(mm)121")],
    );
    box_refused(
        "box length=182 width=(mm)121 depth=(mm)34",
        &[(2, 5, "length=(in)182")],
    );
    box_refused(
        "box length=(mn)182 width=(mm)121 depth=(mm)34",
        &[(2, 5, "`mm` or `in`")],
    );
    box_refused(
        "box length=(mm)#inf width=(mm)1e999 depth=(mm)#nan",
        &[(2, 5, "#inf"), (2, 21, "5000 mm"), (2, 37, "#nan")],
    );
    box_refused(
        "box length=(mm)5000.1 width=(mm)0 depth=(mm)-5",
        &[
            (2, 5, "at most 5000 mm"),
            (2, 23, "at least 0.01 mm"),
            (2, 35, "at least 0.01 mm"),
        ],
    );
    box_refused(
        "box length=(in)\"7/0\" width=(in)\"3 5/7\" depth=(in)\"-3/8\"",
        &[
            (2, 5, "2, 4, 8, 16, 32 or 64"),
            (2, 22, "2, 4, 8, 16, 32 or 64"),
            (2, 40, "3 5/8"),
        ],
    );
    box_refused(
        "box length=(mm)\"182\" width=(in)\"1.5\" depth=#true",
        &[
            (2, 5, "write length=(mm)182"),
            (2, 22, "write width=(in)\"1 1/2\""),
            (2, 38, "(mm)"),
        ],
    );
    box_refused(
        "box length=(in)300 width=(mm)121 depth=(mm)34",
        &[(2, 5, "7620 mm")],
    );
}

#[test]
fn slips_of_spelling_are_all_found_and_none_hides_another() {
    box_refused(
        "box length=(mm)182,5 width=121mm depth=.5",
        &[
            (2, 5, "length=(mm)182.5"),
            (2, 22, "write width=(mm)121"),
            (2, 34, "depth=(mm)0.5"),
        ],
    );
    box_refused(
        "box length=(in)7 3/16 width=(in)4-3/4\" depth=(mm)cm",
        &[
            (2, 5, "length=(in)\"7 3/16\""),
            (2, 23, "width=(in)\"4 3/4\""),
            (2, 40, "no length"),
        ],
    );
    box_refused(
        "box length=(mm)182 width= depth=(mm)34",
        &[(2, 20, "`width` has no value")],
    );
    box_refused(
        "box length(mm)=182 width: (mm)121 depth 34",
        &[
            (2, 5, "length=(mm)182"),
            (2, 20, "width="),
            (2, 35, "depth="),
        ],
    );
    box_refused("box 182 121 34", &[(2, 5, "NAME=VALUE")]);
    box_refused("box {\n}", &[(2, 1, "stands behind it")]);
}

#[test]
fn slips_with_quotes_comments_and_braces() {
    extra_refused("# a note", &[(5, 1, "`//`")]);
    extra_refused(
        "fit box=(mm)2 item=true\nset \"lined\"=true",
        &[(5, 15, "`true`"), (6, 5, "#true")],
    );
    extra_refused("}", &[(5, 1, "no inner parts")]);
    refused(
        &format!("tray style='single-slot' name=“Two words”\n{BOX}{ITEM}{BOARD}"),
        &[
            (1, 6, "straight double quotes"),
            (1, 26, "straight double quotes"),
        ],
    );
    refused(
        &format!("tray style=\"single-slot\n{BOX}{ITEM}{BOARD}"),
        &[(1, 12, "not closed")],
    );
    let lost = format!("{TRAY}{BOX}item watch glass length=(mm)5,5 width=6 depth=(mm)7\n{BOARD}");
    refused(
        &lost,
        &[
            (3, 12, "double quotes"),
            (3, 18, "(mm)5.5"),
            (3, 33, "no unit"),
        ],
    );
}

#[test]
fn words_that_a_job_does_not_know() {
    refused(
        &format!("tray stile=\"single-slot\"\n{BOX}itme \"lens\"\nbord \"index-255\"\n"),
        &[(1, 6, "`style`"), (3, 1, "`item`"), (4, 1, "`board`")],
    );
    box_refused(
        "box lenght=(mm)182 width=(mm)121 depth=(mm)34",
        &[(2, 5, "`length`")],
    );
    extra_refused("slot cut=\"cros\"", &[(5, 6, "`cross`")]);
    extra_refused("draw face=\"outsid\"", &[(5, 6, "`outside`")]);
    extra_refused("draw letters=\"no\"", &[(5, 6, "#false")]);
    extra_refused("words \"dee\"", &[(5, 7, "`de`")]);
    extra_refused(
        "words \"de\" face=\"inside\"",
        &[(5, 12, "takes no property")],
    );
    extra_refused("words", &[(5, 1, "words \"de\"")]);
    extra_refused("page \"Leter\"", &[(5, 6, "`Letter`")]);
    extra_refused("page \"B4\"", &[(5, 6, "JIS B4 is 257x364 mm")]);
    refused(
        &format!("{TRAY}{BOX}{ITEM}board \"index-25\" grain=\"long\"\n"),
        &[(4, 7, "`index-255`"), (4, 18, "length, width")],
    );
    refused(
        &format!("{TRAY}{BOX}{ITEM}board 0.45\n"),
        &[(4, 7, "caliper=(mm)0.45")],
    );
    extra_refused("set \"gap\"=(mn)3", &[(5, 5, "`mm`")]);
    extra_refused("(mm)slot cut=\"open\"", &[(5, 2, "`(mm)`")]);
}

#[test]
fn what_stands_twice_or_not_at_all() {
    refused("", &[(1, 1, "start FILE.kdl")]);
    refused("// a note\n", &[(1, 1, "start FILE.kdl")]);
    refused(BOX, &[(1, 1, "`tray`"), (1, 1, "`board`")]);
    box_refused("box length=(mm)182 width=(mm)121", &[(2, 1, "depth")]);
    box_refused(
        "box length=(mm)182 width=(mm)121 depth=(mm)34 depth=(mm)35",
        &[(2, 47, "a second `depth`")],
    );
    extra_refused(BOARD.trim_end(), &[(5, 1, "a second `board`")]);
    extra_refused(
        "item \"barometer\" length=(mm)5 width=(mm)5 depth=(mm)5",
        &[(5, 6, "count=2")],
    );
    extra_refused(
        "item length=(mm)5 width=(mm)5 depth=(mm)5",
        &[(5, 1, "name")],
    );
    extra_refused("set \"a\"=1\nset \"a\"=2", &[(6, 5, "set twice")]);
    extra_refused(
        "set\ndraw",
        &[(5, 1, "set \"tab-max\""), (6, 1, "face=\"inside\"")],
    );
    refused(
        &format!("{TRAY}{BOX}{ITEM}board hinge=(mm)0\n"),
        &[(4, 1, "caliper=(mm)0.3")],
    );
}

#[test]
fn figures_that_contradict_each_other() {
    box_refused(
        "box length=(mm)121 width=(mm)182 depth=(mm)34",
        &[(2, 5, "swap the two, length=(mm)182 width=(mm)121")],
    );
    extra_refused("slot finger=(mm)20", &[(5, 6, "cut=\"open\"")]);
    extra_refused(
        "slot cut=\"doors\" finger=(mm)20",
        &[(5, 18, "cut=\"open\"")],
    );
    extra_refused("page \"A5\" margin=(mm)74", &[(5, 11, "less than 74 mm")]);
    extra_refused(
        "page margin=(mm)6 overlap=(mm)198",
        &[(5, 19, "less than 198 mm")],
    );
    extra_refused(
        "page bar-across=(mm)89.9 bar-down=(mm)110.1",
        &[(5, 6, "90 and 110"), (5, 26, "90 and 110")],
    );
    refused(
        &format!("{TRAY}{BOX}{ITEM}board caliper=(mm)0\n"),
        &[(4, 7, "measure one sheet")],
    );
    refused(
        &format!("{TRAY}{BOX}{ITEM}board caliper=(mm)0.3 tolerance=(mm)0.3\n"),
        &[(4, 23, "0.3 mm thick")],
    );
    extra_refused(
        "item \"lens\" length=(mm)5 width=(mm)6 depth=(mm)5 shape=\"round\"",
        &[(5, 50, "diameter")],
    );
    extra_refused("fit box=(mm)-1 item=(mm)2", &[(5, 5, "0 or more")]);
    refused(
        &format!("tray style=\"single-slot\" name=\"\"\n{BOX}{ITEM}{BOARD}"),
        &[(1, 26, "at least one letter")],
    );
}

#[test]
fn repeats_are_counted_and_named() {
    let vial = |rest: &str| format!("item \"vial\" length=(mm)5 width=(mm)5 depth=(mm)5 {rest}");
    extra_refused(&vial("count=0"), &[(5, 50, "from 1 to 64")]);
    extra_refused(&vial("count=2.5"), &[(5, 50, "from 1 to 64")]);
    extra_refused(&vial("count=(mm)3"), &[(5, 50, "from 1 to 64")]);
    // The barometer is the first of the 64.
    assert_eq!(with(&vial("count=63")).items.len(), 64);
    extra_refused(&vial("count=64"), &[(5, 50, "at most 64 openings")]);
    let clash = format!(
        "{}\nitem \"vial.2\" length=(mm)5 width=(mm)5 depth=(mm)5",
        vial("count=2")
    );
    extra_refused(&clash, &[(6, 6, "`vial.2`")]);
}

#[test]
fn what_cannot_be_asked_of_files_for_machines() {
    extra_refused("kerf", &[(5, 1, "add width=(mm)0.2")]);
    extra_refused("kerf width=(mm)0", &[(5, 6, "at least 0.01 mm")]);
    extra_refused("kerf widht=(mm)0.2", &[(5, 6, "did you mean `width`?")]);
    extra_refused("nicks lenght=(mm)0.4", &[(5, 7, "did you mean `length`?")]);
    extra_refused("nicks length=0.4", &[(5, 7, "write length=(mm)0.4")]);
    extra_refused(
        "nicks length=(mm)4 every=(mm)19",
        &[(5, 20, "with nicks of 4 mm, `every` is at least 20 mm")],
    );
    extra_refused("nicks length=(mm)20", &[(5, 7, "run into one another")]);
    extra_refused("nikcs", &[(5, 1, "did you mean `nicks`?")]);
    extra_refused("dxf version=\"R21\"", &[(5, 5, "did you mean `R12`?")]);
    extra_refused("dxf", &[(5, 1, "R12")]);
    extra_refused("page \"hole\"", &[(5, 6, "did you mean `whole`?")]);
    extra_refused(
        "page \"whole\" overlap=(mm)5",
        &[(5, 14, "a whole page overlaps no other")],
    );
}
