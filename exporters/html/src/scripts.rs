//! The scripts as one: plain modules, put behind one another.
//!
//! **Input:** modules that import one another alone, each import a line of its own, and export what is declared at the
//! beginning of a line. **Output:** one script without imports and exports. Names of all modules share one scope.

const MODULES: [&str; 3] = [
    include_str!("../web/fold.js"),
    include_str!("../web/space.js"),
    include_str!("../web/viewer.js"),
];

/// What draws a scene.
pub(crate) fn scripts() -> String {
    let lines = MODULES.iter().flat_map(|module| module.lines());
    let kept = lines.filter(|line| !line.starts_with("import ") && !is_comment(line));
    let mut script = String::new();
    for line in kept {
        script.push_str(line.strip_prefix("export ").unwrap_or(line));
        script.push('\n');
    }
    script
}

/// Whoever gets a tray reads no comments.
fn is_comment(line: &str) -> bool {
    let line = line.trim_start();
    line.starts_with("//") || line.starts_with("/**") || line.starts_with("* ") || line == "*/"
}
