//! The whole drawing of trays written by hand, read as text. Outside readers of the file are in the tests crate.

use traywright_document::{
    Contour, CreaseLine, Dimension, Document, ExportError, Flat, Hinge, Length, Nicks, Point, Unit,
    example,
};

use crate::drawing;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn ring(corners: &[[f64; 2]]) -> Contour {
    example::run(corners, true)
}

/// A card of 120 by 40 mm with one crease of each sense, a slit and a hole.
fn card() -> Flat {
    let crease = |x: f64, fold_deg: f64| CreaseLine {
        from: point(x, 0.0),
        to: point(x, 40.0),
        fold_deg,
        panel: 1,
    };
    let outline = ring(&[[0.0, 0.0], [120.0, 0.0], [120.0, 40.0], [0.0, 40.0]]);
    Flat {
        holes: vec![ring(&[
            [50.0, 10.0],
            [50.0, 20.0],
            [60.0, 20.0],
            [60.0, 10.0],
        ])],
        open_cuts: vec![example::run(&[[80.0, 10.0], [80.0, 30.0]], false)],
        creases: vec![
            crease(20.0, 90.0),
            crease(100.0, -90.0),
            crease(20.000_01, 90.0),
        ],
        dimensions: vec![length_below("120")],
        ..example::flat(outline)
    }
}

fn document() -> Document {
    example::plain(card())
}

fn length_below(text: &str) -> Dimension {
    Dimension {
        text: text.to_owned(),
        text_at: point(60.0, -8.2),
        text_height: 2.5,
        line: [point(0.0, -9.0), point(120.0, -9.0)],
        extensions: vec![
            [point(0.0, -1.0), point(0.0, -11.0)],
            [point(120.0, -1.0), point(120.0, -11.0)],
        ],
    }
}

/// The drawing of a document.
fn svg_of(document: &Document) -> String {
    drawing(document).expect("the language has words")
}

/// The lines of a group, tags included.
fn group<'a>(svg: &'a str, id: &str) -> &'a str {
    let at = svg
        .find(&format!("id=\"{id}\""))
        .expect("the group is there");
    let end = svg[at..]
        .find("</g>")
        .or(svg[at..].find("/>"))
        .expect("the group ends");
    &svg[at..at + end]
}

/// Source: core/CONTRACT.md, "Files: SVG", worked out by hand for this card: 10 mm of border, y down from its upper
/// edge.
#[test]
fn lines_stand_at_true_size_in_their_groups() {
    let svg = svg_of(&document());
    let cutting = group(&svg, "cutting");
    let paths: Vec<&str> = cutting
        .lines()
        .filter(|line| line.starts_with("<path"))
        .collect();
    // In the order of the work, each with a name.
    assert_eq!(
        paths,
        [
            "<path d=\"M 90 40 L 90 20\" id=\"slit\">",
            "<path d=\"M 60 40 L 60 30 L 70 30 L 70 40 Z\" id=\"hole\">",
            "<path d=\"M 10 50 L 130 50 L 130 10 L 10 10 Z\" id=\"outline\">",
        ]
    );
    let places =
        ["creasing", "reverse-creasing", "cutting"].map(|id| svg.find(&format!("id=\"{id}\"")));
    assert!(places.is_sorted() && places[0].is_some(), "{places:?}");
    // Two creases that round to one place are one.
    assert_eq!(group(&svg, "creasing").matches("<path").count(), 1);
    assert!(group(&svg, "creasing").contains("M 30 50 L 30 10"));
    assert!(group(&svg, "reverse-creasing").contains("M 110 50 L 110 10"));
    assert!(svg.starts_with("<svg height=\"") && svg.ends_with("</svg>\n"));
    assert!(!svg.contains("transform") && !svg.contains("style="));
}

/// Source: core/CONTRACT.md, "Files: PDF": ids are the same in every file.
#[test]
fn all_groups_are_there_even_when_empty() {
    let mut bare = document();
    bare.flat.creases.clear();
    bare.flat.dimensions.clear();
    let svg = svg_of(&bare);
    for id in ["cutting", "creasing", "reverse-creasing", "dimensions"] {
        assert!(svg.contains(&format!("id=\"{id}\"")), "{id}");
    }
    assert!(
        !svg.contains("; fold "),
        "the legend names what is not there"
    );
    assert!(
        !svg.contains("Dimensions in"),
        "the legend names what is not there"
    );
    assert!(svg_of(&document()).contains("fold away from you"));
}

