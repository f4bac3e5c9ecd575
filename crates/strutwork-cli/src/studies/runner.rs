//! A study from its first variant to its files, wherever it was interrupted before.

use std::path::PathBuf;
use std::sync::Mutex;

use strutwork_report::study::StudyRun;
use strutwork_report::{Sheet, study_files};
use strutwork_script::{StudyEnd, StudyJob};
use strutwork_study::journal::{Header, Shard};
use strutwork_study::{Overview, Pace, Row, Start, Status, Tally, run};

use super::journal::{self, Journal};
use super::progress::Progress;
use super::results::{Names, Results};
use super::{pages, stop, told};
use crate::exit::{Failure, Outcome};
use crate::files::whole::make_folder;
use crate::terminal::Terminal;

/// How studies are run.
#[derive(Debug, Clone)]
pub(crate) struct Options {
    /// Where their files go.
    pub out: PathBuf,
    /// Which part is taken.
    pub shard: Shard,
    /// Whether earlier journals are written over.
    pub fresh: bool,
    /// Threads; 0 for as many as there are cores.
    pub threads: usize,
    /// Whether what came out is printed as JSON.
    pub json: bool,
    /// The paper of `study.pdf`; `None` for no such file.
    pub paper: Option<Sheet>,
}

/// Runs studies, and remembers how they ended.
#[derive(Debug)]
pub(crate) struct Runner {
    terminal: Terminal,
    options: Options,
    /// The worst end of a study so far.
    ended: Mutex<Option<Ended>>,
}

/// How a study ended, the worst last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Ended {
    /// All of it, or of its shard.
    Done,
    /// Done, and no variant keeps the constraints.
    NoneFeasible,
    /// Done, and no variant could be solved.
    NoneSolved,
    /// Stopped before its end.
    Stopped,
}

impl Ended {
    /// The outcome of the command.
    pub(crate) const fn outcome(self) -> Result<Outcome, Failure> {
        match self {
            Self::Done => Ok(Outcome::Passed),
            Self::NoneFeasible => Ok(Outcome::Exceeded),
            Self::NoneSolved => Err(Failure::Told(3)),
            Self::Stopped => Err(Failure::Told(stop::EXIT)),
        }
    }

    /// How a finished study ended.
    pub(crate) fn of(header: &Header, tally: &Tally) -> Self {
        if tally.count(Status::Solved) == 0 {
            Self::NoneSolved
        } else if header.constrained && tally.feasible == 0 {
            Self::NoneFeasible
        } else {
            Self::Done
        }
    }
}

impl Runner {
    pub(crate) fn new(terminal: Terminal, options: Options) -> Self {
        Self { terminal, options, ended: Mutex::default() }
    }

