//! The journal file: begun, or gone on with where its whole lines end.

use std::fs::{File, OpenOptions};
use std::io::{self, BufReader, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use strutwork_study::Row;
use strutwork_study::journal::{Header, JournalFault, Reader};

use crate::exit::Failure;

/// How often the system is told to put the journal onto the disk. A killed program loses nothing; a power cut this much.
const SYNC: Duration = Duration::from_millis(500);

/// A journal that is written to. No other run can write to it meanwhile.
pub(crate) struct Journal {
    path: PathBuf,
    file: File,
    header: Header,
    synced: Instant,
    /// The first variant that it does not hold.
    pub next: u64,
}

impl Journal {
    /// Opens the journal of a study, or begins it. What it holds is handed over.
    ///
    /// # Errors
    /// [`Failure::Occupied`] where another run writes to it, or it is of another study; [`Failure::Request`] where a line in
    /// the middle is damaged; [`Failure::File`].
    pub(crate) fn open(path: &Path, header: Header, fresh: bool, take: &mut dyn FnMut(&Row)) -> Result<Self, Failure> {
        let fail = |cause| Failure::write(path, cause);
        let file = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path).map_err(fail)?;
        if file.try_lock().is_err() {
            return Err(Failure::Occupied {
                path: path.to_owned(),
                why: "another run is writing to it",
                help: "wait for it, or give this one another folder with --out",
            });
        }
        let next = header.shard.range(header.variants).start;
        let mut journal = Self { path: path.to_owned(), file, header, synced: Instant::now(), next };
        if fresh || !journal.go_on(take)? {
            journal.begin().map_err(fail)?;
        }
        Ok(journal)
    }

    /// Starts over.
    fn begin(&mut self) -> io::Result<()> {
        self.file.set_len(0)?;
        self.file.seek(SeekFrom::Start(0))?;
        self.file.write_all(self.header.line().as_bytes())?;
        self.file.sync_data()
    }

    /// Reads what is there, and cuts off a torn last line; `false` where there is not even a first line.
    fn go_on(&mut self, take: &mut dyn FnMut(&Row)) -> Result<bool, Failure> {
        let read_fault = |fault| self::fault(&self.path, fault);
        let file = self.file.try_clone().map_err(|cause| Failure::read(&self.path, cause))?;
        let mut reader = match Reader::new(BufReader::new(file)) {
            Err(JournalFault::Empty) if self.header.line().as_bytes().starts_with(&self.beginning()?) => {
                return Ok(false);
            }
            Err(JournalFault::Empty) => return Err(read_fault(JournalFault::NotAJournal)),
            other => other.map_err(read_fault)?,
        };
        let known = reader.header();
        let why = if known.study == self.header.study && known.version == self.header.version {
            (*known != self.header)
                .then(|| format!("it is of shard {}, and this is {}", known.shard, self.header.shard))
        } else {
            self.header.differs(known)
        };
        if let Some(why) = why {
            return Err(Failure::Request {
                what: format!("{} cannot be gone on with: {why}", self.path.display()),
                help:
                    "give another folder with --out; or, if what it holds is not needed any more, --fresh to start over"
                        .into(),
            });
        }
        reader.each(|row| take(&row)).map_err(read_fault)?;
        self.next = reader.next_variant();
        let whole = reader.whole_bytes();
        let fail = |cause| Failure::write(&self.path, cause);
        self.file.set_len(whole).map_err(fail)?;
        self.file.seek(SeekFrom::Start(whole)).map_err(fail)?;
        Ok(true)
    }

    /// What stands in a file without a whole line, as far as a first line can be long.
    fn beginning(&self) -> Result<Vec<u8>, Failure> {
        let fail = |cause| Failure::read(&self.path, cause);
        let mut file = self.file.try_clone().map_err(fail)?;
        file.seek(SeekFrom::Start(0)).map_err(fail)?;
        let mut bytes = Vec::new();
        Read::take(file, 1 << 20).read_to_end(&mut bytes).map_err(fail)?;
        Ok(bytes)
    }

    /// Adds finished variants: in one write, so that a kill tears one line at most.
    ///
    /// # Errors
    /// [`Failure::File`].
    pub(crate) fn add(&mut self, rows: &[Row]) -> Result<(), Failure> {
        let mut lines = String::new();
        for row in rows {
            lines.push_str(&self.header.row_line(row));
        }
        let fail = |cause| Failure::write(&self.path, cause);
        self.file.write_all(lines.as_bytes()).map_err(fail)?;
        self.next += rows.len() as u64;
        if self.synced.elapsed() > SYNC {
            self.sync()?;
        }
        Ok(())
    }

    /// Puts everything onto the disk.
    ///
    /// # Errors
    /// [`Failure::File`].
    pub(crate) fn sync(&mut self) -> Result<(), Failure> {
        self.file.sync_data().map_err(|cause| Failure::write(&self.path, cause))?;
        self.synced = Instant::now();
        Ok(())
    }
}

/// A journal opened for reading alone.
///
/// # Errors
/// [`Failure::File`], [`Failure::Request`] where it is none.
pub(crate) fn read(path: &Path) -> Result<Reader<BufReader<File>>, Failure> {
    let file = File::open(path).map_err(|cause| Failure::read(path, cause))?;
    Reader::new(BufReader::new(file)).map_err(|fault| self::fault(path, fault))
}

/// What is wrong with a journal, and what to do.
pub(crate) fn fault(path: &Path, fault: JournalFault) -> Failure {
    let what = format!("{}: {fault}", path.display());
    match fault {
        JournalFault::System(cause) => Failure::read(path, cause),
        JournalFault::Damaged { line, .. } => Failure::Request {
            what,
            help: format!(
                "the lines before it are whole: keep those alone (`head -n {} FILE > whole && mv whole FILE`) and run the study \
                 again, which goes on from there; or start over with --fresh",
                line - 1
            ),
        },
        JournalFault::Empty | JournalFault::NotAJournal => Failure::Request {
            what,
            help: "move it away, or give another folder with --out; --fresh writes over it".into(),
        },
    }
}
