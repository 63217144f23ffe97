//! The program and its exporters can be built and run from a test.

use traywright_tests::{program, repository, run};

#[test]
fn the_program_answers_and_the_exporters_lie_beside_it() {
    // Source: core/CONTRACT.md, "Exporters": `libtraywright_NAME.so` with the platform's prefix and suffix.
    let outcome = run(repository(), &["--version"]);
    let library = format!(
        "{}traywright_svg{}",
        std::env::consts::DLL_PREFIX,
        std::env::consts::DLL_SUFFIX
    );
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    assert!(program().with_file_name(library).is_file());
}
