//! The list of boards: card that a job can refer to by name.
//!
//! **Input:** the shipped list. **Output:** each stock with its thickness and the source of that. Never overrides a
//! thickness that the maker has measured.

use std::collections::BTreeMap;

use ron::extensions::Extensions;
use serde::Deserialize;
use traywright_engine::job::{BoardKind, Length};

const SHIPPED: &str = include_str!("../../../../designs/boards.ron");

/// All boards, the thinnest first, equals by name.
#[derive(Debug)]
pub struct Boards {
    stocks: Vec<Stock>,
}

/// One kind of card.
#[derive(Debug)]
pub struct Stock {
    /// The name that a job uses.
    pub name: String,
    /// Its description in a few words.
    pub about: String,
    /// Grams per square metre.
    pub grammage: Option<f64>,
    /// Thickness of one sheet.
    pub caliper: Length,
    /// Error of the thickness, either way, if known.
    pub tolerance: Option<Length>,
    /// Its material.
    pub kind: BoardKind,
    /// Whether it is paper, only for a trial fit: no fix proposes it.
    pub for_trials: bool,
    /// The status of the values.
    pub basis: Basis,
    /// The source of the values.
    pub source: String,
}

/// The status of a thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Basis {
    /// It is in the named source.
    Published,
    /// Computed from grammage and bulk, or from flute and facings.
    Computed,
    /// A list of the trade.
    CommonPractice,
    /// A first guess.
    FromMemory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    about: String,
    grammage: Option<f64>,
    caliper: Length,
    tolerance: Option<Length>,
    kind: BoardKind,
    #[serde(default)]
    for_trials: bool,
    basis: Basis,
    source: String,
}

impl Boards {
    /// The boards that ship with the program.
    ///
    /// # Panics
    /// If the shipped list cannot be read, which a test rules out.
    pub fn shipped() -> Self {
        let rows: BTreeMap<String, Row> = ron::Options::default()
            .with_default_extension(Extensions::IMPLICIT_SOME)
            .from_str(SHIPPED)
            .expect("the shipped list of boards is sound");
        let mut stocks: Vec<Stock> = rows.into_iter().map(Stock::from).collect();
        stocks.sort_by(|one, other| one.caliper.mm().total_cmp(&other.caliper.mm()));
        Boards { stocks }
    }

    /// All of them in order.
    pub fn all(&self) -> &[Stock] {
        &self.stocks
    }

    /// The board with that name.
    pub fn get(&self, name: &str) -> Option<&Stock> {
        self.stocks.iter().find(|stock| stock.name == name)
    }

    /// Boards with this word in their name, description, grammage, kind or status, in order.
    pub fn matching(&self, word: &str) -> Vec<&Stock> {
        let word = word.trim().to_lowercase();
        let speaks_of = |stock: &&Stock| stock.words().to_lowercase().contains(&word);
        self.stocks.iter().filter(speaks_of).collect()
    }
}

impl Stock {
    /// All text that a search can find.
    pub fn words(&self) -> String {
        let grammage = self.grammage.map(|grammage| format!("{grammage} g/m2"));
        format!(
            "{} {} {} {} {}",
            self.name,
            self.about,
            grammage.unwrap_or_default(),
            kind_words(self.kind),
            self.basis.words()
        )
    }
}

impl Basis {
    /// The status in words.
    pub fn words(self) -> &'static str {
        match self {
            Basis::Published => "published",
            Basis::Computed => "computed",
            Basis::CommonPractice => "common practice",
            Basis::FromMemory => "from memory: measure it",
        }
    }
}

impl From<(String, Row)> for Stock {
    fn from((name, row): (String, Row)) -> Self {
        Stock {
            name,
            about: row.about,
            grammage: row.grammage,
            caliper: row.caliper,
            tolerance: row.tolerance,
            kind: row.kind,
            for_trials: row.for_trials,
            basis: row.basis,
            source: row.source,
        }
    }
}

