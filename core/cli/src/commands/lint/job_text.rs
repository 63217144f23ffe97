//! A job that shows an error of a style, as a job file.
//!
//! **Input:** the style, the job and the error. **Output:** KDL with only the values that differ from the defaults,
//! below a few lines about the error and how to see it. Read again it is the same job to the last bit.

use traywright_document::is_hidden;
use traywright_engine::{Job, Style};
use traywright_job::job_file::write;
use traywright_job::library::StyleText;
use traywright_job::report::sentence::{paragraph, sentence};

use super::search::Shown;

/// The job's file.
pub(super) fn job(text: &StyleText, style: &Style, shown: &Shown) -> String {
    let Shown { job, flaw } = shown;
    let said = format!("{} [{}]", sentence(&flaw.message), flaw.code);
    let mut file = note(&format!(
        "The style `{}` lets this job through: {said}",
        style.name()
    ));
    file.push_str(&note(&how_to_see_it(text)));
    let job = Job {
        title: format!("What shows {}", flaw.code),
        ..job.clone()
    };
    file + &write(&job)
}

/// Words as a comment in a job, without characters that could affect the reader.
fn note(words: &str) -> String {
    let plain = |letter: char| if is_hidden(letter) { ' ' } else { letter };
    let words: String = words.chars().map(plain).collect();
    let lines = paragraph("", &words);
    lines.lines().map(|line| format!("// {line}\n")).collect()
}

fn how_to_see_it(text: &StyleText) -> String {
    let styles =
        "To see it: `traywright check --styles DIR` and this file, where DIR holds the style.";
    match StyleText::shipped_as(&text.name) {
        Some(shipped) if shipped == text.text => {
            "To see it: `traywright check` and this file.".to_owned()
        }
        Some(_) => format!(
            "{styles} First give it a name of its own: another `{}` ships with the program.",
            text.name
        ),
        None => styles.to_owned(),
    }
}
