//! The words of the booklet, by name: every sentence that it prints, in the language of the job.
//!
//! Given the code of a language; gives its words from `designs/words`. A file that lacks one of these words is refused
//! as a whole, so that no page lacks one; a sentence of a style that `styles` does not translate stays as the style has
//! it. The code that prints a sentence fills its gaps in braces.

use std::collections::BTreeMap;

use serde::Deserialize;
use traywright_look::Drawing;

/// What stands in a file of words, as far as the booklet needs it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Booklet {
    pub(crate) cover: Cover,
    pub(crate) parts: Parts,
    pub(crate) before: Before,
    pub(crate) creasing: Creasing,
    pub(crate) cutting: Cutting,
    pub(crate) folding: Folding,
    pub(crate) in_use: InUse,
    pub(crate) cutaway: Cutaway,
    pub(crate) by_hand: ByHand,
    pub(crate) strip: Strip,
    /// What the shipped styles say of their steps, from the words in the style to those of this language.
    pub(crate) styles: BTreeMap<String, String>,
    /// What the check warns of, from its English words to those of this language.
    pub(crate) warnings: BTreeMap<String, String>,
    /// At the foot of a page: `page`, `count`.
    pub(crate) page: String,
    pub(crate) and_more: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Cover {
    pub(crate) about: String,
    /// After it.
    pub(crate) no_glue: String,
    /// Below the cut-away: `item`.
    pub(crate) cut_open: String,
    pub(crate) figures: String,
    pub(crate) in_box: String,
    pub(crate) item: String,
    pub(crate) opening: String,
    pub(crate) between_fences: String,
    pub(crate) card: String,
    pub(crate) style: String,
    pub(crate) outside: String,
    pub(crate) clearance: String,
    pub(crate) blank: String,
    pub(crate) steps: String,
    /// After the about, where an item may lie loose: `items`.
    pub(crate) loose: String,
    /// Over what the check warns of.
    pub(crate) watch: String,
}

/// The map of lettered parts.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Parts {
    pub(crate) title: String,
    pub(crate) about: String,
    /// After it, where the blank carries the letters.
    pub(crate) on_blank: String,
    /// Where a step folds parts: `part`, `letter`.
    pub(crate) lettered: String,
    /// The same of some of them: `panels`.
    pub(crate) some: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Before {
    pub(crate) needs: String,
    pub(crate) need: Vec<String>,
    /// After the first of them, without a drafting sheet and with one.
    pub(crate) need_template: String,
    pub(crate) need_template_or_sheet: String,
    /// Before the last of them, by how creases are made.
    pub(crate) need_crease: NeedCrease,
    /// Where half-cuts are taped, and where limp flaps are packed.
    pub(crate) need_tape: String,
    pub(crate) need_packing: String,
    /// After these, for each kind of item on a pad: `pad` as every file names it, and one of the next two.
    pub(crate) need_pad: String,
    /// How much one layer of card gives: `given`.
    pub(crate) layer: String,
    /// How much `count` layers give.
    pub(crate) layers: String,
    pub(crate) cautions: String,
    pub(crate) caution: Vec<String>,
    /// Of children, for card that scissors cut, and for thicker card.
    pub(crate) children: String,
    pub(crate) children_thick: String,
    pub(crate) light_cuts: String,
    /// Where creases are half-cut, and where the board is corrugated.
    pub(crate) half_cuts: String,
    pub(crate) fluted: String,
    pub(crate) small_parts: String,
    pub(crate) local_rules: String,
    pub(crate) print: String,
    pub(crate) print_rules: Vec<String>,
    /// How long a check bar must be, in the unit of the job.
    pub(crate) bar_mm: String,
    pub(crate) bar_inches: String,
    pub(crate) trial: String,
    pub(crate) trial_rules: Vec<String>,
    /// The same for card so thick that paper does not show the size: `caliper`.
    pub(crate) trial_thick: Vec<String>,
    pub(crate) rest: String,
    pub(crate) damp: String,
}

