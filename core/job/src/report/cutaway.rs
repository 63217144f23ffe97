//! Cross-section of an item in the tray, along the box, in plain characters.
//!
//! **Input:** a document. **Output:** a figure of at most twelve lines for each kind of item: lid, deck, item, pad and
//! floor in their order, with the item's stops. Heights are not to scale. **Does not** compute how an item is held.

use traywright_document::{CreaseKind, Document, Held, Holder, Item, Orientation, Stop, Unit};
use traywright_engine::wording::length;

use super::sentence::paragraph;

#[cfg(test)]
mod tests;

/// Columns of the drawing; words are beside it.
const COLUMNS: usize = 35;

/// Columns of the opening's left and right edge, then of the item's left and right side.
const STOPS: [usize; 2] = [8, 26];
const SIDES: [usize; 2] = [10, 24];

/// Heights closer than this are drawn as one, because a report has no more decimals.
const APART_MM: f64 = 0.01;

/// The figures of all kinds of items.
pub(super) fn figures(document: &Document) -> String {
    let kinds = document.items.chunk_by(|one, next| one.kind == next.kind);
    let around = Around {
        unit: document.unit,
        stands: document.stands,
        crease: document.board.crease,
        depth: document.box_size.depth.mm(),
    };
    kinds.filter_map(|kind| figure(kind, around)).collect()
}

/// The figure of equal items; none if the tray has no place for them.
fn figure(kind: &[Item], around: Around) -> Option<String> {
    let item = kind.first()?;
    let cut = Cut {
        item,
        held: item.held.as_ref()?,
        around,
    };
    let name = match kind.len() {
        1 => item.name.clone(),
        count => format!("{count} × {}", item.name),
    };
    Some(paragraph("  ", &name) + &cut.drawn() + &cut.across())
}

/// The parts that a vertical cut through the middle of an item meets.
struct Cut<'a> {
    item: &'a Item,
    held: &'a Held,
    around: Around,
}

/// The data shared by all cuts through one tray.
#[derive(Clone, Copy)]
struct Around {
    unit: Unit,
    stands: Orientation,
    crease: CreaseKind,
    /// Depth of the box.
    depth: f64,
}

/// A horizontal line of the drawing.
#[derive(Clone, Copy, PartialEq)]
enum Level {
    Lid,
    Deck,
    Top,
    Underside,
    Floor,
    /// The lowest or highest point of a stop beside the item: no line of its own.
    Stop,
}

