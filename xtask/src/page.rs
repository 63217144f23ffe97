//! `cargo xtask page`: the whole program in one file that a browser opens.
//!
//! Builds the module of `core/page`, trims it to what the page calls, packs it and puts it with scripts and style into
//! `target/page/traywright.html`; the trimmed module stays beside it for the tests. The same tree gives the same bytes. It
//! needs Debian's `rustc-web rust-web-src lld binaryen`, or the target `wasm32-unknown-unknown` of rustup with binaryen;
//! nothing else in the repository does.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::page_text::page_text;
use crate::repository::{Done, answer, run, target, top};

/// What the page is built for.
const TARGET: &str = "wasm32-unknown-unknown";
/// The compiler of Debian's package rustc-web, and the linker of lld.
const DEBIAN_RUSTC: &str = "/usr/bin/rustc";
const DEBIAN_LINKER: &str = "/usr/bin/wasm-ld";
/// Stack of the module. A job that is made to be tangled takes 4 KiB a byte of it and traps beyond, which the page tells.
const STACK: &str = "-Clink-arg=-zstack-size=8388608";
/// What the page calls; all else is taken off.
const EXPORTS: [&str; 16] = [
    "memory",
    "tw_answer_at",
    "tw_answer_length",
    "tw_blank",
    "tw_check",
    "tw_document",
    "tw_drawing",
    "tw_export",
    "tw_file",
    "tw_fixes",
    "tw_give_back",
    "tw_library",
    "tw_room",
    "tw_scene",
    "tw_start",
    "tw_words",
];

/// How much the compiler does for the size of the module.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Build {
    /// All it can: minutes.
    Small,
    /// What tests need.
    Quick,
}

impl Build {
    fn profile(self) -> &'static str {
        match self {
            Build::Small => "page",
            Build::Quick => "page-quick",
        }
    }
}

/// Builds the page.
pub(crate) fn page(build: Build) -> Done {
    let folder = target()?.join("page");
    let linked = compile(&folder, build)?;
    let module = trim(&linked, &folder)?;
    keep_private(&module)?;
    let page = folder.join("traywright.html");
    write(&page, page_text(&module)?.as_bytes())?;
    for file in [&module, &page] {
        let size = fs::metadata(file).map_or(0, |data| data.len());
        println!("{} {} kB", file.display(), size.div_ceil(1000));
    }
    Ok(())
}

/// Builds the module; gives the file.
fn compile(folder: &Path, build: Build) -> Done<PathBuf> {
    let home = folder.join("build");
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo
        .current_dir(top())
        // As a library of another system it would lie beside the exporters and be taken for one: only here it is a cdylib.
        .args(["rustc", "--locked", "--package", "traywright-page"])
        .args(["--lib", "--crate-type", "cdylib"])
        .args(["--profile", build.profile(), "--target", TARGET])
        .env("CARGO_TARGET_DIR", &home)
        .env("CARGO_ENCODED_RUSTFLAGS", flags().join("\u{1f}"));
    if !rustup_has_the_target() {
        for needed in [DEBIAN_RUSTC, DEBIAN_LINKER] {
            if !Path::new(needed).exists() {
                return Err(format!(
                    "{needed} is missing: install rustc-web, rust-web-src and lld (apt-get install), or the target with \
                     `rustup target add {TARGET}`"
                ));
            }
        }
        // The packaged compiler has the source of the standard library and no built one.
        cargo
            .arg("-Zbuild-std=std,panic_abort")
            .env("RUSTC", DEBIAN_RUSTC)
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", DEBIAN_LINKER);
    }
    run(&mut cargo)?;
    Ok(home
        .join(TARGET)
        .join(build.profile())
        .join("traywright_page.wasm"))
}

fn rustup_has_the_target() -> bool {
    let sysroot = answer(Command::new("rustc").args(["--print", "sysroot"]));
    sysroot.is_ok_and(|sysroot| {
        let libraries = Path::new(sysroot.trim()).join("lib/rustlib").join(TARGET);
        libraries.join("lib").is_dir()
    })
}

/// Flags of the compiler: the stack, and other names for the folders of this machine.
fn flags() -> Vec<String> {
    let mut flags = vec![STACK.to_owned()];
    for (folder, name) in machine_folders() {
        flags.push(format!("--remap-path-prefix={folder}={name}"));
    }
    flags
}

