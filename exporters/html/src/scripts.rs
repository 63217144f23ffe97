//! The scripts as one: plain modules, put behind one another.
//!
//! **Input:** modules that import one another alone, each import a line of its own, and export what is declared at the
//! beginning of a line; a comment ends in its line. **Output:** one script without imports, exports and comments of their own
//! lines. Names of all modules share one scope. The rules are those of `xtask/src/page_text.rs`.

const MODULES: [&str; 4] = [
    include_str!("../web/fold.js"),
    include_str!("../web/decal.js"),
    include_str!("../web/space.js"),
    include_str!("../web/viewer.js"),
];

const _: () = {
    let [fold, decal, space, viewer] = MODULES;
    assert!(
        closes_comments(fold)
            && closes_comments(decal)
            && closes_comments(space)
            && closes_comments(viewer),
        "a comment of a script spans lines"
    );
};

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
    line.starts_with("//") || line.starts_with("/**")
}

/// Whether each comment ends in its line: what is left out is whole lines.
const fn closes_comments(module: &str) -> bool {
    let text = module.as_bytes();
    let (mut at, mut open) = (0, false);
    while at + 1 < text.len() {
        match (text[at], text[at + 1]) {
            (b'/', b'*') => open = true,
            (b'*', b'/') => open = false,
            (b'\n', _) if open => return false,
            _ => {}
        }
        at += 1;
    }
    !open
}
