//! The pictures of a job on the panels of its tray: where each lies, how large, on which face, and what shows of it.
//!
//! **Input:** a tray as drawn, and the pictures that the job asks for. **Output:** each picture with the area of its panel
//! that it prints: the panel and the bleed beyond its cuts, off its creases, its openings and all other panels.
//! **Errors:** an unknown panel, a second picture on a panel, and a panel without room.
//! A picture whose file nobody has read is left out.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use traywright_document::{Chords, Contour, Extent, Flat, PanelPicture, Point, Turn, Vector};

use super::free_rectangle::{Frame, Wanted, largest};
use super::{DrawnTray, MARGIN, shown, turned_top, unknown_panel};
use crate::finding::SourceError;
use crate::job::{Picture, PictureFit, Print};

/// How far a chord may lie from its arc, in mm: the edge of print is cut off, or hidden by the line beside it.
const CHORDS: Chords = Chords::Within(0.02);

type Ring = Vec<[f64; 2]>;

/// Places all pictures of a job. Print reaches `bleed` mm beyond cuts.
///
/// # Errors
/// Those of all pictures.
pub(crate) fn place_pictures(
    tray: DrawnTray,
    prints: &[Print],
    bleed: f64,
) -> Result<Vec<PanelPicture>, Vec<SourceError>> {
    let mut placed: Vec<PanelPicture> = Vec::new();
    let mut owners: Vec<&Print> = Vec::new();
    let mut faults = Vec::new();
    for print in prints {
        let Some(panel) = tray.panels.iter().position(|it| it.name == print.panel) else {
            faults.push(unknown_panel(tray, &print.panel, &print.panel_place));
            continue;
        };
        if let Some(first) = owners.iter().find(|other| other.panel == print.panel) {
            faults.push(second_picture(print, first));
            continue;
        }
        owners.push(print);
        let Some(picture) = &print.picture else {
            continue;
        };
        match placed_one(tray, (print, picture), panel, bleed) {
            Some(found) => placed.push(found),
            None => faults.push(without_room(print)),
        }
    }
    if faults.is_empty() {
        Ok(placed)
    } else {
        Err(faults)
    }
}

fn placed_one(
    tray: DrawnTray,
    (print, picture): (&Print, &Picture),
    panel: usize,
    bleed: f64,
) -> Option<PanelPicture> {
    let top = shown::top(&tray, panel);
    let shape = f64::from(picture.pixels[0]) / f64::from(picture.pixels[1]);
    let is_across = matches!(print.turn, Turn::Quarter | Turn::ThreeQuarters);
    // For a picture 1 mm high.
    let wanted = Wanted {
        width: shape,
        height: 1.0,
        enough: f64::INFINITY,
    };
    let room = largest(tray, panel, (Frame::of(top, is_across), &[]), wanted)?;
    let printed_on = shown::face_at(&tray, panel, room.middle);
    let up = turned_top(top, print.turn, printed_on);
    let area = printable(tray, panel, bleed);
    let (at, height) = match print.fit {
        PictureFit::Inside => (room.middle, room.height),
        PictureFit::Cover => covering(&area, up, shape)?,
    };
    let picture = PanelPicture {
        file: picture.file.clone(),
        panel,
        at,
        up,
        size: [height * shape, height],
        printed_on,
        shown: Vec::new(),
    };
    let shown = common(&area, &corners(&picture));
    (!shown.is_empty()).then_some(PanelPicture { shown, ..picture })
}

/// The middle and the height of a picture that covers an area.
fn covering(area: &[Vec<Ring>], up: Vector, shape: f64) -> Option<(Point, f64)> {
    let right = up.right();
    let places = area.iter().flatten().flatten();
    let inside = places.map(|[x, y]| {
        let way = Vector::new(*x, *y);
        Point::new(way.dot(right), way.dot(up))
    });
    let around = Extent::around(inside);
    let [width, height] = around.size();
    let middle = around.least.middle(around.most);
    let at = Point::ORIGIN + right * middle.x + up * middle.y;
    (width > 0.0).then(|| (at, height.max(width / shape)))
}

