//! Jobs become checked jobs: the engine's findings about each tray.
//!
//! **Input:** jobs that were read, and styles. **Output:** a [`CheckedJob`] with the tray or the findings.
//! **Errors:** all that prevents a job from being checked.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use traywright_engine::finding::{Advice, Change, Fix};
use traywright_engine::job::Job;
use traywright_engine::measure::{ItemMeasure, Measured, TrayMeasure};
use traywright_engine::{CheckedTray, Finding, Level, Refusal, Report, SourceError, Style, make};

use crate::error::InputError;
use crate::library::{StyleText, Styles};
use crate::nearest::suggestion;

/// A job that could be checked, and the result for its tray.
#[derive(Debug)]
pub struct CheckedJob {
    /// The job's file as the maker named it.
    pub path: String,
    /// The text of that file.
    pub text: String,
    /// The job.
    pub job: Job,
    /// Whether the tray has a floor of its own, on which its items stand.
    pub has_floor: bool,
    /// The tray, or why there is none.
    pub tray: Result<CheckedTray, Report>,
    /// Fixes that were tried; none unless a front end asked for them.
    pub fixes: Vec<TriedFix>,
}

/// The verdict on a tray.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrayVerdict {
    /// It fits, and nothing needs the maker's eye.
    Fits,
    /// It fits, with this number of warnings.
    Watch(usize),
    /// It does not fit, fold or hold.
    DoesNotFit,
}

/// A set of changes of a job that helps.
#[derive(Clone, Debug, PartialEq)]
pub struct TriedFix {
    /// The changes in words.
    pub says: String,
    /// The changes, all of them together.
    pub changes: Vec<Change>,
    /// Number of errors that remain with them.
    pub leaves: usize,
    /// Number of warnings that remain with them, except for the space over a lower tray, which a spacer fills.
    pub warnings: usize,
}

impl CheckedJob {
    /// Whether the tray fits, folds and holds.
    pub fn fits(&self) -> bool {
        self.tray.is_ok()
    }

    /// The verdict on the tray.
    pub fn verdict(&self) -> TrayVerdict {
        let count = |level| self.findings(level).count();
        match (self.fits(), count(Level::Warning)) {
            (false, _) => TrayVerdict::DoesNotFit,
            (true, 0) => TrayVerdict::Fits,
            (true, warnings) => TrayVerdict::Watch(warnings),
        }
    }

    /// Its measures and findings.
    pub fn report(&self) -> &Report {
        match &self.tray {
            Ok(tray) => tray.report(),
            Err(report) => report,
        }
    }

    /// The findings of one level.
    pub fn findings(&self, level: Level) -> impl Iterator<Item = &Finding> {
        self.report()
            .findings
            .iter()
            .filter(move |finding| finding.level == level)
    }

    /// The advice of a finding, without changes of the job that were tried and did not help.
    pub fn advice(&self, finding: &Finding) -> Option<String> {
        let fix = finding.fix.as_ref()?;
        let helps = |way: &Vec<Change>| {
            let within = |fix: &TriedFix| way.iter().all(|change| fix.changes.contains(change));
            self.fixes.iter().any(within)
        };
        let ways: Vec<_> = fix.ways.iter().filter(|way| helps(way)).cloned().collect();
        let fails = ways.is_empty() && !fix.ways.is_empty();
        // The range of pads is printed only with a pad.
        let has_pad = ways.iter().flatten().any(|change| change.key == "pad");
        let says = match &fix.says {
            Advice::PadBetween { .. } if !has_pad => Advice::Change,
            says => says.clone(),
        };
        let tried = Fix { ways, says };
        (!fails).then(|| tried.message(self.job.unit))
    }

    /// A measure of the tray, if it was computed.
    pub fn measure(&self, measure: TrayMeasure) -> Option<f64> {
        self.measure_of(|of| *of == Measured::Tray(measure))
    }

    /// A measure of an item of the job and its opening, if it was computed.
    pub fn item_measure(&self, item: usize, measure: ItemMeasure) -> Option<f64> {
        self.measure_of(|of| matches!(of, Measured::Item { measure: own, item: number, .. } if (*own, *number) == (measure, item)))
    }

