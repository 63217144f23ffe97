//! Where the scripts leave every corner of a folded tray, against the folded form of its FOLD file.

use traywright_tests::page_script;

use crate::{Job, made, shipped, web, word};

/// Two ways to one place differ by no more.
// Derived: FOLD files have twelve decimals of a millimetre, and a dozen rotations of 1000 mm lose four digits of sixteen.
const SAME_MM: f64 = 1e-9;

/// Every shipped job, drawn on either face, with fold lines in the middle of the card and beside it.
pub(crate) fn variants() -> Vec<Job> {
    let mut jobs = Vec::new();
    for job in shipped() {
        for (hinge, hinge_name) in [("", "middle"), (" hinge=(mm)0.1", "beside")] {
            for face in ["inside", "outside"] {
                let lines = job.text.lines().filter(|line| !line.starts_with("draw "));
                let lines = lines.map(|line| match line.strip_prefix("board ") {
                    Some(rest) if !rest.contains("hinge") => format!("board {rest}{hinge}\n"),
                    _ => format!("{line}\n"),
                });
                let text: String = lines.collect();
                jobs.push(Job {
                    name: format!("{}-{hinge_name}-{face}", job.name),
                    text: format!("{text}draw face=\"{face}\"\n"),
                });
            }
        }
    }
    jobs
}

#[test]
fn the_scripts_fold_every_tray_to_where_the_document_has_it() {
    let jobs = variants();
    assert_eq!(jobs.len(), 32);
    let folder = made(&jobs, "html,fold");
    let mut words = vec![web()];
    for job in &jobs {
        for ending in ["html", "fold"] {
            words.push(word(&folder.path().join(format!("{}.{ending}", job.name))));
        }
    }
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let Some(told) = page_script("poses.mjs", &words) else {
        return;
    };
    let told = told.unwrap_or_else(|why| panic!("{why}"));
    let trays = told.as_array().expect("one for each tray");
    let mut apart = 0;
    for (job, tray) in jobs.iter().zip(trays) {
        let number = |key: &str| tray[key].as_f64().expect("a number");
        assert!(number("worst") < SAME_MM, "{}: {tray}", job.name);
        assert!(number("rigid") < 1e-12, "{}: {tray}", job.name);
        assert!(
            (number("stands") - 1.0).abs() < 1e-12,
            "{}: {tray}",
            job.name
        );
        assert!(number("corners") > 40.0, "{}: {tray}", job.name);
        apart += usize::from(tray["apart"] == true);
    }
    assert!(
        apart >= 16,
        "only {apart} trays fold beside the middle of their card"
    );
}