/// The area of a panel that may be printed: the panel and the bleed beyond its cuts, less its creases with their margin,
/// its openings and all other panels.
fn printable(tray: DrawnTray, panel: usize, bleed: f64) -> Vec<Vec<Ring>> {
    let own = &tray.panels[panel];
    let outline = corners_of(&own.outline);
    let mut wide = vec![outline.clone()];
    if bleed > 0.0 {
        let ends = outline.iter().zip(outline.iter().cycle().skip(1));
        wide.extend(ends.map(|(from, to)| band(*from, *to, bleed, 0.0)));
    }
    let margin = MARGIN + tray.caliper;
    let mut taken: Vec<Ring> = own.holes.iter().map(corners_of).collect();
    let others = tray.panels.iter().enumerate();
    let others = others.filter(|(other, _)| *other != panel);
    taken.extend(others.map(|(_, other)| corners_of(&other.outline)));
    taken.extend(creases(tray.flat, margin));
    let wide: Vec<Vec<Ring>> =
        wide.overlay(&Vec::<Ring>::new(), OverlayRule::Union, FillRule::NonZero);
    let taken: Vec<Ring> = taken.into_iter().map(counter_clockwise).collect();
    wide.overlay(&taken, OverlayRule::Difference, FillRule::NonZero)
}

/// The creases with their margins.
fn creases(flat: &Flat, margin: f64) -> impl Iterator<Item = Ring> + '_ {
    let creases = flat.creases.iter();
    creases.map(move |crease| {
        let [from, to] = [crease.from, crease.to].map(|end| [end.x, end.y]);
        band(from, to, margin, margin)
    })
}

/// The rectangle along a line that reaches so far to both sides and beyond both ends, counter-clockwise.
fn band(from: [f64; 2], to: [f64; 2], beside: f64, beyond: f64) -> Ring {
    let [from, to] = [from, to].map(|[x, y]| Point::new(x, y));
    let along = (to - from).unit();
    let (ahead, left) = (along * beyond, along.left() * beside);
    [
        from + -ahead + -left,
        to + ahead + -left,
        to + ahead + left,
        from + -ahead + left,
    ]
    .map(|at| [at.x, at.y])
    .into()
}

fn corners_of(contour: &Contour) -> Ring {
    let corners = contour.corners(CHORDS).into_iter();
    counter_clockwise(corners.map(|at| [at.x, at.y]).collect())
}

fn counter_clockwise(mut ring: Ring) -> Ring {
    let ends = ring.iter().zip(ring.iter().cycle().skip(1));
    let doubled: f64 = ends.map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum();
    if doubled < 0.0 {
        ring.reverse();
    }
    ring
}

fn corners(picture: &PanelPicture) -> Ring {
    let (low, across, up) = picture.frame();
    let ring = [low, low + across, low + across + up, low + up];
    counter_clockwise(ring.map(|at| [at.x, at.y]).into())
}

/// What an area and a ring have in common, as rings.
fn common(area: &[Vec<Ring>], ring: &Ring) -> Vec<Vec<Point>> {
    let rings: Vec<Ring> = area.iter().flatten().cloned().collect();
    let both: Vec<Vec<Ring>> = rings.overlay(
        &vec![ring.clone()],
        OverlayRule::Intersect,
        FillRule::EvenOdd,
    );
    let points = |ring: Ring| ring.into_iter().map(|[x, y]| Point::new(x, y)).collect();
    both.into_iter().flatten().map(points).collect()
}

fn second_picture(print: &Print, first: &Print) -> SourceError {
    let title = format!("a second picture on `{}`", print.panel);
    let fault = SourceError::new(
        print.panel_place.clone(),
        title,
        "a panel has one picture: choose another panel, or put both into one file",
    );
    fault.with_context(first.panel_place.clone(), "the first is printed here")
}

fn without_room(print: &Print) -> SourceError {
    let title = format!("`{}` has no room for a picture", print.panel);
    SourceError::new(
        print.panel_place.clone(),
        title,
        "what lies off its creases and openings is too narrow: choose another panel",
    )
}
