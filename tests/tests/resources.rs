//! Memory, open files and processes stay the same however many jobs a call has, and however often `--watch` makes files.
//!
//! Source of every expectation: DEVELOPERS.md, "How a call makes many jobs". The numbers come from `/proc` of Linux, so
//! the tests run there alone.
#![cfg(target_os = "linux")]

use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process};
use traywright_tests::program;
use traywright_tests::thorough::part_of;

/// The most that a process had at once.
#[derive(Clone, Copy, Debug, Default)]
struct Most {
    kilobytes: usize,
    files: usize,
    children: usize,
    threads: usize,
}

/// Jobs of the large call; a tenth of them where the tests are not thorough.
const JOBS: usize = 2_000;

/// Saves under `--watch`; a tenth of them where the tests are not thorough.
const SAVES: usize = 1_000;

/// Kilobytes that one more job may take: the names of its files, its verdict and its row of the table. Its two files have
/// 38.
const PER_JOB: usize = 8;

/// Kilobytes by which two equal calls may differ: which thread is how far is chance.
const CHANCE: usize = 4_000;

/// Kilobytes that a watch may gain by chance, with a single job and so with less chance. A hundred saves make 3,800.
const CHANCE_OF_A_WATCH: usize = 1_500;

fn job(length: usize) -> String {
    format!(
        "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
         item \"lens\" length=(mm){length} width=(mm)61 depth=(mm)28\nboard caliper=(mm)0.29\n"
    )
}

impl Most {
    /// Looks at a process; what it has now counts if it is more.
    fn look(&mut self, pid: u32) {
        let process = Path::new("/proc").join(pid.to_string());
        let status = fs::read_to_string(process.join("status")).unwrap_or_default();
        let number = |name: &str| {
            let line = status.lines().find_map(|line| line.strip_prefix(name));
            let word = line.and_then(|line| line.split_whitespace().next());
            word.and_then(|word| word.parse().ok()).unwrap_or(0)
        };
        let entries = |folder: &str| fs::read_dir(process.join(folder)).map_or(0, Iterator::count);
        let children = |task: fs::DirEntry| {
            let children = fs::read_to_string(task.path().join("children")).unwrap_or_default();
            children.split_whitespace().count()
        };
        let tasks = fs::read_dir(process.join("task"));
        let children: usize = tasks.map_or(0, |tasks| tasks.flatten().map(children).sum());
        self.kilobytes = self.kilobytes.max(number("VmHWM:"));
        self.threads = self.threads.max(number("Threads:"));
        self.files = self.files.max(entries("fd"));
        self.children = self.children.max(children);
    }
}

/// Makes the files of so many jobs in one call.
fn one_call(desk: &Path, jobs: usize) -> Most {
    let name = |number: usize| format!("job-{number:04}.kdl");
    for number in 0..jobs {
        let text = job(80 + number % 60);
        fs::write(desk.join(name(number)), text).expect("a job can be written");
    }
    let mut child = Command::new(program())
        .current_dir(desk)
        .arg("make")
        .args((0..jobs).map(name))
        .args(["--as", "svg,dxf", "--into", "out"])
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program can be started");
    let mut most = Most::default();
    let status = loop {
        most.look(child.id());
        match child.try_wait().expect("it can be waited for") {
            Some(status) => break status,
            None => thread::sleep(Duration::from_millis(2)),
        }
    };
    assert!(status.success());
    let made = fs::read_dir(desk.join("out")).expect("it was made").count();
    assert_eq!(made, 2 * jobs);
    most
}

#[test]
fn many_jobs_need_hardly_more_than_few() {
    let desk = tempfile::tempdir().expect("a folder can be made");
    let (few, many) = (part_of(JOBS) / 5, part_of(JOBS));
    let small = one_call(desk.path(), few);
    let large = one_call(desk.path(), many);
    println!("{few} jobs: {small:?}\n{many} jobs: {large:?}");
    let growth = large.kilobytes.saturating_sub(small.kilobytes);
    assert!(growth < PER_JOB * (many - few) + CHANCE, "{growth} kB more");
    assert!(
        large.files <= small.files + 8,
        "{} and {} open files",
        small.files,
        large.files
    );
    assert!(
        large.threads <= small.threads + 8,
        "{} and {} threads",
        small.threads,
        large.threads
    );
    assert!(
        large.children <= small.children + 2,
        "{} and {} children",
        small.children,
        large.children
    );
}

/// A running watch, and how often it has made the files.
struct Watch<'a> {
    desk: &'a Path,
    child: Child,
    made: usize,
}

impl Watch<'_> {
    fn wait(&mut self) {
        self.made += 1;
        let begun = Instant::now();
        loop {
            let said = fs::read_to_string(self.desk.join("said")).unwrap_or_default();
            if said.matches("Watching").count() >= self.made {
                return;
            }
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "nothing happens: {said}"
            );
            thread::sleep(Duration::from_millis(2));
        }
    }

    /// What it has now that it waits.
    fn now(&self) -> Most {
        let mut most = Most::default();
        most.look(self.child.id());
        most
    }
}

#[test]
fn a_watch_needs_no_more_after_many_saves() {
    let desk = tempfile::tempdir().expect("a folder can be made");
    let job_file = desk.path().join("lens.kdl");
    fs::write(&job_file, job(90)).expect("a job can be written");
    let said = fs::File::create(desk.path().join("said")).expect("a file can be made");
    let child = Command::new(program())
        .current_dir(desk.path())
        .args([
            "make", "lens.kdl", "--watch", "--as", "svg,dxf", "--into", "out",
        ])
        .stdin(Stdio::null())
        .stderr(said)
        .spawn()
        .expect("the program can be started");
    let mut watch = Watch {
        desk: desk.path(),
        child,
        made: 0,
    };
    watch.wait();
    let mut seen = Vec::new();
    for save in 0..part_of(SAVES) {
        fs::write(&job_file, job(80 + save % 60)).expect("a job can be written");
        watch.wait();
        seen.push(watch.now());
    }
    kill_process(Pid::from_child(&watch.child), Signal::INT).expect("it runs");
    watch.child.wait().expect("it ends");
    // The first tenth fills what is kept between two saves.
    let (early, late) = (seen[seen.len() / 10], seen[seen.len() - 1]);
    println!(
        "after {} saves: {early:?}\nafter {}: {late:?}",
        seen.len() / 10,
        seen.len()
    );
    assert!(
        late.kilobytes <= early.kilobytes + CHANCE_OF_A_WATCH,
        "{early:?} {late:?}"
    );
    assert!(late.files <= early.files + 2, "{early:?} {late:?}");
    assert!(
        late.children <= early.children && late.threads <= early.threads + 2,
        "{early:?} {late:?}"
    );
}
