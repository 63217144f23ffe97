//! The tables of a DXF: views, line types, layers, text styles.
//!
//! **Input:** the records that the library wrote. **Output:** each table with a head of its own, its records owned by
//! the head, and no pointers to missing parts. Release 12 has neither owners nor subclasses.

use traywright_document::DxfVersion;

use crate::groups::{Group, Record, group, is, value};
use crate::handles::Handles;

/// The tables in their order.
// Source: DXF reference, order of the tables (from memory); a file with them is read by every reader that was tried.
const TABLES: [&str; 8] = [
    "VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE",
];

/// A space or a block: its name, and the handle of its record, by which entities belong to it.
pub(crate) struct Owner {
    pub(crate) name: String,
    pub(crate) handle: String,
}

/// Names of the two spaces of a drawing.
const SPACES: [&str; 2] = ["*Model_Space", "*Paper_Space"];

/// Writes the tables; returns the names and handles of the two spaces and of the blocks behind them. Release 12 has none.
pub(crate) fn write(
    raw: &[Record],
    blocks: &[String],
    version: DxfVersion,
    handles: &mut Handles,
    file: &mut Vec<Group>,
) -> Vec<Owner> {
    for table in TABLES {
        let records = raw.iter().filter(|record| is(record, table));
        let records: Vec<&Record> = records.filter(|record| belongs(record, version)).collect();
        let head = begin(table, records.len(), version, handles, file);
        for record in records {
            add(record, version, &head, handles, file);
        }
        file.push(group(0, "ENDTAB"));
    }
    if version == DxfVersion::R12 {
        return Vec::new();
    }
    let spaces = SPACES.into_iter().map(str::to_owned);
    let names: Vec<String> = spaces.chain(blocks.iter().cloned()).collect();
    let head = begin("BLOCK_RECORD", names.len(), version, handles, file);
    let owners = names.into_iter().map(|name| {
        let handle = handles.next();
        file.extend([
            group(0, "BLOCK_RECORD"),
            group(5, &handle),
            group(330, &head),
            group(100, "AcDbSymbolTableRecord"),
            group(100, "AcDbBlockTableRecord"),
            group(2, &name),
        ]);
        Owner { name, handle }
    });
    let owners = owners.collect();
    file.push(group(0, "ENDTAB"));
    owners
}

/// Whether the drawing needs a record: not names of programs that wrote other drawings, not their text styles, and in
/// release 12 no line types that refer to another.
fn belongs(record: &Record, version: DxfVersion) -> bool {
    let name = value(record, 2).unwrap_or_default();
    let foreign = name.starts_with("ACAD_") || name.contains("ANNOTATIVE");
    let later = ["BYLAYER", "BYBLOCK"].contains(&name) && version == DxfVersion::R12;
    !foreign && !later
}

/// Writes the head of a table; returns its handle.
fn begin(
    table: &str,
    count: usize,
    version: DxfVersion,
    handles: &mut Handles,
    file: &mut Vec<Group>,
) -> String {
    let head = handles.next();
    file.extend([group(0, "TABLE"), group(2, table)]);
    if version == DxfVersion::R2000 {
        file.extend([
            group(5, &head),
            group(330, 0),
            group(100, "AcDbSymbolTable"),
        ]);
    }
    file.push(group(70, count));
    if table == "DIMSTYLE" && version == DxfVersion::R2000 {
        file.push(group(100, "AcDbDimStyleTable"));
    }
    head
}

/// A record of a table.
fn add(
    record: &Record,
    version: DxfVersion,
    head: &str,
    handles: &mut Handles,
    file: &mut Vec<Group>,
) {
    let kind = &record[0].value;
    file.push(record[0].clone());
    if version == DxfVersion::R2000 {
        // Source: DXF reference, DIMSTYLE: its handle is group 105, for 5 is one of its settings.
        let code = if kind == "DIMSTYLE" { 105 } else { 5 };
        file.extend([group(code, handles.next()), group(330, head)]);
    }
    for old in &record[1..] {
        match old.code {
            5 | 105 => {}
            // Pointers are left out, because those that the library writes point nowhere.
            320..=369 | 390..=399 => {}
            100 | 281 | 290 if version == DxfVersion::R12 => {}
            // Source: DXF reference, LAYER, group 370: -3 is the width that the program takes by itself.
            370 if version == DxfVersion::R12 => {}
            370 => file.push(group(370, -3)),
            // Source: DXF reference, LTYPE, group 74: each length says that it is no letter and no shape.
            49 if version == DxfVersion::R2000 => file.extend([old.clone(), group(74, 0)]),
            74 if kind == "LTYPE" => {}
            _ => file.push(old.clone()),
        }
    }
}
