//! `cargo xtask pictures`: the README's pictures of each style, drawn by the program itself.
//!
//! For the jobs that the README shows it puts the blank as SVG into `designs/pictures`, and the figure of the booklet's
//! cover, the tray in its box, as PNG beside it. It needs `pdftoppm` for the second.

use std::process::Command;

use crate::repository::{Done, cargo, exporters, run, target, top};

/// One job a style, and where the figure on its cover begins, in pixels from the head of the page: on larger paper words
/// take less of it.
const JOBS: [(&str, &str); 4] = [
    ("barometer", "129"),
    ("seed-vials", "112"),
    ("marine-clock", "129"),
    ("observatory-watch", "129"),
];

/// Draws all pictures anew.
pub(crate) fn pictures() -> Done {
    let mut build = cargo(&["build", "--locked", "--package", "traywright"])?;
    for exporter in exporters()? {
        build.args(["--package", &exporter]);
    }
    run(&mut build)?;
    let (shown, books) = (top().join("designs/pictures"), target()?.join("booklets"));
    for (job, top_of_figure) in JOBS {
        let file = top().join("designs/jobs").join(format!("{job}.kdl"));
        for (format, folder) in [("svg", &shown), ("booklet", &books)] {
            let mut make = Command::new(target()?.join("debug/traywright"));
            make.args([
                "--quiet",
                "make",
                "--exporter-seconds",
                "60",
                "--as",
                format,
            ]);
            make.arg(&file).arg("--into").arg(folder);
            run(&mut make)?;
        }
        let mut draw = Command::new("pdftoppm");
        // The figure on the cover, in pixels of a page drawn as wide as A4 is at 96 to the inch.
        draw.args(["-png", "-singlefile", "-l", "1"]);
        draw.args(["-scale-to-x", "794", "-scale-to-y", "-1"]);
        draw.args(["-x", "54", "-y", top_of_figure, "-W", "686", "-H", "470"]);
        draw.arg(books.join(format!("{job}-booklet.pdf")));
        draw.arg(shown.join(format!("{job}-folded")));
        run(&mut draw)?;
    }
    Ok(())
}
