//! The files that a library may read, by Landlock.
//!
//! **Input:** the library and its font. **Output:** the restrictions in force; none where the kernel has no Landlock.
// Source: landlock(7), Linux man-pages.

use std::path::{Path, PathBuf};

use landlock::{
    ABI, Access, AccessFs, RestrictionStatus, Ruleset, RulesetAttr, RulesetCreatedAttr,
    RulesetError, RulesetStatus, Scope, path_beneath_rules,
};

use super::{Needs, Restriction};

/// Where systems keep their libraries, and what the loader and the C library read beside them.
// Source: Filesystem Hierarchy Standard 3.0, 3.9, 3.10, 4.6, 4.7 and 4.9; ld.so(8). The two stores are common practice.
const LIBRARIES: [&str; 13] = [
    "/lib",
    "/lib32",
    "/lib64",
    "/usr/lib",
    "/usr/lib32",
    "/usr/lib64",
    "/usr/local/lib",
    "/usr/local/lib64",
    "/nix/store",
    "/gnu/store",
    "/etc/ld.so.cache",
    "/dev/null",
    "/dev/urandom",
];

/// The newest interface of the kernel that this file was written for; an older one restricts less.
const NEWEST: ABI = ABI::V6;

/// Lets the process read its libraries and its font, and nothing else; it writes nothing.
pub(super) fn restrict(needs: &Needs) -> Result<Vec<Restriction>, RulesetError> {
    let own = [Some(&needs.library), needs.font.as_ref()];
    let readable = LIBRARIES.map(PathBuf::from).into_iter();
    let readable = readable.chain(own.into_iter().flatten().cloned());
    // A path that is not there needs no rule.
    let readable = readable.filter(|path: &PathBuf| Path::exists(path));
    let reads = AccessFs::ReadFile | AccessFs::ReadDir;
    let RestrictionStatus { ruleset, .. } = Ruleset::default()
        .handle_access(AccessFs::from_all(NEWEST))?
        .scope(Scope::from_all(NEWEST))?
        .create()?
        .add_rules(path_beneath_rules(readable, reads))?
        .restrict_self()?;
    // Every kernel with Landlock restricts reading; writing is restricted completely by the newer ones, and by `calls`.
    Ok(match ruleset {
        RulesetStatus::NotEnforced => Vec::new(),
        RulesetStatus::PartiallyEnforced => vec![Restriction::ReadsOnlyItsLibraries],
        RulesetStatus::FullyEnforced => vec![
            Restriction::ReadsOnlyItsLibraries,
            Restriction::WritesNothing,
        ],
    })
}
