//! What two calls into one folder do to each other.

use std::fs;
use std::path::Path;

use super::moves::Moves;
use super::*;

fn stored(delivery: &Delivery, names: &[&str]) -> Vec<StoredFile> {
    let store = |name: &&str| {
        let bytes = format!("the new {name}");
        delivery.store(Path::new(name), bytes.as_bytes())
    };
    let files = names.iter().map(store).collect::<Result<_, _>>();
    files.expect("the files can be stored")
}

#[test]
fn a_call_that_is_killed_while_another_one_computes_is_repaired_before_that_delivers() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let into = folder.path();
    let quiet = Output::new(true);
    let waiting = Delivery::new(into, quiet);
    let later = stored(&waiting, &["lens.dxf"]);
    let killed = Delivery::new(into, quiet);
    let earlier = stored(&killed, &["lens.svg", "lens.dxf"]);
    let hidden = killed.hidden().expect("it is made");
    let mut moves = Moves::prepare(into, &hidden, &earlier).expect("nothing is in the way");
    moves.record().expect("the list can be written");
    // The call ends here, and with it its lock.
    if let Some(opened) = &mut *killed.opened.lock().expect("nobody panicked") {
        opened.hidden.keep();
    }
    drop(killed);
    let files = waiting.deliver(&later, |_| Ok(()));
    files.expect("the file can be delivered");
    let read = |name: &str| fs::read_to_string(into.join(name)).expect("it is there");
    assert_eq!(read("lens.svg"), "the new lens.svg");
    assert_eq!(read("lens.dxf"), "the new lens.dxf");
    let left = into.read_dir().expect("it can be read").count();
    assert_eq!(left, 2, "a hidden folder is left");
}
