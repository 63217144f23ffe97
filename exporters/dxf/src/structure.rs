//! Builds a valid file from the library's output: sections, tables, owners and handles as strict readers require them.
//!
//! **Input:** the text of the library, the release and the extent. **Output:** the file. The library's header is
//! dropped with its dates and random numbers, so the same drawing gives the same bytes; all values of its tables and
//! entities are kept.

use traywright_document::{DxfVersion, Extent};

use crate::groups::{Group, Record, group, is, section, text, value};
use crate::handles::Handles;
use crate::tables::{self, Owner};

/// Which of the spaces and blocks is the space of paper.
const PAPER: usize = 1;

/// Builds the file.
pub(crate) fn file(raw: &str, version: DxfVersion, extent: Extent) -> String {
    let mut handles = Handles::default();
    let mut body = Vec::new();
    let blocks = blocks_of(raw);
    let names: Vec<String> = blocks.iter().map(|(name, _)| name.clone()).collect();
    begin("TABLES", &mut body);
    let tables = section(raw, "TABLES");
    let owners = tables::write(&tables, &names, version, &mut handles, &mut body);
    end(&mut body);
    begin("BLOCKS", &mut body);
    for (index, owner) in owners.iter().enumerate() {
        let own = blocks.iter().find(|(name, _)| *name == owner.name);
        let entities = own.map_or(&[][..], |(_, entities)| entities.as_slice());
        block(owner, index == PAPER, entities, &mut handles, &mut body);
    }
    end(&mut body);
    begin("ENTITIES", &mut body);
    let space = owners.first().map(|owner| owner.handle.as_str());
    let all = section(raw, "ENTITIES");
    entities(&all, version, space, &mut handles, &mut body);
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

/// The names of the blocks of the drawing, each with its entities.
fn blocks_of(raw: &str) -> Vec<(String, Vec<Record>)> {
    let mut blocks: Vec<(String, Vec<Record>)> = Vec::new();
    for record in section(raw, "BLOCKS") {
        if is(&record, "BLOCK") {
            let name = value(&record, 2).unwrap_or_default().to_owned();
            blocks.push((name, Vec::new()));
        } else if let Some((_, entities)) = blocks.last_mut()
            && !is(&record, "ENDBLK")
        {
            entities.push(record);
        }
    }
    // Our blocks are those of dimensions; the spaces that the library writes are made anew.
    blocks.retain(|(name, _)| name.starts_with("*D"));
    blocks
}

/// A space, whose entities are in their own section, or a block with its entities.
fn block(
    owner: &Owner,
    is_paper: bool,
    contents: &[Record],
    handles: &mut Handles,
    file: &mut Vec<Group>,
) {
    let common = |kind: &str, handle: String| {
        let mut groups = vec![
            group(0, kind),
            group(5, handle),
            group(330, &owner.handle),
            group(100, "AcDbEntity"),
        ];
        groups.extend(is_paper.then(|| group(67, 1)));
        groups.push(group(8, 0));
        groups
    };
    file.extend(common("BLOCK", handles.next()));
    file.extend([
        group(100, "AcDbBlockBegin"),
        group(2, &owner.name),
        // Source: DXF reference, BLOCK, group 70: 1 is an anonymous block.
        group(70, i32::from(!contents.is_empty())),
        group(10, "0.0"),
        group(20, "0.0"),
        group(30, "0.0"),
        group(3, &owner.name),
        group(1, ""),
    ]);
    let space = Some(owner.handle.as_str());
    entities(contents, DxfVersion::R2000, space, handles, file);
    file.extend(common("ENDBLK", handles.next()));
    file.push(group(100, "AcDbBlockEnd"));
}

/// The entities of a space or a block. In release 12 the vertices of a polyline are on the layer of their polyline.
fn entities(
    raw: &[Record],
    version: DxfVersion,
    owner: Option<&str>,
    handles: &mut Handles,
    file: &mut Vec<Group>,
) {
    let mut layer = None;
    for record in raw {
        let kind = record[0].value.as_str();
        let follows = ["VERTEX", "SEQEND"].contains(&kind);
        file.push(record[0].clone());
        if let Some(owner) = owner {
            file.extend([group(5, handles.next()), group(330, owner)]);
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
