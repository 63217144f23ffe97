//! Words and lengths, there and back.

use super::*;

const MM: Unit = Unit::Millimetre;
const IN: Unit = Unit::Inch;

fn read(text: &str, usual: Unit) -> Option<(f64, Unit)> {
    as_people_write(text, usual).map(|length| (length.mm, length.unit))
}

// Source: 1 in = 25.4 mm exactly; the products were worked out by hand.
#[test]
fn lengths_as_people_write_them() {
    for (text, mm, unit) in [
        ("182", 182.0, MM),
        (" 182 mm ", 182.0, MM),
        ("182mm", 182.0, MM),
        ("18.2 cm", 182.0, MM),
        ("18,2 cm", 182.0, MM),
        ("18,2CM", 182.0, MM),
        ("7 3/16 in", 182.5625, IN),
        ("7-3/16\"", 182.5625, IN),
        ("7 3/16", 182.5625, IN),
        ("3/16 inch", 4.7625, IN),
        ("7½”", 190.5, IN),
        ("½ in", 12.7, IN),
        ("7.5 in", 190.5, IN),
        ("2 inches", 50.8, IN),
    ] {
        let (found, found_unit) = read(text, MM).unwrap_or_else(|| panic!("`{text}` is not read"));
        assert!((found - mm).abs() < 1e-9, "{text}: {found}");
        assert_eq!(found_unit, unit, "{text}");
    }
    assert_eq!(read("7.5", IN), Some((190.5, IN)));
    assert_eq!(read("10 mm", IN), Some((10.0, MM)));
}

#[test]
fn what_can_be_read_in_two_ways_is_not_read() {
    for text in [
        "",
        "mm",
        "1,000",
        "1.2.3",
        "1,2.3",
        "-5",
        "5 ft",
        "7 3/16 mm",
        "3/7 in",
        "7/0",
        "0/8",
        "1 9/8 in",
        "five",
        "12e3",
        "5 5",
        "182 121",
        "∞",
        "7--3/16",
        "½½",
        ".5.",
        ".",
    ] {
        assert_eq!(read(text, MM), None, "{text}");
    }
}

// Source: core/CONTRACT.md, "Words".
#[test]
fn fractions_of_an_inch() {
    for (text, inches) in [
        ("3 5/8", 3.625),
        ("7/16", 0.4375),
        ("9/8", 1.125),
        ("1 63/64", 1.984375),
        ("12", 12.0),
        ("2/4", 0.5),
    ] {
        assert_eq!(fraction(text), Ok(inches), "{text}");
    }
    for (text, fault) in [
        ("7/0", FractionFault::Denominator),
        ("1/3", FractionFault::Denominator),
        ("1/128", FractionFault::Denominator),
        ("0/8", FractionFault::Zero),
        ("0", FractionFault::Zero),
        ("3 9/8", FractionFault::Improper),
        ("-3/8", FractionFault::Form),
        ("3.5", FractionFault::Form),
        ("3 5", FractionFault::Form),
        ("", FractionFault::Form),
        ("999999/2", FractionFault::Form),
        ("+3/8", FractionFault::Form),
    ] {
        assert_eq!(fraction(text), Err(fault), "{text}");
    }
}

// Source: worked out by hand from 25.4 mm to the inch.
#[test]
fn lengths_as_a_job_writes_them() {
    for (mm, unit, words) in [
        (182.0, MM, "(mm)182"),
        (0.29, MM, "(mm)0.29"),
        (11.000_000_000_000_002, MM, "(mm)11"),
        (182.5625, IN, "(in)\"7 3/16\""),
        (4.7625, IN, "(in)\"3/16\""),
        (50.8, IN, "(in)2"),
        (2.54, IN, "(in)0.1"),
        (182.0, IN, "(in)7.16535"),
    ] {
        assert_eq!(in_job(WrittenLength { mm, unit }), words);
    }
    assert_eq!(
        read_out(WrittenLength {
            mm: 92.075,
            unit: IN
        }),
        "3 5/8 in"
    );
    assert_eq!(
        read_out(WrittenLength {
            mm: 100.0,
            unit: MM
        }),
        "100 mm"
    );
}
