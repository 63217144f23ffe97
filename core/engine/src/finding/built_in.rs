//! The table of the engine's own findings: code, level, who is to blame, where it is found, sentence and page.
//!
//! A new finding is one row here, the place that reports it, and its page in `pages/CODE.txt`, which `check --explain`
//! prints. The codes that a style may not use, the pages and the side that `lint` takes all follow from this table.
//! Several rows may share a code: they are sentences for different cases of one thing.

use super::clause::Clause;
use super::sentence::{Chance, Mm, Size, SquareMm, sentences};
use super::{Level, Side};

/// Who is to blame for an error: what `lint` makes of it when it tries the range of a style.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blame {
    /// The box, the card or the item, whatever the style: the job is refused as it should be.
    Job,
    /// The style: no job may lead to it.
    Style(FoundIn),
    /// The style, unless the job is extreme; `lint` decides by the figures of the job.
    Either(FoundIn),
}

/// Where in the pipeline an error of a style is found; the earliest is the cause of most others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FoundIn {
    /// In the values, panels and openings.
    Values,
    /// In the blank.
    Blank,
    /// In the folded tray.
    Folded,
    /// While the tray is folded.
    Folding,
    /// When the items are pushed and lifted.
    Holding,
    /// In many trays together: they are made, and the box alone holds a wall of some.
    Support,
}

/// The table's rows with what a row says beside its sentence.
macro_rules! findings {
    ($($(#[$doc:meta])* $variant:ident $({ $($field:ident: $type:ty),* $(,)? })? =
        $code:literal, $level:ident, $blame:ident $(($found_in:ident))?, $sentence:literal;)*) => {
        sentences! {
            /// What the engine finds by itself.
            #[non_exhaustive]
            #[expect(missing_docs, reason = "each variant's sentence says what it is")]
            pub enum BuiltIn {
                $($(#[$doc])* $variant $({ $($field: $type),* })? = $sentence,)*
            }
        }

        impl BuiltIn {
            /// Its code.
            pub fn code(&self) -> &'static str {
                match self { $(BuiltIn::$variant { .. } => $code,)* }
            }

            /// How much it weighs.
            pub fn level(&self) -> Level {
                match self { $(BuiltIn::$variant { .. } => Level::$level,)* }
            }

            /// Who is to blame for it.
            pub fn blame(&self) -> Blame {
                match self { $(BuiltIn::$variant { .. } => Blame::$blame $((FoundIn::$found_in))?,)* }
            }

            /// Every code with its page for `check --explain`, in the order of the table; a code may come more than once.
            const PAGES: &'static [(&'static str, &'static str)] =
                &[$(($code, include_str!(concat!("pages/", $code, ".txt"))),)*];
        }
    };
}

impl BuiltIn {
    /// Every code once, in the order of the alphabet.
    pub fn codes() -> Vec<&'static str> {
        let mut codes: Vec<&str> = BuiltIn::PAGES.iter().map(|(code, _)| *code).collect();
        codes.sort_unstable();
        codes.dedup();
        codes
    }

    /// Whether an opening is too tight to be certain.
    pub(crate) fn is_slot_tight(&self) -> bool {
        matches!(
            self,
            BuiltIn::SlotTight { .. } | BuiltIn::SlotMayBeShort { .. }
        )
    }

    /// Whether other card may be all that mends it, so that a search for fixes tries some.
    pub fn asks_for_other_card(&self) -> bool {
        matches!(
            self,
            BuiltIn::CardThin
                | BuiltIn::WebWeak { .. }
                | BuiltIn::WebWeakBetween
                | BuiltIn::RollOverCrushed
        )
    }

    /// What a code means in a few words: the first line of its page.
    pub fn title(&self) -> &'static str {
        let first = BuiltIn::page(self.code()).and_then(|page| page.lines().next());
        first
            .and_then(|line| line.split_once(": "))
            .map_or(self.code(), |(_, title)| title)
    }

    /// The page of a code for `check --explain`.
    pub fn page(code: &str) -> Option<&'static str> {
        let own = BuiltIn::PAGES.iter().find(|(known, _)| *known == code);
        own.map(|(_, page)| *page)
    }
}

