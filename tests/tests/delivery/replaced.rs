//! What a replaced file hands on to the new one.

use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};

use traywright_tests::run;

use crate::{CALL, desk};

#[test]
fn a_replaced_file_keeps_its_mode_and_owner() {
    let desk = desk();
    let old = desk.path().join("out/lens.svg");
    fs::set_permissions(&old, fs::Permissions::from_mode(0o640)).expect("a mode can be set");
    // Only the administrator may give a file away; elsewhere the mode alone is tested.
    let given = chown(&old, Some(12_345), Some(12_346)).is_ok();
    let outcome = run(desk.path(), &CALL);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let new = old.metadata().expect("it is there");
    assert!(new.len() > 100, "the file is the old one");
    assert_eq!(new.mode() & 0o777, 0o640);
    if given {
        assert_eq!((new.uid(), new.gid()), (12_345, 12_346));
    }
}

#[test]
fn a_link_is_replaced_and_what_it_leads_to_stays() {
    let desk = desk();
    let (far, link) = (
        desk.path().join("far.svg"),
        desk.path().join("out/lens.svg"),
    );
    fs::rename(&link, &far).expect("a file can be moved");
    std::os::unix::fs::symlink(&far, &link).expect("a link can be made");
    let outcome = run(desk.path(), &CALL);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let there = link.symlink_metadata().expect("it is there");
    assert!(there.is_file());
    let far = fs::read_to_string(far).expect("it is there");
    assert_eq!(far, "the old lens.svg");
}
