//! The figures after the last step: the items over the finished tray, and the tray over its box and in it.

use super::{Figure, Part, Scene, Sight, Staging, View, drawn};

impl Staging<'_> {
    /// The items over the finished tray.
    pub(crate) fn items_above(&self) -> Figure {
        self.items_going_in(self.last(), self.last_view())
    }

    /// The finished tray in its box, the items in it.
    pub(crate) fn in_the_box(&self) -> Figure {
        let scene = self.boxed();
        let sight = Sight::of(&scene, View::FIRST);
        drawn(&sight, &|part| part == Part::Item)
    }

    /// The finished tray in its box.
    pub(super) fn boxed(&self) -> Scene {
        let stage = self.last();
        let mut scene = self.standing(stage);
        scene.add_box(self.document, 0.0);
        if !stage.placed {
            scene.add_items(&self.card, stage, 0.0);
        }
        scene
    }

    /// The finished tray over its box.
    pub(crate) fn over_the_box(&self) -> Figure {
        let mut scene = self.standing(self.last());
        let [least, most] = scene.reach();
        let lowered = self.document.box_size.depth.mm() + 0.6 * (most[2] - least[2]);
        scene.add_box(self.document, lowered);
        let view = self.last_view();
        let sight = Sight::of(&scene, view);
        let mut figure = drawn(&sight, &|_| false);
        // The corner nearest to the eye.
        let [_, _, towards] = view.axes();
        let near = |axis: usize| {
            if towards[axis] < 0.0 {
                least[axis]
            } else {
                most[axis]
            }
        };
        let corner = [near(0), near(1), least[2]];
        let end = [
            corner[0],
            corner[1],
            corner[2] - lowered + 0.5 * self.document.box_size.depth.mm(),
        ];
        figure
            .arrows
            .push(vec![view.on_plane(corner), view.on_plane(end)]);
        figure
    }
}
