//! What a job may and may not say. Source of all: core/CONTRACT.md, "Job file", unless a test names another.

use traywright_engine::job::{
    BoardKind, Cut, DrawnFace, DxfVersion, Grain, ItemShape, Length, Machine, Nicks, SettingInput,
    Unit,
};

use super::*;

mod refused;

/// A correct job, line by line.
const TRAY: &str = "tray style=\"single-slot\"\n";
const BOX: &str = "box length=(mm)182 width=(mm)121 depth=(mm)34\n";
const ITEM: &str = "item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28\n";
const BOARD: &str = "board \"index-255\"\n";

const fn mm(number: f64) -> Length {
    Length::known(number)
}

fn job(text: &str) -> Job {
    let boards = Boards::shipped();
    match read("shelf/barometer.kdl", text.as_bytes(), &boards) {
        Ok(job) => job,
        Err(error) => panic!("refused: {text}\n{error:#?}"),
    }
}

fn with(lines: &str) -> Job {
    job(&format!("{TRAY}{BOX}{ITEM}{BOARD}{lines}"))
}

#[test]
fn the_least_job_has_the_defaults_of_the_contract() {
    let job = with("");
    assert_eq!(job.title, "barometer");
    assert_eq!(job.style, "single-slot");
    assert_eq!(&TRAY[job.style_place.clone()], "style=\"single-slot\"");
    assert_eq!(
        (job.box_size.length, job.box_size.width, job.box_size.depth),
        (mm(182.0), mm(121.0), mm(34.0))
    );
    assert_eq!(
        (job.rounding.corner, job.rounding.floor_corner),
        (mm(0.0), mm(0.0))
    );
    assert_eq!(
        (job.fit.around_tray, job.fit.around_item, job.fit.play),
        (mm(2.0), mm(2.0), mm(0.5))
    );
    assert_eq!((job.slot.cut, job.slot.finger), (Cut::Cross, None));
    assert_eq!(
        (
            job.output.paper.page().name.as_str(),
            job.output.paper.page().width,
            job.output.paper.page().height
        ),
        ("A4", mm(210.0), mm(297.0))
    );
    assert_eq!(job.output.paper.page().margin, mm(6.0));
    assert_eq!(
        (job.output.drawn_face, job.unit),
        (DrawnFace::Inside, Unit::Millimetre)
    );
    assert_eq!(job.board.name.as_deref(), Some("index-255"));
    // Source: JCP K10, February 1999.
    assert_eq!(
        (job.board.caliper, job.board.tolerance),
        (mm(0.290), Some(mm(0.013)))
    );
    assert!(!job.board.measure_it && job.board.hinge() == 0.0);
}

/// A job with every key.
const WHOLE_JOB: &str = "\u{feff}// for the shelf\r\n\
    tray style=\"single-slot\" name=\"Barometer keepsake box\"\r\n\
    box length=(mm)182 width=(in)\"4 3/4\" depth=(in)1.5 corner=(mm)3 floor-corner=(mm)0; /* all of it */\n\
    item vial length=(mm)9.5 width=(mm)9.5 depth=(mm)28 count=3 shape=\"round\"\n\
    board \"bristol-vellum-147\" hinge=(mm)0.05 sheet=\"500x700 mm\" grain=\"width\"\n\
    fit box=(mm)0 item=(in)\"1/16\" play=(mm)0\n\
    slot cut=\"open\" finger=(mm)20\n\
    page \"Legal\" margin=(mm)4 font=\"Letters.ttf\" overlap=(mm)12 bar-across=(mm)99.6 bar-down=(mm)100.2\n\
    draw face=\"outside\"\n\
    set \"lid-gap\"=(mm)3 lean=(deg)-5 parts=3 kind=\"long\" lined=#true\n";

