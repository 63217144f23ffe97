//! Fixes of jobs: cases in which single fixes led makers in circles, each fixed by one set of changes.
//!
//! Source of the expectations: core/CONTRACT.md, "check --format json": each was tried, `leaves` counts the errors that remain; what is
//! changed first is a choice of the project (pad, height, cut, clearance, web, card, arrangement; the box last).

use traywright_engine::Level;
use traywright_job::checked_job::{CheckedJob, Checker};
use traywright_job::fixes::tried;
use traywright_job::job_file::{changed, read};
use traywright_job::library::{Boards, Styles};

/// A job checked, with its fixes.
fn checked(text: &str) -> CheckedJob {
    let (styles, boards) = (Styles::shipped(), Boards::shipped());
    let checker = Checker::new(&styles);
    let job = read("tin.kdl", text.as_bytes(), &boards).expect("the job can be read");
    let mut checked = checker
        .check("tin.kdl", text.as_bytes(), job)
        .expect("the job can be checked");
    let style = checker
        .style_of(&checked.job)
        .expect("the style is shipped");
    checked.fixes = tried(&checked, style, &boards);
    checked
}

/// The first fix of a job in words; with it the job has no error, and none of these findings.
#[track_caller]
fn mended(text: &str, gone: &[&str]) -> String {
    let before = checked(text);
    for code in gone {
        let found = before
            .report()
            .findings
            .iter()
            .any(|found| found.code() == *code);
        assert!(found, "{code} is not found before");
    }
    let fix = before.fixes.first().expect("a fix is found");
    assert_eq!(fix.leaves, 0, "{fix:?}");
    let after = checked(&changed(text, &fix.changes).expect("the text can be changed"));
    assert_eq!(after.findings(Level::Error).count(), 0, "{fix:?}");
    for code in gone {
        let found = after
            .report()
            .findings
            .iter()
            .any(|found| found.code() == *code);
        assert!(!found, "{code} is found still: {fix:?}");
    }
    fix.says.clone()
}

#[test]
fn a_small_jar_gets_the_pad_that_holds_it_at_once() {
    // Source: core/GEOMETRY.md, "How an item is held": in this box the deck is 40 high and the air 2, so the pad to name is
    // 40 - 24 + 1.
    let job = "tray style=\"single-slot\"\nbox length=(mm)150 width=(mm)100 depth=(mm)42\n\
               item \"jar\" length=(mm)12 width=(mm)12 depth=(mm)24\nboard caliper=(mm)0.4\n";
    let fixes = checked(job).fixes;
    let pad = fixes
        .iter()
        .find(|fix| fix.says == "item \"jar\" pad=(mm)17");
    assert_eq!(pad.map(|fix| fix.leaves), Some(0), "{fixes:?}");
    mended(job, &["item-slides"]);
}

#[test]
fn a_wall_without_room_to_swing_gets_the_height_that_folds() {
    let says = mended(
        "tray style=\"double-wall\"\nbox length=(mm)95 width=(mm)90 depth=(mm)140\n\
         item \"lens\" length=(mm)20 width=(mm)20 depth=(mm)130\nboard \"index-255\"\n",
        &["no-swing-room"],
    );
    assert!(says.starts_with("tray height=(mm)"), "{says}");
}

#[test]
fn a_step_that_is_blocked_in_the_order_of_the_style_is_made_in_another() {
    let job = "tray style=\"double-wall\"\nbox length=(mm)160 width=(mm)60 depth=(mm)70\n\
               item \"lens\" length=(mm)60 width=(mm)20 depth=(mm)66\nboard \"index-255\"\n";
    let checked = checked(job);
    assert!(checked.fits());
    let notes: Vec<&str> = checked
        .findings(Level::Note)
        .map(|found| found.code())
        .collect();
    assert!(notes.contains(&"other-order"), "{notes:?}");
}

#[test]
fn fences_that_are_too_low_are_mended_without_a_pad() {
    let says = mended(
        "tray style=\"lid-lock\"\nbox length=(mm)120 width=(mm)90 depth=(mm)40\n\
         item \"coin\" length=(mm)50 width=(mm)40 depth=(mm)12\nboard \"index-255\"\n",
        &["fence-too-low"],
    );
    assert!(!says.contains("pad"), "{says}");
}

