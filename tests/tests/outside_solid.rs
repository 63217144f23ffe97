//! Readers that know nothing of traywright find in its glTF closed solids where its FOLD file says that the card stands.
//!
//! Outsiders: the validator of the format's publishers (JavaScript, `outside/gltf.js`); trimesh 4.12, manifold3d 3.5,
//! shapely 2.2 and numpy 2.4 (Python, `outside/glb.py`). Expected volumes and corners come from the FOLD file.

use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;
use traywright_tests::every_style::make;
use traywright_tests::thorough::part_of;
use traywright_tests::{measured, node, repository, run};

/// How many random trays are made. The number is our choice.
const RANDOM: usize = 200;

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder can be made")
}

/// Makes the shipped jobs as glTF and FOLD; returns their names.
fn shipped(into: &Path) -> Vec<String> {
    let jobs = fs::read_dir(repository().join("designs/jobs")).expect("jobs ship");
    let paths: Vec<String> = jobs
        .flatten()
        .map(|job| job.path().display().to_string())
        .filter(|path| path.ends_with(".kdl"))
        .collect();
    let mut words = vec!["make", "--as", "solid,fold"];
    words.extend(paths.iter().map(String::as_str));
    let outcome = run(into, &words);
    assert_eq!(outcome.code, 0, "{}", outcome.stderr);
    let stem = |path: &String| Some(Path::new(path).file_stem()?.to_str()?.to_owned());
    paths.iter().filter_map(stem).collect()
}

fn word(folder: &Path) -> &str {
    folder
        .to_str()
        .expect("a temporary folder has a plain name")
}

#[test]
fn the_shipped_trays_are_closed_solids_where_the_card_stands() {
    let folder = folder();
    let names = shipped(folder.path());
    check(folder.path(), &names);
}

#[test]
fn random_trays_are_closed_solids_where_the_card_stands() {
    let folder = folder();
    // The file of the exporter `solid` ends in `glb`, so `fold` stands first: its files are counted.
    let made = make(folder.path(), 17, part_of(RANDOM), "fold,solid", |_| {
        String::new()
    });
    assert!(made.len() >= 10, "{} trays", made.len());
    let names: Vec<String> = made.into_iter().map(|(name, _)| name).collect();
    check(folder.path(), &names);
}

/// The validator has nothing against the files, and the other readers find the solids as they must be.
fn check(folder: &Path, names: &[String]) {
    if let Some(told) = node("gltf.js", &[word(folder)]) {
        let told: Value = serde_json::from_str(&told.unwrap_or_else(|why| panic!("{why}")))
            .expect("the script prints JSON");
        assert_eq!(told.as_object().map(|told| told.len()), Some(names.len()));
        for name in names {
            let found = &told[name];
            assert_eq!(found["errors"], 0, "{name}: {found}");
            assert_eq!(found["warnings"], 0, "{name}: {found}");
            assert!(found["triangles"].as_u64() > Some(100), "{name}: {found}");
        }
    }
    let Some(told) = measured("glb.py", &["pairs", word(folder)]) else {
        return;
    };
    let told = told.unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(told.as_object().map(|told| told.len()), Some(names.len()));
    let number = |value: &Value| value.as_f64().expect("a number");
    let shares = names.iter().map(|name| {
        let found = &told[name];
        number(&found["solids"]) / number(&found["card"])
    });
    let (least, most) = shares.fold((f64::INFINITY, 0.0_f64), |(least, most), share| {
        (least.min(share), most.max(share))
    });
    println!(
        "{} trays; solids are {least:.5} to {most:.5} of area times caliper",
        names.len()
    );
}

#[test]
fn a_file_that_is_damaged_is_noticed() {
    let folder = folder();
    let sound = {
        let all = folder.path().join("all");
        fs::create_dir(&all).expect("a folder can be made");
        shipped(&all);
        for ending in ["glb", "fold"] {
            let name = format!("barometer.{ending}");
            fs::copy(all.join(&name), folder.path().join(&name)).expect("a file can be copied");
        }
        fs::remove_dir_all(&all).expect("a folder can be removed");
        fs::read(folder.path().join("barometer.glb")).expect("the file was made")
    };
    let text = |from: &str, to: &str| {
        // The last: a mesh has the name of its node, and stands before it.
        let at = sound
            .windows(from.len())
            .rposition(|bytes| bytes == from.as_bytes());
        let at = at.unwrap_or_else(|| panic!("no {from}"));
        let mut bytes = sound.clone();
        bytes[at..at + to.len()].copy_from_slice(to.as_bytes());
        bytes
    };
    // The exponent of the first number of the first corner; and a triangle with one corner twice.
    let start = binary_start(&sound);
    let mut moved = sound.clone();
    moved[start + 3] ^= 1;
    let mut torn = sound.clone();
    let corners = corner_bytes(&sound);
    let first = start + corners;
    torn.copy_within(first + 4..first + 8, first);
    for (bytes, words) in [
        (text("\"angle\":90.0", "\"angle\":80.0"), "folded by 80"),
        (text("\"strips\":1", "\"strips\":9"), "strips says"),
        (
            text("\"name\":\"deck\"", "\"name\":\"duck\""),
            "no panel duck",
        ),
        (moved, "deck"),
        (torn, "is not closed"),
    ] {
        assert_ne!(bytes, sound, "{words}");
        fs::write(folder.path().join("barometer.glb"), &bytes).expect("the file can be replaced");
        let Some(verdict) = measured("glb.py", &["pairs", word(folder.path())]) else {
            return;
        };
        let fault = verdict.expect_err(&format!("{words} was let pass"));
        assert!(fault.contains(words), "{words}: {fault}");
    }
}

/// Where the binary chunk's bytes begin.
// Source: glTF 2.0, "Binary glTF layout": a head of 12 bytes, then chunks of a length, a kind and that many bytes.
fn binary_start(file: &[u8]) -> usize {
    let length = u32::from_le_bytes([file[12], file[13], file[14], file[15]]);
    20 + length as usize + 8
}

/// Bytes of all corners, which stand before the triangles.
fn corner_bytes(file: &[u8]) -> usize {
    let json: Value =
        serde_json::from_slice(&file[20..binary_start(file) - 8]).expect("the first chunk is JSON");
    let view = &json["bufferViews"][0]["byteLength"];
    view.as_u64().expect("a length") as usize
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    let [one, other] = [(); 2].map(|()| {
        let folder = folder();
        shipped(folder.path());
        fs::read(folder.path().join("seed-vials.glb")).expect("the file was made")
    });
    assert!(one == other);
}
