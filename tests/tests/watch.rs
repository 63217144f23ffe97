//! `make --watch`: files follow what is saved, errors wait to be mended, and Ctrl-C leaves whole files.
//!
//! Source of every expectation: core/CONTRACT.md, "Commands". Times only end a test that has failed.

use std::fs::{self, File};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process};
use tempfile::TempDir;
use traywright_tests::{program, repository};

const JOB: &str = "tray style=\"single-slot\" name=\"First\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
                   item \"lens\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard \"index-255\"\n";

/// A running watch in a folder with one job.
struct Watch {
    desk: TempDir,
    child: Child,
}

impl Watch {
    fn start(prepare: impl Fn(&Path), flags: &[&str]) -> Watch {
        let desk = tempfile::tempdir().expect("a folder can be made");
        fs::write(desk.path().join("lens.kdl"), JOB).expect("a job can be written");
        prepare(desk.path());
        let said = File::create(desk.path().join("said")).expect("a file can be made");
        let child = Command::new(program())
            .current_dir(desk.path())
            .args([
                "make", "lens.kdl", "--watch", "--as", "svg,dxf", "--into", "out",
            ])
            .args(flags)
            .stdin(Stdio::null())
            .stderr(said)
            .spawn()
            .expect("the program can be started");
        let watch = Watch { desk, child };
        watch.says("Watching lens.kdl", 1);
        watch
    }

    fn read(&self, file: &str) -> String {
        fs::read_to_string(self.desk.path().join(file)).unwrap_or_default()
    }

    /// Waits until something has been said so often.
    fn says(&self, words: &str, times: usize) {
        let start = Instant::now();
        while self.read("said").matches(words).count() < times {
            let said = self.read("said");
            assert!(
                start.elapsed() < Duration::from_secs(60),
                "no `{words}` in\n{said}"
            );
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Saves as some editors do: a new file is renamed over the old one.
    fn save_by_renaming(&self, file: &str, text: &str) {
        let new = self.desk.path().join(".new");
        fs::write(&new, text).expect("a file can be written");
        fs::rename(new, self.desk.path().join(file)).expect("a file can be renamed");
    }

    /// Presses Ctrl-C; gives the exit code and what is in the folder of the files.
    fn end(mut self) -> (Option<i32>, Vec<String>) {
        kill_process(Pid::from_child(&self.child), Signal::INT).expect("it runs");
        let code = self.child.wait().expect("it ends").code();
        let entries = fs::read_dir(self.desk.path().join("out")).expect("the folder is there");
        let mut names: Vec<String> = entries
            .map(|entry| {
                entry
                    .expect("an entry")
                    .file_name()
                    .to_string_lossy()
                    .into_owned()
            })
            .collect();
        names.sort();
        (code, names)
    }
}

#[test]
fn a_save_in_place_or_by_renaming_makes_the_files_again() {
    let watch = Watch::start(|_| {}, &[]);
    let first = watch.read("out/lens.svg");
    watch.save_by_renaming("lens.kdl", &JOB.replace("(mm)96", "(mm)90"));
    watch.says("Watching lens.kdl", 2);
    let second = watch.read("out/lens.svg");
    assert!(
        first != second && second.ends_with("</svg>\n"),
        "the file is the old one"
    );
    fs::write(watch.desk.path().join("lens.kdl"), JOB).expect("a job can be written");
    watch.says("Watching lens.kdl", 3);
    assert!(
        watch.read("out/lens.svg") == first,
        "the same job gives the same bytes"
    );
    let (code, files) = watch.end();
    assert_eq!(
        (code, files),
        (Some(0), vec!["lens.dxf".to_owned(), "lens.svg".to_owned()])
    );
}

#[test]
fn an_error_is_shown_and_the_files_stay_until_it_is_mended() {
    let watch = Watch::start(|_| {}, &[]);
    let first = watch.read("out/lens.svg");
    watch.save_by_renaming("lens.kdl", &JOB.replace("(mm)96", "(cm)9"));
    watch.says("lens.kdl:3:", 1);
    watch.says("Watching lens.kdl", 2);
    assert!(
        watch.read("out/lens.svg") == first,
        "an error changes no file"
    );
    watch.save_by_renaming("lens.kdl", &JOB.replace("depth=(mm)28", "depth=(mm)40"));
    watch.says("item-too-deep", 1);
    watch.says("Watching lens.kdl", 3);
    watch.save_by_renaming("lens.kdl", &JOB.replace("(mm)96", "(mm)90"));
    watch.says("Watching lens.kdl", 4);
    assert!(
        watch.read("out/lens.svg") != first,
        "the mended job has new files"
    );
    assert_eq!(watch.end().0, Some(0));

    let watch = Watch::start(|_| {}, &[]);
    watch.save_by_renaming("lens.kdl", "tray");
    watch.says("Watching lens.kdl", 2);
    let (code, files) = watch.end();
    assert_eq!((code, files.len()), (Some(2), 2));
}

#[test]
fn a_saved_style_counts_too() {
    let style = repository().join("designs/styles/single-slot.ron");
    let style = fs::read_to_string(style).expect("a shipped style");
    let own = |desk: &Path| {
        fs::create_dir(desk.join("own")).expect("a folder can be made");
        fs::write(desk.join("own/mine.ron"), &style).expect("a style can be written");
        let job = JOB.replace("single-slot", "mine");
        fs::write(desk.join("lens.kdl"), job).expect("a job can be written");
    };
    let watch = Watch::start(own, &["--styles", "own"]);
    let first = watch.read("out/lens.svg");
    watch.save_by_renaming("own/mine.ron", "Style(");
    watch.says("mine.ron:1:", 1);
    watch.says("Watching lens.kdl", 2);
    watch.save_by_renaming("own/mine.ron", &style);
    watch.says("Watching lens.kdl", 3);
    assert!(
        watch.read("out/lens.svg") == first,
        "the same style gives the same bytes"
    );
    assert_eq!(watch.end().0, Some(0));
}