/// A kind of board in the maker's words.
pub fn kind_words(kind: BoardKind) -> &'static str {
    match kind {
        BoardKind::Carton => "carton",
        BoardKind::Solid => "solid board",
        BoardKind::Corrugated => "corrugated board",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn caliper_and_tolerance(name: &str) -> (f64, Option<f64>) {
        let boards = Boards::shipped();
        let stock = boards.get(name).unwrap_or_else(|| panic!("no {name}"));
        (stock.caliper.mm(), stock.tolerance.map(Length::mm))
    }

    // Source: Government Paper Specification Standards (US GPO/JCP), issue of February 1999, sheets K10, P20 and O-63.
    #[test]
    fn published_rows_say_what_the_sheets_say() {
        for (name, caliper, tolerance) in [
            ("index-255", 0.290, 0.013),
            ("index-305", 0.350, 0.020),
            ("folder-405", 0.450, 0.025),
            ("copier-75", 0.095, 0.008),
            ("copier-90", 0.105, 0.008),
            ("copier-105", 0.120, 0.008),
        ] {
            assert_eq!(
                caliper_and_tolerance(name),
                (caliper, Some(tolerance)),
                "{name}"
            );
        }
    }

    /// Grammage from the pounds per ream of 500 sheets of a basic size in inches.
    fn grammage(pounds: f64, width: f64, height: f64) -> f64 {
        // Source: 1 lb = 453.59237 g, 1 in = 0.0254 m, both exact.
        pounds * 453.592_37 / (500.0 * width * height * 0.0254 * 0.0254)
    }

    // Source: basic sizes of the sheets named above (index 25.5 x 30.5, cover 20 x 26, tag 24 x 36, bond 17 x 22 in),
    // which round the grammage to 5 g.
    #[test]
    fn grammages_agree_with_the_pound_weights_of_the_descriptions() {
        for (name, pounds, width, height) in [
            ("index-200", 110.0, 25.5, 30.5),
            ("cover-plain-175", 65.0, 20.0, 26.0),
            ("folder-405", 250.0, 24.0, 36.0),
            ("copier-75", 20.0, 17.0, 22.0),
        ] {
            let boards = Boards::shipped();
            let stock = boards.get(name).unwrap_or_else(|| panic!("no {name}"));
            let listed = stock
                .grammage
                .unwrap_or_else(|| panic!("{name} has no grammage"));
            assert!(
                (listed - grammage(pounds, width, height)).abs() <= 2.5,
                "{name}"
            );
        }
    }

    // Source: DIN 19303, class 2: bulk 1.30 to 1.45 cm3/g, so 350 g/m2 is 0.455 to 0.5075 mm thick.
    #[test]
    fn computed_carton_board_spans_its_bulk_class() {
        let (caliper, tolerance) = caliper_and_tolerance("cereal-box-350");
        let tolerance = tolerance.unwrap_or_default();
        assert!((caliper - tolerance - 0.455).abs() < 0.001);
        assert!((caliper + tolerance - 0.5075).abs() < 0.001);
    }

    // Source: 1 point = 0.001 in, so 14 point is 0.3556 mm; the sheet P20 rounds it to 0.35.
    #[test]
    fn a_point_is_a_thousandth_of_an_inch() {
        let boards = Boards::shipped();
        let mut seen = 0;
        for stock in boards.all() {
            let words: Vec<&str> = stock.about.split([' ', ',']).collect();
            let Some(at) = words.iter().position(|word| *word == "point") else {
                continue;
            };
            let points: f64 = words[at - 1]
                .parse()
                .expect("a number stands before `point`");
            assert!(
                (stock.caliper.mm() - points * 0.0254).abs() <= 0.01,
                "{}",
                stock.name
            );
            seen += 1;
        }
        assert!(seen >= 14, "{seen} boards are sold by the point");
    }

    #[test]
    fn every_row_is_sound_and_stands_once() {
        let boards = Boards::shipped();
        let rows = SHIPPED.matches("\": (").count();
        assert_eq!(boards.all().len(), rows, "a name stands twice");
        for stock in boards.all() {
            assert!(stock.caliper > Length::ZERO, "{}", stock.name);
            let tolerance = stock.tolerance.unwrap_or_default();
            assert!(tolerance < stock.caliper, "{}", stock.name);
            assert!(
                !stock.source.is_empty() && !stock.about.is_empty(),
                "{}",
                stock.name
            );
        }
        let sorted = boards
            .all()
            .windows(2)
            .all(|pair| (pair[0].caliper, &pair[0].name) <= (pair[1].caliper, &pair[1].name));
        assert!(sorted);
    }
}