impl Cut<'_> {
    fn top(&self) -> f64 {
        self.item.rest + self.item.depth
    }

    fn lid(&self) -> f64 {
        self.top() + self.held.rise
    }

    /// Lowest and highest point of the stop beside the item, along the box.
    fn beside(&self) -> Option<[f64; 2]> {
        let Stop { by, heights, .. } = self.held.along;
        match (by, self.held.deck) {
            (Holder::Flaps, Some(deck)) => Some([heights[0], deck]),
            (Holder::Fences, _) => Some([0.0, heights[1]]),
            (Holder::Panel, _) => Some([self.item.rest, heights[1]]),
            _ => None,
        }
    }

    /// All levels by their heights, the highest first; equal heights are grouped.
    fn levels(&self) -> Vec<(f64, Vec<Level>)> {
        let mut levels = vec![
            (self.lid(), Level::Lid),
            (self.top(), Level::Top),
            (self.item.rest, Level::Underside),
            (0.0, Level::Floor),
        ];
        levels.extend(self.held.deck.map(|deck| (deck, Level::Deck)));
        let ends = self.beside().into_iter().flatten();
        levels.extend(ends.map(|height| (height, Level::Stop)));
        levels.sort_by(|one, other| other.0.total_cmp(&one.0));
        let mut together: Vec<(f64, Vec<Level>)> = Vec::new();
        for (height, level) in levels {
            match together.last_mut() {
                Some((last, same)) if *last - height < APART_MM => same.push(level),
                _ => together.push((height, vec![level])),
            }
        }
        together
    }

    fn drawn(&self) -> String {
        let levels = self.levels();
        let mut rows = Vec::new();
        let mut said = [false; 2];
        for (place, (height, same)) in levels.iter().enumerate() {
            if same.iter().any(|level| *level != Level::Stop) {
                rows.push((self.line(same), self.words_of_line(same)));
            }
            if let Some((below, _)) = levels.get(place + 1) {
                let middle = (height + below) / 2.0;
                rows.push((
                    self.band(middle, &mut said[0]),
                    self.words_of_band(middle, &mut said[1]),
                ));
            }
        }
        let row = |(drawn, words): (Vec<char>, String)| {
            let drawn: String = drawn.into_iter().collect();
            format!("  {}\n", format!("{drawn}  {words}").trim_end())
        };
        rows.into_iter().map(row).collect()
    }

    /// The row of a group of horizontal lines.
    fn line(&self, levels: &[Level]) -> Vec<char> {
        let mut row = self.walls();
        for level in levels {
            match level {
                Level::Lid => row.fill('-'),
                Level::Floor => row[1..COLUMNS - 1].fill('_'),
                Level::Deck => {
                    row[1..=STOPS[0]].fill('=');
                    row[STOPS[1]..COLUMNS - 1].fill('=');
                }
                Level::Top | Level::Underside | Level::Stop => {}
            }
        }
        // The item is drawn over the other lines of its row.
        if levels.contains(&Level::Top) || levels.contains(&Level::Underside) {
            row[SIDES[0]..=SIDES[1]].fill('-');
            mark(&mut row, SIDES, '+');
        } else if levels.contains(&Level::Deck)
            && self.held.deck.is_some_and(|deck| deck < self.top())
        {
            mark(&mut row, SIDES, '|');
        }
        if levels.contains(&Level::Top)
            && self
                .beside()
                .is_some_and(|[low, high]| low < self.top() && self.top() < high)
        {
            mark(&mut row, STOPS, '|');
        }
        row
    }

    /// The row of the upright parts at a height; the item shows its depth once.
    fn band(&self, middle: f64, is_said: &mut bool) -> Vec<char> {
        let mut row = self.walls();
        let Item {
            rest, pad, depth, ..
        } = *self.item;
        if self
            .beside()
            .is_some_and(|[low, high]| low < middle && middle < high)
        {
            mark(&mut row, STOPS, '|');
        }
        if rest < middle && middle < self.top() {
            mark(&mut row, SIDES, '|');
            let within = SIDES[1] - SIDES[0] - 1;
            let words = format!("{} deep", length(depth, self.around.unit));
            if !*is_said && words.chars().count() <= within {
                *is_said = true;
                let from = SIDES[0] + 1 + (within - words.chars().count()) / 2;
                row.splice(from..from + words.chars().count(), words.chars());
            }
        } else if rest - pad < middle && middle < rest {
            row[SIDES[0]..=SIDES[1]].fill('x');
        }
        row
    }

    /// A row with the walls of the box.
    fn walls(&self) -> Vec<char> {
        let mut row = vec![' '; COLUMNS];
        row[0] = '|';
        row[COLUMNS - 1] = '|';
        row
    }

    fn words_of_line(&self, levels: &[Level]) -> String {
        let mut words = Vec::new();
        for level in levels {
            match level {
                Level::Lid => words.push(self.above().to_owned()),
                Level::Deck if self.held.along.by == Holder::Edge => {
                    words.push(format!("deck: {}", self.by(&self.held.along)));
                }
                Level::Deck => words.push("deck".to_owned()),
                Level::Floor => words.push(self.floor()),
                Level::Top | Level::Underside | Level::Stop => {}
            }
        }
        words.join(", ")
    }

    /// The upper limit of an item's rise: the lid if the tray stands on its walls, or the first card above the item.
    fn above(&self) -> &'static str {
        let Around { stands, depth, .. } = self.around;
        if stands == Orientation::RootUp && self.lid() < depth - APART_MM {
            "card over the item"
        } else {
            "lid"
        }
    }

    fn floor(&self) -> String {
        let floor = match self.around.stands {
            Orientation::RootUp => "floor of the box",
            Orientation::RootDown => "floor of the tray",
        };
        let card = self.item.rest - self.item.pad;
        if card < APART_MM {
            floor.to_owned()
        } else {
            format!("{floor}, {} of card on it", length(card, self.around.unit))
        }
    }

    /// The words for a height; the item's stop is named once.
    fn words_of_band(&self, middle: f64, is_said: &mut bool) -> String {
        let written = |mm: f64| length(mm, self.around.unit);
        let Item { rest, pad, .. } = *self.item;
        let (top, deck) = (self.top(), self.held.deck.unwrap_or(f64::INFINITY));
        if middle > top.max(self.held.deck.unwrap_or(top)) {
            return format!("{} free above the item", written(self.held.rise));
        }
        if top < middle && middle < deck {
            return format!("top {} below the deck", written(deck - top));
        }
        if middle < top && deck < middle {
            return format!("top {} above the deck", written(top - deck));
        }
        if rest - pad < middle && middle < rest {
            return format!("pad {}", written(pad));
        }
        let is_here = match self.held.along.by {
            Holder::Edge => false,
            Holder::Nothing | Holder::Box | Holder::Other => true,
            _ => self
                .beside()
                .is_some_and(|[low, high]| low < middle && middle < high),
        };
        if *is_said || !is_here || middle < rest {
            return String::new();
        }
        *is_said = true;
        self.by(&self.held.along)
    }

    /// The words for a stop of the item.
    fn by(&self, stop: &Stop) -> String {
        let height = length(stop.heights[1] - stop.heights[0], self.around.unit);
        let springy = match (stop.firm, self.around.crease) {
            (true, _) => "",
            (false, CreaseKind::Pressed) => ", springy",
            (false, CreaseKind::HalfCut) => ", limp",
        };
        match stop.by {
            Holder::Edge => format!("held by its edge ({height} of it)"),
            Holder::Flaps => format!("held by {height} of flap{springy}"),
            Holder::Fences => format!("held by {height} of fence{springy}"),
            Holder::Panel => format!("held by {height} of another panel"),
            Holder::Box => "held by the walls of the box".to_owned(),
            Holder::Nothing => "held by nothing".to_owned(),
            _ => String::new(),
        }
    }

    /// The words for the stop across the box, if it differs.
    fn across(&self) -> String {
        let [along, across] = [&self.held.along, &self.held.across];
        let height = |stop: &Stop| stop.heights[1] - stop.heights[0];
        let same = (along.by, along.firm) == (across.by, across.firm)
            && (height(along) - height(across)).abs() < APART_MM;
        if same {
            return String::new();
        }
        let by = match across.by {
            Holder::Edge => format!(
                "held by the edge of the deck ({} of it)",
                length(height(across), self.around.unit)
            ),
            _ => self.by(across),
        };
        paragraph("  ", &format!("Across the box it is {by}."))
    }
}

fn mark(row: &mut [char], columns: [usize; 2], sign: char) {
    for column in columns {
        row[column] = sign;
    }
}
