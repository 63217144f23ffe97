//! What the tests stand on: the program under test, built with its exporters, and a way to run it.
//!
//! Given nothing but the place of the running test, it gives the built program, what a run of it said, and the
//! repository's folder. It never says what is right: that is said in `tests/`, with its source beside it.

mod building;
pub mod changing;
pub mod every_style;
pub mod expected;
pub mod figures;
mod files;
pub mod jobs;
pub mod made;
mod outside;
pub mod refusals;
pub mod rounding;
mod running;
pub mod sights;
pub mod svg_lines;
pub mod thorough;
pub mod trying;
pub mod union;

use std::path::Path;

pub use building::{cargo, program, target_folder};
pub use files::files;
pub use outside::{built_page, measured, node, page_script, python, skip, system_program};
pub use running::{Outcome, run, run_command};

/// The top folder of the repository.
pub fn repository() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests lie one folder below the repository's top")
}
