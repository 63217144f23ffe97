//! What the job prints on panels.
//!
//! Given labels and pictures that have their places already; gives those on the drawn face. Words that do not run along
//! x are turned about the middle of their foot. A picture is its file itself, clipped to what shows of it.

use svg::node::Node;
use svg::node::element::{ClipPath, Group, Image, Path};
use traywright_document::{PanelLabel, PanelPicture, Point};
use traywright_look::INK;

use crate::drawing_area::DrawingArea;
use crate::ticks::Tick;
use crate::words;

/// The labels in a group of their own; a drawing without any has no such group.
pub(crate) fn labels(labels: &[PanelLabel], area: &DrawingArea) -> Option<Group> {
    let mut drawn = labels.iter().filter(|label| label.is_drawn()).peekable();
    drawn.peek()?;
    let label = |label: &PanelLabel| {
        let at = area.place(label.foot());
        let mut words = words::text(&label.text, at, label.height, INK);
        words.assign("text-anchor", "middle");
        let turned = label.turned_deg();
        if turned != 0.0 {
            // y runs down here, so the turn is the other way round.
            let turned = Tick::new(-turned);
            words.assign("transform", format!("rotate({turned} {} {})", at.x, at.y));
        }
        words
    };
    Some(
        drawn
            .map(label)
            .fold(Group::new().set("id", "labels"), Group::add),
    )
}

/// The pictures in a group of their own, below all lines; a drawing without any has no such group.
pub(crate) fn pictures(pictures: &[PanelPicture], area: &DrawingArea) -> Option<Group> {
    let mut drawn = pictures.iter().filter(|it| it.is_drawn()).peekable();
    drawn.peek()?;
    let group = Group::new().set("id", "pictures");
    let each = drawn.enumerate().map(|(index, picture)| {
        let id = format!("picture-{}", index + 1);
        let clip = ClipPath::new().set("id", id.as_str()).add(
            Path::new()
                .set("d", rings(&picture.shown, area))
                .set("clip-rule", "evenodd"),
        );
        Group::new().add(clip).add(
            Group::new()
                .set("clip-path", format!("url(#{id})"))
                .add(image(picture, area)),
        )
    });
    Some(each.fold(group, Group::add))
}

/// The file of a picture as a square of 1 mm, laid onto its place.
// Derived: a square's upper left corner comes to that of the picture, its right to the picture's, and its foot, as y runs
// down here, to the picture's foot.
fn image(picture: &PanelPicture, area: &DrawingArea) -> Image {
    let (low, across, up) = picture.frame();
    let corner = area.place(low + up);
    let [a, b, c, d] = [across.x, -across.y, -up.x, up.y].map(Tick::new);
    Image::new()
        .set("width", 1)
        .set("height", 1)
        .set("preserveAspectRatio", "none")
        .set(
            "transform",
            format!("matrix({a} {b} {c} {d} {} {})", corner.x, corner.y),
        )
        .set("xmlns:xlink", "http://www.w3.org/1999/xlink")
        .set(
            "xlink:href",
            format!("data:image/png;base64,{}", picture.file.base64()),
        )
}

/// Path data of closed rings.
fn rings(rings: &[Vec<Point>], area: &DrawingArea) -> String {
    let ring = |ring: &Vec<Point>| {
        let places: Vec<String> = ring.iter().map(|at| area.place(*at).to_string()).collect();
        format!("M {} Z", places.join(" L "))
    };
    rings.iter().map(ring).collect::<Vec<_>>().join(" ")
}
