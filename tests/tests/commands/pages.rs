//! `check` and `make` agree on the pages that cannot be printed. Source: core/CONTRACT.md, "Commands".

use std::fs;

use traywright_tests::run;

use crate::{BAROMETER, check, desk};

// Derived: 110 - 2 × 6 = 98 mm have no room for a bar of 100 mm; a blank of more than 5080 mm is no whole page.
#[test]
fn check_refuses_the_pages_that_make_cannot_print() {
    let desk = desk();
    let narrow = format!("{BAROMETER}\npage \"110x160 mm\"\n");
    let long = BAROMETER.replace("(mm)182", "(mm)5000") + "\npage \"whole\"\n";
    fs::write(desk.path().join("narrow.kdl"), narrow).expect("a job can be written");
    fs::write(desk.path().join("long.kdl"), long).expect("a job can be written");
    for (job, reason) in [
        ("narrow.kdl", "no room for both check bars"),
        ("long.kdl", "longer than the 5080 mm"),
    ] {
        let made = run(desk.path(), &["make", job, "--as", "pdf", "--into", "out"]);
        check(&made, 2, &[reason]);
        for format in ["text", "json"] {
            let checked = run(desk.path(), &["check", job, "--format", format]);
            check(&checked, 2, &[reason]);
            assert_eq!(
                checked.stderr, made.stderr,
                "check and make do not say the same"
            );
        }
        let lines = run(desk.path(), &["check", job, "--as", "svg,dxf"]);
        assert_ne!(lines.code, 2, "{}", lines.stderr);
    }
    let unknown = run(desk.path(), &["check", "barometer.kdl", "--as", "pfd"]);
    check(&unknown, 2, &["pfd", "pdf"]);
}