/// Folders that no module may name, with what it says instead.
fn machine_folders() -> Vec<(String, &'static str)> {
    let mut folders = vec![(top().display().to_string(), ".")];
    let home = std::env::var("HOME").ok();
    let cargo = std::env::var("CARGO_HOME").ok();
    let cargo = cargo.or_else(|| home.map(|home| format!("{home}/.cargo")));
    folders.extend(cargo.map(|cargo| (cargo, "cargo")));
    folders
}

/// Takes off what the page does not call: libraries bring thousands of functions that only their own tools need.
fn trim(linked: &Path, folder: &Path) -> Done<PathBuf> {
    let mut nodes = vec![format!(
        "{{\"name\":\"page\",\"root\":true,\"reaches\":[{}]}}",
        EXPORTS.map(|name| format!("\"{name}\"")).join(",")
    )];
    nodes.extend(EXPORTS.map(|name| format!("{{\"name\":\"{name}\",\"export\":\"{name}\"}}")));
    let graph = folder.join("exports.json");
    write(&graph, format!("[{}]\n", nodes.join(",\n")).as_bytes())?;
    let module = folder.join("traywright.wasm");
    let mut command = Command::new("wasm-metadce");
    command
        .arg(linked)
        .arg("--graph-file")
        .arg(&graph)
        .arg("--output")
        .arg(&module)
        .arg("--all-features");
    answer(&mut command)
        .map_err(|fault| format!("{fault}\nInstall binaryen (apt-get install binaryen)."))?;
    let trimmed = fs::read(&module).map_err(|fault| format!("{}: {fault}", module.display()))?;
    write(&module, &without_custom_sections(&trimmed)?)?;
    Ok(module)
}

/// A module without the sections that only tools read.
// Source: WebAssembly core specification, 5.5.2: sections are an id, a size and so many bytes; custom ones have the id 0.
fn without_custom_sections(module: &[u8]) -> Done<Vec<u8>> {
    const HEAD: usize = 8;
    let torn = || "the module ends in the middle of a section".to_owned();
    let mut kept = module.get(..HEAD).ok_or_else(torn)?.to_vec();
    let mut at = HEAD;
    while at < module.len() {
        let (mut size, mut shift, mut end) = (0_usize, 0, at + 1);
        loop {
            let byte = *module.get(end).ok_or_else(torn)?;
            size |= usize::from(byte & 0x7f) << shift;
            (shift, end) = (shift + 7, end + 1);
            if byte < 0x80 || shift > 28 {
                break;
            }
        }
        let section = module.get(at..end + size).ok_or_else(torn)?;
        if module[at] != 0 {
            kept.extend_from_slice(section);
        }
        at = end + size;
    }
    Ok(kept)
}

/// The module names no folder of this machine.
fn keep_private(module: &Path) -> Done {
    let bytes = fs::read(module).map_err(|fault| format!("{}: {fault}", module.display()))?;
    for (folder, _) in machine_folders() {
        let found = bytes
            .windows(folder.len())
            .position(|window| window == folder.as_bytes());
        if let Some(at) = found {
            let end = (at + 160).min(bytes.len());
            let words = String::from_utf8_lossy(&bytes[at..end]);
            return Err(format!(
                "the module names a folder of this machine: {words}"
            ));
        }
    }
    Ok(())
}

/// Writes a file; a failure names it.
fn write(path: &Path, bytes: &[u8]) -> Done {
    fs::write(path, bytes).map_err(|fault| format!("{}: {fault}", path.display()))
}

#[cfg(test)]
mod tests {
    use super::without_custom_sections;

    #[test]
    fn sections_of_tools_are_taken_off_and_no_others() {
        // Source: WebAssembly core specification, 5.5.2, by hand: a custom section "a" of 4 bytes, an empty type section, and
        // a custom one of 130 bytes, whose size takes two bytes.
        let head = b"\0asm\x01\0\0\0";
        let custom = [0, 4, 1, b'a', 7, 7];
        let types = [1, 1, 0];
        let mut long = vec![0, 0x82, 0x01, 1, b'b'];
        long.extend([9; 128]);
        let module = [head.as_slice(), &custom, &types, &long].concat();
        let kept = without_custom_sections(&module);
        assert_eq!(kept, Ok([head.as_slice(), &types].concat()));
        assert!(without_custom_sections(&module[..module.len() - 1]).is_err());
        assert!(without_custom_sections(&head[..4]).is_err());
    }
}
