//! The font: its characters, their widths, and the part of it in a file.
//!
//! **Input:** the page of a job. **Output:** DejaVu Sans, or the job's own TrueType file. A character that the font
//! lacks is written as U+XXXX, never as a box. Letters are set side by side, without kerning or ligatures.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use printpdf::{FontMetrics, ParsedFont, PdfFont};
use subsetter::GlyphRemapper;
use traywright_document::{ExportError, Page};
use ttf_parser::{Face, GlyphId, Permissions, name_id};

use crate::leftwards::is_joined;

/// Maximum size of a font file, in bytes.
const LARGEST_FILE: u64 = 64 << 20;

/// The sign before the diameter of a circle.
const DIAMETER: char = '\u{2300}';

/// A font.
#[derive(Clone, Debug)]
pub struct Font {
    bytes: Cow<'static, [u8]>,
    name: String,
    glyphs: Glyphs,
    units_per_em: f64,
    capital: f64,
}

/// The glyphs of all characters that a font can show, in order, and those of the usual ones apart.
#[derive(Clone, Debug)]
struct Glyphs {
    usual: [Option<Glyph>; 128],
    all: Vec<(char, Glyph)>,
}

impl Glyphs {
    fn get(&self, letter: char) -> Option<Glyph> {
        if let Some(usual) = self.usual.get(letter as usize) {
            return *usual;
        }
        let at = self
            .all
            .binary_search_by_key(&letter, |(letter, _)| *letter);
        at.ok().map(|at| self.all[at].1)
    }

    fn has(&self, letter: char) -> bool {
        self.get(letter).is_some()
    }
}

#[derive(Clone, Copy, Debug)]
struct Glyph {
    id: u16,
    advance: u16,
}

impl Font {
    /// The font of a job's page.
    ///
    /// # Refuses
    /// A file that cannot be read, is not a TrueType font, may not be embedded, or lacks plain letters and digits.
    pub fn of(page: &Page) -> Result<Font, ExportError> {
        let refused = |why| ExportError::Font {
            path: page.font.clone(),
            why,
        };
        match &page.font {
            None => Font::read(Cow::Borrowed(dejavu::sans::regular())),
            Some(path) => bytes_of(path).and_then(|bytes| Font::read(Cow::Owned(bytes))),
        }
        .map_err(refused)
    }

    fn read(bytes: Cow<'static, [u8]>) -> Result<Font, String> {
        let face = Face::parse(&bytes, 0)
            .map_err(|_| "is no TrueType font: choose a file that ends in .ttf".to_owned())?;
        if face.tables().glyf.is_none() {
            return Err("has no TrueType outlines: choose a file that ends in .ttf".to_owned());
        }
        if face.permissions() == Some(Permissions::Restricted) {
            return Err(
                "may not be put into a file by the word of its maker: choose another one"
                    .to_owned(),
            );
        }
        let glyphs = glyphs(&face);
        let plain = ('A'..='Z')
            .chain('a'..='z')
            .chain('0'..='9')
            .chain(" .,:-()".chars());
        if let Some(missing) = plain.into_iter().find(|letter| !glyphs.has(*letter)) {
            return Err(format!(
                "lacks the character `{missing}`: choose one with plain letters and figures"
            ));
        }
        let name = face
            .names()
            .into_iter()
            .filter(|name| name.name_id == name_id::POST_SCRIPT_NAME)
            .find_map(|name| name.to_string())
            .unwrap_or_default();
        let told = face.capital_height().filter(|height| *height > 0);
        let capital = told.or_else(|| {
            let letter = glyphs.get('H')?;
            let frame = face.glyph_bounding_box(GlyphId(letter.id))?;
            Some(frame.y_max)
        });
        Ok(Font {
            name: name
                .chars()
                .filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-')
                .collect(),
            glyphs,
            units_per_em: f64::from(face.units_per_em()),
            capital: f64::from(capital.unwrap_or(1).max(1)),
            bytes,
        })
    }