    /// The height of the side wall, flat, which every style names.
    pub fn wall_height(&self) -> Option<f64> {
        self.measure_of(Measured::is_wall_height)
    }

    fn measure_of(&self, is_it: impl Fn(&Measured) -> bool) -> Option<f64> {
        let mut measures = self.report().measures.iter();
        let found = measures.find(|measure| is_it(&measure.of));
        found.map(|measure| measure.value)
    }
}

/// Checks jobs against styles, and reads each style once, when the first job needs it. Many threads may share it.
#[derive(Debug)]
pub struct Checker<'a> {
    styles: &'a Styles,
    read: BTreeMap<&'a str, OnceLock<Result<Style, Vec<SourceError>>>>,
}

impl<'a> Checker<'a> {
    /// A checker that has read no style yet.
    pub fn new(styles: &'a Styles) -> Self {
        let texts = styles.all().iter().chain(styles.trials());
        Checker {
            styles,
            read: texts
                .map(|style| (style.name.as_str(), OnceLock::new()))
                .collect(),
        }
    }

    /// Checks a job that was read from `bytes`; `path` is the file as the maker named it.
    ///
    /// # Errors
    /// An unknown style, a style that cannot be used, and settings that do not suit it. The errors of a style come with
    /// every job that needs it.
    pub fn check(&self, path: &str, bytes: &[u8], job: Job) -> Result<CheckedJob, Vec<InputError>> {
        let in_job = |faults| InputError::Text {
            path: path.to_owned(),
            text: String::from_utf8_lossy(bytes).into_owned(),
            faults,
        };
        let Some(style_text) = self.styles.get(&job.style) else {
            return Err(in_job(vec![unknown_style(&job, self.styles)]).into());
        };
        let useless = || {
            let style = &job.style;
            InputError::sentence(format_args!(
                "the job {path} needs the style `{style}`, which cannot be used"
            ))
        };
        let style = match self.read(style_text) {
            Ok(style) => style,
            Err(faults) => return Err(vec![style_text.faulty(faults.clone()), useless()]),
        };
        let tray = match make(style, &job) {
            Ok(tray) => Ok(tray),
            Err(Refusal::Tray(report)) => Err(report),
            Err(Refusal::Job(faults)) => return Err(in_job(faults).into()),
            Err(Refusal::Style(faults)) => return Err(vec![style_text.faulty(faults), useless()]),
        };
        Ok(CheckedJob {
            path: path.to_owned(),
            text: String::from_utf8_lossy(bytes).into_owned(),
            job,
            has_floor: style.has_floor(),
            tray,
            fixes: Vec::new(),
        })
    }
}

impl Checker<'_> {
    /// The style of a job that was checked.
    pub fn style_of(&self, job: &Job) -> Option<&Style> {
        self.read.get(job.style.as_str())?.get()?.as_ref().ok()
    }

    fn read(&self, style: &StyleText) -> &Result<Style, Vec<SourceError>> {
        let read = || Style::read(&style.name, &style.text);
        let known = self.read.get(style.name.as_str());
        known
            .expect("a checker knows the name of each of its styles")
            .get_or_init(read)
    }
}

impl StyleText {
    /// Reads the style.
    ///
    /// # Refuses
    /// A text that is not a style, with all its errors.
    pub fn read(&self) -> Result<Style, InputError> {
        Style::read(&self.name, &self.text).map_err(|faults| self.faulty(faults))
    }

    /// The text in which the engine counts offsets: it begins after a byte order mark.
    pub fn counted(&self) -> &str {
        self.text.trim_start_matches('\u{feff}')
    }

    /// The engine's errors about this style.
    pub fn faulty(&self, faults: Vec<SourceError>) -> InputError {
        InputError::Text {
            path: self.path.clone(),
            text: self.counted().to_owned(),
            faults,
        }
    }
}

fn unknown_style(job: &Job, styles: &Styles) -> SourceError {
    SourceError::new(
        job.style_place.clone(),
        format!("there is no style `{}`", job.style),
        suggestion(&job.style, &styles.names()),
    )
    .with_hint("`traywright styles` lists them; `--styles DIR` adds a folder of them")
}
