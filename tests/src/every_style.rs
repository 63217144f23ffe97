//! Job texts for every style that ships and every shape of item: roomy ones, drawn at random.
//!
//! Given a seed, gives jobs as a maker writes them, each with the name of its kind. A kind is a style with a shape and a cut;
//! one that the program cannot make yet is left out by asking it. The same seed gives the same jobs on every machine. It
//! never says what a job must give.

use std::fs;
use std::path::Path;

use crate::jobs::Dice;
use crate::{repository, run};

/// One way of asking for a tray.
#[derive(Clone, Debug, PartialEq)]
pub struct Kind {
    /// The style.
    pub style: String,
    /// What stands behind the measures of an item.
    pub shape: &'static str,
    /// How openings are cut.
    pub slot: &'static str,
    /// How many different items.
    pub items: usize,
    /// How an item lies under the lid.
    pub lying: Lying,
}

/// How an item lies: how much lower than the box it is, and the pad under it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lying {
    pub air: f64,
    pub pad: f64,
}

/// Flaps and fences hold an item without a pad; a bare edge asks for its top at the deck, 2 below the lid.
const LYING: [Lying; 2] = [Lying { air: 4.0, pad: 0.0 }, Lying { air: 7.0, pad: 5.5 }];

/// Shapes with cuts that go with them.
const SHAPES: [(&str, &str); 6] = [
    ("", "slot cut=\"cross\""),
    ("", "slot cut=\"doors\""),
    ("", "slot cut=\"open\""),
    ("", "slot cut=\"open\" finger=(mm)14"),
    (" shape=\"oval\"", "slot cut=\"open\""),
    (" shape=\"round\"", "slot cut=\"open\""),
];

/// The kinds that the program makes, each tried once with a roomy job.
pub fn kinds() -> Vec<Kind> {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("tried.kdl");
    let mut kinds = Vec::new();
    for style in styles() {
        for (shape, slot) in SHAPES {
            for items in [1, 3] {
                let kinds_lying = LYING.map(|lying| Kind {
                    style: style.clone(),
                    shape,
                    slot,
                    items,
                    lying,
                });
                let mut dice = Dice(3);
                let mut is_made = |kind: &Kind| {
                    (0..3).any(|_| {
                        fs::write(&path, kind.job(&mut dice, "")).expect("a job can be written");
                        run(folder.path(), &["check", "tried.kdl"]).code == 0
                    })
                };
                kinds.extend(kinds_lying.into_iter().find(|kind| is_made(kind)));
            }
        }
    }
    kinds
}

/// Names of the styles that ship.
pub fn styles() -> Vec<String> {
    let entries = fs::read_dir(repository().join("designs/styles")).expect("styles ship");
    let paths = entries.flatten().map(|entry| entry.path());
    let mut names: Vec<String> = paths
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .filter_map(|path| Some(path.file_stem()?.to_str()?.to_owned()))
        .collect();
    names.sort();
    names
}

impl Kind {
    /// A job of this kind; `more` are lines to add.
    // Source: reasoning: items are far smaller than their share of the box, so most trays fit.
    pub fn job(&self, dice: &mut Dice, more: &str) -> String {
        let length = dice.between(150.0, 330.0);
        let width = dice.between(110.0, length.min(230.0));
        let depth = dice.between(22.0, (width / 4.0).min(45.0));
        let caliper = dice.between(0.2, 0.5);
        let mut job = format!(
            "tray style=\"{}\"\nbox length=(mm){length:.2} width=(mm){width:.2} depth=(mm){depth:.2}\nboard caliper=(mm){caliper:.2}\n{}\n{more}\n",
            self.style, self.slot
        );
        if dice.between(0.0, 1.0) < 0.3 {
            job += "draw face=\"outside\"\n";
        }
        let share = length / self.items as f64;
        for item in 0..self.items {
            let long = share * dice.between(0.25, 0.4);
            let wide = if self.shape.contains("round") {
                long
            } else {
                width * dice.between(0.28, 0.42)
            };
            let Lying { air, pad } = self.lying;
            let deep = depth - air;
            job += &format!(
                "item \"lens {item}\" length=(mm){long:.2} width=(mm){wide:.2} depth=(mm){deep:.2} pad=(mm){pad}{}\n",
                self.shape
            );
        }
        job
    }
}

/// Jobs in one run of the program, which has a minute.
const IN_ONE_RUN: usize = 24;

/// Makes files of at least so many jobs, spread over all kinds: for each made job its name and its kind.
///
/// # Panics
/// When a job is refused as bad input, or an exporter fails.
pub fn make(
    folder: &Path,
    seed: u64,
    least: usize,
    formats: &str,
    more: impl Fn(usize) -> String,
) -> Vec<(String, Kind)> {
    let kinds = kinds();
    let mut dice = Dice(seed);
    let mut made = Vec::new();
    let mut drawn = 0;
    while made.len() < least {
        assert!(
            drawn < 4 * least + 200,
            "of {drawn} jobs only {} are made",
            made.len()
        );
        let mut names = Vec::new();
        for _ in 0..IN_ONE_RUN {
            let kind = &kinds[drawn % kinds.len()];
            let name = format!("j{drawn}");
            let text = kind.job(&mut dice, &more(drawn));
            fs::write(folder.join(&name).with_extension("kdl"), text)
                .expect("a job can be written");
            names.push((name, kind.clone()));
            drawn += 1;
        }
        make_some(folder, &names, formats);
        let ending = formats.split(',').next().unwrap_or(formats);
        made.extend(
            names
                .into_iter()
                .filter(|(name, _)| folder.join(name).with_extension(ending).exists()),
        );
    }
    made
}

fn make_some(folder: &Path, names: &[(String, Kind)], formats: &str) {
    let files: Vec<String> = names
        .iter()
        .map(|(name, _)| format!("{name}.kdl"))
        .collect();
    let mut words = vec![
        "make",
        "--keep-going",
        "--exporter-seconds",
        "50",
        "--as",
        formats,
    ];
    words.extend(files.iter().map(String::as_str));
    let outcome = run(folder, &words);
    assert!(outcome.code < 2, "{}{}", outcome.stdout, outcome.stderr);
}
