//! Handles: the numbers by which the parts of a DXF refer to each other.
//!
//! **Output:** hexadecimal digits from 1 on, without duplicates in one file.

/// Unique numbers for all parts of the file.
#[derive(Default)]
pub(crate) struct Handles(u32);

impl Handles {
    /// The next one, in hexadecimal digits.
    pub(crate) fn next(&mut self) -> String {
        self.0 += 1;
        format!("{:X}", self.0)
    }
}
