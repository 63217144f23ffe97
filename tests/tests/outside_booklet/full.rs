//! No page stays half empty: how far down pages are filled, on the shipped jobs and on three papers in both languages.
//!
//! Source: the project's plan: no page under two thirds full but the last. Tools: poppler for words, pypdf for strokes, in
//! `outside/booklet.py`.

use std::fs;

use traywright_tests::made::{Made, full};
use traywright_tests::repository;
use traywright_tests::thorough::part_of;

/// A page is full from here on.
const FULL: f64 = 2.0 / 3.0;

/// Papers and languages: two of them, all where the tests are asked to be thorough.
const PAPERS: [(&str, &str); 5] = [
    ("A4", "en"),
    ("A5", "de"),
    ("A5", "en"),
    ("A4", "de"),
    ("Letter", "en"),
];

/// Whether all pages but the last are full.
pub(crate) fn is_full(shares: &[f64]) -> bool {
    let before = shares.len().saturating_sub(1);
    shares.len() > 1 && shares[..before].iter().all(|share| *share >= FULL)
}

/// A shipped job on a paper in a language.
fn job(text: &str, page: &str, language: &str) -> String {
    let kept = text
        .lines()
        .filter(|line| !line.starts_with("page ") && !line.starts_with("words "));
    let kept: Vec<&str> = kept.collect();
    format!(
        "{}\npage \"{page}\"\nwords \"{language}\"\n",
        kept.join("\n")
    )
}

#[test]
fn every_page_of_the_shipped_jobs_but_the_last_is_two_thirds_full() {
    let jobs = fs::read_dir(repository().join("designs/jobs"))
        .expect("jobs ship")
        .flatten();
    let (mut count, papers) = (0, part_of(PAPERS.len()) + 1);
    let papers = papers.min(PAPERS.len());
    for path in jobs.map(|file| file.path()) {
        let text = fs::read_to_string(&path).expect("a job can be read");
        for (page, language) in PAPERS.into_iter().take(papers) {
            let made = Made::new(&job(&text, page, language), "booklet");
            let Some(told) = made.apart() else { return };
            let shares = full(&told.unwrap_or_else(|faults| panic!("{faults}")));
            assert!(
                is_full(&shares),
                "{} {page} {language}: {shares:?}",
                path.display()
            );
            count += 1;
        }
    }
    assert_eq!(count, 8 * papers);
}

#[test]
fn a_page_that_is_half_empty_is_found() {
    // Source: by hand; the last page may be as empty as it likes.
    assert!(is_full(&[0.9, 0.67, 0.1]));
    assert!(!is_full(&[0.9, 0.66, 0.9]));
    assert!(!is_full(&[0.9]));
}
