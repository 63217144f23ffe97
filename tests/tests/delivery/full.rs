//! A disk that is full: the old files stay, and nothing hidden.
//!
//! The disk is a tmpfs of a few pages or a few names, which only the administrator may mount.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use traywright_tests::run;
use traywright_tests::skip;
use traywright_tests::thorough::part_of;

use crate::verdicts::{Verdicts, Whole};
use crate::{CALL, desk, renew};

/// A mounted tmpfs.
struct Disk(PathBuf);

impl Disk {
    /// None where this user may not mount.
    fn mount(folder: &Path, limit: &str) -> Option<Disk> {
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", limit, "none"])
            .arg(folder)
            .stderr(Stdio::null())
            .status();
        mounted
            .is_ok_and(|status| status.success())
            .then(|| Disk(folder.to_owned()))
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(&self.0).status();
    }
}

#[test]
fn a_full_disk_leaves_the_old_files_and_nothing_hidden() {
    let desk = desk();
    let out = desk.path().join("out");
    let whole = Whole::of(desk.path(), &CALL, || renew(desk.path()));
    let pages = (4..=48).map(|pages| format!("size={}k", 4 * pages));
    let names = (5..=24).map(|names| format!("nr_inodes={names}"));
    let limits: Vec<String> = pages.chain(names).collect();
    let step = limits.len() / part_of(limits.len());
    let (mut verdicts, mut full) = (Verdicts::default(), 0);
    for limit in limits.iter().step_by(step) {
        let Some(disk) = Disk::mount(&out, limit) else {
            skip("small disks", "only the administrator may mount one");
            return;
        };
        for name in ["lens.svg", "lens.dxf"] {
            fs::write(out.join(name), format!("the old {name}")).expect("a file can be written");
        }
        let outcome = run(desk.path(), &CALL);
        full += usize::from(outcome.code == 2);
        let kind = limit.split('=').next().unwrap_or_default();
        verdicts.take(kind, limit, whole.judge(desk.path(), Some(outcome.code)));
        drop(disk);
    }
    verdicts.print("small disks");
    assert!(full > 2, "the disks are too large");
    assert_eq!(
        (verdicts.repaired, verdicts.lost.len()),
        (0, 0),
        "{:#?}",
        verdicts.lost
    );
}
