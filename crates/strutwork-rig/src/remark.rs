//! What is said of a sheet: a code, where it stands, what it means, what to do.

use strutwork_model::{Code, Severity};

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $code:literal;)*) => {
        $($(#[$doc])* pub const $name: Code = Code($code);)*

        /// Every code of this crate, in order.
        pub const ALL: &[Code] = &[$($name),*];
    };
}

/// The codes of this crate, in the order of their pages.
pub mod codes {
    use strutwork_model::Code;

    codes! {
        /// One dial counts the other way.
        DIAL_SIGN = "G101";
        /// Left and right are exchanged at a station.
        SIDES_SWAPPED = "G102";
        /// The readings of two stations are exchanged.
        STATIONS_SWAPPED = "G103";
        /// A dial counts in another unit.
        DIAL_UNIT = "G104";
        /// The couple is in another unit, or one step's is mistyped.
        COUPLE_UNIT = "G105";
        /// A reading that does not fit the others.
        OUTLIER = "G106";
        /// A dial that stands still.
        STUCK = "G107";
        /// Readings that are not there.
        MISSING = "G108";
        /// Too few steps.
        TOO_FEW = "G109";
        /// A spacing that does not fit.
        SPACING = "G110";
        /// Nothing is called held, or nothing loaded.
        ROLES = "G111";
        /// The whole sheet twists against the couple.
        AGAINST_COUPLE = "G112";
        /// A jump between two steps.
        SLIP = "G121";
        /// A loop between loading and unloading.
        HYSTERESIS = "G122";
        /// A zero that does not come back.
        ZERO = "G123";
        /// A line that bends.
        CURVED = "G124";
        /// Readings that scatter more than the dials do.
        SCATTER = "G125";
        /// Cycles that were left out.
        SETTLING = "G126";
        /// A rig that yields.
        SINK = "G127";
        /// Measured and modelled stiffness differ.
        DIFFERS = "G131";
        /// Measured and modelled stiffness agree.
        AGREES = "G132";
        /// A bay twists more or less than the model says.
        BAY = "G133";
        /// A station that alone departs.
        STATION = "G134";
        /// The sheet cannot be held against the model.
        NO_MODEL = "G135";
        /// No stiffness can be stated.
        NO_STIFFNESS = "G136";
        /// Corner weights do not add up to the total.
        CORNERS_SUM = "G201";
        /// Corner weights are exchanged.
        CORNERS_SWAPPED = "G202";
        /// A weight in another unit.
        WEIGHT_UNIT = "G203";
        /// A part weighs something else than in the model.
        PART_DIFFERS = "G204";
        /// The centre of gravity is elsewhere than in the model.
        CENTRE_DIFFERS = "G205";
        /// A height of the centre of gravity that says little.
        HEIGHT_VAGUE = "G206";
        /// Diagonal corners carry more than the model says.
        CROSS_WEIGHT = "G207";
        /// Corner weights that cannot be held against the model.
        CORNERS_UNHELD = "G208";
    }
}

/// Something said of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Its stable code.
    pub code: Code,
    /// Note: good to know; warning: look at it; error: it exceeds what can be relied on.
    pub severity: Severity,
    /// What it is about: a station, two of them, a part; empty for the sheet as a whole.
    pub subject: String,
    /// The file, and the line where it stands; 0 for the file as a whole.
    pub place: (&'static str, usize),
    /// The figure behind it, in `unit`; `None` for none.
    pub value: Option<f64>,
    /// The door unit of the figure; empty for a ratio.
    pub unit: &'static str,
    /// What was found, and what was done about it.
    pub message: String,
    /// What usually causes it, and what to do.
    pub remedy: String,
}

impl Remark {
    /// A warning about the rig's sheet.
    pub(crate) fn rig(code: Code, subject: &str, line: usize, message: String, remedy: impl Into<String>) -> Self {
        Self {
            code,
            severity: Severity::Warning,
            subject: subject.to_owned(),
            place: (strutwork_model::files::RIG, line),
            value: None,
            unit: "",
            message,
            remedy: remedy.into(),
        }
    }

    /// The same with its figure.
    pub(crate) fn with(self, value: f64, unit: &'static str) -> Self {
        Self { value: Some(value), unit, ..self }
    }

    /// The same as a note.
    pub(crate) fn noted(self) -> Self {
        Self { severity: Severity::Note, ..self }
    }

    /// The same in another file.
    pub(crate) fn of_file(self, file: &'static str) -> Self {
        Self { place: (file, self.place.1), ..self }
    }
}
