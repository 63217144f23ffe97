//! The guide taken apart: whole styles, jobs, snippets, commands and tables.
//!
//! A block that begins with "ron NAME.ron" is a whole style, "kdl NAME.kdl" its job, "ron into NAME SECTION" a snippet for
//! that section of that style, and "sh" holds commands. What stands in other blocks is not tried.

use std::fs;

use traywright_tests::repository;

/// All that can be tried of the guide.
pub(crate) struct Guide {
    text: String,
    /// Whole styles, by name.
    pub(crate) styles: Vec<(String, String)>,
    /// Their jobs, by the same names.
    pub(crate) jobs: Vec<(String, String)>,
    pub(crate) snippets: Vec<Snippet>,
    pub(crate) commands: Vec<String>,
}

/// Entries for a section of a style.
pub(crate) struct Snippet {
    pub(crate) style: String,
    pub(crate) section: String,
    pub(crate) text: String,
}

impl Guide {
    /// Reads the guide.
    pub(crate) fn read() -> Guide {
        let path = repository().join("designs/STYLE-GUIDE.md");
        let text = fs::read_to_string(path).expect("the guide can be read");
        let mut guide = Guide {
            text: text.clone(),
            styles: Vec::new(),
            jobs: Vec::new(),
            snippets: Vec::new(),
            commands: Vec::new(),
        };
        for block in text.split("```").skip(1).step_by(2) {
            let (head, body) = block.split_once('\n').expect("a block has a first line");
            let body = body.to_owned();
            match head.split(' ').collect::<Vec<_>>()[..] {
                ["ron", "into", style, section] => guide.snippets.push(Snippet {
                    style: style.to_owned(),
                    section: section.to_owned(),
                    text: body,
                }),
                ["ron", file] => guide.styles.push((stem(file, ".ron"), body)),
                ["kdl", file] => guide.jobs.push((stem(file, ".kdl"), body)),
                ["sh"] => guide.commands.push(body),
                [""] => {}
                _ => panic!("the guide has a block that nobody tries: {head}"),
            }
        }
        let names = |list: &[(String, String)]| -> Vec<String> {
            list.iter().map(|(name, _)| name.clone()).collect()
        };
        assert_eq!(
            names(&guide.styles),
            names(&guide.jobs),
            "a style has its job"
        );
        guide
    }

    /// The text of a whole style.
    pub(crate) fn style(&self, name: &str) -> &str {
        let found = self.styles.iter().find(|(known, _)| known == name);
        found
            .map(|(_, text)| text.as_str())
            .unwrap_or_else(|| panic!("the guide has no style {name}"))
    }

    /// Whether a word stands in the guide, as a word.
    pub(crate) fn has(&self, word: &str) -> bool {
        let is_word = |letter: char| letter.is_alphanumeric() || letter == '-' || letter == '_';
        self.text
            .split(|letter| !is_word(letter))
            .any(|known| known == word)
    }

    /// The rows of the table with that head, as (first column, second column).
    pub(crate) fn table(&self, head: &str) -> Vec<(String, String)> {
        let behind = self.text.split_once(head).map_or("", |(_, behind)| behind);
        let rows = behind
            .lines()
            .skip(2)
            .take_while(|line| line.starts_with('|'));
        rows.map(|row| {
            let (first, second) = row
                .trim_matches('|')
                .split_once(" | ")
                .expect("two columns");
            (first.trim().to_owned(), second.trim().to_owned())
        })
        .collect()
    }
}

fn stem(file: &str, ending: &str) -> String {
    let stem = file.strip_suffix(ending);
    stem.unwrap_or_else(|| panic!("{file} is no name for this block"))
        .to_owned()
}

impl Snippet {
    /// The style with these entries in their section; entries of the same names make room for them.
    pub(crate) fn put_into(&self, whole: &str) -> String {
        let keys = self.text.lines().filter(|line| line.starts_with('"'));
        let mut whole = keys
            .filter_map(|line| line.split_once(':'))
            .fold(whole.to_owned(), |whole, (key, _)| without(&whole, key));
        let head = format!("    {}: {{\n", self.section);
        if !whole.contains(&head) {
            let panels = "    panels: {\n";
            whole = whole.replacen(panels, &format!("{head}    }},\n{panels}"), 1);
        }
        whole.replacen(&head, &format!("{head}{}", self.text), 1)
    }
}

/// A style without the entry of that name, which stands on lines of its own.
fn without(whole: &str, key: &str) -> String {
    let head = format!("\n        {key}: ");
    let Some(start) = whole.find(&head) else {
        return whole.to_owned();
    };
    let mut depth = 0_i32;
    let mut end = start + head.len();
    for (at, sign) in whole[end..].char_indices() {
        match sign {
            '(' | '{' | '[' => depth += 1,
            ')' | '}' | ']' => depth -= 1,
            ',' if depth == 0 => {
                end += at + 1;
                break;
            }
            _ => {}
        }
    }
    format!("{}{}", &whole[..start], &whole[end..])
}
