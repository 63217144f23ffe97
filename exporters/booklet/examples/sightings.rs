//! What every figure of a booklet shows, as JSON for a depth buffer from outside.
//!
//! Given a document's bytes on standard input; writes the list that `tests/outside/visible.py` reads.

use std::io::{Read, stdin, stdout};

use traywright_booklet::{Sighting, sightings};
use traywright_document::wire::decode;

fn main() {
    let mut bytes = Vec::new();
    stdin()
        .read_to_end(&mut bytes)
        .expect("a document can be read");
    let document = decode(&bytes).expect("the document can be understood");
    let figures: Vec<_> = sightings(&document).iter().map(json).collect();
    serde_json::to_writer(stdout(), &figures).expect("the list can be written");
}

fn json(sighting: &Sighting) -> serde_json::Value {
    serde_json::json!({
        "surfaces": sighting.surfaces,
        "edges": sighting.edges,
        "seen": sighting.seen,
    })
}
