//! The rules of the house hold: `cargo xtask tidy` has nothing to say.

use traywright_tests::cargo;

#[test]
fn the_house_is_tidy() {
    let output = cargo()
        .args(["run", "--quiet", "--package", "xtask", "--", "tidy"])
        .output()
        .expect("cargo can be started");
    assert!(
        output.status.success(),
        "{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
}
