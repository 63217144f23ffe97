//! `cargo xtask package`: all that a maker needs, in one folder and one archive.
//!
//! Builds a release and lays it out in `target/package/traywright-VERSION` as under `/usr/local`: `bin`, `lib/traywright`
//! (the exporters, where the program looks for them), `share` (manual, completions, licences, the page). Then it tries the
//! program in its new place, far from the tree. It never publishes anything.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::package_licences::licences;
use crate::page::{Build, page};
use crate::plugins::{build_release, place};
use crate::repository::{Done, answer, list, run, target, top};

/// Lays a release out under a prefix, such as `/usr/local` or a folder in your home; it can be moved as a whole later.
pub(crate) fn install(prefix: &Path) -> Done {
    package()?;
    let name = format!("traywright-{}", env!("CARGO_PKG_VERSION"));
    copy_all(&target()?.join("package").join(name), prefix)?;
    println!("installed under {}", prefix.display());
    Ok(())
}

fn copy_all(from: &Path, to: &Path) -> Done {
    for file in list(from)? {
        let name = file
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        if file.is_dir() {
            copy_all(&file, &to.join(&name))?;
        } else {
            copy(&file, to, &name)?;
        }
    }
    Ok(())
}

/// Lays out a release.
pub(crate) fn package() -> Done {
    let libraries = build_release(&["traywright"])?;
    let name = format!("traywright-{}", env!("CARGO_PKG_VERSION"));
    let packages = target()?.join("package");
    let home = packages.join(&name);
    empty(&packages)?;

    let program = format!("traywright{}", std::env::consts::EXE_SUFFIX);
    let program = PathBuf::from(place(&program, &home.join("bin"))?);
    for library in &libraries {
        place(library, &home.join("lib/traywright"))?;
    }
    pages(&program, &home)?;
    browser_page(&home)?;
    let words = home.join("share/doc/traywright");
    licences(&words.join("licences"))?;
    papers(&words)?;
    try_out(&program, &packages, &libraries)?;
    reach_all_links(&words)?;
    archive(&packages, &name)?;
    println!("{}\n{}.tar.gz", home.display(), home.display());
    Ok(())
}

/// The program as a page. It needs more than the rest does: without that it is left out, which is said.
fn browser_page(home: &Path) -> Done {
    match page(Build::Small) {
        Ok(()) => copy(
            &target()?.join("page/traywright.html"),
            &home.join("share/traywright"),
            "traywright.html",
        ),
        Err(why) => {
            eprintln!("The page is left out: {why}");
            Ok(())
        }
    }
}

fn empty(folder: &Path) -> Done {
    if folder.exists() {
        fs::remove_dir_all(folder).map_err(|fault| format!("{}: {fault}", folder.display()))?;
    }
    fs::create_dir_all(folder).map_err(|fault| format!("{}: {fault}", folder.display()))
}

/// The manual and the completions, which the program writes itself, each where its reader looks for it.
fn pages(program: &Path, home: &Path) -> Done {
    let all = home.join("pages");
    run(Command::new(program).arg("__pages").arg(&all))?;
    for page in list(&all)? {
        let name = page.file_name().unwrap_or_default().to_string_lossy();
        let (folder, installed) = match name.as_ref() {
            "traywright.bash" => ("bash-completion/completions", "traywright"),
            "_traywright" => ("zsh/site-functions", "_traywright"),
            "traywright.fish" => ("fish/vendor_completions.d", "traywright.fish"),
            manual if manual.ends_with(".1") => ("man/man1", manual),
            other => ("traywright/completions", other),
        };
        copy(&page, &home.join("share").join(folder), installed)?;
    }
    fs::remove_dir_all(&all).map_err(|fault| format!("{}: {fault}", all.display()))
}

fn copy(file: &Path, folder: &Path, name: &str) -> Done {
    fs::create_dir_all(folder)
        .and_then(|()| fs::copy(file, folder.join(name)))
        .map(|_| ())
        .map_err(|fault| format!("{}: {fault}", file.display()))
}

