//! What the job prints on the panels of a scene: its labels and pictures in space.
//!
//! Given a document and the poses of its panels; gives each label and picture with the surface that carries it. It does not
//! know what of them is seen.

use std::rc::Rc;

use traywright_document::space::Vec3;
use traywright_document::{Document, DrawnFace, PngFile, Point, Pose, Vector};

/// A label in space.
#[derive(Clone, Debug)]
pub(crate) struct SceneLabel {
    pub(crate) text: String,
    /// Index of the surface that carries it.
    pub(crate) surface: usize,
    /// Whether it lies on the surface's first face.
    pub(crate) on_first_face: bool,
    /// The middle of its foot, and a millimetre along the words and up.
    pub(crate) at: Vec3,
    pub(crate) along: Vec3,
    pub(crate) up: Vec3,
    pub(crate) corners: [Vec3; 4],
    pub(crate) height: f64,
}

impl SceneLabel {
    /// The labels of a tray whose panels stand so; the surfaces of panels come first and in their order.
    pub(crate) fn all(document: &Document, poses: &[Pose]) -> Vec<SceneLabel> {
        let labels = document.flat.panel_labels.iter();
        let labels = labels.filter_map(|label| Some((label, poses.get(label.panel)?)));
        let is_inside = document.output.drawn_face == DrawnFace::Inside;
        labels
            .map(|(label, pose)| {
                let way = |way: Vector| pose.turn([way.x, way.y, 0.0]);
                let place = |at: Point| pose.apply(at.in_space());
                SceneLabel {
                    text: label.text.clone(),
                    surface: label.panel,
                    on_first_face: label.is_drawn() == is_inside,
                    at: place(label.foot()),
                    along: way(label.along()),
                    up: way(label.up),
                    corners: label.corners().map(place),
                    height: label.height,
                }
            })
            .collect()
    }
}

/// A picture in space.
#[derive(Clone, Debug)]
pub(crate) struct ScenePicture {
    pub(crate) file: Rc<PngFile>,
    /// Index of the surface that carries it.
    pub(crate) surface: usize,
    /// Whether it lies on the surface's first face.
    pub(crate) on_first_face: bool,
    /// Its lower left corner, and the ways along its foot and to its top, all of them.
    pub(crate) at: Vec3,
    pub(crate) across: Vec3,
    pub(crate) up: Vec3,
    pub(crate) shown: Vec<Vec<Vec3>>,
}

impl ScenePicture {
    /// The pictures of a tray whose panels stand so; the surfaces of panels come first and in their order.
    pub(crate) fn all(document: &Document, poses: &[Pose]) -> Vec<ScenePicture> {
        let pictures = document.flat.panel_pictures.iter();
        let pictures = pictures.filter_map(|it| Some((it, poses.get(it.panel)?)));
        let is_inside = document.output.drawn_face == DrawnFace::Inside;
        pictures
            .map(|(picture, pose)| {
                let way = |way: Vector| pose.turn([way.x, way.y, 0.0]);
                let place = |at: &Point| pose.apply(at.in_space());
                let (low, across, up) = picture.frame();
                let ring = |ring: &Vec<Point>| ring.iter().map(place).collect();
                ScenePicture {
                    file: Rc::new(picture.file.clone()),
                    surface: picture.panel,
                    on_first_face: picture.is_drawn() == is_inside,
                    at: place(&low),
                    across: way(across),
                    up: way(up),
                    shown: picture.shown.iter().map(ring).collect(),
                }
            })
            .collect()
    }
}
