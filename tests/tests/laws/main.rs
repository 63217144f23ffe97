//! What is true of every tray, whatever its figures.
//!
//! Jobs are drawn at random or written down, and made with the engine as a library. The first line of each test says
//! the reasoning; no expected value comes from the engine.

mod arrangement;
mod bites;
mod by_hand;
mod card;
mod curves;
mod extremes;
mod figures;
mod formulas;
mod holding;
mod holding_limits;
mod openings;
mod own_styles;
mod proof;
mod random;
mod rows;
mod space;
mod springs;
mod unsure;
mod walled;