/// What creases are made with.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NeedCrease {
    pub(crate) pressed: String,
    pub(crate) half_cut: String,
    pub(crate) crushed: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Creasing {
    pub(crate) caption: String,
    /// After it, where there are such creases.
    pub(crate) towards: String,
    pub(crate) away: String,
    pub(crate) pressed: CreaseWords,
    pub(crate) half_cut: CreaseWords,
    /// Of corrugated board.
    pub(crate) crushed: CreaseWords,
    /// Where a machine perforates the creases: the title, and the rules.
    pub(crate) perforated_title: String,
    pub(crate) perforated: Vec<String>,
    pub(crate) two_point: String,
    pub(crate) wide_point: String,
    /// Where the fold lines lie off the middle of the card: `hinge`.
    pub(crate) fold_line: String,
    /// Where solid board is pressed.
    pub(crate) tape: String,
    pub(crate) dense: String,
    /// After the rules.
    pub(crate) check: String,
    pub(crate) grain_known: String,
    pub(crate) grain_unknown: String,
    pub(crate) flutes_known: String,
    pub(crate) flutes_unknown: String,
    pub(crate) along_length: String,
    pub(crate) along_width: String,
}

/// How creases are made in one way. The rules may have `caliper`, `depth` (half of it) and `hinge`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CreaseWords {
    pub(crate) title: String,
    /// On which side.
    pub(crate) side: String,
    /// Lines that fold with the drawn face inwards, and the others.
    pub(crate) inwards: String,
    pub(crate) outwards: String,
    pub(crate) tool: String,
    pub(crate) depth: String,
    /// Other rules.
    pub(crate) more: Vec<String>,
    /// Captions of the pictures.
    pub(crate) made: String,
    pub(crate) right: String,
    pub(crate) wrong: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Cutting {
    pub(crate) title: String,
    pub(crate) openings: String,
    pub(crate) outline: String,
    pub(crate) reliefs: String,
    /// Creases are folded to and fro once all is cut: in a whole sheet those of flaps could not be.
    pub(crate) once: String,
    /// The same where creases are half-cut: what is left breaks when it is bent both ways.
    pub(crate) once_half_cut: String,
    pub(crate) check: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Folding {
    pub(crate) title: String,
    pub(crate) begin: String,
    /// The same where the lines are drawn on the other face.
    pub(crate) begin_outside: String,
    pub(crate) reading: String,
    /// Where panels are named by where they lie in the drawing.
    pub(crate) names: String,
    /// The same where the outer face is drawn: a mirror image.
    pub(crate) names_outside: String,
    pub(crate) step: String,
    pub(crate) fold: String,
    pub(crate) up: String,
    pub(crate) down: String,
    pub(crate) over: String,
    pub(crate) inward: String,
    pub(crate) outward: String,
    pub(crate) turn: String,
    pub(crate) place: String,
    pub(crate) round: String,
    /// Where panels are pushed up from below.
    pub(crate) lifted: String,
    pub(crate) other_one: String,
    pub(crate) others: String,
    pub(crate) why: String,
    pub(crate) springs: String,
    pub(crate) springs_in_box: String,
    pub(crate) check_walls: String,
    pub(crate) check_outside: String,
    /// After it, where tongues or edges are smaller than what the tool can cut: `accuracy`.
    pub(crate) friction: String,
    pub(crate) friction_tongues: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct InUse {
    pub(crate) title: String,
    pub(crate) lower: String,
    pub(crate) item_in: String,
    /// Where flaps hold an item.
    pub(crate) flaps_hold: String,
    /// Where flaps hang on half-cut creases.
    pub(crate) flaps_limp: String,
    /// Before `item_in`, for one item on a pad: `items`, `thickness`.
    pub(crate) pad_under: String,
    /// The same for several items on equal pads.
    pub(crate) pads_under: String,
    pub(crate) pad_on_floor: String,
    pub(crate) pads_on_floor: String,
    /// What holds items: `items`, and `along` and `across` from `by`.
    pub(crate) held: String,
    /// The same where one thing holds them both ways.
    pub(crate) held_around: String,
    pub(crate) held_all: String,
    pub(crate) held_all_around: String,
    pub(crate) by: HeldBy,
    /// The last check.
    pub(crate) check_item: String,
    /// Where the tray has no floor.
    pub(crate) items_out: String,
    pub(crate) out_again: String,
    /// The same.
    pub(crate) spare_flaps: String,
    pub(crate) trouble: String,
    /// `meant`: the next two, each with its `air`.
    pub(crate) trouble_about: String,
    pub(crate) meant_tray: String,
    pub(crate) meant_item: String,
    pub(crate) found: String,
    pub(crate) tray_tight: String,
    pub(crate) tray_loose: String,
    pub(crate) item_tight: String,
    pub(crate) item_loose: String,
    pub(crate) notes: String,
    pub(crate) note: Vec<String>,
}

/// What the cut-aways say.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Cutaway {
    /// Captions: `item`, `scale`.
    pub(crate) along: String,
    pub(crate) across: String,
    /// After a caption: `by`, from the words of `in_use` or the next four.
    pub(crate) held: String,
    pub(crate) by_flap: String,
    pub(crate) by_fence: String,
    /// `length`: how far it slides.
    pub(crate) by_nothing: String,
    /// `by`: one that gives when it is pushed.
    pub(crate) springy: String,
    pub(crate) limp: String,
    /// The measures: `length`.
    pub(crate) pad: String,
    pub(crate) item: String,
    pub(crate) rise: String,
    pub(crate) above: String,
    pub(crate) below: String,
    pub(crate) flap: String,
    pub(crate) fence: String,
    pub(crate) bears: String,
    pub(crate) gap: String,
    /// `length` at one side, `all` at both.
    pub(crate) play: String,
}

/// What holds an item.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HeldBy {
    pub(crate) edge: String,
    pub(crate) flaps: String,
    pub(crate) packed_flaps: String,
    pub(crate) fences: String,
    pub(crate) panel: String,
    pub(crate) walls: String,
    pub(crate) nothing: String,
}

