//! The document's promise that a panel is on the right of its hinge's line, for every shipped job seen from both faces.

use std::fs;
use std::path::Path;

use traywright_document::{Chords, DrawnFace, Point};
use traywright_engine::{Style, make};
use traywright_job::job_file::read;
use traywright_job::library::{Boards, Styles};

/// How far a point is to the right of the line between two points.
// Source: the cross product of plane vectors, positive where the second turns left of the first.
fn right_of([from, to]: [Point; 2], point: Point) -> f64 {
    let (along_x, along_y) = (to.x - from.x, to.y - from.y);
    let length = (along_x * along_x + along_y * along_y).sqrt();
    ((point.x - from.x) * along_y - (point.y - from.y) * along_x) / length
}

#[test]
fn a_panel_lies_right_of_its_hinge_whichever_face_is_drawn() {
    let jobs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../designs/jobs");
    let (boards, styles) = (Boards::shipped(), Styles::shipped());
    let mut hinges = 0;
    for file in fs::read_dir(jobs).expect("jobs ship").flatten() {
        let name = file.path().display().to_string();
        let bytes = fs::read(file.path()).expect("a job can be read");
        let mut job = read(&name, &bytes, &boards).expect("a shipped job is sound");
        let text = styles.get(&job.style).expect("its style ships");
        let style = Style::read(&text.name, &text.text).expect("a shipped style is sound");
        for face in [DrawnFace::Inside, DrawnFace::Outside] {
            job.output.drawn_face = face;
            let document = make(&style, &job)
                .expect("a shipped job fits")
                .finish()
                .document();
            for panel in &document.panels {
                let Some(hinge) = &panel.hinge else { continue };
                let corners = panel.outline.corners(Chords::Within(0.01)).into_iter();
                let sides: Vec<f64> = corners.map(|point| right_of(hinge.line, point)).collect();
                let least = sides.iter().copied().fold(f64::INFINITY, f64::min);
                let most = sides.iter().copied().fold(0.0, f64::max);
                assert!(
                    least > -1e-6 && most > 0.1,
                    "{name} {face:?} {}: {least} {most}",
                    panel.name
                );
                hinges += 1;
            }
        }
    }
    // Source: eight jobs ship, none with fewer than twelve panels.
    assert!(hinges > 8 * 2 * 12, "{hinges}");
}