// Source of the products: 1 in = 25.4 mm exactly, by hand.
#[test]
fn everything_about_box_items_and_card_is_read() {
    let job = job(WHOLE_JOB);
    assert_eq!(job.title, "Barometer keepsake box");
    assert!((job.box_size.width.mm() - 120.65).abs() < 1e-9);
    assert!((job.box_size.depth.mm() - 38.1).abs() < 1e-9);
    assert_eq!((job.rounding.corner, job.unit), (mm(3.0), Unit::Millimetre));
    let names: Vec<&str> = job.items.iter().map(|item| item.name.as_str()).collect();
    assert_eq!(names, ["vial", "vial.2", "vial.3"]);
    assert_eq!([0, 1, 2].map(|item| job.items[item].number), [1, 2, 3]);
    assert!(
        job.items
            .iter()
            .all(|item| item.shape == ItemShape::Round && item.depth == mm(28.0))
    );
    assert!(
        job.board.measure_it,
        "a remembered caliper is to be measured"
    );
    assert_eq!(
        (job.board.hinge(), job.board.grain),
        (0.05, Some(Grain::Width))
    );
    let sheet = job.board.sheet.expect("the sheet is read");
    assert_eq!(
        (sheet.name.as_str(), sheet.width, sheet.height),
        ("500x700 mm", mm(500.0), mm(700.0))
    );
    let fit = job.fit;
    assert_eq!(
        (fit.around_tray, fit.around_item, fit.play),
        (mm(0.0), mm(1.5875), mm(0.0))
    );
}

#[test]
fn everything_about_cuts_paper_and_style_is_read() {
    let job = job(WHOLE_JOB);
    assert_eq!((job.slot.cut, job.slot.finger), (Cut::Open, Some(mm(20.0))));
    let page = job.output.paper.page();
    assert_eq!(page.font.as_deref(), Some("Letters.ttf"));
    assert_eq!(
        [page.margin, page.overlap]
            .into_iter()
            .chain(page.bar_across)
            .chain(page.bar_down)
            .map(Length::mm)
            .collect::<Vec<_>>(),
        [4.0, 12.0, 99.6, 100.2]
    );
    assert_eq!(job.output.drawn_face, DrawnFace::Outside);
    let answers: Vec<SettingInput> = job
        .settings
        .into_iter()
        .map(|setting| setting.answer)
        .collect();
    let expected = [
        SettingInput::Length(3.0),
        SettingInput::Angle(-5.0),
        SettingInput::Number(3.0),
        SettingInput::Word("long".to_owned()),
        SettingInput::YesNo(true),
    ];
    assert_eq!(answers, expected);
}

#[test]
fn an_inch_job_has_letter_paper_and_a_quarter_inch_of_margin() {
    let inches = "box length=(in)\"7 3/16\" width=(in)4.75 depth=(in)\"1 3/8\"\n";
    let plain = job(&format!("{TRAY}{inches}{ITEM}{BOARD}"));
    assert_eq!(
        (plain.unit, plain.output.paper.page().name.as_str()),
        (Unit::Inch, "Letter")
    );
    // Source: 8.5 x 11 in and 0.25 in of 25.4 mm, by hand.
    assert!(
        (plain.output.paper.page().width.mm() - 215.9).abs() < 1e-9
            && (plain.output.paper.page().height.mm() - 279.4).abs() < 1e-9
    );
    assert!((plain.output.paper.page().margin.mm() - 6.35).abs() < 1e-9);
    let sized = job(&format!(
        "{TRAY}{inches}{ITEM}{BOARD}page \"A5\" overlap=(mm)8\n"
    ));
    assert_eq!(
        (
            sized.output.paper.page().width,
            sized.output.paper.page().overlap
        ),
        (mm(148.0), mm(8.0))
    );
}

// Source: 25.4 mm to the inch; both jobs describe one box.
#[test]
fn an_inch_twin_is_the_same_job() {
    let twin = job(&format!(
        "{TRAY}box length=(in){} width=(in){} depth=(in){}\n{ITEM}{BOARD}",
        182.0 / 25.4,
        121.0 / 25.4,
        34.0 / 25.4
    ));
    let metric = with("");
    assert!((twin.box_size.length.mm() - metric.box_size.length.mm()).abs() < 1e-9);
    assert!((twin.box_size.width.mm() - metric.box_size.width.mm()).abs() < 1e-9);
    assert!((twin.box_size.depth.mm() - metric.box_size.depth.mm()).abs() < 1e-9);
}

#[test]
fn a_measured_caliper_beats_the_list() {
    let measured = |board: &str| job(&format!("{TRAY}{BOX}{ITEM}{board}\n")).board;
    let own = measured("board \"museum-board-2ply\" caliper=(mm)0.82");
    assert_eq!(
        (own.name.as_deref(), own.caliper),
        (Some("museum-board-2ply"), mm(0.82))
    );
    assert_eq!((own.tolerance, own.measure_it), (None, false));
    assert_eq!(measured("board caliper=(mm)0.0001").caliper, mm(0.0001));
    let stated = measured("board \"index-255\" tolerance=(mm)0.005");
    assert_eq!(stated.tolerance, Some(mm(0.005)));
}