    /// The words with every character that cannot be printed written as U+XXXX.
    pub(crate) fn printable(&self, words: &str) -> String {
        let mut printed = String::with_capacity(words.len());
        for letter in words.chars() {
            match self.shown(letter) {
                Some(shown) => printed.push(shown),
                None => printed.push_str(&format!("U+{:04X}", u32::from(letter))),
            }
        }
        printed
    }

    /// A warning about those of these characters that are written as U+XXXX.
    pub(crate) fn warning(&self, letters: &BTreeSet<char>) -> Option<String> {
        let unprinted = letters.iter().filter(|it| self.shown(**it).is_none());
        let (joined, lacking): (Vec<char>, Vec<char>) = unprinted.partition(|it| is_joined(**it));
        let mut warnings = Vec::new();
        if !lacking.is_empty() {
            let told = lacking.iter().map(|letter| {
                let number = self.printable(letter.encode_utf8(&mut [0; 4]));
                format!("`{letter}` as {number}")
            });
            let told = told.collect::<Vec<_>>().join(", ");
            warnings.push(format!("the font lacks characters; the pages write {told}"));
        }
        if !joined.is_empty() {
            let numbers = self.printable(&joined.iter().collect::<String>());
            warnings.push(format!(
                "the pages cannot join the letters of Arabic and its relatives; they write {numbers}"
            ));
        }
        (!warnings.is_empty()).then(|| warnings.join(". "))
    }

    /// The character as the font can show it. Many fonts lack the diameter sign and have a letter that looks like it.
    fn shown(&self, letter: char) -> Option<char> {
        let look_alike = if letter == DIAMETER { 'Ø' } else { letter };
        let is_shown = |it: &char| !it.is_control() && !is_joined(*it) && self.glyphs.has(*it);
        [letter, look_alike].into_iter().find(is_shown)
    }

    /// Width of words with capitals of that height.
    pub fn width(&self, words: &str, capital: f64) -> f64 {
        let glyph = |letter| self.shown(letter).and_then(|shown| self.glyphs.get(shown));
        let advance = |letter: char| match glyph(letter) {
            Some(glyph) => f64::from(glyph.advance),
            None => {
                let number = self.printable(letter.encode_utf8(&mut [0; 4]));
                let known = number.chars().filter_map(|letter| self.glyphs.get(letter));
                known.map(|glyph| f64::from(glyph.advance)).sum()
            }
        };
        words.chars().map(advance).sum::<f64>() * capital / self.capital
    }

    /// Words in lines of at most that width, broken at spaces; a longer word is broken at its
    /// non-breaking spaces, or else anywhere.
    pub fn lines(&self, words: &str, capital: f64, widest: f64) -> Vec<String> {
        let blank = self.width(" ", capital);
        let mut lines: Vec<String> = Vec::new();
        let mut reached = f64::INFINITY;
        // A non-breaking space belongs to its word, and is set like any other space.
        for word in words
            .split([' ', '\t', '\n'])
            .filter(|word| !word.is_empty())
            .flat_map(|word| self.pieces(word, capital, widest))
        {
            let width = self.width(&word, capital);
            match lines.last_mut() {
                Some(line) if reached + blank + width <= widest => {
                    line.push(' ');
                    line.push_str(&word);
                    reached += blank + width;
                }
                _ => {
                    lines.push(word);
                    reached = width;
                }
            }
        }
        lines
    }

    /// A word whole, if that has room, or else what stands between its non-breaking spaces.
    fn pieces(&self, word: &str, capital: f64, widest: f64) -> Vec<String> {
        let whole = word.replace('\u{a0}', " ");
        if self.width(&whole, capital) <= widest {
            return vec![whole];
        }
        let between = word.split('\u{a0}').filter(|part| !part.is_empty());
        between
            .flat_map(|part| self.parts(part, capital, widest))
            .collect()
    }

    /// A word in parts of at most that width, or of one letter.
    fn parts(&self, word: &str, capital: f64, widest: f64) -> Vec<String> {
        let mut parts = vec![String::new()];
        let mut reached = 0.0;
        for letter in word.chars() {
            let width = self.width(letter.encode_utf8(&mut [0; 4]), capital);
            if reached > 0.0 && reached + width > widest {
                parts.push(String::new());
                reached = 0.0;
            }
            parts
                .last_mut()
                .expect("there is always a part")
                .push(letter);
            reached += width;
        }
        parts
    }