/// What is said of the strip that measures a card. Everywhere: `flat`, `across`, `leg`, `least`, `most`, `unit`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Strip {
    /// In the booklet of a tray whose card ought to be measured first.
    pub(crate) first: String,
    pub(crate) about: String,
    pub(crate) need: String,
    pub(crate) flat_title: String,
    pub(crate) flat: String,
    pub(crate) title: String,
    pub(crate) measure: Vec<String>,
    pub(crate) lengths: Vec<String>,
    pub(crate) then: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ByHand {
    pub(crate) title: String,
    pub(crate) about: String,
    pub(crate) rounded: String,
    pub(crate) not_rounded: String,
    /// Where places on curves lie beside the marks.
    pub(crate) on_curves: String,
    /// Where corners of openings are too small to be drawn.
    pub(crate) reliefs: String,
    pub(crate) order: Vec<String>,
    pub(crate) point: String,
    pub(crate) from_left: String,
    pub(crate) from_below: String,
    pub(crate) squares: String,
    pub(crate) reduced: String,
    pub(crate) joined: Joined,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Joined {
    pub(crate) outline: String,
    pub(crate) hole: String,
    pub(crate) cut: String,
    /// `circles`, each of them as in `circle`.
    pub(crate) circles: String,
    /// `about`, `radius`.
    pub(crate) circle: String,
    /// `arcs`, each of them as in `arc`.
    pub(crate) arcs: String,
    /// `from`, `to`, `about`, `radius`.
    pub(crate) arc: String,
    pub(crate) inwards: String,
    pub(crate) outwards: String,
}

/// The file as a whole.
#[derive(Deserialize)]
pub(crate) struct File {
    pub(crate) decimal: char,
    pub(crate) drawing: Drawing,
    pub(crate) booklet: Booklet,
}
