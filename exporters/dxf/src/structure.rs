//! Builds a valid file from the library's output: sections, tables, owners and handles as strict readers require them.
//!
//! **Input:** the text of the library, the release and the extent. **Output:** the file. The library's header is
//! dropped with its dates and random numbers, so the same drawing gives the same bytes; all values of its tables and
//! entities are kept.

use traywright_document::{DxfVersion, Extent};

use crate::groups::{Group, Record, group, section, text};
use crate::handles::Handles;
use crate::tables::{self, SPACES};

/// Builds the file.
pub(crate) fn file(raw: &str, version: DxfVersion, extent: Extent) -> String {
    let mut handles = Handles::default();
    let mut body = Vec::new();
    begin("TABLES", &mut body);
    let spaces = tables::write(&section(raw, "TABLES"), version, &mut handles, &mut body);
    end(&mut body);
    begin("BLOCKS", &mut body);
    if version == DxfVersion::R2000 {
        blocks(&spaces, &mut handles, &mut body);
    }
    end(&mut body);
    begin("ENTITIES", &mut body);
    entities(
        &section(raw, "ENTITIES"),
        version,
        &spaces[0],
        &mut handles,
        &mut body,
    );
    end(&mut body);
    if version == DxfVersion::R2000 {
        begin("OBJECTS", &mut body);
        objects(&mut handles, &mut body);
        end(&mut body);
    }
    body.push(group(0, "EOF"));
    let header = header(version, extent, &handles.next());
    text(header.iter().chain(&body))
}

fn begin(name: &str, file: &mut Vec<Group>) {
    file.extend([group(0, "SECTION"), group(2, name)]);
}

fn end(file: &mut Vec<Group>) {
    file.push(group(0, "ENDSEC"));
}

/// The header of the file. `next` is the first free handle.
// Source: DXF reference, header variables: AC1009 is release 12 and AC1015 release 2000; unit 4 is the millimetre;
// $MEASUREMENT 1 takes metric line types. Release 12 knows no unit.
fn header(version: DxfVersion, extent: Extent, next: &str) -> Vec<Group> {
    let mut header = Vec::new();
    begin("HEADER", &mut header);
    let mut say = |name: &str, groups: &[Group]| {
        header.push(group(9, name));
        header.extend_from_slice(groups);
    };
    let corner = |x: f64, y: f64| [group(10, number(x)), group(20, number(y)), group(30, "0.0")];
    let release = match version {
        DxfVersion::R12 => "AC1009",
        _ => "AC1015",
    };
    say("$ACADVER", &[group(1, release)]);
    say("$DWGCODEPAGE", &[group(3, "ANSI_1252")]);
    say("$EXTMIN", &corner(extent.least.x, extent.least.y));
    say("$EXTMAX", &corner(extent.most.x, extent.most.y));
    say("$LTSCALE", &[group(40, "1.0")]);
    if version == DxfVersion::R2000 {
        say("$INSUNITS", &[group(70, 4)]);
        say("$MEASUREMENT", &[group(70, 1)]);
        say("$HANDSEED", &[group(5, next)]);
    }
    end(&mut header);
    header
}

/// A number written with a decimal point.
fn number(value: f64) -> String {
    format!("{value:?}")
}

/// The two spaces of a drawing; the entities are in the first, by their owner.
fn blocks(spaces: &[String; 2], handles: &mut Handles, file: &mut Vec<Group>) {
    for (index, (name, owner)) in SPACES.into_iter().zip(spaces).enumerate() {
        let common = |kind: &str, handle: String| {
            let mut groups = vec![
                group(0, kind),
                group(5, handle),
                group(330, owner),
                group(100, "AcDbEntity"),
            ];
            groups.extend((index == 1).then(|| group(67, 1)));
            groups.push(group(8, 0));
            groups
        };
        file.extend(common("BLOCK", handles.next()));
        file.extend([
            group(100, "AcDbBlockBegin"),
            group(2, name),
            group(70, 0),
            group(10, "0.0"),
            group(20, "0.0"),
            group(30, "0.0"),
            group(3, name),
            group(1, ""),
        ]);
        file.extend(common("ENDBLK", handles.next()));
        file.push(group(100, "AcDbBlockEnd"));
    }
}

/// The entities. In release 12 the vertices of a polyline are on the layer of their polyline.
fn entities(
    raw: &[Record],
    version: DxfVersion,
    space: &str,
    handles: &mut Handles,
    file: &mut Vec<Group>,
) {
    let mut layer = None;
    for record in raw {
        let kind = record[0].value.as_str();
        let follows = ["VERTEX", "SEQEND"].contains(&kind);
        file.push(record[0].clone());
        if version == DxfVersion::R2000 {
            file.extend([group(5, handles.next()), group(330, space)]);
        }
        if !follows {
            layer = record.iter().find(|group| group.code == 8).cloned();
        }
        file.extend(layer.clone().filter(|_| follows));
        for old in &record[1..] {
            match old.code {
                // The handle is new; a width of 0 would be the thinnest line of all, and a missing one is the layer's.
                5 | 370 => {}
                8 if follows => {}
                100 if version == DxfVersion::R12 => {}
                _ => file.push(old.clone()),
            }
        }
    }
}

/// The dictionaries that release 2000 requires.
fn objects(handles: &mut Handles, file: &mut Vec<Group>) {
    let (root, groups) = (handles.next(), handles.next());
    let dictionary = |handle: &str, owner: &str| {
        [
            group(0, "DICTIONARY"),
            group(5, handle),
            group(330, owner),
            group(100, "AcDbDictionary"),
            group(281, 1),
        ]
    };
    file.extend(dictionary(&root, "0"));
    file.extend([group(3, "ACAD_GROUP"), group(350, &groups)]);
    file.extend(dictionary(&groups, &root));
}