    /// The worst end of the studies that were run; `None` where none was.
    pub(crate) fn ended(&self) -> Option<Ended> {
        *self.ended.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    fn note(&self, ended: Ended) {
        let mut worst = self.ended.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        *worst = (*worst).max(Some(ended));
    }

    /// Runs a study, or goes on with it; every variant is handed over in its order.
    ///
    /// # Errors
    /// [`Failure::Request`] where the study is none, or the journal there is not its own; [`Failure::Occupied`],
    /// [`Failure::File`].
    pub(crate) fn run(&self, job: &StudyJob<'_>, take: &mut dyn FnMut(&Row)) -> Result<StudyEnd, Failure> {
        let Options { out, shard, fresh, threads, .. } = &self.options;
        let header = Header::of(job.study, job.identity.clone(), env!("CARGO_PKG_VERSION"), *shard)
            .map_err(|fault| Failure::Request { what: fault.to_string(), help: "see `strutwork reference`".into() })?;
        make_folder(out)?;
        let names = Names::new(out, &job.study.name);
        let path = names.path(&journal_extension(*shard));
        if shard.is_whole() && !path.exists() {
            names.may_begin()?;
            pages::may_begin(&names)?;
        }
        let mut tally = Tally::new(header.responses.len());
        let mut seen = |row: &Row| {
            tally.add(row);
            take(row);
        };
        let mut journal = Journal::open(&path, header.clone(), *fresh, &mut seen)?;
        let range = shard.range(header.variants);
        if journal.next > range.start && journal.next < range.end {
            let done = journal.next - range.start;
            self.terminal.note(&format!("Going on after {done} of {} variants.\n", range.end - range.start));
        } else if journal.next == range.start {
            self.rehearse(job)?;
        }
        stop::watch();
        let pool = StudyJob::threads(*threads).map_err(no_threads)?;
        let first = StudyJob::first_batch(&pool);
        let mut progress = Progress::new(range.end - range.start, journal.next - range.start, first);
        run(job.study, job.evaluator, journal.next..range.end, &pool, first, |rows| {
            journal.add(&rows)?;
            rows.iter().for_each(&mut seen);
            let next = progress.batch(rows.len() as u64);
            Ok::<_, Failure>(if stop::asked() { Pace::Stop } else { Pace::Next(next) })
        })?;
        progress.clear();
        journal.sync()?;
        if journal.next < range.end {
            self.note(Ended::Stopped);
            let done = journal.next - range.start;
            self.terminal.note(&format!(
                "Stopped after {done} of {} variants; they are kept in {}.\nThe same command goes on from there.\n",
                range.end - range.start,
                path.display()
            ));
            return Ok(StudyEnd::Partly);
        }
        drop(journal);
        if !shard.is_whole() {
            self.note(Ended::Done);
            self.terminal.note(&format!(
                "Shard {shard} of {} is finished: {} variants in {}.\nWhen all are, put them together: strutwork study merge {}\n",
                header.name,
                range.end - range.start,
                path.display(),
                out.display()
            ));
            return Ok(StudyEnd::Partly);
        }
        self.write(job, &names, &header, &path, &tally)?;
        Ok(StudyEnd::Finished)
    }

    /// Stops before hours are spent on a study that asks for something that is not there.
    fn rehearse(&self, job: &StudyJob<'_>) -> Result<(), Failure> {
        let rows = StudyJob::threads(1).map_err(no_threads)?.install(|| job.evaluator.evaluate(job.study, 0..1));
        if let Some(Row { outcome, .. }) = rows.first()
            && outcome.status == Status::NotThere
        {
            return Err(Failure::Request {
                what: format!("the first variant does not have what is asked of it: {}", outcome.note),
                help: "change what is asked, or the load cases that are solved".into(),
            });
        }
        Ok(())
    }

    /// The files of a finished study, from its journal: the same whether or not it was interrupted.
    fn write(
        &self,
        job: &StudyJob<'_>,
        names: &Names,
        header: &Header,
        journal: &std::path::Path,
        tally: &Tally,
    ) -> Result<(), Failure> {
        let mut results = Results::begin(names, header.clone())?;
        let mut overview = Overview::new(job.study);
        let mut reader = journal::read(journal)?;
        while let Some(row) = reader.next_row().map_err(|fault| journal::fault(journal, fault))? {
            results.add(&row)?;
            overview.add(&row);
        }
        results.finish()?;
        let start = StudyJob::threads(1).map_err(no_threads)?.install(|| Start::of(job.study, job.cases));
        let run = StudyRun {
            study: job.study,
            overview: &overview,
            start: &start,
            identity: &job.identity,
            version: env!("CARGO_PKG_VERSION"),
            stem: names.stem(),
        };
        let failed = |error| Failure::write(names.folder(), std::io::Error::other(error));
        let files = study_files(&run, self.options.paper).map_err(failed)?;
        pages::write(names, &files)?;
        self.note(Ended::of(header, tally));
        told::tell(&self.terminal, names, header, tally, &job.evaluator.told(), self.options.json)?;
        if !self.options.json {
            let page = names.folder().join("study.html");
            self.terminal
                .note(&format!("Look at {}: the answers, the variants to sort, and pictures.\n", page.display()));
        }
        Ok(())
    }
}

/// The system starts no threads.
fn no_threads(error: strutwork_script::HostError) -> Failure {
    Failure::Request { what: error.to_string(), help: "ask for fewer threads".into() }
}

/// What the name of a journal ends with.
pub(crate) fn journal_extension(shard: Shard) -> String {
    if shard.is_whole() {
        "journal".to_owned()
    } else {
        let [k, n] = <[u64; 2]>::from(shard);
        format!("shard-{k}-of-{n}.journal")
    }
}
