//! The table of the engine's own findings: code, level, who is to blame, pipeline stage, sentence and page.
//!
//! A new finding is one row here, a call that reports it, and its page in `pages/CODE.txt`, which `check --explain`
//! prints. The codes that a style may not use, the pages and the blame in `lint` all follow from this table. Several
//! rows may share a code: they are sentences for different cases of one finding.

use super::clause::Clause;
use super::sentence::{Chance, Mm, Size, SquareMm, sentences};
use super::{Level, Side};

/// Who is to blame for an error, when `lint` tries the range of a style.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blame {
    /// The box, the card or the item, for any style: the job is rightly refused.
    Job,
    /// The style: no job may lead to it.
    Style(FoundIn),
    /// The style, unless the job is extreme; `lint` decides by the lengths of the job.
    Either(FoundIn),
}

/// The stage of the pipeline at which an error of a style is found; the earliest causes most others.
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
    /// In many trays together: they can be made, but in some only the box holds a wall.
    Support,
}

/// Makes the table's rows into the enum and its methods.
macro_rules! findings {
    ($($(#[$doc:meta])* $variant:ident $({ $($field:ident: $type:ty),* $(,)? })? =
        $code:literal, $level:ident, $blame:ident $(($found_in:ident))?, $sentence:literal;)*) => {
        sentences! {
            /// The engine's own findings.
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

            /// Its level.
            pub fn level(&self) -> Level {
                match self { $(BuiltIn::$variant { .. } => Level::$level,)* }
            }

            /// Who is to blame for it.
            pub fn blame(&self) -> Blame {
                match self { $(BuiltIn::$variant { .. } => Blame::$blame $((FoundIn::$found_in))?,)* }
            }

            /// Every code with its page for `check --explain`, in the order of the table; a code may occur more than
            /// once.
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

    /// Whether an opening is too tight, or may be.
    pub(crate) fn is_slot_tight(&self) -> bool {
        matches!(
            self,
            BuiltIn::SlotTight { .. } | BuiltIn::SlotMayBeShort { .. }
        )
    }

    /// Whether only other card may fix it, so that a search for fixes tries some.
    pub fn asks_for_other_card(&self) -> bool {
        matches!(
            self,
            BuiltIn::CardThin
                | BuiltIn::WebWeak { .. }
                | BuiltIn::WebWeakBetween
                | BuiltIn::RollOverCrushed
        )
    }

    /// The meaning of a code in a few words: the first line of its page.
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
        "the thickness of {board}, {caliper}, is an estimate: measure one sheet and set board caliper=…";
    CardThin = "card-thin", Warning, Job,
        "card of {value} is fine for a trial fit but too limp to hold an item; the minimum is {limit}";
    HingeRange = "hinge-range", Error, Job,
        "the fold lines lie {value} from the middle of the card; the range is 0 to half the caliper, {limit}";
    HalfCutCorrugated = "half-cut-corrugated", Error, Job,
        "the creases are half-cut in corrugated board: the cut goes through the liner outside the fold, and that liner holds it together";
    ReadingImpossible { caliper: Mm, least: Mm, most: Mm } = "reading-range", Error, Job,
        "the strip was {value} longer folded than flat, and card of {caliper} can only give {least} to {most}";
    ReadingAtLimit { caliper: Mm, least: Mm, most: Mm, taken: Mm } = "reading-range", Note, Job,
        "the strip was {value} longer folded than flat, and card of {caliper} gives {least} to {most}: the program uses {taken}, which is within the accuracy of measuring";
    BoxTooSmall { side: Side, inside: Mm, fit: Mm } = "box-too-small", Error, Job,
        "the box {side} ({inside}) is too small: clearance {fit} and two layers of card leave no room for a tray";
    PageMarginUnreached = "page-margin", Warning, Job,
        "the margin is {value}, and many printers cannot print closer than {limit} to the edge of the paper";
    PageMarginNarrow = "page-margin", Note, Job,
        "the margin is {value}, and many printers cannot print closer than {limit} to the edge of the paper";
    OutsideTooLarge { side: Side } = "outside-too-large", Error, Style(Folded),
        "the folded tray is {value} in {side}; the box allows {limit} after clearance";
    DoesNotFill { side: Side } = "does-not-fill", Error, Style(Folded),
        "the folded tray is {value} in {side}, but the style promises {limit} (`fills`)";
    CornerTouches = "corner-touches", Error, Job,
        "the radius of the box corners is {value}; the tray's square corners fit only up to {limit}";
    FloorCornerLifts { up: Mm, free: Mm } = "floor-corner", Note, Job,
        "the rounded floor edge lifts the tray by {up}; {free} is left under the lid";
    FloorCornerTooHigh { up: Mm, short: Mm } = "floor-corner", Error, Job,
        "the rounded floor edge lifts the tray by {up}; the lid stays {short} open";
    SheetTooSmall { blank: Size, sheet: Size } = "sheet-too-small", Error, Job,
        "the blank ({blank}) is larger than your sheet of card ({sheet})";
    BedTooSmall { blank: Size, sheet: Size } = "sheet-too-small", Error, Job,
        "the blank ({blank}), turned by 90° or not, is larger than the bed of your machine ({sheet})";

    // The items and their openings.
    ItemTooDeep { pad: Option<Clause> } = "item-too-deep", Error, Job,
        "{place} is {value} deep{pad}; the maximum here is {limit}";
    ItemProud { above: Mm, rise: Mm } = "item-proud", Note, Job,
        "{place} is {above} higher than the deck and ends {rise} below the lid";
    ItemSunk = "item-sunk", Warning, Job,
        "the top of {place} is {value} below the deck; more than {limit} is hard to grip";
    OpeningTooSmall { depth: Mm } = "opening-too-small", Error, Job,
        "its flaps would be only {depth} deep; the minimum is {limit}";
    FlapTooShallow { depth: Mm } = "flap-too-shallow", Error, Job,
        "its flaps would be only {depth} deep; the minimum is {limit}";
    CutVariant = "cut-variant", Note, Job,
        "the flaps are cut at 45° instead of from corner to corner, which would make them {value} deep; there is room for only {limit} above the floor";
    FlapTrimmed = "flap-trimmed", Note, Job,
        "the flaps are shortened to {value} and the middle is cut out, because longer flaps would touch the floor (limit {limit})";
    ItemDoesNotEnter { clear: Size, item: String, size: Size } = "item-does-not-enter", Error, Either(Values),
        "the opening between the folded flaps is {clear}, and {item} is {size}";
    SlotMayBeShort { item: String, short: Mm } = "slot-tight", Warning, Job,
        "{item} may not fit: if the creases fold at the inner face, the opening is {short} smaller than the item. Minimum clearance: {limit}";
    SlotTight { item: String } = "slot-tight", Warning, Job,
        "{item} may be tight: if the creases fold at the inner face, the clearance drops to {value}. Minimum: {limit}";
    ClearOpening { slot: Size, folded: Option<Clause>, item: String, play: Mm } = "clear-opening", Note, Job,
        "opening {slot} crease to crease{folded}; clearance of {item} {play}";
    FlapsNotCut = "slot-ignored", Note, Job,
        "the style cuts no flaps at {place}, so the job's `slot` is not used";
    NotchesNotCut = "slot-ignored", Note, Job,
        "the edges of {place} carry panels, so its opening has no finger notches";
    ShapeAsRectangle { item: String, shape: Clause, hang: Clause } = "shape-as-rectangle", Note, Job,
        "{item} is {shape}, but {hang} need straight edges: its opening is the rectangle around it";
    FingerTooWide = "finger-too-wide", Error, Job,
        "the finger notches are {value} wide, but their edge is only {limit} long";

    // How items are held.
    ItemSlides { axis: Clause, far: Mm, why: Clause, also: Option<Clause> } = "item-slides", Error, Either(Holding),
        "{place} can slide {far} {axis}: {why}{also}";
    OpeningHoldsNothing { far: Mm } = "opening-holds-nothing", Error, Style(Holding),
        "nothing in its opening can hold {place}: it can slide {far}, and no flap, fence, edge or wall is beside it";
    ItemHeldByTips { pair: Clause, also: Option<Clause> } = "item-held-by-tips", Warning, Job,
        "only {value} of the flaps at its {pair} touch {place}{also}; flap tips that short give way. Minimum: {limit}";
    ItemAtTheEdge { part: Clause } = "item-at-the-edge", Warning, Job,
        "{part} of {place} ends inside the thickness of the deck, {value} below its top";
    HoldUncertain { axis: Clause, by: Clause } = "hold-uncertain", Warning, Job,
        "{place} is stopped {axis} by {by} over only {value}, and measuring, creasing and cutting can be off by {limit}: it may slide";
    ItemBarelyHeldAtLid { rise: Mm } = "item-can-leave", Warning, Job,
        "if the box is upside down, {place} drops {rise} to the lid, and only {value} of it is still held. Minimum: {limit}";
    ItemCanLeave { rise: Mm } = "item-can-leave", Warning, Job,
        "if the box is upside down, {place} drops {rise} to the lid, and nothing holds it there";
    FlapInTheWay { panel: String, depth: Mm } = "item-does-not-enter", Error, Style(Holding),
        "the panel {panel} leans {depth} into the space of {place}";
    ItemInTheWay { panel: String, depth: Mm } = "item-in-the-way", Error, Style(Holding),
        "the panel {panel} takes {depth} of the space of {place}";
    ItemBlocked { panel: String, depth: Mm } = "item-blocked", Error, Style(Holding),
        "the panel {panel} blocks the way of {place} into the tray, by {depth}";
    ItemWithoutPlace = "item-without-place", Error, Style(Holding),
        "this style has no place for {place}";
    TrayCanLift = "tray-can-lift", Warning, Job,
        "there is {value} above the tray, and nothing keeps it down. Maximum: {limit}";

    // Openings near edges and near each other.
    OpeningNearEnd { behind: String } = "opening-too-near-end", Error, Job,
        "the web between the opening and the layers behind {behind} is {value}; the minimum is {limit}";
    OpeningOverEnd { into: Mm, behind: String } = "opening-too-near-end", Error, Job,
        "the opening overlaps the layers behind {behind} by {into}; a web of at least {limit} is needed";
    ItemLongerThanBox { item: String, is: Mm, inside: Mm } = "opening-too-near-end", Error, Job,
        "{item} is {is} long and the box {inside}: it cannot lie in it";
    OpeningNearSide { behind: String } = "opening-too-near-side", Error, Job,
        "the web between the opening and the layers behind {behind} is {value}; the minimum is {limit}";
    OpeningOverSide { into: Mm, behind: String } = "opening-too-near-side", Error, Job,
        "the opening overlaps the layers behind {behind} by {into}; a web of at least {limit} is needed";
    ItemWiderThanBox { item: String, is: Mm, inside: Mm } = "opening-too-near-side", Error, Job,
        "{item} is {is} wide and the box {inside}: it cannot lie in it";
    OpeningNearEdge { behind: String } = "opening-too-near-edge", Error, Job,
        "the web between the opening and the layers behind {behind} is {value}; the minimum is {limit}";
    OpeningOverEdge { into: Mm, behind: String } = "opening-too-near-edge", Error, Job,
        "the opening overlaps the layers behind {behind} by {into}; a web of at least {limit} is needed";
    OpeningsOverlap = "openings-overlap", Error, Job,
        "the two openings overlap";
    OpeningsTooNear = "openings-overlap", Error, Job,
        "the web between them is {value}; the minimum is {limit}";
    ItemOpeningsRunTogether { area: SquareMm } = "openings-overlap", Error, Job,
        "openings in {place} run into one another or over its edge, by {area}";
    OpeningsRunTogether { area: SquareMm } = "openings-overlap", Error, Style(Blank),
        "openings in {place} run into one another or over its edge, by {area}";
    WebWeak { edge: String } = "web-weak", Warning, Job,
        "the web between the opening and the edge of its panel at {edge} is {value}: at this thickness it breaks easily. Minimum: two thicknesses, {limit}";
    WebWeakBetween = "web-weak", Warning, Job,
        "the web between them is {value}: at this thickness it breaks easily. Minimum: two thicknesses, {limit}";
    OpeningsDoNotFit { count: usize, short: Clause, search: Clause } = "openings-do-not-fit", Error, Job,
        "{count} openings do not fit: in the best rows {short}; {search}";
    OpeningsPacked { turned: Option<Clause> } = "openings-packed", Note, Job,
        "the openings do not fit in rows in the job's order, so they are packed in a different order{turned}";
    ItemPlaces { rows: Vec<Vec<String>>, web: Option<Clause>, drawing: Clause } = "item-places", Note, Job,
        "positions in the finished tray, back row first, left to right: {rows}. {web}{drawing}";
    TurnIgnored = "turn-ignored", Note, Job,
        "`turn` has no effect in this style: swap the item's length and width to rotate it";

    // The panels, flat.
    BridgeNarrow = "bridge-narrow", Warning, Job,
        "the bridge is {value} wide: two pressed creases this close run into one. Minimum: {limit}";
    BridgeNarrowHalfCut = "bridge-narrow", Warning, Job,
        "the bridge between its two half-cut creases is {value} wide: a bridge this narrow splits off. Minimum: {limit}";
    RollOverCrushed = "roll-over-corrugated", Warning, Job,
        "the bridge is {value} wide: its two creases crush the flutes over the whole width, and the roll-over stays soft and springy. Minimum: three thicknesses, {limit}";
    RollOverBuckles = "roll-over-corrugated", Error, Job,
        "the bridge of corrugated board would be {value} wide: its inner liner has no room to fold there and buckles. Minimum: two thicknesses, {limit}";
    BridgeTooNarrow { width: Mm } = "bridge-too-narrow", Error, Either(Values),
        "the bridge would be {width} wide";
    PanelTooSmall { panel: String, span: Mm, reach: Mm } = "panel-too-small", Error, Style(Values),
        "{panel} would be {span} by {reach}";
    TongueMisses { panel: String, into: String, by: Mm } = "tongue-misses", Error, Style(Values),
        "the tongue of {panel} ends {by} short of {into}, so no slit can be cut";
    NotchOffEdge { edge: String } = "notch-off-edge", Error, Style(Values),
        "its finger notch reaches {value} from the middle of its {edge} edge; the maximum is {limit}";
    PanelsOverlap { other: String, area: SquareMm } = "panels-overlap", Error, Style(Blank),
        "{place} and {other} would be cut from the same {area} of card";
    OutlineBroken { pieces: usize, area: SquareMm } = "outline-broken", Error, Style(Blank),
        "the blank is not one piece with one edge: {pieces} pieces, {area} apart from its panels";
    CreaseOffEdge = "crease-off-edge", Error, Style(Blank),
        "the crease of {place} is longer than the edge that carries it";

    // The panels, folded and while they fold.
    PanelsCollide { other: String, depth: Mm } = "panels-collide", Error, Style(Folded),
        "folded, {place} and {other} collide by {depth}";
    NoFoldingOrder = "step-blocked", Error, Either(Folding),
        "this tray cannot be folded: every folding order ends in a collision";
    OtherOrder { step: usize, meets: Clause, reason: Option<Clause> } = "other-order", Note, Either(Folding),
        "in step {step} of the style {place} cannot be folded: {meets}{reason}. The program uses another order, which has no collision";
    NoSwingRoom { meets: Clause } = "no-swing-room", Error, Either(Folding),
        "{place} cannot be folded: {meets}";
    WallNotHeld = "wall-not-held", Warning, Job,
        "only the box keeps {place} upright";
    FitUncertain = "fit-uncertain", Warning, Job,
        "{place} has {value} clearance, but measuring, creasing and cutting can be off by {limit}";
    PocketTight { chance: Chance } = "pocket-tight", Warning, Job,
        "{place} has {value} clearance, and creases and card can be off by {limit}: it is too tight in {chance} trays";
    LockByFriction { into: String, chance: Chance } = "lock-by-friction", Note, Job,
        "{place} engages {into} by {value}, less than the accuracy of creases and cuts (±{limit}); it does not engage in {chance} trays. Expect friction, not a lock";
    Humidity { side: Side } = "humidity", Note, Job,
        "in damp air the card may grow by {value} along the box's {side}; the clearance is {limit}";

    // The lines of a machine.
    OutlineWidened { count: usize } = "outline-widened", Note, Job,
        "steps and reliefs of the outline that were too short for your tool, which follows cuts from {limit}: {count}, the shortest {value}. They are widened or slanted; the blank, folding, fit and hold are checked with the new shape, the rules and sizes of the style with the old one";
    CutTooShort { count: usize, x: Mm, y: Mm } = "cut-too-short", Warning, Job,
        "cuts that are shorter than your tool follows: {count}. The shortest is {value}, and `smallest` is {limit}; it is {x} from the left and {y} from the lower edge of the blank, and the corner there may come out rounded";
    KerfTooWide { x: Mm, y: Mm } = "kerf-too-wide", Error, Job,
        "a {limit} kerf is wider than the notch, slit or opening {x} from the left and {y} from the lower edge of the blank, which is {value} wide";
    KerfTakesWeb { kerf: Mm, x: Mm, y: Mm } = "kerf-too-wide", Error, Job,
        "a {kerf} kerf takes {limit} of the card between two cuts {x} from the left and {y} from the lower edge of the blank, and that card is only {value} wide";
    CreaseTooShort { cut: Mm, gap: Mm } = "crease-too-short", Error, Job,
        "its crease is {value} long, and a perforation with a cut of {cut} between two gaps of {gap} needs {limit}";
    NoRoomForNicks { nick: Mm } = "no-room-for-nicks", Error, Job,
        "fewer than two edges of the outline are long enough for a {nick} nick (three times its length)";
    NoRoomBesideNicks { nick: Mm, smallest: Mm, needed: Mm } = "no-room-for-nicks", Error, Job,
        "fewer than two edges of the outline are long enough for a {nick} nick: your tool follows cuts from {smallest}, so an edge needs {needed}, the nick and such a cut on either side";
}
