//! `cargo xtask golden`: what the shipped jobs give now, against what somebody has looked at.
//!
//! Asks the goldens' own test for the new texts and shows where they differ. Only with a reason does it rewrite
//! `tests/goldens`, and then the reason and the day stand in the head of each text that changed.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::repository::{Done, answer, cargo, list, run, target, top};

/// Names the folder into which the goldens' test writes instead of comparing; the test reads the same name.
const INTO: &str = "TRAYWRIGHT_GOLDENS_INTO";

/// Shows what changed and, given a reason, accepts it.
pub(crate) fn golden(looked: Option<&str>) -> Done {
    let fresh = target()?.join("goldens");
    if fresh.exists() {
        fs::remove_dir_all(&fresh).map_err(|fault| format!("{}: {fault}", fresh.display()))?;
    }
    let test = [
        "test",
        "--quiet",
        "--package",
        "traywright-tests",
        "--test",
        "goldens",
    ];
    run(cargo(&test)?.env(INTO, &fresh))?;
    let kept = top().join("tests/goldens");
    let changes = changes(&kept, &fresh)?;
    for change in &changes {
        show(change)?;
    }
    match looked {
        _ if changes.is_empty() => println!("Every golden is as it was."),
        None => println!(
            "{} changed. Look at each tray, then: cargo xtask golden --looked \"REASON\"",
            changes.len()
        ),
        Some(reason) => {
            let head = format!("# looked at: {}, {reason}\n", today()?);
            for change in &changes {
                accept(change, &head)?;
            }
        }
    }
    Ok(())
}

/// One golden that is new, gone or different.
struct Change {
    kept: PathBuf,
    old: Option<String>,
    new: Option<String>,
}

fn changes(kept: &Path, fresh: &Path) -> Done<Vec<Change>> {
    let mut names: Vec<_> = list(fresh)?;
    if kept.exists() {
        names.extend(list(kept)?);
    }
    let mut names: Vec<_> = names
        .iter()
        .filter_map(|path| path.file_name().map(ToOwned::to_owned))
        .collect();
    names.sort();
    names.dedup();
    let changes = names.iter().map(|name| Change {
        kept: kept.join(name),
        old: fs::read_to_string(kept.join(name)).ok(),
        new: fs::read_to_string(fresh.join(name)).ok(),
    });
    Ok(changes
        .filter(|change| change.old.as_deref().map(body) != change.new.as_deref())
        .collect())
}

/// A golden without the line that says who looked.
fn body(golden: &str) -> &str {
    golden.split_once('\n').map_or("", |(_, body)| body)
}

fn show(change: &Change) -> Done {
    println!("==== {}", change.kept.display());
    let folder = target()?;
    let sides = [(&change.old, "golden-old"), (&change.new, "golden-new")];
    for (text, name) in sides {
        let text = text.as_deref().unwrap_or_default();
        let text = if name == "golden-old" {
            body(text)
        } else {
            text
        };
        fs::write(folder.join(name), text).map_err(|fault| format!("{name}: {fault}"))?;
    }
    // `diff` ends with 1 when there is a difference, which is what is expected here.
    Command::new("diff")
        .args(["-u", "golden-old", "golden-new"])
        .current_dir(&folder)
        .status()
        .map(|_| ())
        .map_err(|fault| format!("diff cannot be started: {fault}"))
}

fn accept(change: &Change, head: &str) -> Done {
    let path = &change.kept;
    let done = match &change.new {
        None => fs::remove_file(path),
        Some(body) => fs::create_dir_all(top().join("tests/goldens"))
            .and_then(|()| fs::write(path, format!("{head}{body}"))),
    };
    done.map_err(|fault| format!("{}: {fault}", path.display()))?;
    println!("{} rewritten", path.display());
    Ok(())
}

fn today() -> Done<String> {
    Ok(answer(Command::new("date").arg("+%F"))?.trim().to_owned())
}
