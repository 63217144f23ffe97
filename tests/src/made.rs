//! A PDF that the program made of a job, and what programs of others say of it.
//!
//! Given the text of a job and the exporter's name; gives the file in a folder of its own and asks other programs about it.
//! A program that is missing is said loudly. It never says what is right.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use tempfile::TempDir;

use crate::{python, run, system_program};

/// A PDF.
#[derive(Debug)]
pub struct Made {
    /// Where it lies.
    pub pdf: PathBuf,
    /// Kept as long as the file is asked about.
    _folder: Option<TempDir>,
}

impl Made {
    /// The file that an exporter makes of a job: `pdf` or `booklet`.
    ///
    /// # Panics
    /// When the job gives no file.
    pub fn new(job: &str, exporter: &str) -> Made {
        let folder = tempfile::tempdir().expect("a folder can be made");
        fs::write(folder.path().join("made.kdl"), job).expect("a job can be written");
        let arguments = [
            "make",
            "made.kdl",
            "--as",
            exporter,
            "--exporter-seconds",
            "50",
        ];
        let outcome = run(folder.path(), &arguments);
        assert_eq!(outcome.code, 0, "not made:\n{job}\n{}", outcome.stderr);
        let name = match exporter {
            "pdf" => "made.pdf".to_owned(),
            other => format!("made-{other}.pdf"),
        };
        Made {
            pdf: folder.path().join(name),
            _folder: Some(folder),
        }
    }

    /// A file that is there.
    pub fn at(pdf: &Path) -> Made {
        Made {
            pdf: pdf.to_owned(),
            _folder: None,
        }
    }

    /// Where it lies, as a word of a command line.
    ///
    /// # Panics
    /// When the temporary folder has no plain name.
    pub fn path(&self) -> &str {
        self.pdf
            .to_str()
            .expect("a temporary folder has a plain name")
    }

    /// What a program says of the file, on both streams; none if it is missing, which has then been said.
    ///
    /// # Panics
    /// When the program ends badly.
    pub fn ask(&self, program: &str, before: &[&str], after: &[&str]) -> Option<String> {
        let found = system_program(program, "the PDF")?;
        let output = Command::new(found)
            .args(before)
            .arg(&self.pdf)
            .args(after)
            .output()
            .expect("the program can be started");
        let said = [output.stdout, output.stderr]
            .map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
        assert!(output.status.success(), "{program}: {}{}", said[0], said[1]);
        Some(said.concat())
    }

    /// All words in the order in which they were written, with single blanks between them.
    pub fn words(&self) -> Option<String> {
        let text = self.ask("pdftotext", &["-raw"], &["-"])?;
        Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    /// Whether words and lines keep apart, and both on the page; none if nobody can be asked.
    ///
    /// # Panics
    /// When a file for the boxes of words cannot be made.
    pub fn apart(&self) -> Option<Result<String, String>> {
        let boxes = tempfile::NamedTempFile::new().expect("a file can be made");
        let boxes = boxes
            .path()
            .to_str()
            .expect("a temporary file has a plain name");
        self.ask("pdftotext", &["-bbox"], &[boxes])?;
        python("booklet.py", &[self.path(), boxes])
    }
}

/// How much of each page is filled in height, from what the checker of [`Made::apart`] counted.
///
/// # Panics
/// When it counted something else.
pub fn full(counted: &str) -> Vec<f64> {
    let counted: serde_json::Value = serde_json::from_str(counted).expect("the script prints JSON");
    let full = counted["full"].as_array().expect("a list").iter();
    full.map(|share| share.as_f64().expect("a number"))
        .collect()
}
