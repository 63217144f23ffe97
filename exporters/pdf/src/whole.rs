//! Numbers rounded to whole ones by conversions, which round towards 0: for usual builds `f64::ceil` and `f64::floor` are
//! calls of functions, and the search for sheets and places rounds some hundred thousand times.

/// The least whole number that is no smaller. Values beyond `i64` give its ends.
pub(crate) fn rounded_up(value: f64) -> i64 {
    let whole = value as i64;
    whole + i64::from((whole as f64) < value)
}

/// The largest whole number that is no greater. Values beyond `i64` give its ends.
pub(crate) fn rounded_down(value: f64) -> i64 {
    let whole = value as i64;
    whole - i64::from((whole as f64) > value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_rounded_as_the_standard_library_rounds_them() {
        for step in -4000..=4000 {
            let value = f64::from(step) / 16.0;
            assert_eq!(rounded_up(value) as f64, value.ceil(), "{value}");
            assert_eq!(rounded_down(value) as f64, value.floor(), "{value}");
        }
    }
}
