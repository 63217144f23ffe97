//! What the files say of pads and of what holds an item: the sizes are those of the job and of the FOLD file.
//!
//! Sources: the shipped jobs, read here as text; multiplication for layers of card; what holds the items of the
//! shipped jobs is reasoned beside each. Tools: poppler's pdftotext.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;
use tempfile::TempDir;
use traywright_tests::made::Made;
use traywright_tests::{repository, run};

/// The files of a shipped job.
pub(crate) struct Files {
    folder: TempDir,
    name: &'static str,
}

impl Files {
    pub(crate) fn of(name: &'static str, language: &str) -> Files {
        let shipped = repository().join(format!("designs/jobs/{name}.kdl"));
        let job = fs::read_to_string(shipped).expect("the job ships");
        let folder = tempfile::tempdir().expect("a folder can be made");
        let job = format!("{job}\nwords \"{language}\"\n");
        fs::write(folder.path().join(format!("{name}.kdl")), job).expect("it can be written");
        let kinds = "booklet,pdf,svg,fold";
        let job = format!("{name}.kdl");
        let arguments = ["make", &job, "--as", kinds, "--exporter-seconds", "50"];
        let outcome = run(folder.path(), &arguments);
        assert_eq!(outcome.code, 0, "{name}: {}", outcome.stderr);
        Files { folder, name }
    }

    /// The words of a PDF with single blanks between them.
    pub(crate) fn words(&self, suffix: &str) -> Option<String> {
        let file = format!("{}{suffix}", self.name);
        let words = Made::at(&self.folder.path().join(file)).words()?;
        Some(words.replace('\u{a0}', " "))
    }

    /// Where a file lies.
    pub(crate) fn path(&self, suffix: &str) -> PathBuf {
        self.folder.path().join(format!("{}{suffix}", self.name))
    }

    fn text(&self, suffix: &str) -> String {
        let file = self.folder.path().join(format!("{}{suffix}", self.name));
        let text = fs::read_to_string(file).expect("the file was made");
        text.replace('\u{a0}', " ")
    }

    /// The items of the FOLD file.
    fn items(&self) -> Vec<Value> {
        let fold: Value = serde_json::from_str(&self.text(".fold")).expect("FOLD is JSON");
        let items = fold["traywright:items"].as_array();
        items.expect("FOLD tells the items").clone()
    }
}

