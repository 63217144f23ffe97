//! Tables for people: columns that align, and below a row what it has to add.
//!
//! **Input:** headings and cells as text. **Output:** lines without spaces at their ends. **Does not** choose columns.

use super::sentence::paragraph;

/// Columns of the plainest terminal. Common practice, none published.
pub const WIDTH: usize = 80;

/// Space between two columns.
const GAP: usize = 2;

/// One column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// What stands above it.
    pub heading: String,
    /// A cell for each row.
    pub cells: Vec<String>,
}

impl Column {
    /// A column.
    pub fn new(heading: &str, cells: impl Iterator<Item = String>) -> Column {
        Column {
            heading: heading.to_owned(),
            cells: cells.collect(),
        }
    }

    /// Its width in characters.
    pub fn width(&self) -> usize {
        let all = self.cells.iter().chain([&self.heading]);
        all.map(|cell| cell.chars().count()).max().unwrap_or(0)
    }

    /// Its only value, if all rows have the same.
    pub fn same(&self) -> Option<&str> {
        let (first, others) = self.cells.split_first()?;
        others.iter().all(|cell| cell == first).then_some(first)
    }
}

/// The width of columns side by side.
pub fn width(columns: &[Column]) -> usize {
    columns
        .iter()
        .map(|column| column.width() + GAP)
        .sum::<usize>()
        - GAP.min(columns.len() * GAP)
}

/// The lines of a table; `below` has for each row a text in its own lines, or nothing.
pub fn table(columns: &[Column], below: &[String]) -> String {
    let line = |cell: &dyn Fn(&Column) -> String| {
        let mut line = String::new();
        for column in columns {
            let width = column.width() + GAP;
            line.push_str(&format!("{:width$}", cell(column)));
        }
        format!("{}\n", line.trim_end())
    };
    let mut text = line(&|column| column.heading.clone());
    for (row, more) in below.iter().enumerate() {
        text.push_str(&line(&|column| column.cells[row].clone()));
        if !more.is_empty() {
            text.push_str(&paragraph("    ", more));
        }
    }
    text
}
