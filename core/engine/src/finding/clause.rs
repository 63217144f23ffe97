//! Parts of sentences that depend on the case.

use super::sentence::{Degrees, FineDegrees, InWords, Mm, Size, sentences};
use traywright_document::{Unit, filled};

sentences! {
    /// A part of a sentence.
    pub enum Clause {
        // The clear size of an opening.
        StaysClear { size: Size } = ", {size} clear once it is folded",
        // How an item is held.
        WithPad { depth: Mm, pad: Mm } = " on its pad ({depth} and a pad of {pad})",
        AlongTheBox = "along the box",
        AcrossTheBox = "across the box",
        Ends = "ends",
        Sides = "sides",
        TipsToo { height: Mm, pair: Box<Clause> } = ", and {height} of those at its {pair}",
        FencesMiss { pair: Box<Clause> } =
            "the fences at its {pair} end below it, or lean away from it",
        TheTop = "the top",
        TheStraightPart = "the straight part",
        ItsTop = "its top",
        StraightPart = "its straight part",
        AndAlso { axis: Box<Clause>, far: Mm, why: Box<Clause> } =
            "; and {axis}, {far}: {why}",
        NoFlapHangs { top: Box<Clause>, below: Mm, pair: Box<Clause> } =
            "{top} lies {below} below the deck, and there is no flap at its {pair}",
        FlapsStopAbove { pair: Box<Clause>, gap: Mm } = "the flaps at its {pair} stop {gap} above it",
        FlapsMiss { pair: Box<Clause> } = "it slips past the flaps at its {pair}",
        ItemHeld { item: String, along: Box<Clause>, across: Box<Clause>, rise: Mm } =
            "{item}: held lengthwise {along}; widthwise {across}; can rise {rise}",
        ItemHeldAlike { item: String, by: Box<Clause>, rise: Mm } =
            "{item}: held on all sides {by}; can rise {rise}",
        ByEdge { height: Mm, unsure: Mm } =
            "along {height} (±{unsure}) of its height by the edge of the deck",
        ByFlaps { height: Mm, unsure: Mm } = "along {height} (±{unsure}) of its height by flaps, which give a little",
        ByLimpFlaps { height: Mm, unsure: Mm } =
            "along {height} (±{unsure}) of its height by limp flaps, once the space behind them is filled",
        ByFirmFlaps { height: Mm, unsure: Mm } = "along {height} (±{unsure}) of its height by flaps",
        ByFences { height: Mm, unsure: Mm } = "along {height} (±{unsure}) of its height by fences, which give a little",
        ByLimpFences { height: Mm, unsure: Mm } =
            "along {height} (±{unsure}) of its height by limp fences",
        ByFirmFences { height: Mm, unsure: Mm } = "along {height} (±{unsure}) of its height by fences",
        ByPanel { panel: String, height: Mm } = "along {height} of its height by {panel}",
        ByBox = "by the walls of the box",
        ByNothing = "by nothing",
        NothingBeside { pair: Box<Clause> } = "nothing is beside it at its {pair}",
        TheEdge = "the edge of the deck",
        TheFlaps = "flaps",
        TheFences = "fences",
        // Shapes, and the panels at an opening's edges.
        Round = "round",
        Oval = "oval",
        Flaps = "flaps",
        Panels = "panels",
        // The lengths that the best rows lack.
        MissingBoth { along: Mm, across: Mm } =
            "{along} is missing along the length and {across} along the width",
        MissingAlong { along: Mm } = "{along} is missing along the length",
        MissingAcross { across: Mm } = "{across} is missing along the width",
        // The result of the search for an arrangement.
        NoOtherFits = "no other arrangement of them fits either",
        NotFound { steps: usize } = "no other arrangement was found in {steps} steps of search",
        NotSearched = "other arrangements are searched only up to 12 openings",
        OneTurned { items: Vec<String> } = "; {items} is rotated 90°, as the job allows",
        SeveralTurned { items: Vec<String> } = "; {items} are rotated 90°, as the job allows",
        LeastWeb { web: Mm, between: Vec<String> } = "Narrowest web: {web}, between {between}. ",
        // How the drawing shows the finished tray.
        DrawingMirrors =
            "The template shows the inside face, so its rows are in the opposite order: the back row of this list is the lowest row of the template",
        DrawingTurned = "The template shows the same, rotated by 180°",
        DrawingSame = "The template shows the same",
        DrawingSwapsSides = "The template is a mirror image of this list: left and right change places",
        // The collision that blocks a fold.
        MeetsAtOnce { other: String } =
            "there is no room to fold it: it touches {other} at once",
        MeetsAfter { angle: Degrees, other: String } = "it hits {other} at {angle}",
        StyleSays { why: String } = " (the style says: {why})",
        // The support of the folded tray's walls.
        WallStopped { wall: String, angle: FineDegrees, other: String } =
            "{wall} can open {angle} before {other} stops it",
        WallInBox { wall: String } = "{wall}: only the box keeps it upright",
        TongueEngages { tongue: String, deep: Mm, into: String, friction: Option<Box<Clause>> } =
            "{tongue}: reaches {deep} into {into}{friction}",
        TonguesEngage { count: usize, tongue: String, deep: Mm, into: String, friction: Option<Box<Clause>> } =
            "{count} × {tongue}: each reaches {deep} into {into}{friction}",
        Friction { line: Mm } =
            ". Creases and cuts can be off by {line}, so expect friction, not a lock",
        // Uncertainties.
        DampTakes { more: Mm } = "; damp air takes up to {more} more",
        // Ends of advice.
        OrLessFit = "or less fit",
        LessFitOrNarrowerNotches = "less fit, or narrower finger notches",
        TriedInVain { what: String } = "; these do not help: {what}",
    }
}

impl InWords for Clause {
    fn in_words(&self, unit: Unit) -> String {
        filled(self.sentence(), &Clause::in_words(self, unit))
    }
}

impl InWords for Box<Clause> {
    fn in_words(&self, unit: Unit) -> String {
        InWords::in_words(self.as_ref(), unit)
    }
}

/// One clause after the other.
impl InWords for Vec<Clause> {
    fn in_words(&self, unit: Unit) -> String {
        let clauses: Vec<String> = self
            .iter()
            .map(|one| InWords::in_words(one, unit))
            .collect();
        clauses.join("; ")
    }
}

/// Rows of names: from the first row to the last, each in its order.
impl InWords for Vec<Vec<String>> {
    fn in_words(&self, _: Unit) -> String {
        let rows: Vec<String> = self.iter().map(|row| row.join(", ")).collect();
        rows.join("; ")
    }
}
