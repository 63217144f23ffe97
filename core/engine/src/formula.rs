//! The small language of formulas. (Being built.)
