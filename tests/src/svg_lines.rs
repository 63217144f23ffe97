//! A written SVG as its line groups: what is drawn in each, by the letters of its paths.
//!
//! Given the text of a file, it gives the text of a group and its runs, every number as written. It is a reader for
//! comparisons of one file of ours with another one; what an SVG means is asked of outside readers.

use usvg::roxmltree::{Document, Node};

/// The groups of lines, in the order of core/CONTRACT.md, "Files: SVG".
pub const LINE_GROUPS: [&str; 3] = ["cutting", "creasing", "reverse-creasing"];

/// One run of a path, from an `M` to the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The places, the first one included.
    pub places: Vec<[f64; 2]>,
    /// Lengths of the segments, the closing one included.
    pub lengths: Vec<f64>,
    /// Whether it is closed.
    pub closed: bool,
}

/// The text of a group, tags included; empty if the file has no such group.
///
/// # Panics
/// When the file is no XML.
pub fn group_text<'a>(svg: &'a str, id: &str) -> &'a str {
    let document = Document::parse(svg).expect("an SVG is XML");
    let group = document.descendants().find(|node| is_group(node, id));
    group.map_or("", |group| &svg[group.range()])
}

/// The runs of a group.
///
/// # Panics
/// When the file is no XML, or a path holds letters other than M, L, A and Z.
pub fn runs(svg: &str, id: &str) -> Vec<Run> {
    let document = Document::parse(svg).expect("an SVG is XML");
    document
        .descendants()
        .filter(|node| is_group(node, id))
        .flat_map(|group| group.children())
        .filter_map(|path| path.attribute("d"))
        .flat_map(runs_of)
        .collect()
}

fn is_group(node: &Node, id: &str) -> bool {
    node.has_tag_name("g") && node.attribute("id") == Some(id)
}

fn runs_of(path: &str) -> Vec<Run> {
    let spaced = path.replace(',', " ");
    let mut runs: Vec<Run> = Vec::new();
    for piece in spaced
        .split_inclusive(char::is_alphabetic)
        .collect::<Vec<_>>()
        .windows(2)
    {
        let letter = piece[0]
            .chars()
            .next_back()
            .expect("a piece ends with its letter");
        let numbers: Vec<f64> = piece[1]
            .trim_end_matches(char::is_alphabetic)
            .split_whitespace()
            .map(|number| number.parse().expect("a path holds numbers"))
            .collect();
        draw(&mut runs, letter, &numbers);
    }
    if path.ends_with('Z') {
        draw(&mut runs, 'Z', &[]);
    }
    runs
}

fn draw(runs: &mut Vec<Run>, letter: char, numbers: &[f64]) {
    if letter == 'M' {
        runs.push(Run {
            places: vec![[numbers[0], numbers[1]]],
            lengths: Vec::new(),
            closed: false,
        });
        return;
    }
    let run = runs.last_mut().expect("a path begins with M");
    let from = *run.places.last().expect("a run has a first place");
    match letter {
        'L' => run.go([numbers[0], numbers[1]], |chord| chord),
        'A' => {
            let (radius, large) = (numbers[0], numbers[3] == 1.0);
            run.go([numbers[5], numbers[6]], |chord| {
                arc_length(radius, chord, large)
            });
        }
        'Z' => {
            let gap = distance(from, run.places[0]);
            run.closed = true;
            if gap > 0.0 {
                run.lengths.push(gap);
            }
        }
        other => panic!("a path holds the letter {other}"),
    }
}

impl Run {
    fn go(&mut self, to: [f64; 2], length: impl Fn(f64) -> f64) {
        let from = self.places[self.places.len() - 1];
        self.lengths.push(length(distance(from, to)));
        self.places.push(to);
    }
}

fn distance(from: [f64; 2], to: [f64; 2]) -> f64 {
    (to[0] - from[0]).hypot(to[1] - from[1])
}

fn arc_length(radius: f64, chord: f64, large: bool) -> f64 {
    let angle = 2.0 * (chord / (2.0 * radius)).min(1.0).asin();
    if large {
        radius * (std::f64::consts::TAU - angle)
    } else {
        radius * angle
    }
}

#[cfg(test)]
mod tests {
    use super::{group_text, runs};

    const SVG: &str = r#"<svg xmlns="http://www.w3.org/2000/svg"><g id="cutting"><path d="M 0 0 L 3 4 A 2 2 0 0 1 3 8 Z"/><path d="M1 1L2 1M5 5L5 7"/></g><g id="b"/></svg>"#;

    #[test]
    fn runs_have_the_lengths_of_their_segments() {
        // Source: counted by hand: 3-4-5, half a circle of radius 2, and the way back from (3, 8).
        let runs = runs(SVG, "cutting");
        let expected = [5.0, std::f64::consts::TAU, 73_f64.sqrt()];
        assert_eq!(runs.len(), 3);
        for (found, expected) in runs[0].lengths.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-12, "{found} {expected}");
        }
        assert!(runs[0].closed && !runs[1].closed);
        assert_eq!(runs[2].places, [[5.0, 5.0], [5.0, 7.0]]);
    }

    #[test]
    fn a_group_is_given_as_it_stands() {
        // Source: copied by hand from the text above.
        assert_eq!(group_text(SVG, "b"), r#"<g id="b"/>"#);
        assert_eq!(group_text(SVG, "c"), "");
    }
}