/// A job, the words in which its pads are told, item by item, and the words for the layers of its card.
type Told = (&'static str, &'static [[&'static str; 3]]);

// Source: the sizes that the jobs write; layers: 8 of 1 mm; 3 mm are 8.57 of 0.35 mm, and 9 of them 3.15 mm; 4 mm are 11.4,
// and 11 of them 3.85 mm; 5/16 in are 22.3 of 0.014 in, and 22 of them 7.82 mm; 6 mm are 20.7 of 0.29 mm, and 21 of them
// 6.09 mm. The calipers of index-305 and index-255 are those of `traywright boards`.
const PADS: [Told; 4] = [
    (
        "marine-clock",
        &[[
            "clock",
            "104 × 90 × 8 mm",
            "8 layers of this card give 8 mm",
        ]],
    ),
    (
        "eyepieces",
        &[
            [
                "low power",
                "diameter 46 mm, 3 mm thick",
                "9 layers of this card give 3.15 mm",
            ],
            [
                "middle power",
                "diameter 38 mm, 3 mm thick",
                "9 layers of this card give 3.15 mm",
            ],
            [
                "high power",
                "diameter 32 mm, 4 mm thick",
                "11 layers of this card give 3.85 mm",
            ],
        ],
    ),
    (
        "pocket-sextant",
        &[[
            "sextant",
            "114.3 × 87.31 × 7.94 mm (4 1/2 × 3 7/16 × 5/16 in)",
            "22 layers of this card give 7.82 mm",
        ]],
    ),
    (
        "observatory-watch",
        &[[
            "watch",
            "56 × 52 × 6 mm",
            "21 layers of this card give 6.09 mm",
        ]],
    ),
];

#[test]
fn each_pad_is_a_part_to_cut_with_the_size_of_its_item() {
    for (name, told) in PADS {
        let files = Files::of(name, "en");
        let Some(booklet) = files.words("-booklet.pdf") else {
            return;
        };
        for [item, size, layers] in told {
            let part = format!("Pad under {item}: {size}, of felt or card ({layers}");
            assert!(booklet.contains(&part), "{name}: no `{part}` in {booklet}");
        }
        let padded = files
            .items()
            .iter()
            .filter(|item| item["pad"] != 0.0)
            .count();
        assert_eq!(booklet.matches("Pad under ").count(), padded, "{name}");
    }
}

#[test]
fn sheets_and_drawing_tell_the_pads_once_and_as_fold_does() {
    for (name, _) in PADS {
        let files = Files::of(name, "en");
        let Some(sheets) = files.words(".pdf") else {
            return;
        };
        for text in [sheets, files.text(".svg")] {
            for item in files.items() {
                let unit = if name == "pocket-sextant" { 25.4 } else { 1.0 };
                let figure = |side: &Value| {
                    let figure = side.as_f64().expect("a length") / unit;
                    ((figure * 1000.0).round() / 1000.0).to_string()
                };
                let size = &item["size"];
                let sides = [&size[0], &size[1], &item["pad"]].map(figure);
                let item = item["name"].as_str().expect("a name");
                let size = match name {
                    "eyepieces" => format!("diameter {} mm, {} mm thick", sides[0], sides[2]),
                    "pocket-sextant" => format!("{} in", sides.join(" × ")),
                    _ => format!("{} mm", sides.join(" × ")),
                };
                let told = format!("Pad under {item}: {size}");
                assert_eq!(text.matches(&told).count(), 1, "{name}: `{told}` in {text}");
            }
        }
    }
}

#[test]
fn equal_items_share_one_line_and_items_without_a_pad_have_none() {
    // Source: the jobs; twelve vials are one kind.
    let bare = Files::of("seed-vials", "en");
    let Some(text) = bare.words("-booklet.pdf") else {
        return;
    };
    assert!(
        !text.contains("Pad under") && !text.contains("Stick a pad"),
        "{text}"
    );
    let job = "tray style=\"multi-slot\"\nbox length=(mm)290 width=(mm)190 depth=(mm)55\n\
        item \"vial\" length=(mm)26 width=(mm)26 depth=(mm)48 count=12 pad=(mm)5\n\
        board caliper=(mm)0.4\nslot cut=\"cross\"\npage \"A3\"\n";
    let text = Made::new(job, "booklet").words().expect("poppler is there");
    let text = text.replace('\u{a0}', " ");
    // Source: 5 mm are 12.5 of 0.4 mm; the next whole number is 13, and 13 of them are 5.2 mm.
    let part = "12 pads, one under each vial: 26 × 26 × 5 mm, of felt or card (13 layers of this card give 5.2 mm)";
    assert!(text.contains(part), "{text}");
    assert!(
        text.contains("Stick a pad of 5 mm to the floor of the box where each of these will stand, beside the ribbon: 12 × vial."),
        "{text}"
    );
}

/// A job, a language, what its pages say of its items, and whether they say that flaps give way.
// Source: reasoning: a bare edge of an opening holds what is level with the deck, a flap what stands beside it, and doors
// have flaps along the length alone.
const HELD: [(&str, &str, &str, bool); 6] = [
    (
        "marine-clock",
        "en",
        "Held along the box by the edge of the deck, across it by flaps with foam or board behind them.",
        false,
    ),
    (
        "marine-clock",
        "de",
        "Längs der Schachtel von der Kante der Deckfläche gehalten, quer von Klappen mit Schaumstoff oder Pappe dahinter.",
        false,
    ),
    (
        "eyepieces",
        "en",
        "Put in low power, middle power, high power. Held on all sides by the edge of the deck.",
        false,
    ),
    (
        "seed-vials",
        "en",
        "Put in 12 × vial, labels. Held on all sides by flaps.",
        true,
    ),
    (
        "observatory-watch",
        "en",
        "Held on all sides by fences.",
        false,
    ),
    (
        "observatory-watch",
        "de",
        "Ringsum von Haltewänden gehalten.",
        false,
    ),
];

#[test]
fn the_pages_say_what_holds_each_item() {
    for (name, language, held, gives_way) in HELD {
        let Some(text) = Files::of(name, language).words("-booklet.pdf") else {
            return;
        };
        assert!(text.contains(held), "{name}: no `{held}` in {text}");
        let flaps = ["The flaps give way", "gegen die Klappen, geben sie nach"];
        let told = flaps.iter().any(|words| text.contains(words));
        assert_eq!(told, gives_way, "{name}");
        // Reasoning: of these the marine clock's board alone is 1 mm thick, so that its creases are cut half through.
        let limp = [
            "does not press on the item by itself",
            "drückt nicht von selbst gegen",
        ];
        let told = limp.iter().any(|words| text.contains(words));
        assert_eq!(told, name == "marine-clock", "{name}: {text}");
    }
}

#[test]
fn the_cover_says_so_where_an_item_may_lie_loose() {
    // Source: reasoning: a clean cut holds nothing that ends below the deck by more than its card, as the first lens by
    // 6 mm; the second ends in the face of the deck and is held, whatever its maker allows.
    let lens = |depth: f64| {
        format!(
            "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
             item \"lens\" length=(mm)96 width=(mm)61 depth=(mm){depth} loose=#true\n\
             board caliper=(mm)0.3\nslot cut=\"open\"\n"
        )
    };
    for (depth, is_told) in [(26.0, true), (32.0, false)] {
        let made = Made::new(&lens(depth), "booklet");
        let Some(cover) = made.ask("pdftotext", &["-raw", "-l", "1"], &["-"]) else {
            return;
        };
        let told = cover.contains("The tray alone does not hold: lens.");
        assert_eq!(told, is_told, "{cover}");
        // Source: a tray of 32 with card of 0.3: the deck ends 31.7 over the floor, 5.7 over the first lens.
        let text = made.words().expect("poppler is there");
        let text = text.replace('\u{a0}', " ");
        for words in ["does not reach it by 5.7 mm", "Held by nothing: it slides"] {
            assert_eq!(text.contains(words), is_told, "{words}: {text}");
        }
    }
}
