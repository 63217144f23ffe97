//! A sheet of card called by its name is as large as the standard says.
//!
//! Source: ISO 216 for the A sizes. Letter, Legal and Tabloid: 8.5 by 11, 8.5 by 14 and 11 by 17 inches of exactly
//! 25.4 mm, common practice, computed.

use traywright_tests::trying::{check, codes, measure};

/// Name, shorter and longer side in mm.
const SHEETS: [(&str, f64, f64); 9] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
    ("Letter", 215.9, 279.4),
    ("Legal", 215.9, 355.6),
    ("Tabloid", 279.4, 431.8),
];

#[test]
fn a_blank_may_be_as_long_and_as_wide_as_its_sheet_and_no_more() {
    for (sheet, width, length) in SHEETS {
        let flat = Inside {
            length: 0.8 * length,
            width: 0.5 * width,
        };
        let blank = flat.blank(sheet);
        let long = Inside {
            length: flat.length + length - blank[0],
            ..flat
        };
        let wide = Inside {
            width: flat.width + width - blank[1],
            length: 0.8 * length,
        };
        for (case, axis) in [(long, 0), (wide, 1)] {
            let [border, within, beyond] = [0.0, -0.01, 0.01].map(|more| case.longer(axis, more));
            let expected = [length, width][axis];
            assert!(
                (border.blank(sheet)[axis] - expected).abs() < 1e-9,
                "{sheet}"
            );
            assert!(!within.is_too_large_for(sheet), "{sheet}: {within:?}");
            assert!(beyond.is_too_large_for(sheet), "{sheet}: {beyond:?}");
        }
    }
}

/// The inside of a shallow box.
#[derive(Clone, Copy, Debug)]
struct Inside {
    length: f64,
    width: f64,
}

impl Inside {
    fn longer(self, axis: usize, more: f64) -> Inside {
        Inside {
            length: self.length + if axis == 0 { more } else { 0.0 },
            width: self.width + if axis == 1 { more } else { 0.0 },
        }
    }

    fn blank(self, sheet: &str) -> [f64; 2] {
        let report = check(&self.job(sheet));
        ["blank_length", "blank_width"].map(|name| measure(&report, name))
    }

    fn is_too_large_for(self, sheet: &str) -> bool {
        codes(&check(&self.job(sheet))).contains(&"sheet-too-small")
    }

    fn job(self, sheet: &str) -> String {
        let Inside { length, width } = self;
        format!(
            "tray style=\"single-slot\"\nbox length=(mm){length:?} width=(mm){width:?} depth=(mm)12\n\
             item \"medal\" length=(mm)30 width=(mm)20 depth=(mm)8\nboard caliper=(mm)0.3 sheet=\"{sheet}\"\n"
        )
    }
}
