//! The forms of what sheets say that were made already, so that none is made twice.

use std::cell::OnceCell;

use crate::forms::Forms;

/// The forms that were asked for already.
#[derive(Clone, Default)]
pub(crate) struct Texts {
    pub(crate) bars: [OnceCell<Forms>; 4],
    pub(crate) advice: OnceCell<Forms>,
    pub(crate) halves: [OnceCell<Forms>; 2],
    pub(crate) short: OnceCell<Forms>,
    pub(crate) joining: OnceCell<Forms>,
    pub(crate) cautions: OnceCell<Forms>,
    pub(crate) legend: OnceCell<Forms>,
    pub(crate) pads: OnceCell<Option<Forms>>,
    pub(crate) parts: OnceCell<Option<Forms>>,
    pub(crate) grain: OnceCell<Option<Forms>>,
}

impl Texts {
    /// The same for a page of another size, which the advice names and which has other bars and another overlap.
    pub(crate) fn of_other_page(&self) -> Texts {
        Texts {
            advice: OnceCell::new(),
            halves: Default::default(),
            short: OnceCell::new(),
            joining: OnceCell::new(),
            ..self.clone()
        }
    }
}
