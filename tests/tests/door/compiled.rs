//! The exporters in `tests/door`, compiled as their authors would compile them.
//!
//! Given C sources and one in Rust, gives a folder of libraries for `--plugins`, and files beside them that only look
//! like libraries. One that is newer than its source is kept. Each is put into place with one move, since test processes
//! may run side by side.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{self, Command};
use std::sync::OnceLock;
use std::thread;
use std::time::SystemTime;

use traywright_tests::{cargo, repository, target_folder};

/// A folder with every library.
pub(super) fn plugins() -> &'static Path {
    static FOLDER: OnceLock<PathBuf> = OnceLock::new();
    FOLDER.get_or_init(|| {
        let folder = target_folder().join("door");
        fs::create_dir_all(&folder).expect("a folder can be made");
        compile_c(&folder);
        compile_rust(&folder);
        imitate(&folder);
        folder
    })
}

/// The file of a library.
pub(super) fn library(name: &str) -> PathBuf {
    plugins().join(file_name(name))
}

/// What a library is called on this platform.
// Source: core/CONTRACT.md, "Styles shipped".
pub(super) fn file_name(name: &str) -> String {
    let (prefix, suffix) = (std::env::consts::DLL_PREFIX, std::env::consts::DLL_SUFFIX);
    format!("{prefix}traywright_{name}{suffix}")
}

fn compile_c(folder: &Path) {
    let sources: Vec<PathBuf> = fs::read_dir(repository().join("tests/door"))
        .expect("the sources can be read")
        .map(|entry| entry.expect("the sources can be read").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "c"))
        .collect();
    assert!(sources.len() >= 28, "{sources:?}");
    thread::scope(|threads| {
        for some in sources.chunks(sources.len().div_ceil(2)) {
            threads.spawn(move || {
                for source in some {
                    compile_one(source, folder);
                }
            });
        }
    });
}

fn compile_one(source: &Path, folder: &Path) {
    let name = source.file_stem().expect("a source has a name");
    let library = folder.join(file_name(&name.to_string_lossy()));
    let include = repository().join("core/document/include");
    let header = include.join("traywright.h");
    if age(&library) > age(source).max(age(&header)) {
        return;
    }
    let unfinished = library.with_extension(process::id().to_string());
    let outcome = Command::new("cc")
        .args(["-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic"])
        .args(["-shared", "-fPIC", "-fvisibility=hidden", "-I"])
        .arg(include)
        .arg("-o")
        .arg(&unfinished)
        .arg(source)
        .output()
        .expect("a C compiler is called cc");
    assert!(
        outcome.status.success() && outcome.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&outcome.stderr)
    );
    fs::rename(unfinished, library).expect("a library can be moved");
}

/// When a file was written last; none if it is not there.
fn age(file: &Path) -> Option<SystemTime> {
    fs::metadata(file).and_then(|about| about.modified()).ok()
}

fn compile_rust(folder: &Path) {
    let mut build = cargo();
    build.args(["build", "--quiet", "--locked"]);
    build.args([
        "--package",
        "traywright-tests",
        "--example",
        "traywright_panics",
    ]);
    let outcome = build.output().expect("cargo can be started");
    assert!(
        outcome.status.success(),
        "{}",
        String::from_utf8_lossy(&outcome.stderr)
    );
    let built = target_folder()
        .join("debug/examples")
        .join(file_name("panics"));
    let unfinished = folder.join(format!("panics.{}", process::id()));
    fs::copy(built, &unfinished).expect("the library was built");
    fs::rename(unfinished, folder.join(file_name("panics"))).expect("a library can be moved");
}

/// Files that have the name of a library and are none, or not all of one.
fn imitate(folder: &Path) {
    let whole = fs::read(folder.join(file_name("figures"))).expect("the library was built");
    for (name, content) in [
        ("is-text", b"a library\n".as_slice()),
        ("is-empty", b""),
        ("is-cut-short", &whole[..100]),
        ("is-cut", &whole[..4096]),
    ] {
        fs::write(folder.join(file_name(name)), content).expect("a file can be written");
    }
    fs::create_dir_all(folder.join(file_name("is-folder"))).expect("a folder can be made");
}