#[test]
fn thinner_card_is_named_with_its_figure() {
    let says = mended(
        "tray style=\"single-slot\"\nbox length=(mm)120 width=(mm)80 depth=(mm)9\n\
         item \"card\" length=(mm)60 width=(mm)40 depth=(mm)6\nboard caliper=(mm)1\n",
        &["walls-too-low"],
    );
    assert!(says.starts_with("board caliper=(mm)0."), "{says}");
}

#[test]
fn a_tight_opening_gets_the_clearance_that_is_enough_in_one_go() {
    // Derived: on four edges flaps of 3 mm take 3 mm of it by half a caliper each; 0.5 mm more where creases fold thick
    // takes two calipers: 0.5 + 2 × 3 = 6.5.
    let says = mended(
        "tray style=\"single-slot\"\nbox length=(mm)180 width=(mm)120 depth=(mm)40\n\
         item \"case\" length=(mm)100 width=(mm)60 depth=(mm)37\nboard caliper=(mm)3\nfit item=(mm)2\n",
        &["item-does-not-enter"],
    );
    // Board this thick makes other clearances uncertain, and the same set of changes widens them.
    assert!(says.starts_with("fit item=(mm)6.5"), "{says}");
}

#[test]
fn several_errors_get_one_set_of_changes() {
    let job = "tray style=\"single-slot\"\nbox length=(mm)130 width=(mm)90 depth=(mm)40\n\
               item \"case\" length=(mm)128 width=(mm)88 depth=(mm)45\nboard \"index-255\"\n";
    let says = mended(
        job,
        &[
            "item-too-deep",
            "opening-too-near-end",
            "opening-too-near-side",
        ],
    );
    assert!(says.starts_with("box "), "{says}");
}

#[test]
fn an_opening_too_near_two_sides_gets_a_web_with_its_clearance() {
    let says = mended(
        "tray style=\"single-slot\"\nbox length=(mm)130 width=(mm)90 depth=(mm)40\n\
         item \"case\" length=(mm)117.5 width=(mm)80 depth=(mm)37\nboard \"index-255\"\n",
        &["opening-too-near-side"],
    );
    assert!(!says.contains("box "), "{says}");
}

#[test]
fn a_tray_that_fits_is_left_alone() {
    let job = "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
               item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard \"index-255\"\n";
    assert!(checked(job).fixes.is_empty());
}

#[test]
fn a_pad_that_leaves_no_warning_comes_before_a_lower_tray_that_does() {
    // Source: a choice of the project: a fix after which nothing is left to watch comes first.
    let job = |depth: f64| {
        format!(
            "tray style=\"single-slot\"\nbox length=(mm)150 width=(mm)100 depth=(mm)42\n\
             item \"lens\" length=(mm)50 width=(mm)40 depth=(mm){depth}\nboard \"index-255\"\nslot cut=\"open\"\n"
        )
    };
    // Derived: the deck is 40 high, and half the air of 2 mm is added: a pad of 40 - 36 + 1, and one of 40 - 28 + 1. At 28 mm
    // the item has 14 mm of air, half its depth, so it does not come out.
    assert_eq!(
        mended(&job(36.0), &["item-slides"]),
        "item \"lens\" pad=(mm)5"
    );
    // A tray 28 high would end level with the item, and hands may make it a millimetre lower or higher.
    assert_eq!(
        mended(&job(28.0), &["item-slides"]),
        "item \"lens\" pad=(mm)13"
    );
}

#[test]
fn a_tray_of_paper_gets_the_thinnest_card_of_the_list() {
    // Source: designs/boards.ron: of what is no paper for trials, index-165 is the thinnest above 0.15 mm.
    let says = mended(
        "tray style=\"single-slot\"\nbox length=(mm)182 width=(mm)121 depth=(mm)34\n\
         item \"barometer\" length=(mm)96 width=(mm)61 depth=(mm)28\nboard \"copier-90\"\n",
        &["card-thin"],
    );
    assert!(says.contains("board \"index-165\""), "{says}");
}

#[test]
fn corrugated_board_that_would_be_rolled_over_on_nothing_gets_play_or_other_board() {
    mended(
        "tray style=\"double-wall\"\nbox length=(mm)260 width=(mm)190 depth=(mm)60\n\
         item \"clock\" length=(mm)120 width=(mm)80 depth=(mm)58\nboard \"corrugated-e-flute\"\nslot cut=\"open\"\n",
        &["roll-over-corrugated"],
    );
}
