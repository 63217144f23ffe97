//! The subject of a finding.

use std::fmt::{self, Display};

use crate::wording::list;

/// The part of the tray, of the box or of the job that a finding is about.
///
/// It is printed as the `where` of a report: the name given by the maker or the style's author.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// A panel, or all panels of a family, by name.
    Panel(String),
    /// A tongue, by name.
    Tongue(String),
    /// A list of fallbacks of the style, by name.
    Fallbacks(String),
    /// The subject of a rule of the style: a panel, a tongue or an opening.
    Part(String),
    /// An opening, and its item.
    Opening {
        /// The opening's name in the style.
        opening: String,
        /// The item's name.
        item: Option<String>,
    },
    /// The card between an opening and the layers behind one edge.
    Beside {
        /// The opening.
        opening: Box<Place>,
        /// The layers there.
        behind: String,
    },
    /// Two openings.
    Pair(Box<[Place; 2]>),
    /// An item, by name.
    Item(String),
    /// The repeats of one item: the name of the first, and the number of them with the finding.
    Repeats {
        /// The item's name.
        name: String,
        /// The number of repeats.
        count: usize,
    },
    /// All items.
    Items,
    /// An item in its opening.
    ItemInOpening(String),
    /// An item under the lid or the panel that closes over it, by name.
    ItemUnderLid(String),
    /// Layers of card between a wall and the panel that is folded back onto it, by the names of their families.
    Pocket {
        /// The layers.
        layers: Vec<String>,
        /// The wall and the panel.
        walls: Box<[String; 2]>,
    },
    /// The whole box.
    Box,
    /// One side of the box.
    Side(Side),
    /// The folded tray.
    Tray,
    /// The folded tray between the walls of its box.
    TrayInBox,
    /// The folded tray under the lid of its box.
    TrayUnderLid,
    /// The card.
    Board,
    /// The paper.
    Page,
    /// The style as a whole, by name.
    Style(String),
}

/// A direction of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Along the longer side.
    Length,
    /// Along the shorter side.
    Width,
    /// Upright.
    Depth,
}

impl Side {
    /// All three, in the order of a size.
    pub const ALL: [Side; 3] = [Side::Length, Side::Width, Side::Depth];
}

impl Place {
    /// Whether a report begins the sentence with this place, because the sentence does not name it.
    pub fn leads(&self) -> bool {
        !matches!(
            self,
            Place::Items
                | Place::Box
                | Place::Side(_)
                | Place::Tray
                | Place::TrayInBox
                | Place::TrayUnderLid
                | Place::Board
                | Place::Page
        )
    }
}

impl Display for Place {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Place::Panel(name)
            | Place::Tongue(name)
            | Place::Fallbacks(name)
            | Place::Part(name)
            | Place::Item(name)
            | Place::Style(name) => out.write_str(name),
            Place::Opening {
                opening,
                item: Some(item),
            } => write!(out, "{opening} for {item}"),
            Place::Opening {
                opening,
                item: None,
            } => out.write_str(opening),
            Place::Beside { opening, behind } => write!(out, "{opening}, {behind}"),
            Place::Pair(pair) => write!(out, "{} and {}", pair[0], pair[1]),
            Place::Repeats { name, count } => write!(out, "{count} × {name}"),
            Place::Items => out.write_str("items"),
            Place::ItemInOpening(item) => write!(out, "{item} in its opening"),
            Place::ItemUnderLid(item) => write!(out, "{item} under the lid"),
            Place::Pocket { layers, walls } => write!(
                out,
                "{} between {} and {}",
                list(layers),
                walls[0],
                walls[1]
            ),
            Place::Box => out.write_str("box"),
            Place::Side(side) => write!(out, "box {side}"),
            Place::Tray => out.write_str("tray"),
            Place::TrayInBox => out.write_str("the tray in its box"),
            Place::TrayUnderLid => out.write_str("the tray under the lid"),
            Place::Board => out.write_str("board"),
            Place::Page => out.write_str("page"),
        }
    }
}

impl Display for Side {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Side::Length => "length",
            Side::Width => "width",
            Side::Depth => "depth",
        })
    }
}
