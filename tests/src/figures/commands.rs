//! Whole commands, each by turns with the start of a bare process and with the yardstick.

use std::fs;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use super::{Contest, Counts, Desk, Measured, trays};
use crate::{program, python};

/// The start of a process that only says its version.
const START: &[&str] = &["--version"];

/// The files that the yardstick draws too.
const ALIKE: &str = "svg,dxf,pdf";

/// How long a watch may take to follow a file.
const PATIENCE: Duration = Duration::from_secs(60);

/// One job: checked, drawn as the yardstick does, and made whole.
pub fn one_job(counts: Counts) -> Measured {
    let desk = Desk::with("single-slot", &trays(1));
    with_yardstick(&desk)
        .with("check", || desk.run_all(&["check", "--quiet"]))
        .with("make, all default files", || {
            desk.run_all(&["make", "--quiet", "--into", "out"]);
        })
        .measure(counts.rounds())
}

/// A batch of jobs as the yardstick draws it.
pub fn batch(counts: Counts) -> Measured {
    let desk = Desk::with("single-slot", &trays(counts.batch()));
    with_yardstick(&desk).measure(counts.rounds())
}

/// Each exporter alone.
pub fn exporters(counts: Counts) -> Measured {
    let desk = Desk::with("single-slot", &trays(1));
    let start = Contest::default().with("start of a process", || desk.run(START));
    let exporters = ["svg", "dxf", "pdf", "booklet", "fold", "html", "solid"];
    let each = exporters.iter().fold(start, |contest, exporter| {
        let desk = &desk;
        contest.with(&format!("make --as {exporter}"), move || {
            desk.run_all(&["make", "--quiet", "--as", exporter, "--into", "out"]);
        })
    });
    each.measure(counts.rounds())
}

/// Sheets of many blanks.
pub fn nesting(counts: Counts) -> Measured {
    let desk = Desk::with("single-slot", &trays(counts.batch().min(10)));
    Contest::default()
        .with("start of a process", || desk.run(START))
        .with("nest, sheets of 1000 × 700 mm", || {
            desk.run_all(&[
                "nest",
                "--stock",
                "1000x700 mm",
                "--as",
                "svg",
                "--into",
                "out",
            ]);
        })
        .measure(counts.rounds().min(5))
}

/// A job that is saved while `make --watch` runs, until its file follows.
pub fn saving(counts: Counts) -> Measured {
    let desk = Desk::with("single-slot", &trays(1));
    let watch = Watch::over(&desk);
    let mut saved = 0;
    let measured = Contest::default()
        .with("start of a process", || desk.run(START))
        .with("make --watch, from saving to the new SVG", || {
            saved += 1;
            watch.save(&desk, saved);
        })
        .measure(counts.rounds());
    drop(watch);
    measured
}

/// The start of a process, the program, and the yardstick if its Python is there.
fn with_yardstick(desk: &Desk) -> Contest<'_> {
    let ours = Contest::default()
        .with("start of a process", || desk.run(START))
        .with("make --as svg,dxf,pdf", || {
            desk.run_all(&["make", "--quiet", "--as", ALIKE, "--into", "out"]);
        });
    let [jobs, out] = ["jobs.json", "drawn"].map(|file| desk.path().join(file));
    let draw = move || {
        let words = ["files", &jobs.to_string_lossy(), &out.to_string_lossy()];
        python("yardstick.py", &words).map(|told| told.unwrap_or_else(|fault| panic!("{fault}")))
    };
    match draw() {
        Some(_) => ours.with("the yardstick in Python", move || {
            draw();
        }),
        None => ours,
    }
}

/// A running watch, ended when it is dropped.
struct Watch {
    child: Child,
}

impl Watch {
    fn over(desk: &Desk) -> Watch {
        let child = Command::new(program())
            .current_dir(desk.path())
            .args([
                "make",
                "job-0.kdl",
                "--watch",
                "--as",
                "svg",
                "--into",
                "out",
            ])
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program can be started");
        let watch = Watch { child };
        watch.wait(desk, "<svg");
        watch
    }

    /// Saves the job under a new name and waits for the file that carries it.
    fn save(&self, desk: &Desk, number: usize) {
        let file = desk.path().join("job-0.kdl");
        let text = fs::read_to_string(&file).expect("the job can be read");
        let (_, rest) = text.split_once('\n').expect("the first line is the tray's");
        let name = format!("Saved {number}.");
        let text = format!("tray style=\"single-slot\" name=\"{name}\"\n{rest}");
        fs::write(&file, text).expect("the job can be saved");
        self.wait(desk, &name);
    }

    fn wait(&self, desk: &Desk, words: &str) {
        let start = Instant::now();
        let file = desk.path().join("out/job-0.svg");
        while !fs::read_to_string(&file).is_ok_and(|text| text.contains(words)) {
            assert!(
                start.elapsed() < PATIENCE,
                "no `{words}` in {}",
                file.display()
            );
            thread::sleep(Duration::from_millis(1));
        }
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.child.kill().ok();
        self.child.wait().ok();
    }
}
