//! Document to bytes and back. (Being built.)