/// Source: reasoning: the inch twin of a job gives the same three line groups byte for byte.
#[test]
fn words_move_no_line() {
    let metric = document();
    let mut inches = document();
    inches.unit = Unit::Inch;
    inches.title = "A much longer name for the very same box of lenses".to_owned();
    inches.flat.dimensions = vec![length_below("4.724 in")];
    let noise = 1.0 + 1e-15;
    inches.flat.extent.most.y *= noise;
    let [metric, inches] = [metric, inches].map(|document| svg_of(&document));
    for id in ["cutting", "creasing", "reverse-creasing"] {
        assert_eq!(group(&metric, id), group(&inches, id));
    }
    assert!(metric.contains("Check bar: must measure 100 mm"));
    assert!(inches.contains("Check bar: must measure 4 in"));
}

/// Source: the job of a scale bar: it has the length that is written under it.
#[test]
fn the_scale_bar_is_as_long_as_it_says() {
    for (width, unit, words, length) in [
        (120.0, Unit::Millimetre, "100 mm", 100.0),
        (90.0, Unit::Millimetre, "50 mm", 50.0),
        (120.0, Unit::Inch, "4 in", 4.0 * 25.4),
        (90.0, Unit::Inch, "2 in", 2.0 * 25.4),
    ] {
        let mut document = document();
        document.flat.extent.most.x = width;
        document.unit = unit;
        let svg = svg_of(&document);
        let scale = group(&svg, "scale");
        assert!(
            scale.contains(&format!(">Check bar: must measure {words}<")),
            "{scale}"
        );
        let data = scale.split(" d=\"").nth(1).expect("the bar is a path");
        let numbers: Vec<f64> = data
            .split([' ', '"'])
            .filter_map(|word| word.parse().ok())
            .collect();
        assert!((numbers[2] - numbers[0] - length).abs() < 1e-9, "{data}");
        assert_eq!(numbers[1], numbers[3], "{data}");
    }
}

