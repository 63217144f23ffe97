//! The C door. (Being built.)