/// What makers and authors of styles and exporters read, and the jobs, styles and pictures that it leads to.
fn papers(words: &Path) -> Done {
    for file in ["LICENSE", "DEVELOPERS.md"] {
        copy(&top().join(file), words, file)?;
    }
    copy_all(&top().join("designs"), &words.join("designs"))?;
    for file in [
        "core/CONTRACT.md",
        "core/GEOMETRY.md",
        "core/document/include/traywright.h",
        "exporters/examples/cut-list/cut-list.c",
    ] {
        let file = Path::new(file);
        let folder = words.join(file.parent().unwrap_or(Path::new("")));
        let name = file
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        copy(&top().join(file), &folder, &name)?;
    }
    let readme = top().join("README.md");
    let text =
        fs::read_to_string(&readme).map_err(|fault| format!("{}: {fault}", readme.display()))?;
    let copied = words.join("README.md");
    fs::write(&copied, installed(&text)?).map_err(|fault| format!("{}: {fault}", copied.display()))
}

/// What the README of an installed program says in place of the words for its source.
const INSTALLED: &str = "\
If you use no terminal, open `share/traywright/traywright.html` of this installation in a browser: it is the whole program in
one page. Type what you measured, and look at the tray while it folds. The page needs no network and sends nothing.
If you use a terminal, run `traywright start mine.kdl`: the program asks for your box, your items and your card. Make the
example, a barometer in its keepsake box, in the folder of this README:

```sh
traywright make designs/jobs/barometer.kdl --into out
```
";

/// The README for a reader who has the program and not its source.
fn installed(readme: &str) -> Result<String, String> {
    let (before, rest) = readme
        .split_once("<!-- from the source -->\n")
        .ok_or("the README does not say where its words for the source begin")?;
    let (_, after) = rest
        .split_once("<!-- end -->\n")
        .ok_or("the README does not say where its words for the source end")?;
    Ok(format!("{before}{INSTALLED}{after}"))
}

/// Every link of a text that is installed leads to a file that is installed too.
fn reach_all_links(words: &Path) -> Done {
    for text in ["README.md", "DEVELOPERS.md", "designs/STYLE-GUIDE.md"] {
        let file = words.join(text);
        let written =
            fs::read_to_string(&file).map_err(|fault| format!("{}: {fault}", file.display()))?;
        let links = written
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split_once(')'));
        for (link, _) in links {
            let path = link.split('#').next().unwrap_or_default();
            let folder = file.parent().unwrap_or(words);
            if !path.is_empty() && !path.contains("://") && !folder.join(path).exists() {
                return Err(format!("{text} leads to {link}, which is not installed"));
            }
        }
    }
    Ok(())
}

/// The packaged program finds its exporters, and makes the shipped jobs far from the tree.
fn try_out(program: &Path, packages: &Path, libraries: &[String]) -> Done {
    let listed = answer(
        Command::new(program)
            .arg("exporters")
            .env_clear()
            .current_dir(packages),
    )?;
    if let Some(missing) = libraries.iter().find(|library| !listed.contains(*library)) {
        return Err(format!(
            "the packaged program does not see {missing}; it lists:\n{listed}"
        ));
    }
    let trial = packages.join("trial");
    let jobs = list(&top().join("designs/jobs"))?;
    run(Command::new(program)
        .args(["make", "--quiet", "--into"])
        .arg(&trial)
        .args(jobs)
        .env_clear()
        .current_dir(packages))?;
    fs::remove_dir_all(&trial).map_err(|fault| format!("{}: {fault}", trial.display()))
}

/// The same files give the same archive: order, owners and times are set.
fn archive(packages: &Path, name: &str) -> Done {
    let same = [
        "--sort=name",
        "--mtime=@0",
        "--owner=0",
        "--group=0",
        "--numeric-owner",
    ];
    run(Command::new("tar")
        .args(same)
        .args(["--use-compress-program", "gzip --no-name"])
        .args(["--create", "--file", &format!("{name}.tar.gz"), name])
        .current_dir(packages))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Reasoning: who installs the program has no source, so the first command is one of the program.
    #[test]
    fn the_readme_of_an_installed_program_begins_with_the_program() {
        let readme = fs::read_to_string(top().join("README.md")).expect("there is a README");
        let installed = installed(&readme).expect("its words for the source are marked");
        let command = installed.split("```sh\n").nth(1).expect("a command");
        assert!(command.starts_with("traywright make "), "{command}");
        assert!(!installed.contains("cargo run"), "{installed}");
        assert!(installed.contains("## 1. Measure"), "{installed}");
    }
}