findings! {
    // The card, the box and the paper.
    MeasureBoard { board: String, caliper: Mm } = "measure-board", Note, Job,
        "the caliper of {board}, {caliper}, is a first guess: measure a sheet and write board caliper=…";
    CardThin = "card-thin", Warning, Job,
        "card of {value} is good for a trial fit and too limp to hold an item (from {limit} on)";
    HingeRange = "hinge-range", Error, Job,
        "the fold lines lie {value} from the middle of the card (from 0 to half the caliper, {limit})";
    HalfCutCorrugated = "half-cut-corrugated", Error, Job,
        "the creases are half-cut in corrugated board: the cut goes through the liner outside the fold, and that liner holds it together";
    ReadingImpossible { caliper: Mm, least: Mm, most: Mm } = "reading-range", Error, Job,
        "the strip was {value} longer folded than flat, and card of {caliper} can only give {least} to {most}";
    ReadingAtLimit { caliper: Mm, least: Mm, most: Mm, taken: Mm } = "reading-range", Note, Job,
        "the strip was {value} longer folded than flat, and card of {caliper} gives {least} to {most}: {taken} is taken, which is as near as measuring comes";
    BoxTooSmall { side: Side, inside: Mm, fit: Mm } = "box-too-small", Error, Job,
        "the box's {side} of {inside} less the fit of {fit} and two thicknesses of card leaves no room for a tray";
    PageMarginUnreached = "page-margin", Warning, Job,
        "many printers do not reach within {limit} of the paper's edge, and the margin is {value}";
    PageMarginNarrow = "page-margin", Note, Job,
        "many printers do not reach within {limit} of the paper's edge, and the margin is {value}";
    OutsideTooLarge { side: Side } = "outside-too-large", Error, Style(Folded),
        "folded, the tray's {side} is {value}, and the box leaves {limit} with its fit";
    DoesNotFill { side: Side } = "does-not-fill", Error, Style(Folded),
        "folded, the tray's {side} is {value}, and its style says that it fills {limit}";
    CornerTouches = "corner-touches", Error, Job,
        "the box's corners are rounded with {value}, and the tray's square corners pass only up to {limit}";
    FloorCornerLifts { up: Mm, free: Mm } = "floor-corner", Note, Job,
        "on the rounded edge of the floor the walls stand {up} up; {free} stay free under the lid";
    FloorCornerTooHigh { up: Mm, short: Mm } = "floor-corner", Error, Job,
        "on the rounded edge of the floor the walls stand {up} up, so the lid is {short} short of closing";
    SheetTooSmall { blank: Size, sheet: Size } = "sheet-too-small", Error, Job,
        "the blank is {blank}, and the card at hand {sheet}";

    // The items and their openings.
    ItemTooDeep { pad: Option<Clause> } = "item-too-deep", Error, Job,
        "{place} is {value} deep{pad}, and there is room for {limit}";
    ItemProud { above: Mm, rise: Mm } = "item-proud", Note, Job,
        "{place} stands {above} above the deck, {rise} under the lid";
    ItemSunk = "item-sunk", Warning, Job,
        "the top of {place} lies {value} below the deck: hard to grip (at most {limit})";
    OpeningTooSmall { depth: Mm } = "opening-too-small", Error, Job,
        "its flaps would be {depth} deep (at least {limit})";
    FlapTooShallow { depth: Mm } = "flap-too-shallow", Error, Job,
        "its flaps would be {depth} deep (at least {limit})";
    CutVariant = "cut-variant", Note, Job,
        "cut at 45° from the corners: with two plain diagonals a flap would hang {value} deep, and {limit} is free above the floor";
    FlapTrimmed = "flap-trimmed", Note, Job,
        "the flaps are cut to {value}, and the middle is cut out: at most {limit} hang free above the floor";
    ItemDoesNotEnter { clear: Size, item: String, size: Size } = "item-does-not-enter", Error, Either(Values),
        "with the flaps folded {clear} stay clear, and {item} is {size}";
    SlotMayBeShort { item: String, short: Mm } = "slot-tight", Warning, Job,
        "{item} may not go in where a crease folds thick: it is {short} short there (at least {limit} to spare)";
    SlotTight { item: String } = "slot-tight", Warning, Job,
        "{item} may have only {value} to spare where a crease folds thick (at least {limit})";
    ClearOpening { slot: Size, folded: Option<Clause>, item: String, play: Mm } = "clear-opening", Note, Job,
        "slot {slot}{folded}, {item} has {play} to spare";
    FlapsNotCut = "slot-ignored", Note, Job,
        "the style cuts no flaps at {place}, so the job's `slot` is left aside";
    NotchesNotCut = "slot-ignored", Note, Job,
        "panels of the style hang on the edges of {place}, so it has no finger notches";
    ShapeAsRectangle { item: String, shape: Clause, hang: Clause } = "shape-as-rectangle", Note, Job,
        "{item} is {shape}, but {hang} hang on straight edges: its opening is the rectangle around it";
    FingerTooWide = "finger-too-wide", Error, Job,
        "the finger notches are {value} wide, and their edge is {limit} long";

    // How items are held.
    ItemSlides { axis: Clause, far: Mm, why: Clause, also: Option<Clause> } = "item-slides", Error, Either(Holding),
        "{place} slides {axis}, {far} to and fro: {why}{also}";
    OpeningHoldsNothing { far: Mm } = "opening-holds-nothing", Error, Style(Holding),
        "nothing in its opening can hold {place}: it slides {far}, and no flap, fence, edge or wall stands beside it";
    ItemHeldByTips { pair: Clause, also: Option<Clause> } = "item-held-by-tips", Warning, Job,
        "only {value} of the flaps at its {pair} stand beside {place}{also}; pushed there they give way (at least {limit})";
    ItemAtTheEdge { part: Clause } = "item-at-the-edge", Warning, Job,
        "{part} of {place} ends inside the thickness of the deck, {value} below its top";
    HoldUncertain { axis: Clause, by: Clause } = "hold-uncertain", Warning, Job,
        "{place} is stopped {axis} by {by} over {value} alone, and measures, creases and cuts leave {limit} unsure: it may slide";
    ItemBarelyHeldAtLid { rise: Mm } = "item-can-leave", Warning, Job,
        "upside down {place} drops {rise} to the lid, and then only {value} of it stands beside what holds it (at least {limit})";
    ItemCanLeave { rise: Mm } = "item-can-leave", Warning, Job,
        "upside down {place} drops {rise} to the lid, and nothing is beside it there";
    FlapInTheWay { panel: String, depth: Mm } = "item-does-not-enter", Error, Style(Holding),
        "the panel {panel} leans {depth} into the place of {place}";
    ItemInTheWay { panel: String, depth: Mm } = "item-in-the-way", Error, Style(Holding),
        "the panel {panel} stands {depth} inside the place of {place}";
    ItemBlocked { panel: String, depth: Mm } = "item-blocked", Error, Style(Holding),
        "the panel {panel} closes the way in of {place}: it stands {depth} into it";
    ItemWithoutPlace = "item-without-place", Error, Style(Holding),
        "this style has no place for {place}";
    TrayCanLift = "tray-can-lift", Warning, Job,
        "{value} of air lie above the tray, and nothing keeps it down (at most {limit})";

    // Openings beside edges and beside each other.
    OpeningNearEnd { behind: String } = "opening-too-near-end", Error, Job,
        "only {value} of card stay between the opening and what stands behind {behind} (at least {limit})";
    OpeningOverEnd { into: Mm, behind: String } = "opening-too-near-end", Error, Job,
        "the opening reaches {into} into what stands behind {behind} (at least {limit} of card between)";
    ItemLongerThanBox { item: String, is: Mm, inside: Mm } = "opening-too-near-end", Error, Job,
        "{item} is {is} long and the box {inside}: it cannot lie in it";
    OpeningNearSide { behind: String } = "opening-too-near-side", Error, Job,
        "only {value} of card stay between the opening and what stands behind {behind} (at least {limit})";
    OpeningOverSide { into: Mm, behind: String } = "opening-too-near-side", Error, Job,
        "the opening reaches {into} into what stands behind {behind} (at least {limit} of card between)";
    ItemWiderThanBox { item: String, is: Mm, inside: Mm } = "opening-too-near-side", Error, Job,
        "{item} is {is} wide and the box {inside}: it cannot lie in it";
    OpeningNearEdge { behind: String } = "opening-too-near-edge", Error, Job,
        "only {value} of card stay between the opening and what stands behind {behind} (at least {limit})";
    OpeningOverEdge { into: Mm, behind: String } = "opening-too-near-edge", Error, Job,
        "the opening reaches {into} into what stands behind {behind} (at least {limit} of card between)";
    OpeningsOverlap = "openings-overlap", Error, Job,
        "one reaches into the other";
    OpeningsTooNear = "openings-overlap", Error, Job,
        "{value} of card stay between them (at least {limit})";
    ItemOpeningsRunTogether { area: SquareMm } = "openings-overlap", Error, Job,
        "openings in {place} run into one another or over its edge, by {area}";
    OpeningsRunTogether { area: SquareMm } = "openings-overlap", Error, Style(Blank),
        "openings in {place} run into one another or over its edge, by {area}";
    WebWeak { edge: String } = "web-weak", Warning, Job,
        "only {value} of card stay between the opening and the edge of its panel at {edge}: so little of card this thick breaks easily (at least two thicknesses, {limit})";
    WebWeakBetween = "web-weak", Warning, Job,
        "only {value} of card stay between them: so little of card this thick breaks easily (at least two thicknesses, {limit})";
    OpeningsDoNotFit { count: usize, short: Clause, search: Clause } = "openings-do-not-fit", Error, Job,
        "{count} openings do not fit: in the best rows {short}, and {search}";
    OpeningsPacked { turned: Option<Clause> } = "openings-packed", Note, Job,
        "rows in the order of the job do not fit, so the openings are packed in another order{turned}";
    ItemPlaces { rows: Vec<Vec<String>>, web: Option<Clause>, drawing: Clause } = "item-places", Note, Job,
        "seen from above in the finished tray, the far row first and each from the left: {rows}. {web}{drawing}";
    TurnIgnored = "turn-ignored", Note, Job,
        "the style places its opening, so `turn` is left aside: swap its length and width to turn it";

    // The panels, flat.
    BridgeNarrow = "bridge-narrow", Warning, Job,
        "the strip between its two creases is {value} wide: pressed so near to each other, they run into one (at least {limit})";
    BridgeNarrowHalfCut = "bridge-narrow", Warning, Job,
        "the strip between its two half-cut creases is {value} wide: so narrow a strip splits off (at least {limit})";
    RollOverCrushed = "roll-over-corrugated", Warning, Job,
        "the strip between its two creases is {value} wide: the two crush its flutes over the whole width, and the roll-over stays soft and springy (at least three thicknesses, {limit})";
    RollOverBuckles = "roll-over-corrugated", Error, Job,
        "corrugated board would be rolled over on a strip {value} wide: its inner liner has no room to fold there and buckles (at least two thicknesses, {limit})";
    BridgeTooNarrow { width: Mm } = "bridge-too-narrow", Error, Either(Values),
        "the strip between its two creases would be {width} wide";
    PanelTooSmall { panel: String, span: Mm, reach: Mm } = "panel-too-small", Error, Style(Values),
        "{panel} would be {span} by {reach}";
    TongueMisses { panel: String, into: String, by: Mm } = "tongue-misses", Error, Style(Values),
        "folded, this tongue of {panel} misses {into} by {by}, so there is no slit for it";
    NotchOffEdge { edge: String } = "notch-off-edge", Error, Style(Values),
        "its half-round notch reaches {value} from the middle of its {edge} edge (at most {limit})";
    PanelsOverlap { other: String, area: SquareMm } = "panels-overlap", Error, Style(Blank),
        "{place} and {other} would be cut from the same {area} of card";
    OutlineBroken { pieces: usize, area: SquareMm } = "outline-broken", Error, Style(Blank),
        "the blank is not one piece with one edge: {pieces} pieces, {area} apart from its panels";
    CreaseOffEdge = "crease-off-edge", Error, Style(Blank),
        "the crease of {place} reaches beyond the edge that it hangs on";

    // The panels, folded and while they fold.
    PanelsCollide { other: String, depth: Mm } = "panels-collide", Error, Style(Folded),
        "folded, {place} and {other} would be {depth} deep inside each other";
    NoFoldingOrder = "step-blocked", Error, Either(Folding),
        "no order of folds leads to this tray: in each, one panel runs into another";
    OtherOrder { step: usize, meets: Clause, reason: Option<Clause> } = "other-order", Note, Either(Folding),
        "step {step} of the style cannot be done: {place} cannot be folded, {meets}{reason}. So the folds come in another order, in which each was turned";
    NoSwingRoom { meets: Clause } = "no-swing-room", Error, Either(Folding),
        "{place} cannot be folded: {meets}";
    WallNotHeld = "wall-not-held", Warning, Job,
        "nothing but the box keeps {place} from turning out";
    FitUncertain = "fit-uncertain", Warning, Job,
        "{place} has {value} to spare, and measures, creases and cuts leave {limit} unsure";
    PocketTight { chance: Chance } = "pocket-tight", Warning, Job,
        "{place} has {value} of play, and creases and card leave {limit} unsure; too tight: {chance}";
    LockByFriction { into: String, chance: Chance } = "lock-by-friction", Note, Job,
        "{place} reaches {value} into {into}, less than lines are good to (±{limit}); does not get in: {chance}. Reckon with friction, not with a lock";
    Humidity { side: Side } = "humidity", Note, Job,
        "in damp air the card may grow by {value} along the box's {side}, and the fit is {limit}";

    // The lines of a machine.
    KerfTooWide { kerf: Mm, x: Mm, y: Mm } = "kerf-too-wide", Error, Job,
        "a cut {kerf} wide does not go into the notch or opening {x} from the left and {y} from the lower edge of the blank";
    NoRoomForNicks { nick: Mm } = "no-room-for-nicks", Error, Job,
        "no two edges of the outline have room for a gap of {nick} with as much on both its sides";
}