    /// Font size for capitals of that height.
    pub(crate) fn size(&self, capital: f64) -> f64 {
        capital * self.units_per_em / self.capital
    }

    /// The font with only the glyphs of these characters.
    pub(crate) fn subset(&self, letters: &BTreeSet<char>) -> Result<PdfFont, ExportError> {
        let fault = |why: &dyn std::fmt::Display| ExportError::Font {
            path: Some(self.name.clone()),
            why: format!("cannot be reduced to its used letters: {why}"),
        };
        let face = Face::parse(&self.bytes, 0).map_err(|why| fault(&why))?;
        let mut remapper = GlyphRemapper::new();
        let mut characters = BTreeMap::new();
        let mut advances = BTreeMap::from([(0, face.glyph_hor_advance(GlyphId(0)).unwrap_or(0))]);
        for letter in letters {
            if let Some(glyph) = self.glyphs.get(*letter) {
                let id = remapper.remap(glyph.id);
                characters.insert(u32::from(*letter), id);
                advances.insert(id, glyph.advance);
            }
        }
        let bytes = subsetter::subset(&self.bytes, 0, &remapper).map_err(|why| fault(&why))?;
        let metrics = FontMetrics {
            ascent: face.ascender(),
            descent: face.descender(),
        };
        let name = Some(format!("{}+{}", tag(letters), self.name));
        let mut font = ParsedFont::with_glyph_data(
            bytes,
            0,
            name,
            characters,
            advances,
            face.units_per_em(),
            metrics,
        );
        let frame = face.global_bounding_box();
        let own = &mut font.pdf_font_metrics;
        (own.x_min, own.y_min, own.x_max, own.y_max) =
            (frame.x_min, frame.y_min, frame.x_max, frame.y_max);
        own.us_weight_class = face.weight().to_number();
        Ok(PdfFont::new(font))
    }
}

/// The bytes of a font's file.
fn bytes_of(path: &str) -> Result<Vec<u8>, String> {
    let unread = |why: std::io::Error| format!("cannot be read: {why}");
    let size = fs::metadata(path).map_err(unread)?.len();
    if size > LARGEST_FILE {
        return Err(format!(
            "has {} MB; at most {} are read",
            size >> 20,
            LARGEST_FILE >> 20
        ));
    }
    fs::read(path).map_err(unread)
}

/// Every character that the font can show, with its glyph: that of the first table which has one.
fn glyphs(face: &Face) -> Glyphs {
    let mut all: Vec<(char, Glyph)> = Vec::new();
    let tables = face.tables().cmap.iter().flat_map(|cmap| cmap.subtables);
    for table in tables.filter(|table| table.is_unicode()) {
        table.codepoints(|code| {
            let Some(letter) = char::from_u32(code) else {
                return;
            };
            if let Some(id) = table.glyph_index(code).filter(|id| id.0 != 0) {
                let advance = face.glyph_hor_advance(id).unwrap_or(0);
                all.push((letter, Glyph { id: id.0, advance }));
            }
        });
    }
    // The sort keeps the order of tables among glyphs of one character.
    all.sort_by_key(|(letter, _)| *letter);
    all.dedup_by_key(|(letter, _)| *letter);
    let mut usual = [None; 128];
    for (letter, glyph) in &all {
        if let Some(place) = usual.get_mut(*letter as usize) {
            *place = Some(*glyph);
        }
    }
    Glyphs { usual, all }
}

/// Six capitals that identify a set of letters.
// Source: ISO 32000-1, 9.6.4: the name of a subset begins with six capitals and a plus sign.
fn tag(letters: &BTreeSet<char>) -> String {
    let text: String = letters.iter().collect();
    let mut number = crate::metadata::fingerprint(text.as_bytes());
    let mut tag = String::new();
    for _ in 0..6 {
        tag.push(char::from(b'A' + (number % 26) as u8));
        number /= 26;
    }
    tag
}
