//! The benchmark suite: `cargo bench --package traywright-tests`, with `-- --thorough` for the large counts.
//!
//! First the outlines of the yardstick are compared with ours. Then divan times the stages inside one process, and whole
//! commands and growth follow as tables of Markdown. Nothing asserts a time.

use std::env;
use std::fs;

use divan::{Bencher, Divan, black_box};
use traywright_document::wire;
use traywright_engine::{CheckedTray, Style, make};
use traywright_tests::figures::{self, Counts};
use traywright_tests::{jobs, repository};

fn main() {
    let thorough = env::args().any(|word| word == "--thorough");
    let counts = if thorough {
        Counts::Thorough
    } else {
        Counts::Small
    };
    if let Some(differing) = figures::differing_outlines(counts.batch()) {
        assert!(differing.is_empty(), "other outlines: {differing:?}");
    }
    Divan::default().sample_count(100).main();
    println!("\n| command | least time | × start of a process |\n|---|---|---|");
    print!("{}", figures::one_job(counts));
    print!("{}", figures::exporters(counts));
    println!("| **{} jobs** | | |", counts.batch());
    print!("{}", figures::batch(counts));
    print!("{}", figures::saving(counts));
    print!("{}", figures::nesting(counts));
    println!("\n| growth | least time | |\n|---|---|---|");
    print!("{}", figures::by_panels(counts));
    print!("{}", figures::by_openings(counts));
    print!("{}", figures::by_jobs(counts));
}

fn checked() -> CheckedTray {
    let style = jobs::style("designs/styles/single-slot.ron");
    make(&style, &figures::trays(1)[0]).unwrap_or_else(|refusal| panic!("{refusal:#?}"))
}

#[divan::bench]
fn read_style(bencher: Bencher) {
    let file = repository().join("designs/styles/single-slot.ron");
    let text = fs::read_to_string(file).expect("the style can be read");
    bencher.bench(|| Style::read("single-slot", black_box(&text)));
}

#[divan::bench]
fn check(bencher: Bencher) {
    let style = jobs::style("designs/styles/single-slot.ron");
    let job = &figures::trays(1)[0];
    bencher.bench(|| make(&style, black_box(job)));
}

#[divan::bench]
fn finish_and_document(bencher: Bencher) {
    bencher
        .with_inputs(checked)
        .bench_values(|tray| tray.finish().document());
}

#[divan::bench]
fn encode(bencher: Bencher) {
    let document = checked().finish().document();
    bencher.bench(|| wire::encode(black_box(&document)));
}

#[divan::bench]
fn decode(bencher: Bencher) {
    let bytes = wire::encode(&checked().finish().document());
    bencher.bench(|| wire::decode(black_box(&bytes)));
}
