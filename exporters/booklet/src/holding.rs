//! What the booklet says of pads, and of what holds each item in the folded tray.
//!
//! **Input:** the items of the document. **Output:** sentences. **Does not** compute a pad or a stop: the document has
//! both.

use traywright_document::{CreaseKind, Held, Holder, Item, Stop};
use traywright_look::filled;

use crate::tray::BookletInput;

/// Pads that differ by less have one thickness.
// Source: no rule of the trade; below what a hand can measure.
const SAME_MM: f64 = 0.05;

/// A kind of item, with how many there are of it.
type Kind<'a> = (&'a Item, usize);

/// The pads as parts to get ready, a sentence each.
pub(crate) fn pads_to_cut(tray: &BookletInput) -> Vec<String> {
    let (words, lengths) = (&tray.words().before, tray.lengths());
    let caliper = tray.document.board.caliper;
    let kinds = tray.document.kinds_on_pads();
    let needed = kinds.map(|kind| {
        let count = (kind.0.pad / caliper).round().max(1.0);
        let form = if count > 1.0 {
            &words.layers
        } else {
            &words.layer
        };
        let given = lengths.say(count * caliper);
        let layers = filled(form, &[("count", &count.to_string()), ("given", &given)]);
        let pad = &tray.file.drawing.pads;
        let pad = pad.sentence(kind, &|sides| lengths.size(sides));
        filled(&words.need_pad, &[("pad", &pad), ("layers", &layers)])
    });
    needed.collect()
}

/// What is laid under the items, a sentence for each thickness.
pub(crate) fn pads_under(tray: &BookletInput) -> Vec<String> {
    let words = &tray.words().in_use;
    let same = |one: &Item, other: &Item| (one.pad - other.pad).abs() < SAME_MM;
    let groups = grouped(tray.document.kinds_on_pads(), same).into_iter();
    let sentence = |group: Vec<Kind>| {
        let is_one = group.iter().map(|(_, count)| count).sum::<usize>() == 1;
        let form = match (tray.has_floor(), is_one) {
            (false, true) => &words.pad_under,
            (false, false) => &words.pads_under,
            (true, true) => &words.pad_on_floor,
            (true, false) => &words.pads_on_floor,
        };
        let thickness = tray.lengths().say(group[0].0.pad);
        let gaps = [("items", tray.named(&group)), ("thickness", thickness)];
        filled(
            form,
            &gaps.each_ref().map(|(name, value)| (*name, value.as_str())),
        )
    };
    groups.map(sentence).collect()
}

/// What holds the items along the box and across it, a sentence for those that are held alike.
pub(crate) fn held(tray: &BookletInput) -> Vec<String> {
    let words = &tray.words().in_use;
    let groups = grouped(tray.document.kinds(), |one, other| {
        holders(one) == holders(other)
    });
    let is_all = groups.len() == 1;
    let sentence = |group: Vec<Kind>| {
        let [one, other] = holders(group[0].0)?;
        if one == Holder::Nothing && other == Holder::Nothing {
            return Some(not_held(tray, &group));
        }
        let (along, across) = (held_by(tray, one)?, held_by(tray, other)?);
        // The sentence before has named all items.
        let form = match (is_all, one == other) {
            (true, true) => &words.held_all_around,
            (true, false) => &words.held_all,
            (false, true) => &words.held_around,
            (false, false) => &words.held,
        };
        let items = tray.named(&group);
        let gaps = [
            ("items", items.as_str()),
            ("along", along),
            ("across", across),
        ];
        Some(filled(form, &gaps))
    };
    let mut sentences: Vec<String> = groups.into_iter().filter_map(sentence).collect();
    let springy = by_flaps(tray) && tray.document.board.crease == CreaseKind::Pressed;
    sentences.extend(springy.then(|| words.flaps_hold.clone()));
    sentences
}

/// Whether flaps hold an item that give way unless something is packed behind them.
pub(crate) fn has_limp_flaps(tray: &BookletInput) -> bool {
    by_flaps(tray) && tray.document.board.crease == CreaseKind::HalfCut
}

fn by_flaps(tray: &BookletInput) -> bool {
    let mut holders = tray.document.items.iter().filter_map(holders).flatten();
    holders.any(|by| by == Holder::Flaps)
}

/// The items that slide in the tray because their maker lets them, in one sentence.
pub(crate) fn loose(tray: &BookletInput) -> Option<String> {
    let slides = |item: &Item| holders(item).is_none_or(|by| by.contains(&Holder::Nothing));
    let loose = tray
        .document
        .kinds()
        .filter(|(item, _)| item.loose && slides(item));
    let loose: Vec<Kind> = loose.collect();
    (!loose.is_empty()).then(|| not_held(tray, &loose))
}

/// That the tray alone does not hold items.
fn not_held(tray: &BookletInput, items: &[Kind]) -> String {
    let items = tray.named(items);
    filled(&tray.words().cover.loose, &[("items", &items)])
}

/// What holds an item along the box and across it, in words; none for what a later release knows.
pub(crate) fn held_by<'a>(tray: &BookletInput<'a>, by: Holder) -> Option<&'a str> {
    let words = &tray.words().in_use.by;
    Some(match by {
        Holder::Edge => &words.edge,
        Holder::Flaps => match tray.document.board.crease {
            CreaseKind::Pressed => &words.flaps,
            // Limp flaps give way, so they hold with a packing alone.
            CreaseKind::HalfCut => &words.packed_flaps,
        },
        Holder::Fences => &words.fences,
        Holder::Panel => &words.panel,
        Holder::Box => &words.walls,
        Holder::Nothing => &words.nothing,
        _ => return None,
    })
}

fn holders(item: &Item) -> Option<[Holder; 2]> {
    item.held
        .map(|Held { along, across, .. }| [along, across].map(|Stop { by, .. }| by))
}

/// Kinds in the order of their first ones, those that are alike together.
fn grouped<'a>(
    kinds: impl Iterator<Item = Kind<'a>>,
    alike: impl Fn(&Item, &Item) -> bool,
) -> Vec<Vec<Kind<'a>>> {
    let mut groups: Vec<Vec<Kind>> = Vec::new();
    for kind in kinds {
        match groups.iter_mut().find(|group| alike(group[0].0, kind.0)) {
            Some(group) => group.push(kind),
            None => groups.push(vec![kind]),
        }
    }
    groups
}