// Source of the sizes: ISO 216; inch sizes times 25.4. Source of B4: ISO 216 and JIS P 0138.
#[test]
fn pages_have_their_names_and_sizes() {
    for (name, width, height) in [
        ("A5", 148.0, 210.0),
        ("A3", 297.0, 420.0),
        ("A0", 841.0, 1189.0),
        ("Legal", 215.9, 355.6),
        ("Tabloid", 279.4, 431.8),
        ("210x297 mm", 210.0, 297.0),
        ("8.5x11 in", 215.9, 279.4),
        ("8 1/2 × 11 in", 215.9, 279.4),
    ] {
        let page = page_named(name).unwrap_or_else(|no| panic!("{name}: {no:?}"));
        assert!(
            (page.width.mm() - width).abs() < 1e-9 && (page.height.mm() - height).abs() < 1e-9,
            "{name}"
        );
        assert_eq!(page.name, name);
    }
    let no = page_named("B4").expect_err("two standards have a B4");
    for fragment in ["ISO", "250x353", "JIS", "257x364"] {
        assert!(no.fix.contains(fragment), "{no:?}");
    }
    for wrong in [
        "",
        "210x297",
        "210 mm",
        "0x5 mm",
        "9000x5 mm",
        "axb mm",
        "A99",
        "210x297x3 mm",
        "1e3x5 mm",
    ] {
        assert!(page_named(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn files_that_are_no_jobs() {
    let boards = Boards::shipped();
    let said = |bytes: &[u8]| match read("job.kdl", bytes, &boards) {
        Err(InputError::Text { faults, .. }) => {
            assert_eq!((faults.len(), faults[0].place.clone()), (1, WHOLE));
            format!("{} / {}", faults[0].message, faults[0].label)
        }
        other => panic!("not refused: {other:?}"),
    };
    assert!(said(b"tray\n\xff").contains("line 2"));
    assert!(said(&vec![b' '; 256 * 1024 + 1]).contains("262144"));
    assert!(said(&vec![b' '; 256 * 1024]).contains("empty"));
    assert!(said(b"\xef\xbb\xbf").contains("empty"));
}

#[test]
fn a_line_is_carried_over_as_it_was_written() {
    let text = "tray style=\"single-slot\"; fit box=(mm)1.5   item=(mm)1 // snug\nboard \"index-255\"; draw face=\"inside\"\n";
    assert_eq!(
        lines_of(text, "fit").as_deref(),
        Some("fit box=(mm)1.5   item=(mm)1 // snug")
    );
    assert_eq!(
        lines_of(text, "board").as_deref(),
        Some("board \"index-255\"")
    );
    assert_eq!(lines_of(text, "page"), None);
}

#[test]
fn words_are_english_unless_asked_for() {
    assert_eq!(with("").output.language, "en");
    assert_eq!(with("words \"de\"").output.language, "de");
}

#[test]
fn what_is_asked_of_files_for_machines_is_off_until_it_is_asked() {
    assert_eq!(with("").output.machine, Machine::default());
    let asked = with("kerf width=(mm)0.2\nnicks\ndxf version=\"R12\"\n")
        .output
        .machine;
    // Source: core/CONTRACT.md, "Job file", the defaults of `nicks`.
    let usual = Nicks {
        length: mm(0.4),
        every: mm(60.0),
    };
    assert_eq!((asked.kerf, asked.nicks), (mm(0.2), Some(usual)));
    assert_eq!(asked.dxf, DxfVersion::R12);
    let other = with("nicks length=(mm)0.5 every=(in)2\ndxf version=\"R2000\"\n")
        .output
        .machine;
    let nicks = Nicks {
        length: mm(0.5),
        every: mm(50.8),
    };
    assert_eq!((other.nicks, other.dxf), (Some(nicks), DxfVersion::R2000));
}

#[test]
fn a_whole_page_has_a_bleed_and_leaves_the_sheets_as_they_are() {
    let job = with("page \"whole\"\n");
    assert_eq!(
        (
            job.output.paper.bleed(),
            job.output.paper.page().name.as_str()
        ),
        (Some(mm(3.0)), "A4")
    );
    assert_eq!(
        (
            job.output.paper.page().margin,
            job.output.paper.page().overlap
        ),
        (mm(6.0), mm(10.0))
    );
    let job = with("page \"whole\" margin=(mm)5 bar-across=(mm)99.6\n");
    assert_eq!(
        (job.output.paper.bleed(), job.output.paper.page().margin),
        (Some(mm(5.0)), mm(6.0))
    );
    assert_eq!(job.output.paper.page().bar_across, Some(mm(99.6)));
    assert_eq!(with("page \"A3\"\n").output.paper.bleed(), None);
}

// Derived: what is written and read again is the same; the places of words are not, and go.
#[test]
fn a_written_job_is_read_back_with_every_value() {
    let text = "tray style=\"single-slot\" name=\"Lens \\\"box\\\"\" height=(mm)32\n\
        box length=(mm)182.1 width=(mm)121 depth=(mm)34 corner=(mm)3 floor-corner=(mm)1.5\n\
        item \"lens\" length=(mm)20 width=(mm)20 depth=(mm)12.3 shape=\"round\" turn=#true pad=(mm)4 straight=(mm)9.5 cut=\"open\" finger=(mm)6 loose=#true\n\
        item \"vial\" length=(mm)9.1 width=(mm)9 depth=(mm)28 count=3\n\
        board \"index-255\" caliper=(mm)0.31 hinge=(mm)0.05 reading=(mm)0.7 tolerance=(mm)0.02 sheet=\"A3\" grain=\"width\" kind=\"solid\" crease=\"pressed\"\n\
        tool by=\"machine\" accuracy=(mm)0.2 smallest=(mm)1 lines=\"bare\"\n\
        fit box=(mm)1.5 item=(mm)2.5 play=(mm)0.6\n\
        slot cut=\"open\" finger=(mm)20\n\
        page \"A3\" margin=(mm)7 font=\"hand.ttf\" overlap=(mm)12 bar-across=(mm)99.5 bar-down=(mm)100.5\n\
        draw face=\"outside\" letters=#false\n\
        print image=\"stars.png\" on=\"lid\" fit=\"inside\" turn=(deg)180\n\
        label \"Lens\" on=\"deck\" size=(mm)5 turn=(deg)90\n\
        words \"de\"\n\
        kerf width=(mm)0.2\n\
        nicks length=(mm)0.5 every=(mm)70\n\
        perforate cut=(mm)1.5 gap=(mm)1.2\n\
        dxf version=\"R12\"\n\
        set \"gap\"=(mm)3.1\nset \"lean\"=(deg)5\nset \"ribs\"=3\nset \"way\"=\"long\"\nset \"deep\"=#true\n";
    let read_job = job(text);
    // Sheets do not have this key.
    let whole = "page \"whole\" condition=\"CGATS TR 006\"\n";
    for line in &LINES {
        let lines = text.lines().chain(whole.lines());
        let mut written = lines.filter(|text| text.starts_with(line.name));
        for key in line.known_keys() {
            let value = format!(" {}=", key.name);
            let has_it = written.clone().any(|text| text.contains(&value));
            assert!(has_it, "{} {}", line.name, key.name);
        }
        assert!(written.next().is_some(), "{}", line.name);
    }
    assert_eq!(write(&read_job), text);
    assert!(write(&with(whole)).contains(whole));
    let least = job(&format!("{TRAY}{BOX}{ITEM}{BOARD}nicks\npage \"whole\"\n"));
    let again = write(&least);
    let nicks = "page \"whole\"\nnicks length=(mm)0.4 every=(mm)60\n";
    assert!(again.ends_with(nicks), "{again}");
    assert!(!again.contains("fit") && !again.contains("draw"));
}

// Source: KDL 2.0.0, "Quoted String": an escape stands for a code point; the reader refuses those that nobody sees.
#[test]
fn a_name_of_any_letters_is_read_back() {
    let mut named = with("");
    let strange = "4\" a\\b\u{200f}\u{2028}\u{2066}\u{feff}\u{5d6}";
    named.title = strange.to_owned();
    assert_eq!(job(&write(&named)).title, strange);
}

// Source: the engine says what a job that names no more than box, card and items has; `index-255` adds what it knows.
#[test]
fn the_defaults_of_the_table_are_those_of_the_engine() {
    let mut least = with("");
    let plain = Job::plain("single-slot", least.box_size, mm(0.29), least.items.clone());
    assert_eq!(least.board.tolerance.take(), Some(mm(0.013)));
    assert_eq!(least.board.kind.take(), Some(BoardKind::Carton));
    assert_eq!(least.board.name.take().as_deref(), Some("index-255"));
    let same = Job {
        title: "single-slot".to_owned(),
        style_place: 0..0,
        ..least
    };
    assert_eq!(same, plain);
}
