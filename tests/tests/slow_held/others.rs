//! The same of styles that nobody ships: fences and aprons that lean, feet under an item, fins beside it, a shelf, walls
//! that are no rectangle.
//!
//! Those in `slow_held/styles` are made for this test; the others are those of all tests.

use traywright_engine::Style;
use traywright_engine::job::{Cut, Job, Length, Setting, SettingInput};
use traywright_tests::jobs::{Dice, style};
use traywright_tests::thorough::part_of;

use super::agreement::compare;
use super::{Case, random};

/// Trays of each style.
const TRAYS: usize = 20;

#[test]
fn items_of_styles_by_others_go_as_far_as_told() {
    let own = ["hanging", "leaning", "finned", "shelved"].map(of_this_test);
    let all = [
        "clinometer",
        "lens-case",
        "lens-cradle",
        "seed-vials",
        "watch-rest",
    ]
    .map(|name| style(&format!("tests/styles/{name}.ron")));
    let styles = own.iter().chain(&all);
    let cases = styles.flat_map(|style| random::trays(style, 52, part_of(TRAYS), adapt));
    compare(&cases.collect::<Vec<Case>>());
}

/// A style of this test.
pub(crate) fn of_this_test(name: &str) -> Style {
    style(&format!("tests/tests/slow_held/styles/{name}.ron"))
}

/// Settings drawn at random, and an item that the style takes.
fn adapt(dice: &mut Dice, job: &mut Job) {
    let depth = job.box_size.depth.mm();
    let turned = dice.one_of([90.0, 90.0, 97.0, 108.0]);
    let fence = dice.between(5.0, 20.0);
    match job.style.as_str() {
        "hanging" => {
            let apron = dice.between(3.0, 14.0);
            set(job, "apron-depth", SettingInput::Length(apron));
            set(job, "turn", SettingInput::Angle(turned));
        }
        "leaning" => {
            set(job, "fence-height", SettingInput::Length(fence));
            set(
                job,
                "turn",
                SettingInput::Angle(dice.one_of([90.0, 85.0, 70.0])),
            );
        }
        "finned" => adapt_fins(dice, job),
        "shelved" => {
            let level = dice.between(0.6, 0.95) * (depth - job.fit.around_tray.mm());
            set(job, "level", SettingInput::Length(level));
            let depth = job.items[0].depth.mm().min(level);
            job.items[0].depth = Length::known(depth);
            job.items[0].straight = None;
        }
        _ => job.fit.around_item = Length::known(4.0),
    }
}

/// Feet under the item, or fins: wherever they come to stand, or so near that they hold the item.
fn adapt_fins(dice: &mut Dice, job: &mut Job) {
    let depth = job.box_size.depth.mm();
    let tray = job.box_size.width.mm() - job.fit.around_tray.mm();
    let near = (tray - job.items[0].width.mm()) / 2.0 - dice.between(0.1, 0.9);
    let anywhere = dice.between(5.0, near.max(6.0));
    let (width, height) = dice.one_of([
        (near, 0.6 * depth),
        (near, 0.3 * depth),
        (anywhere, 0.4 * depth),
        (anywhere, 0.0),
        (tray / 2.0 - 8.0, 0.0),
    ]);
    if height > 0.0 {
        job.items[0].cut = Some(Cut::Open);
    }
    set(job, "foot-width", SettingInput::Length(width));
    set(job, "fin-height", SettingInput::Length(height));
}

/// Sets a setting of the style, in place of what was set.
pub(crate) fn set(job: &mut Job, name: &str, answer: SettingInput) {
    job.settings.retain(|setting| setting.name != name);
    job.settings.push(Setting {
        name: name.to_owned(),
        answer,
        place: 0..0,
    });
}