/// Source: core/CONTRACT.md, "Files": ids and titles that can be read, what the file is of, and never when or where.
#[test]
fn lines_and_file_say_what_they_are() {
    let mut document = document();
    let outline = document.flat.outline.clone();
    let panel = |name: &str, fold_deg: f64| {
        let hinge = Hinge {
            parent: 0,
            line: [point(0.0, 0.0), point(0.0, 40.0)],
            fold_deg,
            height: 0.0,
        };
        example::panel(name, outline.clone(), Some(hinge))
    };
    document.panels = vec![panel("deck", 0.0), panel("end wall (left)", -90.0)];
    document.flat.creases[2].panel = 7;
    document.board.name = Some("index-255".to_owned());
    let svg = svg_of(&document);
    for words in [
        "id=\"crease-end-wall--left-\">\n<title>Crease of end wall (left): fold by 90° with this face outwards</title>",
        "id=\"crease-end-wall--left--2\">",
        "<title>Outline, cut last</title>",
        "<title>Lens box</title>",
        "<traywright:tray xmlns:traywright=\"urn:traywright:tray\">",
        "index-255",
    ] {
        assert!(svg.contains(words), "{words}\n{svg}");
    }
    document.output.machine.nicks = Some(Nicks {
        length: Length::known(0.4),
        every: Length::known(60.0),
    });
    let svg = svg_of(&document);
    assert!(
        svg.contains("<title>Lens box (nicks of 0.4 mm hold the blank in its sheet)</title>"),
        "{svg}"
    );
    let ids: Vec<&str> = svg
        .split(" id=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    let different: std::collections::BTreeSet<&&str> = ids.iter().collect();
    assert_eq!(ids.len(), different.len(), "{ids:?}");
}

/// Source: XML 1.0, production 2 and section 2.4: what text may hold, and what it must escape.
#[test]
fn names_cannot_break_the_file() {
    let mut document = document();
    document.title = "Jar <b> & \"c\"\u{7}\u{0}\u{FFFF}\n".to_owned();
    document.board.name = Some("</g>".to_owned());
    let svg = svg_of(&document);
    assert!(
        svg.contains("<title>Jar &lt;b&gt; &amp; \"c\"U+0007U+0000U+FFFFU+000A</title>"),
        "{svg}"
    );
    assert!(svg.contains("(&lt;/g&gt;)</text>"));
    assert!(
        svg.chars()
            .all(|letter| letter == '\n' || !letter.is_control())
    );
}

/// Source: common practice, none published: heads point outwards inside a line, inwards outside a short one.
#[test]
fn arrow_heads_of_a_short_line_stand_outside_it() {
    for (length, tips, feet) in [
        (7.6, [10.0, 17.6], [12.5, 15.1]),
        (7.4, [10.0, 17.4], [7.5, 19.9]),
    ] {
        let mut document = document();
        document.flat.dimensions[0].line[1].x = length;
        let svg = svg_of(&document);
        let heads = group(&svg, "dimensions")
            .lines()
            .nth(2)
            .expect("the heads follow the lines");
        let data = heads.split('"').nth(1).expect("heads are a path");
        let x: Vec<f64> = data
            .split_whitespace()
            .collect::<Vec<_>>()
            .split(|word| word.chars().all(char::is_alphabetic))
            .filter_map(|place| place.first()?.parse().ok())
            .collect();
        assert_eq!(
            x,
            [tips[0], feet[0], feet[0], tips[1], feet[1], feet[1]],
            "{data}"
        );
    }
}

/// Source: tests/facts/drawing.md col-01 to col-04, WCAG 2.2: lines need a contrast of 3 on white, words 4.5.
#[test]
#[expect(
    clippy::disallowed_methods,
    reason = "a contrast is compared, never written to a file"
)]
fn colours_can_be_seen_on_white() {
    let svg = svg_of(&document());
    let channel = |value: f64| match value / 255.0 {
        low if low <= 0.04045 => low / 12.92,
        high => ((high + 0.055) / 1.055).powf(2.4),
    };
    let contrast = |colour: &str| {
        let part =
            |at: usize| u8::from_str_radix(&colour[at..at + 2], 16).expect("a colour is hex");
        let [red, green, blue] = [0, 2, 4].map(|at| channel(f64::from(part(at))));
        1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)
    };
    assert!(
        (contrast("767676") - 4.542).abs() < 0.001,
        "the formula itself"
    );
    for (key, least) in [("stroke=\"#", 3.0), ("fill=\"#", 4.5)] {
        let colours: Vec<&str> = svg.split(key).skip(1).map(|rest| &rest[..6]).collect();
        assert!(!colours.is_empty());
        for colour in colours {
            assert!(contrast(colour) >= least, "{key}{colour}");
        }
    }
}

#[test]
fn the_words_are_in_the_language_of_the_document() {
    let mut german = document();
    german.output.language = "de".to_owned();
    german.flat.dimensions[0].text = "120.5".to_owned();
    german.output.machine.kerf = Length::known(0.2);
    let svg = svg_of(&german);
    // Source: designs/words/de.ron, as a German reads it: legend, face, scale bar, names of lines, decimal sign.
    for told in [
        ">Schneiden<",
        "Rillen; von sich weg falten (diese Seite außen)",
        "Innenseite des Kartons (liegt im fertigen Einsatz innen)",
        ">Bauart by hand, Schachtel 120 × 40 × 20 mm, Karton 0,3 mm<",
        "Messbalken: muss 100 mm lang sein",
        "<title>Umriss, zuletzt schneiden</title>",
        ">120,5<",
        "0,2 mm",
    ] {
        assert!(svg.contains(told), "no {told} in {svg}");
    }
    for english in ["Crease", "face of", "Style", "measure", "Outline", ">Cut<"] {
        assert!(!svg.contains(english), "{english} in {svg}");
    }
    german.output.language = "xx".to_owned();
    let why = drawing(&german).expect_err("there are no words in xx");
    assert!(matches!(why, ExportError::Language { asked, .. } if asked == "xx"));
}
